//! What carries the tank: contacts that push and never pull, and what keeps it from sliding.
//!
//! A floor carries the lowest level panels; rails and feet the lowest level panel over each; a bed is
//! shaped to the floor, level or sloping, and pushes square to it. A strap hangs straight down from
//! above and runs round the two lower edges of the floor: taut and without friction it pushes on
//! each along the bisector of its turn, up and inward alike, and is taken to carry nothing between.

use super::midsurface::Midsurface;
use super::place::{LEVEL, MERGE, areas_of_nodes};
use super::tank::Tank;
use brimful_geom::mesh::{LinePart, Mesh};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::{Axis, Job, Support};
use brimful_mech::shell::model::{Contact, Shell, Spring};
use brimful_panels::body::Body;
use brimful_panels::panel::Role;
use brimful_panels::table::friction::{FrictionEnd, friction};
use brimful_units::{Length, Pressure};

/// What a floor, rail or pad gives way, Pa/m: a tenth of a millimetre under 10 kPa, as a hard
/// mat does. Stiffer than any plastic floor, soft enough that no single node takes all.
pub(super) const BED: f64 = 1e8;
/// How far the support gives way under [`BED_PRESSURE`], to tell how stiff it is taken to be.
pub const BED_GIVES: Length = Length::from_mm(0.1);
/// The pressure that goes with [`BED_GIVES`].
pub const BED_PRESSURE: Pressure = Pressure::from_pa(BED * BED_GIVES.m());

/// The share of the bed's stiffness that holds the tank sideways, by friction or by what is not in the
/// job. It keeps it in place and hinders its growing by next to nothing.
const SIDEWAYS: f64 = 0.1;

/// Floors that lie this much lower than the lowest one still stand on the support, m.
const SAME_HEIGHT: f64 = 1e-4;

/// The springs that hold a contact's node sideways.
pub const SPRINGS: usize = 2;

/// What a strap gives way at an edge, for its width, as a bed of this breadth would, m.
const STRAP_BREADTH: f64 = 0.02;

/// What the job lets carry the tank.
#[derive(Clone, Debug)]
pub struct Bearers {
    each: Vec<Bearer>,
    /// For each flat the bearers it rests on, with the height of its middle plane there.
    under: Vec<Vec<Rest>>,
}

/// One of the things that carry a tank, by its place in the axes of the body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BearerId {
    /// The floor.
    Floor,
    /// A bed that the floor lies in.
    Bed,
    /// A rail.
    Rail(Length),
    /// A strap.
    Strap(Length),
    /// A foot, along x and y.
    Foot([Length; 2]),
    /// A chock, by its number in the job.
    Chock(usize),
}

/// One rail, foot, strap, or the whole floor.
#[derive(Clone, Debug)]
struct Bearer {
    id: BearerId,
    reach: Reach,
}

/// How a bearer pushes.
#[derive(Clone, Copy, Debug)]
enum Reach {
    /// Up, all over.
    Floor,
    /// Square to what rests on it, all over.
    Bed,
    /// Up, within a level rectangle.
    Within([Point2; 2]),
    /// At the edges of the floor it runs round, within a level rectangle; it runs along this axis.
    Round([Point2; 2], Axis),
}

/// A flat that rests on a bearer.
#[derive(Clone, Copy, Debug)]
struct Rest {
    bearer: usize,
    /// Height of the middle plane there, m.
    z: f64,
}

impl Bearers {
    /// The bearers of the job, and what rests on each.
    pub fn of(tank: &Tank<'_>, midsurface: &Midsurface) -> Self {
        let each = bearers(tank.job, tank.body);
        let mut under = vec![Vec::new(); midsurface.flats.len()];
        let floors: Vec<usize> = (0..midsurface.flats.len())
            .filter(|&flat| {
                let first = midsurface.panels[flat].first();
                first.is_some_and(|&panel| tank.panels[panel].role == Role::Floor)
            })
            .collect();
        for (number, bearer) in each.iter().enumerate() {
            for flat in bearer.lowest(midsurface, &floors) {
                under[flat].push(Rest {
                    bearer: number,
                    z: midsurface.flats[flat].frame.origin.z,
                });
            }
        }
        Self { each, under }
    }

    /// Their ids.
    pub fn ids(&self) -> Vec<BearerId> {
        self.each.iter().map(|bearer| bearer.id).collect()
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.each.len()
    }

    /// The sum of pushes that goes with one newton of a strap's tension; one of what is no strap.
    pub fn pushes_of_tension(&self, support: usize) -> f64 {
        match self.each.get(support).map(|bearer| bearer.reach) {
            // At each of its two turns a tension T pushes with the square root of two times T.
            Some(Reach::Round(..)) => 2.0 * std::f64::consts::SQRT_2,
            _ => 1.0,
        }
    }

