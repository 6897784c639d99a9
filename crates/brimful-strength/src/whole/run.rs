//! Every load case on one mesh or more, and what they say of each other.
//!
//! The tank at rest creeps for years; an event comes on top of that, with what has crept kept and
//! the stiffness of seconds (`Prior` of the engine). All other cases start from the empty tank.

use super::cover::covers;
use super::damage::narrow_sum;
use super::discretization::{Answer, CoarseState, Discretization, TRIAL_STEPS};
use super::displacement::{Displacement, Mesh};
use super::figures::Figures;
use super::filled::{Filled, filled_cases};
use super::holding::not_held;
use super::mesh_growth::MeshGrowth;
use super::midsurface::Midsurface;
use super::part::Part;
use super::result::{CaseRun, ERROR, FINER, Score, Whole, growth_of};
use super::tank::Tank;
use super::verdict::Verdict;
use super::weld::WeldedSeam;
use crate::load::LoadKind;
use brimful_mech::shell::nonlinear::Steps;
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::NoScore;
use brimful_panels::progress::Step;
use brimful_panels::weld::SeamWeld;
use brimful_units::Length;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Elements across a flat in the first mesh; the later ones are finer by [`FINER`] each.
const FIRST: f64 = 6.0;
/// Meshes at most; of a tank that is over its limits without doubt, [`MESHES_IF_OVER`].
const MOST_MESHES: usize = 3;
/// What is mended first changes all else: two meshes tell what is next closely enough.
const MESHES_IF_OVER: usize = 2;

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
    verdict.findings.extend(covers(tank, &cases));
    let sections = sections(tank, welds);
    let midsurface = match Midsurface::of(tank.body, tank.panels, tank.seams) {
        Ok(midsurface) => midsurface,
        Err(fault) => return verdict.no_model(fault),
    };
    let (mut meshes, mut supports, mut holdings) = (Vec::new(), Vec::new(), Vec::new());
    let mut runs: Vec<Option<CaseRun>> = vec![None; cases.len()];
    let mut displacements: Vec<Option<Displacement>> = vec![None; cases.len()];
    let mut picture = None;
    let mut known: Vec<Option<CoarseState>> = cases.iter().map(|_| None).collect();
    let mut wanted: Vec<usize> = (0..cases.len()).collect();
    let mut without_answer = BTreeSet::new();
    let mut finest = None;
    let mut most_meshes = MOST_MESHES;
    let mesh_of = |number: usize| {
        let fineness = FIRST * FINER.powi(number as i32);
        Discretization::new(tank, &midsurface, &sections, fineness)
    };
    let mut prepared = None;
    while !wanted.is_empty() && !tank.progress.is_cancelled() {
        // Once there are no more meshes the finest takes the loads that have still to be run on it.
        if meshes.len() < most_meshes {
            match prepared.take().unwrap_or_else(|| mesh_of(meshes.len())) {
                Ok(discretization) => {
                    meshes.push(discretization.size());
                    finest = Some(discretization);
                }
                Err(fault) => return verdict.no_model(fault),
            }
        }
        let Some(discretization) = &finest else { break };
        let number = meshes.len() - 1;
        supports = discretization.model.supports();
        if holdings.is_empty() {
            holdings = discretization.holdings(&cases);
        }
        tank.progress.step(Step::Strength {
            loads: wanted.len(),
            triangles: discretization.size().triangles,
        });
        // The many loads on the first mesh keep every core at work; later ones leave some for the next mesh.
        let is_next_likely = number > 0 && meshes.len() < most_meshes;
        let (answers, next) = rayon::join(
            || discretization.run(&cases, &wanted, &known, tank.progress),
            || is_next_likely.then(|| mesh_of(meshes.len())),
        );
        prepared = next;
        let shell = Arc::new(discretization.model.shell.clone());
        let mesh = Arc::new(Mesh::of(&discretization.model));
        for (case, answer) in &answers {
            match answer {
                Ok(answer) => {
                    let before = runs[*case].take();
                    runs[*case] = Some(case_run(&cases[*case], answer, before, number));
                    displacements[*case] = Some(Displacement::new(
                        cases[*case].case.id,
                        &mesh,
                        &answer.state,
                        &answer.used,
                    ));
                    known[*case] = Some(CoarseState {
                        shell: Arc::clone(&shell),
                        state: answer.state.clone(),
                        is_clearly_stable: answer.is_clearly_stable,
                    });
                }
                Err(fault) => {
                    without_answer.insert(*case);
                    verdict.fault(&cases[*case].case, fault, &discretization.model);
                }
            }
        }
        picture = discretization.picture(&cases, &answers).or(picture);
        let done = done(&runs);
        most_meshes = match is_over_without_doubt(&done) {
            true => MESHES_IF_OVER,
            false => MOST_MESHES,
        };
        wanted = unsettled(&done);
        wanted.retain(|case| {
            let run = runs[*case].as_ref();
            let is_coarse = run.is_some_and(|run| run.mesh + 1 < most_meshes);
            is_coarse && !without_answer.contains(case)
        });
    }
    let runs: Vec<CaseRun> = runs.into_iter().flatten().collect();
    verdict.judge(&runs);
    verdict.findings.extend(not_held(&holdings));
    Whole {
        cases: runs,
        meshes,
        supports,
        unanswered: verdict.unanswered,
        picture,
        displacements: displacements.into_iter().flatten().collect(),
        findings: verdict.findings,
    }
}

