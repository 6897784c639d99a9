//! Solids seen from afar: their faces as tiles, sorted so that a painter who lays them one over
//! the other ends with the right picture.
//!
//! The order comes from splitting space by the planes of the faces themselves, so it is right
//! even where three tiles overlap each other in a ring. Plain SI numbers.

use super::canvas::{Canvas, Line};
use super::scale::Scale;
use brimful_geom::frame::Plane;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::{Edge, Solid};
use brimful_geom::triangulate::triangulate;
use brimful_geom::vector::{Point2, Point3, Vec3};
use std::collections::BTreeSet;
use std::f64::consts::PI;

/// A corner nearer to a plane than this lies in it, metres: far below a line's width, far above
/// rounding.
const IN_PLANE: f64 = 1e-7;
/// Edges that turn by less than this, radians, are facets of a round hole and not drawn.
const ROUND_TURN: f64 = 0.4;
/// Splitting planes weighed at each step.
const CANDIDATES: usize = 10;

/// A direction to look from, with what is right and up on the paper.
#[derive(Clone, Copy, Debug)]
pub struct View {
    eye: Vec3,
    right: Vec3,
    up: Vec3,
}

impl View {
    /// Looking from `eye` (any length, not straight up or down), z upright on the paper.
    pub fn from(eye: Vec3) -> Self {
        let eye = eye.unit().unwrap_or(Vec3::X);
        let right = Vec3::Z.cross(eye).unit().unwrap_or(Vec3::Y);
        Self {
            eye,
            right,
            up: eye.cross(right),
        }
    }
    /// Where a point is on the picture plane, metres.
    pub fn flat(&self, point: Point3) -> Point2 {
        let way = point.to_vec();
        Point2::new(way.dot(self.right), way.dot(self.up))
    }
    /// How near a point is to the eye, metres; more is nearer.
    pub fn depth(&self, point: Point3) -> f64 {
        self.eye.dot(point.to_vec())
    }
    /// How bright a face is, -1 to 1, in light from above and from the left of the eye: the two
    /// walls and the lid that are seen at a corner each get a grey of their own.
    pub fn brightness(&self, normal: Vec3) -> f64 {
        let light = Vec3::Z * 0.7 - self.right * 0.7 + self.eye * 0.2;
        light.unit().map_or(0.0, |light| light.dot(normal))
    }
    /// Cosine of the angle at which a face is seen; not above zero from behind.
    pub fn facing(&self, normal: Vec3) -> f64 {
        self.eye.dot(normal)
    }
}

/// A flat convex piece of a face that looks to the eye.
#[derive(Clone, Debug)]
pub struct Tile {
    /// Its corners, each with whether the side to the next one is an edge of the solid.
    pub corners: Vec<(Point3, bool)>,
    /// The plane of its face.
    pub plane: Plane,
    /// How bright it is for its light, 1 for the white of panels.
    pub tone: f64,
}

/// The faces of a solid that look to the eye, as triangles.
pub fn tiles(solid: &Solid, view: &View) -> Vec<Tile> {
    facing(solid, |plane| view.facing(plane.normal) > 0.0)
}

/// The faces of a hollow that are seen from within when those before it are left away.
pub fn hollow_tiles(hollow: &Solid, view: &View) -> Vec<Tile> {
    let mut tiles = facing(hollow, |plane| view.facing(plane.normal) < 0.0);
    for tile in &mut tiles {
        tile.plane = tile.plane.flipped();
        let drawn: Vec<bool> = tile.corners.iter().map(|corner| corner.1).collect();
        let n = drawn.len();
        tile.corners.reverse();
        // The side after a corner was the side before it.
        for (i, corner) in tile.corners.iter_mut().enumerate() {
            corner.1 = drawn[(2 * n - 2 - i) % n];
        }
    }
    tiles
}

/// Whether an edge of a solid is drawn: not one between facets of something round.
pub fn is_sharp(edge: &Edge) -> bool {
    (edge.angle - PI).abs() > ROUND_TURN
}

/// The faces of a solid that are wanted, as triangles.
fn facing(solid: &Solid, wanted: impl Fn(&Plane) -> bool) -> Vec<Tile> {
    let sharp: BTreeSet<(usize, usize)> = solid
        .edges()
        .iter()
        .filter(|edge| is_sharp(edge))
        .flat_map(|edge| [(edge.from, edge.to), (edge.to, edge.from)])
        .collect();
    let mut tiles = Vec::new();
    for (number, face) in solid.faces.iter().enumerate() {
        if !wanted(&face.plane) {
            continue;
        }
        let frame = solid.face_frame(number);
        let outlines: Vec<Outline> = solid.face_outlines(number, &frame);
        let vertices: Vec<usize> = face.loops.iter().flatten().copied().collect();
        for triangle in triangulate(&outlines) {
            let corners = (0..3).map(|i| {
                let (a, b) = (vertices[triangle[i]], vertices[triangle[(i + 1) % 3]]);
                (solid.vertices[a], sharp.contains(&(a, b)))
            });
            tiles.push(Tile {
                corners: corners.collect(),
                plane: face.plane,
                tone: 1.0,
            });
        }
    }
    tiles
}

