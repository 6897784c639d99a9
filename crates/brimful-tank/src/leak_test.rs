//! The stages in which a tank is filled for its leak test, and how long each stands.

use brimful_panels::weld::bench::TEST_WAIT;
use brimful_units::Time;

/// How far it is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// About a quarter of what it is rated to hold.
    Quarter,
    /// About half of it.
    Half,
    /// What it is rated to hold.
    Rated,
    /// Brim-full.
    Brim,
}

impl Stage {
    /// All of them, in the order of the test.
    pub const ALL: [Self; 4] = [Self::Quarter, Self::Half, Self::Rated, Self::Brim];

    /// How long it stands: DVS 2205 and 2206, and shop practice, from memory.
    pub fn wait(self) -> Time {
        match self {
            Self::Quarter | Self::Half => Time::from_minutes(15.0),
            Self::Rated => Time::from_hours(1.0),
            Self::Brim => TEST_WAIT,
        }
    }
}
