//! The answer: layouts, what could not be laid, and how near the best it is.

use crate::bound::Bound;
use crate::layout::Layout;

/// Everything about one order.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// One a sheet used, in order of use.
    pub layouts: Vec<Layout>,
    /// Parts that are on no sheet, and why.
    pub left_out: Vec<LeftOut>,
    /// What no plan can undercut.
    pub bound: Bound,
    /// Sum of the costs of the sheets used.
    pub cost: f64,
    /// How near the best possible this is.
    pub verdict: Verdict,
    /// Ways of placing one more part that were weighed.
    pub nodes: usize,
}

/// How near the best possible a plan is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// No plan costs less and none of that cost uses fewer sheets: proven by the bound.
    ProvenBest,
    /// A better plan has not been excluded.
    Gap {
        /// Sheets used above the bound.
        sheets: usize,
        /// Cost above the bound.
        cost: f64,
    },
    /// Parts that would fit a sheet are left over because the sheets on hand ran out.
    StockShort {
        /// True where the bound proves that the sheets on hand cannot hold the parts.
        proven: bool,
    },
}

/// A part that is on no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// The part's id.
    pub part: usize,
    /// Why.
    pub why: Why,
}

/// Why a part is on no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It is larger than every trimmed sheet, in each way it may lie.
    FitsNoSheet,
    /// The saw's largest crosscut left no way to free it from a sheet that is large enough.
    NoCutFreesIt,
    /// The sheets on hand are used up.
    StockUsedUp,
}
