//! The order of work: found by search where reach is known, else by the fixed rule.

use super::assembly::Assembly;
use super::kit::Kit;
use super::order::{Step, area, by_rule, steps};
use super::own_order::followed;
use super::reach::{LineReach, SeamReach, is_behind_lid};
use super::run::{Run, RunPlace, runs};
use super::seam_weld::{SeamWeld, of_rib};
use super::sequence::{Candidate, Need, Problem, Task};
use super::side::WeldSide;
use crate::finding::kind::{OrderCost, WeldKind};
use crate::finding::{Finding, Grade, Part, Subject};
use crate::name::PanelName;
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Vec3;
use brimful_job::Job;
use brimful_reach::{Blocks, Plates};
use brimful_units::Length;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The order of work, and what is to be said of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OrderOfWork {
    /// The steps.
    pub steps: Vec<Step>,
    /// By what they were put in order.
    pub by: OrderedBy,
    /// The build step by step, and what other orders cost; none where reach is not known.
    pub assembly: Option<Arc<Assembly>>,
    /// What is to be said of it.
    pub findings: Vec<Finding>,
}

impl OrderOfWork {
    /// What each step costs; none of a step that sets no panel, of a rib, and where reach is not known.
    pub fn costs(&self) -> Vec<Option<OrderCost>> {
        match &self.assembly {
            Some(assembly) => assembly.costs_of(&self.steps),
            None => vec![None; self.steps.len()],
        }
    }
}

/// By what the panels are put in order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum OrderedBy {
    /// The fixed rule.
    #[default]
    Rule,
    /// The search.
    Search,
    /// The maker.
    Maker,
}

/// A wall is smaller than another where it is so by more than this: two that are cut to one size differ by the saw.
const SMALLER: f64 = 0.99;
/// Inner panels stand the same way where their normals are this near to one line (cosine of 8 degrees).
const SAME_WAY: f64 = 0.99;

