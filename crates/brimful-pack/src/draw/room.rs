//! The space seen from a corner, its near sides left away: what sticks into it dark, what stands in it
//! light, what is kept free in dashes.

use super::canvas::{Canvas, Drawing, Line, balloon_radius};
use super::projection::{Screen, Tile, View, back_to_front, hollow_tiles, is_sharp, paint, tiles};
use super::scale::Scale;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_panels::space::{Named, Room};

/// Brightness of what sticks into the space, and of its sides.
const OBSTACLE: f64 = 0.6;
const SIDES: f64 = 0.95;
/// Paper kept round the picture, millimetres.
const MARGIN: f64 = 4.0;
/// Corners looked from: right, left and so on of the space, above it.
const CORNERS: [(f64, f64); 4] = [(1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];

/// What is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct Scene<'a> {
    /// The space; none for an opening by itself.
    pub room: Option<&'a Room>,
    /// What stands in it, or on its way in.
    pub tanks: &'a [Solid],
    /// What stands there in other pictures that are to be of one scale with this.
    pub elsewhere: &'a [Solid],
    /// The corners of the way in.
    pub opening: Option<[Point3; 4]>,
    /// Whether obstacles carry their numbers, and zones kept free are drawn.
    pub marks: bool,
}

/// From which corner spaces are seen: above it, the way in on the near side, obstacles far away.
pub fn eye(room: &Room, inward: Option<Vec3>) -> Vec3 {
    // Neither 45 degrees round nor a true isometric: edges of a cube would fall in line.
    let eye = |(x, y): (f64, f64)| Vec3::new(x * 0.8, y, 0.85);
    let nearness = |corner: (f64, f64)| {
        let eye = eye(corner);
        let near: f64 = room
            .obstacles
            .iter()
            .map(|named| eye.dot(named.solid.moments().first))
            .sum();
        let hidden = inward.is_some_and(|inward| inward.dot(eye) > 0.0 && inward.z == 0.0);
        (hidden, near)
    };
    let better = |a: (bool, f64), b: (bool, f64)| match (a.0, b.0) {
        (false, true) => true,
        (true, false) => false,
        // Rounding must not turn the picture round.
        _ => a.1 < b.1 - 1e-9,
    };
    let mut best = CORNERS[0];
    for corner in CORNERS {
        if better(nearness(corner), nearness(best)) {
            best = corner;
        }
    }
    eye(best)
}

/// A picture no wider and no higher than the paper given, millimetres.
pub fn picture(scene: &Scene<'_>, eye: Vec3, paper: (f64, f64)) -> Drawing {
    let view = View::from(eye);
    let shell = scene.room.map(|room| &room.shell);
    let sides = shell.map_or(Vec::new(), |shell| toned(hollow_tiles(shell, &view), SIDES));
    let obstacles: Vec<Vec<Tile>> = scene.room.map_or(Vec::new(), |room| {
        let obstacles = room.obstacles.iter();
        obstacles
            .map(|named| toned(tiles(&named.solid, &view), OBSTACLE))
            .collect()
    });
    let mut inside: Vec<Tile> = obstacles.concat();
    inside.extend(scene.tanks.iter().flat_map(|tank| tiles(tank, &view)));
    let solids = shell.into_iter().chain(scene.tanks).chain(scene.elsewhere);
    let (low, high) = extent(solids, scene.opening, &view);
    let size = high - low;
    let per_metre = ((paper.0 - 2.0 * MARGIN) / size.x).min((paper.1 - 2.0 * MARGIN) / size.y);
    let (width, height) = (
        size.x * per_metre + 2.0 * MARGIN,
        size.y * per_metre + 2.0 * MARGIN,
    );
    let scale = Scale::free(per_metre, low, (MARGIN, height - MARGIN));
    let mut canvas = Canvas::new(width, height);
    for tile in sides.into_iter().chain(back_to_front(inside.clone())) {
        paint(&mut canvas, &tile, &view, &scale);
    }
    for (a, b, line) in lines(scene, &view) {
        canvas.line(scale.spot(view.flat(a)), scale.spot(view.flat(b)), line);
    }
    if let Some(corners) = scene.opening {
        for (a, b) in opening_seen(corners, &Screen::new(&inside, &view)) {
            canvas.line(
                scale.spot(view.flat(a)),
                scale.spot(view.flat(b)),
                Line::Seen,
            );
        }
    }
    if scene.marks {
        numbers(&mut canvas, &obstacles, &inside, &view, &scale);
    }
    canvas.finish()
}

