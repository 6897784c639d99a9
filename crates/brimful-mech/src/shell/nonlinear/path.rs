//! The way from the first load to the last, and the balance of forces anywhere on it.

use super::motion::Motion;
use crate::shell::corotation::{Moved, from_world, square_to_world};
use crate::shell::element::{Column, Square, Stiffness, pressure_forces, pressure_weights};
use crate::shell::factor::{Workspace, scatter};
use crate::shell::fault::Fault;
use crate::shell::linear::{add_force, element, inner};
use crate::shell::loading::fixed_forces;
use crate::shell::model::{Bar, Load, Shell};
use crate::shell::small::{add, dot, row, scale, spin, sub};
use crate::shell::state::{InitialStress, State};
use crate::shell::support::{
    AxialForce, add_bar, add_direction, add_springs, axial_force, pressed,
};
use crate::shell::system::{NONE, System};

/// A state that a new load starts from.
#[derive(Clone, Copy, Debug)]
pub struct Prior<'a> {
    /// The shell as it was stiff then, with the same nodes, triangles and bars.
    pub shell: &'a Shell,
    /// What it bore.
    pub load: &'a Load,
    /// How it bore that.
    pub state: &'a State,
}

/// The way from one load to another.
pub(crate) struct Path {
    fixed: [Vec<[f64; 6]>; 2],
    pressures: [Vec<[f64; 3]>; 2],
    stiffness: Vec<Stiffness>,
    /// Forces at both ends that the deformation does not make: those of initial strain and of initial
    /// stress; none where there is neither.
    initial: [Vec<Column>; 2],
    /// Stress that triangles keep from the prior state.
    pub initial_stress: Vec<InitialStress>,
    /// Values of the constraints at both ends.
    pub constraints: [Vec<f64>; 2],
}

/// Forces on the nodes at one place on the way.
#[derive(Clone)]
pub(crate) struct Balance {
    /// What acts less what resists, supports among what resists.
    pub residual: Vec<[f64; 6]>,
    /// What supports have to put on each node for balance.
    pub unsupported: Vec<[f64; 6]>,
    /// What acts from outside.
    pub external: Vec<[f64; 6]>,
    /// Elastic energy.
    pub energy: f64,
    /// Which contacts push.
    pub closed: Vec<bool>,
    /// Largest displacement along any axis, m.
    pub farthest: f64,
    /// The triangles as they stand; none where no tangent was asked for.
    pub moved: Vec<Moved>,
}

/// Which contacts stiffen the tangent.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Touching {
    /// Those that push or just touch.
    Closed,
    /// All: a first guess for a shell that nothing else holds.
    All,
}

/// What a tangent is made of beside the place.
pub(crate) struct Tangent<'a> {
    pub workspace: &'a mut Workspace,
    pub touching: Touching,
    pub acting: Acting<'a>,
}

impl Tangent<'_> {
    /// Adds springs and the contacts that touch.
    fn add_supports(&mut self, shell: &Shell, system: &System, motion: &Motion) {
        add_springs(self.workspace, system, shell);
        for contact in &shell.contacts {
            let touches = pressed(contact, motion.shifts[contact.node]) >= 0.0;
            if touches || self.touching == Touching::All {
                add_direction(
                    self.workspace,
                    system,
                    contact.node,
                    row(contact.push),
                    contact.stiffness,
                );
            }
        }
    }
}

/// The forces in the triangles that their motion's tangent is made with.
#[derive(Clone, Copy)]
pub(crate) enum Acting<'a> {
    /// Those of the deformation as it is, and of initial strain and stress at this share of the way.
    At(f64),
    /// These.
    Expected(&'a [Column]),
}

/// Sums over triangles and bars.
struct Sums {
    internal: Vec<[f64; 6]>,
    external: Vec<[f64; 6]>,
    energy: f64,
    moved: Vec<Moved>,
}

impl Sums {
    fn add_bar(&mut self, bar: &Bar, force: &AxialForce) {
        self.energy += 0.5 * force.tension * (force.lengths.1 - force.lengths.0);
        let [from, to] = bar.nodes;
        let tension = |sign: f64| scale(force.along, sign * force.tension);
        add_force(&mut self.internal[from], tension(-1.0));
        add_force(&mut self.internal[to], tension(1.0));
    }

