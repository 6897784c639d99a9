//! What the pages are printed on.

/// The paper that the pages are printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm by 297 mm.
    #[default]
    A4,
    /// 8 1/2 in by 11 in.
    Letter,
}