    /// Whether they hold the tank sideways by friction: a strap swings with it.
    pub fn have_friction(&self) -> bool {
        !self
            .each
            .iter()
            .any(|bearer| matches!(bearer.reach, Reach::Round(..)))
    }

    /// Edges of bearers under a flat, to be lines of the mesh.
    pub fn edges(&self, flat: usize) -> Vec<[Point3; 2]> {
        let of = |rest: &Rest| self.each[rest.bearer].edges(rest.z);
        self.under[flat].iter().flat_map(of).collect()
    }

    /// Corners of feet under a flat: the floor is bent about them within a few thicknesses.
    pub fn corners_of_feet(&self, flat: usize) -> Vec<Point3> {
        let feet = self.under[flat].iter().filter(|rest| {
            let bearer = &self.each[rest.bearer];
            matches!(bearer.id, BearerId::Foot(_))
        });
        let corners = feet.flat_map(|rest| self.each[rest.bearer].edges(rest.z));
        corners.map(|[corner, _]| corner).collect()
    }

    /// Puts contacts and what holds the tank sideways on the shell; gives the bearer of each contact.
    pub fn carry(&self, mesh: &Mesh, normals: &[Vec3], shell: &mut Shell) -> Vec<usize> {
        let mut borne_by = Vec::new();
        for (number, bearer) in self.each.iter().enumerate() {
            for (flat, rests) in self.under.iter().enumerate() {
                if !rests.iter().any(|rest| rest.bearer == number) {
                    continue;
                }
                for (node, push, stiffness) in bearer.pushes(mesh, flat, normals[flat]) {
                    put(shell, node, push, stiffness, bearer.sideways(push));
                    borne_by.push(number);
                }
            }
        }
        borne_by
    }
}

/// The share of the sideways stiffness that is left where the floor grows or shrinks by `growth` over what
/// it stands on, with the weight of the full tank, N, on it. Sliding friction under the weight pulls
/// the middle of the floor with friction x pressure x its half length, however stiff the support is; a
/// spring that is pulled twice as hard at the far end as the friction there pulls the middle as hard.
pub fn sliding_share(shell: &Shell, growth: f64, weight: f64) -> f64 {
    let places = || {
        shell
            .contacts
            .iter()
            .map(|contact| shell.nodes[contact.node])
    };
    let middle = foot(shell);
    let far = places()
        .map(|place| (place - middle).length())
        .fold(0.0, f64::max);
    let stiffness: f64 = shell.contacts.iter().map(|contact| contact.stiffness).sum();
    let held = SIDEWAYS * stiffness * growth.abs() * far;
    let most = friction(FrictionEnd::Most).value;
    match held > 0.0 {
        true => (2.0 * most * weight / held).min(1.0),
        false => 1.0,
    }
}

/// The middle of what the tank stands on, from where it grows.
pub fn foot(shell: &Shell) -> Point3 {
    let places = shell
        .contacts
        .iter()
        .map(|contact| shell.nodes[contact.node].to_vec());
    let sum = places.fold(Vec3::ZERO, |sum, place| sum + place);
    Point3::ORIGIN + sum / shell.contacts.len().max(1) as f64
}

/// A contact, and springs that keep its node in place sideways.
fn put(shell: &mut Shell, node: usize, push: Vec3, stiffness: f64, sideways: [Vec3; SPRINGS]) {
    shell.contacts.push(Contact {
        node,
        push,
        gap: 0.0,
        stiffness,
    });
    shell.springs.extend(sideways.map(|direction| Spring {
        node,
        direction,
        stiffness: SIDEWAYS * stiffness,
    }));
}

impl Bearer {
    /// The ways it is kept from sliding: square to the push, and of a strap, that pushes at an angle, level,
    /// so that its push alone bears the weight.
    fn sideways(&self, push: Vec3) -> [Vec3; SPRINGS] {
        if matches!(self.reach, Reach::Round(..)) {
            return [Vec3::X, Vec3::Y];
        }
        let first = if push.x.abs() < 0.9 { Vec3::X } else { Vec3::Y };
        let along = first - push * push.dot(first);
        let along = along / along.length();
        [along, push.cross(along)]
    }

