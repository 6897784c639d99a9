//! What a load asks of whatever keeps the tank in its place: friction first, then chocks.
//!
//! Friction is at most the least coefficient times the push of the supports: for what slides the least is
//! the unsafe side. Of the load sideways the chocks can take what pushes the tank against them and nothing
//! else; what is left square to that is for friction alone. All vectors here are level, in newtons, and
//! point the way the load pushes the tank.

use brimful_geom::vector::Vec3;
use brimful_mech::shell::model::{Load, Shell};
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::{StrengthKind, Toward};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::table::friction::{FrictionEnd, friction};
use brimful_units::Force;

/// Of a load the part sideways that is smaller than this share is the mesh's: above the liquid pressure is cut
/// off triangle by triangle, not quite alike on opposite walls.
const OF_LOAD: f64 = 1e-4;
/// So is, of a push sideways, a part along another axis that is smaller than this share.
const OF_PUSH: f64 = 1e-2;

/// How a load is held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holding {
    /// Friction over push; none where the supports swing with the tank.
    pub coefficient: Option<f64>,
    /// What presses on the supports, N; below zero what lifts the tank off them.
    pub push: f64,
    /// What pushes the tank sideways.
    pub sideways: Vec3,
    /// What the supports' friction holds of it.
    pub friction: Vec3,
    /// What the chocks take of it.
    pub on_chocks: Vec3,
    /// What neither holds.
    pub not_held: Vec3,
}

impl Holding {
    /// How a load on the shell is held, by chocks on walls of these level normals and, where it `slides` on its
    /// supports, by friction.
    pub fn of(shell: &Shell, load: &Load, chocks: &[Vec3], slides: bool) -> Self {
        let coefficient = slides.then(|| friction(FrictionEnd::Least).value);
        Self::of_force(total(shell, load), chocks, coefficient)
    }

    fn of_force(force: Vec3, chocks: &[Vec3], coefficient: Option<f64>) -> Self {
        let sideways = Vec3::new(force.x, force.y, 0.0);
        let push = -force.z;
        let most = coefficient.unwrap_or(0.0) * push.max(0.0);
        let towards_chocks = within_reach(sideways, chocks);
        let across = sideways - towards_chocks;
        let least = (OF_LOAD * force.length()).max(OF_PUSH * sideways.length());
        // What is across the chocks comes first; what friction has left goes against what pushes on them.
        let held_across = shortened(across, most);
        let left = (most * most - held_across.dot(held_across)).max(0.0).sqrt();
        let held_along = shortened(towards_chocks, left);
        let unless_slight = |it: Vec3| if it.length() > least { it } else { Vec3::ZERO };
        let on_chocks = unless_slight(towards_chocks - held_along);
        Self {
            coefficient,
            push,
            sideways,
            friction: sideways - on_chocks - unless_slight(across - held_across),
            on_chocks,
            not_held: unless_slight(across - held_across),
        }
    }

    /// Whether the chocks are needed.
    pub fn is_by_chocks(&self) -> bool {
        self.on_chocks != Vec3::ZERO && self.push > 0.0
    }
}

/// For each way the load that leaves most to be held by what is not in the job, and the load that lifts
/// most.
pub fn not_held(holdings: &[(CaseId, Holding)]) -> Vec<Finding> {
    let most = |of: &dyn Fn(&Holding) -> f64| {
        let forces = holdings
            .iter()
            .map(|(case, holding)| (*case, *holding, of(holding)));
        let forces = forces.filter(|(.., force)| *force > 0.0);
        forces.max_by(|(.., a), (.., b)| a.total_cmp(b))
    };
    let finding = |kind| Finding::of(Grade::Mend, Subject::Part(Part::Support), kind);
    let ways = [
        (Toward::Front, Vec3::X),
        (Toward::Rear, -Vec3::X),
        (Toward::Left, Vec3::Y),
        (Toward::Right, -Vec3::Y),
    ];
    let slides = ways.into_iter().filter_map(|(toward, way)| {
        let (case, holding, force) = most(&|it| it.not_held.dot(way))?;
        let pushes = holding.sideways.dot(way);
        let kind = StrengthKind::Slides {
            case,
            toward,
            force: Force::from_n(force),
            friction: holding.coefficient,
        };
        let figures = [pushes, pushes - force].map(|it| Quantity::Force(Force::from_n(it)));
        let slides = finding(kind).figures(figures[0], figures[1]);
        let source = friction(FrictionEnd::Least).sources.into_iter().next();
        let source = source.filter(|_| holding.coefficient.is_some());
        Some(match source {
            Some(source) => slides.table(source),
            None => slides,
        })
    });
    let lifts = most(&|it| -it.push).map(|(case, _, force)| {
        let force = Force::from_n(force);
        finding(StrengthKind::Lifts { case, force })
    });
    slides.chain(lifts).collect()
}

/// The vector, no longer than this.
fn shortened(vector: Vec3, most: f64) -> Vec3 {
    let length = vector.length();
    if length > most {
        vector * (most / length)
    } else {
        vector
    }
}

