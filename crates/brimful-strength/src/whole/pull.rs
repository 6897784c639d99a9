//! How far welds pull panels out of flat and corners out of their angle while they cool.
//!
//! Every bead wants to be shorter than it is laid, by a strain of its own (inherent strain: Ueda, Murakawa and Ma,
//! *Welding Deformation and Residual Stress Prevention*, 2012, ch. 3, from memory). Along the seam it
//! draws the sheets on both sides in; across it turns them about the root of its wedge, by `2 e tan(b / 2)` where the wedge
//! of angle `b` has the whole depth, and with the square of its share of the depth where it has not. Step by step of the order of
//! work the beads pull on what stands then, as small displacements of the folded plates, and each panel keeps what it
//! has got since it was set. All of it is in proportion to the strain, and the modulus has no part in it.
//!
//! Left out: what clamps hold while the bead is hot, weight, what draws in across the seam, and that the second side of a
//! seam meets one that is stiff already.

use super::loaded::with_modulus;
use super::midsurface::Midsurface;
use super::model::Model;
use super::place::centroid;
use super::seam_side::seam_sides;
use super::tank::Tank;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::inherent::{Inherent, beside_line};
use brimful_mech::shell::linear::solve;
use brimful_mech::shell::model::{Constraint, Dof, InitialStrain, Load, Shell};
use brimful_mech::shell::{System, Workspace};
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::table::material::Material;
use brimful_panels::table::pull::{InherentStrain, inherent_strain};
use brimful_panels::weld::groove::GrooveKind;
use brimful_panels::weld::order::{Step, Work};
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_units::{Angle, Length};
use std::collections::BTreeMap;

/// Elements across each flat: bows are smooth, and the strain is known to a half.
const FINENESS: f64 = 4.0;
/// Any modulus will do, Pa, and Poisson's ratio of soft plastics.
const MODULUS: (f64, f64) = (1e9, 0.4);

/// What the welds of a tank pull.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// The strain of a bead.
    pub inherent: InherentStrain,
    /// The strip that would settle it, of the thickest sheet; none where it has been measured.
    pub strip: Option<PullStrip>,
    /// A line a panel.
    pub panels: Vec<Bow>,
    /// A line a seam that was welded.
    pub seams: Vec<Lean>,
}

/// How far a panel leaves the plane that lies nearest to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bow {
    /// Number of the panel.
    pub panel: usize,
    /// From the lowest place to the highest: the least, the likely and the greatest.
    pub bow: [Length; 3],
}

/// By how much the angle at a seam changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// Number of the seam.
    pub seam: usize,
    /// Between the planes nearest to its two panels: the least, the likely and the greatest.
    pub lean: [Angle; 3],
}

/// What the welds pull in this order of work; none where nothing is known of the strain, the tank cannot be meshed, or a
/// step has no answer.
pub fn pull(tank: &Tank<'_>, welds: &[SeamWeld], steps: &[Step]) -> Option<Pull> {
    let material = Material::of(&tank.job.stock.material).ok()?;
    let inherent = inherent_strain(material, tank.job.shop.pull)?;
    let thicknesses = tank.panels.iter().map(|panel| panel.thickness);
    let thickest = thicknesses.fold(Length::ZERO, Length::max);
    let density = material.density().ok();
    let strip = density.map(|density| PullStrip::of(thickest, density.value));
    let midsurface = Midsurface::of(tank.body, tank.panels, tank.seams).ok()?;
    let model = Model::of(tank, &midsurface, FINENESS, None).ok()?;
    let lines = lines(tank, &midsurface, &model);
    let mut shell = with_modulus(&model.shell, MODULUS.0, MODULUS.1, 0.0);
    shell.contacts.clear();
    shell.springs.clear();
    let mut standing = vec![false; tank.panels.len()];
    let mut moved = Moved::new(&model, tank.panels.len());
    for step in steps {
        match step.work {
            Work::Set => step.panels.iter().for_each(|&it| standing[it] = true),
            Work::WeldInside | Work::WeldOutside => {
                let is_laid = |weld: &&SeamWeld| {
                    let side = match step.work {
                        Work::WeldInside => WeldSide::Inside,
                        _ => WeldSide::Outside,
                    };
                    weld.side == side && step.seams.contains(&weld.seam)
                };
                let laid: Vec<&SeamWeld> = welds.iter().filter(is_laid).collect();
                let part = Part::of(tank, &model, &shell, &standing)?;
                moved.add(&part, &part.pulled(&lines, &laid)?);
            }
            Work::Tack | Work::Turn => {}
        }
    }
    let tilts = moved.planes(tank, &model);
    let bow = |panel: usize| Bow {
        panel,
        bow: inherent
            .strain
            .map(|it| Length::from_m(it * tilts[panel].bow)),
    };
    let welded = |seam: &usize| welds.iter().any(|weld| weld.seam == *seam);
    let lean = |number: usize| {
        let seam = &tank.seams[number];
        let [from, to] = seam.inner_line;
        let along = (to - from).unit().unwrap_or(Vec3::X);
        let [one, other] = seam.panels.map(|panel| tilts[panel].turn.dot(along));
        Lean {
            seam: number,
            lean: inherent
                .strain
                .map(|it| Angle::from_rad(it * (one - other).abs())),
        }
    };
    Some(Pull {
        panels: (0..tank.panels.len()).map(bow).collect(),
        seams: (0..tank.seams.len()).filter(welded).map(lean).collect(),
        strip: tank.job.shop.pull.is_none().then_some(strip).flatten(),
        inherent: inherent.clone(),
    })
}

