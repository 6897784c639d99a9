//! Grooves, rod and the order of work, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::WeldKind;

pub(super) fn said(_words: &Words<'_>, kind: &WeldKind) -> Said {
    match *kind {}
}
