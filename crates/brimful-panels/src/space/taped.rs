//! A taped room: a floor from sides and diagonals, walls that lean, a lid from corner heights.
//!
//! Sides and one diagonal fix a four-sided floor as two triangles; the second diagonal is left
//! over and tells how well the tape was held. A wall is a plane through its foot. The lid is a
//! plane where the corner tops lie in one; else a flat under all of them, or two triangles with
//! the fold along the lower diagonal, which stay below every surface ruled between the corners.

use super::measurement::{UnderTop, of_space, racked, second_diagonal, twisted_top, uneven_top};
use super::shell::Shell;
use super::tolerance::TAPE;
use crate::finding::kind::SpaceKind;
use crate::finding::{Finding, Grade};
use crate::shape::{FloorHalf, ShapeFault, SpaceFault, simple};
use brimful_geom::boolean::{self, BooleanFault};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec2, Vec3};
use brimful_job::{Base, LeaningWall, Side, TapedRoom, Twisted};
use brimful_units::Length;

/// The shell of a taped room.
pub(super) fn shell(room: &TapedRoom, twisted: Twisted) -> Result<Shell, ShapeFault> {
    let mut findings = Vec::new();
    let corners = floor(room, &mut findings)?;
    let tops: Vec<Point3> = corners
        .iter()
        .zip(&room.heights)
        .map(|(corner, height)| Point3::new(corner.x, corner.y, height.m()))
        .collect();
    let not_made = |fault: BooleanFault| ShapeFault::new(&room.place, SpaceFault::TapedOpen(fault));
    let open = walls(room, &corners).map_err(not_made)?;
    let solid = lid(&open, &tops, twisted, &mut findings).map_err(not_made)?;
    if solid.faces.is_empty() {
        return Err(ShapeFault::new(&room.place, SpaceFault::WallsMeet));
    }
    Ok(Shell {
        solid,
        facing: None,
        kept_within: None,
        findings,
    })
}

/// The corners of the floor, counter-clockwise from the origin.
fn floor(room: &TapedRoom, findings: &mut Vec<Finding>) -> Result<Vec<Point2>, ShapeFault> {
    match &room.base {
        Base::Plan(outline) => Ok(simple(outline)?.0),
        Base::Sides { sides, diagonals } => {
            let sides = sides.map(Length::m);
            let diagonals: Vec<f64> = diagonals.iter().map(|diagonal| diagonal.m()).collect();
            four_sided(room, sides, &diagonals, findings)
        }
    }
}

fn four_sided(
    room: &TapedRoom,
    [right, front, left, rear]: [f64; 4],
    diagonals: &[f64],
    findings: &mut Vec<Finding>,
) -> Result<Vec<Point2>, ShapeFault> {
    let fault = |fault: SpaceFault| ShapeFault::new(&room.place, fault);
    let across = match diagonals.first() {
        Some(&diagonal) => diagonal,
        None if (right - left).abs() < TAPE && (front - rear).abs() < TAPE => {
            findings.push(of_space(Grade::Note, SpaceKind::TakenSquare));
            right.hypot(front)
        }
        None => {
            return Err(fault(SpaceFault::NoDiagonal));
        }
    };
    let corner = |base: f64, from_start: f64, from_end: f64| {
        let along = (base * base + from_start * from_start - from_end * from_end) / (2.0 * base);
        let off = from_start * from_start - along * along;
        (off > 0.0).then(|| Point2::new(along, off.sqrt()))
    };
    let no_triangle = |half: FloorHalf| fault(SpaceFault::NoTriangle(half));
    let far = corner(right, across, front).ok_or_else(|| no_triangle(FloorHalf::RightAndFront))?;
    let beyond = corner(across, rear, left).ok_or_else(|| no_triangle(FloorHalf::LeftAndRear))?;
    let way = far.to_vec() / across;
    let origin = Point2::new(0.0, 0.0);
    let near = origin + way * beyond.x + way.left() * beyond.y;
    let corners = vec![origin, Point2::new(right, 0.0), far, near];
    if !Outline(corners.clone()).faults().is_empty() {
        return Err(fault(SpaceFault::FloorCrosses));
    }
    findings.extend(out_of_square(&corners));
    let second = diagonals.get(1);
    findings.extend(second.map(|&measured| second_diagonal(measured, corners[1].distance(near))));
    Ok(corners)
}

/// How far the floor is out of square.
fn out_of_square(corners: &[Point2]) -> Option<Finding> {
    let rear = corners[3].x - corners[0].x;
    let front = corners[2].x - corners[1].x;
    (rear.abs().max(front.abs()) > TAPE).then(|| racked(rear, front))
}

