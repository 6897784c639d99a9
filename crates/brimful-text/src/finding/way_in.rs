//! How it gets to its place, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::WayInKind;

pub(super) fn said(_words: &Words<'_>, kind: &WayInKind) -> Said {
    match *kind {}
}
