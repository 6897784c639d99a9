//! A planar-faced solid inside a scanned room.
//!
//! A scanner gives triangles whose corners are off by its noise. What is wanted is the room as flats,
//! none of it outside the true one:
//!
//! 1. `surface` joins equal points, turns all triangles the same way, and finds holes;
//! 2. `regions` smooths the normals, grows flat regions by them (T. Rabbani, F. van den Heuvel, G.
//!    Vosselman, *Segmentation of point clouds using smoothness constraint*, ISPRS 2006) and fits a
//!    plane to each by least squares. The plane is then moved inward until every patch of its points,
//!    averaged over the noise, lies outside it;
//! 3. `cells` cuts the room's box by all planes into convex cells, takes those that are inside by the
//!    winding number of the scan (A. Jacobson, L. Kavan, O. Sorkine-Hornung, *Robust inside-outside
//!    segmentation using generalized winding numbers*, ACM Trans. Graph. 32 (2013)), and joins them, as
//!    A.-L. Chauve, P. Labatut, J.-P. Pons do (CVPR 2010).
//!
//! What belongs to no plane is kept out by small cubes. All lengths are metres.

mod cells;
mod regions;
mod surface;

use crate::boolean::BooleanFault;
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::Point3;
use std::fmt;

pub use surface::Hole;

/// A triangle surface, metres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Surface {
    /// Its points.
    pub points: Vec<Point3>,
    /// Numbers of points.
    pub triangles: Vec<[usize; 3]>,
}

/// What was found in a scan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ScanReport {
    /// Where it is open.
    pub holes: Vec<Hole>,
    /// Triangles that faced the wrong way.
    pub flipped: usize,
    /// Edges of more than two triangles.
    pub non_manifold: usize,
    /// Small pieces that hang on nothing and were left out.
    pub loose: usize,
    /// The flats, largest first.
    pub planes: Vec<FoundPlane>,
    /// Share of the surface that belongs to no flat.
    pub rough: f64,
    /// Volume of which the scan does not say whether it is inside, m3; taken as outside.
    pub doubtful: f64,
}

/// A flat of the scan.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundPlane {
    /// As it bounds the solid: its normal points out of the room.
    pub plane: Plane,
    /// Area of the scan that it stands for, m2.
    pub area: f64,
    /// Standard deviation of its points, m: what the noise really was there.
    pub spread: f64,
    /// How far it was moved inward from the best fit, m.
    pub inward: f64,
}

/// A solid inside a scanned room.
#[derive(Clone, Debug, PartialEq)]
pub struct Scanned {
    /// The solid.
    pub solid: Solid,
    /// What was found.
    pub report: ScanReport,
}

/// Why a scan gives no solid.
#[derive(Clone, Debug, PartialEq)]
pub enum ScanFault {
    /// There is no surface to speak of.
    NoSurface,
    /// No flat was found: the noise given is too small, or all is round.
    NoFlats,
    /// The flats enclose nothing: the scan is open on a whole side.
    NothingInside(ScanReport),
    /// Too much of the surface is on no flat.
    TooRough(ScanReport),
    /// The cells cannot be put together.
    Boolean(BooleanFault),
}

impl fmt::Display for ScanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSurface => f.write_str("there are too few triangles for a room"),
            Self::NoFlats => f.write_str("no flat side is found in the scan"),
            Self::NothingInside(report) => write!(
                f,
                "the {} flats found enclose nothing; the scan has {} holes",
                report.planes.len(),
                report.holes.len()
            ),
            Self::TooRough(report) => write!(
                f,
                "{:.0} % of the scanned surface lies on no flat",
                report.rough * 100.0
            ),
            Self::Boolean(fault) => write!(f, "the flats cannot be put together: {fault}"),
        }
    }
}

impl std::error::Error for ScanFault {}

/// The solid inside a scanned room whose points are off by a standard deviation of `noise` metres.
///
/// Cost: nearly linear in the triangles; the cells are at most of the order of the third power of the
/// flats.
///
/// # Errors
/// [`ScanFault`].
pub fn inside(surface: &Surface, noise: f64) -> Result<Scanned, ScanFault> {
    let (joined, mut report) = surface::joined(surface)?;
    let (planes, rest) = regions::regions(&joined, noise, &mut report);
    if planes.is_empty() {
        return Err(ScanFault::NoFlats);
    }
    report.planes = planes.iter().map(|flat| flat.found.clone()).collect();
    cells::put_together(&joined, &planes, &rest, noise, report)
}

#[cfg(test)]
mod tests;
