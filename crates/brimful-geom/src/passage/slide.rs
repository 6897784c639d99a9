//! A way for a rigid solid from outside, through an opening, to its place: slid and turned.
//!
//! The solid must stay in a *room*: the space, the opening, and free ground before it
//! ([`super::room_with_approach`]). Two trees of poses are grown towards each other, from before the
//! opening and from the final place (RRT-Connect: J. J. Kuffner and S. M. LaValle, "RRT-Connect: an
//! efficient approach to single-query path planning", ICRA 2000). A motion is followed in steps
//! no longer than the air there is: if the surfaces are d apart and no point of the solid moves by more
//! than that, they cannot meet (conservative advancement: B. Mirtich, "Impulse-based dynamic simulation
//! of rigid body systems", 1996, from memory). The way is then shortened by trying straight motions
//! between its poses. Random numbers are seeded: the same input gives the same way.
//!
//! That no way was found within so many poses proves nothing.

use super::opening::WALL;
use super::pose::Pose;
use super::push::{sweeps_within, within};
use super::straight::passing;
use super::touch::{Standing, Triangle, triangles};
use super::{Opening, Way};
use crate::frame::Frame;
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};
use fastrand::Rng;
use std::cell::Cell;
use std::fmt;

/// How far to search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// Most poses in both trees.
    pub poses: usize,
    /// Least air kept all the way, metres; more than nothing.
    pub clearance: f64,
    /// No corner moves further than this between two poses of the way given, metres.
    pub step: f64,
    /// Seed of the random numbers.
    pub seed: u64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            poses: 4000,
            clearance: 1e-3,
            step: 0.02,
            seed: 1,
        }
    }
}

/// Why no way is given.
#[derive(Clone, Debug, PartialEq)]
pub enum SlideFault {
    /// In its final place the body has this much air, which is not more than the clearance, metres.
    FinalPlace {
        /// Air there is.
        air: f64,
    },
    /// The body is not in the room.
    Outside,
    /// No place before the opening was found.
    NoStart,
    /// No way was found. This is not a proof that there is none.
    NotFound {
        /// Poses tried.
        tried: usize,
    },
}

impl fmt::Display for SlideFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FinalPlace { air } => write!(
                f,
                "in its place the body has {:.1} mm of air, less than is to be kept on the way",
                air * 1e3
            ),
            Self::Outside => write!(f, "the body is not inside the room"),
            Self::NoStart => write!(f, "no place before the opening was found"),
            Self::NotFound { tried } => {
                write!(
                    f,
                    "no way was found among {tried} poses, which proves nothing"
                )
            }
        }
    }
}

impl std::error::Error for SlideFault {}

/// Where the body touches in its place it is first lifted off, this far, metres: over the
/// clearance asked for by its least, and no more than a hand lifts without thinking.
const LIFTS: [f64; 3] = [0.003, 0.006, 0.012];

/// A way for `body`, given in its final place, through `opening`, that stays in `room`
/// ([`super::room_with_approach`]).
///
/// # Errors
/// A [`SlideFault`].
pub fn slide(
    body: &Solid,
    room: &Solid,
    opening: &Opening,
    limits: &Limits,
) -> Result<Way, SlideFault> {
    if !within(body, room) {
        return Err(SlideFault::Outside);
    }
    let planner = Planner::new(body, room, limits);
    let place = Pose::still(planner.centre);
    let goal = planner.lifted(body, room, place)?;
    let starts = planner.starts(body, opening);
    if starts.is_empty() {
        return Err(SlideFault::NoStart);
    }
    let way = planner.connect(&starts, opening.frame.z, goal)?;
    Ok(planner.set_down(way, goal, place))
}

/// A node of a tree: a pose and where it was reached from.
type Node = (Pose, usize);

struct Planner<'a> {
    limits: &'a Limits,
    room: Standing,
    low: Vec3,
    high: Vec3,
    /// The body about its centre.
    body: Vec<Triangle>,
    centre: Vec3,
    radius: f64,
    /// The triangle of the body that was nearest last.
    nearest: Cell<usize>,
}

/// How far a tree grows at once, metres of the corner that moves most.
const GROWTH: f64 = 0.15;

/// Air beyond this is not looked at further, metres.
const FAR: f64 = 0.3;

impl<'a> Planner<'a> {
    fn new(body: &Solid, room: &Solid, limits: &'a Limits) -> Self {
        let (low, high) = body.bounds();
        let middle = low.midpoint(high);
        let about = |t: [Point3; 3]| t.map(|p| p - middle);
        let radius = body.vertices.iter().map(|p| p.distance(middle));
        let (room_low, room_high) = room.bounds();
        Self {
            limits,
            room: Standing::new(
                triangles(room)
                    .into_iter()
                    .map(|t| t.map(Point3::to_vec))
                    .collect(),
            ),
            low: room_low.to_vec(),
            high: room_high.to_vec(),
            body: triangles(body).into_iter().map(about).collect(),
            centre: middle.to_vec(),
            radius: radius.fold(0.0, f64::max),
            nearest: Cell::new(0),
        }
    }

