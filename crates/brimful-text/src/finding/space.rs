//! What was measured, and whether a body keeps to it, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::SpaceKind;

pub(super) fn said(_words: &Words<'_>, kind: &SpaceKind) -> Said {
    match *kind {}
}
