//! Bodies offered for a space, in words.

use super::Said;
use crate::Words;
use brimful_tank::finding::kind::FitKind;

pub(super) fn said(_words: &Words<'_>, kind: &FitKind) -> Said {
    match *kind {}
}
