//! The cut layout: which panel comes out of which sheet, by which cuts.
//!
//! Each panel is sawn out as the rectangle that covers both its faces; angled sides, notches and
//! bevels are second operations on that blank. One layout a thickness.

pub mod angle_block;
mod saw;

use brimful_geom::plate::{PlateFace, Side};
use brimful_job::{Cutting, Job};
use brimful_nest::{NestError, Runs, Sheet, Verdict, Why, nest};
use brimful_panels::finding::kind::CutKind;
use brimful_panels::finding::{Finding, Grade, Part, Subject};
use brimful_panels::name::PanelName;
use brimful_panels::panel::Panel;
use brimful_panels::table::run::length;
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
        let settings = saw::settings(job);
        let parts: Vec<brimful_nest::Part> = blanks
            .iter()
            .map(|blank| brimful_nest::Part {
                id: blank.panel,
                length: blank.length.m(),
                width: blank.width.m(),
                may_turn: true,
            })
            .collect();
        let plan = nest(&parts, &sheets, &settings)?;
        if !sheets.is_empty() {
            findings.extend(layout_findings(panels, thickness, &plan));
        }
        groups.push(CutGroup {
            thickness,
            blanks,
            plan,
        });
    }
    if job.shop.cutting == Cutting::Router {
        findings.push(of(Grade::Mend, CutKind::SawOnly));
    }
    Ok((CutPlan { groups }, findings))
}

/// All saw cuts that the layouts have.
pub fn length_of_cuts(plan: &CutPlan) -> Length {
    let layouts = plan.groups.iter().flat_map(|group| &group.plan.layouts);
    let cuts = layouts.flat_map(|layout| layout.cuts());
    let lengths = cuts.map(|(piece, cut)| match cut.runs {
        Runs::AlongLength => piece.length,
        Runs::AlongWidth => piece.width,
    });
    Length::from_m(lengths.sum())
}

/// All sides of panels that are not those of their blanks: angled, bevelled or notched.
pub fn length_of_further_cuts(panels: &[Panel]) -> Length {
    let of = |panel: &Panel| -> f64 {
        let (low, high) = panel.cut.bounds();
        let outlines = panel.cut.outlines(PlateFace::Outside);
        let Some((ring, outline)) = panel.cut.loops.first().zip(outlines.first()) else {
            return 0.0;
        };
        let sides = ring.iter().zip(outline.sides());
        let of_blank = |a: f64, b: f64, end: f64| [a, b].iter().all(|it| (it - end).abs() < 1e-9);
        let lengths = sides.map(|(side, (a, b))| {
            let is_of_blank = [low.x, high.x].iter().any(|&x| of_blank(a.x, b.x, x))
                || [low.y, high.y].iter().any(|&y| of_blank(a.y, b.y, y));
            match is_of_blank && is_square_cut(side) {
                true => 0.0,
                false => a.distance(b),
            }
        });
        lengths.sum()
    };
    Length::from_m(panels.iter().map(of).sum())
}

/// Whether a side runs along the blank and is square to its faces.
fn is_square_cut(side: &Side) -> bool {
    let upright = side.normal.x.abs() < 1e-9 || side.normal.y.abs() < 1e-9;
    upright && (side.outer - side.inner).abs() < 1e-9
}

fn same(a: Length, b: Length) -> bool {
    (a - b).abs().m() < SAME_THICKNESS
}

fn blank(panels: &[Panel], number: usize) -> Blank {
    let plate = &panels[number].cut;
    let (low, high) = plate.bounds();
    let plain = plate.loops.len() == 1
        && plate.loops[0].len() == 4
        && plate.loops[0].iter().all(is_square_cut);
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

fn of(grade: Grade, kind: CutKind) -> Finding {
    Finding::of(grade, Subject::Part(Part::CutLayout), kind)
}

fn names(panels: &[Panel], numbers: impl Iterator<Item = usize>) -> Vec<PanelName> {
    numbers.map(|number| panels[number].name.clone()).collect()
}

fn no_stock(job: &Job, panels: &[Panel], blanks: &[Blank], thickness: Length) -> Finding {
    let panels = names(panels, blanks.iter().map(|blank| blank.panel));
    let off = |sheet: &Length| (*sheet - thickness).abs();
    let sheets = job.stock.sheets.iter().map(|sheet| sheet.thickness);
    let near = sheets.filter(|sheet| off(sheet) <= length("sheet", "one nominal size"));
    let kind = CutKind::NoStock {
        thickness,
        panels,
        sold_as: near.min_by(|a, b| off(a).total_cmp(&off(b))),
    };
    Finding::of(Grade::Stop, Subject::Part(Part::Stock), kind)
}

fn layout_findings(panels: &[Panel], thickness: Length, plan: &brimful_nest::Plan) -> Vec<Finding> {
    let left = |why: Why| {
        let left = plan.left_out.iter().filter(move |out| out.why == why);
        names(panels, left.map(|out| out.part))
    };
    let proven = plan.verdict == Verdict::StockShort { proven: true };
    let (too_large, not_freed, left_over) = (
        left(Why::FitsNoSheet),
        left(Why::NoCutFreesIt),
        left(Why::StockUsedUp),
    );
    let mut findings = Vec::new();
    if !too_large.is_empty() {
        let panels = too_large;
        findings.push(of(Grade::Stop, CutKind::TooLarge { thickness, panels }));
    }
    if !not_freed.is_empty() {
        findings.push(of(Grade::Stop, CutKind::CrosscutTooShort(not_freed)));
    }
    if !left_over.is_empty() {
        let kind = CutKind::StockShort {
            thickness,
            proven,
            panels: left_over,
        };
        findings.push(of(Grade::Stop, kind));
    }
    if let Verdict::Gap { sheets, .. } = plan.verdict
        && sheets > 0
    {
        let kind = CutKind::AboveLeast { thickness, sheets };
        findings.push(of(Grade::Note, kind));
    }
    findings
}
