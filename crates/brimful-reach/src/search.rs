//! The search over poses of tool, arm and sight at a place.

use crate::arm::Arm;
use crate::blocks::{Blocks, Plates};
use crate::capsule::Capsule;
use crate::obstacle::Obstacle;
use crate::place::Place;
use crate::pose::{Pose, PosePart, PoseSolid};
use crate::tool::{Part, Tool};
use brimful_geom::vector::{Point3, Vec3};

/// Poses that more plates than this would have to be away for are not kept: that only ever leaves a way to reach a
/// place out.
const MOST_AWAY: u32 = 6;

/// A hole that arm and sight may go through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WayOut {
    /// Its middle.
    pub at: Point3,
    /// Through it, of length one, either way.
    pub through: Vec3,
}

/// A line of sight from an eye that is outside, or from a head that has followed it in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// Radius of what has to be clear, m.
    pub radius: f64,
    /// The nearest that an eye sees sharply, m.
    pub least: f64,
    /// Radius of the head, m.
    pub head: f64,
}

/// What stands about the places of work.
#[derive(Clone, Debug)]
pub struct Scene<'a> {
    obstacles: &'a [Obstacle],
    ways: Vec<WayOut>,
    low: Point3,
    high: Point3,
    clearance: f64,
    /// The plates that are put against poses.
    standing: Plates,
    /// Poses that more plates than this would have to be away for are not followed.
    most_away: u32,
}

impl<'a> Scene<'a> {
    /// The scene of these obstacles, each a bit of [`Plates`] by its number, of which there are at most
    /// [`Plates::MOST`]. `clearance`, m, is kept of all of them; a hole as wide as `passage`, m, is tried as a
    /// way out.
    pub fn new(obstacles: &'a [Obstacle], passage: f64, clearance: f64) -> Self {
        let ways = obstacles.iter().flat_map(|it| it.ways_through(passage));
        let ways = ways.map(|(at, through)| WayOut { at, through });
        let ends = obstacles.iter().flat_map(Obstacle::bounds);
        let least = |axis: fn(Point3) -> f64| ends.clone().map(axis).fold(f64::INFINITY, f64::min);
        let most =
            |axis: fn(Point3) -> f64| ends.clone().map(axis).fold(f64::NEG_INFINITY, f64::max);
        Self {
            obstacles,
            ways: ways.collect(),
            low: Point3::new(least(|p| p.x), least(|p| p.y), least(|p| p.z)),
            high: Point3::new(most(|p| p.x), most(|p| p.y), most(|p| p.z)),
            clearance,
            standing: (0..obstacles.len()).collect(),
            most_away: MOST_AWAY,
        }
    }

    /// With these plates alone standing, none of which may be in the way: for what is laid when it is known what
    /// stands.
    #[must_use]
    pub fn among(&self, standing: Plates) -> Self {
        Self {
            most_away: 0,
            ..self.with(standing)
        }
    }

    /// Whether there is a hole that arm and sight may go through.
    pub fn has_way_through(&self) -> bool {
        !self.ways.is_empty()
    }

    /// Whether a tool, drawn either way along the line of a place, and what is fed in with it get there; of a scene
    /// [`Scene::among`] what stands.
    pub fn is_reached(&self, place: &Place, tool: &Tool, arm: &Arm) -> bool {
        let is_free = |way: f64| self.of_arm(place, tool, arm, way, place.own).is_free();
        self.of_feed(place, tool, place.own).is_free() && [1.0, -1.0].into_iter().any(is_free)
    }

    /// What keeps a tool, and what is fed in with it, from a place, drawn either way along its line.
    pub fn blocks(&self, place: &Place, tool: &Tool, arm: &Arm) -> Blocks {
        let of_arm = |way| self.of_arm(place, tool, arm, way, place.own).blocks;
        let [one, other] = [1.0, -1.0].map(of_arm);
        one.or(&other)
            .with(&self.of_feed(place, tool, place.own).blocks)
    }

    /// Whether an eye sees a place; of a scene [`Scene::among`] what stands.
    pub fn is_seen(&self, place: &Place, sight: &Sight) -> bool {
        self.of_sight(place, sight, place.own).is_free()
    }

