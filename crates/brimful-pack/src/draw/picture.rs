//! Pictures of the tank in space: closed, with the lid off, and pulled apart.

use super::canvas::{Canvas, Drawing, Line, balloon_radius};
use super::projection::{Screen, Tile, View, back_to_front, bounds, paint, tiles};
use super::scale::Scale;
use brimful_geom::plate::{Cutout, Plate, PlateFace};
use brimful_geom::polygon::{Outline, distance_to_segment};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_panels::panel::{Panel, Role};
use brimful_panels::weld::WeldSide;
use brimful_tank::plan::Plan;
use std::collections::BTreeMap;

/// Sides of a round hole in a picture.
const ROUND: usize = 24;
/// How far panels are pulled apart, as a share of the tank's largest size.
const APART: f64 = 0.32;
/// Ribs are pulled further than the walls they stand on, by this factor.
const RIB_APART: f64 = 1.3;
/// Places tried for a mark on a panel, each way.
const TRIES: usize = 24;

/// What is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Show {
    /// The closed tank; rings carry the numbers of its fittings.
    Closed,
    /// The tank without its lid; rings carry the marks of panels.
    LidOff,
    /// All panels pulled apart; rings carry the marks of panels.
    Apart,
}

/// A picture no wider and no higher than the room given, millimetres.
pub fn picture(plan: &Plan, show: Show, room: (f64, f64)) -> Drawing {
    let view = View::from(eye(plan));
    let scene = Scene::new(plan, show, &view);
    let (mut canvas, scale, per_metre) = painted(&scene.tiles, &view, room);
    let screen = Screen::new(&scene.tiles, &view);
    let mut placed: Vec<Point2> = Vec::new();
    for mark in &scene.marks {
        let spots = mark.seen_spots(&screen);
        let ring = balloon_radius(&mark.text) / per_metre;
        let roomy = |spot: &Point3| {
            let flat = view.flat(*spot);
            let edges = mark
                .rims
                .iter()
                .map(|&(a, b)| distance_to_segment(flat, view.flat(a), view.flat(b)));
            // Other rings must be clear by two radii where an edge needs one.
            let rings = placed.iter().map(|other| flat.distance(*other) - ring);
            edges.chain(rings).fold(f64::INFINITY, f64::min)
        };
        let best = spots.iter().max_by(|a, b| roomy(a).total_cmp(&roomy(b)));
        // A mark that would lie on another is left out; the panel's own drawing has it.
        let clear = |spot: &&Point3| {
            let flat = view.flat(**spot);
            placed
                .iter()
                .all(|other| flat.distance(*other) > 2.0 * ring)
        };
        if let Some(&spot) = best.filter(clear) {
            placed.push(view.flat(spot));
            canvas.balloon(scale.spot(view.flat(spot)), &mark.text);
        }
    }
    canvas.finish()
}

/// The panels that stand while these seams are welded from a side, each seam as a thick line that shows through what is
/// before it, and its mark; no wider and no higher than the room given, millimetres.
pub fn while_welding(
    plan: &Plan,
    standing: &[usize],
    seams: &[usize],
    side: WeldSide,
    room: (f64, f64),
) -> Drawing {
    let view = View::from(eye(plan));
    let stand = standing.iter().map(|&number| &plan.panels[number].finished);
    let tiles: Vec<Tile> = stand
        .flat_map(|plate| {
            let plate = pulled_out(plate, Vec3::ZERO);
            tiles(&plate.solid_with_cutouts(), &view)
        })
        .collect();
    let (mut canvas, scale, per_metre) = painted(&tiles, &view, room);
    let flat = seams.iter().map(|&number| {
        let seam = &plan.seams[number];
        let outside = seam.outer_line.filter(|_| side == WeldSide::Outside);
        let ends = outside.unwrap_or(seam.inner_line);
        (seam.mark.as_str(), ends.map(|end| view.flat(end)))
    });
    let flat: Vec<(&str, [Point2; 2])> = flat.collect();
    for (_, ends) in &flat {
        let [from, to] = ends.map(|end| scale.spot(end));
        canvas.line(from, to, Line::Run);
    }
    let mut placed: Vec<Point2> = Vec::new();
    for (mark, [from, to]) in flat {
        let middle = from + (to - from) * 0.5;
        let ring = balloon_radius(mark) / per_metre;
        // A mark that would lie on another is left out; the step names it.
        if placed
            .iter()
            .all(|other| middle.distance(*other) > 2.0 * ring)
        {
            placed.push(middle);
            canvas.balloon(scale.spot(middle), mark);
        }
    }
    canvas.finish()
}

/// Tiles painted in the room given, millimetres, with the scale and its millimetres a metre.
fn painted(tiles: &[Tile], view: &View, room: (f64, f64)) -> (Canvas, Scale, f64) {
    let (low, high) = bounds(tiles, view);
    let size = (high.x - low.x, high.y - low.y);
    let margin = 4.0;
    let inner = (room.0 - 2.0 * margin, room.1 - 2.0 * margin);
    // A picture is not measured from, so any scale will do.
    let per_metre = (inner.0 / size.0).min(inner.1 / size.1);
    let height = size.1 * per_metre + 2.0 * margin;
    let left = (room.0 - size.0 * per_metre) / 2.0;
    let scale = Scale::free(per_metre, low, (left, height - margin));
    let mut canvas = Canvas::new(room.0, height);
    for tile in back_to_front(tiles.to_vec()) {
        paint(&mut canvas, &tile, view, &scale);
    }
    (canvas, scale, per_metre)
}

