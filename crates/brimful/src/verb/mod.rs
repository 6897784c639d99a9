//! The verbs, a file each: from the call's arguments to the answer.

pub(crate) mod check;
pub(crate) mod cut;
pub(crate) mod explain;
pub(crate) mod fit;
pub(crate) mod gauge;
pub(crate) mod new;
pub(crate) mod pack;
pub(crate) mod serve;
pub(crate) mod weld;

use crate::Outcome;
use brimful_tank::plan::Plan;

/// What any verb ends with: whether the whole plan, not only the part shown, may be built.
fn outcome(plan: &Plan) -> Outcome {
    if plan.stops() {
        Outcome::Stopped
    } else {
        Outcome::Clear
    }
}
