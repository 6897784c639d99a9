//! Solids that lie wholly inside a given one and have fewer faces.
//!
//! One step takes away a part of the solid, so that whatever comes out is inside it by
//! construction. There are four:
//!
//! * [`Step::Level`] keeps what is below a level plane (only as a first step);
//! * [`Step::Side`] keeps one side of the plane of a face at a re-entrant edge: a notch, a shelf or
//!   a recess goes away together with all that lies beyond it;
//! * [`Step::Fill`] fills the place in front of a face between the planes of its re-entrant
//!   neighbours: a shelf over an arch goes away and the arch's ends run up instead;
//! * [`Step::Facet`] puts one plane in the place of two neighbouring faces, behind all corners of
//!   both.
//!
//! The search is a beam over the number of faces and, among those with as many, of re-entrant
//! edges: from the solids with most down, each of at most `beam` (and those level with the last)
//! is put through all steps, and only what is less than where it came from goes on. It ends because
//! that measure falls. With n faces and e re-entrant edges a solid has at most 2e + n + `beam`
//! steps, each one boolean of n faces, and there are at most n e `beam` solids; in practice some
//! tens. Nothing is proven about what the beam leaves out.

use crate::boolean::{BooleanFault, clip, difference, pieces};
use crate::frame::Plane;
use crate::solid::{Edge, Solid};
use crate::vector::{Point3, Vec3};
use std::collections::BTreeMap;

/// Places nearer than this are one place, metres: what is measured comes to 1e-4, and rounding in
/// corners of a few metres to 1e-15, raised by flat corners to perhaps 1e-11.
const SAME_PLACE: f64 = 1e-9;

/// A plane in the place of two faces must leave this share of the volume: it is there for chamfers
/// and small flats. A lid and a wall made one slope would only crowd out better solids.
const FACET_LEAVES: f64 = 0.9;

/// Solids with no more faces than a box are not made simpler.
const FACES_OF_A_BOX: usize = 6;

/// An edge is re-entrant where the angle through the material is over a half turn by more than
/// this, radians: two faces of one plane come out within 1e-8 of it, a sheet is never bent so little.
const STRAIGHT: f64 = 1e-6;

/// Volumes that differ by less, relative to the larger, are level: a mirror image's volume differs
/// by the order of its sums, about 1e-15.
const LEVEL_VOLUME: f64 = 1e-10;

/// How widely to search.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// Solids kept for each number of faces and re-entrant edges (more only where they are level
    /// in volume).
    pub beam: usize,
    /// Solids with less volume are dropped, m3.
    pub least_volume: f64,
    /// Heights z at which the solid may be limited from above before anything else, metres.
    pub levels: Vec<f64>,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            beam: 4,
            least_volume: 0.0,
            levels: Vec::new(),
        }
    }
}

/// What was done to make a solid simpler.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Limited from above by this level plane.
    Level(Plane),
    /// Kept on the inner side of this plane, which was that of a face at a re-entrant edge.
    Side(Plane),
    /// Filled in front of the face in this plane, between its re-entrant neighbours.
    Fill(Plane),
    /// This plane put in the place of two neighbouring faces.
    Facet(Plane),
}

/// A solid inside the given one.
#[derive(Clone, Debug, PartialEq)]
pub struct Simpler {
    /// One closed body.
    pub solid: Solid,
    /// Its volume, m3.
    pub volume: f64,
    /// How it was come by; empty for the given solid itself.
    pub steps: Vec<Step>,
}

