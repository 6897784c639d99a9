//! Every load case on one mesh or more, and what they say of each other.
//!
//! The tank at rest creeps for years; an event comes on top of that, with what has crept kept and
//! the stiffness of seconds (`Prior` of the engine). All other cases start from the empty tank.

use super::figures::Figures;
use super::filled::{Filled, filled_cases};
use super::middle::Middle;
use super::model::Tank;
use super::moved::{Mesh, Moved};
use super::stage::{Answer, Known, SHORT, Stage};
use super::support::BearerId;
use super::verdict::Verdict;
use super::weld::Section;
use crate::case::CaseId;
use crate::check::limit::Limits;
use crate::check::load::{LoadCase, LoadKind, STANDARD_GRAVITY};
use crate::finding::Finding;
use crate::finding::kind::NoScore;
use crate::panel::Panel;
use crate::progress::Step;
use crate::weld::SeamWeld;
use brimful_mech::shell::model::{Load, Shell};
use brimful_units::{Length, Mass};
use std::collections::BTreeSet;
use std::sync::Arc;

/// Elements across a flat in the first mesh; the later ones are finer by [`FINER`] each.
const FIRST: f64 = 6.0;
/// How much finer each mesh is than the one before.
const FINER: f64 = 1.5;
/// Meshes at most.
const MOST_MESHES: usize = 3;
/// The error of a governing figure at which the verdict stands: 3 % by the design of the check.
const ERROR: f64 = 0.03;
/// A use on the first mesh alone is trusted up to this share of the limit; what asks for more is run
/// on a finer one. On the examples the last mesh gives up to 1.75 times what the first does (feet of
/// baffles, walls between close bands), so half leaves room.
const ONE_MESH: f64 = 0.5;
/// The lowest and highest order at which figures are taken to converge: stresses at notches with the
/// first, displacements and smooth stresses with the second, as the published cases show.
const ORDERS: [f64; 2] = [1.0, 2.0];

/// What the whole-tank check computed, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Whole {
    /// Every load case, on the finest mesh it was run on.
    pub cases: Vec<CaseRun>,
    /// Triangles and unknowns of the meshes, coarse to fine.
    pub meshes: Vec<MeshSize>,
    /// What carries the tank.
    pub supports: Vec<BearerId>,
    /// The finest mesh, for pictures.
    pub picture: Option<Picture>,
    /// How it stands under each load, in the order of `cases`.
    pub moved: Vec<Moved>,
    /// Load cases that no answer was found for, or none that could be looked for.
    pub unanswered: usize,
    /// What it says.
    pub findings: Vec<Finding>,
}

impl Whole {
    /// The worst of all load cases; none where there is none.
    pub fn score(&self) -> Option<Score> {
        let worst = |of: fn(&Figures) -> f64| {
            let all = self.cases.iter().map(|run| of(&run.figures));
            all.reduce(f64::max)
        };
        Some(Score {
            panel: worst(Figures::worst_panel)?,
            seam: worst(Figures::worst_seam)?,
            bulge: Length::from_m(worst(Figures::worst_bulge)?),
        })
    }

    /// Whether every load is borne, by more than the meshes may be off by.
    pub fn holds(&self) -> bool {
        let sure = |run: &CaseRun| run.holds() && run.unsure().is_none();
        self.unanswered == 0 && !self.cases.is_empty() && self.cases.iter().all(sure)
    }

    /// The run of a load case.
    pub fn case(&self, id: CaseId) -> Option<&CaseRun> {
        self.cases.iter().find(|run| run.case.id == id)
    }

    /// What presses on each support.
    pub fn on_supports(&self) -> impl Iterator<Item = OnSupport> {
        self.supports
            .iter()
            .enumerate()
            .filter_map(|(number, support)| {
                let presses = |run: &CaseRun| run.figures.reactions[number];
                let rest = self
                    .cases
                    .iter()
                    .find(|run| run.case.id.kind == LoadKind::Rest)?;
                let mut cases = self.cases.iter();
                let first = cases.next()?;
                let most = cases.fold(first, |most, run| {
                    if presses(run) > presses(most) {
                        run
                    } else {
                        most
                    }
                });
                Some(OnSupport {
                    support: *support,
                    at_rest: weighing(presses(rest)),
                    most: weighing(presses(most)),
                    load: most.case.id,
                })
            })
    }
}

