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
mod report;
mod surface;

pub use report::{FoundPlane, Hole, ScanFault, ScanReport, Scanned};
pub use surface::Surface;

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