/// The tiles in the order to paint them, some of them split.
pub fn back_to_front(tiles: Vec<Tile>) -> Vec<Tile> {
    let mut painted = Vec::new();
    // What waits is either a heap still to be split or tiles ready to be painted.
    let mut waiting = vec![(tiles, false)];
    while let Some((tiles, ready)) = waiting.pop() {
        if ready || tiles.len() < 2 {
            painted.extend(tiles);
            continue;
        }
        let plane = splitter(&tiles);
        let mut parts = Parts::default();
        tiles.into_iter().for_each(|tile| parts.sort(tile, &plane));
        // Every tile looks to the eye, so the eye is in front of every plane.
        waiting.push((parts.front, false));
        waiting.push((parts.within, true));
        waiting.push((parts.behind, false));
    }
    painted
}

/// The plane, of a few, that splits fewest tiles and parts the rest most evenly.
fn splitter(tiles: &[Tile]) -> Plane {
    let step = tiles.len().div_ceil(CANDIDATES);
    let cost = |plane: &Plane| {
        let (mut front, mut behind, mut split) = (0_usize, 0_usize, 0_usize);
        for tile in tiles {
            match side(tile, plane) {
                (true, true) => split += 1,
                (true, false) => front += 1,
                (false, true) => behind += 1,
                (false, false) => {}
            }
        }
        8 * split + front.abs_diff(behind)
    };
    let candidates = tiles.iter().step_by(step).map(|tile| tile.plane);
    candidates
        .min_by_key(|plane| cost(plane))
        .unwrap_or(tiles[0].plane)
}

/// Whether a tile reaches in front of a plane, and behind it.
fn side(tile: &Tile, plane: &Plane) -> (bool, bool) {
    let reach = tile.corners.iter().map(|(point, _)| plane.distance(*point));
    reach.fold((false, false), |(front, behind), distance| {
        (front || distance > IN_PLANE, behind || distance < -IN_PLANE)
    })
}

#[derive(Default)]
struct Parts {
    front: Vec<Tile>,
    within: Vec<Tile>,
    behind: Vec<Tile>,
}

impl Parts {
    fn sort(&mut self, tile: Tile, plane: &Plane) {
        match side(&tile, plane) {
            (false, false) => self.within.push(tile),
            (true, false) => self.front.push(tile),
            (false, true) => self.behind.push(tile),
            (true, true) => {
                self.front.extend(part(&tile, plane));
                self.behind.extend(part(&tile, &plane.flipped()));
            }
        }
    }
}

/// The part of a tile in front of a plane.
fn part(tile: &Tile, plane: &Plane) -> Option<Tile> {
    let n = tile.corners.len();
    let mut corners = Vec::with_capacity(n + 1);
    for i in 0..n {
        let ((a, drawn), (b, _)) = (tile.corners[i], tile.corners[(i + 1) % n]);
        let (from, to) = (plane.distance(a), plane.distance(b));
        if from >= 0.0 {
            corners.push((a, drawn));
        }
        if (from >= 0.0) != (to >= 0.0) {
            let crossing = a + (b - a) * (from / (from - to));
            // Leaving, the next side is the cut; coming back, it is the rest of this one.
            corners.push((crossing, from < 0.0 && drawn));
        }
    }
    (corners.len() > 2).then_some(Tile {
        corners,
        plane: tile.plane,
        tone: tile.tone,
    })
}

/// Lower left and upper right of tiles on the picture plane, metres.
pub fn bounds(tiles: &[Tile], view: &View) -> (Point2, Point2) {
    let corners = tiles.iter().flat_map(|tile| &tile.corners);
    Outline(corners.map(|(point, _)| view.flat(*point)).collect()).bounds()
}

/// Paints a tile in its light, with its edges.
pub fn paint(canvas: &mut Canvas, tile: &Tile, view: &View, scale: &Scale) {
    let grey = tile.tone * (0.8 + 0.19 * view.brightness(tile.plane.normal));
    let corners: Vec<_> = tile
        .corners
        .iter()
        .map(|(point, _)| scale.spot(view.flat(*point)))
        .collect();
    canvas.tile(&corners, grey);
    for (i, (_, drawn)) in tile.corners.iter().enumerate() {
        if *drawn {
            canvas.line(corners[i], corners[(i + 1) % corners.len()], Line::Fine);
        }
    }
}

