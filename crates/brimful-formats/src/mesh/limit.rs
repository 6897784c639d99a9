//! The largest surface that is read.

/// A scan of more is thinned out first.
pub const MOST_TRIANGLES: usize = 5_000_000;

/// Triangles that share no corner have three points each.
pub(super) const MOST_POINTS: usize = 3 * MOST_TRIANGLES;