    fn air(&self, pose: &Pose) -> f64 {
        self.air_up_to(pose, FAR)
    }

    /// The air at a pose, or `most` where there is more.
    fn air_up_to(&self, pose: &Pose, most: f64) -> f64 {
        let [x, y, z] = pose.axes();
        let place = |p: Vec3| pose.centre + x * p.x + y * p.y + z * p.z;
        let moved: Vec<Triangle> = self.body.iter().map(|t| t.map(place)).collect();
        self.room.distance(&moved, most, &self.nearest)
    }

    /// No point of the body moves further than this between two poses.
    fn travel(&self, a: &Pose, b: &Pose) -> f64 {
        (b.centre - a.centre).length() + self.radius * a.angle(b)
    }

    /// The place itself where there is air enough, or else one that the body is lifted to from it in
    /// a straight line, with proof.
    fn lifted(&self, body: &Solid, room: &Solid, place: Pose) -> Result<Pose, SlideFault> {
        let air = self.air(&place);
        if air > self.limits.clearance {
            return Ok(place);
        }
        let sides = [0.0, 1.0, -1.0];
        for long in LIFTS {
            // Up first, then sideways, then down.
            for z in [1.0, 0.0, -1.0] {
                for (x, y) in sides.iter().flat_map(|&x| sides.map(|y| (x, y))) {
                    let by = Vec3::new(x, y, z) * long;
                    let free = Pose::still(place.centre + by);
                    if self.air(&free) > self.limits.clearance && sweeps_within(body, by, room) {
                        return Ok(free);
                    }
                }
            }
        }
        Err(SlideFault::FinalPlace { air })
    }

    /// The way with the body set down where it was lifted from.
    fn set_down(&self, mut way: Way, lifted: Pose, place: Pose) -> Way {
        if lifted != place {
            way.poses.push(self.motion(&place));
            way.stations.push(way.poses.len() - 1);
        }
        way
    }

    /// Whether the motion keeps clear, and the share of it up to which it surely does.
    fn clear(&self, from: &Pose, to: &Pose) -> f64 {
        let length = self.travel(from, to);
        let mut done = 0.0;
        let mut safe = 0.0;
        loop {
            let share = if length > 0.0 {
                (done / length).min(1.0)
            } else {
                1.0
            };
            // More than what reaches the end need not be known.
            let enough = (length - done).max(self.limits.clearance) + self.limits.clearance;
            let air = self.air_up_to(&from.towards(to, share), enough.min(FAR));
            if air <= self.limits.clearance {
                return safe;
            }
            safe = share;
            if share >= 1.0 {
                return 1.0;
            }
            // Over this stretch the air stays above half the clearance.
            done += air - 0.5 * self.limits.clearance;
        }
    }

    /// Places before the opening: in the attitude that passes it straight with most air, either
    /// end first and either way up, and as the body will stand; each in the middle of the opening.
    fn starts(&self, body: &Solid, opening: &Opening) -> Vec<Pose> {
        let way_in = &opening.frame;
        let world = |v: Vec3| way_in.x * v.x + way_in.y * v.y + way_in.z * v.z;
        let place = passing(body, opening.width, opening.height, 0).place;
        let mut turns = vec![Pose::still(Vec3::ZERO)];
        for (x, y, z) in [(1, 1, 1), (-1, 1, -1), (1, -1, -1), (-1, -1, 1)] {
            let turned = |v: Vec3| {
                world(Vec3::new(
                    v.x * f64::from(x),
                    v.y * f64::from(y),
                    v.z * f64::from(z),
                ))
            };
            turns.push(Pose {
                centre: Vec3::ZERO,
                turn: Pose::turn_of([turned(place.x), turned(place.y), turned(place.z)]),
            });
        }
        let back = way_in.origin.to_vec() - way_in.z * (self.radius + WALL + 0.05);
        turns
            .into_iter()
            .map(|pose| {
                let off = [way_in.x, way_in.y].map(|axis| axis * self.middle(&pose, axis));
                Pose {
                    centre: back - off[0] - off[1],
                    ..pose
                }
            })
            .filter(|pose| self.air(pose) > self.limits.clearance)
            .collect()
    }