/// Solids inside `allowed` (itself among them), most faces first, and for each number of faces the
/// biggest first.
///
/// Every one is a single closed body without [`Solid::faults`]; of a solid that falls apart the
/// largest piece is taken. Mirrored input gives the mirrored solids. Empty only where `allowed`
/// has faults or less than the least volume.
pub fn simpler(allowed: &Solid, limits: &Limits) -> Vec<Simpler> {
    let mut waiting = Waiting::default();
    let mut seeds = vec![(allowed.clone(), Vec::new())];
    for &z in &limits.levels {
        let plane = Plane {
            normal: Vec3::Z,
            offset: z,
        };
        if let Ok(solid) = clip(allowed, &plane) {
            seeds.push((solid, vec![Step::Level(plane)]));
        }
    }
    for (solid, steps) in seeds {
        if let Some(candidate) = candidate(solid, steps, limits) {
            waiting.add(candidate);
        }
    }
    let mut found = Vec::new();
    while let Some((measure, level)) = waiting.greatest(limits.beam.max(1)) {
        for from in &level {
            if from.solid.faces.len() <= FACES_OF_A_BOX {
                continue;
            }
            for (solid, step) in cut_down(&from.solid, limits) {
                let steps = [from.steps.as_slice(), &[step]].concat();
                let less = |c: &Simpler| complexity(&c.solid) < measure;
                if let Some(candidate) = candidate(solid, steps, limits).filter(less) {
                    waiting.add(candidate);
                }
            }
        }
        found.extend(level);
    }
    found.sort_by(|a, b| {
        let faces = |c: &Simpler| c.solid.faces.len();
        faces(b)
            .cmp(&faces(a))
            .then(b.volume.total_cmp(&a.volume))
            .then(a.solid.area().total_cmp(&b.solid.area()))
    });
    found
}

/// The number of faces and of re-entrant edges.
type Complexity = (usize, usize);

fn complexity(solid: &Solid) -> Complexity {
    (solid.faces.len(), re_entrant(&solid.edges()).len())
}

fn re_entrant(edges: &[Edge]) -> Vec<Edge> {
    let over = |edge: &&Edge| edge.angle > std::f64::consts::PI + STRAIGHT;
    edges.iter().filter(over).copied().collect()
}

/// Solids by how complex they are, still to be worked on.
#[derive(Default)]
struct Waiting(BTreeMap<Complexity, Vec<Simpler>>);

impl Waiting {
    fn add(&mut self, candidate: Simpler) {
        let level = self.0.entry(complexity(&candidate.solid)).or_default();
        if !level.iter().any(|other| same(other, &candidate)) {
            level.push(candidate);
        }
    }

    /// Takes out the most complex: the `beam` biggest and any level with the last of them.
    fn greatest(&mut self, beam: usize) -> Option<(Complexity, Vec<Simpler>)> {
        let (measure, mut level) = self.0.pop_last()?;
        keep_biggest(&mut level, beam, |c| c.volume);
        Some((measure, level))
    }
}

/// Keeps the `most` of greatest volume, and any level with the last of them: which of two mirror
/// images came first must not matter.
fn keep_biggest<T>(items: &mut Vec<T>, most: usize, volume: impl Fn(&T) -> f64) {
    items.sort_by(|a, b| volume(b).total_cmp(&volume(a)));
    if let Some(last) = most.checked_sub(1).and_then(|i| items.get(i)).map(&volume) {
        items.retain(|item| volume(item) >= last * (1.0 - LEVEL_VOLUME));
    }
}

/// Two solids with as many faces are one when their volume, centre and spread agree.
fn same(a: &Simpler, b: &Simpler) -> bool {
    if (a.volume - b.volume).abs() > LEVEL_VOLUME * a.volume {
        return false;
    }
    let (m, n) = (a.solid.moments(), b.solid.moments());
    let size = a.volume.cbrt();
    let near = |p: Vec3, q: Vec3, power: i32| {
        (p - q).length() <= 10.0 * LEVEL_VOLUME * a.volume * size.max(1.0).powi(power)
    };
    near(m.first, n.first, 1)
        && near(m.second_axis, n.second_axis, 2)
        && near(m.second_cross, n.second_cross, 2)
}

/// The largest piece, where it is a proper solid of enough volume.
fn candidate(solid: Solid, steps: Vec<Step>, limits: &Limits) -> Option<Simpler> {
    let solid = largest_piece(solid).ok()?;
    let volume = solid.moments().volume;
    let proper = volume > limits.least_volume && solid.faults().is_empty();
    proper.then_some(Simpler {
        solid,
        volume,
        steps,
    })
}

fn largest_piece(solid: Solid) -> Result<Solid, BooleanFault> {
    if solid.shells() < 2 {
        return Ok(solid);
    }
    let volume = |s: &Solid| s.moments().volume;
    let parts = pieces(&solid)?;
    let largest = parts
        .into_iter()
        .reduce(|a, b| if volume(&b) > volume(&a) { b } else { a });
    Ok(largest.unwrap_or_default())
}

