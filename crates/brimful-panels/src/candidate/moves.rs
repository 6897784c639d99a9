//! The single steps from a body to a plainer one inside it.

use super::given_up::GivenUp;
use crate::space::Room;
use brimful_geom::boolean::{clip, difference, pieces};
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_job::Side;
use std::collections::BTreeSet;
use std::sync::Arc;

/// Both faces of an edge whose angle is over this by more than rounding are at an inside corner.
const FLAT: f64 = std::f64::consts::PI + 1e-9;
/// A normal this near to an axis is along it (the boolean keeps planes to 1e-12).
const ALONG: f64 = 1.0 - 1e-9;

const AXES: [(Vec3, Side, Side); 3] = [
    (Vec3::X, Side::Front, Side::Rear),
    (Vec3::Y, Side::Left, Side::Right),
    (Vec3::Z, Side::Above, Side::Below),
];

/// What a step takes away.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Cut {
    /// All that lies before a plane.
    Before(Plane),
    /// What lies past an obstacle.
    Past(Arc<Solid>),
}

impl Cut {
    /// The largest piece that is left of a body, if it is a proper one and holds more than `least` (m3).
    pub(super) fn rest(&self, solid: &Solid, least: f64) -> Option<Solid> {
        let rest = match self {
            // What is left is measured faster than it is made.
            Self::Before(plane) if solid.moments_below(plane).volume <= least => return None,
            Self::Before(plane) => clip(solid, plane),
            Self::Past(shadow) => difference(solid, &[shadow]),
        };
        sound(rest.ok()?)
    }
}

/// Every step that makes a body plainer, with what it gives up.
pub(super) fn steps(room: &Room, solid: &Solid, shadows: &mut Shadows) -> Vec<(Cut, GivenUp)> {
    let inside = faces_inside(solid);
    let mut all: Vec<(Cut, GivenUp)> = Vec::new();
    for (plane, how) in inside_corners(solid, &inside)
        .into_iter()
        .chain(slopes(solid))
    {
        let cut = Cut::Before(plane);
        if !all.iter().any(|(other, _)| *other == cut) {
            all.push((cut, how));
        }
    }
    for (number, obstacle) in room.obstacles.iter().enumerate() {
        let recess = recess(solid, &inside, &obstacle.solid);
        for (way, how) in ways_past(&obstacle.name) {
            let shadow = shadows.past(room, number, &recess, way);
            all.extend(shadow.map(|shadow| (Cut::Past(shadow), how)));
        }
    }
    all
}

/// What lies past obstacles, kept: most bodies on the way have the same recess round an obstacle.
#[derive(Default)]
pub(super) struct Shadows(Vec<Shadow>);

/// What lies past an obstacle, by its number, towards `way`, where it makes a recess.
struct Shadow {
    obstacle: usize,
    recess: Vec<Plane>,
    way: Vec3,
    solid: Option<Arc<Solid>>,
}

impl Shadows {
    /// What lies past obstacle `number` towards `way`, where it makes the given recess.
    fn past(
        &mut self,
        room: &Room,
        number: usize,
        recess: &[Plane],
        way: Vec3,
    ) -> Option<Arc<Solid>> {
        let is_it = |it: &&Shadow| it.obstacle == number && it.way == way && it.recess == recess;
        if let Some(known) = self.0.iter().find(is_it) {
            return known.solid.clone();
        }
        let solid = shadow(room, recess, &room.obstacles[number].solid, way).map(Arc::new);
        self.0.push(Shadow {
            obstacle: number,
            recess: recess.to_vec(),
            way,
            solid: solid.clone(),
        });
        solid
    }
}

/// The solid, or the largest of its pieces, if it is a proper body. (A skin without thickness comes off
/// where a solid is parted.)
fn sound(solid: Solid) -> Option<Solid> {
    let is_body = |solid: &Solid| solid.shells() == 1 && solid.faults().is_empty();
    if is_body(&solid) {
        return Some(solid);
    }
    pieces(&solid)
        .ok()?
        .into_iter()
        .max_by(|a, b| a.moments().volume.total_cmp(&b.moments().volume))
        .filter(is_body)
}

/// The planes of faces at inside corners: what lies beyond one of them is given up.
fn inside_corners(solid: &Solid, inside: &[usize]) -> Vec<(Plane, GivenUp)> {
    inside
        .iter()
        .map(|&face| {
            let plane = solid.faces[face].plane;
            (plane, GivenUp::Recess(side_of(plane.normal)))
        })
        .collect()
}

