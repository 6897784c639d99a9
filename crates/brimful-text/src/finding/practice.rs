//! Rules of practice, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::PracticeKind;

pub(super) fn said(_words: &Words<'_>, kind: &PracticeKind) -> Said {
    match *kind {}
}
