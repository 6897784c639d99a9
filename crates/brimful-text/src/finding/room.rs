//! The room about the tank, full and warm, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::RoomKind;

pub(super) fn said(_words: &Words<'_>, kind: &RoomKind) -> Said {
    match *kind {}
}