/// The floor drawn up between its walls to the highest corner, without its lid.
fn walls(room: &TapedRoom, corners: &[Point2]) -> Result<Solid, BooleanFault> {
    let top = room
        .heights
        .iter()
        .fold(0.0, |top: f64, height| top.max(height.m()));
    let upright = |outline: Outline| Solid::prism(&outline, &Frame::WORLD, 0.0, top);
    if room.walls.is_empty() {
        return Ok(upright(Outline(corners.to_vec())));
    }
    // Walls that lean out reach past the floor.
    let past = room
        .walls
        .iter()
        .map(|wall| (-wall.lean.m()).max(0.0) * top / wall.at.m())
        .fold(0.0, f64::max);
    let (low, high) = Outline(corners.to_vec()).bounds();
    let margin = Vec2::new(past + 1.0, past + 1.0);
    let mut solid = Solid::cuboid(
        Point3::new(low.x - margin.x, low.y - margin.y, 0.0),
        Point3::new(high.x + margin.x, high.y + margin.y, top),
    );
    const ROUND: [Side; 4] = [Side::Right, Side::Front, Side::Left, Side::Rear];
    for (index, side) in ROUND.into_iter().enumerate() {
        let foot = (corners[index], corners[(index + 1) % 4]);
        let lean = room.walls.iter().find(|wall| wall.wall == side);
        if let Some(plane) = wall_plane(foot, lean) {
            solid = boolean::clip(&solid, &plane)?;
        }
    }
    Ok(solid)
}

/// The plane of a wall through its foot, looking out.
fn wall_plane((from, to): (Point2, Point2), lean: Option<&LeaningWall>) -> Option<Plane> {
    let out = (to - from).right().unit()?;
    let slope = lean.map_or(0.0, |wall| wall.lean.m() / wall.at.m());
    let foot = Point3::new(from.x, from.y, 0.0);
    Plane::through(foot, Vec3::new(out.x, out.y, slope))
}

/// The room below its lid.
fn lid(
    open: &Solid,
    tops: &[Point3],
    twisted: Twisted,
    findings: &mut Vec<Finding>,
) -> Result<Solid, BooleanFault> {
    let Some(flat) = flat_under(tops) else {
        return Ok(Solid::default());
    };
    let under_flat = boolean::clip(open, &flat)?;
    let off = tops
        .iter()
        .map(|&top| -flat.distance(top))
        .fold(0.0, |most: f64, off| most.max(off.abs()));
    if off < TAPE {
        return Ok(under_flat);
    }
    let &[a, b, c, d] = tops else {
        findings.push(uneven_top(off));
        return Ok(under_flat);
    };
    // The two ways to fold it along a diagonal; every ruled lid lies between them.
    let folds = [folded(open, [a, b, c, d])?, folded(open, [b, c, d, a])?];
    let volume = |solid: &Solid| solid.moments().volume;
    let ruled = (volume(&folds[0]) + volume(&folds[1])) / 2.0;
    let lower = usize::from(volume(&folds[1]) < volume(&folds[0]));
    let [first, second] = folds;
    let folded = if lower == 0 { first } else { second };
    let under = UnderTop {
        ruled,
        flat: volume(&under_flat),
        folded: volume(&folded),
    };
    findings.push(twisted_top(twisted, fourth_off([a, b, c, d]), &under));
    Ok(match twisted {
        Twisted::Flat => under_flat,
        Twisted::TwoTriangles => folded,
    })
}

/// The highest plane that no corner top lies below.
fn flat_under(tops: &[Point3]) -> Option<Plane> {
    let outline = Outline(tops.iter().map(|top| Point2::new(top.x, top.y)).collect());
    let middle = outline.centroid();
    let height = |plane: &Plane| {
        (plane.offset - plane.normal.x * middle.x - plane.normal.y * middle.y) / plane.normal.z
    };
    let mut best: Option<Plane> = None;
    for (i, &a) in tops.iter().enumerate() {
        for (j, &b) in tops.iter().enumerate().skip(i + 1) {
            for &c in &tops[j + 1..] {
                let normal = (b - a).cross(c - a);
                let upward = if normal.z < 0.0 { -normal } else { normal };
                let Some(plane) = Plane::through(a, upward) else {
                    continue;
                };
                // Rounding of the corner tops themselves.
                const ROUNDING: f64 = 1e-9;
                let below_all = tops.iter().all(|&top| plane.distance(top) > -ROUNDING);
                let usable = plane.normal.z > ROUNDING && below_all;
                if usable
                    && best
                        .as_ref()
                        .is_none_or(|best| height(&plane) > height(best))
                {
                    best = Some(plane);
                }
            }
        }
    }
    best
}

/// The room under two triangles that meet along the diagonal from the first to the third corner.
fn folded(open: &Solid, [a, b, c, d]: [Point3; 4]) -> Result<Solid, BooleanFault> {
    let upright = |from: Point3, to: Point3| {
        let along = to - from;
        Plane::through(from, Vec3::new(along.y, -along.x, 0.0))
    };
    let top = |p: Point3, q: Point3, r: Point3| Plane::through(p, (q - p).cross(r - p));
    let (Some(across), Some(first), Some(second)) = (upright(a, c), top(a, b, c), top(a, c, d))
    else {
        return Ok(Solid::default());
    };
    let far = boolean::clip(&boolean::clip(open, &across)?, &second)?;
    let near = boolean::clip(&boolean::clip(open, &across.flipped())?, &first)?;
    boolean::union(&[&near, &far])
}

/// How far the fourth corner lies off the plane of the other three.
fn fourth_off([a, b, c, d]: [Point3; 4]) -> f64 {
    Plane::through(a, (b - a).cross(c - a)).map_or(0.0, |plane| plane.distance(d).abs())
}
