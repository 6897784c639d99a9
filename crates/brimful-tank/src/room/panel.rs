//! The room before one panel.

use brimful_units::Length;

/// How far out is looked: nothing that a tank does reaches further.
pub(super) const LOOKED: Length = Length::from_mm(500.0);

/// The room before one panel: gap, ribs, bulge and welds at the place where least is left.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelRoom {
    /// Number of the panel.
    pub panel: usize,
    /// To what is beside the bare panel; none where nothing is within half a metre.
    pub gap: Option<Length>,
    /// What the job asks to be kept free there.
    pub clearance: Length,
    /// Whether the tank stands on it, so that nothing is asked.
    pub carries: bool,
    /// Taken by ribs that stand out there.
    pub ribs: Length,
    /// Growth by warmth over the whole span, by the least and the greatest coefficient; none where
    /// no table has them.
    pub growth: Option<[Length; 2]>,
    /// Bulge outward there, or the greatest of the panel where nothing is near; none where no check covers it.
    pub bulge: Option<Length>,
    /// How far welds stand out of its face there, or at most where nothing is near.
    pub weld: Length,
    /// What is left over at the greatest growth; none where nothing is near or something not known.
    pub left: Option<Length>,
}
