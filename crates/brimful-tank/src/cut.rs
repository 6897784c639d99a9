//! The cut layout: which panel comes out of which sheet, by which cuts.
//!
//! Each panel is sawn out as the rectangle that covers both its faces; angled sides, notches and
//! bevels are second operations on that blank. One layout a thickness.

use crate::finding::{Finding, Grade, Quantity};
use crate::panel::Panel;
use brimful_job::{Cutting, Job};
use brimful_nest::{NestError, Part, Settings, Sheet, Verdict, Why, nest};
use brimful_units::Length;

/// Sheets whose nominal thickness differs by less than this are one thickness: a hundredth of a
/// millimetre, so that 3/8 in and 9.525 mm are the same.
const SAME_THICKNESS: f64 = 1e-5;

/// How all panels are cut.
#[derive(Clone, Debug, PartialEq)]
pub struct CutPlan {
    /// One group a thickness, thickest first.
    pub groups: Vec<CutGroup>,
}

/// The panels of one thickness and their sheets.
#[derive(Clone, Debug, PartialEq)]
pub struct CutGroup {
    /// The thickness.
    pub thickness: Length,
    /// The blanks, one a panel.
    pub blanks: Vec<Blank>,
    /// Layouts and bounds; a part's id is the panel's number, a sheet's id the place in
    /// `job.stock.sheets`.
    pub plan: brimful_nest::Plan,
}

/// The rectangle a panel is first sawn to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blank {
    /// Number of the panel.
    pub panel: usize,
    /// Size along the panel frame's x.
    pub length: Length,
    /// Size along the panel frame's y.
    pub width: Length,
    /// Whether more than these four square cuts is needed: angles, notches, bevels.
    pub second_operations: bool,
}

impl CutPlan {
    /// How many sheets are used in all.
    pub fn sheets(&self) -> usize {
        self.groups
            .iter()
            .map(|group| group.plan.layouts.len())
            .sum()
    }
}

/// Lays out all panels on the stock.
///
/// # Errors
/// A stock that cannot be laid out on, with the reason.
pub fn cut(job: &Job, panels: &[Panel]) -> Result<(CutPlan, Vec<Finding>), NestError> {
    let mut thicknesses: Vec<Length> = panels.iter().map(|panel| panel.thickness).collect();
    thicknesses.sort_by(|a, b| b.total_cmp(a));
    thicknesses.dedup_by(|a, b| same(*a, *b));
    let mut groups = Vec::new();
    let mut findings = Vec::new();
    for thickness in thicknesses {
        let blanks: Vec<Blank> = (0..panels.len())
            .filter(|&number| same(panels[number].thickness, thickness))
            .map(|number| blank(panels, number))
            .collect();
        let sheets = sheets_of(job, thickness);
        if sheets.is_empty() {
            findings.push(no_stock(job, panels, &blanks, thickness));
        }
        let settings = Settings {
            kerf: job.shop.kerf.m(),
            trim: job.shop.trim.m(),
            largest_crosscut: job.shop.crosscut.map(Length::m),
            effort: Settings::USUAL_EFFORT,
        };
        let parts: Vec<Part> = blanks
            .iter()
            .map(|blank| Part {
                id: blank.panel,
                length: blank.length.m(),
                width: blank.width.m(),
                may_turn: true,
            })
            .collect();
        let plan = nest(&parts, &sheets, &settings)?;
        if !sheets.is_empty() {
            findings.extend(layout_findings(job, panels, thickness, &plan));
        }
        groups.push(CutGroup {
            thickness,
            blanks,
            plan,
        });
    }
    if job.shop.cutting == Cutting::Router {
        findings.push(
            Finding::new(Grade::Mend, "cut layout", "The shop has a router, but the layout is made for a saw: rectangles with straight cuts. Nesting of true shapes is not covered.")
                .cure("Use the panel outlines (DXF) in the router shop's own layout."),
        );
    }
    Ok((CutPlan { groups }, findings))
}

fn same(a: Length, b: Length) -> bool {
    (a - b).abs().m() < SAME_THICKNESS
}

