//! The kinds of inner panel.

/// Baffle, divider or stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InnerKind {
    /// With openings; slows the liquid down.
    Baffle,
    /// Without any; keeps two liquids apart.
    Divider,
    /// A strip from wall to wall that ties the two together; liquid runs round it.
    Stay,
}