    /// Of the floors those that rest on it: for a bed all, else the lowest level ones over it.
    fn lowest(&self, midsurface: &Midsurface, floors: &[usize]) -> Vec<usize> {
        let frame = |flat: usize| &midsurface.flats[flat].frame;
        let level = |flat: usize| frame(flat).z.x.hypot(frame(flat).z.y) < LEVEL;
        let over = |flat: usize| match self.reach {
            Reach::Floor | Reach::Bed => true,
            Reach::Within([low, high]) | Reach::Round([low, high], _) => {
                let outline = midsurface.flats[flat].outlines[0].0.iter();
                let points: Vec<Point3> =
                    outline.map(|&p| frame(flat).world_from_flat(p)).collect();
                let span = |pick: fn(&Point3) -> f64| {
                    let values = points.iter().map(pick);
                    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| {
                        (l.min(v), h.max(v))
                    })
                };
                let ((x0, x1), (y0, y1)) = (span(|p| p.x), span(|p| p.y));
                x0.max(low.x) < x1.min(high.x) && y0.max(low.y) < y1.min(high.y)
            }
        };
        if matches!(self.reach, Reach::Bed) {
            return floors.to_vec();
        }
        let foot = |flat: usize| frame(flat).origin.z - midsurface.thickness[flat] / 2.0;
        let over: Vec<usize> = floors
            .iter()
            .copied()
            .filter(|&flat| level(flat) && over(flat))
            .collect();
        let lowest = over
            .iter()
            .map(|&flat| foot(flat))
            .fold(f64::INFINITY, f64::min);
        let stands = |&flat: &usize| foot(flat) - lowest < SAME_HEIGHT;
        over.into_iter().filter(stands).collect()
    }

    fn edges(&self, z: f64) -> Vec<[Point3; 2]> {
        let (Reach::Within([low, high]) | Reach::Round([low, high], _)) = self.reach else {
            return Vec::new();
        };
        let at = |x: f64, y: f64| Point3::new(x, y, z);
        let corners = [
            at(low.x, low.y),
            at(high.x, low.y),
            at(high.x, high.y),
            at(low.x, high.y),
        ];
        (0..4).map(|i| [corners[i], corners[(i + 1) % 4]]).collect()
    }

    fn holds(&self, point: Point3) -> bool {
        match self.reach {
            Reach::Floor | Reach::Bed => true,
            Reach::Within([low, high]) | Reach::Round([low, high], _) => {
                let x = (low.x - MERGE..=high.x + MERGE).contains(&point.x);
                let y = (low.y - MERGE..=high.y + MERGE).contains(&point.y);
                x && y
            }
        }
    }

    /// Where, which way and how stiffly it pushes on a flat.
    fn pushes(&self, mesh: &Mesh, flat: usize, normal: Vec3) -> Vec<(usize, Vec3, f64)> {
        match self.reach {
            Reach::Floor | Reach::Within(_) => self.pushes_by_area(mesh, flat, Vec3::Z),
            Reach::Bed => self.pushes_by_area(mesh, flat, -normal),
            Reach::Round(_, along) => self.pushes_at_edges(mesh, flat, along),
        }
    }

    fn pushes_by_area(&self, mesh: &Mesh, flat: usize, push: Vec3) -> Vec<(usize, Vec3, f64)> {
        areas_of_nodes(mesh, flat, |place| self.holds(place))
            .into_iter()
            .map(|(node, area)| (node, push, BED * area))
            .collect()
    }

    /// At the outermost edges of the flat that the strap runs across, half of each side to its ends.
    fn pushes_at_edges(&self, mesh: &Mesh, flat: usize, along: Axis) -> Vec<(usize, Vec3, f64)> {
        let way = if along == Axis::X { Vec3::X } else { Vec3::Y };
        let across = if along == Axis::X { Vec3::Y } else { Vec3::X };
        let own = |line: &&brimful_geom::mesh::MeshLine| {
            let mut flats = line.flats.iter();
            flats.any(|part| part.flat == flat && part.part == LinePart::Edge)
        };
        // Sides that the strap runs across, each with how far along it lies.
        let sides: Vec<([usize; 2], f64)> = mesh
            .lines
            .iter()
            .filter(own)
            .flat_map(|line| line.nodes.windows(2))
            .map(|side| [side[0], side[1]])
            .filter(|side| {
                let [a, b] = side.map(|node| mesh.nodes[node]);
                let crossed = (b - a).dot(across).abs() > (b - a).dot(way).abs();
                crossed && self.holds(a) && self.holds(b)
            })
            .map(|side| {
                let [a, b] = side.map(|node| mesh.nodes[node].to_vec().dot(way));
                (side, (a + b) / 2.0)
            })
            .collect();
        let places = sides.iter().map(|(_, place)| *place);
        let (low, high) = places.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), p| {
            (l.min(p), h.max(p))
        });
        let middle = (low + high) / 2.0;
        // Inside corners of the floor are bridged: only what lies in the outer quarters is an end.
        let is_end = |place: f64| (place - middle).abs() > (high - low) / 4.0;
        let mut pushes = Vec::new();
        for ([a, b], place) in sides.into_iter().filter(|(_, place)| is_end(*place)) {
            let inward = way * (middle - place).signum();
            let push = (Vec3::Z + inward) / std::f64::consts::SQRT_2;
            let length = mesh.nodes[a].distance(mesh.nodes[b]);
            for node in [a, b] {
                pushes.push((node, push, BED * STRAP_BREADTH * length / 2.0));
            }
        }
        pushes
    }
}

