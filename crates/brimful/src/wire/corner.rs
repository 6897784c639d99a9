//! How runs meet at corners, and how a run is stopped and taken up again, as JSON.

use super::mark;
use super::point::point;
use brimful_panels::weld::corner::{self, ShortRun};
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::{Angle, Length};
use schemars::JsonSchema;
use serde::Serialize;

/// Where three runs of one side and more meet.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Corner {
    at_m: [f64; 3],
    /// The side that its runs are laid from.
    #[schemars(extend("enum" = ["inside", "outside"]))]
    side: &'static str,
    /// Marks of the panels that meet.
    panels: Vec<String>,
    /// In the order in which they are laid.
    passes: Vec<Pass>,
    /// Whether so many runs meet that they cross.
    crossing: bool,
    /// Whether it is an inside corner of the body.
    re_entrant: bool,
    /// Mark of a panel with a stop hole that the run through the corner fills; null where there is none.
    stop_hole: Option<String>,
    /// All of it in a sentence.
    text: String,
}

/// One run at a corner.
#[derive(Debug, Serialize, JsonSchema)]
struct Pass {
    /// Mark of the seam.
    seam: String,
    /// How it passes.
    #[schemars(extend("enum" = ["past the edge", "through", "against"]))]
    way: &'static str,
    /// How far from the corner the long run is taken up on the short one; null where the short run is all of the seam.
    taken_up_m: Option<f64>,
}

/// How a run is stopped and taken up again.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Restart {
    /// The slope that the end of the old run is cut to: the flattest and the steepest.
    wedge_rad: [f64; 2],
    /// How far the new run begins on the old one: the least and the greatest.
    overlap_m: [f64; 2],
    /// How far starts of neighbouring runs are apart, at least.
    stagger_m: f64,
    /// No start or stop is nearer to a corner.
    from_corner_m: f64,
    /// Nor to one where a wall stands ahead.
    from_wall_m: f64,
    /// What the short run through a corner is laid with.
    #[schemars(extend("enum" = ["round nozzle", "same nozzle", "none"]))]
    short_run: &'static str,
    /// How corners are welded, in sentences: warmed, the short run, taking up.
    text: Vec<String>,
    /// Where the figures are from, and how sure they are.
    source: String,
}

pub(super) fn corner(plan: &Plan, corner: &corner::Corner, words: &Words<'_>) -> Corner {
    let pass = |it: &corner::Pass| Pass {
        seam: mark::seam(plan, it.seam),
        way: it.way.key(),
        taken_up_m: it.taken_up.map(Length::m),
    };
    let panels = corner.panels.iter();
    Corner {
        at_m: point(corner.at),
        side: corner.side.key(),
        panels: panels.map(|&it| mark::panel(plan, it)).collect(),
        passes: corner.passes.iter().map(pass).collect(),
        crossing: corner.is_crossing(),
        re_entrant: corner.is_re_entrant,
        stop_hole: corner.stop_hole.map(|it| mark::panel(plan, it)),
        text: words.corner(corner, plan).into(),
    }
}

pub(super) fn restart(plan: &Plan, words: &Words<'_>) -> Restart {
    let restart = &plan.restart;
    let text = [
        words.corner_preheat(),
        words.corner_rule(restart),
        words.restart_rule(restart),
    ];
    Restart {
        wedge_rad: restart.wedge.map(Angle::rad),
        overlap_m: restart.overlap.map(Length::m),
        stagger_m: restart.stagger.m(),
        from_corner_m: restart.from_corner.m(),
        from_wall_m: restart.from_wall.m(),
        short_run: match restart.short_run {
            ShortRun::RoundNozzle => "round nozzle",
            ShortRun::SameNozzle => "same nozzle",
            ShortRun::None => "none",
        },
        text: text.map(String::from).into(),
        source: words.restart_sources().into(),
    }
}
