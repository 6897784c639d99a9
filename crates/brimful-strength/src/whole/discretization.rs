//! One mesh of the tank, and the load cases run on it.

use super::figures::Figures;
use super::filled::Filled;
use super::holding::Holding;
use super::loaded::{LoadedShell, with_modulus};
use super::midsurface::Midsurface;
use super::model::Model;
use super::reader::Reader;
use super::result::{Buckles, MeshSize, Picture};
use super::stability::{Buckling, Stability, stability};
use super::tank::Tank;
use super::weld::WeldedSeam;
use crate::load::{Heads, LoadKind, STANDARD_GRAVITY, level};
use brimful_mech::shell::model::Shell;
use brimful_mech::shell::nonlinear::{Prior, Report, Steps, carried_over, solve, solve_near};
use brimful_mech::shell::{Fault, State, System, Workspace};
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::NoModel;
use brimful_panels::liquid::{Compartment, moments_of_mass};
use brimful_panels::panel::{Panel, Role};
use brimful_panels::progress::Progress;
use rayon::prelude::*;
use std::sync::{Arc, Mutex, PoisonError};

/// Force left over as a share of the forces at work: far below what the mesh is off by.
const RESIDUAL_TOLERANCE: f64 = 1e-6;
/// A load that asks for more than this of anything is over any limit, whatever its width: nobody needs to
/// know whether it buckles too.
const OVER: f64 = 1.3;
/// A change that is only tried is given up early: what needs more than this is no cure.
pub const TRIAL_STEPS: Steps = Steps {
    first: 1.0,
    least: 0.5,
    iterations: 12,
    tolerance: RESIDUAL_TOLERANCE,
};

/// One mesh, ready to run cases on.
pub struct Discretization {
    pub model: Model,
    system: System,
    reader: Reader,
    heads: Vec<Heads>,
    /// Whether each node is one of a strip with free edges.
    on_strip: Vec<bool>,
    /// Of the brim-full liquid, N: the sheet weighs little beside it.
    weight: f64,
    pub steps: Steps,
    /// Room for factors that no load is using.
    spare: Mutex<Vec<Workspace>>,
}

/// Where a case comes to rest.
struct Equilibrium {
    state: State,
    report: Report,
}

/// What a case came to on a coarser mesh.
pub struct CoarseState {
    /// The mesh, as a shell.
    pub shell: Arc<Shell>,
    /// Where it came to rest.
    pub state: State,
    /// As in [`Answer`].
    pub is_clearly_stable: bool,
}

/// What a case begins with on this mesh.
#[derive(Clone, Default)]
struct Start {
    /// Where it is likely to come to rest.
    guess: Option<State>,
    is_clearly_stable: bool,
}

/// What one case gave on one mesh.
pub struct Answer {
    pub state: State,
    pub figures: Figures,
    /// Where it buckles, though its stresses are borne, under less than [`super::stability::STABILITY`] times the load.
    pub buckles: Option<Buckles>,
    /// Whether it does not by so much that a finer mesh need not be asked.
    pub is_clearly_stable: bool,
    pub report: Report,
    pub used: Vec<[f64; 3]>,
}

impl Answer {
    /// The worse of both, with the state of the one that asks most of a panel.
    fn or_worse(self, other: Self) -> Self {
        let is_other = other.figures.worst_panel() > self.figures.worst_panel();
        let (state, report, used) = match is_other {
            true => (other.state, other.report, other.used),
            false => (self.state, self.report, self.used),
        };
        Self {
            state,
            figures: self.figures.or_worse(other.figures),
            buckles: self.buckles.or(other.buckles),
            is_clearly_stable: self.is_clearly_stable && other.is_clearly_stable,
            report,
            used,
        }
    }
}

impl Discretization {
    pub fn new(
        tank: &Tank<'_>,
        midsurface: &Midsurface,
        sections: &[Option<WeldedSeam>],
        fineness: f64,
    ) -> Result<Self, NoModel> {
        let level = level(tank.job, tank.body.cavity.bounds().1.z);
        let model = Model::of(tank, midsurface, fineness, level)?;
        let stiff = with_modulus(&model.shell, 1.0, 0.0, 0.0);
        let system = System::new(&stiff).map_err(NoModel::Shell)?;
        let reader = Reader::new(tank, midsurface, &model, sections);
        let heads = |room: &Compartment| Heads::below(room.contents.density, &room.room, level);
        let rooms = tank.compartments.iter().filter(|room| room.holds_liquid());
        let brimful = moments_of_mass(rooms, Compartment::whole);
        Ok(Self {
            // The volume of moments of mass is mass.
            weight: brimful.volume * STANDARD_GRAVITY,
            heads: tank.compartments.iter().map(heads).collect(),
            on_strip: on_strip(tank, &model),
            model,
            system,
            reader,
            steps: Steps {
                tolerance: RESIDUAL_TOLERANCE,
                ..Steps::default()
            },
            spare: Mutex::default(),
        })
    }