/// The bearers of a job, in the world.
fn bearers(job: &Job, body: &Body) -> Vec<Bearer> {
    let places = places(job, body).into_iter();
    let bearer = |(id, place): (BearerId, Option<[Point2; 2]>)| Bearer {
        id,
        reach: match (&job.support, place) {
            (Support::Straps { across, .. }, Some(place)) => {
                let along = if *across == Axis::X { Axis::Y } else { Axis::X };
                Reach::Round(place, along)
            }
            (Support::Bed, _) => Reach::Bed,
            (_, Some(place)) => Reach::Within(place),
            (_, None) => Reach::Floor,
        },
    };
    bearer_ids(job)
        .into_iter()
        .zip(places)
        .map(bearer)
        .collect()
}

/// Each rail, strap or foot of a job.
fn bearer_ids(job: &Job) -> Vec<BearerId> {
    match &job.support {
        Support::Floor => vec![BearerId::Floor],
        Support::Bed => vec![BearerId::Bed],
        Support::Rails { at, .. } => at.iter().copied().map(BearerId::Rail).collect(),
        Support::Straps { at, .. } => at.iter().copied().map(BearerId::Strap).collect(),
        Support::Feet { at, .. } => at.iter().copied().map(BearerId::Foot).collect(),
    }
}

/// The rectangles of a job's support in the world; none in place of one: all of the floor.
fn places(job: &Job, body: &Body) -> Vec<Option<[Point2; 2]>> {
    let origin = job
        .body
        .as_ref()
        .map_or([0.0; 2], |spec| [spec.at[0].m(), spec.at[1].m()]);
    let (low, high) = body.solid.bounds();
    let across = |axis: Axis, middle: f64, width: f64| {
        let (from, to) = (middle - width / 2.0, middle + width / 2.0);
        Some(match axis {
            Axis::X => [
                Point2::new(origin[0] + from, low.y),
                Point2::new(origin[0] + to, high.y),
            ],
            Axis::Y | Axis::Z => [
                Point2::new(low.x, origin[1] + from),
                Point2::new(high.x, origin[1] + to),
            ],
        })
    };
    match &job.support {
        Support::Floor | Support::Bed => vec![None],
        Support::Rails { along, at, width } => {
            let axis = if *along == Axis::X { Axis::Y } else { Axis::X };
            at.iter()
                .map(|at| across(axis, at.m(), width.m()))
                .collect()
        }
        Support::Straps {
            across: axis,
            at,
            width,
        } => at
            .iter()
            .map(|at| across(*axis, at.m(), width.m()))
            .collect(),
        Support::Feet { at, size } => at
            .iter()
            .map(|[x, y]| {
                let (x, y) = (origin[0] + x.m(), origin[1] + y.m());
                let (dx, dy) = (size[0].m() / 2.0, size[1].m() / 2.0);
                Some([Point2::new(x - dx, y - dy), Point2::new(x + dx, y + dy)])
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a strip of 1 m on two rows of contacts at its ends, half a metre from the middle, that
    /// shrinks by 1 mm/m, under 1000 N. Its springs pull 0.1 x 1e6 N/m x 0.5 mm = 50 N at each end; the
    /// friction of 0.5 x 1000 N twice over is more, so they stay; ten times the stiffness is capped.
    #[test]
    fn springs_pull_no_harder_than_friction() {
        let shell = |stiffness: f64| Shell {
            nodes: vec![Point3::ORIGIN, Point3::new(1.0, 0.0, 0.0)],
            contacts: (0..2)
                .map(|node| Contact {
                    node,
                    push: Vec3::Z,
                    gap: 0.0,
                    stiffness,
                })
                .collect(),
            ..Shell::default()
        };
        assert_eq!(sliding_share(&shell(1e6), -1e-3, 1000.0), 1.0);
        let stiff = sliding_share(&shell(1e8), -1e-3, 1000.0);
        // 2 x 0.5 x 1000 N over 0.1 x 2e8 N/m x 0.5 mm.
        assert!((stiff - 0.1).abs() < 1e-12, "{stiff}");
        assert_eq!(sliding_share(&shell(1e8), 0.0, 1000.0), 1.0);
    }
}
