//! Where in the job file something stands.

use std::ops::Range;

/// A place in the job file, so that a fault found later can still name the line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// The line, counted from 1; 0 for what no line of the file holds (a default).
    pub line: usize,
    /// The character in the line, counted from 1; 0 as for the line.
    pub column: usize,
    /// The bytes of the file.
    pub span: Range<usize>,
}
