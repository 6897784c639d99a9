//! The whole-tank strength check, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::StrengthKind;

pub(super) fn said(_words: &Words<'_>, kind: &StrengthKind) -> Said {
    match *kind {}
}