/// Of a level force what chocks on walls of these normals can push back together: its nearest place in
/// the cone of the normals.
fn within_reach(force: Vec3, normals: &[Vec3]) -> Vec3 {
    let turn = |a: Vec3, b: Vec3| a.cross(b).z;
    let is_between =
        |(a, b): (Vec3, Vec3)| turn(a, b) > 0.0 && turn(a, force) >= 0.0 && turn(force, b) >= 0.0;
    let mut pairs = normals
        .iter()
        .flat_map(|a| normals.iter().map(move |b| (*a, *b)));
    if pairs.any(is_between) {
        return force;
    }
    let on_one = normals
        .iter()
        .map(|normal| *normal * force.dot(*normal).max(0.0));
    on_one.fold(Vec3::ZERO, |most, it| {
        if it.length() > most.length() {
            it
        } else {
            most
        }
    })
}

/// All that acts on the shell before it moves.
fn total(shell: &Shell, load: &Load) -> Vec3 {
    let of_triangle = |(number, triangle): (usize, &brimful_mech::shell::model::Triangle)| {
        let [a, b, c] = triangle.nodes.map(|node| shell.nodes[node]);
        let area = (b - a).cross(c - a) / 2.0;
        let pressure = load
            .pressures
            .get(number)
            .map_or(0.0, |it| it.iter().sum::<f64>() / 3.0);
        let plate = &shell.plates[triangle.plate];
        let mass = area.length() * plate.thickness * plate.density;
        area * pressure + load.body_acceleration * mass
    };
    let on_nodes = load
        .forces
        .iter()
        .map(|(_, [x, y, z, ..])| Vec3::new(*x, *y, *z));
    let on_triangles = shell.triangles.iter().enumerate().map(of_triangle);
    on_triangles
        .chain(on_nodes)
        .fold(Vec3::ZERO, |sum, it| sum + it)
}

#[cfg(test)]
mod tests {
    use super::*;

    const WEIGHT: f64 = 1000.0;
    /// Half of gravity forward.
    const BRAKING: Vec3 = Vec3 {
        x: 500.0,
        y: 0.0,
        z: -WEIGHT,
    };

    fn near(found: Vec3, wanted: [f64; 3]) {
        let [x, y, z] = wanted;
        assert!(
            (found - Vec3::new(x, y, z)).length() < 1e-9,
            "{found:?} {wanted:?}"
        );
    }

    /// By hand: 1000 N that brake with half of gravity need 500 N sideways; friction of 0.15 holds 150 N, the
    /// chock ahead 350 N. One behind takes nothing, and 350 N are held by nobody.
    #[test]
    fn a_chock_takes_what_friction_leaves() {
        let held = Holding::of_force(BRAKING, &[Vec3::X], Some(0.15));
        near(held.friction, [150.0, 0.0, 0.0]);
        near(held.on_chocks, [350.0, 0.0, 0.0]);
        let behind = Holding::of_force(BRAKING, &[-Vec3::X], Some(0.15));
        near(behind.not_held, [350.0, 0.0, 0.0]);
        near(behind.on_chocks, [0.0; 3]);
        assert!(held.is_by_chocks() && !behind.is_by_chocks());
    }

    /// By hand: 500 N forward and 90 N to the left with a chock ahead: friction has to hold the 90 N, so that
    /// of 150 N only 120 N (a triangle of 3, 4 and 5) are left against the 500 N.
    #[test]
    fn friction_goes_first_to_what_chocks_cannot_hold() {
        let force = Vec3 { y: 90.0, ..BRAKING };
        let held = Holding::of_force(force, &[Vec3::X], Some(0.15));
        near(held.friction, [120.0, 90.0, 0.0]);
        near(held.on_chocks, [380.0, 0.0, 0.0]);
        // With one at the left too, friction works against the way it would slide.
        let both = Holding::of_force(force, &[Vec3::X, Vec3::Y], Some(0.15));
        near(both.friction + both.on_chocks, [500.0, 90.0, 0.0]);
        assert!((both.friction.length() - 150.0).abs() < 1e-9);
    }

    /// What no chock stands before does not take away the one that bears: 500 N forward on the chock ahead while
    /// 300 N to the left, less 150 N of friction, are held by nobody.
    #[test]
    fn a_chock_bears_while_something_else_is_not_held() {
        let force = Vec3 {
            y: 300.0,
            ..BRAKING
        };
        let held = Holding::of_force(force, &[Vec3::X], Some(0.15));
        near(held.on_chocks, [500.0, 0.0, 0.0]);
        near(held.not_held, [0.0, 150.0, 0.0]);
        assert!(held.is_by_chocks());
    }

    /// A thousandth of a newton that the mesh leaves of a tank at rest is no push.
    #[test]
    fn what_the_mesh_leaves_pushes_on_nothing() {
        let force = Vec3::new(4e-3, 1e-3, -WEIGHT);
        for coefficient in [None, Some(0.15)] {
            let held = Holding::of_force(force, &[Vec3::X], coefficient);
            near(held.on_chocks, [0.0; 3]);
            near(held.not_held, [0.0; 3]);
        }
    }

    /// A tank that is lifted has no friction, and hangs from nothing.
    #[test]
    fn what_is_lifted_is_not_held_by_friction() {
        let force = Vec3 {
            z: 100.0,
            ..BRAKING
        };
        let held = Holding::of_force(force, &[], Some(0.15));
        assert_eq!(held.push, -100.0);
        near(held.not_held, [500.0, 0.0, 0.0]);
    }
}
