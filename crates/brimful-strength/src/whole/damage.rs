//! Loads of different length and warmth on one panel or seam add up.
//!
//! Miner's rule as the creep standards of plastics use it (EN ISO 13760, scope seen; the sum from memory):
//! each load takes the share `time / life at its stress` of what there is, and the shares add up to no
//! more than one. The stresses are the worst of a panel or seam in each load, wherever in it they are,
//! so that the sum is never too small. What lasts all the years, whatever the tilt and fill, is counted
//! once, at its worst; so is an event, whichever way it pushes.

use super::mesh_growth::MeshGrowth;
use super::part::Part;
use super::result::CaseRun;
use crate::limit::Life;
use crate::load::LoadKind;
use brimful_panels::case::CaseId;
use brimful_units::Pressure;
use std::borrow::Borrow;
use std::collections::BTreeMap;

/// What all loads together take of a panel or seam.
#[derive(Clone, Debug, PartialEq)]
pub struct Damage {
    /// By what all stresses could grow until the shares add up to one, inverted: 1 where they do.
    pub used: f64,
    /// The loads that take more than a thousandth, most first, with the share each takes.
    pub shares: Vec<(CaseId, f64)>,
}

/// A load on one part.
struct Load<'a> {
    id: CaseId,
    stress: Pressure,
    life: &'a Life,
    seconds: f64,
}

impl Load<'_> {
    /// The share that it takes where its stress is `scale` times what it is.
    fn share(&self, scale: f64) -> f64 {
        self.seconds / self.life.of(self.stress * scale).s()
    }
}

/// Shares below this are not told.
const TOLD: f64 = 1e-3;

/// What all loads take of a part; none where nothing loads it or it is far from adding up to one.
pub fn damage<R: Borrow<CaseRun>>(runs: &[R], part: Part) -> Option<Damage> {
    damage_by(runs, part, |_| 1.0)
}

/// A sum that is not over one, but may be by what the meshes are not sure of: what it may be at most.
pub fn narrow_sum<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    growth: &MeshGrowth,
) -> Option<Damage> {
    let known = damage(runs, part)?;
    let most = damage_by(runs, part, |run| run.doubt(part, growth))?;
    let governs = most.shares.first().map(|(id, _)| *id);
    let mut runs = runs.iter().map(Borrow::borrow);
    let governs = runs.find(|run| Some(run.case.id) == governs)?;
    let limit = 1.0 + part.width(&governs.limits);
    (known.used <= limit && most.used > limit).then_some(most)
}

/// The sum where the stress of each run is so many times what it was found to be.
fn damage_by<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    times: impl Fn(&CaseRun) -> f64,
) -> Option<Damage> {
    if is_far_from_one(runs, part, &times) {
        return None;
    }
    let loads = worst_of_each_kind(runs, part, times);
    let sum = |scale: f64| loads.iter().map(|load| load.share(scale)).sum::<f64>();
    if loads.is_empty() || loads.iter().any(|load| !load.stress.is_finite()) {
        return None;
    }
    let mut shares: Vec<(CaseId, f64)> = loads
        .iter()
        .map(|load| (load.id, load.share(1.0)))
        .filter(|(_, share)| *share > TOLD)
        .collect();
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    Some(Damage {
        used: used(sum),
        shares,
    })
}

/// Whether the uses alone tell that the shares add up to less than one by more than any limit may be off.
/// A life falls at least with the square of the stress: the flattest branch of the lines has an exponent of 3,
/// and the weld factor halves in three decades.
fn is_far_from_one<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    times: impl Fn(&CaseRun) -> f64,
) -> bool {
    const WIDEST: f64 = 0.25;
    let uses = runs.iter().map(Borrow::borrow);
    let uses = uses.map(|run| part.used(&run.figures) * times(run));
    let most: f64 = uses.map(|used| (used / (1.0 - WIDEST)).powi(2)).sum();
    most < 1.0
}

/// The inverse of the scale at which a sum that never falls with it passes one.
fn used(sum: impl Fn(f64) -> f64) -> f64 {
    /// A part that is used less than a hundredth, or more than a hundred times, is told as that.
    const MOST: f64 = 100.0;
    let (mut low, mut high) = (MOST.recip(), MOST);
    // Thirty halvings of four decades on the logarithm: eight digits.
    for _ in 0..30 {
        let middle = (low * high).sqrt();
        match sum(middle) <= 1.0 {
            true => low = middle,
            false => high = middle,
        }
    }
    low.recip()
}

/// What is counted once.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Counted {
    /// What acts all the years.
    Lasting,
    /// A load of its own kind.
    Kind(LoadKind),
    /// An event, by its number.
    Event(usize),
}

/// The load of each kind that takes most.
fn worst_of_each_kind<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    times: impl Fn(&CaseRun) -> f64,
) -> Vec<Load<'_>> {
    let mut worst: BTreeMap<Counted, Load<'_>> = BTreeMap::new();
    for run in runs.iter().map(Borrow::borrow) {
        let Some(mut load) = load(run, part) else {
            continue;
        };
        load.stress = load.stress * times(run);
        let counted = match (run.case.id.event, run.case.times) {
            (Some(push), _) => Counted::Event(push.event),
            (None, Some(_)) => Counted::Kind(run.case.id.kind),
            (None, None) if run.case.id.kind == LoadKind::Test => Counted::Kind(LoadKind::Test),
            (None, None) => Counted::Lasting,
        };
        let takes_more = |other: &Load<'_>| {
            let by_share = load.share(1.0).total_cmp(&other.share(1.0));
            let by_stress = load.stress.pa().total_cmp(&other.stress.pa());
            by_share.then(by_stress).is_gt()
        };
        if worst.get(&counted).is_none_or(takes_more) {
            worst.insert(counted, load);
        }
    }
    worst.into_values().collect()
}

fn load(run: &CaseRun, part: Part) -> Option<Load<'_>> {
    let (stress, life) = match part {
        Part::Panel(number) => (run.figures.panels[number].stress, &run.limits.sheet_life),
        Part::Seam(number) => {
            let own = run.figures.seams.iter().find(|it| it.seam == number)?;
            (own.stress, &run.limits.weld_life)
        }
    };
    Some(Load {
        id: run.case.id,
        stress: Pressure::from_pa(stress),
        life,
        seconds: run.case.total.s(),
    })
}
