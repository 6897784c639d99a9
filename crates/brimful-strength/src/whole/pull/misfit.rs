//! What keeps a flat sheet from its place: edges that welds have drawn out of line, or in over where it ends.
//!
//! The sheet is bent to the edges as they stand and these are taken not to give way, so that the force is rather too
//! large. It is that which, put where the edges stand off most, does the work that the bent sheet holds.

use super::super::figures::face_stress;
use super::super::loaded::with_modulus;
use super::bench::Bench;
use super::displacement::{Offset, PanelDisplacements, fitted};
use brimful_geom::vector::Vec3;
use brimful_mech::shell::linear::solve;
use brimful_mech::shell::model::{Constraint, Dof, Load, Resultants, Shell};
use brimful_mech::shell::recover::resultants;
use brimful_mech::shell::{System, Workspace};
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::table::material::{Duration, Material};
use brimful_units::{Force, Length, Temperature};
use std::collections::{BTreeMap, BTreeSet};

/// Edges that are off by less are drawn to each other by the tacks: half a millimetre, a thick feeler gauge, common
/// practice.
const DRAWN_BY_TACKS: Length = Length::from_mm(0.5);
/// A workshop.
const ROOM: Temperature = Temperature::from_degc(20.0);

/// A panel that does not fit what stands when it is set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Misfit {
    /// Number of the panel.
    pub panel: usize,
    /// How far the edges that it ends between have come in over its own, the least, the likely and the greatest; none
    /// where that is no more than tacks draw together.
    pub inward: Option<[Length; 3]>,
    /// What springs it to the edges that it lies over; none where they are that flat.
    pub sprung: Option<Sprung>,
}

/// A panel that has to be bent to the edges that it lies over: the least, the likely and the greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sprung {
    /// How far they lie off a plane.
    pub gap: [Length; 3],
    /// The force that brings them together, for the short while until it is tacked.
    pub force: [Force; 3],
    /// The strain that nearly all of the sheet stays below.
    pub strain: [f64; 3],
    /// The strain that a lasting load may cause in this material.
    pub allowed: f64,
}

/// A panel as it is set, for a strain of one.
#[derive(Clone, Debug)]
pub(super) struct SetPanel {
    panel: usize,
    /// The nodes that it lies over, and how far each is off its plane along its normal, m.
    off: BTreeMap<usize, f64>,
    /// The farthest that an edge has come in over it, m.
    inward: f64,
}

impl SetPanel {
    /// A panel before it is tacked. `pressed_back` is how what stands had moved when it was last pressed back to where a panel
    /// that was set belongs.
    pub(super) fn of(
        bench: &Bench<'_>,
        panel: usize,
        standing: &[bool],
        moved: &PanelDisplacements,
        pressed_back: &PanelDisplacements,
    ) -> Self {
        let frame = bench.tank.panels[panel].finished.frame;
        let mut off: BTreeMap<usize, f64> = BTreeMap::new();
        let mut edges: Vec<Edge> = Vec::new();
        for (number, other) in bench.met_by(panel).filter(|it| standing[it.1]) {
            let seam = &bench.tank.seams[number];
            let outward = outward(bench, panel, number);
            for node in bench.nodes_on(number) {
                let both = moved.of(other, node).zip(pressed_back.of(other, node));
                let Some((moved, before)) = both else {
                    continue;
                };
                if lies_over(seam, panel) {
                    off.insert(node, moved.dot(frame.z));
                }
                if ends_at(seam, panel) {
                    let since = moved - before;
                    edges.push(Edge {
                        at: bench.model.mesh.nodes[node].to_vec(),
                        moved: since - frame.z * since.dot(frame.z),
                        outward,
                    });
                }
            }
        }
        let place = |node: usize, off: f64| {
            let at = frame.flat_from_world(bench.model.mesh.nodes[node]);
            Offset {
                counts: 1.0,
                at: [at.x, at.y],
                off,
            }
        };
        let places: Vec<Offset> = off.iter().map(|(&node, &off)| place(node, off)).collect();
        let [rise, along_x, along_y] = fitted(&places);
        for (own, place) in off.values_mut().zip(&places) {
            *own -= rise + along_x * place.at[0] + along_y * place.at[1];
        }
        Self {
            inward: come_in(&edges, frame.z),
            panel,
            off,
        }
    }

    fn gap(&self) -> f64 {
        let ends = self.off.values().fold((0.0_f64, 0.0_f64), |ends, it| {
            (ends.0.min(*it), ends.1.max(*it))
        });
        ends.1 - ends.0
    }
}

