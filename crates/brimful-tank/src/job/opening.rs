//! `[[opening]]`: fittings and hatches.

use super::place::Place;
use brimful_units::Length;

/// A hole in a panel and what it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// What the shop calls it.
    pub name: String,
    /// What it is for.
    pub service: Service,
    /// The name of the panel.
    pub panel: String,
    /// Its middle, from the panel's lower-left corner, seen from outside.
    pub at: [Length; 2],
    /// The hole.
    pub size: OpeningSize,
    /// The diameter of the flat the fitting covers; none: the hole's own size.
    pub flange: Option<Length>,
    /// Where it is written.
    pub place: Place,
}

/// What an opening is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Service {
    /// Liquid in.
    Fill,
    /// Air in and out.
    Vent,
    /// Liquid out, in use.
    Draw,
    /// The last of the liquid out.
    Drain,
    /// A level sender.
    Sender,
    /// A hand in.
    Hatch,
    /// Liquid out when too full.
    Overflow,
}

/// The hole of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OpeningSize {
    /// A round hole.
    Round {
        /// Its diameter.
        diameter: Length,
    },
    /// A rectangular hole.
    Rectangle {
        /// Across, seen from outside.
        width: Length,
        /// Up, seen from outside.
        height: Length,
    },
}
