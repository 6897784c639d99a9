//! Runs, rod, hours and the order of work as JSON.

use super::corner::{self, Corner, Restart};
use super::fixture::{self, Fixtures};
use super::mark;
use super::point::flat_point;

use brimful_panels::finding::kind::OrderCost;
use brimful_panels::weld::SeamWeld;
use brimful_panels::weld::cautions::Caution as CautionId;
use brimful_panels::weld::heat;
use brimful_strength::whole;
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::{Angle, Force, Length, Speed, Time};
use schemars::JsonSchema;
use serde::Serialize;

/// All the welding of the tank.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Weld {
    /// What is laid from either side, in the order of the seams.
    welds: Vec<Laid>,
    /// Rod needed, a line a size.
    rods: Vec<Rod>,
    /// Working time, line by line, from sawing to the leak test.
    hours: Vec<Hours>,
    hours_total_s: f64,
    /// What is waited for beside it.
    waits: Vec<Waited>,
    waits_total_s: f64,
    /// Published settings, each in the unit that a shop of the job's units dials it in.
    settings: Vec<Setting>,
    /// Null where the sheet has no melting point or no published settings.
    heat: Option<Heat>,
    /// Null in a draft, or where it cannot be said.
    pull: Option<Pull>,
    /// The order of work.
    steps: Vec<Step>,
    /// What holds each panel while it is tacked and welded.
    fixtures: Fixtures,
    /// Where three runs of one side and more meet.
    corners: Vec<Corner>,
    /// How a run is stopped and taken up again.
    restart: Restart,
    cautions: Vec<Caution>,
}

/// What is laid into one seam from one side.
#[derive(Debug, Serialize, JsonSchema)]
struct Laid {
    /// Mark of the seam.
    seam: String,
    /// From where it is laid.
    #[schemars(extend("enum" = ["inside", "outside"]))]
    side: &'static str,
    /// What it is laid with, but for its short runs.
    #[schemars(extend("enum" = ["speed nozzle", "round nozzle", "extruder"]))]
    tool: &'static str,
    /// V, half V, fillet, ...
    kind: String,
    /// How the edges are prepared.
    preparation: String,
    /// The section that rod fills, in a frame across the seam.
    section_m: Vec<[f64; 2]>,
    area_m2: f64,
    throat_m: f64,
    length_m: f64,
    /// From where to where along the seam gun and hand do not get, so that nothing is laid.
    left_out_m: Vec<[f64; 2]>,
    /// Short runs through corners with the round nozzle; null where the same tool lays the long ones, or no corner is met.
    short_runs: Option<ShortRuns>,
    /// Place of its rod in the job's list of rods, from 0.
    rod: usize,
    runs: usize,
    /// Runs with each rod of the job.
    runs_by_rod: Vec<usize>,
    /// Waste, starts, ends and overlaps included.
    rod_length_m: f64,
    rod_mass_kg: f64,
    /// Rod of each run by hot gas; null of an extruder.
    run_rod: Option<RunRod>,
    speed_m_s: f64,
    /// What bounds the speed.
    #[schemars(extend("enum" = ["speed", "rod", "output"]))]
    speed_bound: &'static str,
    /// Of laying one long run.
    run_s: f64,
}

/// Short runs through corners with the round nozzle.
#[derive(Debug, Serialize, JsonSchema)]
struct ShortRuns {
    /// From where to where along the seam.
    stretches_m: Vec<[f64; 2]>,
    /// How many, one on the other.
    runs: usize,
    speed_m_s: f64,
}

