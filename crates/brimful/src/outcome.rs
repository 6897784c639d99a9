//! How a verb ends.

use brimful_tank::plan::Plan;

/// How a verb ends when it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Nothing stops the build.
    Clear,
    /// A finding of grade stop.
    Stopped,
}

impl Outcome {
    /// Whether the whole plan, not only the part of it that is shown, may be built.
    pub(crate) fn of_plan(plan: &Plan) -> Self {
        if plan.stops() {
            Self::Stopped
        } else {
            Self::Clear
        }
    }
}