    /// What keeps an eye from seeing a place.
    pub fn hidden_by(&self, place: &Place, sight: &Sight) -> Blocks {
        self.of_sight(place, sight, place.own).blocks
    }

    /// The pose of tool, arm and what is fed in that runs into the fewest of these plates: a free one where one was found.
    /// The place's own plates count among them only where no pose is free of those.
    pub fn pose(&self, standing: Plates, place: &Place, tool: &Tool, arm: &Arm) -> Option<Pose> {
        let among = self.with(standing);
        let least = |never: Plates| {
            let ways = [1.0, -1.0].into_iter();
            let poses = ways.filter_map(|way| among.of_arm(place, tool, arm, way, never).least);
            let of_arm = poses.min_by_key(|pose| pose.runs_into.count())?;
            Some(of_arm.with(among.of_feed(place, tool, never).least?))
        };
        least(place.own).or_else(|| least(Plates::NONE))
    }

    /// The line of sight that runs into the fewest of these plates, as [`Self::pose`] does.
    pub fn line_of_sight(&self, standing: Plates, place: &Place, sight: &Sight) -> Option<Pose> {
        let among = self.with(standing);
        let least = |never| among.of_sight(place, sight, never).least;
        least(place.own).or_else(|| least(Plates::NONE))
    }

    /// The same scene with some of its plates put against poses.
    fn with(&self, standing: Plates) -> Self {
        Self {
            standing,
            ..self.clone()
        }
    }

    /// Poses that run into one of `never` are none.
    fn of_arm(&self, place: &Place, tool: &Tool, arm: &Arm, way: f64, never: Plates) -> Found {
        let foot = along_line(
            PosePart::Tool,
            place.at + place.out * tool.foot_height,
            place.along * way,
            &tool.foot,
        );
        let Some(of_foot) = self.hits(Plates::NONE, &foot, Plates::NONE) else {
            return Found::default();
        };
        // What its own plates do to the foot is the groove's affair.
        let of_foot = of_foot.numbers().filter(|&it| !place.own.contains(it));
        let of_foot: Plates = of_foot.collect();
        let mut gun_poses = Vec::new();
        for &lean in &tool.leans {
            for &tilt in &tool.tilts {
                let out = turned(place.out, place.along, tilt);
                let axis = out * lean.sin() - place.along * (way * lean.cos());
                let mut shaft = along_line(PosePart::Tool, place.at, axis, &tool.shaft);
                let grip = place.at + axis * tool.grip;
                shaft.push(solid(PosePart::Hand, grip, grip, arm.hand));
                if let Some(plates) = self.hits(of_foot, &shaft, never) {
                    gun_poses.push((plates, axis, shaft));
                }
            }
        }
        gun_poses.sort_by_key(|(plates, ..)| plates.count());
        let mut chain = Chain {
            scene: self,
            place,
            never,
            arm,
            found: Found::default(),
            solids: Vec::new(),
        };
        for (plates, axis, shaft) in gun_poses {
            chain.solids = foot.clone();
            chain.solids.extend(shaft);
            chain.forearm_of(plates, place.at + axis * tool.grip, axis);
            if chain.found.is_free() {
                break;
            }
        }
        chain.found
    }

    fn of_feed(&self, place: &Place, tool: &Tool, never: Plates) -> Found {
        let mut found = Found::default();
        let leans = || [0.0, tool.feed_lean, -tool.feed_lean].into_iter();
        let poses = tool
            .tilts
            .iter()
            .flat_map(|tilt| leans().map(move |lean| (tilt, lean)));
        for (tilt, lean) in poses {
            let out = turned(place.out, place.along, *tilt);
            let line = out * lean.cos() + place.along * lean.sin();
            let feed = along_line(PosePart::Feed, place.at, line, &tool.feed);
            if let Some(plates) = self.hits(Plates::NONE, &feed, never) {
                found.add(plates, &feed);
            }
        }
        found
    }