/// Rod of one run.
#[derive(Debug, Serialize, JsonSchema)]
struct RunRod {
    /// To cut off and mark.
    cut_m: f64,
    /// Where more than this of it is left over once the run is laid, the rod was stretched.
    most_left_m: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Rod {
    /// Place in the job's list of rods, from 0.
    rod: usize,
    diameter_m: f64,
    length_m: f64,
    mass_kg: f64,
    /// Null where the job does not say.
    on_hand_m: Option<f64>,
    /// To buy beside it; null where the job does not say what one weighs.
    coils: Option<usize>,
}

/// One wait, all together.
#[derive(Debug, Serialize, JsonSchema)]
struct Waited {
    /// A word for it that is the same in every language.
    #[schemars(extend("enum" = ["next run", "before turning", "last beads", "leak test"]))]
    kind: &'static str,
    what: String,
    time_s: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Hours {
    /// A word for it that is the same in every language.
    kind: &'static str,
    what: String,
    /// In `quantity_unit`.
    quantity: f64,
    /// `m` or `ft`, `kg` or `lb`, `L` or `US gal`, or `count`.
    quantity_unit: &'static str,
    /// The shop's rate, in words.
    rate: String,
    time_s: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Setting {
    /// Of which tool.
    #[schemars(extend("enum" = ["speed nozzle", "round nozzle", "extruder"]))]
    tool: &'static str,
    /// The tool in words.
    tool_text: String,
    quantity: String,
    low: f64,
    high: f64,
    unit: String,
    source: String,
}

/// The heat of the welds, worked out by conduction with melting.
#[derive(Debug, Serialize, JsonSchema)]
struct Heat {
    /// How deep the faces of a groove melt: the least, the likely and the greatest.
    melted_m: [f64; 3],
    /// How deep they have to.
    asked_m: f64,
    speed_m_s: f64,
    /// Where even the greatest depth is not enough: a speed at which the likely one is; else null.
    slower_m_s: Option<f64>,
    waits: Vec<Wait>,
    /// All of it in a sentence.
    text: String,
    sources: Vec<String>,
}

/// How far the welds pull panels and corners while they cool, in this order of work; each the least, the likely and the
/// greatest.
#[derive(Debug, Serialize, JsonSchema)]
struct Pull {
    /// By what share a bead draws in along itself.
    strain: [f64; 3],
    source: String,
    panels: Vec<Bow>,
    seams: Vec<Lean>,
    /// The most that anything is off, welded as in the order of work.
    greatest: GreatestPull,
    /// The same if each seam were welded inside as soon as both its panels stand; null where that is the order of work, or has no
    /// answer.
    greatest_as_set: Option<GreatestPull>,
    /// The panels that do not fit what stands when they are set.
    misfits: Vec<Misfit>,
}

/// The most that panels and corners are off.
#[derive(Debug, Serialize, JsonSchema)]
struct GreatestPull {
    bow_m: [f64; 3],
    lean_rad: [f64; 3],
}

/// A panel that does not fit what stands when it is set.
#[derive(Debug, Serialize, JsonSchema)]
struct Misfit {
    /// Mark of the panel.
    panel: String,
    /// How far the edges that it ends between have come in over its own; null where that is no more than tacks draw together.
    inward_m: Option<[f64; 3]>,
    /// What springs it to the edges that it lies over; null where they are flat.
    sprung: Option<Sprung>,
}

/// A panel that has to be bent to edges that welds have drawn out of line.
#[derive(Debug, Serialize, JsonSchema)]
struct Sprung {
    /// How far the edges lie off a plane.
    gap_m: [f64; 3],
    force_n: [f64; 3],
    /// The greatest strain of the sheet.
    strain: [f64; 3],
    /// What strain a lasting load may cause.
    allowed_strain: f64,
}

/// How far a panel leaves the plane nearest to it, from its lowest place to its highest.
#[derive(Debug, Serialize, JsonSchema)]
struct Bow {
    /// Mark of the panel.
    panel: String,
    bow_m: [f64; 3],
    /// To which side of the tank its middle goes; null of an inner panel, and where it twists.
    #[schemars(extend("enum" = ["out", "in", null]))]
    way: Option<&'static str>,
}

/// By how much the angle at a seam changes once both panels are set; what closes is positive.
#[derive(Debug, Serialize, JsonSchema)]
struct Lean {
    /// Mark of the seam.
    seam: String,
    /// What the angle is between: two panels at a corner; two in one plane, where closing is hollow inside; or one that stands on
    /// another and that other, on the side of the first bead.
    #[schemars(extend("enum" = ["corner", "flush", "foot"]))]
    at: &'static str,
    /// By how much it is set the other way beforehand; null where it is held by then.
    set_against_rad: Option<[f64; 3]>,
    /// Before a panel is set that meets both and holds them at their angle; null where the seam is not welded before.
    free_rad: Option<[f64; 3]>,
    /// In the end, counted from there.
    lean_rad: [f64; 3],
    /// The same when the first of its two sides has been laid; null of a seam that has one, or gets both in one step.
    one_side_rad: Option<[f64; 3]>,
}

/// How long beads cool until they are hand-warm.
#[derive(Debug, Serialize, JsonSchema)]
struct Wait {
    /// Of the thinner sheet at the seam.
    thickness_m: f64,
    /// Before the next run; null where one run fills each groove.
    next_run_s: Option<f64>,
    /// Before clamps come off or the tank is turned.
    clamps_s: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Step {
    /// What is done.
    #[schemars(extend("enum" = ["set", "tack", "weld inside", "turn", "weld outside"]))]
    work: &'static str,
    /// Marks of the panels.
    panels: Vec<String>,
    /// Marks of the seams.
    seams: Vec<String>,
    /// What setting the panel next costs; null of a step that sets none, of a rib, and where reach is not known.
    cost: Option<OrderCost>,
    /// In a sentence.
    text: String,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Caution {
    about: String,
    text: String,
    source: String,
}

pub(super) fn weld(plan: &Plan, words: &Words<'_>) -> Weld {
    let welds = &plan.welds;
    Weld {
        welds: welds
            .welds
            .iter()
            .map(|weld| laid(plan, weld, words))
            .collect(),
        rods: welds
            .rods
            .iter()
            .map(|rod| Rod {
                rod: rod.rod,
                diameter_m: rod.diameter.m(),
                length_m: rod.length.m(),
                mass_kg: rod.mass.kg(),
                on_hand_m: rod.on_hand.map(Length::m),
                coils: rod.coils,
            })
            .collect(),
        hours: plan
            .hours
            .lines
            .iter()
            .map(|line| {
                let (quantity, unit) = words.amount_in_unit(line.amount);
                Hours {
                    kind: line.what.key(),
                    what: words.labour(line.what).into(),
                    quantity,
                    quantity_unit: unit.unwrap_or("count"),
                    rate: words.rate(line.amount).into(),
                    time_s: line.time.s(),
                }
            })
            .collect(),
        hours_total_s: plan.hours.work().s(),
        waits: plan
            .hours
            .waits
            .iter()
            .map(|wait| Waited {
                kind: wait.what.key(),
                what: words.waiting(wait.what).into(),
                time_s: wait.time.s(),
            })
            .collect(),
        waits_total_s: plan.hours.waiting().s(),
        settings: welds
            .settings
            .iter()
            .map(|setting| {
                let ([low, high], unit) = words.dialled(setting.range);
                Setting {
                    tool: setting.tool.key(),
                    tool_text: words.tool(setting.tool).into(),
                    quantity: words.setting(setting.quantity).into(),
                    low,
                    high,
                    unit: unit.to_owned(),
                    source: words.source(&setting.source).into(),
                }
            })
            .collect(),
        heat: plan.heat.as_ref().map(|it| heat(it, words)),
        pull: plan.pull().map(|it| pull(plan, it, words)),
        steps: plan
            .order
            .steps
            .iter()
            .zip(plan.order.costs())
            .map(|(step, cost)| Step {
                cost,
                work: step.work.key(),
                panels: step
                    .panels
                    .iter()
                    .map(|&it| mark::panel(plan, it))
                    .collect(),
                seams: step.seams.iter().map(|&it| mark::seam(plan, it)).collect(),
                text: words.step(step, plan).into(),
            })
            .collect(),
        fixtures: fixture::fixtures(plan, words),
        corners: plan
            .corners
            .iter()
            .map(|it| corner::corner(plan, it, words))
            .collect(),
        restart: corner::restart(plan, words),
        cautions: CautionId::ALL
            .map(|caution| words.caution(caution))
            .map(|caution| Caution {
                about: caution.about.into(),
                text: caution.text.into(),
                source: caution.source.into(),
            })
            .into(),
    }
}

fn heat(heat: &heat::Heat, words: &Words<'_>) -> Heat {
    let waits = heat.waits.iter();
    let sources = heat.sources.iter();
    Heat {
        melted_m: heat.melted.map(Length::m),
        asked_m: heat.asked.m(),
        speed_m_s: heat.speed.m_s(),
        slower_m_s: heat.slower.map(Speed::m_s),
        waits: waits
            .map(|wait| Wait {
                thickness_m: wait.thickness.m(),
                next_run_s: wait.next_run.map(Time::s),
                clamps_s: wait.clamps.s(),
            })
            .collect(),
        text: words.melted(heat).into(),
        sources: sources.map(|it| words.source(it).into()).collect(),
    }
}

fn pull(plan: &Plan, pull: &whole::Pull, words: &Words<'_>) -> Pull {
    let bow = |it: &whole::Bow| Bow {
        panel: mark::panel(plan, it.panel),
        bow_m: it.bow.map(Length::m),
        way: it.way.map(whole::Way::key),
    };
    let lean = |it: &whole::Lean| Lean {
        seam: mark::seam(plan, it.seam),
        at: it.at.key(),
        set_against_rad: it.set_against().map(|lean| lean.map(Angle::rad)),
        free_rad: it.free.map(|lean| lean.map(Angle::rad)),
        lean_rad: it.lean.map(Angle::rad),
        one_side_rad: it.one_side.map(|lean| lean.map(Angle::rad)),
    };
    let greatest = |it: &whole::Greatest| GreatestPull {
        bow_m: it.bow.map(Length::m),
        lean_rad: it.lean.map(Angle::rad),
    };
    let sprung = |it: whole::Sprung| Sprung {
        gap_m: it.gap.map(Length::m),
        force_n: it.force.map(Force::n),
        strain: it.strain,
        allowed_strain: it.allowed,
    };
    let misfit = |it: &whole::Misfit| Misfit {
        panel: mark::panel(plan, it.panel),
        inward_m: it.inward.map(|inward| inward.map(Length::m)),
        sprung: it.sprung.map(sprung),
    };
    Pull {
        greatest: greatest(&pull.greatest),
        greatest_as_set: pull.greatest_as_set.as_ref().map(greatest),
        misfits: pull.misfits.iter().map(misfit).collect(),
        strain: pull.inherent.strain,
        source: words.source(&pull.inherent.source).into(),
        panels: pull.panels.iter().map(bow).collect(),
        seams: pull.seams.iter().map(lean).collect(),
    }
}

fn in_metres(stretches: &[[Length; 2]]) -> Vec<[f64; 2]> {
    let stretches = stretches.iter();
    stretches.map(|ends| ends.map(Length::m)).collect()
}

fn laid(plan: &Plan, weld: &SeamWeld, words: &Words<'_>) -> Laid {
    Laid {
        seam: mark::seam(plan, weld.seam),
        side: weld.side.key(),
        tool: weld.tool(&plan.job.shop).key(),
        kind: words.groove(weld.kind).into(),
        preparation: words.preparation(weld.preparation).into(),
        section_m: weld.section.0.iter().map(|&p| flat_point(p)).collect(),
        area_m2: weld.area.m2(),
        throat_m: weld.throat.m(),
        length_m: weld.length.m(),
        left_out_m: in_metres(&weld.left_out),
        short_runs: weld.short_runs.as_ref().map(|short| ShortRuns {
            stretches_m: in_metres(&short.stretches),
            runs: short.runs,
            speed_m_s: short.speed.m_s(),
        }),
        rod: weld.rod,
        runs: weld.runs,
        runs_by_rod: weld.runs_by_rod.clone(),
        rod_length_m: weld.rod_length.m(),
        rod_mass_kg: weld.rod_mass.kg(),
        run_rod: weld.run_rod.map(|run| RunRod {
            cut_m: run.cut.m(),
            most_left_m: run.most_left.m(),
        }),
        speed_m_s: weld.speed.m_s(),
        speed_bound: weld.bound.key(),
        run_s: weld.run_time().s(),
    }
}
