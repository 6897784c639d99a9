//! A flat piece of sheet with bevelled edges: the polygon on its outside face, the polygon on its
//! inside face, and the straight sides between them.
//!
//! A plate lies in a frame: `z` points out of the outside face, which is at height zero; the
//! inside face is at minus the thickness. Every side is a plane, kept as the line it draws on
//! either face. Moving a side (for a gap or a saw allowance) moves its two lines and nothing else.
//! Corners are where neighbouring lines meet.

use crate::frame::{Frame, Plane};
use crate::polygon::{Outline, OutlineFault};
use crate::solid::{Face, Solid};
use crate::vector::{Point2, Point3, Vec2, Vec3};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
use std::fmt;

/// Lines whose directions differ by less than this sine are taken as parallel (0.06 degrees:
/// their meeting point would lie a metre off for each millimetre between them).
const PARALLEL_SINE: f64 = 1e-3;

/// Offsets nearer than this are one line, corners nearer than this are one corner, metres.
/// Far below what a saw sees, far above rounding.
const SAME_LINE: f64 = 1e-9;

/// Sides of the polygon that stands for a round hole in a solid; it has the circle's area.
pub const ROUND_SIDES: usize = 48;

/// One side of a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Unit normal in the plate's plane, out of the plate.
    pub normal: Vec2,
    /// Where the side meets the outside face: `normal . p = outer`, metres.
    pub outer: f64,
    /// Where the side meets the inside face: `normal . p = inner`, metres.
    pub inner: f64,
    /// A point near the start of the side: where it steps off a parallel neighbour.
    pub start: Point2,
    /// The caller's mark (which seam the side belongs to); `None` for a step between parallel sides.
    pub mark: Option<usize>,
}

impl Side {
    /// The side that the plane `plane` (in world coordinates, normal out of the plate) cuts on a
    /// plate of `thickness` in `frame`; `None` where the plane is parallel to the plate.
    pub fn cut_by(
        plane: &Plane,
        frame: &Frame,
        thickness: f64,
        start: Point2,
        mark: usize,
    ) -> Option<Self> {
        let flat = frame.flat_from_world_vec(plane.normal);
        let slope = plane.normal.dot(frame.z);
        let length = flat.length();
        if length < PARALLEL_SINE {
            return None;
        }
        let offset = -plane.distance(frame.origin);
        Some(Self {
            normal: flat / length,
            outer: offset / length,
            inner: (offset + slope * thickness) / length,
            start,
            mark: Some(mark),
        })
    }

    /// The side moved out of the plate by `distance` metres (measured in the plate's plane).
    pub fn moved(&self, distance: f64) -> Self {
        Self {
            outer: self.outer + distance,
            inner: self.inner + distance,
            ..*self
        }
    }

    /// Tilt of the side from square, radians; positive where the outside face is the larger.
    pub fn bevel(&self, thickness: f64) -> f64 {
        ((self.outer - self.inner) / thickness).atan()
    }

    /// The way the side runs, counter-clockwise round the plate.
    pub fn along(&self) -> Vec2 {
        self.normal.left()
    }

    /// Where the side meets a face, metres.
    pub fn offset(&self, face: PlateFace) -> f64 {
        match face {
            PlateFace::Outside => self.outer,
            PlateFace::Inside => self.inner,
        }
    }
}

/// Which of the two large faces of a plate is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PlateFace {
    /// The face the frame's normal points out of.
    Outside,
    /// The other one.
    Inside,
}

/// A hole straight through a plate.
#[derive(Clone, Debug, PartialEq)]
pub enum Cutout {
    /// A round hole.
    Round {
        /// Centre in the plate's frame.
        centre: Point2,
        /// Radius, metres.
        radius: f64,
    },
    /// A hole with straight sides, counter-clockwise.
    Straight(Outline),
}

impl Cutout {
    /// The hole as an outline, counter-clockwise, of the exact area.
    pub fn outline(&self) -> Outline {
        match self {
            Self::Round { centre, radius } => Outline::round(*centre, *radius, ROUND_SIDES),
            Self::Straight(outline) => outline.clone().counter_clockwise(),
        }
    }
}