    fn balance(self, shell: &Shell, motion: &Motion) -> Balance {
        let forces = self.internal.iter().zip(&self.external);
        let unsupported: Vec<[f64; 6]> = forces
            .map(|(i, e)| std::array::from_fn(|k| i[k] - e[k]))
            .collect();
        let shifts = motion.shifts.iter().flatten();
        let farthest = shifts.fold(0.0_f64, |m, v| m.max(v.abs()));
        let (residual, closed) = with_supports(shell, motion, &unsupported);
        Balance {
            residual,
            unsupported,
            external: self.external,
            energy: self.energy,
            closed,
            farthest,
            moved: self.moved,
        }
    }
}

impl Path {
    pub fn new(
        shell: &Shell,
        system: &System,
        load: &Load,
        prior: Option<&Prior>,
    ) -> Result<Self, Fault> {
        let nothing = Load::default();
        let first = prior.map_or(&nothing, |p| p.load);
        let count = shell.triangles.len();
        if let Some(p) = prior {
            let alike = p.shell.triangles == shell.triangles && p.shell.nodes == shell.nodes;
            if !alike || p.state.displacements.len() != shell.nodes.len() {
                return Err(Fault::Input {
                    what: "A prior state belongs to another mesh.".into(),
                });
            }
        }
        let filled = |list: &[[f64; 3]]| {
            if list.is_empty() {
                vec![[0.0; 3]; count]
            } else {
                list.to_vec()
            }
        };
        let held =
            |node: usize, dof: usize| prior.map_or(0.0, |p| p.state.displacements[node][dof]);
        let stresses = prior.map_or(Vec::new(), |prior| initial_stress(shell, system, prior));
        Ok(Self {
            fixed: [
                fixed_forces(shell, system, first)?,
                fixed_forces(shell, system, load)?,
            ],
            pressures: [filled(&first.pressures), filled(&load.pressures)],
            stiffness: (0..count)
                .map(|number| element(shell, system, number).stiffness())
                .collect(),
            initial: initial_forces(shell, system, [first, load], &stresses),
            initial_stress: stresses,
            constraints: [
                shell
                    .constraints
                    .iter()
                    .map(|h| held(h.node, h.dof as usize))
                    .collect(),
                shell.constraints.iter().map(|h| h.value).collect(),
            ],
        })
    }

    /// The balance of forces at a share `at` of the way; with a workspace also the tangent.
    pub fn balance(
        &self,
        shell: &Shell,
        system: &System,
        motion: &Motion,
        at: f64,
        mut tangent: Option<Tangent>,
    ) -> Balance {
        let fixed = self.fixed[0].iter().zip(&self.fixed[1]);
        let mut sums = Sums {
            internal: vec![[0.0; 6]; shell.nodes.len()],
            external: fixed
                .map(|(a, b)| std::array::from_fn(|i| between(a[i], b[i], at)))
                .collect(),
            energy: 0.0,
            moved: Vec::new(),
        };
        if let Some(Tangent { workspace, .. }) = &mut tangent {
            workspace.clear();
            sums.moved.reserve(shell.triangles.len());
        }
        for (number, triangle) in shell.triangles.iter().enumerate() {
            let moved = moved(shell, system, number, motion);
            self.add_triangle(&mut sums, &triangle.nodes, number, &moved, at);
            if let Some(tangent) = &mut tangent {
                self.add_stiffness(tangent, system, &triangle.nodes, number, &moved, at);
                sums.moved.push(moved);
            }
        }
        for (number, bar) in shell.bars.iter().enumerate() {
            let force = axial_force(shell, bar, bar.nodes.map(|n| motion.shifts[n]), true);
            sums.add_bar(bar, &force);
            if let Some(Tangent { workspace, .. }) = &mut tangent {
                add_bar(workspace, system, number, bar, &force, true);
            }
        }
        if let Some(mut tangent) = tangent {
            tangent.add_supports(shell, system, motion);
        }
        sums.balance(shell, motion)
    }

    /// Adds a triangle's resistance and the pressure on it.
    fn add_triangle(
        &self,
        sums: &mut Sums,
        nodes: &[usize; 3],
        number: usize,
        moved: &Moved,
        at: f64,
    ) {
        let mut forces = self.stiffness[number].forces(&moved.deformation);
        sums.energy += 0.5 * inner(&forces, &moved.deformation);
        if let Some(initial) = self.initial_forces(number, at) {
            sums.energy -= inner(&initial, &moved.deformation);
            for (f, i) in forces.iter_mut().zip(&initial) {
                *f -= i;
            }
        }
        let resistance = moved.to_world(&moved.balanced(&forces));
        scatter(nodes, &resistance, &mut sums.internal);
        let pushed = pressure_forces(&moved.flat, &self.pressure(number, at));
        scatter(nodes, &moved.to_world(&pushed), &mut sums.external);
    }

