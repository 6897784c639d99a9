//! A fault of a shape in words.

use crate::text::Text;

/// A fault in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FaultText {
    /// What is wrong, in a sentence.
    pub says: Text,
    /// What would cure it, in a sentence.
    pub remedy: Text,
}

impl FaultText {
    pub(crate) fn new(says: Text, remedy: Text) -> Self {
        Self { says, remedy }
    }
}