/// The lines of the mesh on each seam.
fn lines(
    tank: &Tank<'_>,
    midsurface: &Midsurface,
    model: &Model,
) -> BTreeMap<usize, Vec<Vec<usize>>> {
    let sections = vec![None; tank.seams.len()];
    let mut lines: BTreeMap<usize, Vec<Vec<usize>>> = BTreeMap::new();
    for side in seam_sides(tank, midsurface, model, &sections) {
        let own = lines.entry(side.seam).or_default();
        if !own.contains(&side.chain) {
            own.push(side.chain);
        }
    }
    lines
}

/// What stands of the tank in a step.
struct Part<'a> {
    tank: &'a Tank<'a>,
    model: &'a Model,
    shell: Shell,
    /// Number in the model of each of its triangles.
    triangles: Vec<usize>,
    system: System,
}

impl<'a> Part<'a> {
    fn of(tank: &'a Tank<'a>, model: &'a Model, whole: &Shell, standing: &[bool]) -> Option<Self> {
        let numbers = 0..whole.triangles.len();
        let triangles: Vec<usize> = numbers.filter(|&it| standing[model.panel[it]]).collect();
        let mut shell = Shell {
            triangles: triangles.iter().map(|&it| whole.triangles[it]).collect(),
            ..whole.clone()
        };
        shell.constraints = held(&shell)?;
        let system = System::new(&shell).ok()?;
        Some(Self {
            tank,
            model,
            shell,
            triangles,
            system,
        })
    }

    /// How it moves when these beads cool.
    fn pulled(
        &self,
        lines: &BTreeMap<usize, Vec<Vec<usize>>>,
        welds: &[&SeamWeld],
    ) -> Option<Vec<[f64; 6]>> {
        let mut strains = vec![InitialStrain::default(); self.shell.triangles.len()];
        for (number, weld) in welds.iter().enumerate() {
            // The two fillets of a tee lie on one face of the standing panel each.
            let is_second = welds[..number].iter().any(|it| it.seam == weld.seam);
            let bead = Bead {
                part: self,
                weld,
                seam: &self.tank.seams[weld.seam],
                face: if is_second { -1.0 } else { 1.0 },
            };
            for line in lines.get(&weld.seam).into_iter().flatten() {
                let of = |beside: &[usize]| bead.on(beside, line);
                for (sum, own) in strains
                    .iter_mut()
                    .zip(beside_line(&self.shell, line, of).ok()?)
                {
                    for k in 0..3 {
                        sum.stretch[k] += own.stretch[k];
                        sum.curvature[k] += own.curvature[k];
                    }
                }
            }
        }
        let load = Load {
            initial_strains: strains,
            ..Load::default()
        };
        let mut workspace = Workspace::new(&self.system).ok()?;
        let states = solve(&self.shell, &self.system, &mut workspace, &[load]).ok()?;
        states.into_iter().next().map(|state| state.displacements)
    }
}

/// A bead on a seam.
struct Bead<'a> {
    part: &'a Part<'a>,
    weld: &'a SeamWeld,
    seam: &'a Seam,
    /// Of a tee: the face of the standing panel that it lies on, as the sign of that panel's normal.
    face: f64,
}

