//! Union, difference and intersection of solids.
//!
//! The mesh boolean is `manifold-rust`'s; this module alone knows it. Every triangle carries the
//! number of the plane it came from, so the result is put together again from *planes*: triangles
//! of one plane are joined into a face and every corner is set to where its planes meet. Panels
//! so come from the measured planes and not from rounded triangles.

use crate::frame::Plane;
use crate::polygon::Outline;
use crate::solid::{Face, Solid};
use crate::triangulate::triangulate;
use crate::vector::{Point3, Vec3};
use manifold_rust::manifold::Manifold;
use manifold_rust::types::{Error, MeshGL64, OpType};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;

/// Planes nearer than this, in offset over a span of a metre and in the sine between their
/// normals, are one plane. Measured spaces come to a tenth of a millimetre; 1e-9 only gathers
/// what rounding set apart.
const SAME_PLANE: f64 = 1e-9;

/// The solid put together from planes and the mesh it came from must enclose the same volume, but
/// for the mesh's own rounding (relative to a cubic metre, or to the solid where it is larger).
const LOST_VOLUME: f64 = 1e-12;

/// Why solids could not be combined.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BooleanFault {
    /// A face could not be triangulated (operand, face).
    Face(usize, usize),
    /// An operand is not a closed body.
    NotClosed(usize),
    /// The result could not be put together from its planes.
    Result,
}

impl fmt::Display for BooleanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Face(solid, face) => write!(f, "face {face} of solid {solid} crosses itself"),
            Self::NotClosed(solid) => write!(f, "solid {solid} is not closed"),
            Self::Result => write!(f, "the combined solid is not a proper one"),
        }
    }
}

impl std::error::Error for BooleanFault {}

/// What is in any of the solids.
pub fn union(solids: &[&Solid]) -> Result<Solid, BooleanFault> {
    combine(solids, OpType::Add)
}

/// What is in the first solid and in none of the others.
pub fn difference(solid: &Solid, others: &[&Solid]) -> Result<Solid, BooleanFault> {
    let mut all = vec![solid];
    all.extend(others);
    combine(&all, OpType::Subtract)
}

/// What is in all of the solids.
pub fn intersection(solids: &[&Solid]) -> Result<Solid, BooleanFault> {
    combine(solids, OpType::Intersect)
}

/// Volume common to two solids, m3, without putting the common part together.
pub fn common_volume(a: &Solid, b: &Solid) -> Result<f64, BooleanFault> {
    let mut planes = Vec::new();
    let (a, b) = (to_mesh(a, 0, &mut planes)?, to_mesh(b, 1, &mut planes)?);
    Ok(boolean(&a, &b, OpType::Intersect)?.volume())
}

/// Volume of the first solid outside all others, m3, without putting it together.
pub fn remaining_volume(solid: &Solid, others: &[&Solid]) -> Result<f64, BooleanFault> {
    remaining(solid, others).map(|mesh| mesh.volume())
}

/// A part of what remains, as its mesh has it: never refused, but with corners as rounding left them.
pub struct Part {
    /// m3.
    pub volume: f64,
    /// Its corners.
    pub corners: Vec<Point3>,
}

/// The parts of the first solid outside all others, without putting them together.
pub fn remaining_parts(solid: &Solid, others: &[&Solid]) -> Result<Vec<Part>, BooleanFault> {
    let part = |mesh: Manifold| {
        let corners = mesh.get_mesh_gl64(-1);
        let stride = corners.num_prop as usize;
        Part {
            volume: mesh.volume(),
            corners: corners
                .vert_properties
                .chunks_exact(stride)
                .map(|p| Point3::new(p[0], p[1], p[2]))
                .collect(),
        }
    };
    let parts = remaining(solid, others)?.decompose();
    Ok(parts.into_iter().map(part).collect())
}

fn remaining(solid: &Solid, others: &[&Solid]) -> Result<Manifold, BooleanFault> {
    let mut planes = Vec::new();
    let whole = to_mesh(solid, 0, &mut planes)?;
    let mut meshes = Vec::with_capacity(others.len());
    for (i, other) in others.iter().enumerate() {
        meshes.push(to_mesh(other, i + 1, &mut planes)?);
    }
    match joined(meshes)? {
        Some(others) => boolean(&whole, &others, OpType::Subtract),
        None => Ok(whole),
    }
}