/// What presses on one support, as the mass that would at rest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnSupport {
    /// Which.
    pub support: BearerId,
    /// Under the brim-full tank at rest; of a strap its tension.
    pub at_rest: Mass,
    /// The most under any load.
    pub most: Mass,
    /// Under which.
    pub load: CaseId,
}

/// How large a mesh is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeshSize {
    /// Triangles.
    pub triangles: usize,
    /// Unknowns.
    pub unknowns: usize,
}

/// One load case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseRun {
    /// The load case.
    pub case: LoadCase,
    /// What it may take.
    pub limits: Limits,
    /// What panels and seams get, on the finest mesh it was run on.
    pub figures: Figures,
    /// The same on the coarser meshes it was run on before, coarse to fine.
    pub earlier: Vec<Figures>,
    /// Load steps and iterations.
    pub steps: usize,
    /// Newton iterations, all together.
    pub iterations: usize,
    /// Force left over, as a share of the forces at work.
    pub residual: f64,
    /// Number of the mesh, counted from the coarsest.
    pub mesh: usize,
}

impl CaseRun {
    /// Estimated relative error of the greatest bulge.
    pub fn bulge_error(&self) -> f64 {
        self.error(Figures::worst_bulge)
    }

    /// Estimated relative error of the greatest use of any panel.
    pub fn panel_error(&self) -> f64 {
        self.error(Figures::worst_panel)
    }

    /// Estimated relative error of the greatest use of any seam.
    pub fn seam_error(&self) -> f64 {
        self.error(Figures::worst_seam)
    }

    /// Estimated relative error of a figure, from two or three meshes (L. F. Richardson 1911,
    /// extrapolation; from memory); infinite where there was only one.
    pub(super) fn error(&self, of: impl Fn(&Figures) -> f64) -> f64 {
        let row: Vec<f64> = self.earlier.iter().chain([&self.figures]).map(of).collect();
        off(&row)
    }

    /// Whether no panel and no seam asks for more than it has.
    pub(super) fn holds(&self) -> bool {
        self.figures.worst_panel() <= 1.0 && self.figures.worst_seam() <= 1.0
    }

    /// Of the panels and seams that pass by less than the mesh is sure of, the one that may ask for
    /// most.
    pub(super) fn unsure(&self) -> Option<Narrow> {
        let panels = (0..self.figures.panels.len())
            .map(|i| (Part::Panel(i), self.figures.panels[i].utilisation));
        let seams = self
            .figures
            .seams
            .iter()
            .map(|seam| (Part::Seam(seam.seam), seam.utilisation));
        panels
            .chain(seams)
            .filter(|(_, used)| *used <= 1.0)
            .map(|(part, used)| Narrow {
                part,
                used,
                error: self.error(|figures| part.used(figures)),
            })
            .filter(|narrow| !narrow.is_sure())
            .max_by(|a, b| a.at_most().total_cmp(&b.at_most()))
    }
}

/// A panel or a seam, by its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Panel(usize),
    Seam(usize),
}

impl Part {
    fn used(self, figures: &Figures) -> f64 {
        match self {
            Self::Panel(number) => figures.panels[number].utilisation,
            Self::Seam(number) => {
                let own = figures.seams.iter().find(|seam| seam.seam == number);
                own.map_or(0.0, |seam| seam.utilisation)
            }
        }
    }
}

/// A use under its limit, and how sure it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Narrow {
    pub part: Part,
    pub used: f64,
    pub error: f64,
}

impl Narrow {
    /// What it may be at most. One mesh alone is not trusted beyond [`ONE_MESH`].
    pub fn at_most(&self) -> f64 {
        if self.error.is_finite() {
            self.used * (1.0 + self.error)
        } else {
            self.used / ONE_MESH
        }
    }

