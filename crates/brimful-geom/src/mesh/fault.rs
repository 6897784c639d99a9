//! What cannot be meshed, and why.

use crate::polygon::OutlineFault;
use crate::vector::Point3;
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt;

/// Why flats could not be meshed. Flats, outlines, segments and points count from 0.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MeshFault {
    /// A number of the size policy, or the merge tolerance, is not usable.
    Policy(&'static str),
    /// The wanted size of a flat is not a positive number (flat, size).
    FlatSize(usize, f64),
    /// The axes of a flat's frame are not square and of length one.
    Frame(usize),
    /// The flat has no outline.
    NoOutline(usize),
    /// An outline cannot be used (flat, outline, reason).
    Outline(usize, usize, OutlineFault),
    /// An outline runs the wrong way round (flat, outline).
    WrongWay(usize, usize),
    /// Two sides of a flat come within the merge tolerance of each other (flat, place).
    SidesTouch(usize, Point3),
    /// Two flats in one plane lie on each other (first, second, place).
    Overlap(usize, usize, Point3),
    /// An extra segment is wholly outside its flat (flat, segment).
    SegmentOutside(usize, usize),
    /// An extra point is outside its flat (flat, point).
    PointOutside(usize, usize),
    /// Two lines in a flat cross where they have no common node (flat, place).
    LinesCross(usize, Point3),
    /// The mesh would have more nodes than allowed (flat, limit).
    TooManyNodes(usize, usize),
    /// The triangles do not add up to the area of the flat (flat, found m2, wanted m2).
    AreaLost(usize, f64, f64),
}

impl fmt::Display for MeshFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let at = |p: &Point3| format!("({:.4}, {:.4}, {:.4}) m", p.x, p.y, p.z);
        match self {
            Self::Policy(what) => write!(f, "The mesh cannot be sized: {what}."),
            Self::FlatSize(flat, size) => write!(
                f,
                "Flat {flat} asks for elements of {size} m; give a size above zero."
            ),
            Self::Frame(flat) => write!(
                f,
                "The axes of the frame of flat {flat} are not square to each other and of length \
                 one; give a right-handed unit frame."
            ),
            Self::NoOutline(flat) => write!(f, "Flat {flat} has no outline; give it one."),
            Self::Outline(flat, outline, fault) => write!(
                f,
                "Outline {outline} of flat {flat} cannot be meshed, because {fault}; mend the \
                 outline."
            ),
            Self::WrongWay(flat, outline) => write!(
                f,
                "Outline {outline} of flat {flat} runs the wrong way round; the first outline \
                 must be counter-clockwise and holes clockwise."
            ),
            Self::SidesTouch(flat, place) => write!(
                f,
                "Two sides of flat {flat} come together at {}, within the merge tolerance; move \
                 them apart or merge less.",
                at(place)
            ),
            Self::Overlap(a, b, place) => write!(
                f,
                "Flats {a} and {b} lie on each other at {}; cut one back to the edge of the other.",
                at(place)
            ),
            Self::SegmentOutside(flat, segment) => write!(
                f,
                "Segment {segment} of flat {flat} lies outside the flat; move it onto the flat."
            ),
            Self::PointOutside(flat, point) => write!(
                f,
                "Point {point} of flat {flat} lies outside the flat; move it onto the flat."
            ),
            Self::LinesCross(flat, place) => write!(
                f,
                "Two lines of flat {flat} cross or run together near {}; outlines and holes must \
                 not cross, and lines must be further apart than the merge tolerance.",
                at(place)
            ),
            Self::TooManyNodes(flat, limit) => write!(
                f,
                "The mesh would have more than {limit} nodes by flat {flat}; ask for larger \
                 elements, a larger least size or a higher limit."
            ),
            Self::AreaLost(flat, found, wanted) => write!(
                f,
                "The triangles of flat {flat} add up to {found} m2 where the flat has {wanted} \
                 m2; its outlines cross or come closer than the merge tolerance."
            ),
        }
    }
}

impl std::error::Error for MeshFault {}