/// Meshes joined two by two: each then goes through as many booleans as the count has halves, where one
/// after the other the last would be put to all that came before.
fn joined(mut meshes: Vec<Manifold>) -> Result<Option<Manifold>, BooleanFault> {
    while meshes.len() > 1 {
        let pair = |two: &[Manifold]| match two {
            [a, b] => boolean(a, b, OpType::Add),
            _ => Ok(two[0].clone()),
        };
        meshes = meshes.chunks(2).map(pair).collect::<Result<_, _>>()?;
    }
    Ok(meshes.pop())
}

fn boolean(a: &Manifold, b: &Manifold, operation: OpType) -> Result<Manifold, BooleanFault> {
    sound(a.boolean(b, operation))
}

/// The mesh, unless the boolean that made it went wrong: one that did is empty, and would pass for
/// solids with nothing in common, or for an obstacle that takes nothing away.
fn sound(mesh: Manifold) -> Result<Manifold, BooleanFault> {
    match mesh.status() {
        Error::NoError => Ok(mesh),
        _ => Err(BooleanFault::Result),
    }
}

/// The part of a solid on the inner side of a plane (against its normal), with a face on the cut.
pub fn clip(solid: &Solid, plane: &Plane) -> Result<Solid, BooleanFault> {
    let (low, high) = solid.bounds();
    let distances = solid.vertices.iter().map(|&p| plane.distance(p));
    let (near, far) = distances.fold((f64::INFINITY, f64::NEG_INFINITY), |(n, f), d| {
        (n.min(d), f.max(d))
    });
    if far <= 0.0 {
        return Ok(solid.clone());
    }
    if near >= 0.0 {
        return Ok(Solid::default());
    }
    let frame = crate::frame::Frame::upright(plane, low.midpoint(high));
    let reach = 2.0 * low.distance(high);
    let square = Outline::rectangle(2.0 * reach, 2.0 * reach);
    let centred = Outline(
        square
            .0
            .iter()
            .map(|&p| p - crate::vector::Vec2::new(reach, reach))
            .collect(),
    );
    let mut block = Solid::prism(&centred, &frame, -reach, 0.0);
    block.faces[1].plane = *plane;
    intersection(&[solid, &block])
}

/// The separate pieces of a solid, in the order of their lowest corner (x, then y, then z).
/// Inner shells stay with the piece that surrounds them.
pub fn pieces(solid: &Solid) -> Result<Vec<Solid>, BooleanFault> {
    let mut planes = Vec::new();
    let mesh = to_mesh(solid, 0, &mut planes)?;
    let mut pieces = Vec::new();
    for part in mesh.decompose() {
        pieces.push(from_mesh(&part, &planes)?);
    }
    pieces.sort_by(|a: &Solid, b: &Solid| {
        let (p, q) = (a.bounds().0, b.bounds().0);
        p.x.total_cmp(&q.x)
            .then(p.y.total_cmp(&q.y))
            .then(p.z.total_cmp(&q.z))
    });
    Ok(pieces)
}

fn combine(solids: &[&Solid], operation: OpType) -> Result<Solid, BooleanFault> {
    let mut planes = Vec::new();
    let mut whole: Option<Manifold> = None;
    for (i, solid) in solids.iter().enumerate() {
        let mesh = to_mesh(solid, i, &mut planes)?;
        whole = Some(match whole {
            Some(whole) => boolean(&whole, &mesh, operation)?,
            None => mesh,
        });
    }
    whole.map_or_else(|| Ok(Solid::default()), |it| from_mesh(&it, &planes))
}

/// A triangle mesh with, on every triangle, the number of its plane in `planes`.
fn to_mesh(
    solid: &Solid,
    number: usize,
    planes: &mut Vec<Plane>,
) -> Result<Manifold, BooleanFault> {
    let mut mesh = MeshGL64 {
        num_prop: 3,
        ..MeshGL64::default()
    };
    mesh.vert_properties = solid.vertices.iter().flat_map(|p| p.to_array()).collect();
    for (index, face) in solid.faces.iter().enumerate() {
        let plane = plane_number(planes, &face.plane);
        let outlines = solid.face_outlines(index, &solid.face_frame(index));
        let triangles = triangulate(&outlines);
        if triangles.is_empty() {
            return Err(BooleanFault::Face(number, index));
        }
        let corners: Vec<usize> = face.loops.iter().flatten().copied().collect();
        for triangle in triangles {
            mesh.tri_verts
                .extend(triangle.map(|corner| corners[corner] as u64));
            mesh.face_id.push(plane as u64);
        }
    }
    let manifold = Manifold::from_mesh_gl64(&mesh);
    if manifold.status() == Error::NoError {
        Ok(manifold)
    } else {
        Err(BooleanFault::NotClosed(number))
    }
}