    /// Whether the mesh is sure enough that it passes.
    fn is_sure(&self) -> bool {
        self.at_most() <= 1.0 || self.error <= ERROR
    }
}

/// The last mesh with the lasting load that asks most of it, for pictures and for whoever wants to
/// compute it again. An event is none: it comes on top of what has crept.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The case it is of.
    pub case: CaseId,
    /// The shell; its plates are the flats, outer panels first.
    pub shell: Shell,
    /// What presses on it.
    pub load: Load,
    /// Panel of each triangle.
    pub panel: Vec<usize>,
    /// Displacement of each node, m.
    pub moved: Vec<[f64; 3]>,
    /// Use of the sheet at the corners of each triangle: stress over allowed.
    pub used: Vec<[f64; 3]>,
}

fn weighing(newtons: f64) -> Mass {
    Mass::from_kg(newtons / STANDARD_GRAVITY)
}

/// Checks the whole tank.
pub fn whole(tank: &Tank<'_>, welds: &[SeamWeld]) -> Whole {
    let mut verdict = Verdict::new(tank);
    let mut cases = Vec::new();
    for filled in filled_cases(tank) {
        match filled {
            Ok(filled) => cases.push(filled),
            Err((case, reason)) => verdict.case_not_covered(&case, &reason),
        }
    }
    let sections = sections(tank, welds);
    let middle = match Middle::of(tank.body, tank.panels, tank.seams) {
        Ok(middle) => middle,
        Err(fault) => return verdict.no_model(fault),
    };
    let (mut meshes, mut supports) = (Vec::new(), Vec::new());
    let mut runs: Vec<Option<CaseRun>> = vec![None; cases.len()];
    let mut moved: Vec<Option<Moved>> = vec![None; cases.len()];
    let mut picture = None;
    let mut known: Vec<Option<Known>> = cases.iter().map(|_| None).collect();
    let mut wanted: Vec<usize> = (0..cases.len()).collect();
    for number in 0..MOST_MESHES {
        let fineness = FIRST * FINER.powi(number as i32);
        let stage = match Stage::new(tank, &middle, &sections, fineness) {
            Ok(stage) => stage,
            Err(fault) => return verdict.no_model(fault),
        };
        meshes.push(stage.size());
        supports = stage.model.bearers.ids();
        tank.progress.step(Step::Strength {
            loads: wanted.len(),
            triangles: stage.size().triangles,
        });
        let answers = stage.run(&cases, &wanted, &known, tank.progress);
        let shell = Arc::new(stage.model.shell.clone());
        let mesh = Arc::new(Mesh::of(&stage.model));
        for (case, answer) in &answers {
            match answer {
                Ok(answer) => {
                    let before = runs[*case].take();
                    runs[*case] = Some(case_run(&cases[*case], answer, before, number));
                    moved[*case] = Some(Moved::new(cases[*case].case.id, &mesh, answer));
                    known[*case] = Some(Known {
                        shell: Arc::clone(&shell),
                        state: answer.state.clone(),
                    });
                }
                Err(fault) => verdict.fault(&cases[*case].case, fault, &stage.model),
            }
        }
        picture = stage.picture(&cases, &answers).or(picture);
        wanted = unsettled(&runs);
        if wanted.is_empty() || tank.progress.is_cancelled() {
            break;
        }
    }
    let runs: Vec<CaseRun> = runs.into_iter().flatten().collect();
    verdict.judge(&runs);
    Whole {
        cases: runs,
        meshes,
        supports,
        unanswered: verdict.unanswered,
        picture,
        moved: moved.into_iter().flatten().collect(),
        findings: verdict.findings,
    }
}

/// What the worst of some load cases do to a tank, on the first mesh.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// Greatest use of a panel: stress over allowed.
    pub panel: f64,
    /// Greatest use of a seam.
    pub seam: f64,
    /// Furthest that an outer panel moves square to itself.
    pub bulge: Length,
}

