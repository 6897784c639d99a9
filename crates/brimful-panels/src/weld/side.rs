//! The side of the tank that a weld is laid from.

/// The side of the tank a weld is laid from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WeldSide {
    /// From the liquid's side.
    Inside,
    /// From the dry side.
    Outside,
}

impl WeldSide {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Inside => "inside",
            Self::Outside => "outside",
        }
    }
}