/// All that one step makes of a solid.
fn cut_down(solid: &Solid, limits: &Limits) -> Vec<(Solid, Step)> {
    let edges = solid.edges();
    let re_entrant = re_entrant(&edges);
    let mut made = Vec::new();
    for plane in sides(solid, &re_entrant) {
        if solid.moments_below(&plane).volume > limits.least_volume
            && let Ok(kept) = clip(solid, &plane)
        {
            made.push((kept, Step::Side(plane)));
        }
    }
    for face in 0..solid.faces.len() {
        if let Some(Ok(kept)) = filled(solid, &re_entrant, face) {
            made.push((kept, Step::Fill(solid.faces[face].plane)));
        }
    }
    for plane in facets(solid, &edges, limits.beam) {
        if let Ok(kept) = clip(solid, &plane) {
            made.push((kept, Step::Facet(plane)));
        }
    }
    made
}

/// The planes at re-entrant edges, each once.
fn sides(solid: &Solid, re_entrant: &[Edge]) -> Vec<Plane> {
    let mut planes: Vec<Plane> = Vec::new();
    for face in re_entrant.iter().flat_map(|edge| [edge.face, edge.twin]) {
        let plane = solid.faces[face].plane;
        if !planes.iter().any(|p| same_plane(p, &plane)) {
            planes.push(plane);
        }
    }
    planes
}

fn same_plane(a: &Plane, b: &Plane) -> bool {
    (a.normal - b.normal).length() < SAME_PLACE && (a.offset - b.offset).abs() < SAME_PLACE
}

/// The solid without what lies in front of a face and beyond the planes of all its re-entrant
/// neighbours; `None` for a face that has none.
fn filled(solid: &Solid, re_entrant: &[Edge], face: usize) -> Option<Result<Solid, BooleanFault>> {
    let across = |edge: &Edge| match face {
        f if f == edge.face => Some(edge.twin),
        f if f == edge.twin => Some(edge.face),
        _ => None,
    };
    let mut neighbours: Vec<usize> = re_entrant.iter().filter_map(across).collect();
    neighbours.sort_unstable();
    neighbours.dedup();
    if neighbours.is_empty() {
        return None;
    }
    let (low, high) = solid.bounds();
    let reach = Vec3::new(1.0, 1.0, 1.0) * low.distance(high);
    let mut fill = Solid::cuboid(low - reach, high + reach);
    let inner = solid.faces[face].plane;
    let outer = neighbours.iter().map(|&n| solid.faces[n].plane.flipped());
    for plane in outer.chain([inner]) {
        match clip(&fill, &plane) {
            Ok(rest) => fill = rest,
            Err(fault) => return Some(Err(fault)),
        }
    }
    Some(difference(solid, &[&fill]))
}

/// Planes that can stand in the place of the two faces at a convex edge: of all edges the `most`
/// that leave the greatest volume.
fn facets(solid: &Solid, edges: &[Edge], most: usize) -> Vec<Plane> {
    let convex = |edge: &&Edge| edge.angle < std::f64::consts::PI - STRAIGHT;
    let least = FACET_LEAVES * solid.moments().volume;
    let mut planes: Vec<(f64, Plane)> = Vec::new();
    for plane in edges
        .iter()
        .filter(convex)
        .flat_map(|edge| stand_ins(solid, edge))
    {
        if !planes.iter().any(|(_, p)| same_plane(p, &plane)) {
            planes.push((solid.moments_below(&plane).volume, plane));
        }
    }
    planes.retain(|&(volume, _)| volume >= least);
    keep_biggest(&mut planes, most, |(volume, _)| *volume);
    planes.into_iter().map(|(_, plane)| plane).collect()
}

/// Planes behind all corners of the two faces at an edge: along either of them, or through a side
/// of the one and a corner of the other.
fn stand_ins(solid: &Solid, edge: &Edge) -> Vec<Plane> {
    let corners = |face: usize| {
        let rings = solid.faces[face].loops.iter().flatten();
        rings.map(|&v| solid.vertices[v]).collect::<Vec<Point3>>()
    };
    let (own, other) = (corners(edge.face), corners(edge.twin));
    let both = [own.as_slice(), other.as_slice()].concat();
    let normal = |face: usize| solid.faces[face].plane.normal;
    let outward = normal(edge.face) + normal(edge.twin);
    let mut planes = Vec::new();
    for (face, far) in [(edge.face, &other), (edge.twin, &own)] {
        let plane = solid.faces[face].plane;
        let depth = far.iter().map(|&p| plane.distance(p));
        planes.push(plane.moved(depth.fold(f64::INFINITY, f64::min)));
        for (from, to) in solid.face_edges(face) {
            if [from, to].iter().any(|v| [edge.from, edge.to].contains(v)) {
                continue;
            }
            let side = (solid.vertices[from], solid.vertices[to]);
            planes.extend(leaning(side, far, outward));
        }
    }
    planes.retain(|plane| both.iter().all(|&p| plane.distance(p) > -SAME_PLACE));
    planes
}