/// Whether a panel lies over the edge of the other at a seam, so that it is bent where that is drawn out of line.
fn lies_over(seam: &Seam, panel: usize) -> bool {
    match seam.joint {
        Joint::ThroughAndButt { through } => through == panel,
        Joint::Tee | Joint::SlotThrough => seam.panels[1] == panel,
        Joint::OpenCorner | Joint::Mitred | Joint::Butt => true,
    }
}

/// Whether it ends at the other, so that it has no room where that has come in.
fn ends_at(seam: &Seam, panel: usize) -> bool {
    match seam.joint {
        Joint::ThroughAndButt { through } => through != panel,
        Joint::Tee | Joint::SlotThrough => seam.panels[0] == panel,
        Joint::OpenCorner | Joint::Mitred | Joint::Butt => true,
    }
}

/// Those that are off by more than tacks draw together.
pub(super) fn misfits(
    bench: &Bench<'_>,
    set: &[SetPanel],
    material: Material,
    strain: [f64; 3],
) -> Vec<Misfit> {
    let shows = |off: f64| Length::from_m(strain[2] * off) > DRAWN_BY_TACKS;
    let misfit = |set: &SetPanel| Misfit {
        panel: set.panel,
        inward: shows(set.inward).then(|| strain.map(|it| Length::from_m(it * set.inward))),
        sprung: shows(set.gap())
            .then(|| sprung(bench, set, material, strain))
            .flatten(),
    };
    let misfits = set.iter().map(misfit);
    misfits
        .filter(|it| it.inward.is_some() || it.sprung.is_some())
        .collect()
}

fn sprung(
    bench: &Bench<'_>,
    set: &SetPanel,
    material: Material,
    strain: [f64; 3],
) -> Option<Sprung> {
    let modulus = material.short_modulus(ROOM).ok()?.value.pa();
    let poisson = material.poisson(Duration::Short).ok()?.value;
    let allowed = material.design_strain().ok()?.value;
    let whole = with_modulus(&bench.shell, modulus, poisson, 0.0);
    let numbers = 0..whole.triangles.len();
    let own = numbers.filter(|&it| bench.model.panel[it] == set.panel);
    let triangles: Vec<_> = own.map(|it| whole.triangles[it]).collect();
    let nodes: BTreeSet<usize> = triangles.iter().flat_map(|it| it.nodes).collect();
    let normal = bench.tank.panels[set.panel].finished.frame.z;
    let held = set.off.iter().filter(|(node, _)| nodes.contains(node));
    let moved = held.map(|(&node, off)| (node, normal * *off)).collect();
    let bent = bent(Shell { triangles, ..whole }, moved)?;
    let gap = set.gap();
    let (force, most) = (2.0 * bent.energy / gap, bent.stress / modulus);
    Some(Sprung {
        gap: strain.map(|it| Length::from_m(it * gap)),
        force: strain.map(|it| Force::from_n(it * force)),
        strain: strain.map(|it| it * most),
        allowed,
    })
}

/// The way out of a panel across the line of one of its seams.
fn outward(bench: &Bench<'_>, panel: usize, seam: usize) -> Vec3 {
    let [from, to] = bench.tank.seams[seam].inner_line;
    let along = (to - from).unit().unwrap_or(Vec3::X);
    let into = bench.into(panel, seam, along);
    into.unit().map_or(along, |way| -way)
}

/// A place of an edge that a panel is set to.
#[derive(Clone, Copy)]
struct Edge {
    at: Vec3,
    /// How it has moved in the panel's plane, m for a strain of one.
    moved: Vec3,
    /// The way out of the panel there.
    outward: Vec3,
}

/// The farthest that any edge has come in, once the panel has been shifted and turned in its plane to lie between them as
/// evenly as it can, by least squares.
fn come_in(edges: &[Edge], normal: Vec3) -> f64 {
    let count = edges.len().max(1) as f64;
    let mean = |of: &dyn Fn(&Edge) -> Vec3| {
        let sum = edges.iter().fold(Vec3::ZERO, |sum, edge| sum + of(edge));
        sum / count
    };
    let (middle, shift) = (mean(&|edge| edge.at), mean(&|edge| edge.moved));
    let arm = |edge: &Edge| normal.cross(edge.at - middle);
    let (turned, spread) = edges.iter().fold((0.0, 0.0), |(turned, spread), edge| {
        let arm = arm(edge);
        (turned + arm.dot(edge.moved), spread + arm.dot(arm))
    });
    let turn = if spread > 0.0 { turned / spread } else { 0.0 };
    let inward = edges.iter().map(|edge| {
        let left = edge.moved - shift - arm(edge) * turn;
        -left.dot(edge.outward)
    });
    inward.fold(0.0, f64::max)
}

