//! The search for the order in which panels are set, over sets of panels that stand.
//!
//! Reach only shrinks as panels are added, so a run is laid best as soon as both its panels stand, and what an
//! order leaves out of reach is a sum over its steps, each of which depends on the set that stands and on the panel that is
//! added. Dynamic programming over sets is therefore exact (M. Held and R. M. Karp, *A dynamic
//! programming approach to sequencing problems*, J. SIAM 10, 1962). Above [`MOST_EXACT`] panels a beam of sets of
//! each size is followed, and the answer comes with what no order can do better than.

use brimful_reach::{Blocks, Plates};
use std::collections::BTreeMap;
use std::ops::Add;

/// Sets of more panels are not all looked at: 65 536 of them take a few hundred milliseconds, and each further panel
/// doubles that.
pub(super) const MOST_EXACT: usize = 16;
/// Sets of one size that are followed beyond that.
const BEAM: usize = 2000;
/// So many panels have no bits of their own in a set.
const MOST: usize = 64;

/// A panel that is to be set.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Candidate {
    /// Its bit among the plates of the reach search.
    pub plate: usize,
    /// Candidates that it is welded to, as bits.
    pub meets: u64,
    /// Candidates that had better stand before it, as bits.
    pub rather_after: u64,
    /// Candidates between which it cannot be brought in once all of them stand, as bits; none where there are none.
    pub shut_out_by: u64,
    /// Whether the work may begin with it.
    pub may_be_first: bool,
}

/// What it would mean not to reach a side of a seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Need {
    /// Nothing can be laid where neither of two faces is reached, and from one face alone where one is not.
    AnyFace,
    /// What seals the seam, or its one side.
    OnlySide,
    /// It is welded from its other side alone.
    SecondSide,
    /// The same at the lid, where a seam bears least and custom leaves it so.
    BehindLid,
}

/// A side of a seam, laid as soon as both its candidates stand.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Task {
    pub candidates: [usize; 2],
    pub need: Need,
    /// A run each, with its stretches, each with its length in micrometres and what keeps hand and gun from it.
    pub faces: Vec<Vec<(u64, Blocks)>>,
    /// Its stretches with what hides them from the eye.
    pub hidden: Vec<(u64, Blocks)>,
}

/// What an order costs; the first that differs decides. Turns and what is turned are no part of it: all is laid that can be
/// laid with what closes it up before the finished box is turned over once, whatever the order, so that no order has fewer turns or a
/// lighter one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Cost {
    /// Length of runs that are never in reach and without which nothing holds there, micrometres.
    pub not_laid: u64,
    /// Length of runs on inner panels that are never in reach, which are then welded on their other face alone, micrometres.
    pub one_faced: u64,
    /// Length of runs that are never in reach, where seams are then welded from one side, micrometres.
    pub one_sided: u64,
    /// Length of runs that are never seen, micrometres.
    pub unseen: u64,
    /// Panels that meet nothing when they are set.
    pub loose: u32,
    /// Panels that are held by one seam alone when they are set, and so not square.
    pub unsquare: u32,
    /// Pairs of panels that had better be set the other way round.
    pub against_custom: u32,
    /// Length of the lid's inside runs that are never in reach, micrometres.
    pub behind_lid: u64,
}

impl Cost {
    /// Length of runs that are never in reach, those of the lid apart, micrometres.
    pub fn unreached(&self) -> u64 {
        self.not_laid + self.one_faced + self.one_sided
    }
}

impl Add for Cost {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            not_laid: self.not_laid + other.not_laid,
            one_faced: self.one_faced + other.one_faced,
            one_sided: self.one_sided + other.one_sided,
            unseen: self.unseen + other.unseen,
            loose: self.loose + other.loose,
            unsquare: self.unsquare + other.unsquare,
            against_custom: self.against_custom + other.against_custom,
            behind_lid: self.behind_lid + other.behind_lid,
        }
    }
}

/// An order of work and how good it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sequence {
    /// Numbers of the candidates, in order.
    pub order: Vec<usize>,
    pub cost: Cost,
    /// No order leaves less out of reach than this, micrometres.
    pub bound: u64,
}

/// Panels and runs.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Problem {
    candidates: Vec<Candidate>,
    tasks: Vec<Task>,
    /// Numbers of the tasks of each candidate.
    tasks_of: Vec<Vec<usize>>,
}

impl Problem {
    pub fn new(candidates: Vec<Candidate>, tasks: Vec<Task>) -> Self {
        let of = |candidate: usize| {
            let own = |task: &usize| tasks[*task].candidates.contains(&candidate);
            (0..tasks.len()).filter(own).collect()
        };
        Self {
            tasks_of: (0..candidates.len()).map(of).collect(),
            candidates,
            tasks,
        }
    }