/// The number of a plane, whichever way it faces.
fn plane_number(planes: &mut Vec<Plane>, plane: &Plane) -> usize {
    let same = |other: &Plane| {
        let sign = other.normal.dot(plane.normal).signum();
        other.normal.cross(plane.normal).length() < SAME_PLANE
            && (other.offset - sign * plane.offset).abs() < SAME_PLANE
    };
    planes.iter().position(same).unwrap_or_else(|| {
        planes.push(*plane);
        planes.len() - 1
    })
}

/// Triangles, their plane (number and whether it is seen from behind) and their neighbours.
struct Patches {
    corners: Vec<[usize; 3]>,
    plane: Vec<(usize, bool)>,
    /// For half-edge `3 t + i` the half-edge that runs the other way.
    twin: Vec<usize>,
}

fn from_mesh(manifold: &Manifold, planes: &[Plane]) -> Result<Solid, BooleanFault> {
    if manifold.is_empty() {
        return Ok(Solid::default());
    }
    let (points, patches) = read_mesh(&manifold.get_mesh_gl64(-1), planes)?;
    let patch_of = patches.joined();
    let planes_at = planes_at_vertices(&points, &patches);
    let vertices = refit(&points, &planes_at, planes);
    let mut faces: BTreeMap<usize, Face> = BTreeMap::new();
    let mut dropped = false;
    for ring in patches.boundary_loops(&patch_of) {
        let (number, behind) = patches.plane[ring.patch];
        let plane = if behind {
            planes[number].flipped()
        } else {
            planes[number]
        };
        let corners: Vec<_> = ring
            .corners
            .into_iter()
            .filter(|&v| planes_at[v].len() > 2)
            .collect();
        // A patch of slivers along a line: the faces on its two sides meet there.
        if corners.len() < 3 {
            dropped = true;
            continue;
        }
        let face = faces.entry(ring.patch).or_insert(Face {
            plane,
            loops: Vec::new(),
        });
        face.loops.push(corners);
    }
    let mut solid = Solid {
        vertices,
        faces: faces.into_values().collect(),
    };
    put_outer_loops_first(&mut solid);
    sort_faces(&mut solid, planes);
    drop_unused_vertices(&mut solid);
    let (kept, whole) = (solid.moments().volume, manifold.volume());
    // Where all patches were slivers, rounding is all that the solids have in common.
    let proper = !dropped || solid.faces.is_empty() || solid.faults().is_empty();
    match proper && (kept - whole).abs() <= LOST_VOLUME * whole.abs().max(1.0) {
        true => Ok(solid),
        false => Err(BooleanFault::Result),
    }
}

fn read_mesh(mesh: &MeshGL64, planes: &[Plane]) -> Result<(Vec<Point3>, Patches), BooleanFault> {
    let n = mesh.vert_properties.len() / mesh.num_prop as usize;
    let mut merged: Vec<usize> = (0..n).collect();
    for (&from, &to) in mesh.merge_from_vert.iter().zip(&mesh.merge_to_vert) {
        merged[from as usize] = to as usize;
    }
    let point = |v: usize| {
        let at = v * mesh.num_prop as usize;
        let p = &mesh.vert_properties[at..at + 3];
        Point3::new(p[0], p[1], p[2])
    };
    let points: Vec<_> = (0..n).map(point).collect();
    let corners: Vec<[usize; 3]> = mesh
        .tri_verts
        .chunks_exact(3)
        .map(|t| [0, 1, 2].map(|i| merged[t[i] as usize]))
        .collect();
    let plane = corners
        .iter()
        .zip(&mesh.face_id)
        .map(|(&[a, b, c], &id)| {
            let normal = (points[b] - points[a]).cross(points[c] - points[a]);
            (id as usize, normal.dot(planes[id as usize].normal) < 0.0)
        })
        .collect();
    let mut half_edge = BTreeMap::new();
    for (t, triangle) in corners.iter().enumerate() {
        for i in 0..3 {
            half_edge.insert((triangle[i], triangle[(i + 1) % 3]), 3 * t + i);
        }
    }
    let mut twin = Vec::with_capacity(3 * corners.len());
    for triangle in &corners {
        for i in 0..3 {
            let back = half_edge.get(&(triangle[(i + 1) % 3], triangle[i]));
            twin.push(*back.ok_or(BooleanFault::Result)?);
        }
    }
    Ok((
        points,
        Patches {
            corners,
            plane,
            twin,
        },
    ))
}

