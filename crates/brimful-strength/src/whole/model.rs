//! The tank as a shell: mesh, supports, and who has liquid on which side.

use super::chock::Chock;
use super::filled::{Filled, OneSided};
use super::fitting::HeavyFitting;
use super::lid::Spot;
use super::midsurface::{Midsurface, NotchKind, Rim};
use super::place::{LEVEL, MERGE, centroid};
use super::support::{BearerId, Bearers};
use super::tank::Tank;
use crate::load::{Heads, LoadKind};
use brimful_geom::basin;
use brimful_geom::mesh::{Flat, Mesh, Refine, Size};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_mech::shell::Fault;
use brimful_mech::shell::model::{InitialStrain, Load, Plate, Shell, Triangle, twist_of_strip};
use brimful_panels::finding::kind::NoModel;
use brimful_panels::panel::Role;
use brimful_units::Length;

/// Elements next to a notch or the corner of a foot are so many thicknesses large at a fineness of one. At six, that
/// of the first mesh, they are twice as large as the sheet is thick: the length over which a seam's forces are evened out.
const AT_NOTCHES: f64 = 12.0;
/// The same where a fold of the body turns in. What the sheets pull there rises toward its end, and comes up only
/// where several elements lie within that length.
const AT_INSIDE_CORNERS: f64 = 3.0;
/// Elements of ribs and stays are this much larger for their width: they are pulled and bent in
/// their plane, which one element across does well (slender cantilever, docs/verification.md).
const ACROSS_STRIPS: f64 = 1.5;
/// Growth of the elements away from notches and holes, m/m.
const GROWTH: f64 = 0.5;

/// The tank as a shell.
#[derive(Clone, Debug)]
pub struct Model {
    /// The mesh of the flats.
    pub mesh: Mesh,
    /// The shell; moduli are set for each load case.
    pub shell: Shell,
    /// Panel of each triangle.
    pub panel: Vec<usize>,
    /// Normal of each flat, out of the tank for an outer one.
    pub normals: Vec<Vec3>,
    /// Compartment behind (against the normal) and ahead of each triangle.
    pub sides: Vec<[Option<usize>; 2]>,
    /// Covered holes, each with the nodes of its rim.
    pub rims: Vec<(Rim, Vec<usize>)>,
    /// Fittings that weigh something.
    pub fittings: Vec<HeavyFitting>,
    /// Nodes under what may stand on the lid, with their shares of it; none where nothing may.
    pub spots: Vec<Vec<(usize, f64)>>,
    /// What carries the tank.
    pub bearers: Bearers,
    /// Which of them each contact of the shell is part of.
    pub borne_by: Vec<usize>,
    /// What keeps it from sliding.
    pub chocks: Vec<Chock>,
}

impl Model {
    /// The shell of a tank whose elements are `1 / fineness` of what each flat is wide. Pressure runs
    /// evenly over it but for a kink at the liquid's `level`, if it is not brim-full: that becomes a
    /// line of the mesh.
    ///
    /// # Errors
    /// [`NoModel`] says what cannot be meshed or carried.
    pub fn of(
        tank: &Tank<'_>,
        midsurface: &Midsurface,
        fineness: f64,
        level: Option<Length>,
    ) -> Result<Self, NoModel> {
        let bearers = Bearers::of(tank, midsurface);
        let chocks = Chock::all(tank, midsurface);
        let flats = flats(tank, midsurface, (&bearers, &chocks), fineness, level);
        let spots = match tank.job.checks.lid_load {
            Some(_) => Spot::all(tank, midsurface),
            None => Vec::new(),
        };
        let notches = midsurface.notches.iter().map(|notch| Refine {
            point: notch.at,
            size: notch.thickness / fineness
                * match notch.kind {
                    NotchKind::End => AT_NOTCHES,
                    NotchKind::InsideCorner => AT_INSIDE_CORNERS,
                },
        });
        let standing = spots.iter().flat_map(|spot| spot.bent_most(midsurface));
        let standing = standing.map(|point| Refine {
            point,
            size: Spot::size(fineness),
        });
        let feet = (0..flats.len()).flat_map(|flat| {
            let size = AT_NOTCHES * midsurface.thickness[flat] / fineness;
            let corners = bearers.corners_of_feet(flat).into_iter();
            corners.map(move |point| Refine { point, size })
        });
        let feet: Vec<Refine> = feet.collect();
        let size = Size {
            refine: notches.chain(standing).chain(feet).collect(),
            growth: GROWTH,
            ..Size::default()
        };
        let mesh = Mesh::of(&flats, &size, MERGE).map_err(NoModel::Mesh)?;
        let shell = shell(tank, &mesh, &flats, midsurface);
        let mut model = Self {
            panel: panel_of_triangles(tank, midsurface, &mesh),
            sides: sides_of_triangles(tank, midsurface, &mesh),
            rims: rims(midsurface, &mesh),
            fittings: HeavyFitting::all(tank, midsurface, &mesh),
            normals: flats.iter().map(|flat| flat.frame.z).collect(),
            shell,
            spots: spots.iter().map(|spot| spot.shares(&mesh)).collect(),
            bearers,
            borne_by: Vec::new(),
            chocks,
            mesh,
        };
        model.borne_by = model
            .bearers
            .carry(&model.mesh, &model.normals, &mut model.shell);
        if model.borne_by.is_empty() {
            return Err(NoModel::NotCarried);
        }
        Ok(model)
    }

