//! How a verb ends.

use brimful_tank::plan::Plan;

/// How a verb ends when it is done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Nothing stops the build.
    Clear,
    /// A finding of grade stop, or a part that a draft has no verdict on.
    Stopped,
}

impl Outcome {
    /// Whether the whole plan, not only the part of it that is shown, may be built.
    pub(crate) fn of_plan(plan: &Plan) -> Self {
        match plan.stops() || !plan.is_checked() {
            true => Self::Stopped,
            false => Self::Clear,
        }
    }
}