    /// Adds a triangle's tangent.
    fn add_stiffness(
        &self,
        tangent: &mut Tangent,
        system: &System,
        nodes: &[usize; 3],
        number: usize,
        moved: &Moved,
        at: f64,
    ) {
        let acting = match tangent.acting {
            Acting::At(place) => self.forces(number, &moved.deformation, place),
            Acting::Expected(expected) => expected[number],
        };
        let mut stiffness = moved.tangent(&self.stiffness[number].square(), &acting);
        let pressure = self.pressure(number, at);
        let pushed = pressure_forces(&moved.flat, &pressure);
        add_pressure_stiffness(&mut stiffness, moved, &pressure, &pushed);
        let stiffness = square_to_world(&moved.axes, &stiffness);
        tangent
            .workspace
            .add_triangle(system, number, *nodes, &stiffness);
    }

    /// Forces in the triangles as they would be after a further move, were that move small.
    ///
    /// To use these in the next tangent, and not those that come with the finite move, spares
    /// Newton's method the stretch that a finite rotation feigns (the mixed point of Magisano,
    /// Leonetti, Garcea, *Advantages of the mixed format in geometrically nonlinear analysis of
    /// beams and shells*, Int. J. Numer. Meth. Engng 109 (2017) 1237-1262, from memory).
    pub fn expected(
        &self,
        shell: &Shell,
        system: &System,
        balance: &Balance,
        at: f64,
        column: &[f64],
        share: f64,
    ) -> Vec<Column> {
        let after = |(number, moved): (usize, &Moved)| {
            let mut change = [0.0; 18];
            for (corner, &node) in shell.triangles[number].nodes.iter().enumerate() {
                for (dof, &equation) in system.equations[node].iter().enumerate() {
                    if equation != NONE {
                        change[6 * corner + dof] = share * column[equation as usize];
                    }
                }
            }
            let rate = moved.rate(&from_world(&moved.axes, &change));
            let deformation = std::array::from_fn(|i| moved.deformation[i] + rate[i]);
            self.forces(number, &deformation, at)
        };
        balance.moved.iter().enumerate().map(after).collect()
    }

    fn pressure(&self, number: usize, at: f64) -> [f64; 3] {
        let [a, b] = [&self.pressures[0][number], &self.pressures[1][number]];
        std::array::from_fn(|i| between(a[i], b[i], at))
    }

    /// Forces in a triangle.
    fn forces(&self, number: usize, deformation: &Column, at: f64) -> Column {
        let mut forces = self.stiffness[number].forces(deformation);
        if let Some(initial) = self.initial_forces(number, at) {
            for (f, i) in forces.iter_mut().zip(&initial) {
                *f -= i;
            }
        }
        forces
    }

    /// Forces in a triangle that the deformation does not make, if there are any in the shell.
    fn initial_forces(&self, number: usize, at: f64) -> Option<Column> {
        let [a, b] = [self.initial[0].get(number)?, self.initial[1].get(number)?];
        Some(std::array::from_fn(|i| between(a[i], b[i], at)))
    }
}

/// Forces at the loads at both ends that the deformation does not make, by triangle.
fn initial_forces(
    shell: &Shell,
    system: &System,
    loads: [&Load; 2],
    stresses: &[InitialStress],
) -> [Vec<Column>; 2] {
    if stresses.is_empty() && loads.iter().all(|load| load.initial_strains.is_empty()) {
        return [Vec::new(), Vec::new()];
    }
    loads.map(|load| {
        let of = |number: usize| {
            let strain = load.initial_strains.get(number);
            let mut forces = strain.map_or([0.0; 18], |strain| {
                element(shell, system, number).initial_strain_forces(strain)
            });
            if let Some(stresses) = stresses.get(number) {
                for (force, k) in forces.iter_mut().zip(&stresses.forces) {
                    *force += k;
                }
            }
            forces
        };
        (0..shell.triangles.len()).map(of).collect()
    })
}

