//! What keeps a tool, the hand that holds it and the arm behind it from a place of work.
//!
//! Plain metres and radians, right-handed. The crate knows nothing of tanks: obstacles are flat plates
//! with holes ([`Obstacle`]), tool and person are capsules ([`Tool`], [`Arm`]).
//!
//! Plates never move against one another, so each pose of tool and arm is put against all of them once. What
//! is kept of a [`Place`] is, for each pose, the set of plates that it runs into, and of those sets only
//! the ones that contain no other ([`Blocks`]). Whether a place is reached while some of the plates stand is
//! then a question to a few bit sets. That is the form in which the reach of a tool becomes an order of
//! assembly (R. H. Wilson, *Geometric reasoning about assembly tools*, Artificial Intelligence 98, 1998).
//!
//! Poses are samples: a place that is called reached is reached by the pose that was found, as far as the solids go; one
//! that is not called so may be reached by a pose between two samples. What is not looked at: whether
//! the tool can be brought to its pose from outside, what hides the work from the eye other than plates,
//! and whether two hands get in each other's way.

mod arm;
mod blocks;
mod capsule;
mod obstacle;
mod place;
mod pose;
mod search;
mod tool;

pub use arm::Arm;
pub use blocks::{Blocks, Plates};
pub use capsule::Capsule;
pub use obstacle::Obstacle;
pub use place::Place;
pub use pose::{Pose, PosePart, PoseSolid};
pub use search::{Scene, Sight, WayOut};
pub use tool::{Part, Tool};
