//! The lines of a mesh, and how flats lie along them.

/// How a line lies in a flat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LinePart {
    /// The flat ends there.
    Edge,
    /// The flat runs through.
    Interior,
}

/// A flat along a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LineFlat {
    /// The flat.
    pub flat: usize,
    /// Whether it ends or runs through.
    pub part: LinePart,
}

/// An extra segment, by its flat and its number there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Extra {
    /// The flat that asked for it.
    pub flat: usize,
    /// Index in the flat's `segments`.
    pub segment: usize,
}

/// A straight chain of nodes along which the same flats meet in the same way, as long as it
/// can be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MeshLine {
    /// Nodes in order along the line, ends included.
    pub nodes: Vec<usize>,
    /// The flats it lies in, in order.
    pub flats: Vec<LineFlat>,
    /// The extra segments it is part of.
    pub extras: Vec<Extra>,
}