/// A flat piece of sheet with bevelled sides and straight holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Where the plate is; `world_from_flat` gives points of the outside face.
    pub frame: Frame,
    /// Thickness, metres.
    pub thickness: f64,
    /// Loops of sides: the outer loop first, then loops round holes that the body itself has.
    pub loops: Vec<Vec<Side>>,
    /// Holes cut afterwards: openings, slots.
    pub cutouts: Vec<Cutout>,
}

/// Why a plate cannot be cut.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PlateFault {
    /// An outline on one of its faces is not simple.
    Outline(PlateFace, OutlineFault),
    /// A side would run backwards: there is no room between its neighbours.
    SideVanishes {
        /// Loop number.
        ring: usize,
        /// Side number in the loop.
        side: usize,
    },
}

impl fmt::Display for PlateFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outline(_, fault) => write!(f, "{fault}"),
            Self::SideVanishes { side, .. } => write!(f, "side {} has no length left", side + 1),
        }
    }
}

impl std::error::Error for PlateFault {}

impl Plate {
    /// A plate from loops of sides in order, counter-clockwise (holes clockwise). Where two
    /// neighbours are parallel and not in line a square step is put in between.
    pub fn new(frame: Frame, thickness: f64, loops: Vec<Vec<Side>>) -> Self {
        let loops = loops.into_iter().map(|ring| with_steps(&ring)).collect();
        Self {
            frame,
            thickness,
            loops,
            cutouts: Vec::new(),
        }
    }

    /// The outlines on one face: outer loop, then the loops round the body's own holes
    /// (clockwise). Corner `i` of a loop is where side `i` starts. Cutouts are not in it.
    pub fn outlines(&self, face: PlateFace) -> Vec<Outline> {
        let ring = |ring: &Vec<Side>| {
            let n = ring.len();
            Outline(
                (0..n)
                    .map(|i| corner(&ring[(i + n - 1) % n], &ring[i], face))
                    .collect(),
            )
        };
        self.loops.iter().map(ring).collect()
    }

    /// The smallest upright rectangle in the plate's frame that covers both faces.
    pub fn bounds(&self) -> (Point2, Point2) {
        let faces =
            [PlateFace::Outside, PlateFace::Inside].map(|face| self.outlines(face)[0].bounds());
        let (a, b) = (faces[0], faces[1]);
        (
            Point2::new(a.0.x.min(b.0.x), a.0.y.min(b.0.y)),
            Point2::new(a.1.x.max(b.1.x), a.1.y.max(b.1.y)),
        )
    }

    /// The plate with every side moved out by what `distance` says of it, metres. A step stays
    /// where it is.
    pub fn with_sides_moved(&self, distance: impl Fn(&Side) -> f64) -> Self {
        let ring = |ring: &Vec<Side>| ring.iter().map(|side| side.moved(distance(side))).collect();
        Self {
            loops: self.loops.iter().map(ring).collect(),
            ..self.clone()
        }
    }

    /// Every reason why the plate cannot be cut.
    pub fn faults(&self) -> Vec<PlateFault> {
        let mut faults = Vec::new();
        for face in [PlateFace::Outside, PlateFace::Inside] {
            for (number, outline) in self.outlines(face).into_iter().enumerate() {
                let sides = &self.loops[number];
                for (i, (a, b)) in outline.sides().enumerate() {
                    let backwards = (b - a).dot(sides[i].along()) < -SAME_LINE;
                    if sides[i].mark.is_some() && backwards {
                        faults.push(PlateFault::SideVanishes {
                            ring: number,
                            side: i,
                        });
                    }
                }
                let outline = without_repeats(&outline);
                faults.extend(
                    outline
                        .faults()
                        .into_iter()
                        .map(|fault| PlateFault::Outline(face, fault)),
                );
            }
        }
        faults
    }

    /// The plate as a solid in the world, without cutouts.
    pub fn solid(&self) -> Solid {
        let outer = self.outlines(PlateFace::Outside);
        let inner = self.outlines(PlateFace::Inside);
        self.solid_of(&outer, &inner)
    }

