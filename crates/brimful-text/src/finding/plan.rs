//! The plan as a whole, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::PlanKind;

pub(super) fn said(_words: &Words<'_>, kind: &PlanKind) -> Said {
    match *kind {}
}
