//! The build step by step, in any order of setting the panels: what stands, where hand and gun get to, in which pose, and
//! what the order costs.
//!
//! Reach of every place is known as sets of plates once for all orders, so that another order is judged without looking for
//! poses again. Poses themselves are looked for only when they are asked for.

use super::kit::Kit;
use super::order::{Step, Work, steps};
use super::run::{Run, RunPlace};
use super::seam_weld::SeamWeld;
use super::sequence::{Cost, Problem, Sequence};
use super::side::WeldSide;
use crate::finding::kind::OrderCost;
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_geom::vector::Point3;
use brimful_job::Job;
use brimful_reach::{Obstacle, Place, Plates, Pose, Scene};
use brimful_units::Length;
use rayon::prelude::*;
use std::ops::Add;

pub use brimful_reach::{PosePart, PoseSolid};

/// What is known of the reach of a tank's runs, whatever stands, and the order that is followed.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// Numbers of the panels but ribs, in the order of the problem's candidates.
    body: Vec<usize>,
    problem: Problem,
    runs: Vec<Run>,
    best: Vec<usize>,
    order: Vec<usize>,
}

/// A step of the build.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildStep {
    /// What is done.
    pub step: Step,
    /// Numbers of the panels that stand before it.
    pub before: Vec<usize>,
    /// Numbers of those that stand after it.
    pub after: Vec<usize>,
    /// The runs that are laid in it.
    pub runs: Vec<BuildRun>,
}

/// A run as it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildRun {
    /// Its number among all runs.
    pub number: usize,
    /// Number of its seam.
    pub seam: usize,
    /// The side it is laid from.
    pub side: WeldSide,
    /// From where to where.
    pub line: [Point3; 2],
    /// Places along it.
    pub places: Vec<BuildPlace>,
}

/// A place of a run, among what stands when it is laid.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildPlace {
    /// Where it is.
    pub at: Point3,
    /// How far it is from where the seam begins.
    pub along: Length,
    /// The stretch that it stands for.
    pub stretch: Length,
    /// Whether gun and hand get there.
    pub is_reached: bool,
    /// Whether it is seen.
    pub is_seen: bool,
    /// Whether the round nozzle does, and the shop's own does not.
    pub by_round_nozzle: bool,
    /// Whether the run is run on there from what it meets, so that no order is chosen by it.
    pub is_end: bool,
    /// Numbers of the fewest panels in the way of gun and hand, or else of the eye.
    pub in_the_way: Vec<usize>,
}

/// A pose at a place of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildPose {
    /// Gun, hand and arm, and where they are free the line of sight.
    pub solids: Vec<PoseSolid>,
    /// Numbers of the panels that they run into; none where the pose is free.
    pub in_the_way: Vec<usize>,
}

impl From<Cost> for OrderCost {
    fn from(cost: Cost) -> Self {
        Self {
            unreached: length(cost.unreached()),
            unseen: length(cost.unseen),
            loose: cost.loose,
            not_square: cost.unsquare,
            against_custom: cost.against_custom,
        }
    }
}

fn length(micrometres: u64) -> Length {
    Length::from_m(micrometres as f64 * 1e-6)
}

impl Assembly {
    /// `body` are the panels of the candidates of `problem`; in `order` panels are set, the ribs too.
    pub(super) fn new(
        body: Vec<usize>,
        problem: Problem,
        runs: Vec<Run>,
        found: &Sequence,
        order: Vec<usize>,
    ) -> Self {
        let best = found.order.iter().map(|&number| body[number]).collect();
        Self {
            best,
            body,
            problem,
            runs,
            order,
        }
    }

    /// The same with another order followed.
    pub(super) fn in_order(self, order: Vec<usize>) -> Self {
        Self { order, ..self }
    }

    pub(super) fn runs(&self) -> &[Run] {
        &self.runs
    }

    /// Numbers of the panels in the order in which they are set, ribs last.
    pub fn order(&self) -> &[usize] {
        &self.order
    }

    /// The same of the best order that was found, without ribs.
    pub fn best(&self) -> &[usize] {
        &self.best
    }

    /// What an order of the panels costs at each of its steps, ribs left out.
    pub fn costs(&self, order: &[usize]) -> Vec<OrderCost> {
        let costs = self.each(order).into_iter();
        costs.map(OrderCost::from).collect()
    }

    /// What each of these steps costs in the order that is followed; none of a step that sets no panel, and of a rib.
    pub fn costs_of(&self, steps: &[Step]) -> Vec<Option<OrderCost>> {
        let mut costs = self.costs(&self.order).into_iter();
        let is_of_body = |step: &Step| {
            let mut panels = step.panels.iter();
            step.work == Work::Set && panels.any(|panel| self.body.contains(panel))
        };
        let steps = steps.iter();
        steps
            .map(|step| is_of_body(step).then(|| costs.next()).flatten())
            .collect()
    }

    /// What an order costs together.
    pub fn cost(&self, order: &[usize]) -> OrderCost {
        self.sum(order).into()
    }

