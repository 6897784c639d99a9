//! The sheet layouts as JSON. Places on a sheet are measured from its corner, along its length
//! and its width.

use super::mark;
use brimful_nest::{Rect, Reference, Runs, Verdict, Why};
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// How all panels are cut.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Cut {
    /// Sheets used in all.
    sheets: usize,
    /// One a thickness, thickest first.
    groups: Vec<Group>,
}

/// The panels of one thickness.
#[derive(Debug, Serialize, JsonSchema)]
struct Group {
    thickness_m: f64,
    /// The rectangle each panel is first sawn to.
    blanks: Vec<Blank>,
    layouts: Vec<Layout>,
    /// Panels that are on no sheet.
    left_out: Vec<LeftOut>,
    /// No layout uses fewer sheets than this.
    least_sheets: usize,
    /// `proven best`, `better not excluded`, `stock short` or `stock proven short`.
    verdict: &'static str,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Blank {
    /// Mark of the panel.
    panel: String,
    length_m: f64,
    width_m: f64,
    /// Whether angles, notches or bevels are cut afterwards.
    second_operations: bool,
}

/// One sheet and how to saw it.
#[derive(Debug, Serialize, JsonSchema)]
struct Layout {
    /// Place in the job's list of sheets, from 0.
    stock_sheet: usize,
    length_m: f64,
    width_m: f64,
    parts: Vec<Part>,
    /// In the order of sawing.
    cuts: Vec<SawCut>,
    /// Largest first.
    offcuts: Vec<Place>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Part {
    /// Mark of the panel.
    panel: String,
    place: Place,
    /// True where the panel's length lies along the sheet's width.
    turned: bool,
}

/// A rectangle on the sheet.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Place {
    /// Its nearest corner.
    at_m: [f64; 2],
    /// Along the sheet's length and width.
    size_m: [f64; 2],
}

/// One cut from edge to edge of a piece.
#[derive(Debug, Serialize, JsonSchema)]
struct SawCut {
    number: usize,
    /// The piece that is cut.
    piece: Place,
    /// `along length` or `along width` of the sheet.
    #[schemars(extend("enum" = ["along length", "along width"]))]
    runs: &'static str,
    /// The edge of the piece against the fence: `near` the sheet's corner, or `far` from it.
    #[schemars(extend("enum" = ["near", "far"]))]
    against: &'static str,
    /// From the fence to the near side of the blade.
    fence_m: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct LeftOut {
    /// Mark of the panel.
    panel: String,
    /// `fits no sheet`, `no cut frees it` or `stock used up`.
    why: &'static str,
}

pub(super) fn cut(plan: &Plan) -> Cut {
    Cut {
        sheets: plan.cut.sheets(),
        groups: plan.cut.groups.iter().map(|it| group(plan, it)).collect(),
    }
}

fn group(plan: &Plan, group: &CutGroup) -> Group {
    let blanks = group.blanks.iter();
    let left_out = group.plan.left_out.iter();
    Group {
        thickness_m: group.thickness.m(),
        blanks: blanks
            .map(|blank| Blank {
                panel: mark::panel(plan, blank.panel),
                length_m: blank.length.m(),
                width_m: blank.width.m(),
                second_operations: blank.second_operations,
            })
            .collect(),
        layouts: group
            .plan
            .layouts
            .iter()
            .map(|it| layout(plan, it))
            .collect(),
        left_out: left_out
            .map(|out| LeftOut {
                panel: mark::panel(plan, out.part),
                why: match out.why {
                    Why::FitsNoSheet => "fits no sheet",
                    Why::NoCutFreesIt => "no cut frees it",
                    Why::StockUsedUp => "stock used up",
                },
            })
            .collect(),
        least_sheets: group.plan.bound.sheets,
        verdict: match group.plan.verdict {
            Verdict::ProvenBest => "proven best",
            Verdict::Gap { .. } => "better not excluded",
            Verdict::StockShort { proven: false } => "stock short",
            Verdict::StockShort { proven: true } => "stock proven short",
        },
    }
}

fn layout(plan: &Plan, layout: &brimful_nest::Layout) -> Layout {
    let sheet = layout.root.rect;
    Layout {
        stock_sheet: layout.sheet,
        length_m: sheet.length,
        width_m: sheet.width,
        parts: layout
            .placements()
            .iter()
            .map(|part| Part {
                panel: mark::panel(plan, part.part),
                place: place(part.rect),
                turned: part.turned,
            })
            .collect(),
        cuts: layout
            .cuts()
            .into_iter()
            .map(|(piece, cut)| SawCut {
                number: cut.number,
                piece: place(piece),
                runs: match cut.runs {
                    Runs::AlongLength => "along length",
                    Runs::AlongWidth => "along width",
                },
                against: match cut.reference {
                    Reference::Near => "near",
                    Reference::Far => "far",
                },
                fence_m: cut.fence,
            })
            .collect(),
        offcuts: layout.offcuts().into_iter().map(place).collect(),
    }
}

pub(super) fn place(rect: Rect) -> Place {
    Place {
        at_m: [rect.x, rect.y],
        size_m: [rect.length, rect.width],
    }
}
