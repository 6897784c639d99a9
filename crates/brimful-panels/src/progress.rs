//! Progress of long work: what it is at, and whether it is still wanted.

use crate::finding::kind::{Variant, What};

/// Whoever waits for long work.
///
/// Work that is no longer wanted may be ended anywhere; what it gives is then of no use.
pub trait Progress: Sync {
    /// Whether the work is no longer wanted.
    fn is_cancelled(&self) -> bool;
    /// What is being done now.
    fn step(&self, step: Step);
}

/// A step of long work.
#[derive(Clone, Debug, PartialEq)]
pub enum Step {
    /// The whole tank under all its loads on one mesh.
    Strength {
        /// How many loads.
        loads: usize,
        /// How fine the mesh is.
        triangles: usize,
    },
    /// What the job leaves to be chosen.
    TryingVariant(Variant),
    /// A change that may make the tank hold.
    TryingChange(What),
    /// A change goes through all checks.
    CheckingChange(What),
    /// Bodies that fit the space.
    FindingBodies,
    /// What they come to as tanks.
    LayingOutBodies {
        /// How many.
        count: usize,
    },
    /// Ways to hold more.
    Gains,
    /// The papers of a plan.
    Papers,
}

/// Nobody waits: the work goes on to its end.
#[derive(Clone, Copy, Debug)]
pub struct Unwatched;

impl Progress for Unwatched {
    fn is_cancelled(&self) -> bool {
        false
    }

    fn step(&self, _step: Step) {}
}
