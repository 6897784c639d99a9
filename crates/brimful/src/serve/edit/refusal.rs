//! Why an edit cannot be made.

pub(super) type Edited = Result<(), &'static str>;

pub(super) const NO_BLOCK: &str = "what is there holds no entries of its own";
pub(super) const NO_LIST: &str = "what is there is no list";
pub(super) const NOT_THERE: &str = "there is nothing there";