    fn of_sight(&self, place: &Place, sight: &Sight, never: Plates) -> Found {
        let mut found = Found::default();
        // Off the line by what has to be clear about it.
        let from = place.at + place.out * (4.0 * (sight.radius + self.clearance));
        for line in self.lines(from, sight.least).chain([place.out]) {
            let far = self.way_out(from, line).max(sight.least);
            let beam = |to: f64, radius: f64, from_at: f64| {
                let [near, far] = [from_at, to].map(|along| from + line * along);
                solid(PosePart::Sight, near, far, radius)
            };
            let eye_outside = [beam(far, sight.radius, 0.0)];
            let head_in = [
                beam(sight.least, sight.radius, 0.0),
                beam(far, sight.head, sight.least),
            ];
            for eye in [&eye_outside[..], &head_in[..]] {
                if let Some(plates) = self.hits(Plates::NONE, eye, never) {
                    found.add(plates, eye);
                }
            }
        }
        found
    }

    /// The plates that any of the solids runs into, with those before; none where one of `never` is among them, or
    /// there are too many.
    fn hits(&self, before: Plates, solids: &[PoseSolid], never: Plates) -> Option<Plates> {
        let mut plates = before;
        for PoseSolid { capsule: solid, .. } in solids {
            let solid = Capsule {
                radius: solid.radius + self.clearance,
                ..*solid
            };
            for (number, obstacle) in self.obstacles.iter().enumerate() {
                let is_open = self.standing.contains(number) && !plates.contains(number);
                if is_open && obstacle.is_hit(&solid) {
                    plates = plates.and(Plates::one(number));
                    if never.contains(number) || plates.count() > self.most_away {
                        return None;
                    }
                }
            }
        }
        Some(plates)
    }

    /// The directions that are tried from a place for a link of this length, m: of a cube's faces, edges and corners, to
    /// every way out, and those that end on the middle line of one, so that the next link goes through it square.
    fn lines(&self, from: Point3, length: f64) -> impl Iterator<Item = Vec3> + '_ {
        let steps = || [-1.0, 0.0, 1.0].into_iter();
        let cube = steps().flat_map(move |x| {
            steps().flat_map(move |y| steps().filter_map(move |z| Vec3::new(x, y, z).unit()))
        });
        let to_ways = self.ways.iter().flat_map(move |way| {
            let toward = way.at - from;
            // From the foot on the way's middle line as far along it as the link still reaches.
            let foot = toward - way.through * toward.dot(way.through);
            let along = (length * length - foot.dot(foot)).max(0.0).sqrt();
            let ends = [
                toward,
                foot + way.through * along,
                foot - way.through * along,
            ];
            ends.into_iter().filter_map(Vec3::unit)
        });
        cube.chain(to_ways)
    }

    /// How far it is from a place along a line until everything lies behind, m.
    fn way_out(&self, from: Point3, line: Vec3) -> f64 {
        let (from, line) = (from.to_array(), line.to_array());
        let (low, high) = (self.low.to_array(), self.high.to_array());
        let along = (0..3).map(|axis| match line[axis] {
            step if step > 0.0 => (high[axis] - from[axis]) / step,
            step if step < 0.0 => (low[axis] - from[axis]) / step,
            _ => f64::INFINITY,
        });
        along.fold(f64::INFINITY, f64::min).max(0.0)
    }

    /// Whether a ball lies outside of everything.
    fn is_outside(&self, at: Point3, radius: f64) -> bool {
        let (at, margin) = (at.to_array(), radius + self.clearance);
        let (low, high) = (self.low.to_array(), self.high.to_array());
        (0..3).any(|axis| at[axis] < low[axis] - margin || at[axis] > high[axis] + margin)
    }
}

/// What poses run into, and the first that runs into the fewest.
#[derive(Default)]
struct Found {
    blocks: Blocks,
    least: Option<Pose>,
}

impl Found {
    fn is_free(&self) -> bool {
        let least = self.least.as_ref();
        least.is_some_and(|pose| pose.runs_into == Plates::NONE)
    }

    fn add(&mut self, runs_into: Plates, solids: &[PoseSolid]) {
        let least = self.least.as_ref();
        if least.is_none_or(|pose| runs_into.count() < pose.runs_into.count()) {
            let solids = solids.to_vec();
            self.least = Some(Pose { solids, runs_into });
        }
        self.blocks.add(runs_into);
    }
}

