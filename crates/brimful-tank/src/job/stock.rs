//! `[stock]`: the sheets, offcuts and rod there are.

use super::place::Place;
use brimful_units::{Length, Mass};

/// The sheets, offcuts and rod there are.
#[derive(Clone, Debug, PartialEq)]
pub struct Stock {
    /// The plastic of sheet and rod: `HDPE` or `PP`.
    pub material: String,
    /// Its colour.
    pub colour: Option<String>,
    /// Sheets and offcuts; never empty.
    pub sheets: Vec<SheetStock>,
    /// Rods; never empty.
    pub rods: Vec<RodStock>,
}

/// One size of sheet or offcut.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetStock {
    /// The two sides, as written.
    pub size: [Length; 2],
    /// The thickness.
    pub thickness: Length,
    /// How many there are; none: as many as are needed can be bought.
    pub count: Option<u32>,
    /// Price of one, in the currency of the quote.
    pub price: Option<f64>,
    /// A piece left over from another job.
    pub offcut: bool,
    /// Where it is written.
    pub place: Place,
}

/// One size of rod.
#[derive(Clone, Debug, PartialEq)]
pub struct RodStock {
    /// The diameter (round), or the side (triangular).
    pub diameter: Length,
    /// The section.
    pub form: RodForm,
    /// How much there is by mass.
    pub mass: Option<Mass>,
    /// How much there is by length.
    pub length: Option<Length>,
    /// Price of a kilogram, in the currency of the quote.
    pub price: Option<f64>,
    /// Where it is written.
    pub place: Place,
}

/// The section of a rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RodForm {
    /// Round.
    Round,
    /// Triangular.
    Triangular,
}
