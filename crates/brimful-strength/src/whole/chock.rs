//! Chocks at the foot of walls, and the shell of a tank that slides against them.
//!
//! A tank that friction does not hold is pushed by its supports at the angle of friction against the way
//! it would slide, each support in proportion to its push, and the chocks take the rest. They are in the
//! shell of such a load alone: where friction suffices they are taken not to squeeze the tank, so that it
//! can grow and bulge at its foot.

use super::holding::Holding;
use super::midsurface::Midsurface;
use super::place::areas_of_nodes;
use super::support::{BED, SPRINGS};
use super::tank::Tank;
use brimful_geom::mesh::Mesh;
use brimful_geom::vector::Vec3;
use brimful_mech::shell::model::{Contact, Shell};
use brimful_panels::panels::chocked_faces;

/// What is left of the stiffness that holds a tank against its chocks once it slides: the chocks have the load.
/// A thousandth takes less than a hundredth of what a chock does where the chock is as small as a hundredth of
/// the floor.
const SLIDING: f64 = 1e-3;
/// A chock of which a load pushes with less than this share of what it pushes sideways is the mesh's doing.
const SLIGHT: f64 = 1e-2;
/// Walls that meet at less than this (sine, six degrees) push the same way.
const ALIKE: f64 = 0.1;

/// One chock.
#[derive(Clone, Copy, Debug)]
pub struct Chock {
    /// Number of the flat that stands against it.
    pub flat: usize,
    /// How high it reaches, m.
    pub top: f64,
    /// The way out of the wall, level.
    pub normal: Vec3,
}

impl Chock {
    /// The chocks of the job, in its order; outer flats are the faces of the body.
    pub fn all(tank: &Tank<'_>, midsurface: &Midsurface) -> Vec<Self> {
        // Panels are not laid out where a chock has no wall.
        let faces = chocked_faces(tank.job, tank.body).unwrap_or_default();
        let height = tank
            .job
            .chocks
            .as_ref()
            .map_or(0.0, |chocks| chocks.height.m());
        faces
            .into_iter()
            .map(|flat| {
                let frame = &midsurface.flats[flat].frame;
                let foot = tank.body.foot_of(flat);
                let level = Vec3::new(frame.z.x, frame.z.y, 0.0);
                Self {
                    flat,
                    top: foot + height,
                    normal: level / level.length(),
                }
            })
            .collect()
    }

    /// Its contacts.
    pub fn contacts(&self, mesh: &Mesh) -> Vec<Contact> {
        let areas = areas_of_nodes(mesh, self.flat, |place| place.z < self.top);
        let contact = |(node, area)| Contact {
            node,
            push: -self.normal,
            gap: 0.0,
            stiffness: BED * area,
        };
        areas.into_iter().map(contact).collect()
    }

    /// Whether the load of a sliding tank pushes against it.
    pub fn is_pushed(&self, holding: &Holding) -> bool {
        holding.on_chocks.dot(self.normal) > SLIGHT * holding.sideways.length()
    }
}