    /// Everything that the tank stands on or against: bearers, then chocks.
    pub fn supports(&self) -> Vec<BearerId> {
        let chocks = (0..self.chocks.len()).map(BearerId::Chock);
        self.bearers.ids().into_iter().chain(chocks).collect()
    }

    /// The load of a case on the shell.
    ///
    /// # Errors
    /// [`Fault::Input`]: liquid is thrown against a baffle that is not in the mesh.
    pub fn load(&self, filled: &Filled, heads: &[Heads]) -> Result<Load, Fault> {
        let (case, growth) = (&filled.case, filled.limits.strictest().growth);
        let inside = |compartment: Option<usize>, point: Point3| match compartment {
            Some(c) if filled.compartments[c] && case.id.kind == LoadKind::Suction => case.air.pa(),
            Some(c) if filled.compartments[c] => heads[c].pressure(case, point),
            Some(c) if filled.full_beside[c] => heads[c].of_liquid(case.body_acceleration, point),
            _ => 0.0,
        };
        let wetted = WettedSides::of(self, filled.against)?;
        let pressures = self
            .mesh
            .triangles
            .iter()
            .enumerate()
            .map(|(number, triangle)| {
                let [behind, ahead] = wetted.sides(number, centroid(&self.mesh, number));
                triangle.nodes.map(|node| {
                    let point = self.mesh.nodes[node];
                    if behind == ahead {
                        0.0
                    } else {
                        inside(behind, point) - inside(ahead, point)
                    }
                })
            })
            .collect();
        let mut forces = Vec::new();
        for (rim, nodes) in &self.rims {
            let normal = self.normals[rim.flat];
            // The liquid at the rim is that of the triangles beside it.
            let beside = |triangle: &brimful_geom::mesh::MeshTriangle| {
                triangle.flat == rim.flat && triangle.nodes.iter().any(|node| nodes.contains(node))
            };
            let near = self.mesh.triangles.iter().position(beside);
            let [behind, ahead] =
                near.map_or([None, None], |triangle| wetted.sides(triangle, rim.centre));
            let pressure = inside(behind, rim.centre) - inside(ahead, rim.centre);
            let each = normal * (pressure * rim.area / nodes.len().max(1) as f64);
            forces.extend(
                nodes
                    .iter()
                    .map(|&node| (node, [each.x, each.y, each.z, 0.0, 0.0, 0.0])),
            );
        }
        forces.extend(
            self.fittings
                .iter()
                .flat_map(|it| it.forces(case.body_acceleration)),
        );
        let standing = case.body_acceleration * case.on_lid.kg();
        let spot = self.spots.get(filled.spot).into_iter().flatten();
        forces.extend(spot.map(|&(node, share)| {
            let force = standing * share;
            (node, [force.x, force.y, force.z, 0.0, 0.0, 0.0])
        }));
        let grown = InitialStrain {
            stretch: [growth, growth, 0.0],
            ..InitialStrain::default()
        };
        let initial_strains = if growth == 0.0 {
            Vec::new()
        } else {
            vec![grown; self.mesh.triangles.len()]
        };
        Ok(Load {
            pressures,
            body_acceleration: case.body_acceleration,
            forces,
            initial_strains,
        })
    }
}

