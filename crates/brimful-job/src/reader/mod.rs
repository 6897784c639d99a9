//! Walks the tree of a job file and gathers every fault on the way.
//!
//! A [`Section`] is a table, a [`Field`] one value. Reading gives `None` after a fault has been
//! noted, so that a caller reads all there is and only then puts the parts together with `?`.
//! A section learns which keys are known by being asked for them; what was never asked for is an
//! unknown key.

mod complaint;
mod field;
mod measure;
mod reading;
mod section;
mod trace;

pub(super) use complaint::{Complaint, shortened};
pub(super) use field::{Bound, Field, LONGEST, MOST_IN_A_LIST};
pub(super) use reading::{BareLengths, Reading};
pub(super) use section::Section;
pub(super) use trace::Trace;