/// Lets a shell slide against walls of these level normals, as far as friction does not hold it. Across them it is
/// held as before: by friction, which keeps it from turning, and evenly where nothing else holds it.
pub fn slide(shell: &mut Shell, holding: &Holding, pushed: &[Vec3]) {
    let slope = holding.friction / holding.push;
    for contact in &mut shell.contacts {
        let push = contact.push - slope;
        contact.push = push / push.length();
    }
    let Some(&first) = pushed.first() else { return };
    let is_one_way = pushed
        .iter()
        .all(|other| first.cross(*other).length() < ALIKE);
    for [along, across] in shell.springs.as_chunks_mut::<SPRINGS>().0 {
        let axis = along.direction.cross(across.direction);
        let way = first - axis * first.dot(axis);
        let Some(way) = way.unit() else { continue };
        along.direction = way;
        across.direction = axis.cross(way);
        along.stiffness *= SLIDING;
        if !is_one_way {
            across.stiffness *= SLIDING;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_geom::vector::Point3;
    use brimful_mech::shell::linear::solve;
    use brimful_mech::shell::model::{Constraint, Dof, Load, Plate, Spring, Triangle};
    use brimful_mech::shell::{System, Workspace};

    /// Stiffness of a support, N/m: softer than the plate, as those of a tank are.
    const STIFF: f64 = 1e6;

    /// A plate 1 m long and 0.4 m high that stands upright on its two lower corners.
    fn standing_plate() -> Shell {
        let at = |x: f64, z: f64| Point3::new(x, 0.0, z);
        let held = [Dof::Y, Dof::TurnX, Dof::TurnZ];
        let constraint = |node: usize| {
            held.map(|dof| Constraint {
                node,
                dof,
                value: 0.0,
            })
        };
        Shell {
            nodes: vec![at(0.0, 0.0), at(1.0, 0.0), at(1.0, 0.4), at(0.0, 0.4)],
            triangles: [[0, 1, 2], [0, 2, 3]]
                .map(|nodes| Triangle { nodes, plate: 0 })
                .to_vec(),
            plates: vec![Plate {
                thickness: 0.01,
                modulus: 1e9,
                poisson: 0.3,
                density: 1000.0,
                expansion: 0.0,
                twist: 1.0,
                axis: Vec3::X,
            }],
            constraints: (0..4).flat_map(constraint).collect(),
            contacts: [0, 1]
                .map(|node| Contact {
                    node,
                    push: Vec3::Z,
                    gap: 0.0,
                    stiffness: STIFF,
                })
                .to_vec(),
            springs: [0, 1]
                .map(|node| Spring {
                    node,
                    direction: Vec3::X,
                    stiffness: STIFF / 10.0,
                })
                .to_vec(),
            ..Shell::default()
        }
    }

    /// By hand: a plate of 4 kg that brakes with 5 m/s2 forward under gravity of 10 m/s2 needs 20 N sideways;
    /// its support gets 40 N, of which friction of 0.15 holds 6 N, so that the chock ahead takes 14 N.
    /// About the rear corner: 40 N x 0.5 m + 20 N x 0.2 m = 24 N on the front corner, 16 N on the
    /// rear one, and the friction of each is 0.15 of that.
    #[test]
    fn a_plate_that_slides_pushes_on_its_supports_as_statics_say() {
        let mut shell = standing_plate();
        let load = Load {
            body_acceleration: Vec3::new(5.0, 0.0, -10.0),
            ..Load::default()
        };
        let holding = Holding::of(&shell, &load, &[Vec3::X], true);
        assert!((holding.on_chocks.x - 14.0).abs() < 1e-9, "{holding:?}");
        slide(&mut shell, &holding, &[Vec3::X]);
        shell.contacts.push(Contact {
            node: 1,
            push: -Vec3::X,
            gap: 0.0,
            stiffness: STIFF,
        });
        let system = System::new(&shell).unwrap();
        let mut workspace = Workspace::new(&system).unwrap();
        let states = solve(&shell, &system, &mut workspace, &[load]).unwrap();
        let state = &states[0];
        let forces: Vec<Vec3> = shell
            .contacts
            .iter()
            .zip(&state.contact_forces)
            .map(|(contact, force)| contact.push * *force)
            .collect();
        let springs: f64 = state.spring_forces.iter().sum();
        let wanted = [(-2.4, 16.0), (-3.6, 24.0), (-14.0, 0.0)];
        // What the springs take, a ten-thousandth of the stiffness of the supports each.
        let close = 14.0 * 3e-4;
        for (found, (x, z)) in forces.iter().zip(wanted) {
            assert!(
                (found.x - x).abs() < close && (found.z - z).abs() < close,
                "{forces:?}"
            );
        }
        let all = forces.iter().fold(Vec3::ZERO, |sum, it| sum + *it);
        assert!((all.x + springs + 20.0).abs() < 1e-6 * 20.0, "{all:?}");
        assert!((all.z - 40.0).abs() < 1e-6 * 40.0, "{all:?}");
    }
}