/// A sheet that is bent.
struct Bent {
    /// What it holds, J.
    energy: f64,
    /// The stress of its faces that all but [`KINKS`] of it stays below, Pa.
    stress: f64,
}

/// The share of a sheet that is left out where it is strained most. At an inside corner, whose two edges are held to walls that lean
/// apart, the greatest stress has no bound: on a mesh twice as fine it doubles. What all but half a per cent stays below goes with
/// the thickness there, as in bending, and grows by an eighth on four tanks of five, by 0.6 on the fifth.
const KINKS: f64 = 0.005;

/// A flat sheet whose nodes in `moved` are held where they have moved to, m; none where that leaves it loose.
fn bent(sheet: Shell, mut moved: BTreeMap<usize, Vec3>) -> Option<Bent> {
    moved.extend(against_tipping(&sheet, &moved));
    let shell = Shell {
        constraints: moved
            .iter()
            .flat_map(|(&node, by)| put(node, *by))
            .collect(),
        ..sheet
    };
    let system = System::new(&shell).ok()?;
    let mut workspace = Workspace::new(&system).ok()?;
    let load = Load::default();
    let loads = std::slice::from_ref(&load);
    let states = solve(&shell, &system, &mut workspace, loads).ok()?;
    let state = states.first()?;
    let stresses = resultants(&shell, &system, &load, state).ok()?;
    let stresses = stresses.iter().zip(&shell.triangles);
    let faces = stresses.map(|(corners, triangle)| {
        // In the middle of a triangle, where moments are most true.
        let mean = |k: usize| corners.iter().map(|it| it.moment[k]).sum::<f64>() / 3.0;
        let middle = Resultants {
            force: [0.0; 3],
            moment: [0, 1, 2].map(mean),
        };
        let [a, b, c] = triangle.nodes.map(|node| shell.nodes[node]);
        let area = (b - a).cross(c - a).length() / 2.0;
        (
            face_stress(&middle, shell.plates[triangle.plate].thickness),
            area,
        )
    });
    Some(Bent {
        energy: state.energy,
        stress: that_most_stay_below(faces.collect()),
    })
}

/// The stress that all but [`KINKS`] of these areas stay below.
fn that_most_stay_below(mut faces: Vec<(f64, f64)>) -> f64 {
    faces.sort_by(|a, b| b.0.total_cmp(&a.0));
    let all: f64 = faces.iter().map(|it| it.1).sum();
    let mut over = 0.0;
    let level = faces.iter().find(|(_, area)| {
        over += area;
        over > KINKS * all
    });
    level.map_or(0.0, |it| it.0)
}

/// Held along one line alone a sheet would tip about it: the node farthest from that line stays.
fn against_tipping(sheet: &Shell, moved: &BTreeMap<usize, Vec3>) -> Option<(usize, Vec3)> {
    /// Nodes are on one line where none is farther from it than this share of its length.
    const ON_LINE: f64 = 1e-6;
    let at = |node: usize| sheet.nodes[node];
    let first = *moved.keys().next()?;
    let by_distance = |a: &&usize, b: &&usize| {
        at(first)
            .distance(at(**a))
            .total_cmp(&at(first).distance(at(**b)))
    };
    let last = *moved.keys().max_by(by_distance)?;
    let way = at(last) - at(first);
    let off = |node: usize| (at(node) - at(first)).cross(way).length();
    let is_on_line = |node: &usize| off(*node) <= ON_LINE * way.dot(way);
    if !moved.keys().all(is_on_line) {
        return None;
    }
    let nodes = sheet.triangles.iter().flat_map(|it| it.nodes);
    let farthest = nodes.max_by(|&a, &b| off(a).total_cmp(&off(b)))?;
    Some((farthest, Vec3::ZERO))
}