/// Planes through a segment and one of some points, facing `outward`.
fn leaning(
    (from, to): (Point3, Point3),
    points: &[Point3],
    outward: Vec3,
) -> impl Iterator<Item = Plane> + '_ {
    points.iter().filter_map(move |&p| {
        let plane = Plane::through(from, (to - from).cross(p - from))?;
        let facing = plane.normal.dot(outward);
        (facing.abs() > SAME_PLACE).then(|| if facing > 0.0 { plane } else { plane.flipped() })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boolean::remaining_volume;
    use crate::testing::cube;

    /// A box with a block in the middle of its back wall, and a batten in a corner.
    fn alcove() -> Solid {
        difference(
            &cube([0.0; 3], [1.15, 0.5, 0.33]),
            &[
                &cube([0.3, 0.3, -1.0], [0.85, 1.0, 0.25]),
                &cube([-1.0, -1.0, -1.0], [0.05, 0.04, 1.0]),
            ],
        )
        .unwrap()
    }

    #[test]
    fn a_notch_becomes_a_c_a_slab_and_a_box() {
        let allowed = alcove();
        let found = simpler(&allowed, &Limits::default());
        assert_eq!(found[0].solid, allowed);
        let has = |volume: f64, faces: usize| {
            found
                .iter()
                .any(|c| c.solid.faces.len() == faces && (c.volume - volume).abs() < 1e-12)
        };
        let batten = 0.05 * 0.04 * 0.33;
        // The arch run up to the lid; then the batten as well.
        let c_shape = (1.15 * 0.5 - 0.55 * 0.2) * 0.33;
        // It has as many faces as before, since the back wall now is two, but fewer inside corners.
        assert!(has(c_shape - batten, 12));
        // A box in front of the arch, beside the batten; better with a wall that leans past it.
        assert!(has(1.1 * 0.3 * 0.33, 6));
        let best = found.iter().find(|c| c.solid.faces.len() == 6).unwrap();
        assert!(best.volume > 1.1 * 0.3 * 0.33);
        for c in &found {
            assert_eq!(c.solid.faults(), []);
            assert!(remaining_volume(&c.solid, &[&allowed]).unwrap() < 1e-12);
        }
        for pair in found.windows(2) {
            assert!(pair[0].solid.faces.len() >= pair[1].solid.faces.len());
        }
    }

    #[test]
    fn a_chamfer_goes_and_a_level_limits() {
        let chamfer =
            Plane::through(Point3::new(0.95, 0.5, 0.0), Vec3::new(1.0, 1.0, 0.0)).unwrap();
        let allowed = clip(&cube([0.0; 3], [1.0, 0.55, 0.4]), &chamfer).unwrap();
        let limits = Limits {
            levels: vec![0.3],
            ..Limits::default()
        };
        let found = simpler(&allowed, &limits);
        let boxes: Vec<_> = found.iter().filter(|c| c.solid.faces.len() == 6).collect();
        // The chamfer cuts 0.1 off both walls; the best single plane instead leans from the far
        // corner of one wall over the whole length.
        assert!(boxes[0].volume > 0.9 * 0.55 * 0.4, "{}", boxes[0].volume);
        assert!(
            found
                .iter()
                .any(|c| matches!(c.steps.first(), Some(Step::Level(_))))
        );
        for c in &found {
            assert!(remaining_volume(&c.solid, &[&allowed]).unwrap() < 1e-12);
        }
    }

    #[test]
    fn a_mirrored_solid_gives_the_mirrored_ones() {
        let allowed = alcove();
        let ours = simpler(&allowed, &Limits::default());
        let theirs = simpler(&allowed.mirrored(), &Limits::default());
        assert_eq!(ours.len(), theirs.len());
        for c in &ours {
            let image = Simpler {
                solid: c.solid.mirrored(),
                ..c.clone()
            };
            assert!(theirs.iter().any(|t| same(t, &image)));
        }
    }
}
