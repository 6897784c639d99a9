//! `[space]`: the measured hole the tank must go into.

mod measured;
mod scan;
mod taped;
mod way_in;

pub use measured::{Measured, Station, Twisted};
pub use scan::Scan;
pub use taped::{Base, LeaningWall, TapedRoom};
pub use way_in::{Side, WayIn};

use super::place::Place;
use super::reader::{Bound, Section};
use super::shape::Obstacle;
use brimful_units::Length;

/// The measured hole the tank must go into.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// The clear inside, before obstacles and clearance are taken off.
    pub measured: Measured,
    /// How a measured side whose corners lie in no one plane is faced with flat sheet.
    pub twisted: Twisted,
    /// Air kept between the tank and everything beside and above it; not under it, where it rests.
    pub clearance: Length,
    /// Room kept free above the tank for fittings and hands; where it is less than the clearance,
    /// the clearance counts.
    pub keep_above: Length,
    /// Room kept free under the tank: foam, battens, bilge water.
    pub keep_below: Length,
    /// What sticks into the space.
    pub obstacles: Vec<Obstacle>,
    /// What nothing stands in, yet must stay free: the swing of a hatch, the hand at a tap.
    pub keep_free: Vec<Obstacle>,
    /// The opening the tank must pass to get in; none: it is lifted straight in.
    pub way_in: Option<WayIn>,
    /// Where the section is written.
    pub place: Place,
}

impl Space {
    /// Reads `[space]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let measured = Measured::read(section);
        let twisted = section.defaulted("twisted", Twisted::read);
        let clearance = section.defaulted("clearance", |field| field.length(Bound::NotNegative));
        let keep_above = section.defaulted("keep_above", |field| field.length(Bound::NotNegative));
        let keep_below = section.defaulted("keep_below", |field| field.length(Bound::NotNegative));
        let obstacles = Obstacle::read_all(section, "obstacle", "obstacle");
        let keep_free = Obstacle::read_all(section, "keep_free", "zone");
        let way_in = section.optional("way_in", |field| WayIn::read(section, field));
        section.refuse_unknown_keys();
        Some(Self {
            measured: measured?,
            twisted: twisted?,
            clearance: clearance?,
            keep_above: keep_above?,
            keep_below: keep_below?,
            obstacles: obstacles?,
            keep_free: keep_free?,
            way_in: way_in?,
            place: section.place(),
        })
    }
}
