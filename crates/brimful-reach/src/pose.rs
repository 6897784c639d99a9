//! One pose of tool and arm, or one line of sight, as solids.

use crate::blocks::Plates;
use crate::capsule::Capsule;

/// What a solid of a pose is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PosePart {
    /// A part of the tool.
    Tool,
    /// The hand on its grip.
    Hand,
    /// What is fed in, with the hand that feeds it.
    Feed,
    /// From grip to elbow.
    Forearm,
    /// From elbow to shoulder.
    UpperArm,
    /// Head and shoulders, where they follow the arm in.
    Body,
    /// What has to be clear between eye and work; the head where it has followed it in.
    Sight,
}

/// A solid of a pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PoseSolid {
    /// What it is.
    pub part: PosePart,
    /// Where it is, without the clearance that is kept of it.
    pub capsule: Capsule,
}

/// A pose that runs into the fewest of the plates that stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Pose {
    /// Its solids.
    pub solids: Vec<PoseSolid>,
    /// What it runs into; nothing where it is free.
    pub runs_into: Plates,
}

impl Pose {
    /// Both poses at once.
    #[must_use]
    pub(crate) fn with(mut self, other: Self) -> Self {
        self.solids.extend(other.solids);
        self.runs_into = self.runs_into.and(other.runs_into);
        self
    }
}