    /// The best order; none where there is no order at all, or too many panels.
    pub fn solve(&self) -> Option<Sequence> {
        match self.candidates.len() {
            1..=MOST_EXACT => self.exact(),
            count if count > MOST_EXACT && count < MOST => self.beam(),
            _ => None,
        }
    }

    fn exact(&self) -> Option<Sequence> {
        let count = self.candidates.len();
        let all = (1_usize << count) - 1;
        let mut best: Vec<Option<(Cost, u8)>> = vec![None; all + 1];
        best[0] = Some((Cost::default(), 0));
        // Every set comes after all that are within it.
        for set in 0..all {
            let Some((cost, _)) = best[set] else { continue };
            for next in 0..count {
                let Some(step) = self.step(set as u64, next) else {
                    continue;
                };
                let (found, with) = (cost + step, set | 1 << next);
                if best[with].is_none_or(|(known, _)| found < known) {
                    best[with] = Some((found, next as u8));
                }
            }
        }
        let (cost, _) = best[all]?;
        let mut order = Vec::with_capacity(count);
        let mut set = all;
        while set != 0 {
            let (_, last) = best[set]?;
            order.push(usize::from(last));
            set &= !(1 << last);
        }
        order.reverse();
        Some(Sequence {
            order,
            cost,
            bound: cost.unreached(),
        })
    }

    fn beam(&self) -> Option<Sequence> {
        let count = self.candidates.len();
        let mut level: Vec<(Cost, u64, Vec<usize>)> = vec![(Cost::default(), 0, Vec::new())];
        for _ in 0..count {
            let mut next_level: BTreeMap<u64, (Cost, Vec<usize>)> = BTreeMap::new();
            for (cost, set, order) in &level {
                for next in 0..count {
                    let Some(step) = self.step(*set, next) else {
                        continue;
                    };
                    let (found, with) = (*cost + step, set | 1 << next);
                    if next_level
                        .get(&with)
                        .is_none_or(|(known, _)| found < *known)
                    {
                        let order = order.iter().copied().chain([next]).collect();
                        next_level.insert(with, (found, order));
                    }
                }
            }
            let sets = next_level.into_iter();
            level = sets
                .map(|(set, (cost, order))| (cost, set, order))
                .collect();
            level.sort_by_key(|(cost, set, _)| (*cost, *set));
            level.truncate(BEAM);
        }
        let (cost, _, order) = level.into_iter().next()?;
        Some(Sequence {
            order,
            cost,
            bound: self.bound(),
        })
    }

    /// What no order reaches: what is out of reach with nothing else standing.
    fn bound(&self) -> u64 {
        let alone = |task: &Task| {
            let own = task.candidates.map(|it| self.candidates[it].plate);
            task.cost(own.into_iter().collect()).unreached()
        };
        self.tasks.iter().map(alone).sum()
    }

    /// What it costs to set a candidate next; none where it may not be, or stands already.
    pub fn step(&self, standing: u64, next: usize) -> Option<Cost> {
        let candidate = &self.candidates[next];
        let is_shut_out = candidate.shut_out_by != 0 && candidate.shut_out_by & !standing == 0;
        let stands = standing >> next & 1 == 1;
        if stands || is_shut_out || (standing == 0 && !candidate.may_be_first) {
            return None;
        }
        Some(self.cost(standing, next))
    }

    /// What it costs to set a candidate next, whether or not it may be.
    pub fn cost(&self, standing: u64, next: usize) -> Cost {
        let candidate = &self.candidates[next];
        let meets = (candidate.meets & standing).count_ones();
        let with = standing | 1 << next;
        let stands = |number: &usize| with >> *number & 1 == 1;
        let plates: Plates = (0..self.candidates.len())
            .filter(stands)
            .map(|number| self.candidates[number].plate)
            .collect();
        let tasks = self.tasks_of[next]
            .iter()
            .map(|&number| &self.tasks[number]);
        let tasks = tasks.filter(|task| task.candidates.iter().all(stands));
        let own = Cost {
            loose: u32::from(standing != 0 && meets == 0),
            unsquare: u32::from(standing != 0 && meets == 1),
            against_custom: (candidate.rather_after & !standing).count_ones(),
            ..Cost::default()
        };
        tasks.map(|task| task.cost(plates)).fold(own, Add::add)
    }
}