/// The order of work where nothing is known of reach: the maker's own, or by the fixed rule; for drafts.
pub fn draft(job: &Job, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> OrderOfWork {
    if Kit::of(job).own.is_none() {
        return not_found(job, panels, seams, welds);
    }
    let why = match own(job, panels) {
        (Some(_), _) => WeldKind::OwnOrderUnproven,
        (None, _) => WeldKind::ReachUnproven,
    };
    unproven(job, panels, seams, welds, about(Grade::Mend, why))
}

/// The same of a tank of which no order can be searched for: what its runs are worth nobody knows.
pub(super) fn not_found(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
) -> OrderOfWork {
    let why = match Kit::of(job).own {
        None => WeldKind::NeedsTwoHands,
        Some(_) => WeldKind::ReachUnproven,
    };
    unproven(job, panels, seams, welds, about(Grade::Stop, why))
}

fn unproven(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    why: Finding,
) -> OrderOfWork {
    if seams.is_empty() {
        return OrderOfWork::default();
    }
    let (own, not_used) = own(job, panels);
    let by = match own {
        Some(_) => OrderedBy::Maker,
        None => OrderedBy::Rule,
    };
    let order = own.unwrap_or_else(|| by_rule(panels));
    OrderOfWork {
        steps: steps(panels, seams, welds, &[], &order),
        by,
        assembly: None,
        findings: not_used.into_iter().chain([why]).collect(),
    }
}

/// The maker's order, or what is to be said where it cannot be followed; neither where the job has none.
fn own(job: &Job, panels: &[Panel]) -> (Option<Vec<usize>>, Option<Finding>) {
    let Some(own) = &job.own_order else {
        return (None, None);
    };
    let names = own.panels.iter().map(|panel| panel.name.as_str());
    match followed(names, panels) {
        Ok(order) => (Some(order), None),
        Err(misfit) => {
            let finding = about(Grade::Mend, WeldKind::OwnOrderNotUsed(misfit));
            (None, Some(finding.at(&own.place)))
        }
    }
}

/// The order in which these welds are laid, the best one or the maker's own; none where no reach is looked at.
pub(super) fn found(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
) -> Option<FoundOrder> {
    if seams.is_empty() || Kit::of(job).own.is_none() {
        return None;
    }
    let (best, bound) = search(job, panels, seams, welds)?;
    let (own, not_used) = own(job, panels);
    let by = match own {
        Some(_) => OrderedBy::Maker,
        None => OrderedBy::Search,
    };
    let assembly = match own {
        Some(order) => best.in_order(order),
        None => best,
    };
    let chosen = order_chosen(job, &assembly, by, bound);
    let body = body(panels).into_iter().collect();
    Some(FoundOrder {
        assembly,
        by,
        body,
        findings: [chosen].into_iter().chain(not_used).collect(),
    })
}

/// The order that is followed, with the reach of every run that there may be.
pub(super) struct FoundOrder {
    assembly: Assembly,
    by: OrderedBy,
    /// All panels but ribs.
    body: Plates,
    /// Which order it is.
    findings: Vec<Finding>,
}

impl FoundOrder {
    /// What is reached of each seam.
    pub fn reach(&self, panels: &[Panel], seams: &[Seam]) -> Vec<SeamReach> {
        let mut reach = vec![SeamReach::default(); seams.len()];
        for laid in laid(self.assembly.runs(), self.assembly.order()) {
            let Laid { run, standing } = laid;
            let of_seam = &mut reach[run.seam];
            of_seam.is_closed |= self.body.are_in(standing) && !of_rib(panels, &seams[run.seam]);
            of_seam.lines.push(LineReach {
                side: run.side,
                out: run.out_of_reach(standing),
                is_in_part: run.is_reached_in_part(standing),
                by_hot_gas: run.is_by_hot_gas(standing),
            });
        }
        reach
    }

    /// The order of work with the welds that are planned.
    pub fn of_work(self, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> OrderOfWork {
        let (runs, order) = (self.assembly.runs(), self.assembly.order());
        let is_planned = |run: &Run| {
            let mut welds = welds.iter();
            welds.any(|weld| weld.seam == run.seam && weld.side == run.side)
        };
        let all = laid(runs, order);
        let all: Vec<&Laid<'_>> = all.iter().collect();
        let (planned, mut in_the_way): (Vec<&Laid<'_>>, Vec<&Laid<'_>>) =
            all.iter().partition(|laid| is_planned(laid.run));
        // Of what everything is in the way of there is no more to say.
        in_the_way.retain(|laid| !self.body.are_in(laid.standing));
        let mut findings = self.findings;
        findings.extend(kit_does_not_fit(runs));
        findings.extend(out_of_reach(panels, seams, &in_the_way));
        findings.extend(out_of_reach(panels, seams, &planned));
        findings.extend(out_of_sight(seams, &all));
        findings.extend(by_round_nozzle(seams, &planned));
        OrderOfWork {
            steps: steps(panels, seams, welds, runs, order),
            by: self.by,
            assembly: Some(Arc::new(self.assembly)),
            findings,
        }
    }
}

/// Which order is followed, and what it costs.
fn order_chosen(job: &Job, assembly: &Assembly, by: OrderedBy, bound: Length) -> Finding {
    let best = assembly.cost(assembly.best());
    let panels = assembly.best().len();
    let Some(own_order) = job.own_order.as_ref().filter(|_| by == OrderedBy::Maker) else {
        let kind = WeldKind::OrderFound {
            panels,
            unreached: best.unreached,
            bound,
        };
        return about(Grade::Note, kind);
    };
    let own = assembly.cost(assembly.order());
    let reaches_less = own.unreached > best.unreached || own.unseen > best.unseen;
    let grade = match reaches_less {
        true => Grade::Mend,
        false => Grade::Note,
    };
    let is_worse = assembly.is_worse(assembly.order(), assembly.best());
    let kind = WeldKind::OwnOrder {
        panels,
        is_worse,
        own,
        best,
    };
    about(grade, kind).at(&own_order.place)
}

fn about(grade: Grade, kind: WeldKind) -> Finding {
    Finding::of(grade, Subject::Part(Part::OrderOfWork), kind)
}

/// The best order, followed, and what no order reaches more than; none where it cannot be searched for.
fn search(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
) -> Option<(Assembly, Length)> {
    let runs = runs(job, panels, seams, welds)?;
    let body = body(panels);
    let problem = problem(panels, seams, &runs, &body);
    let found = problem.solve()?;
    let ribs = by_rule(panels).into_iter();
    let ribs = ribs.filter(|&number| panels[number].role == Role::Rib);
    let own = found.order.iter().map(|&number| body[number]);
    let order = own.chain(ribs).collect();
    let bound = Length::from_m(found.bound as f64 * 1e-6);
    Some((Assembly::new(body, problem, runs, &found, order), bound))
}

/// The panels but ribs, by the fixed rule.
fn body(panels: &[Panel]) -> Vec<usize> {
    let numbers = by_rule(panels).into_iter();
    let body = numbers.filter(|&number| panels[number].role != Role::Rib);
    body.collect()
}

fn problem(panels: &[Panel], seams: &[Seam], runs: &[Run], body: &[usize]) -> Problem {
    let local = |panel: usize| body.iter().position(|&number| number == panel);
    let mut sides: Vec<(usize, WeldSide)> = runs.iter().map(|run| (run.seam, run.side)).collect();
    sides.dedup();
    let tasks = sides.iter().filter_map(|&(number, side)| {
        let seam = &seams[number];
        let [Some(one), Some(other)] = seam.panels.map(local) else {
            return None;
        };
        let need = match (seam.joint, side) {
            (Joint::Tee, _) => Need::AnyFace,
            (_, WeldSide::Inside) if sides.contains(&(number, WeldSide::Outside)) => {
                match is_behind_lid(panels, seam) {
                    true => Need::BehindLid,
                    false => Need::SecondSide,
                }
            }
            _ => Need::OnlySide,
        };
        let of_side = || {
            let runs = runs.iter();
            runs.filter(move |run| (run.seam, run.side) == (number, side))
        };
        let hidden = of_side().flat_map(|run| alike(run, |place| &place.hidden_by));
        Some(Task {
            candidates: [one, other],
            need,
            faces: of_side()
                .map(|run| alike(run, |place| &place.any))
                .collect(),
            hidden: match need {
                Need::BehindLid => Vec::new(),
                _ => hidden.collect(),
            },
        })
    });
    Problem::new(candidates(panels, seams, body), tasks.collect())
}

/// The stretches of a run that may be blocked, its ends apart, those alike together.
fn alike(run: &Run, blocks: fn(&RunPlace) -> &Blocks) -> Vec<(u64, Blocks)> {
    let mut alike: BTreeMap<&Blocks, u64> = BTreeMap::new();
    let places = run.places.iter().filter(|it| !it.is_end);
    for place in places.filter(|it| !blocks(it).is_always_reached()) {
        *alike.entry(blocks(place)).or_default() += (place.stretch.m() * 1e6).round() as u64;
    }
    let alike = alike.into_iter();
    alike
        .map(|(blocks, length)| (length, blocks.clone()))
        .collect()
}

/// What had better stand before what: the work begins on the largest floor; lids come last; the largest
/// wall first, then ends with the middle baffle, then the walls that close it, and then other baffles. Common practice: ends
/// and a baffle before the second long side keep it square.
fn candidates(panels: &[Panel], seams: &[Seam], body: &[usize]) -> Vec<Candidate> {
    let of = |is_it: &dyn Fn(&Panel) -> bool| -> u64 {
        let them = body.iter().enumerate();
        let them = them.filter(|(_, number)| is_it(&panels[**number]));
        them.map(|(place, _)| 1 << place).sum()
    };
    let lids = of(&|panel| panel.role == Role::Lid);
    let outer = of(&|panel| panel.role.is_outer());
    let mut walls = body
        .iter()
        .enumerate()
        .filter(|(_, it)| panels[**it].role == Role::Wall);
    let first_wall = walls.next().map_or(0, |(place, _)| 1 << place);
    let second_wall = walls.next();
    let ends = match second_wall {
        Some((_, &second)) => of(&|panel| {
            panel.role == Role::Wall
                && (area(panel) as f64) < SMALLER * area(&panels[second]) as f64
        }),
        None => 0,
    };
    // Of three and more that stand the same way the one in the middle.
    let is_early = |&(_, &number): &(usize, &usize)| {
        let is_it = |middle: usize| middle == number;
        panels[number].role.is_inner() && middle_of_its_way(panels, body, number).is_none_or(is_it)
    };
    let early = body.iter().enumerate().filter(is_early);
    let early: u64 = early.map(|(place, _)| 1 << place).sum();
    let candidate = |(place, &number): (usize, &usize)| {
        let panel = &panels[number];
        let own = 1_u64 << place;
        let meets = seams.iter().filter_map(|seam| match seam.panels {
            [one, other] if one == number => body.iter().position(|&it| it == other),
            [one, other] if other == number => body.iter().position(|&it| it == one),
            _ => None,
        });
        let rather_after = match panel.role {
            Role::Floor | Role::Rib => 0,
            Role::Lid => all_of(body.len()) & !lids,
            Role::Wall if own == first_wall => 0,
            Role::Wall if own & ends != 0 => first_wall,
            Role::Wall => first_wall | ends | early,
            _ if own & early != 0 => first_wall,
            _ => first_wall | ends | early | second_wall.map_or(0, |(place, _)| 1 << place),
        };
        Candidate {
            plate: number,
            meets: meets
                .map(|other| 1 << other)
                .fold(0, |all, it: u64| all | it),
            rather_after: rather_after & !own,
            shut_out_by: match panel.role.is_inner() {
                true => outer,
                false => 0,
            },
            may_be_first: place == 0,
        }
    };
    body.iter().enumerate().map(candidate).collect()
}

fn all_of(count: usize) -> u64 {
    (0..count.min(64)).map(|place| 1 << place).sum()
}

/// Of three or more inner panels that stand the same way, the number of the one in the middle.
fn middle_of_its_way(panels: &[Panel], body: &[usize], number: usize) -> Option<usize> {
    let way = panels[number].finished.frame.z;
    let along = |number: usize| -> f64 { middle(&panels[number], way) };
    let is_alike = |number: usize| {
        let panel = &panels[number];
        panel.role.is_inner() && panel.finished.frame.z.dot(way).abs() > SAME_WAY
    };
    let mut alike: Vec<usize> = body.iter().copied().filter(|&it| is_alike(it)).collect();
    alike.sort_by(|&a, &b| along(a).total_cmp(&along(b)));
    (alike.len() > 2).then(|| alike[alike.len() / 2])
}

fn middle(panel: &Panel, way: Vec3) -> f64 {
    let outlines = panel.finished.outlines(PlateFace::Outside);
    let centre = outlines.first().map(|outline| outline.centroid());
    let centre = centre.map(|centre| panel.finished.frame.world_from_flat(centre));
    centre.map_or(0.0, |centre| centre.to_vec().dot(way))
}

/// A run with what stands when it is laid at the earliest.
struct Laid<'a> {
    run: &'a Run,
    standing: Plates,
}

impl<'a> Laid<'a> {
    /// Its places that are out of reach, with what stands.
    fn unreached(&self) -> impl Iterator<Item = (&'a RunPlace, Plates)> + use<'a> {
        let standing = self.standing;
        let places = self.run.places.iter();
        let out = places.filter(move |place| !place.any.is_reached(standing));
        out.map(move |place| (place, standing))
    }
}

fn laid<'a>(runs: &'a [Run], order: &[usize]) -> Vec<Laid<'a>> {
    let place = |panel: usize| order.iter().position(|&number| number == panel);
    let each = runs.iter().filter_map(|run| {
        let last = run.panels.map(place);
        let last = last[0]?.max(last[1]?);
        Some(Laid {
            run,
            standing: order[..=last].iter().copied().collect(),
        })
    });
    each.collect()
}

