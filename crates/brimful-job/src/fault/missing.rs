//! What must be there and is not.

/// What must be there and is not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missing {
    /// A key of a section.
    Key {
        /// The key.
        key: &'static str,
        /// What to write, in a sentence of the reference of keys.
        write: &'static str,
    },
    /// The section of the liquid.
    LiquidSection,
    /// The kind or the density of the liquid.
    LiquidDensity,
    /// Both space and body.
    SpaceAndBody,
    /// Any shape.
    Shape,
    /// What limits a shape in one direction.
    Extent {
        /// The key that would: `length`, `width` or `height`.
        key: &'static str,
    },
    /// The floor of a taped space.
    Floor,
    /// What closes a taped space above.
    Height,
    /// The second station.
    SecondStation,
    /// The scan that a key belongs to.
    ScanFile {
        /// The key.
        key: &'static str,
    },
    /// The unit of a scan.
    ScanUnit,
    /// The size of the hole of an opening.
    HoleSize,
}

impl Missing {
    /// The keys that would have given it: where one of them is misspelt, that is the fault.
    pub(crate) fn keys(&self) -> Vec<&'static str> {
        match *self {
            Self::Key { key, .. } => vec![key],
            Self::LiquidSection => vec!["liquid"],
            Self::LiquidDensity => vec!["kind", "density"],
            Self::SpaceAndBody => vec!["space", "body"],
            Self::Shape => vec!["box", "plan", "side", "front", "corners", "fitted"],
            Self::Extent { key } => vec![key, "plan", "side", "front"],
            Self::Floor => vec!["box", "sides", "plan"],
            Self::Height => vec!["height", "corner_heights"],
            Self::SecondStation => vec!["station"],
            Self::ScanFile { .. } => vec!["scan"],
            Self::ScanUnit => vec!["scan_unit"],
            Self::HoleSize => vec!["diameter", "width", "height"],
        }
    }
}