impl Score {
    fn of(figures: &Figures, panels: &[Panel]) -> Self {
        let both = figures.panels.iter().zip(panels);
        let outer = both.filter(|(_, panel)| panel.role.is_outer());
        let moves = outer.map(|(figure, _)| figure.outward.max(-figure.inward));
        Self {
            panel: figures.worst_panel(),
            seam: figures.worst_seam(),
            bulge: Length::from_m(moves.fold(0.0, f64::max)),
        }
    }

    /// The worst of both.
    fn and(self, other: Self) -> Self {
        Self {
            panel: self.panel.max(other.panel),
            seam: self.seam.max(other.seam),
            bulge: self.bulge.max(other.bulge),
        }
    }
}

/// Tries a tank under the load cases in `wanted` (all, where it is empty), on the first mesh alone:
/// for choosing between changes. Events come after what lasts, rest among it, and are not run where
/// that is over a limit already.
///
/// # Errors
/// Why it has no score: a case that is not covered, or has no equilibrium.
pub fn trial(tank: &Tank<'_>, welds: &[SeamWeld], wanted: &[CaseId]) -> Result<Score, NoScore> {
    let all = filled_cases(tank)
        .into_iter()
        .collect::<Result<Vec<Filled>, _>>()
        .map_err(|(case, reason)| NoScore::CaseNotCovered(case.id, reason))?;
    let batches = lasting_and_events(&all, wanted)?;
    let middle = Middle::of(tank.body, tank.panels, tank.seams).map_err(NoScore::NoModel)?;
    let sections = sections(tank, welds);
    let mut stage = Stage::new(tank, &middle, &sections, FIRST).map_err(NoScore::NoModel)?;
    stage.steps = SHORT;
    let mut score = Score {
        panel: 0.0,
        seam: 0.0,
        bulge: Length::ZERO,
    };
    let mut known: Vec<Option<Known>> = all.iter().map(|_| None).collect();
    let shell = Arc::new(stage.model.shell.clone());
    for batch in batches {
        if score.panel > 1.0 || score.seam > 1.0 || batch.is_empty() {
            continue;
        }
        for (case, answer) in stage.run(&all, &batch, &known, tank.progress) {
            let answer = answer.map_err(|fault| NoScore::NoAnswer(all[case].case.id, fault))?;
            score = score.and(Score::of(&answer.figures, tank.panels));
            known[case] = Some(Known {
                shell: Arc::clone(&shell),
                state: answer.state,
            });
        }
    }
    Ok(score)
}

/// Numbers of the wanted load cases, those that last apart from events; rest is among the first where
/// there are events, which come on top of it.
fn lasting_and_events(all: &[Filled], wanted: &[CaseId]) -> Result<[Vec<usize>; 2], NoScore> {
    let stands = |id: &CaseId| all.iter().any(|filled| filled.case.id.stands_for(id));
    if all.is_empty() || !wanted.iter().all(stands) {
        return Err(NoScore::CaseGone);
    }
    let is_wanted = |filled: &Filled| {
        let mut ids = wanted.iter();
        wanted.is_empty() || ids.any(|id| filled.case.id.stands_for(id))
    };
    let is_event = |number: usize| all[number].case.id.kind == LoadKind::Event;
    let wanted = (0..all.len()).filter(|&number| is_wanted(&all[number]));
    let (events, mut lasting): (Vec<usize>, Vec<usize>) = wanted.partition(|&it| is_event(it));
    if !events.is_empty() {
        let rest = all
            .iter()
            .position(|it| it.case.id.kind == LoadKind::Rest)
            .ok_or(NoScore::EventWithoutRest)?;
        if !lasting.contains(&rest) {
            lasting.push(rest);
        }
    }
    Ok([lasting, events])
}

fn sections(tank: &Tank<'_>, welds: &[SeamWeld]) -> Vec<Option<Section>> {
    tank.seams
        .iter()
        .enumerate()
        .map(|(number, seam)| Section::of(number, seam, tank.panels, welds))
        .collect()
}

