//! What a tank takes to make.

use brimful_panels::weld::rod::RodTotal;
use brimful_units::{Length, Mass, Time};

/// Rod and working time: in the order of a draft, or in that which was searched for, in which an extruder does not get
/// everywhere.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Length of all rods.
    pub rod: Length,
    /// Their mass.
    pub rod_mass: Mass,
    /// Working time.
    pub work: Time,
}

impl Effort {
    /// Of these rods and so much work.
    pub fn of(rods: &[RodTotal], work: Time) -> Self {
        Self {
            rod: rods.iter().map(|it| it.length).sum(),
            rod_mass: rods.iter().map(|it| it.mass).sum(),
            work,
        }
    }
}