/// A loop round a patch of triangles that lie in one plane.
struct BoundaryLoop {
    /// The first triangle of the patch stands for it.
    patch: usize,
    corners: Vec<usize>,
}

impl Patches {
    /// For every triangle the first triangle of its patch: those of one plane that hang together.
    fn joined(&self) -> Vec<usize> {
        let mut patch = vec![usize::MAX; self.corners.len()];
        for seed in 0..patch.len() {
            if patch[seed] != usize::MAX {
                continue;
            }
            let mut stack = vec![seed];
            patch[seed] = seed;
            while let Some(t) = stack.pop() {
                for i in 0..3 {
                    let next = self.twin[3 * t + i] / 3;
                    if patch[next] == usize::MAX && self.plane[next] == self.plane[seed] {
                        patch[next] = seed;
                        stack.push(next);
                    }
                }
            }
        }
        patch
    }

    fn boundary_loops(&self, patch_of: &[usize]) -> Vec<BoundaryLoop> {
        let inner = |h: usize| patch_of[self.twin[h] / 3] == patch_of[h / 3];
        let next = |h: usize| 3 * (h / 3) + (h + 1) % 3;
        let next = |h: usize| if h % 3 == 2 { h - 2 } else { next(h) };
        let mut done = vec![false; self.twin.len()];
        let mut loops = Vec::new();
        for start in 0..self.twin.len() {
            if done[start] || inner(start) {
                continue;
            }
            let mut corners = Vec::new();
            let mut h = start;
            while !done[h] {
                done[h] = true;
                corners.push(self.corners[h / 3][h % 3]);
                // Round the end corner inside the patch to the next half-edge on its rim.
                h = next(h);
                while inner(h) {
                    h = next(self.twin[h]);
                }
            }
            loops.push(BoundaryLoop {
                patch: patch_of[start / 3],
                corners,
            });
        }
        loops
    }
}

/// The numbers of the planes that pass through each vertex.
fn planes_at_vertices(points: &[Point3], patches: &Patches) -> Vec<Vec<usize>> {
    let mut at: Vec<Vec<usize>> = vec![Vec::new(); points.len()];
    for (triangle, &(plane, _)) in patches.corners.iter().zip(&patches.plane) {
        for &v in triangle {
            if !at[v].contains(&plane) {
                at[v].push(plane);
            }
        }
    }
    at.iter_mut().for_each(|planes| planes.sort_unstable());
    at
}

/// Each corner where its planes meet: of all triples the one that meets at the steepest angles.
fn refit(points: &[Point3], planes_at: &[Vec<usize>], planes: &[Plane]) -> Vec<Point3> {
    let steepness = |t: [usize; 3]| {
        let [a, b, c] = t.map(|i| planes[i].normal);
        a.dot(b.cross(c)).abs()
    };
    let fit = |(point, at): (&Point3, &Vec<usize>)| {
        let mut best: Option<(f64, [usize; 3])> = None;
        for i in 0..at.len() {
            for j in i + 1..at.len() {
                for k in j + 1..at.len() {
                    let triple = [at[i], at[j], at[k]];
                    if best.is_none_or(|(s, _)| steepness(triple) > s) {
                        best = Some((steepness(triple), triple));
                    }
                }
            }
        }
        let meet = best.and_then(|(_, [a, b, c])| Plane::meet(&planes[a], &planes[b], &planes[c]));
        meet.unwrap_or(*point)
    };
    points.iter().zip(planes_at).map(fit).collect()
}

fn put_outer_loops_first(solid: &mut Solid) {
    for index in 0..solid.faces.len() {
        let outlines = solid.face_outlines(index, &solid.face_frame(index));
        let outer = (0..outlines.len()).max_by(|&a, &b| {
            outlines[a]
                .signed_area()
                .total_cmp(&outlines[b].signed_area())
        });
        if let Some(outer) = outer {
            solid.faces[index].loops.swap(0, outer);
        }
    }
}