/// Lower left and upper right of everything on the picture plane, metres.
fn extent<'a>(
    solids: impl Iterator<Item = &'a Solid>,
    opening: Option<[Point3; 4]>,
    view: &View,
) -> (Point2, Point2) {
    let corners = solids.flat_map(|solid| solid.vertices.iter().copied());
    let all = corners.chain(opening.into_iter().flatten());
    Outline(all.map(|point| view.flat(point)).collect()).bounds()
}

/// Edges that are drawn over what is painted: of sides left away, of zones kept free.
fn lines(scene: &Scene<'_>, view: &View) -> Vec<(Point3, Point3, Line)> {
    let mut lines = Vec::new();
    if let Some(room) = scene.room {
        let near = near_edges(&room.shell, view).into_iter();
        lines.extend(near.map(|(a, b)| (a, b, Line::Hidden)));
        for zone in room.keep_free.iter().filter(|_| scene.marks) {
            let corner = |i: usize| zone.solid.vertices[i];
            let edges = zone.solid.edges().into_iter();
            lines.extend(edges.map(|edge| (corner(edge.from), corner(edge.to), Line::Centre)));
        }
    }
    lines
}

/// The sides of the way in, as far as nothing stands before them.
fn opening_seen(corners: [Point3; 4], screen: &Screen) -> Vec<(Point3, Point3)> {
    /// Pieces of a side that are seen or not as a whole: a few millimetres of paper each.
    const PIECES: usize = 40;
    let side = |i: usize| {
        let (from, to) = (corners[i], corners[(i + 1) % 4]);
        let at = move |k: usize| from + (to - from) * (k as f64 / PIECES as f64);
        (0..PIECES).map(move |k| (at(k), at(k + 1)))
    };
    let pieces = (0..4).flat_map(side);
    pieces
        .filter(|(a, b)| screen.shows(*a + (*b - *a) / 2.0))
        .collect()
}

/// The number of each obstacle, on the largest of its tiles that is seen and not yet marked over.
fn numbers(
    canvas: &mut Canvas,
    obstacles: &[Vec<Tile>],
    inside: &[Tile],
    view: &View,
    scale: &Scale,
) {
    let screen = Screen::new(inside, view);
    let mut placed: Vec<Point2> = Vec::new();
    for (number, tiles) in obstacles.iter().enumerate() {
        let text = (number + 1).to_string();
        let ring = scale.metres(balloon_radius(&text));
        let clear = |flat: Point2| placed.iter().all(|other| other.distance(flat) > 2.0 * ring);
        let spot = tiles
            .iter()
            .map(|tile| (middle(tile), area(tile, view)))
            .filter(|(middle, _)| screen.shows(*middle) && clear(view.flat(*middle)))
            .max_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((middle, _)) = spot {
            placed.push(view.flat(middle));
            canvas.balloon(scale.spot(view.flat(middle)), &text);
        }
    }
}

/// The number of an obstacle in pictures, and its name.
pub fn numbered(obstacles: &[Named]) -> impl Iterator<Item = (usize, &Named)> {
    let numbers = obstacles.iter().enumerate();
    numbers.map(|(number, named)| (number + 1, named))
}

/// Edges between two sides that are left away.
fn near_edges(shell: &Solid, view: &View) -> Vec<(Point3, Point3)> {
    let near = |face: usize| view.facing(shell.faces[face].plane.normal) > 0.0;
    let edges = shell.edges().into_iter();
    edges
        .filter(|edge| near(edge.face) && near(edge.twin) && is_sharp(edge))
        .map(|edge| (shell.vertices[edge.from], shell.vertices[edge.to]))
        .collect()
}

fn toned(mut tiles: Vec<Tile>, tone: f64) -> Vec<Tile> {
    tiles.iter_mut().for_each(|tile| tile.tone = tone);
    tiles
}

fn middle(tile: &Tile) -> Point3 {
    let sum = tile.corners.iter().map(|(point, _)| point.to_vec());
    Point3::ORIGIN + sum.fold(Vec3::ZERO, |a, b| a + b) / tile.corners.len() as f64
}

fn area(tile: &Tile, view: &View) -> f64 {
    let corners = tile.corners.iter().map(|(point, _)| view.flat(*point));
    Outline(corners.collect()).signed_area().abs()
}