    pub fn size(&self) -> MeshSize {
        MeshSize {
            triangles: self.model.mesh.triangles.len(),
            unknowns: self.system.unknowns(),
        }
    }

    /// Runs the wanted cases; an event comes on top of the first of those at rest, which is run with
    /// it. `known` is what each case came to on a coarser mesh, where the search begins.
    pub fn run(
        &self,
        cases: &[Filled],
        wanted: &[usize],
        known: &[Option<CoarseState>],
        progress: &dyn Progress,
    ) -> Vec<(usize, Result<Answer, Fault>)> {
        let start = |number: usize| match known.get(number) {
            Some(Some(known)) => Start {
                guess: carried_over(&known.shell, &known.state, &self.model.shell),
                is_clearly_stable: known.is_clearly_stable,
            },
            _ => Start::default(),
        };
        let kind = |number: usize| cases[number].case.id.kind;
        let (events, lasting): (Vec<usize>, Vec<usize>) = wanted
            .iter()
            .partition(|&&number| kind(number) == LoadKind::Event);
        let rest = (0..cases.len())
            .find(|&number| kind(number) == LoadKind::Rest)
            .filter(|_| !events.is_empty());
        let crept = || {
            let rest = rest?;
            Some(self.loaded(&cases[rest]).and_then(|loaded| {
                let start = start(rest);
                let found = self.equilibrium(&loaded, None, start.guess)?;
                Ok((loaded, found, start.is_clearly_stable))
            }))
        };
        let others = || -> Vec<_> {
            let others = lasting.par_iter().filter(|&&number| Some(number) != rest);
            others
                .map(|&number| {
                    let answer = unless_cancelled(progress, || {
                        self.case(&cases[number], None, &start(number))
                    });
                    (number, answer)
                })
                .collect()
        };
        let (crept, mut answers) = rayon::join(crept, others);
        if let Some((rest, crept)) = rest.zip(crept) {
            let on_top = |&number: &usize| {
                let (loaded, Equilibrium { state, .. }, _) =
                    crept.as_ref().map_err(Clone::clone)?;
                let prior = Prior {
                    shell: &loaded.shell,
                    load: &loaded.load,
                    state,
                };
                unless_cancelled(progress, || {
                    self.case(&cases[number], Some(&prior), &start(number))
                })
            };
            let read = || {
                let (loaded, found, is_clear) = crept.as_ref().map_err(Clone::clone)?;
                self.read(&cases[rest], loaded, None, found, *is_clear)
            };
            let on_top_of_it = || -> Vec<_> {
                let events = events.par_iter();
                events.map(|number| (*number, on_top(number))).collect()
            };
            let (of_rest, of_events) = rayon::join(read, on_top_of_it);
            answers.extend(of_events);
            answers.push((rest, of_rest));
        }
        answers.sort_by_key(|(number, _)| *number);
        answers
    }

    /// A case; with somebody on the lid, in each place in turn, as the worse of them.
    fn case(
        &self,
        filled: &Filled,
        prior: Option<&Prior<'_>>,
        start: &Start,
    ) -> Result<Answer, Fault> {
        let places = match filled.case.id.kind {
            LoadKind::OnLid => self.model.spots.len().max(1),
            _ => 1,
        };
        let in_place = |spot: usize| {
            let filled = Filled {
                spot,
                ..filled.clone()
            };
            let loaded = self.loaded(&filled)?;
            let found = self.equilibrium(&loaded, prior, start.guess.clone())?;
            self.read(&filled, &loaded, prior, &found, start.is_clearly_stable)
        };
        let first = in_place(0)?;
        (1..places).try_fold(first, |worst, spot| Ok(worst.or_worse(in_place(spot)?)))
    }

    fn read(
        &self,
        filled: &Filled,
        loaded: &LoadedShell,
        prior: Option<&Prior<'_>>,
        found: &Equilibrium,
        is_clearly_stable: bool,
    ) -> Result<Answer, Fault> {
        let Equilibrium { state, report } = found;
        let (figures, used) =
            self.reader
                .read(&self.model, loaded, &self.system, state, &filled.limits)?;
        let is_over = figures.worst_panel().max(figures.worst_seam()) > OVER;
        let stability = match is_clearly_stable {
            true => Some(Stability::Clear),
            false if is_over => None,
            false => Some(self.stability(loaded, prior, state)?),
        };
        Ok(Answer {
            state: state.clone(),
            figures,
            buckles: stability.and_then(|found| self.buckles(found)),
            is_clearly_stable: stability == Some(Stability::Clear),
            report: report.clone(),
            used,
        })
    }

