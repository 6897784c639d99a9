//! The tank's outside, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::BodyKind;

pub(super) fn said(_words: &Words<'_>, kind: &BodyKind) -> Said {
    match *kind {}
}