impl Bead<'_> {
    /// What it does to each of the triangles beside its line, for a strain of one.
    fn on(&self, beside: &[usize], line: &[usize]) -> Vec<Inherent> {
        let is_tee = matches!(self.seam.joint, Joint::Tee | Joint::SlotThrough);
        let standing = self.seam.panels[0];
        let own: Vec<usize> = beside.iter().map(|&it| self.part.triangles[it]).collect();
        let foot = own.iter().find(|&&it| self.panel(it) == standing);
        let signs = own.iter().map(|&triangle| match foot {
            Some(&foot) if is_tee => self.sign_at_tee(triangle, foot, line),
            _ => Some(self.sign_at_corner(triangle)),
        });
        let signs: Vec<Option<f64>> = signs.collect();
        // Each bead lies on two sheets, and each of them has half of it.
        let sheets = signs.iter().flatten().count().max(1) as f64;
        own.iter()
            .zip(signs)
            .map(|(&triangle, sign)| match sign {
                Some(sign) => Inherent {
                    along: self.weld.area.m2() / self.thickness(triangle) / sheets,
                    across: 0.0,
                    turn: sign * self.turn(triangle) / sheets,
                },
                None => Inherent::default(),
            })
            .collect()
    }

    /// By how much the bead turns the sheets on its two sides against each other, for a strain of one.
    fn turn(&self, triangle: usize) -> f64 {
        let (area, throat) = (self.weld.area.m2(), self.weld.throat.m());
        let depth = match self.weld.kind {
            // It lies on the faces, and its root is the hinge.
            GrooveKind::Fillet => throat,
            // Tongues are drawn into their slots evenly.
            GrooveKind::Plug => return 0.0,
            GrooveKind::V | GrooveKind::HalfV | GrooveKind::DoubleV => {
                throat.max(self.thickness(triangle))
            }
        };
        if depth > 0.0 {
            2.0 * area / (depth * depth)
        } else {
            0.0
        }
    }

    /// Which way a sheet of the body's corner turns: one where its inner face is shortened.
    fn sign_at_corner(&self, triangle: usize) -> f64 {
        let outward = self.winding(triangle).dot(self.normal(triangle)).signum();
        match self.weld.side {
            WeldSide::Inside => outward,
            WeldSide::Outside => -outward,
        }
    }

    /// Which way a sheet turns at a tee; none for that part of the wall which lies beyond the standing panel.
    fn sign_at_tee(&self, triangle: usize, foot: usize, line: &[usize]) -> Option<f64> {
        let mesh = &self.part.model.mesh;
        let at = mesh.nodes[line[0]];
        let face = self.normal(foot) * self.face;
        if self.panel(triangle) == self.panel(foot) {
            return Some(-self.winding(triangle).dot(face).signum());
        }
        let is_beside = (centroid(mesh, triangle) - at).dot(face) > 0.0;
        let up = centroid(mesh, foot) - at;
        is_beside.then(|| -self.winding(triangle).dot(up).signum())
    }

    fn panel(&self, triangle: usize) -> usize {
        self.part.model.panel[triangle]
    }

    fn normal(&self, triangle: usize) -> Vec3 {
        self.part.model.normals[self.part.model.mesh.triangles[triangle].flat]
    }

    /// The normal of a triangle by the order of its corners.
    fn winding(&self, triangle: usize) -> Vec3 {
        let mesh = &self.part.model.mesh;
        let [a, b, c] = mesh.triangles[triangle].nodes.map(|node| mesh.nodes[node]);
        (b - a).cross(c - a)
    }

    fn thickness(&self, triangle: usize) -> f64 {
        self.part.tank.panels[self.panel(triangle)].thickness.m()
    }
}