/// The scene as it stands before the eye, to ask what is seen.
pub struct Screen {
    view: View,
    /// Each tile's outline on the picture plane, the box round it, and its plane.
    tiles: Vec<(Outline, (Point2, Point2), Plane)>,
}

impl Screen {
    /// The screen of these tiles.
    pub fn new(tiles: &[Tile], view: &View) -> Self {
        let flat = |tile: &Tile| {
            let corners = tile.corners.iter().map(|(point, _)| view.flat(*point));
            let outline = Outline(corners.collect());
            let bounds = outline.bounds();
            (outline, bounds, tile.plane)
        };
        Self {
            view: *view,
            tiles: tiles.iter().map(flat).collect(),
        }
    }

    /// Whether nothing hides a point of the scene from the eye.
    pub fn shows(&self, point: Point3) -> bool {
        /// Tiles no nearer than this in front of the point are the point's own face, metres.
        const OWN_FACE: f64 = 1e-4;
        let flat = self.view.flat(point);
        !self.tiles.iter().any(|(outline, (low, high), plane)| {
            let near = flat.x >= low.x && flat.x <= high.x && flat.y >= low.y && flat.y <= high.y;
            near && outline.sides().all(|(a, b)| (b - a).cross(flat - a) >= 0.0)
                // Along the line of sight the tile's plane is met this far in front of the point.
                && -plane.distance(point) / self.view.facing(plane.normal) > OWN_FACE
        })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may panic")]

    use super::*;

    fn area(tile: &Tile, view: &View) -> f64 {
        let ring = tile.corners.iter().map(|(point, _)| view.flat(*point));
        Outline(ring.collect()).signed_area()
    }

    /// Seen from within, the far sides of a box cover as much paper as the near ones do from outside.
    #[test]
    fn a_hollow_shows_its_far_sides() {
        let view = View::from(Vec3::new(1.0, 0.7, 0.8));
        let cube = Solid::cuboid(Point3::ORIGIN, Point3::new(1.0, 2.0, 3.0));
        let (near, far) = (tiles(&cube, &view), hollow_tiles(&cube, &view));
        let total = |tiles: &[Tile]| tiles.iter().map(|tile| area(tile, &view)).sum::<f64>();
        assert!((total(&near) - total(&far)).abs() < 1e-12);
        assert!(far.iter().all(|tile| view.facing(tile.plane.normal) > 0.0));
        let drawn = |tile: &Tile| tile.corners.iter().filter(|corner| corner.1).count();
        assert!(
            far.iter().all(|tile| drawn(tile) == 2),
            "all but the diagonal"
        );
        // The side that is not drawn is the longest, the diagonal of its face.
        for tile in &far {
            let side = |i: usize| tile.corners[i].0.distance(tile.corners[(i + 1) % 3].0);
            let longest = (0..3).max_by(|&a, &b| side(a).total_cmp(&side(b))).unwrap();
            assert!(!tile.corners[longest].1);
        }
    }

    #[test]
    fn three_bars_in_a_ring_are_painted_with_each_over_the_next() {
        let bar = |low: [f64; 3], high: [f64; 3]| {
            Solid::cuboid(
                Point3::new(low[0], low[1], low[2]),
                Point3::new(high[0], high[1], high[2]),
            )
        };
        let view = View::from(Vec3::new(1.0, 1.0, 1.0));
        // Seen along (1, 1, 1) these cover each other in turn.
        let bars = [
            bar([0., 0., 2.], [4., 1., 3.]),
            bar([2., 0., 0.], [3., 4., 1.]),
            bar([0., 2., 0.], [1., 3., 4.]),
        ];
        let flat: Vec<Tile> = bars.iter().flat_map(|bar| tiles(bar, &view)).collect();
        let sorted = back_to_front(flat.clone());
        let total = |tiles: &[Tile]| tiles.iter().map(|tile| area(tile, &view)).sum::<f64>();
        assert!((total(&flat) - total(&sorted)).abs() < 1e-9);
        let screen = Screen::new(&flat, &view);
        // A tile must never be painted over by one that lies behind it: try the middle of each.
        for (i, tile) in sorted.iter().enumerate() {
            let n = tile.corners.len() as f64;
            let sum = tile
                .corners
                .iter()
                .fold(Vec3::ZERO, |sum, (p, _)| sum + p.to_vec());
            let middle = Point3::ORIGIN + sum / n;
            if screen.shows(middle) {
                let flat_middle = view.flat(middle);
                for later in &sorted[i + 1..] {
                    let ring = later.corners.iter().map(|(point, _)| view.flat(*point));
                    let ring = Outline(ring.collect());
                    let covers = ring.contains(flat_middle) && ring.distance(flat_middle) > 1e-6;
                    assert!(!covers, "a seen tile is painted over");
                }
            }
        }
    }
}
