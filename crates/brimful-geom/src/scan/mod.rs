//! A planar-faced solid inside a scanned surface.
//!
//! The surface is welded and mended as far as can be told ([`surface`]): holes, flipped faces, edges
//! of more than two faces and loose pieces are reported. Planes are found in it ([`planes`]),
//! moved inward, and the room between them is cut into cells, a cell being cut by a plane only
//! where points of that plane lie in it (compare A.-L. Chauve, P. Labatut and J.-P. Pons, "Robust
//! piecewise-planar 3D reconstruction and completion", CVPR 2010, and L. Nan and P. Wonka, "PolyFit",
//! ICCV 2017; from memory). Cells that the surface winds round are inside (A. Jacobson, L. Kavan and
//! O. Sorkine-Hornung, "Robust inside-outside segmentation using generalized winding numbers",
//! ACM TOG 32 (2013), from memory); together they are the solid.
//!
//! *What the margin means.* A plane lies in the mean of its points, whose noise (taken to be
//! independent from point to point and as much out as in) it averages out. It is then moved inward
//! by what the mean may still be off ([`SURE`] standard errors) and by the margin. Single points may reach deeper than that: how deep is
//! said for each plane. Points on no plane are counted and, where they are inside the solid by
//! more than four times the noise, listed as [`ScanReport::inside`]: something stands there.

mod cells;
mod planes;
mod surface;
#[cfg(test)]
mod tests;

use crate::boolean::{BooleanFault, pieces};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::triangulate::solid_triangles;
use crate::vector::Point3;
use cells::{cells, joined};
use planes::{Found, Sample, find_planes, samples};
use std::fmt;

/// A scanned surface, metres.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Surface {
    /// Corners; need not be welded.
    pub points: Vec<Point3>,
    /// Corners' positions in `points`.
    pub triangles: Vec<[usize; 3]>,
}

/// A rim that no face closes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// Middle of its corners.
    pub centre: Point3,
    /// Length of the rim, metres.
    pub perimeter: f64,
    /// Edges in the rim.
    pub edges: usize,
}

/// A plane found in a scan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FoundPlane {
    /// As moved inward; its normal points out of the room.
    pub plane: Plane,
    /// Share of the surface's area that lies in it.
    pub share: f64,
    /// Root mean square distance of its points from their mean plane, metres.
    pub spread: f64,
    /// How far the deepest of its points lies inside the moved plane, metres; less than nothing
    /// where all are outside.
    pub deepest: f64,
}

/// What a scan is like.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ScanReport {
    /// Rims that are open, longest first.
    pub holes: Vec<Hole>,
    /// Faces turned round so that all face the same way.
    pub flipped: usize,
    /// Edges of more than two faces.
    pub non_manifold: usize,
    /// Small pieces apart from the rest, left out.
    pub loose: usize,
    /// Planes used, those with most area first.
    pub planes: Vec<FoundPlane>,
    /// Share of the area that is in no plane.
    pub unplaned: f64,
    /// Places of points that lie deep inside the solid: something stands there.
    pub inside: Vec<Point3>,
}

/// A solid from a scan.
#[derive(Clone, Debug, PartialEq)]
pub struct Scanned {
    /// One closed body.
    pub solid: Solid,
    /// What the scan is like.
    pub report: ScanReport,
}

/// Why a scan gives no solid.
#[derive(Clone, Debug, PartialEq)]
pub enum ScanFault {
    /// It has no triangle with any area, or numbers that are not finite, or corners it does not have.
    NoSurface,
    /// Fewer than four planes were found.
    TooFewPlanes(Box<ScanReport>),
    /// No cell lies inside: the surface is too open, or its noise figure too small.
    NothingInside(Box<ScanReport>),
    /// The cells could not be put together.
    Cells(BooleanFault),
}

impl fmt::Display for ScanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSurface => write!(f, "the scan has no surface"),
            Self::TooFewPlanes(report) => write!(
                f,
                "only {} flat sides were found in the scan, which enclose nothing",
                report.planes.len()
            ),
            Self::NothingInside(_) => write!(f, "the scan's surface encloses no room"),
            Self::Cells(fault) => write!(f, "the scan's sides cannot be put together: {fault}"),
        }
    }
}

impl std::error::Error for ScanFault {}

impl From<BooleanFault> for ScanFault {
    fn from(fault: BooleanFault) -> Self {
        Self::Cells(fault)
    }
}

/// Standard errors by which a plane is moved inward beside the margin: one in some ten thousand
/// planes then still is outside in a corner.
const SURE: f64 = 4.0;

/// A plane fitted to points all over a rectangle is this much less sure in the rectangle's corners
/// than in its middle: the root of 1 + 3 + 3, a corner's distance squared over the variance each way.
const CORNER: f64 = 2.65;

