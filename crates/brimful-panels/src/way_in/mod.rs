//! The way in: whether a body gets through the opening and to its place, and how.
//!
//! The searching and proving is `geom::passage`'s. Where the job does not say in which side of the
//! space the opening is, a body that passes it straight in any attitude gets in. Where it does, the
//! body must come to its place: pushed and shifted without turning, proven leg by leg, or else by a
//! planned slide and turn. What does not get in whole is parted into pieces that do (`pieces`), or
//! trimmed (`trim`).

mod entry;
mod finding;
mod opening;
mod outline;
mod pieces;
mod search;
mod tank;
mod trim;
mod whole;

pub use crate::finding::kind::{
    Attitude, BodyAxis, EntrySummary, FittingsOnWay, NoWay, NoWayWhole, PieceFittings, PieceNeed,
    PiecesSummary,
};
pub use entry::{Entry, Joint, Look, Passage, Piece};
pub use outline::outline;
pub use search::entry;
pub use tank::{TankEntry, of_tank};
pub use trim::trimmed;
