//! Changes that would make it hold, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::RemedyKind;

pub(super) fn said(_words: &Words<'_>, kind: &RemedyKind) -> Said {
    match *kind {}
}
