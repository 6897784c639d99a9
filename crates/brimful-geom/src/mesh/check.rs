//! Flats and sizes put to the test before anything is meshed.

use super::fault::MeshFault;
use super::flat::Flat;
use super::size::Size;
use crate::vector::{Point2, Vec3};

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
        nodes += FEWEST_NODES * flat.area() / (flat.size * flat.size);
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
    let finite = |p: &Point2| p.x.is_finite() && p.y.is_finite();
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

/// Frames come from chains of rotations in f64; this is far above their rounding and far below
/// any skew that could be meant.
const FRAME_ROUNDING: f64 = 1e-9;

/// A mesh has no fewer nodes than this for each square of the wanted size; a triangular lattice
/// has 1.15. Found early, a slip in the size costs no time.
const FEWEST_NODES: f64 = 0.5;
