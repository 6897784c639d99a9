//! Loads of different length and warmth on one panel or seam add up.
//!
//! Miner's rule as the creep standards of plastics use it (EN ISO 13760, scope seen; the sum from memory):
//! each load takes the share `time / life at its stress` of what there is, and the shares add up to no
//! more than one. The life of a load that comes again and again is read off one line, the strength of the time that
//! all its repeats take times their repeat factor: never longer than by creep or by repeats alone, and one event takes
//! as much as it does when it is written as several. The stresses are the worst of a panel or seam in each load, wherever in it they are,
//! so that the sum is never too small. What lasts all the years, whatever the tilt and fill, is counted
//! once, at its worst; so is an event, whichever way it pushes.

use super::mesh_growth::MeshGrowth;
use super::part::Part;
use super::result::CaseRun;
use crate::limit::Life;
use crate::load::LoadKind;
use crate::root::falling_root;
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
    Sum::of(runs, part, |_| 1.0).map(|sum| sum.damage())
}

/// The same of what is sure to count, as far as that is known of roots that are pulled open.
pub fn sure_damage<R: Borrow<CaseRun>>(runs: &[R], part: Part) -> Option<Damage> {
    Sum::of(runs, part, |run| run.sure(part)).map(|sum| sum.damage())
}

/// A sum that is not over one, but may be by what the meshes are not sure of: what it may be at most.
pub fn narrow_sum<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    growth: &MeshGrowth,
) -> Option<Damage> {
    let most = Sum::of(runs, part, |run| run.doubt(part, growth) * run.sure(part))?;
    let governs = most.governing();
    let mut all = runs.iter().map(Borrow::borrow);
    let governs = all.find(|run| run.case.id == governs)?;
    let at_limit = (1.0 + governs.width(part)).recip();
    let may_be_over = most.of_stresses(at_limit) > 1.0;
    let is_over = || {
        let known = Sum::of(runs, part, |run| run.sure(part));
        known.is_some_and(|known| known.of_stresses(at_limit) > 1.0)
    };
    (may_be_over && !is_over()).then(|| most.damage())
}

/// The loads of a sum, at least one, each with the share that it takes.
struct Sum<'a>(Vec<(f64, Load<'a>)>);

impl<'a> Sum<'a> {
    /// With the stress of each run so many times what it was found to be.
    fn of<R: Borrow<CaseRun>>(
        runs: &'a [R],
        part: Part,
        times: impl Fn(&CaseRun) -> f64,
    ) -> Option<Self> {
        if is_far_from_one(runs, part, &times) {
            return None;
        }
        let loads = worst_of_each_kind(runs, part, times);
        let all_known = loads.iter().all(|(_, load)| load.stress.is_finite());
        (!loads.is_empty() && all_known).then_some(Self(loads))
    }

    /// The sum of the shares where all stresses are `scale` times what they are.
    fn of_stresses(&self, scale: f64) -> f64 {
        self.0.iter().map(|(_, load)| load.share(scale)).sum()
    }

    /// The load that takes most.
    fn governing(&self) -> CaseId {
        let first = &self.0[0];
        let all = self.0.iter();
        all.fold(
            first,
            |most, other| if other.0 > most.0 { other } else { most },
        )
        .1
        .id
    }

    fn damage(&self) -> Damage {
        let told = self.0.iter().filter(|(share, _)| *share > TOLD);
        let mut shares: Vec<(CaseId, f64)> = told.map(|(share, load)| (load.id, *share)).collect();
        shares.sort_by(|a, b| b.1.total_cmp(&a.1));
        Damage {
            used: used(|scale| self.of_stresses(scale)),
            shares,
        }
    }
}

/// Whether the uses alone tell that the shares add up to less than one by more than any limit may be off.
/// A life falls at least with the power `1 / (1 / 3 + 1 / 3 + 0.1)` of the stress: the flattest branch of the creep
/// lines and the flattest repeat line have an exponent of 3, and the weld factor halves in three decades.
fn is_far_from_one<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    times: impl Fn(&CaseRun) -> f64,
) -> bool {
    const WIDEST: f64 = 0.25;
    const FLATTEST: f64 = 1.3;
    let uses = runs.iter().map(Borrow::borrow);
    let uses = uses.map(|run| part.used(&run.figures) * times(run) * in_the_long_run(run, part));
    let most: f64 = uses
        .map(|used| (used / (1.0 - WIDEST)).powf(FLATTEST))
        .sum();
    most < 1.0
}

/// The inverse of the scale at which a sum that never falls with it passes one.
fn used(sum: impl Fn(f64) -> f64) -> f64 {
    /// A part that is used less than a hundredth, or more than a hundred times, is reported as that.
    const MOST: f64 = 100.0;
    let below_one = |scale: f64| -sum(scale.exp()).ln();
    let (least, most) = (-MOST.ln(), MOST.ln());
    match (below_one(least) < 0.0, below_one(most) < 0.0) {
        (true, _) => MOST,
        (false, false) => MOST.recip(),
        (false, true) => (-falling_root(least, most, below_one)).exp(),
    }
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

/// The load of each kind that takes most, with its share.
fn worst_of_each_kind<R: Borrow<CaseRun>>(
    runs: &[R],
    part: Part,
    times: impl Fn(&CaseRun) -> f64,
) -> Vec<(f64, Load<'_>)> {
    let mut worst: BTreeMap<Counted, (f64, Load<'_>)> = BTreeMap::new();
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
        let share = load.share(1.0);
        let takes_more = |(other_share, other): &(f64, Load<'_>)| {
            let by_share = share.total_cmp(other_share);
            let by_stress = load.stress.pa().total_cmp(&other.stress.pa());
            by_share.then(by_stress).is_gt()
        };
        if worst.get(&counted).is_none_or(takes_more) {
            worst.insert(counted, (share, load));
        }
    }
    worst.into_values().collect()
}

/// How many times its use a part counts against a life of the shop's own process: the longer it lasts the less hot gas bears of
/// what that does, so that another place of a seam may take more of it than the one that is used most now.
fn in_the_long_run(run: &CaseRun, part: Part) -> f64 {
    let Part::Seam(number) = part else { return 1.0 };
    let mut seams = run.figures.seams.iter();
    let figure = seams.find(|it| it.seam == number && it.utilisation > 0.0);
    figure.map_or(1.0, |it| it.in_the_long_run / it.utilisation)
}

fn load(run: &CaseRun, part: Part) -> Option<Load<'_>> {
    let (stress, life) = match part {
        Part::Panel(number) => (
            run.figures.panels[number].stress,
            &run.limits.of_panel(number).sheet_life,
        ),
        Part::Seam(number) => {
            let own = run.figures.seams.iter().find(|it| it.seam == number)?;
            let life = &run.limits.of_seam(number).weld_life;
            (own.stress * in_the_long_run(run, part), life)
        }
    };
    Some(Load {
        id: run.case.id,
        stress: Pressure::from_pa(stress),
        life,
        seconds: run.case.total.s(),
    })
}