impl Task {
    /// What it costs to lay it while these plates stand.
    fn cost(&self, standing: Plates) -> Cost {
        let out = self.faces.iter().map(|face| blocked(face, standing));
        let (least, all) = (out.clone().min().unwrap_or(0), out.sum());
        let mut cost = Cost {
            unseen: blocked(&self.hidden, standing),
            ..Cost::default()
        };
        match self.need {
            Need::AnyFace => (cost.not_laid, cost.one_faced) = (least, all - least),
            Need::OnlySide => cost.not_laid = all,
            Need::SecondSide => cost.one_sided = all,
            Need::BehindLid => cost.behind_lid = all,
        }
        cost
    }
}

fn blocked(stretches: &[(u64, Blocks)], standing: Plates) -> u64 {
    let stretches = stretches.iter();
    let out = stretches.filter(|(_, blocks)| !blocks.is_reached(standing));
    out.map(|(length, _)| length).sum()
}

/// The least cost of every order there is, one after the other.
#[cfg(test)]
pub(super) fn best_of_all_orders(problem: &Problem) -> Option<Cost> {
    fn from(problem: &Problem, standing: u64, cost: Cost) -> Option<Cost> {
        let count = problem.candidates.len();
        if standing == (1 << count) - 1 {
            return Some(cost);
        }
        let next = (0..count).filter_map(|next| {
            let step = problem.step(standing, next)?;
            from(problem, standing | 1 << next, cost + step)
        });
        next.min()
    }
    from(problem, 0, Cost::default())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A problem in which anything may block anything.
    fn random(random: &mut fastrand::Rng, count: usize) -> Problem {
        let mut candidates: Vec<Candidate> = (0..count)
            .map(|plate| Candidate {
                plate,
                rather_after: random.u64(0..1 << count) & !(1 << plate),
                shut_out_by: random.u64(0..1 << count) & !(1 << plate),
                may_be_first: plate == 0 || random.u8(0..4) == 0,
                ..Candidate::default()
            })
            .collect();
        let mut tasks = Vec::new();
        for one in 0..count {
            for other in 0..one {
                if random.u8(0..3) == 0 {
                    continue;
                }
                candidates[one].meets |= 1 << other;
                candidates[other].meets |= 1 << one;
                let mut stretches = Vec::new();
                for _ in 0..random.usize(1..4) {
                    let mut poses = Vec::new();
                    for _ in 0..random.usize(0..4) {
                        let others = (0..count).filter(|&it| it != one && it != other);
                        let blocking = others.filter(|_| random.u8(0..3) == 0);
                        poses.push(blocking.collect::<Plates>());
                    }
                    let blocks = poses.into_iter().collect::<Blocks>();
                    stretches.push((random.u64(1..4) * 1000, blocks));
                }
                let needs = [
                    Need::AnyFace,
                    Need::OnlySide,
                    Need::SecondSide,
                    Need::BehindLid,
                ];
                let half = stretches.len() / 2;
                tasks.push(Task {
                    candidates: [one, other],
                    need: needs[random.usize(0..needs.len())],
                    faces: vec![stretches.split_off(half), stretches],
                    hidden: Vec::new(),
                });
            }
        }
        Problem::new(candidates, tasks)
    }

    fn cost_of(problem: &Problem, order: &[usize]) -> Cost {
        let mut standing = 0;
        let steps = order.iter().map(|&next| {
            let step = problem
                .step(standing, next)
                .expect("a step that may be done");
            standing |= 1 << next;
            step
        });
        steps.fold(Cost::default(), Add::add)
    }

    #[test]
    fn no_order_at_all_is_better() {
        let mut rng = fastrand::Rng::with_seed(3);
        for count in 1..=7 {
            for _ in 0..30 {
                let problem = random(&mut rng, count);
                let found = problem.solve();
                let wanted = best_of_all_orders(&problem);
                assert_eq!(found.as_ref().map(|it| it.cost), wanted);
                if let Some(found) = found {
                    assert_eq!(cost_of(&problem, &found.order), found.cost);
                }
            }
        }
    }

    /// The beam is as good as its cost says, and its bound is one.
    #[test]
    fn a_beam_is_no_better_than_the_best_and_no_worse_than_its_bound() {
        let mut rng = fastrand::Rng::with_seed(4);
        for _ in 0..20 {
            let problem = random(&mut rng, 10);
            let (Some(best), Some(beam)) = (problem.exact(), problem.beam()) else {
                continue;
            };
            assert_eq!(cost_of(&problem, &beam.order), beam.cost);
            assert!(beam.bound <= best.cost.unreached() && best.cost <= beam.cost);
        }
    }

    #[test]
    fn what_cannot_be_set_has_no_order() {
        let stuck = Problem::new(vec![Candidate::default(); 2], Vec::new());
        assert_eq!(stuck.solve(), None, "nothing may be set first");
        assert_eq!(Problem::new(Vec::new(), Vec::new()).solve(), None);
    }
}