    /// The middle of the body's extent along an axis.
    fn middle(&self, pose: &Pose, axis: Vec3) -> f64 {
        let [x, y, z] = pose.axes();
        let along = self
            .body
            .iter()
            .flatten()
            .map(|p| (x * p.x + y * p.y + z * p.z).dot(axis));
        let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
            (a.min(v), b.max(v))
        });
        (low + high) / 2.0
    }

    /// The tree from outside: each start, and from it as far straight in as it goes.
    fn pushed_in(&self, starts: &[Pose], way_in: Vec3) -> Vec<Node> {
        let mut tree: Vec<Node> = Vec::new();
        for &start in starts {
            tree.push((start, usize::MAX));
            let end = Pose {
                centre: start.centre + way_in * (4.0 * self.radius),
                ..start
            };
            let share = self.clear(&start, &end);
            let steps = (share * self.travel(&start, &end) / GROWTH).ceil();
            for k in 1..=steps as usize {
                let pose = start.towards(&end, share * k as f64 / steps);
                tree.push((pose, tree.len() - 1));
            }
        }
        tree
    }

    fn connect(&self, starts: &[Pose], way_in: Vec3, goal: Pose) -> Result<Way, SlideFault> {
        let mut rng = Rng::with_seed(self.limits.seed);
        let turns: Vec<[f64; 4]> = starts.iter().chain([&goal]).map(|p| p.turn).collect();
        let mut out = self.pushed_in(starts, way_in);
        let mut home: Vec<Node> = vec![(goal, usize::MAX)];
        let mut out_grows = false;
        let mut tried = 0;
        while tried < self.limits.poses {
            tried += 1;
            let target = self.sample(&mut rng, &turns);
            let (a, b) = if out_grows {
                (&mut out, &mut home)
            } else {
                (&mut home, &mut out)
            };
            if let Some(new) = self.grow(a, &target) {
                let reached = a[new].0;
                while let Some(next) = self.grow(b, &reached) {
                    tried += 1;
                    if self.travel(&b[next].0, &reached) < 1e-9 {
                        let (one, two) = (trail(a, new), trail(b, next));
                        let (start, end) = if out_grows { (one, two) } else { (two, one) };
                        let path = start.into_iter().rev().chain(end.into_iter().skip(1));
                        return Ok(self.finish(path.collect(), tried, &mut rng));
                    }
                }
            }
            out_grows = !out_grows;
        }
        Err(SlideFault::NotFound { tried })
    }

    /// A random pose: anywhere, half of the time in a random attitude (K. Shoemake, "Uniform random
    /// rotations", Graphics Gems III, 1992), else near one of the likely ones.
    fn sample(&self, rng: &mut Rng, turns: &[[f64; 4]]) -> Pose {
        let size = self.high - self.low;
        let centre =
            self.low + Vec3::new(size.x * rng.f64(), size.y * rng.f64(), size.z * rng.f64());
        let (u, v, w) = (rng.f64(), rng.f64(), rng.f64());
        let (a, b) = ((1.0 - u).sqrt(), u.sqrt());
        let (v, w) = (v * std::f64::consts::TAU, w * std::f64::consts::TAU);
        let free = Pose {
            centre,
            turn: [a * v.sin(), a * v.cos(), b * w.sin(), b * w.cos()],
        };
        if rng.bool() {
            return free;
        }
        let near = Pose {
            centre,
            turn: turns[rng.usize(..turns.len())],
        };
        let lean = 0.5 * rng.f64() * rng.f64();
        Pose {
            centre,
            ..near.towards(&free, lean)
        }
    }

    /// Grows the tree by one motion towards a pose; `None` where it is stuck or there already.
    fn grow(&self, tree: &mut Vec<Node>, target: &Pose) -> Option<usize> {
        let near = (0..tree.len()).min_by(|&a, &b| {
            let to = |i: usize| self.travel(&tree[i].0, target);
            to(a).total_cmp(&to(b))
        })?;
        let from = tree[near].0;
        let length = self.travel(&from, target);
        if length < 1e-12 {
            return None;
        }
        let to = from.towards(target, (GROWTH / length).min(1.0));
        let share = self.clear(&from, &to);
        if share <= 0.0 || share * self.travel(&from, &to) < self.limits.clearance {
            return None;
        }
        let reached = if share < 1.0 {
            from.towards(&to, share)
        } else {
            to
        };
        tree.push((reached, near));
        Some(tree.len() - 1)
    }

    /// Shortened, and in steps small enough to be drawn and looked at again.
    fn finish(&self, mut path: Vec<Pose>, tried: usize, rng: &mut Rng) -> Way {
        for _ in 0..200 {
            if path.len() < 3 {
                break;
            }
            let (i, j) = (rng.usize(..path.len()), rng.usize(..path.len()));
            let (i, j) = (i.min(j), i.max(j));
            if j > i + 1 && self.clear(&path[i], &path[j]) >= 1.0 {
                path.drain(i + 1..j);
            }
        }
        let mut poses = vec![path[0]];
        let mut stations = vec![0];
        for pair in path.windows(2) {
            let steps = (self.travel(&pair[0], &pair[1]) / self.limits.step)
                .ceil()
                .max(1.0);
            for k in 1..=steps as usize {
                poses.push(pair[0].towards(&pair[1], k as f64 / steps));
            }
            stations.push(poses.len() - 1);
        }
        let air = poses.iter().map(|p| self.air(p)).fold(FAR, f64::min);
        Way {
            poses: poses.iter().map(|p| self.motion(p)).collect(),
            stations,
            tried,
            air,
        }
    }

    /// The motion that takes the body from its final place to a pose.
    fn motion(&self, pose: &Pose) -> Frame {
        let [x, y, z] = pose.axes();
        let c = self.centre;
        Frame {
            origin: Point3::ORIGIN + pose.centre - (x * c.x + y * c.y + z * c.z),
            x,
            y,
            z,
        }
    }
}