/// Leaning sides made square: the axis plane through the innermost corner of the face.
fn slopes(solid: &Solid) -> Vec<(Plane, GivenUp)> {
    let mut all = Vec::new();
    for face in &solid.faces {
        let normal = face.plane.normal;
        for (axis, ahead, behind) in AXES {
            let along = normal.dot(axis);
            // Along the axis it is square already; across it there is nothing to gain.
            if along.abs() > ALONG || along.abs() < 1.0 - ALONG {
                continue;
            }
            let way = if along > 0.0 { axis } else { -axis };
            let reach = face.loops[0]
                .iter()
                .map(|&v| way.dot(solid.vertices[v].to_vec()))
                .fold(f64::INFINITY, f64::min);
            let side = if along > 0.0 { ahead } else { behind };
            all.push((
                Plane {
                    normal: way,
                    offset: reach,
                },
                GivenUp::Slope(side),
            ));
        }
    }
    all
}

/// Where a normal looks.
fn side_of(normal: Vec3) -> Side {
    let (axis, ahead, behind) = AXES
        .into_iter()
        .max_by(|a, b| normal.dot(a.0).abs().total_cmp(&normal.dot(b.0).abs()))
        .unwrap_or(AXES[0]);
    if normal.dot(axis) > 0.0 {
        ahead
    } else {
        behind
    }
}

/// The directions in which the room behind an obstacle can be given up.
fn ways_past(name: &str) -> Vec<(Vec3, GivenUp)> {
    AXES.into_iter()
        .flat_map(|(axis, ahead, behind)| [(axis, ahead), (-axis, behind)])
        .map(|(way, towards)| {
            let obstacle = name.to_owned();
            (way, GivenUp::PastObstacle { obstacle, towards })
        })
        .collect()
}

/// What lies past an obstacle towards `way`: the room between the sides of the recess that it makes
/// in a body, with the side that looks that way left open. None where it makes no such side.
fn shadow(room: &Room, recess: &[Plane], obstacle: &Solid, way: Vec3) -> Option<Solid> {
    let (facing, sides): (Vec<Plane>, Vec<Plane>) = recess
        .iter()
        .partition(|plane| plane.normal.dot(way) < -FACING);
    if facing.is_empty() || sides.is_empty() {
        return None;
    }
    let (low, high) = room.allowed.bounds();
    let beyond = Vec3::new(BEYOND, BEYOND, BEYOND);
    let mut past = Solid::cuboid(low - beyond, high + beyond);
    for side in &sides {
        past = clip(&past, &side.flipped()).ok()?;
    }
    // Before the obstacle nothing is given up: what faces the other way bounds it there.
    let before = obstacle
        .vertices
        .iter()
        .map(|p| way.dot(p.to_vec()))
        .fold(f64::INFINITY, f64::min);
    let opposite = Plane {
        normal: -way,
        offset: -before,
    };
    clip(&past, &opposite)
        .ok()
        .filter(|past| !past.faces.is_empty())
}

/// A face looks along an axis where it is within 45 degrees of it.
const FACING: f64 = 0.707;
/// How far a block reaches past the room, so that no two faces fall together, metres.
const BEYOND: f64 = 0.1;

/// The planes of the faces of a body that an obstacle made: at inside corners, with the obstacle
/// wholly on their outer side.
fn recess(solid: &Solid, inside: &[usize], obstacle: &Solid) -> Vec<Plane> {
    let looks_at_it = |face: &usize| {
        let plane = &solid.faces[*face].plane;
        obstacle
            .vertices
            .iter()
            .all(|&p| plane.distance(p) > -TOUCHING)
    };
    inside
        .iter()
        .filter(|&face| looks_at_it(face))
        .map(|&face| solid.faces[face].plane)
        .collect()
}

/// Rounding of a corner, metres.
const TOUCHING: f64 = 1e-9;

/// The faces at inside corners, in order.
fn faces_inside(solid: &Solid) -> Vec<usize> {
    let edges = solid.edges();
    let inside = edges.iter().filter(|edge| edge.angle > FLAT);
    let faces: BTreeSet<usize> = inside.flat_map(|edge| [edge.face, edge.twin]).collect();
    faces.into_iter().collect()
}
