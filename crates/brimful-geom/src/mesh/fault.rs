//! What cannot be meshed, and why.

use super::{Flat, Size};
use crate::polygon::{Outline, OutlineFault};
use crate::vector::{Point3, Vec3};
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

/// Refuses numbers and outlines that no later step could use.
pub(super) fn check(flats: &[Flat], size: &Size, merge: f64) -> Result<(), MeshFault> {
    let positive = |v: f64| v.is_finite() && v > 0.0;
    if !positive(merge) {
        return Err(MeshFault::Policy("the merge tolerance must be above zero"));
    }
    if !positive(size.growth) {
        return Err(MeshFault::Policy("the growth must be above zero"));
    }
    if !(size.least.is_finite() && size.least >= 0.0) {
        return Err(MeshFault::Policy("the least size must not be negative"));
    }
    for refine in &size.refine {
        let usable = refine.size.is_finite() && refine.size > merge;
        if !(usable && finite(refine.point.to_vec())) {
            return Err(MeshFault::Policy(
                "a place to be refined needs a finite place and a size above the merge tolerance",
            ));
        }
    }
    let mut nodes = 0.0;
    for (index, flat) in flats.iter().enumerate() {
        check_flat(index, flat)?;
        nodes += FEWEST_NODES * area(&flat.outlines) / (flat.size * flat.size);
        if nodes > size.most_nodes as f64 {
            return Err(MeshFault::TooManyNodes(index, size.most_nodes));
        }
    }
    Ok(())
}

fn check_flat(index: usize, flat: &Flat) -> Result<(), MeshFault> {
    if !(flat.size.is_finite() && flat.size > 0.0) {
        return Err(MeshFault::FlatSize(index, flat.size));
    }
    let frame = &flat.frame;
    let unit = |v: Vec3| (v.length() - 1.0).abs() < FRAME_ROUNDING;
    let square = (frame.x.cross(frame.y) - frame.z).length() < FRAME_ROUNDING;
    if !(unit(frame.x) && unit(frame.y) && square && finite(frame.origin.to_vec())) {
        return Err(MeshFault::Frame(index));
    }
    if flat.outlines.is_empty() {
        return Err(MeshFault::NoOutline(index));
    }
    for (number, outline) in flat.outlines.iter().enumerate() {
        if let Some(fault) = outline.faults().into_iter().next() {
            return Err(MeshFault::Outline(index, number, fault));
        }
        if (outline.signed_area() > 0.0) != (number == 0) {
            return Err(MeshFault::WrongWay(index, number));
        }
    }
    check_extras(index, flat)
}

fn check_extras(index: usize, flat: &Flat) -> Result<(), MeshFault> {
    let finite = |p: &crate::vector::Point2| p.x.is_finite() && p.y.is_finite();
    if let Some(i) = flat
        .segments
        .iter()
        .position(|(a, b)| !(finite(a) && finite(b)))
    {
        return Err(MeshFault::SegmentOutside(index, i));
    }
    match flat.points.iter().position(|p| !finite(p)) {
        Some(i) => Err(MeshFault::PointOutside(index, i)),
        None => Ok(()),
    }
}

fn finite(v: Vec3) -> bool {
    v.x.is_finite() && v.y.is_finite() && v.z.is_finite()
}

/// Area inside the outlines, m2.
pub(super) fn area(outlines: &[Outline]) -> f64 {
    outlines.iter().map(Outline::signed_area).sum()
}

/// Frames come from chains of rotations in f64; this is far above their rounding and far below
/// any skew that could be meant.
const FRAME_ROUNDING: f64 = 1e-9;

/// A mesh has no fewer nodes than this for each square of the wanted size; a triangular lattice
/// has 1.15. Found early, a slip in the size costs no time.
const FEWEST_NODES: f64 = 0.5;