/// Poses from a node back to its tree's root.
fn trail(tree: &[Node], mut node: usize) -> Vec<Pose> {
    let mut poses = Vec::new();
    while let Some(&(pose, from)) = tree.get(node) {
        poses.push(pose);
        node = from;
    }
    poses
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boolean::remaining_volume;
    use crate::passage::room_with_approach;
    use crate::passage::straight::straight;
    use crate::testing::cube;

    /// A mesh boolean, which the planner does not use, finds no part of the body outside.
    fn judge(way: &Way, body: &Solid, room: &Solid, limits: &Limits) {
        for pose in &way.poses {
            let there = body.moved(pose);
            let outside = remaining_volume(&there, &[room]).unwrap();
            assert!(outside < 1e-9, "{outside}");
        }
        for pair in way.poses.windows(2) {
            for &v in &body.vertices {
                let moved = pair[0]
                    .world_from_frame(v)
                    .distance(pair[1].world_from_frame(v));
                assert!(moved <= limits.step + 1e-9);
            }
        }
        let last = way.poses[way.poses.len() - 1];
        assert!(
            body.vertices
                .iter()
                .all(|&v| last.world_from_frame(v).distance(v) < 1e-9)
        );
    }

    fn front(width: f64, height: f64, middle: Point3) -> Opening {
        Opening {
            frame: Frame {
                origin: middle,
                x: Vec3::X,
                y: -Vec3::Z,
                z: Vec3::Y,
            },
            width,
            height,
            depth: 0.0,
        }
    }

    #[test]
    fn a_slab_slides_in_under_a_rail_and_rises() {
        // The opening is lower than the place: in, then up.
        let space = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let opening = front(0.96, 0.3, Point3::new(0.5, 0.0, 0.15));
        let body = cube([0.04, 0.03, 0.12], [0.94, 0.47, 0.39]);
        let room = room_with_approach(&space, &opening, 1.0).unwrap();
        let limits = Limits::default();
        let way = slide(&body, &room, &opening, &limits).unwrap();
        judge(&way, &body, &room, &limits);
    }

    #[test]
    fn a_tall_box_goes_in_tilted_and_stands_up() {
        // Taller than the opening: it must lie down to pass and turn up inside.
        let space = cube([0.0; 3], [0.6, 0.9, 0.75]);
        let opening = front(0.5, 0.4, Point3::new(0.3, 0.0, 0.25));
        let body = cube([0.1, 0.5, 0.05], [0.45, 0.75, 0.6]);
        let room = room_with_approach(&space, &opening, 0.8).unwrap();
        let limits = Limits::default();
        let way = slide(&body, &room, &opening, &limits).unwrap();
        judge(&way, &body, &room, &limits);
    }

    #[test]
    fn what_cannot_pass_is_not_found_and_bad_places_are_named() {
        let space = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let opening = front(0.3, 0.2, Point3::new(0.5, 0.0, 0.15));
        let body = cube([0.04, 0.03, 0.05], [0.94, 0.47, 0.36]);
        let room = room_with_approach(&space, &opening, 1.0).unwrap();
        let limits = Limits {
            poses: 300,
            ..Limits::default()
        };
        assert!(matches!(
            slide(&body, &room, &opening, &limits),
            Err(SlideFault::NotFound { .. })
        ));
        assert!(straight(&body, 0.3, 0.2).is_impossible());
        // From wall to wall.
        let touching = cube([0.0, 0.03, 0.05], [1.0, 0.47, 0.36]);
        assert!(matches!(
            slide(&touching, &room, &opening, &limits),
            Err(SlideFault::FinalPlace { .. })
        ));
        let outside = body.moved(&Frame {
            origin: Point3::new(0.0, 3.0, 0.0),
            ..Frame::WORLD
        });
        assert_eq!(
            slide(&outside, &room, &opening, &limits),
            Err(SlideFault::Outside)
        );
    }
}
