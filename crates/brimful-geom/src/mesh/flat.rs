//! What is meshed.

use crate::frame::Frame;
use crate::polygon::Outline;
use crate::vector::Point2;

/// A plane polygon to be meshed, joined to the others wherever they touch along a line.
#[derive(Clone, Debug)]
pub struct Flat {
    /// Where it lies: `outlines`, `segments` and `points` are in its x and y.
    pub frame: Frame,
    /// Outer outline, counter-clockwise, then the holes, clockwise. They must not touch.
    pub outlines: Vec<Outline>,
    /// Wanted length of element sides, m.
    pub size: f64,
    /// Further lines that must be lines of the mesh; what sticks out of the flat is cut off.
    pub segments: Vec<(Point2, Point2)>,
    /// Further places that must be nodes.
    pub points: Vec<Point2>,
}

impl Flat {
    /// Area inside the outlines, m2.
    pub(super) fn area(&self) -> f64 {
        self.outlines.iter().map(Outline::signed_area).sum()
    }
}
