//! The quick strength check, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::QuickKind;

pub(super) fn said(_words: &Words<'_>, kind: &QuickKind) -> Said {
    match *kind {}
}