/// A triangle after the motion of its nodes.
pub(crate) fn moved(shell: &Shell, system: &System, number: usize, motion: &Motion) -> Moved {
    let triangle = shell.triangles[number];
    let plane = &system.planes[number];
    // Seen from the first corner, so that the shell's own place costs no digits.
    let [origin, ..] = triangle.nodes;
    let places = triangle.nodes.map(|n| {
        let apart = (shell.nodes[n] - shell.nodes[origin]).to_array();
        add(apart, sub(motion.shifts[n], motion.shifts[origin]))
    });
    Moved::new(plane, &places, triangle.nodes.map(|n| &motion.rotations[n]))
}

/// Pressure grows with the area and turns with the triangle.
fn add_pressure_stiffness(out: &mut Square, moved: &Moved, pressure: &[f64; 3], forces: &Column) {
    if *pressure == [0.0; 3] {
        return;
    }
    let weights = pressure_weights(pressure);
    let flat = &moved.flat;
    for i in 0..3 {
        let moment = spin([forces[6 * i + 3], forces[6 * i + 4], 0.0]);
        for j in 0..3 {
            let (k, l) = ((j + 1) % 3, (j + 2) % 3);
            let opposite = spin([flat.x[l] - flat.x[k], flat.y[l] - flat.y[k], 0.0]);
            for r in 0..3 {
                for c in 0..3 {
                    out[6 * i + r][6 * j + c] -= 0.5 * weights[i] * opposite[r][c];
                    out[6 * i + 3 + r][6 * j + c] += (0..3)
                        .map(|a| moment[r][a] * moved.turn_by(a, j, c))
                        .sum::<f64>();
                }
            }
        }
    }
}

/// Takes off what springs and contacts put on the nodes.
fn with_supports(
    shell: &Shell,
    motion: &Motion,
    unsupported: &[[f64; 6]],
) -> (Vec<[f64; 6]>, Vec<bool>) {
    let mut residual: Vec<[f64; 6]> = unsupported.iter().map(|f| f.map(|v| -v)).collect();
    for spring in &shell.springs {
        let stretched = dot(row(spring.direction), motion.shifts[spring.node]);
        add_force(
            &mut residual[spring.node],
            scale(row(spring.direction), -spring.stiffness * stretched),
        );
    }
    let mut closed = Vec::with_capacity(shell.contacts.len());
    for contact in &shell.contacts {
        let depth = pressed(contact, motion.shifts[contact.node]);
        closed.push(depth > 0.0);
        add_force(
            &mut residual[contact.node],
            scale(row(contact.push), contact.stiffness * depth.max(0.0)),
        );
    }
    (residual, closed)
}

/// What each triangle keeps: what its deformation would ask for now, less what it asked for then.
fn initial_stress(shell: &Shell, system: &System, prior: &Prior) -> Vec<InitialStress> {
    let motion = Motion::of(prior.shell, Some(prior.state));
    (0..shell.triangles.len())
        .map(|number| {
            let moved = moved(shell, system, number, &motion);
            let now = element(shell, system, number);
            let then = element(prior.shell, system, number);
            let strain = prior.load.initial_strains.get(number);
            let strain = &strain.copied().unwrap_or_default();
            let earlier = prior.state.initial_stress.get(number);
            let (f, g) = (
                now.forces(&moved.deformation),
                then.forces(&moved.deformation),
            );
            let (ff, fg) = (
                now.initial_strain_forces(strain),
                then.initial_strain_forces(strain),
            );
            let (r, s) = (
                now.resultants(&moved.deformation),
                then.resultants(&moved.deformation),
            );
            let (fr, fs) = (
                now.initial_strain_resultants(strain),
                then.initial_strain_resultants(strain),
            );
            let mut out = InitialStress {
                forces: std::array::from_fn(|i| f[i] - ff[i] - g[i] + fg[i]),
                resultants: r,
            };
            for corner in 0..3 {
                for k in 0..3 {
                    let o = &mut out.resultants[corner];
                    o.force[k] += -fr.force[k] - s[corner].force[k] + fs.force[k];
                    o.moment[k] += -fr.moment[k] - s[corner].moment[k] + fs.moment[k];
                }
            }
            if let Some(earlier) = earlier {
                for (o, e) in out.forces.iter_mut().zip(&earlier.forces) {
                    *o += e;
                }
                for (o, e) in out.resultants.iter_mut().zip(&earlier.resultants) {
                    for k in 0..3 {
                        o.force[k] += e.force[k];
                        o.moment[k] += e.moment[k];
                    }
                }
            }
            out
        })
        .collect()
}

fn between(a: f64, b: f64, at: f64) -> f64 {
    a + (b - a) * at
}