fn case_run(filled: &Filled, answer: &Answer, before: Option<CaseRun>, mesh: usize) -> CaseRun {
    let earlier = before.map_or(Vec::new(), |before| {
        let mut earlier = before.earlier;
        earlier.push(before.figures);
        earlier
    });
    let steps = &answer.report.steps;
    CaseRun {
        case: filled.case.clone(),
        limits: filled.limits.clone(),
        figures: answer.figures.clone(),
        earlier,
        steps: steps.len(),
        iterations: steps.iter().map(|step| step.iterations).sum(),
        residual: steps.iter().map(|step| step.residual).fold(0.0, f64::max),
        mesh,
    }
}

/// How far the last of a row of figures on finer and finer meshes may still be off, as a share of
/// it: by the order at which the row converges where three meshes tell it, else by the lowest.
fn off(row: &[f64]) -> f64 {
    let change = |i: usize| row[i] - row[i - 1];
    let n = row.len();
    if n < 2 {
        return f64::INFINITY;
    }
    if change(n - 1) == 0.0 {
        return 0.0;
    }
    let order = if n > 2 {
        let told = (change(n - 2) / change(n - 1)).abs().ln() / FINER.ln();
        told.clamp(ORDERS[0], ORDERS[1])
    } else {
        ORDERS[0]
    };
    (change(n - 1) / row[n - 1]).abs() / (FINER.powf(order) - 1.0)
}

/// The cases to be run on a finer mesh: those that govern and whose error is still too large, and,
/// as long as nothing is over its limit, those in which something passes by less than the mesh is
/// sure of.
fn unsettled(runs: &[Option<CaseRun>]) -> Vec<usize> {
    type Kind = (fn(&Figures) -> f64, fn(&CaseRun) -> f64);
    let kinds: [Kind; 3] = [
        (Figures::worst_bulge, CaseRun::bulge_error),
        (Figures::worst_panel, CaseRun::panel_error),
        (Figures::worst_seam, CaseRun::seam_error),
    ];
    let done: Vec<(usize, &CaseRun)> = runs
        .iter()
        .enumerate()
        .filter_map(|(number, run)| Some((number, run.as_ref()?)))
        .collect();
    let governing = kinds.iter().filter_map(|(value, error)| {
        let by = |(_, run): &&(usize, &CaseRun)| value(&run.figures);
        let (number, run) = done.iter().max_by(|a, b| by(a).total_cmp(&by(b)))?;
        (value(&run.figures).is_finite() && error(run) > ERROR).then_some(*number)
    });
    let holds = done.iter().all(|(_, run)| run.holds());
    let narrow = done
        .iter()
        .filter(|(_, run)| holds && run.unsure().is_some())
        .map(|(number, _)| *number);
    let wanted: BTreeSet<usize> = governing.chain(narrow).collect();
    wanted.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A figure that nears 1 with the second order: `1 + h^2`.
    #[test]
    fn the_error_of_a_row_is_what_is_left() {
        let row: Vec<f64> = (0..3).map(|i| 1.0 + FINER.powi(-2 * i)).collect();
        let left = (row[2] - 1.0) / row[2];
        assert!((off(&row) - left).abs() < 1e-12);
        assert!(
            off(&row[..2]) > (row[1] - 1.0) / row[1],
            "two meshes are trusted less"
        );
        assert!(off(&row[..1]).is_infinite());
    }

    #[test]
    fn what_passes_narrowly_is_not_sure() {
        let sure = |used, error| {
            let part = Part::Panel(0);
            Narrow { part, used, error }.is_sure()
        };
        assert!(sure(0.49, f64::INFINITY) && !sure(0.51, f64::INFINITY));
        assert!(sure(0.95, 0.04) && !sure(0.95, 0.06));
        assert!(
            sure(0.99, 0.02),
            "three per cent is sure enough by the design of the check"
        );
    }
}
