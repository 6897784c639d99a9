//! One conforming mesh of triangles over flats that meet in space.
//!
//! A [`Flat`] is a polygon with holes in a plane. Flats join wherever they touch along a line:
//! edge on edge (a fold), edge on the inside of another (a tee, whole or partial) or inside
//! through inside (a crossing). The steps, each in its own module:
//!
//! 1. `meet` finds the common lines of every pair of flats;
//! 2. `arrange` cuts all lines at each other's ends and crossings into elementary edges between
//!    nodes, one list for the whole, so that whatever lies in several flats is cut once;
//! 3. `size` says how large elements should be at any place, `divide` divides every elementary
//!    edge by it, once, so that neighbours share nodes;
//! 4. `fill` lays a triangular lattice of graded spacing inside each flat, `plane` joins it to
//!    the edges by constrained Delaunay triangulation (`delaunay`), smooths it (`smooth`) and
//!    repairs what is skinny (`repair`);
//! 5. `chain` joins the edges into maximal straight lines and says what meets along each.
//!
//! Flats that touch in a single point only are not joined there. Lengths are metres.
//!
//! Angles: Chew ("Guaranteed-quality triangular meshes", Cornell TR 89-983, 1989) keeps them from
//! 30 to 120 degrees for outlines cut into nearly equal parts, Ruppert ("A Delaunay refinement
//! algorithm for quality 2-dimensional mesh generation", J. Algorithms 18 (1995) 548-585) above
//! 20.7 degrees for any input without small angles by cutting outlines further. Here the
//! outlines stay as divided, so no bound is proved: [`Mesh::quality`] measures it.

mod arrange;
mod chain;
mod check;
mod delaunay;
mod divide;
mod fault;
mod fill;
mod flat;
mod line;
mod meet;
mod plane;
mod repair;
mod size;
mod smooth;

pub use fault::MeshFault;
pub use flat::Flat;
pub use line::{Extra, LineFlat, LinePart, MeshLine};
pub use size::{Refine, Size};

use crate::vector::Point3;
use arrange::Arrangement;
use rayon::prelude::*;
use size::SizeField;

/// Nodes and triangles over all flats.
#[derive(Clone, Debug, PartialEq)]
pub struct Mesh {
    /// Places of the nodes.
    pub nodes: Vec<Point3>,
    /// Triangles, flat by flat.
    pub triangles: Vec<MeshTriangle>,
    /// Edges of flats, lines where flats meet, and extra segments.
    pub lines: Vec<MeshLine>,
    /// For each flat the nodes of its extra points.
    pub points: Vec<Vec<usize>>,
}

/// One triangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeshTriangle {
    /// Its nodes, counter-clockwise about the z of its flat's frame.
    pub nodes: [usize; 3],
    /// The flat it is part of.
    pub flat: usize,
}

/// What a mesh is like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quality {
    /// Smallest angle of all triangles, radians.
    pub worst_angle: f64,
    /// The triangle that has it.
    pub worst_triangle: usize,
    /// Mean over the triangles of their smallest angle, radians (60 degrees is perfect).
    pub mean_least_angle: f64,
    /// Shortest and longest element side, m.
    pub sides: (f64, f64),
}

impl Mesh {
    /// Meshes `flats`; places nearer to each other than `merge` (m) become one node.
    ///
    /// `merge` should be well above the rounding of the input and well below its smallest
    /// feature. The same input gives the same mesh.
    ///
    /// # Errors
    /// [`MeshFault`] names the flat and the place of what cannot be meshed.
    pub fn of(flats: &[Flat], size: &Size, merge: f64) -> Result<Self, MeshFault> {
        check::check(flats, size, merge)?;
        meet::check_no_overlap(flats, merge)?;
        let pieces = meet::pieces(flats, merge)?;
        let mut arrangement = Arrangement::of(flats, &pieces, merge)?;
        let field = SizeField::of(flats, size, &arrangement);
        divide::divide(&mut arrangement, flats, &field, size.most_nodes)?;
        let lines = chain::lines(&arrangement);
        let mut nodes = arrangement.nodes.clone();
        let mut triangles = Vec::new();
        let room = size.most_nodes.saturating_sub(nodes.len());
        let fill = |flat| plane::fill_flat(flats, flat, &arrangement, &field, merge, room);
        let parts: Vec<_> = (0..flats.len()).into_par_iter().map(fill).collect();
        for (flat, part) in parts.into_iter().enumerate() {
            let part = part?;
            let first = nodes.len();
            if first + part.inner.len() > size.most_nodes {
                return Err(MeshFault::TooManyNodes(flat, size.most_nodes));
            }
            nodes.extend(
                part.inner
                    .iter()
                    .map(|&p| flats[flat].frame.world_from_flat(p)),
            );
            let global = |local: usize| match part.fixed.get(local) {
                Some(&node) => node,
                None => first + local - part.fixed.len(),
            };
            triangles.extend(part.triangles.iter().map(|t| MeshTriangle {
                nodes: t.map(global),
                flat,
            }));
        }
        Ok(Self {
            nodes,
            triangles,
            lines,
            points: arrangement.points,
        })
    }

    /// Angles and side lengths; `None` for a mesh without triangles.
    pub fn quality(&self) -> Option<Quality> {
        let mut quality = Quality {
            worst_angle: f64::INFINITY,
            worst_triangle: 0,
            mean_least_angle: 0.0,
            sides: (f64::INFINITY, 0.0),
        };
        for (index, triangle) in self.triangles.iter().enumerate() {
            let [a, b, c] = triangle.nodes.map(|node| self.nodes[node]);
            let least = least_angle(a.distance(b), b.distance(c), c.distance(a));
            quality.mean_least_angle += least / self.triangles.len() as f64;
            if least < quality.worst_angle {
                (quality.worst_angle, quality.worst_triangle) = (least, index);
            }
            for side in [a.distance(b), b.distance(c), c.distance(a)] {
                quality.sides = (quality.sides.0.min(side), quality.sides.1.max(side));
            }
        }
        (!self.triangles.is_empty()).then_some(quality)
    }
}

/// Smallest angle of a triangle with the given sides, radians.
fn least_angle(a: f64, b: f64, c: f64) -> f64 {
    let mut sides = [a, b, c];
    sides.sort_by(f64::total_cmp);
    let [short, middle, long] = sides;
    // Half-angle form: the law of cosines loses small angles to rounding.
    let half = (a + b + c) / 2.0;
    let sine_squared = (half - middle) * (half - long) / (middle * long);
    debug_assert!(short <= middle);
    2.0 * sine_squared.max(0.0).sqrt().min(1.0).asin()
}