fn blank(panels: &[Panel], number: usize) -> Blank {
    let plate = &panels[number].cut;
    let (low, high) = plate.bounds();
    let square = |side: &brimful_geom::plate::Side| {
        let upright = side.normal.x.abs() < 1e-9 || side.normal.y.abs() < 1e-9;
        upright && (side.outer - side.inner).abs() < 1e-9
    };
    let plain =
        plate.loops.len() == 1 && plate.loops[0].len() == 4 && plate.loops[0].iter().all(square);
    Blank {
        panel: number,
        length: Length::from_m(high.x - low.x),
        width: Length::from_m(high.y - low.y),
        second_operations: !plain,
    }
}

/// The stock of a thickness. Without prices sheets are weighed by area, and offcuts by a tenth of
/// it, so that they are used first where that saves.
fn sheets_of(job: &Job, thickness: Length) -> Vec<Sheet> {
    let of_thickness = job
        .stock
        .sheets
        .iter()
        .enumerate()
        .filter(|(_, sheet)| same(sheet.thickness, thickness));
    of_thickness
        .map(|(id, sheet)| {
            let [length, width] = sheet.size.map(Length::m);
            let area = length * width;
            let bought = sheet.price.unwrap_or(job.quote.sheet.unwrap_or(1.0) * area);
            let cost = if sheet.offcut && sheet.price.is_none() {
                bought * 0.1
            } else {
                bought
            };
            Sheet {
                id,
                length,
                width,
                count: sheet.count.map(|count| count as usize),
                cost,
            }
        })
        .collect()
}

fn names(panels: &[Panel], numbers: impl Iterator<Item = usize>) -> String {
    numbers
        .map(|number| panels[number].name.to_string())
        .collect::<Vec<_>>()
        .join(", ")
}

fn no_stock(job: &Job, panels: &[Panel], blanks: &[Blank], thickness: Length) -> Finding {
    let text = Quantity::Thickness(thickness).text(&job.about);
    let parts = names(panels, blanks.iter().map(|blank| blank.panel));
    Finding::new(
        Grade::Stop,
        "stock",
        format!("There is no {text} sheet in the stock for: {parts}."),
    )
    .source("the stock of the job")
    .cure(format!(
        "Get sheet of {text}, or choose a thickness that is there."
    ))
    .entry("[[stock.sheet]]")
}

fn layout_findings(
    job: &Job,
    panels: &[Panel],
    thickness: Length,
    plan: &brimful_nest::Plan,
) -> Vec<Finding> {
    let text = Quantity::Thickness(thickness).text(&job.about);
    let left = |why: Why| {
        plan.left_out
            .iter()
            .filter(move |out| out.why == why)
            .map(|out| out.part)
    };
    let mut findings = Vec::new();
    if left(Why::FitsNoSheet).count() > 0 {
        findings.push(
            Finding::new(Grade::Stop, "cut layout", format!("Too large for any {text} sheet of the stock: {}.", names(panels, left(Why::FitsNoSheet))))
                .source("the stock of the job")
                .cure("Stock a larger sheet, or make the body from smaller faces; a butt seam within a panel is not laid out yet."),
        );
    }
    if left(Why::NoCutFreesIt).count() > 0 {
        findings.push(
            Finding::new(
                Grade::Stop,
                "cut layout",
                format!(
                    "The saw's largest crosscut frees no blank for: {}.",
                    names(panels, left(Why::NoCutFreesIt))
                ),
            )
            .source("the largest crosscut of the shop")
            .cure("Cut these with a guide rail, or on a larger saw.")
            .entry("[shop] crosscut"),
        );
    }
    if left(Why::StockUsedUp).count() > 0 {
        let proven = plan.verdict == Verdict::StockShort { proven: true };
        let how = if proven {
            "is proven too little"
        } else {
            "was not found to be enough"
        };
        findings.push(
            Finding::new(
                Grade::Stop,
                "cut layout",
                format!(
                    "The {text} sheet on hand {how}; left over: {}.",
                    names(panels, left(Why::StockUsedUp))
                ),
            )
            .source("the stock of the job")
            .cure("Get another sheet.")
            .entry("[[stock.sheet]] count"),
        );
    }
    if let Verdict::Gap { sheets, .. } = plan.verdict
        && sheets > 0
    {
        findings.push(Finding::new(Grade::Note, "cut layout", format!("The {text} layout uses {sheets} sheet(s) more than the proven least number; that fewer would do is not excluded.")));
    }
    findings
}