    /// The plate as a solid in the world, with its cutouts; round ones as polygons of the same area.
    pub fn solid_with_cutouts(&self) -> Solid {
        let holes = || {
            self.cutouts
                .iter()
                .map(|cutout| cutout.outline().reversed())
        };
        let mut outer = self.outlines(PlateFace::Outside);
        outer.extend(holes());
        let mut inner = self.outlines(PlateFace::Inside);
        inner.extend(holes());
        self.solid_of(&outer, &inner)
    }

    fn solid_of(&self, outer: &[Outline], inner: &[Outline]) -> Solid {
        let mut corners = Corners {
            plate: self,
            vertices: Vec::new(),
            by_place: BTreeMap::new(),
        };
        let mut top = Vec::new();
        let mut bottom = Vec::new();
        let mut sides = Vec::new();
        for (out, inn) in outer.iter().zip(inner) {
            let up: Vec<_> = out.0.iter().map(|&p| corners.number(p, 0.0)).collect();
            let down: Vec<_> = inn
                .0
                .iter()
                .map(|&p| corners.number(p, -self.thickness))
                .collect();
            for i in 0..up.len() {
                let j = (i + 1) % up.len();
                sides.push(compact(vec![down[i], down[j], up[j], up[i]]));
            }
            top.push(compact(up));
            let mut down = compact(down);
            down.reverse();
            bottom.push(down);
        }
        let vertices = corners.vertices;
        let plane = self.frame.plane();
        let mut faces = vec![
            Face { plane, loops: top },
            Face {
                plane: plane.flipped().moved(self.thickness),
                loops: bottom,
            },
        ];
        for ring in sides.into_iter().filter(|ring| ring.len() > 2) {
            if let Some(plane) = plane_of(&vertices, &ring) {
                faces.push(Face {
                    plane,
                    loops: vec![ring],
                });
            }
        }
        Solid { vertices, faces }
    }
}

/// Vertex numbers by place, so that corners that fall together are one vertex.
struct Corners<'a> {
    plate: &'a Plate,
    vertices: Vec<Point3>,
    by_place: BTreeMap<[i64; 3], usize>,
}

impl Corners<'_> {
    fn number(&mut self, point: Point2, z: f64) -> usize {
        let key = [point.x, point.y, z].map(|v| (v / SAME_LINE).round() as i64);
        *self.by_place.entry(key).or_insert_with(|| {
            self.vertices.push(
                self.plate
                    .frame
                    .world_from_frame(Point3::new(point.x, point.y, z)),
            );
            self.vertices.len() - 1
        })
    }
}

fn compact(mut ring: Vec<usize>) -> Vec<usize> {
    ring.dedup();
    if ring.len() > 1 && ring.first() == ring.last() {
        ring.pop();
    }
    ring
}

/// The plane of a flat loop by the sum of its cross products (Newell).
fn plane_of(vertices: &[Point3], ring: &[usize]) -> Option<Plane> {
    let first = vertices[ring[0]];
    let mut normal = Vec3::ZERO;
    for pair in ring[1..].windows(2) {
        normal += (vertices[pair[0]] - first).cross(vertices[pair[1]] - first);
    }
    Plane::through(first, normal)
}

fn without_repeats(outline: &Outline) -> Outline {
    let n = outline.0.len();
    let far = |i: &usize| outline.0[*i].distance(outline.0[(i + 1) % n]) > SAME_LINE;
    Outline((0..n).filter(far).map(|i| outline.0[i]).collect())
}

/// Where two neighbouring sides meet on a face.
pub fn corner(before: &Side, after: &Side, face: PlateFace) -> Point2 {
    let (n, m) = (before.normal, after.normal);
    let (a, b) = (before.offset(face), after.offset(face));
    let sine = n.cross(m);
    if sine.abs() < PARALLEL_SINE {
        return after.start + m * (b - m.dot(after.start.to_vec()));
    }
    let x = (a * m.y - b * n.y) / sine;
    let y = (b * n.x - a * m.x) / sine;
    Point2::new(x, y)
}

