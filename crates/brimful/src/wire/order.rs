//! The build step by step, in an order of setting the panels, for whoever plays it.

use super::bench;
use super::mark;
use super::point::point;
use brimful_panels::finding::kind::OrderCost;
use brimful_panels::weld::assembly::{
    Assembly, BuildPlace, BuildPose, BuildRun, BuildStep, PosePart,
};
use brimful_panels::weld::bench::{BenchStep, bench as bench_steps};
use brimful_panels::weld::order::Step as OrderStep;
use brimful_panels::weld::work::OrderedBy;
use brimful_tank::plan::Plan;
use brimful_text::Words;
use schemars::JsonSchema;
use serde::Serialize;

/// An order of work, what it costs, and its steps.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct OrderOfWork {
    /// By what the plan's own order was chosen: `search` or `maker`.
    #[schemars(extend("enum" = ["search", "maker"]))]
    by: &'static str,
    /// Whether this order costs more than the best one found.
    is_worse: bool,
    /// The panels but ribs, in this order.
    panels: Vec<Ordered>,
    cost: OrderCost,
    /// What it costs, in words.
    text: String,
    best: Best,
    steps: Vec<Step>,
}

/// A panel in its place of the order.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OrderedPanel")]
struct Ordered {
    mark: String,
    /// As the job file writes it.
    name: String,
    /// What setting it next costs.
    cost: OrderCost,
    /// The same in words; null where it costs nothing.
    text: Option<String>,
}

/// The best order found.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BestOrder")]
struct Best {
    /// Marks of its panels but ribs.
    panels: Vec<String>,
    cost: OrderCost,
    text: String,
}

/// A step as at the bench, with what stands.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BuildStep")]
struct Step {
    #[serde(flatten)]
    step: bench::Step,
    /// Marks of the panels that stand before it.
    before: Vec<String>,
    /// Marks of those that stand after it.
    after: Vec<String>,
    /// The runs that are laid in it.
    runs: Vec<Run>,
}

/// A run as it is laid.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BuildRun")]
struct Run {
    /// Its number among all runs of the tank.
    run: usize,
    /// Mark of its seam.
    seam: String,
    #[schemars(extend("enum" = ["inside", "outside"]))]
    side: &'static str,
    #[schemars(with = "[brimful_geom::vector::Point3; 2]")]
    line_m: [[f64; 3]; 2],
    places: Vec<Place>,
}

/// A place of a run, among what stands when it is laid.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BuildPlace")]
struct Place {
    #[schemars(with = "brimful_geom::vector::Point3")]
    at_m: [f64; 3],
    /// From where the seam begins.
    along_m: f64,
    /// The stretch that it stands for.
    stretch_m: f64,
    /// Whether gun and hand get there.
    is_reached: bool,
    /// Whether it is seen.
    is_seen: bool,
    /// Whether the round nozzle gets there, and the shop's own does not.
    by_round_nozzle: bool,
    /// Whether the run is run on there from what it meets; no order is chosen by it.
    is_end: bool,
    /// Marks of the fewest panels in the way of gun and hand, or else of the eye.
    in_the_way: Vec<String>,
}

/// A pose of gun, hand, arm and eye.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BuildPose")]
pub(crate) struct Pose {
    solids: Vec<Solid>,
    /// Marks of the panels that they run into; none where the pose is free.
    in_the_way: Vec<String>,
}

/// A segment with a radius.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PoseSolid")]
struct Solid {
    #[schemars(extend("enum" = ["gun", "hand", "rod", "forearm", "upper_arm", "body", "sight"]))]
    part: &'static str,
    #[schemars(with = "brimful_geom::vector::Point3")]
    from_m: [f64; 3],
    #[schemars(with = "brimful_geom::vector::Point3")]
    to_m: [f64; 3],
    radius_m: f64,
}

/// The build of a plan in an order of all its panels.
pub(crate) fn order(
    plan: &Plan,
    assembly: &Assembly,
    order: &[usize],
    words: &Words<'_>,
) -> OrderOfWork {
    let steps = assembly.build(order, &plan.panels, &plan.seams, &plan.welds.welds);
    let cost = assembly.cost(order);
    let best = assembly.cost(assembly.best());
    let ordered = order.iter().zip(assembly.costs(order));
    OrderOfWork {
        by: match plan.order.by {
            OrderedBy::Maker => "maker",
            OrderedBy::Search | OrderedBy::Rule => "search",
        },
        is_worse: assembly.is_worse(order, assembly.best()),
        panels: ordered
            .map(|(&panel, cost)| Ordered {
                mark: mark::panel(plan, panel),
                name: plan.panels[panel].name.to_string(),
                cost,
                text: (cost != OrderCost::default()).then(|| words.order_cost(&cost).into()),
            })
            .collect(),
        cost,
        text: words.order_cost(&cost).into(),
        best: Best {
            panels: marks(plan, assembly.best()),
            cost: best,
            text: words.order_cost(&best).into(),
        },
        steps: steps_of(plan, steps, words),
    }
}

fn steps_of(plan: &Plan, steps: Vec<BuildStep>, words: &Words<'_>) -> Vec<Step> {
    let works: Vec<OrderStep> = steps.iter().map(|it| it.step.clone()).collect();
    let of_bench = bench_steps(
        &works,
        plan.heat.as_ref(),
        &plan.panels,
        &plan.seams,
        &[],
        &[],
    );
    // Test strips come before the order, and the water test after it. What holds a panel is known of the plan's own order alone.
    let of_order = of_bench.into_iter().filter(|it| it.order.is_some());
    let of_bench = of_order.map(|it| BenchStep { order: None, ..it });
    let step = |(build, step): (BuildStep, _)| Step {
        step: bench::step(plan, step, words),
        before: marks(plan, &build.before),
        after: marks(plan, &build.after),
        runs: build.runs.iter().map(|it| run(plan, it)).collect(),
    };
    steps.into_iter().zip(of_bench).map(step).collect()
}

fn run(plan: &Plan, run: &BuildRun) -> Run {
    Run {
        run: run.number,
        seam: mark::seam(plan, run.seam),
        side: run.side.key(),
        line_m: run.line.map(point),
        places: run.places.iter().map(|it| place(plan, it)).collect(),
    }
}

fn place(plan: &Plan, place: &BuildPlace) -> Place {
    Place {
        at_m: point(place.at),
        along_m: place.along.m(),
        stretch_m: place.stretch.m(),
        is_reached: place.is_reached,
        is_seen: place.is_seen,
        by_round_nozzle: place.by_round_nozzle,
        is_end: place.is_end,
        in_the_way: marks(plan, &place.in_the_way),
    }
}

/// A pose as JSON.
pub(crate) fn pose(plan: &Plan, pose: &BuildPose) -> Pose {
    let solids = pose.solids.iter().map(|solid| Solid {
        part: key(solid.part),
        from_m: point(solid.capsule.from),
        to_m: point(solid.capsule.to),
        radius_m: solid.capsule.radius,
    });
    Pose {
        solids: solids.collect(),
        in_the_way: marks(plan, &pose.in_the_way),
    }
}

const fn key(part: PosePart) -> &'static str {
    match part {
        PosePart::Tool => "gun",
        PosePart::Hand => "hand",
        PosePart::Feed => "rod",
        PosePart::Forearm => "forearm",
        PosePart::UpperArm => "upper_arm",
        PosePart::Body => "body",
        PosePart::Sight => "sight",
    }
}

fn marks(plan: &Plan, panels: &[usize]) -> Vec<String> {
    let panels = panels.iter();
    panels.map(|&panel| mark::panel(plan, panel)).collect()
}