    fn stability(
        &self,
        loaded: &LoadedShell,
        prior: Option<&Prior<'_>>,
        state: &State,
    ) -> Result<Stability, Fault> {
        let LoadedShell { shell, load, .. } = loaded;
        self.with_workspace(|workspace| {
            let (system, on_strip) = (&self.system, &self.on_strip);
            stability(shell, load, system, workspace, prior, state, on_strip)
        })
    }

    fn buckles(&self, stability: Stability) -> Option<Buckles> {
        let Stability::Buckles(Buckling { factor, node }) = stability else {
            return None;
        };
        let mesh = &self.model.mesh;
        let mut triangles = mesh.triangles.iter();
        let touches = triangles.position(|it| it.nodes.contains(&node));
        Some(Buckles {
            factor,
            panel: touches.map_or(0, |triangle| self.model.panel[triangle]),
            at: mesh.nodes[node],
        })
    }

    fn equilibrium(
        &self,
        loaded: &LoadedShell,
        prior: Option<&Prior<'_>>,
        guess: Option<State>,
    ) -> Result<Equilibrium, Fault> {
        let LoadedShell { shell, load, .. } = loaded;
        let (system, steps) = (&self.system, &self.steps);
        let (state, report) = self.with_workspace(|workspace| match guess {
            Some(guess) => solve_near(shell, system, workspace, load, prior, &guess, steps),
            None => solve(shell, system, workspace, load, prior, steps),
        })?;
        Ok(Equilibrium { state, report })
    }

    /// Works with room that an earlier load has left, or with new room: the system's memory for a factor is touched
    /// once a mesh and not once a load.
    fn with_workspace<T>(
        &self,
        work: impl FnOnce(&mut Workspace) -> Result<T, Fault>,
    ) -> Result<T, Fault> {
        let spare = || self.spare.lock().unwrap_or_else(PoisonError::into_inner);
        let left = spare().pop();
        let mut workspace = match left {
            Some(workspace) => workspace,
            None => Workspace::new(&self.system)?,
        };
        let done = work(&mut workspace);
        spare().push(workspace);
        done
    }

    fn loaded(&self, filled: &Filled) -> Result<LoadedShell, Fault> {
        LoadedShell::of(&self.model, filled, &self.heads, self.weight)
    }

    /// How each of the cases is held; one whose load cannot be made is left out.
    pub fn holdings(&self, cases: &[Filled]) -> Vec<(CaseId, Holding)> {
        let holding = |filled: &Filled| Some((filled.case.id, self.loaded(filled).ok()?.holding));
        cases.iter().filter_map(holding).collect()
    }

    /// The mesh with the lasting case that asks most of it.
    pub fn picture(
        &self,
        cases: &[Filled],
        answers: &[(usize, Result<Answer, Fault>)],
    ) -> Option<Picture> {
        let lasting = answers
            .iter()
            .filter(|(case, _)| cases[*case].case.creeps());
        let (case, answer) = lasting
            .filter_map(|(case, answer)| answer.as_ref().ok().map(|answer| (*case, answer)))
            .max_by(|(_, a), (_, b)| a.figures.worst_panel().total_cmp(&b.figures.worst_panel()))?;
        let filled = &cases[case];
        let LoadedShell { shell, load, .. } = self.loaded(filled).ok()?;
        Some(Picture {
            case: filled.case.id,
            shell,
            load,
            panel: self.model.panel.clone(),
            moved: answer
                .state
                .displacements
                .iter()
                .map(|d| [d[0], d[1], d[2]])
                .collect(),
            used: answer.used.clone(),
        })
    }
}

/// Whether each node is one of a stay, of a rib, or of a baffle that is held along two lines alone, with free
/// edges between them.
fn on_strip(tank: &Tank<'_>, model: &Model) -> Vec<bool> {
    let lines = |panel: usize| {
        let own = tank
            .seams
            .iter()
            .filter(|seam| seam.panels.contains(&panel));
        own.count()
    };
    let is_strip = |(number, panel): (usize, &Panel)| match panel.role {
        Role::Rib | Role::Stay => true,
        Role::Baffle => lines(number) <= 2,
        Role::Floor | Role::Wall | Role::Lid | Role::Divider => false,
    };
    let strips: Vec<bool> = tank.panels.iter().enumerate().map(is_strip).collect();
    let mut on_strip = vec![false; model.mesh.nodes.len()];
    for (triangle, &panel) in model.mesh.triangles.iter().zip(&model.panel) {
        if strips[panel] {
            triangle
                .nodes
                .iter()
                .for_each(|&node| on_strip[node] = true);
        }
    }
    on_strip
}

/// The work, or a fault where nobody wants it any more.
fn unless_cancelled(
    progress: &dyn Progress,
    work: impl FnOnce() -> Result<Answer, Fault>,
) -> Result<Answer, Fault> {
    if progress.is_cancelled() {
        let what = "the check was cancelled".to_owned();
        return Err(Fault::Solver { what });
    }
    work()
}