/// What hand and gun do not get to even with nothing but the two panels of a seam standing.
fn kit_does_not_fit(runs: &[Run]) -> Option<Finding> {
    let alone: Length = runs
        .iter()
        .map(|run| run.unreached(run.panels.into_iter().collect()))
        .sum();
    let all: Length = runs
        .iter()
        .flat_map(|run| &run.places)
        .map(|place| place.stretch)
        .sum();
    (alone > all * 0.5).then(|| about(Grade::Mend, WeldKind::KitDoesNotFit { alone, all }))
}

/// Seams of which a stretch is out of reach as the work goes, the two runs beside a standing panel
/// together; what is so at the very ends alone is good to know and no more.
fn out_of_reach(panels: &[Panel], seams: &[Seam], laid: &[&Laid<'_>]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut at_ends: (Vec<String>, Length) = (Vec::new(), Length::ZERO);
    let mut by_side: BTreeMap<(usize, WeldSide), Vec<&Laid<'_>>> = BTreeMap::new();
    for run in laid {
        by_side
            .entry((run.run.seam, run.run.side))
            .or_default()
            .push(run);
    }
    for ((number, side), runs) in by_side {
        let seam = &seams[number];
        let out: Vec<(&RunPlace, Plates)> = runs.iter().flat_map(|laid| laid.unreached()).collect();
        let length: Length = out.iter().map(|(place, _)| place.stretch).sum();
        let along = || out.iter().map(|(place, _)| place.along);
        let (Some(from), Some(to)) = (along().reduce(Length::min), along().reduce(Length::max))
        else {
            continue;
        };
        if out.iter().all(|(place, _)| place.is_end) {
            at_ends.0.push(seam.mark.clone());
            at_ends.1 += length;
            continue;
        }
        let kind = WeldKind::OutOfReach {
            inside: side == WeldSide::Inside,
            length,
            stretch: [from, to],
            in_the_way: most_often_in_the_way(&out, panels),
        };
        let of_panels = seam.panels.map(|number| panels[number].name.clone());
        let subject = Subject::Seam(seam.mark.clone(), of_panels);
        findings.push(Finding::of(Grade::Note, subject, kind));
    }
    if !at_ends.0.is_empty() {
        let kind = WeldKind::EndsOutOfReach { length: at_ends.1 };
        findings.push(Finding::of(Grade::Note, Subject::Seams(at_ends.0), kind));
    }
    findings
}

/// Of what is in the way of each place, what is so most often.
fn most_often_in_the_way(out: &[(&RunPlace, Plates)], panels: &[Panel]) -> Vec<PanelName> {
    let mut often: BTreeMap<Plates, usize> = BTreeMap::new();
    for plates in out
        .iter()
        .filter_map(|(place, standing)| place.any.in_the_way(*standing))
    {
        *often.entry(plates).or_default() += 1;
    }
    let most = often
        .into_iter()
        .max_by_key(|(plates, count)| (*count, Reverse(*plates)));
    let most = most.map_or(Plates::NONE, |(plates, _)| plates);
    most.numbers()
        .map(|number| panels[number].name.clone())
        .collect()
}

/// Seams of which a stretch is reached and not seen.
fn out_of_sight(seams: &[Seam], laid: &[&Laid<'_>]) -> Option<Finding> {
    let is_it = |place: &RunPlace, standing| {
        !place.is_end && place.any.is_reached(standing) && !place.hidden_by.is_reached(standing)
    };
    let (marks, length) = stretches_where(seams, laid, is_it)?;
    let kind = WeldKind::OutOfSight { length };
    Some(Finding::of(Grade::Note, Subject::Seams(marks), kind))
}

/// Seams of which a stretch is laid with the round nozzle, where the shop's own does not get.
fn by_round_nozzle(seams: &[Seam], laid: &[&Laid<'_>]) -> Option<Finding> {
    let is_it = |place: &RunPlace, standing| {
        place.any.is_reached(standing) && !place.own.is_reached(standing)
    };
    let (marks, length) = stretches_where(seams, laid, is_it)?;
    let kind = WeldKind::ByRoundNozzle { length };
    Some(Finding::of(Grade::Note, Subject::Seams(marks), kind))
}

/// The marks of the seams that have such places, and the length of these; none where there are none.
fn stretches_where(
    seams: &[Seam],
    laid: &[&Laid<'_>],
    is_it: impl Fn(&RunPlace, Plates) -> bool,
) -> Option<(Vec<String>, Length)> {
    let mut marks: Vec<String> = Vec::new();
    let mut length = Length::ZERO;
    for Laid { run, standing } in laid {
        let of_run = run.length_where(|place| is_it(place, *standing));
        let mark = &seams[run.seam].mark;
        if of_run > Length::ZERO && !marks.contains(mark) {
            marks.push(mark.clone());
        }
        length += of_run;
    }
    (!marks.is_empty()).then_some((marks, length))
}

#[cfg(test)]
mod tests;
