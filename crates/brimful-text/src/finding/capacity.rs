//! What it holds, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::CapacityKind;

pub(super) fn said(_words: &Words<'_>, kind: &CapacityKind) -> Said {
    match *kind {}
}