    /// Whether an order costs more than another; the first that differs decides, what could not be laid at all
    /// before what is welded from one side, then as the fields of [`OrderCost`] stand.
    pub fn is_worse(&self, order: &[usize], than: &[usize]) -> bool {
        self.sum(order) > self.sum(than)
    }

    fn sum(&self, order: &[usize]) -> Cost {
        self.each(order).into_iter().fold(Cost::default(), Add::add)
    }

    fn each(&self, order: &[usize]) -> Vec<Cost> {
        let candidate = |panel: &usize| self.body.iter().position(|it| it == panel);
        let mut standing = 0;
        let of = |next: usize| {
            let cost = self.problem.cost(standing, next);
            standing |= 1 << next;
            cost
        };
        order.iter().filter_map(candidate).map(of).collect()
    }

    /// The steps of the work in an order of all panels.
    pub fn build(
        &self,
        order: &[usize],
        panels: &[Panel],
        seams: &[Seam],
        welds: &[SeamWeld],
    ) -> Vec<BuildStep> {
        let mut standing: Vec<usize> = Vec::new();
        let steps = steps(panels, seams, welds, &self.runs, order).into_iter();
        let build = |step: Step| {
            let before = standing.clone();
            if step.work == Work::Set {
                standing.extend(&step.panels);
            }
            BuildStep {
                runs: self.laid_in(&step, &before),
                before,
                after: standing.clone(),
                step,
            }
        };
        steps.map(build).collect()
    }

    fn laid_in(&self, step: &Step, standing: &[usize]) -> Vec<BuildRun> {
        let side = match step.work {
            Work::WeldInside => WeldSide::Inside,
            Work::WeldOutside => WeldSide::Outside,
            Work::Set | Work::Tack | Work::Turn => return Vec::new(),
        };
        let standing: Plates = standing.iter().copied().collect();
        let runs = self.runs.iter().enumerate();
        let own = runs.filter(|(_, run)| run.side == side && step.seams.contains(&run.seam));
        let run = |(number, run): (usize, &Run)| BuildRun {
            number,
            seam: run.seam,
            side,
            line: [run.line.from, run.line.to],
            places: run
                .places
                .iter()
                .map(|it| among(run, it, standing))
                .collect(),
        };
        own.map(run).collect()
    }

    /// A pose at each place of a run while these panels stand: a free one where it is reached, and where not the one that runs
    /// into the fewest of them; none where gun and arm have no pose at all. Nothing of a run that there is not.
    pub fn poses(
        &self,
        job: &Job,
        panels: &[Panel],
        run: usize,
        standing: &[usize],
    ) -> Vec<Option<BuildPose>> {
        let Some(run) = self.runs.get(run) else {
            return Vec::new();
        };
        let obstacles: Vec<Obstacle> = panels.iter().map(|it| Obstacle::of(&it.finished)).collect();
        let kit = Kit::of(job);
        let scene = Scene::new(&obstacles, kit.passage.m(), kit.clearance.m());
        let standing: Plates = standing.iter().copied().collect();
        let places = run.places.par_iter();
        places
            .map(|place| pose(&scene, &kit, run, place, standing))
            .collect()
    }
}

fn among(run: &Run, place: &RunPlace, standing: Plates) -> BuildPlace {
    let is_reached = place.any.is_reached(standing);
    let is_seen = place.hidden_by.is_reached(standing);
    let blocks = match is_reached {
        true => &place.hidden_by,
        false => &place.any,
    };
    let in_the_way = match is_reached && is_seen {
        true => Vec::new(),
        // Where no pose gets there whatever else is away, the seam's own panels are.
        false => blocks
            .in_the_way(standing)
            .map_or(run.panels.to_vec(), |it| it.numbers().collect()),
    };
    BuildPlace {
        at: run.at(place),
        along: place.along,
        stretch: place.stretch,
        is_reached,
        is_seen,
        by_round_nozzle: is_reached && !place.own.is_reached(standing),
        is_end: place.is_end,
        in_the_way,
    }
}

fn pose(
    scene: &Scene<'_>,
    kit: &Kit,
    run: &Run,
    place: &RunPlace,
    standing: Plates,
) -> Option<BuildPose> {
    let at = Place {
        at: run.at(place),
        along: run.along()?,
        out: run.line.out,
        own: run.panels.into_iter().collect(),
    };
    let by_hand = kit.by_hand.as_ref().filter(|_| {
        let is_by_hand = place.any.is_reached(standing) && !place.own.is_reached(standing);
        is_by_hand || kit.own.is_none()
    });
    let tool = by_hand.or(kit.own.as_ref())?;
    let of_hand = scene.pose(standing, &at, tool, &kit.arm)?;
    // Of what no hand gets to, what hides it is no matter.
    let is_free = of_hand.runs_into == Plates::NONE;
    let of_eye = is_free.then(|| scene.line_of_sight(standing, &at, &kit.sight));
    let both = [Some(of_hand), of_eye.flatten()].into_iter().flatten();
    let both: Vec<Pose> = both.collect();
    let into = both.iter().map(|pose| pose.runs_into);
    Some(BuildPose {
        in_the_way: into.fold(Plates::NONE, Plates::and).numbers().collect(),
        solids: both.into_iter().flat_map(|pose| pose.solids).collect(),
    })
}
