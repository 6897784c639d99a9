//! Why an edit cannot be made.

/// Why the edits of a text cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum EditRefused {
    /// The text is no TOML, so that it can only be written as a whole.
    NotToml,
    /// A place cannot be changed, and why.
    Misplaced {
        /// The place, as it was sent.
        path: String,
        /// Why.
        reason: &'static str,
    },
}

pub(super) type Edited = Result<(), &'static str>;

pub(super) const NO_BLOCK: &str = "what is there holds no entries of its own";
pub(super) const NO_LIST: &str = "what is there is no list";
pub(super) const NOT_THERE: &str = "there is nothing there";