/// What keeps a free shell from drifting, and nothing more: of three nodes far apart one is held, one in two ways
/// and one in one.
fn held(shell: &Shell) -> Option<Vec<Constraint>> {
    let mut nodes: Vec<usize> = shell.triangles.iter().flat_map(|it| it.nodes).collect();
    nodes.sort_unstable();
    nodes.dedup();
    let at = |node: usize| shell.nodes[node];
    let farthest = |away: &dyn Fn(Point3) -> f64| {
        let by = |a: &&usize, b: &&usize| away(at(**a)).total_cmp(&away(at(**b)));
        nodes.iter().max_by(by).copied()
    };
    let first = *nodes.first()?;
    let second = farthest(&|it| it.distance(at(first)))?;
    let along = at(second) - at(first);
    let third = farthest(&|it| (it - at(first)).cross(along).length())?;
    let across = along.cross(at(third) - at(first));
    let largest = |way: Vec3| {
        let parts = way.to_array().map(f64::abs);
        (0..3).max_by(|&a, &b| parts[a].total_cmp(&parts[b]))
    };
    let (along, across) = (largest(along)?, largest(across)?);
    let ways = [Dof::X, Dof::Y, Dof::Z];
    let hold = |node: usize, dof: usize| Constraint {
        node,
        dof: ways[dof],
        value: 0.0,
    };
    let others = (0..3).filter(|&dof| dof != along);
    let held = (0..3).map(|dof| hold(first, dof));
    let held = held.chain(others.map(|dof| hold(second, dof)));
    Some(held.chain([hold(third, across)]).collect())
}

/// How far the nodes of each panel have moved since it was set.
struct Moved {
    /// By panel: its nodes, and their displacements.
    nodes: Vec<BTreeMap<usize, Vec3>>,
}

/// A plane laid through a panel as it stands.
#[derive(Clone, Copy)]
struct Plane {
    /// From the place farthest behind it to the one farthest ahead, m.
    bow: f64,
    /// How it has turned.
    turn: Vec3,
}

impl Moved {
    fn new(model: &Model, panels: usize) -> Self {
        let mut nodes = vec![BTreeMap::new(); panels];
        for (triangle, &panel) in model.mesh.triangles.iter().zip(&model.panel) {
            nodes[panel].extend(triangle.nodes.map(|node| (node, Vec3::ZERO)));
        }
        Self { nodes }
    }

    fn add(&mut self, part: &Part<'_>, displacements: &[[f64; 6]]) {
        let mut stands = vec![false; self.nodes.len()];
        for &triangle in &part.triangles {
            stands[part.model.panel[triangle]] = true;
        }
        let standing = self.nodes.iter_mut().zip(stands);
        for (own, _) in standing.filter(|(_, stands)| *stands) {
            for (node, sum) in own {
                let [x, y, z, ..] = displacements[*node];
                *sum += Vec3::new(x, y, z);
            }
        }
    }

    /// By least squares, for each panel.
    fn planes(&self, tank: &Tank<'_>, model: &Model) -> Vec<Plane> {
        let plane = |(panel, own): (usize, &BTreeMap<usize, Vec3>)| {
            let frame = tank.panels[panel].finished.frame;
            let points: Vec<[f64; 3]> = own
                .iter()
                .map(|(&node, moved)| {
                    let at = frame.flat_from_world(model.mesh.nodes[node]);
                    [at.x, at.y, moved.dot(frame.z)]
                })
                .collect();
            let [rise, along_x, along_y] = fitted(&points);
            let off = points
                .iter()
                .map(|[x, y, w]| w - (rise + along_x * x + along_y * y));
            let (low, high) = off.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
                (low.min(it), high.max(it))
            });
            Plane {
                bow: (high - low).max(0.0),
                turn: frame.x * along_y - frame.y * along_x,
            }
        };
        self.nodes.iter().enumerate().map(plane).collect()
    }
}

/// The plane `w = a + b x + c y` nearest to these points by least squares, about their middle.
fn fitted(points: &[[f64; 3]]) -> [f64; 3] {
    let count = points.len().max(1) as f64;
    let mean = |k: usize| points.iter().map(|it| it[k]).sum::<f64>() / count;
    let [x, y, w] = [0, 1, 2].map(mean);
    let sum = |a: usize, b: usize| {
        let middle = [x, y, w];
        let product = |it: &[f64; 3]| (it[a] - middle[a]) * (it[b] - middle[b]);
        points.iter().map(product).sum::<f64>()
    };
    let (xx, xy, yy, xw, yw) = (sum(0, 0), sum(0, 1), sum(1, 1), sum(0, 2), sum(1, 2));
    let determinant = xx * yy - xy * xy;
    if determinant <= 0.0 {
        return [w, 0.0, 0.0];
    }
    let (b, c) = (
        (xw * yy - yw * xy) / determinant,
        (yw * xx - xw * xy) / determinant,
    );
    [w - b * x - c * y, b, c]
}