fn with_steps(ring: &[Side]) -> Vec<Side> {
    let n = ring.len();
    let mut stepped = Vec::with_capacity(n);
    for i in 0..n {
        let (before, after) = (&ring[(i + n - 1) % n], &ring[i]);
        let parallel = before.normal.cross(after.normal).abs() < PARALLEL_SINE;
        let in_line = (before.outer - after.outer).abs() < SAME_LINE
            && (before.inner - after.inner).abs() < SAME_LINE;
        if parallel && !in_line {
            let rises = after.outer + after.inner > before.outer + before.inner;
            let way = if rises { after.normal } else { -after.normal };
            let normal = way.right();
            let line = normal.dot(after.start.to_vec());
            stepped.push(Side {
                normal,
                outer: line,
                inner: line,
                start: after.start,
                mark: None,
            });
        }
        stepped.push(*after);
    }
    stepped
}

#[cfg(test)]
mod tests {
    use super::*;

    fn side(normal: (f64, f64), outer: f64, inner: f64, mark: usize) -> Side {
        Side {
            normal: Vec2::new(normal.0, normal.1),
            outer,
            inner,
            start: Point2::default(),
            mark: Some(mark),
        }
    }

    #[test]
    fn a_mitred_plate_is_a_frustum() {
        let t = 0.01;
        let ring = vec![
            side((0., -1.), 0.0, -t, 0),
            side((1., 0.), 0.4, 0.4 - t, 1),
            side((0., 1.), 0.3, 0.3 - t, 2),
            side((-1., 0.), 0.0, -t, 3),
        ];
        let plate = Plate::new(Frame::WORLD, t, vec![ring]);
        assert_eq!(plate.faults(), []);
        let solid = plate.solid();
        assert_eq!(solid.faults(), []);
        let (a, b): (f64, f64) = (0.4 * 0.3, 0.38 * 0.28);
        let frustum = t / 3.0 * (a + b + (a * b).sqrt());
        // The prismatoid formula, not the pyramid's: the sides do not meet in a point.
        let middle = 0.39 * 0.29;
        let prismatoid = t / 6.0 * (a + 4.0 * middle + b);
        assert!((solid.moments().volume - prismatoid).abs() < 1e-16);
        assert!((frustum - prismatoid).abs() < 1e-6);
        assert!((plate.loops[0][0].bevel(t).to_degrees() - 45.0).abs() < 1e-12);
    }

    #[test]
    fn a_step_joins_sides_in_line_that_end_at_different_depths() {
        let mut later = side((0., -1.), -0.05, -0.05, 1);
        later.start = Point2::new(0.2, 0.0);
        let ring = vec![
            side((0., -1.), 0.0, 0.0, 0),
            later,
            side((1., 0.), 0.4, 0.4, 2),
            side((0., 1.), 0.3, 0.3, 3),
            side((-1., 0.), 0.0, 0.0, 4),
        ];
        let plate = Plate::new(Frame::WORLD, 0.01, vec![ring]);
        assert_eq!(plate.faults(), []);
        let solid = plate.solid();
        assert_eq!(solid.faults(), []);
        let area = 0.4 * 0.3 - 0.2 * 0.05;
        assert!((solid.moments().volume - area * 0.01).abs() < 1e-16);
    }

    #[test]
    fn holes_leave_the_exact_volume() {
        let ring = vec![
            side((0., -1.), 0.0, 0.0, 0),
            side((1., 0.), 0.4, 0.4, 1),
            side((0., 1.), 0.3, 0.3, 2),
            side((-1., 0.), 0.0, 0.0, 3),
        ];
        let mut plate = Plate::new(Frame::WORLD, 0.01, vec![ring]);
        plate.cutouts.push(Cutout::Round {
            centre: Point2::new(0.2, 0.15),
            radius: 0.05,
        });
        let solid = plate.solid_with_cutouts();
        assert_eq!(solid.faults(), []);
        let want = (0.12 - std::f64::consts::PI * 0.0025) * 0.01;
        assert!((solid.moments().volume - want).abs() < 1e-16);
    }
}