/// The flats with the size of their elements, and with lines where they rest on bearers, where chocks end
/// and where the liquid's level is.
fn flats(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    (bearers, chocks): (&Bearers, &[Chock]),
    fineness: f64,
    level: Option<Length>,
) -> Vec<Flat> {
    let mut flats = midsurface.flats.clone();
    let widths: Vec<f64> = flats.iter().map(|flat| width(&flat.outlines)).collect();
    for (number, (flat, width)) in flats.iter_mut().zip(&widths).enumerate() {
        let strip = is_strip(tank, midsurface, number);
        flat.size = if strip { ACROSS_STRIPS } else { 1.0 } * width / fineness;
    }
    for (number, flat) in flats.iter_mut().enumerate() {
        for [a, b] in bearers.edges(number) {
            let place = |point: Point3| flat.frame.flat_from_world(point);
            let (a, b) = (place(a), place(b));
            if reaches_into(&flat.outlines[0], a, b) {
                flat.segments.push((a, b));
            }
        }
    }
    for (number, flat) in flats.iter_mut().enumerate() {
        let own = chocks.iter().filter(|chock| chock.flat == number);
        let heights = level.map(Length::m).into_iter().chain(own.map(|it| it.top));
        let lines = heights.filter_map(|z| level_line(flat, z));
        let lines = lines.filter(|&(a, b)| reaches_into(&flat.outlines[0], a, b));
        let lines: Vec<_> = lines.collect();
        flat.segments.extend(lines);
    }
    flats
}

/// Whether a flat is a strip that twists as a whole.
fn is_strip(tank: &Tank<'_>, midsurface: &Midsurface, flat: usize) -> bool {
    let mut own = midsurface.panels[flat].iter();
    own.all(|&panel| matches!(tank.panels[panel].role, Role::Rib | Role::Stay))
}

/// The shell of a mesh; moduli and densities are set for each load case.
fn shell(tank: &Tank<'_>, mesh: &Mesh, flats: &[Flat], midsurface: &Midsurface) -> Shell {
    let twist = |number: usize, thickness: f64| match is_strip(tank, midsurface, number) {
        true => twist_of_strip(thickness, width(&flats[number].outlines)),
        false => 1.0,
    };
    Shell {
        nodes: mesh.nodes.clone(),
        triangles: mesh
            .triangles
            .iter()
            .map(|triangle| Triangle {
                nodes: triangle.nodes,
                plate: triangle.flat,
            })
            .collect(),
        plates: flats
            .iter()
            .zip(&midsurface.thickness)
            .enumerate()
            .map(|(number, (flat, &thickness))| Plate {
                thickness,
                modulus: 0.0,
                poisson: 0.0,
                density: 0.0,
                expansion: 0.0,
                twist: twist(number, thickness),
                axis: flat.frame.x,
            })
            .collect(),
        ..Shell::default()
    }
}

/// Where liquid is when all of it is thrown against one baffle.
struct WettedSides<'a> {
    model: &'a Model,
    /// The baffle, and the compartment it stands in.
    against: Option<(OneSided, usize)>,
}

impl<'a> WettedSides<'a> {
    fn of(model: &'a Model, against: Option<OneSided>) -> Result<Self, Fault> {
        let Some(against) = against else {
            return Ok(Self {
                model,
                against: None,
            });
        };
        let own = model.panel.iter().position(|&p| p == against.panel);
        let compartment = own.and_then(|triangle| model.sides[triangle][0]);
        let compartment = compartment.ok_or_else(|| Fault::Input {
            what: "The baffle that liquid is thrown against is not in the mesh.".to_owned(),
        })?;
        Ok(Self {
            model,
            against: Some((against, compartment)),
        })
    }

    /// Whose liquid is behind and ahead of a place on a triangle.
    fn sides(&self, triangle: usize, place: Point3) -> [Option<usize>; 2] {
        let sides = self.model.sides[triangle];
        let Some((against, compartment)) = self.against else {
            return sides;
        };
        let own = Some(compartment);
        let normal = self.model.normals[self.model.mesh.triangles[triangle].flat];
        if sides == [own; 2] && against.is_in_plane(place, normal) {
            return if against.ahead.dot(normal) > 0.0 {
                [own, None]
            } else {
                [None, own]
            };
        }
        if sides.contains(&own) && against.is_dry(place) {
            return sides.map(|side| side.filter(|_| side != own));
        }
        sides
    }
}