/// What a scan is like, without making a solid of it.
///
/// # Errors
/// [`ScanFault::NoSurface`].
pub fn inspect(surface: &Surface) -> Result<ScanReport, ScanFault> {
    Ok(surface::mended(surface)?.1)
}

/// The solid inside a scan whose points are off by `noise` (one standard deviation, metres), with
/// every side `margin` and what its mean may be off inward of the mean of its points.
///
/// # Errors
/// A [`ScanFault`].
pub fn inside(surface: &Surface, noise: f64, margin: f64) -> Result<Scanned, ScanFault> {
    let (whole, mut report) = surface::mended(surface)?;
    let samples = samples(&whole);
    let found = find_planes(&samples, noise);
    let area: f64 = samples.iter().map(|s| s.area.length()).sum();
    let points = whole.points.len() as f64;
    let unsure = |found: &Found| {
        let share = found.members.len() as f64 / samples.len() as f64;
        let independent = (found.members.len() as f64).min(share * points).max(1.0);
        SURE * CORNER * noise / independent.sqrt()
    };
    let planes: Vec<Plane> = found
        .iter()
        .map(|f| f.plane.moved(-margin - unsure(f)))
        .collect();
    report.planes = found
        .iter()
        .zip(&planes)
        .map(|(found, plane)| described(found, *plane, &samples, area))
        .collect();
    report.unplaned = 1.0 - report.planes.iter().map(|p| p.share).sum::<f64>();
    if planes.len() < 4 {
        return Err(ScanFault::TooFewPlanes(Box::new(report)));
    }
    let cells = cells(&found, &planes, &samples, noise.max(margin))?;
    let within = |cell: &Solid| winding(&whole, cell.moments().centroid()) > 0.5;
    let (kept, outside): (Vec<Solid>, Vec<Solid>) = cells.into_iter().partition(within);
    if kept.is_empty() {
        return Err(ScanFault::NothingInside(Box::new(report)));
    }
    let solid = largest(pieces(&joined(&kept, &outside)?)?);
    let in_plane: Vec<usize> = found
        .iter()
        .flat_map(|f| f.members.iter().copied())
        .collect();
    report.inside = standing_inside(&solid, &samples, &in_plane, 4.0 * noise.max(margin));
    Ok(Scanned { solid, report })
}

fn described(found: &Found, plane: Plane, samples: &[Sample], area: f64) -> FoundPlane {
    let members = || found.members.iter().map(|&i| &samples[i]);
    let square = members().map(|s| found.plane.distance(s.place).powi(2));
    FoundPlane {
        plane,
        share: members().map(|s| s.area.length()).sum::<f64>() / area,
        spread: (square.sum::<f64>() / found.members.len() as f64).sqrt(),
        deepest: members()
            .map(|s| -plane.distance(s.place))
            .fold(f64::NEG_INFINITY, f64::max),
    }
}

fn largest(parts: Vec<Solid>) -> Solid {
    let volume = |s: &Solid| s.moments().volume;
    parts
        .into_iter()
        .reduce(|a, b| if volume(&b) > volume(&a) { b } else { a })
        .unwrap_or_default()
}

/// How often the surface winds round a place: the sum of its triangles' solid angles over the full
/// sphere's (A. van Oosterom and J. Strackee, "The solid angle of a plane triangle", IEEE Trans.
/// Biomed. Eng. 30 (1983)).
fn winding(surface: &Surface, place: Point3) -> f64 {
    let angle = |t: &[usize; 3]| {
        let [a, b, c] = t.map(|v| surface.points[v] - place);
        let (u, v, w) = (a.length(), b.length(), c.length());
        let over = a.dot(b.cross(c));
        let under = u * v * w + a.dot(b) * w + b.dot(c) * u + c.dot(a) * v;
        2.0 * over.atan2(under)
    };
    surface.triangles.iter().map(angle).sum::<f64>() / (4.0 * std::f64::consts::PI)
}

/// Samples on no plane that are inside the solid and further than `deep` from all of its faces.
fn standing_inside(
    solid: &Solid,
    samples: &[Sample],
    in_plane: &[usize],
    deep: f64,
) -> Vec<Point3> {
    let mut free = vec![true; samples.len()];
    in_plane.iter().for_each(|&i| free[i] = false);
    let hull = Surface {
        points: solid.vertices.clone(),
        triangles: solid_triangles(solid),
    };
    let stands = |s: &&Sample| {
        winding(&hull, s.place) > 0.5 && crate::basin::distance(solid, s.place) > deep
    };
    samples
        .iter()
        .enumerate()
        .filter(|&(i, _)| free[i])
        .map(|(_, s)| s)
        .filter(stands)
        .map(|s| s.place)
        .collect()
}