/// An arm followed from the grip to where it is outside.
struct Chain<'s, 'a> {
    scene: &'s Scene<'a>,
    place: &'s Place,
    /// Poses that run into one of these are none.
    never: Plates,
    arm: &'s Arm,
    found: Found,
    /// The pose so far.
    solids: Vec<PoseSolid>,
}

impl Chain<'_, '_> {
    fn forearm_of(&mut self, plates: Plates, grip: Point3, axis: Vec3) {
        let (scene, arm) = (self.scene, self.arm);
        if self.found.blocks.covers(plates) {
            return;
        }
        if scene.is_outside(grip, arm.hand) {
            self.comes_out(plates, self.place.at, grip);
            return;
        }
        for line in scene.lines(grip, arm.forearm).chain([axis]) {
            if line.dot(axis) < arm.wrist.cos() {
                continue;
            }
            let elbow = grip + line * arm.forearm;
            let solid = solid(PosePart::Forearm, grip, elbow, arm.forearm_radius);
            let Some(plates) = scene.hits(plates, &[solid], self.never) else {
                continue;
            };
            if self.found.blocks.covers(plates) {
                continue;
            }
            self.solids.push(solid);
            match scene.is_outside(elbow, arm.forearm_radius) {
                true => self.comes_out(plates, grip, elbow),
                false => self.upper_arm_of(plates, elbow, line),
            }
            self.solids.pop();
        }
    }

    fn upper_arm_of(&mut self, plates: Plates, elbow: Point3, forearm: Vec3) {
        let (scene, arm) = (self.scene, self.arm);
        for line in scene.lines(elbow, arm.upper_arm).chain([forearm]) {
            if line.dot(forearm) < arm.elbow.cos() {
                continue;
            }
            let shoulder = elbow + line * arm.upper_arm;
            let solid = solid(PosePart::UpperArm, elbow, shoulder, arm.upper_arm_radius);
            let Some(plates) = scene.hits(plates, &[solid], self.never) else {
                continue;
            };
            if self.found.blocks.covers(plates) {
                continue;
            }
            self.solids.push(solid);
            match scene.is_outside(shoulder, arm.upper_arm_radius) {
                true => self.comes_out(plates, elbow, shoulder),
                false => self.leaning_in(plates, shoulder),
            }
            self.solids.pop();
        }
    }

    /// Head and shoulders have followed the arm in: straight along an axis.
    fn leaning_in(&mut self, plates: Plates, shoulder: Point3) {
        let (scene, arm) = (self.scene, self.arm);
        let axes = [Vec3::X, Vec3::Y, Vec3::Z];
        for line in axes.into_iter().flat_map(|axis| [axis, -axis]) {
            let far = scene.way_out(shoulder, line);
            if far > arm.lean_in {
                continue;
            }
            let outside = shoulder + line * far;
            let solid = solid(PosePart::Body, shoulder, outside, arm.body_radius);
            if let Some(plates) = scene.hits(plates, &[solid], self.never) {
                self.solids.push(solid);
                self.found.add(plates, &self.solids);
                self.solids.pop();
            }
        }
    }

    /// The arm comes out between two places: near enough to the work, or not at all.
    fn comes_out(&mut self, plates: Plates, inside: Point3, outside: Point3) {
        let way = outside - inside;
        let Some(line) = way.unit() else { return };
        let out = self.scene.way_out(inside, line).min(way.length());
        let at = inside + line * out;
        if self.place.at.distance(at) <= self.arm.reach {
            self.found.add(plates, &self.solids);
        }
    }
}

fn solid(part: PosePart, from: Point3, to: Point3, radius: f64) -> PoseSolid {
    let capsule = Capsule { from, to, radius };
    PoseSolid { part, capsule }
}

fn along_line(what: PosePart, at: Point3, line: Vec3, parts: &[Part]) -> Vec<PoseSolid> {
    let ends = |part: &Part| [part.from, part.to].map(|far| at + line * far);
    let on_line = |part: &Part| {
        let [from, to] = ends(part);
        solid(what, from, to, part.radius)
    };
    parts.iter().map(on_line).collect()
}

/// A direction turned about an axis that is square to it, rad.
fn turned(line: Vec3, axis: Vec3, angle: f64) -> Vec3 {
    line * angle.cos() + axis.cross(line) * angle.sin()
}