/// Above a corner of the tank, the one from which most fittings in walls are seen.
fn eye(plan: &Plan) -> Vec3 {
    let corners = [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)];
    let seen = |(x, y): (f64, f64)| {
        let way = Vec3::new(x, y, 0.0);
        let walls = plan.panels.iter().filter(|panel| panel.role == Role::Wall);
        walls
            .filter(|panel| panel.finished.frame.z.dot(way) > 0.1)
            .map(|panel| panel.openings.len())
            .sum::<usize>()
    };
    let mut best = corners[0];
    for corner in corners {
        if seen(corner) > seen(best) {
            best = corner;
        }
    }
    // Neither 45 degrees round nor a true isometric: edges of a cube would fall in line.
    Vec3::new(best.0, best.1 * 0.75, 0.85)
}

struct Mark {
    text: String,
    /// Where it may be put, in the world, by column and row of a grid on the panel; one place
    /// alone for a fitting.
    spots: BTreeMap<(usize, usize), Point3>,
    /// What it should keep clear of.
    rims: Vec<(Point3, Point3)>,
}

impl Mark {
    /// The places that are seen, and of a grid only those whose neighbours are seen as well: what
    /// shows through a slit gets no mark.
    fn seen_spots(&self, screen: &Screen) -> Vec<Point3> {
        let mut seen = self.spots.clone();
        seen.retain(|_, spot| screen.shows(*spot));
        let between = |&(i, j): &(usize, usize)| {
            [(i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1)]
                .iter()
                .all(|place| seen.contains_key(place))
        };
        let roomy = seen
            .iter()
            .filter(|(place, _)| self.spots.len() == 1 || between(place));
        roomy.map(|(_, spot)| *spot).collect()
    }
}

struct Scene {
    tiles: Vec<Tile>,
    marks: Vec<Mark>,
}

impl Scene {
    fn new(plan: &Plan, show: Show, view: &View) -> Self {
        let mut scene = Self {
            tiles: Vec::new(),
            marks: Vec::new(),
        };
        let (low, high) = plan.body.solid.bounds();
        let apart = (high - low).to_array().into_iter().fold(0.0, f64::max) * APART;
        for panel in &plan.panels {
            if show == Show::LidOff && panel.role == Role::Lid {
                continue;
            }
            let way = match show {
                Show::Apart if panel.role == Role::Rib => {
                    panel.finished.frame.y * (apart * RIB_APART)
                }
                Show::Apart if panel.role.is_outer() => panel.finished.frame.z * apart,
                _ => Vec3::ZERO,
            };
            let plate = pulled_out(&panel.finished, way);
            scene.tiles.extend(tiles(&plate.solid_with_cutouts(), view));
            if show == Show::Closed {
                scene.marks.extend(fitting_marks(panel, &plate, view));
            } else {
                scene.marks.push(panel_mark(panel, &plate, view));
            }
        }
        scene
    }
}

/// The plate moved, with its round holes as polygons.
fn pulled_out(plate: &Plate, way: Vec3) -> Plate {
    let mut moved = plate.clone();
    moved.frame.origin = plate.frame.origin + way;
    for cutout in &mut moved.cutouts {
        if let Cutout::Round { centre, radius } = *cutout {
            *cutout = Cutout::Straight(Outline::round(centre, radius, ROUND));
        }
    }
    moved
}

/// The face of a plate that looks to the eye, and its depth below the outside face.
fn seen_face(plate: &Plate, view: &View) -> (PlateFace, f64) {
    if view.facing(plate.frame.z) >= 0.0 {
        (PlateFace::Outside, 0.0)
    } else {
        (PlateFace::Inside, -plate.thickness)
    }
}

fn panel_mark(panel: &Panel, plate: &Plate, view: &View) -> Mark {
    let (face, depth) = seen_face(plate, view);
    let mut outlines = plate.outlines(face);
    outlines.extend(plate.cutouts.iter().map(Cutout::outline));
    let world = |p: Point2| plate.frame.world_from_frame(Point3::new(p.x, p.y, depth));
    let (low, high) = outlines[0].bounds();
    let mut spots = BTreeMap::new();
    for i in 1..TRIES {
        for j in 1..TRIES {
            let share = |k: usize| k as f64 / TRIES as f64;
            let spot = Point2::new(
                low.x + (high.x - low.x) * share(i),
                low.y + (high.y - low.y) * share(j),
            );
            let in_hole = outlines[1..].iter().any(|hole| hole.contains(spot));
            if outlines[0].contains(spot) && !in_hole {
                spots.insert((i, j), world(spot));
            }
        }
    }
    let rims = outlines.iter().flat_map(|outline| {
        outline
            .sides()
            .map(|(a, b)| (world(a), world(b)))
            .collect::<Vec<_>>()
    });
    Mark {
        text: panel.mark.clone(),
        spots,
        rims: rims.collect(),
    }
}

/// A mark a fitting that can be seen, on the middle of its hole.
fn fitting_marks(panel: &Panel, plate: &Plate, view: &View) -> Vec<Mark> {
    if view.facing(plate.frame.z) <= 0.0 {
        return Vec::new();
    }
    let with_numbers = panel
        .openings
        .iter()
        .filter_map(|hole| Some((hole, hole.opening?)));
    with_numbers
        .map(|(hole, number)| Mark {
            text: (number + 1).to_string(),
            spots: BTreeMap::from([((1, 1), plate.frame.world_from_flat(hole.centre))]),
            rims: Vec::new(),
        })
        .collect()
}