/// Holds a node where it has moved to.
fn put(node: usize, moved: Vec3) -> [Constraint; 3] {
    let ways = [(Dof::X, moved.x), (Dof::Y, moved.y), (Dof::Z, moved.z)];
    ways.map(|(dof, value)| Constraint { node, dof, value })
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_geom::vector::Point3;
    use brimful_mech::shell::model::{Plate, Triangle};

    const SIDES: [f64; 2] = [0.6, 0.4];
    const CELLS: usize = 8;
    const THICKNESS: f64 = 8e-3;
    const MODULUS: f64 = 1e9;
    const POISSON: f64 = 0.4;

    fn sheet() -> Shell {
        let node = |i: usize, j: usize| j * (CELLS + 1) + i;
        let place = |i: usize, j: usize| {
            let along = |k: usize, side: f64| side * k as f64 / CELLS as f64;
            Point3::new(along(i, SIDES[0]), along(j, SIDES[1]), 0.0)
        };
        let cells = (0..CELLS).flat_map(|j| (0..CELLS).map(move |i| (i, j)));
        Shell {
            nodes: (0..=CELLS)
                .flat_map(|j| (0..=CELLS).map(move |i| place(i, j)))
                .collect(),
            triangles: cells
                .flat_map(|(i, j)| {
                    let [a, b] = [node(i, j), node(i + 1, j)];
                    let [d, c] = [node(i, j + 1), node(i + 1, j + 1)];
                    [[a, b, c], [a, c, d]].map(|nodes| Triangle { nodes, plate: 0 })
                })
                .collect(),
            plates: vec![Plate {
                thickness: THICKNESS,
                modulus: MODULUS,
                poisson: POISSON,
                density: 0.0,
                expansion: 0.0,
                twist: 1.0,
                axis: Vec3::X,
            }],
            ..Shell::default()
        }
    }

    /// The nodes of the outline at these heights.
    fn moved(sheet: &Shell, height: impl Fn(Point3) -> f64) -> BTreeMap<usize, Vec3> {
        let on_outline = |at: &Point3| {
            let is_end = |value: f64, side: f64| value < 1e-9 || value > side - 1e-9;
            is_end(at.x, SIDES[0]) || is_end(at.y, SIDES[1])
        };
        let nodes = sheet.nodes.iter().enumerate();
        let own = nodes.filter(|(_, at)| on_outline(at));
        own.map(|(node, at)| (node, Vec3::Z * height(*at)))
            .collect()
    }

    /// Edges drawn to a hyperbolic paraboloid `w = k x y` twist a sheet evenly, with no moment at its edges: moment
    /// `D (1 - nu) k`, energy `D (1 - nu) k^2` an area (S. Timoshenko and S. Woinowsky-Krieger, *Theory of Plates and
    /// Shells*, art. 11, pure twist; from memory). The elements hold a constant twist exactly.
    #[test]
    fn a_twisted_sheet_holds_what_theory_says() {
        let sheet = sheet();
        let twist = 0.05;
        let moved = moved(&sheet, |at| twist * at.x * at.y);
        let bent = bent(sheet, moved).unwrap();
        let stiffness = MODULUS * THICKNESS.powi(3) / (12.0 * (1.0 - POISSON * POISSON));
        let moment = stiffness * (1.0 - POISSON) * twist;
        let energy = moment * twist * SIDES[0] * SIDES[1];
        assert!((bent.energy / energy - 1.0).abs() < 1e-6, "{}", bent.energy);
        // Twist alone: principal stresses of opposite signs, of which von Mises makes the root of three.
        let stress = 3.0_f64.sqrt() * 6.0 * moment / THICKNESS.powi(2);
        assert!((bent.stress / stress - 1.0).abs() < 1e-6, "{}", bent.stress);
    }

    #[test]
    fn a_sheet_held_along_one_line_does_not_tip() {
        let sheet = sheet();
        let on_line = |(node, at): (usize, &Point3)| {
            let height = 1e-3 * (at.x / SIDES[0] * std::f64::consts::PI).sin();
            (at.y == 0.0).then_some((node, Vec3::Z * height))
        };
        let moved = sheet.nodes.iter().enumerate().filter_map(on_line).collect();
        let bent = bent(sheet, moved).unwrap();
        assert!(bent.energy > 0.0 && bent.energy.is_finite());
    }

    /// Two walls that lean in by a tenth of a millimetre each leave no room for that much on either side; both shifted
    /// alike leave it all.
    #[test]
    fn what_has_come_in_is_found_whatever_has_shifted() {
        let edge = |x: f64, y: f64, moved: f64, way: f64| Edge {
            at: Vec3::new(x, y, 0.0),
            moved: Vec3::X * moved,
            outward: Vec3::X * way,
        };
        let both = |left: f64, right: f64| {
            let places = [0.0, 0.2, 0.4];
            let of = |x: f64, moved: f64, way: f64| places.map(|y| edge(x, y, moved, way));
            [of(0.0, left, -1.0), of(0.6, right, 1.0)].concat()
        };
        assert!((come_in(&both(1e-4, -1e-4), Vec3::Z) - 1e-4).abs() < 1e-12);
        assert!(come_in(&both(1e-4, 1e-4), Vec3::Z).abs() < 1e-12);
    }
}
