//! Findings of a stage: how the sheets are cut.

use crate::name::PanelName;
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// How the sheets are cut.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum CutKind {
    /// The shop has a router, and the layout is for a saw.
    SawOnly,
    /// The stock has no sheet of a thickness.
    NoStock {
        /// Which thickness.
        #[serde(rename = "thickness_m")]
        thickness: Length,
        /// What it is wanted for.
        panels: Vec<PanelName>,
        /// A sheet of the stock that is sold as the same size, as 5/16 in and 8 mm are; none where there is none.
        #[serde(rename = "sold_as_m")]
        sold_as: Option<Length>,
    },
    /// Panels are larger than any sheet of their thickness.
    TooLarge {
        /// Which thickness.
        #[serde(rename = "thickness_m")]
        thickness: Length,
        /// Which panels.
        panels: Vec<PanelName>,
    },
    /// The largest crosscut of the saw frees no blank for some panels.
    CrosscutTooShort(Vec<PanelName>),
    /// There are too few sheets.
    StockShort {
        /// Of which thickness.
        #[serde(rename = "thickness_m")]
        thickness: Length,
        /// Whether that is proven; otherwise no layout that was tried takes all panels.
        proven: bool,
        /// What is left over.
        panels: Vec<PanelName>,
    },
    /// A layout uses more sheets than are proven to be needed.
    AboveLeast {
        /// Of which thickness.
        #[serde(rename = "thickness_m")]
        thickness: Length,
        /// How many more.
        sheets: usize,
    },
}