/// Tries a tank under the load cases in `wanted` (all, where it is empty), on the first mesh alone:
/// for choosing between changes. Events come after what lasts, rest among it, and are not run where
/// that is over a limit already.
///
/// # Errors
/// Why it has no score: a case that is not covered, or has no equilibrium.
pub fn trial(tank: &Tank<'_>, welds: &[SeamWeld], wanted: &[CaseId]) -> Result<Score, NoScore> {
    scored(tank, welds, wanted, FIRST, Some(TRIAL_STEPS))
}

/// As [`trial`], on one mesh of so many elements across each flat and as patiently as [`whole`], whose
/// meshes have 6, 9 and 13.5: for judging the error that it states.
///
/// # Errors
/// As [`trial`].
pub fn on_mesh(
    tank: &Tank<'_>,
    welds: &[SeamWeld],
    wanted: &[CaseId],
    fineness: f64,
) -> Result<Score, NoScore> {
    scored(tank, welds, wanted, fineness, None)
}

fn scored(
    tank: &Tank<'_>,
    welds: &[SeamWeld],
    wanted: &[CaseId],
    fineness: f64,
    steps: Option<Steps>,
) -> Result<Score, NoScore> {
    let all = filled_cases(tank)
        .into_iter()
        .collect::<Result<Vec<Filled>, _>>()
        .map_err(|(case, reason)| NoScore::CaseNotCovered(case.id, reason))?;
    let batches = lasting_and_events(&all, wanted)?;
    let midsurface =
        Midsurface::of(tank.body, tank.panels, tank.seams).map_err(NoScore::NoModel)?;
    let sections = sections(tank, welds);
    let mut discretization =
        Discretization::new(tank, &midsurface, &sections, fineness).map_err(NoScore::NoModel)?;
    if let Some(steps) = steps {
        discretization.steps = steps;
    }
    let mut score = Score {
        panel: 0.0,
        seam: 0.0,
        bulge: Length::ZERO,
        buckles: false,
    };
    let mut known: Vec<Option<CoarseState>> = all.iter().map(|_| None).collect();
    let shell = Arc::new(discretization.model.shell.clone());
    for batch in batches {
        if score.panel > 1.0 || score.seam > 1.0 || batch.is_empty() {
            continue;
        }
        for (case, answer) in discretization.run(&all, &batch, &known, tank.progress) {
            let answer = answer.map_err(|fault| NoScore::NoAnswer(all[case].case.id, fault))?;
            let buckles = answer.buckles.is_some();
            score = score.and(Score::of(&answer.figures, buckles, tank.panels));
            known[case] = Some(CoarseState {
                shell: Arc::clone(&shell),
                state: answer.state,
                is_clearly_stable: answer.is_clearly_stable,
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

fn sections(tank: &Tank<'_>, welds: &[SeamWeld]) -> Vec<Option<WeldedSeam>> {
    let seams = tank.seams.iter().enumerate();
    let of_seam = |(number, seam)| WeldedSeam::of(number, seam, tank, welds);
    seams.map(of_seam).collect()
}

fn case_run(filled: &Filled, answer: &Answer, before: Option<CaseRun>, mesh: usize) -> CaseRun {
    let earlier = before.map_or(Vec::new(), |before| {
        let mut earlier = before.earlier;
        // Rest is found again under every event: the same figures of the same mesh would say that nothing
        // is left of its error.
        if before.mesh < mesh {
            earlier.push(before.figures);
        }
        earlier
    });
    let steps = &answer.report.steps;
    CaseRun {
        case: filled.case.clone(),
        limits: filled.limits.clone(),
        figures: answer.figures.clone(),
        earlier,
        buckles: answer.buckles,
        steps: steps.len(),
        iterations: steps.iter().map(|step| step.iterations).sum(),
        residual: steps.iter().map(|step| step.residual).fold(0.0, f64::max),
        mesh,
    }
}

/// The cases to be run on a finer mesh: those that govern and whose error is still too large, and those
/// in which something may be over its limit or not, alone or by what it adds to the others, also where something
/// else is over: what is mended next is reported at once, and nothing is mended without need. How far something is
/// over that is over without doubt is not worked out any closer.
fn unsettled(done: &[(usize, &CaseRun)]) -> Vec<usize> {
    let growth = growth_of(done.iter().map(|(_, run)| *run));
    let narrow = that_ask_most(done, &growth);
    let narrow_sums = in_narrow_sums(done, &growth);
    let governing = that_govern(done).into_iter();
    let wanted: BTreeSet<usize> = governing.chain(narrow).chain(narrow_sums).collect();
    wanted.into_iter().collect()
}

fn done(runs: &[Option<CaseRun>]) -> Vec<(usize, &CaseRun)> {
    let numbered = runs.iter().enumerate();
    numbered
        .filter_map(|(number, run)| Some((number, run.as_ref()?)))
        .collect()
}

/// Whether anything is over its limit whatever finer meshes may take off.
fn is_over_without_doubt(done: &[(usize, &CaseRun)]) -> bool {
    let mut done = done.iter();
    done.any(|(_, run)| Part::all(&run.figures).any(|it| run.is_over_without_doubt(it)))
}

/// The cases with the greatest bulge, and the greatest use of a panel and of a seam, as far as their error is
/// too large; of a tank that is over its limits without doubt, none.
fn that_govern(done: &[(usize, &CaseRun)]) -> Vec<usize> {
    if is_over_without_doubt(done) {
        return Vec::new();
    }
    type Kind = (fn(&Figures) -> f64, fn(&CaseRun) -> f64);
    let kinds: [Kind; 3] = [
        (Figures::worst_bulge, CaseRun::bulge_error),
        (Figures::worst_panel, CaseRun::panel_error),
        (Figures::worst_seam, CaseRun::seam_error),
    ];
    let governing = kinds.iter().filter_map(|(value, error)| {
        let by = |(_, run): &&(usize, &CaseRun)| value(&run.figures);
        let (number, run) = done.iter().max_by(|a, b| by(a).total_cmp(&by(b)))?;
        (value(&run.figures).is_finite() && error(run) > ERROR).then_some(*number)
    });
    governing.collect()
}

/// For each part that may be over its limit or not the case that asks most of it, of those that were run on one
/// mesh and of the others: what a finer mesh adds there is taken to be alike for the rest ([`MeshGrowth`]).
fn that_ask_most(done: &[(usize, &CaseRun)], growth: &MeshGrowth) -> Vec<usize> {
    let is_over = |part: Part| {
        let mut done = done.iter();
        done.any(|(_, run)| run.is_over_without_doubt(part))
    };
    let mut most: BTreeMap<(Part, bool), (usize, f64)> = BTreeMap::new();
    for (number, run) in done {
        // What is over its limit under any load is stopped by that.
        for undecided in run.undecided(growth).filter(|it| !is_over(it.part)) {
            let place = (undecided.part, run.earlier.is_empty());
            let own = most.entry(place).or_insert((*number, 0.0));
            if undecided.at_most > own.1 {
                *own = (*number, undecided.at_most);
            }
        }
    }
    most.into_values().map(|(number, _)| number).collect()
}

/// Cases that may bring a sum of damage over one by what their meshes are not sure of: of each sum the one
/// that takes most.
fn in_narrow_sums(done: &[(usize, &CaseRun)], growth: &MeshGrowth) -> Vec<usize> {
    let runs: Vec<&CaseRun> = done.iter().map(|(_, run)| *run).collect();
    let Some(first) = runs.first() else {
        return Vec::new();
    };
    let mut wanted = Vec::new();
    for part in Part::all(&first.figures) {
        let Some(most) = narrow_sum(&runs, part, growth) else {
            continue;
        };
        let unsure = most.shares.iter().find_map(|(id, _)| {
            let mut done = done.iter();
            done.find(|(_, run)| run.case.id == *id && run.doubt(part, growth) > 1.0)
        });
        wanted.extend(unsure.map(|(number, _)| *number));
    }
    wanted
}