/// Faces in the order of their planes among the operands, then by place, so that the same input
/// always gives the same solid.
fn sort_faces(solid: &mut Solid, planes: &[Plane]) {
    let vertices = &solid.vertices;
    let lowest = |face: &Face| {
        let far = Vec3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY);
        face.loops[0]
            .iter()
            .map(|&v| vertices[v])
            .fold(Point3::ORIGIN + far, |low, p| {
                let order =
                    p.x.total_cmp(&low.x)
                        .then(p.y.total_cmp(&low.y))
                        .then(p.z.total_cmp(&low.z));
                if order.is_lt() { p } else { low }
            })
    };
    let rank = |face: &Face| {
        let same = |p: &Plane| {
            p.normal.dot(face.plane.normal).abs() > 0.5
                && (*p == face.plane || p.flipped() == face.plane)
        };
        planes.iter().position(same).unwrap_or(planes.len())
    };
    solid.faces.sort_by(|a, b| {
        let (p, q) = (lowest(a), lowest(b));
        rank(a)
            .cmp(&rank(b))
            .then(p.x.total_cmp(&q.x))
            .then(p.y.total_cmp(&q.y))
            .then(p.z.total_cmp(&q.z))
    });
}

fn drop_unused_vertices(solid: &mut Solid) {
    let mut number = vec![None; solid.vertices.len()];
    let mut kept = Vec::new();
    for v in solid
        .faces
        .iter_mut()
        .flat_map(|face| face.loops.iter_mut().flatten())
    {
        *v = *number[*v].get_or_insert_with(|| {
            kept.push(solid.vertices[*v]);
            kept.len() - 1
        });
    }
    solid.vertices = kept;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_notched_box_is_put_together_from_its_planes() {
        let space = cube([0.0; 3], [1.15, 0.52, 0.33]);
        let arch = cube([0.26, 0.29, 0.0], [0.9, 0.52, 0.25]);
        let left = difference(&space, &[&arch]).unwrap();
        assert_eq!(left.faults(), []);
        // Seven planes of the box and the arch's other four: the floor and the wall are each
        // one face with a bite out of it.
        assert_eq!(left.faces.len(), 10);
        let want = 1.15 * 0.52 * 0.33 - 0.64 * 0.23 * 0.25;
        assert!((left.moments().volume - want).abs() < 1e-15);
    }

    #[test]
    fn a_through_hole_leaves_faces_with_holes() {
        let block = cube([0.0; 3], [1.0, 1.0, 1.0]);
        let peg = cube([0.3, 0.3, -1.0], [0.6, 0.6, 2.0]);
        let left = difference(&block, &[&peg]).unwrap();
        assert_eq!(left.faults(), []);
        assert_eq!(left.faces.iter().filter(|f| f.loops.len() == 2).count(), 2);
    }

    #[test]
    fn clipping_gives_a_cap_and_the_pieces_come_apart() {
        let block = cube([0.0; 3], [1.0, 1.0, 1.0]);
        let slot = cube([0.4, -1.0, -1.0], [0.6, 2.0, 2.0]);
        let halves = difference(&block, &[&slot]).unwrap();
        let halves = pieces(&halves).unwrap();
        assert_eq!(halves.len(), 2);
        assert!(halves[0].bounds().0.x < halves[1].bounds().0.x);
        let plane = Plane::through(Point3::new(0.5, 0.5, 0.5), Vec3::new(1.0, 2.0, 3.0)).unwrap();
        let clipped = clip(&block, &plane).unwrap();
        assert_eq!(clipped.faults(), []);
        assert!((clipped.moments().volume - block.moments_below(&plane).volume).abs() < 1e-14);
    }

    /// A mesh with a hole in it stands for a boolean that went wrong: both are empty.
    #[test]
    fn a_boolean_that_went_wrong_is_not_nothing() {
        let mut planes = Vec::new();
        let whole = to_mesh(&cube([0.0; 3], [1.0; 3]), 0, &mut planes).unwrap();
        let mut open = whole.get_mesh_gl64(-1);
        open.tri_verts.truncate(open.tri_verts.len() - 3);
        let wrong = Manifold::from_mesh_gl64(&open);
        assert!(wrong.is_empty() && wrong.volume() == 0.0);
        assert_eq!(sound(wrong).err(), Some(BooleanFault::Result));
        assert!(sound(whole).is_ok());
    }

    #[test]
    fn touching_boxes_have_nothing_in_common() {
        let a = cube([0.0; 3], [1.0, 1.0, 1.0]);
        let b = cube([1.0, 0.0, 0.0], [2.0, 1.0, 1.0]);
        assert_eq!(common_volume(&a, &b), Ok(0.0));
        assert_eq!(remaining_volume(&a, &[&b]), Ok(1.0));
        // Nor have they where rounding makes one reach a hair into the other.
        let c = cube([1.0 - f64::EPSILON, 0.2, 0.0], [2.0, 0.7, 0.8]);
        assert_eq!(intersection(&[&a, &c]), Ok(Solid::default()));
    }
}