/// The line at height `z` over all of a flat; none on a level one.
fn level_line(flat: &Flat, z: f64) -> Option<(Point2, Point2)> {
    let frame = &flat.frame;
    let up = Vec3::Z - frame.z * frame.z.z;
    if up.length() < LEVEL {
        return None;
    }
    let (low, high) = flat.outlines[0].bounds();
    let middle = frame.world_from_flat(low.midpoint(high));
    // Up the flat until the height is right, then level to both sides past its outline.
    let at = middle + up * ((z - middle.z) / up.dot(up));
    let along = frame.z.cross(Vec3::Z);
    let reach = along * (low.distance(high) / along.length());
    Some((
        frame.flat_from_world(at - reach),
        frame.flat_from_world(at + reach),
    ))
}

/// Whether a segment runs through the inside of an outline, and not only beside or along it.
fn reaches_into(outline: &Outline, a: Point2, b: Point2) -> bool {
    /// Places looked at along the segment: enough that no rail slips between two of them.
    const PLACES: usize = 64;
    let at = |i: usize| a + (b - a) * ((i as f64 + 0.5) / PLACES as f64);
    let inside = |point: Point2| outline.contains(point) && outline.distance(point) > MERGE;
    (0..PLACES).any(|i| inside(at(i)))
}

/// Width of a flat for the size of its elements: four areas over the outline, the side of a square.
fn width(outlines: &[Outline]) -> f64 {
    let round: f64 = outlines[0].sides().map(|(a, b)| a.distance(b)).sum();
    4.0 * outlines[0].signed_area().abs() / round
}

fn panel_of_triangles(tank: &Tank<'_>, midsurface: &Midsurface, mesh: &Mesh) -> Vec<usize> {
    let of = |triangle: usize| {
        let own = &midsurface.panels[mesh.triangles[triangle].flat];
        let point = centroid(mesh, triangle);
        let away = |panel: usize| {
            let plate = &tank.panels[panel].finished;
            let flat = plate.frame.flat_from_world(point);
            let outline = plate.outlines(brimful_geom::plate::PlateFace::Outside);
            let within = outline
                .first()
                .is_some_and(|outline| outline.contains(flat));
            let distance = outline
                .first()
                .map_or(f64::INFINITY, |outline| outline.distance(flat));
            if within { 0.0 } else { distance }
        };
        own.iter()
            .copied()
            .min_by(|&a, &b| away(a).total_cmp(&away(b)))
            .unwrap_or(0)
    };
    let alone = |triangle: usize| {
        let own = &midsurface.panels[mesh.triangles[triangle].flat];
        if let [panel] = own[..] {
            panel
        } else {
            of(triangle)
        }
    };
    (0..mesh.triangles.len()).map(alone).collect()
}

/// Whose liquid is behind and ahead of every triangle.
fn sides_of_triangles(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    mesh: &Mesh,
) -> Vec<[Option<usize>; 2]> {
    let nearest = |point: Point3| {
        (0..tank.compartments.len()).min_by(|&a, &b| {
            let distance = |c: usize| basin::distance(&tank.compartments[c].room, point);
            distance(a).total_cmp(&distance(b))
        })
    };
    let role = |flat: usize| {
        midsurface.panels[flat]
            .first()
            .map(|&panel| tank.panels[panel].role)
    };
    let one = tank.compartments.len() == 1;
    let of = |number: usize| {
        let flat = mesh.triangles[number].flat;
        let normal = midsurface.flats[flat].frame.z;
        let step = normal * midsurface.thickness[flat];
        let point = centroid(mesh, number);
        match role(flat) {
            // Liquid on both sides of a baffle is the same liquid.
            Some(Role::Baffle) => [nearest(point); 2],
            // What presses on a stay's two sides is alike; round a rib there is none.
            Some(Role::Stay | Role::Rib) => [None, None],
            Some(Role::Divider) => [nearest(point - step), nearest(point + step)],
            _ if one => [Some(0), None],
            _ => [nearest(point - step), None],
        }
    };
    (0..mesh.triangles.len()).map(of).collect()
}

fn rims(midsurface: &Midsurface, mesh: &Mesh) -> Vec<(Rim, Vec<usize>)> {
    let rims = midsurface.rims.iter();
    rims.map(|rim| (rim.clone(), rim.nodes(mesh))).collect()
}

#[cfg(test)]
mod tests;
