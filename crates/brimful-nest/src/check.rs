//! An independent look at a finished plan.
//!
//! Nothing of the search is used: every figure is worked out again in metres from the tree of
//! cuts and the order itself.

use std::collections::BTreeMap;
use std::fmt;

use crate::layout::{Cut, Fate, Layout, Piece, Placement, Rect, Reference, Runs};
use crate::order::{Part, Settings, Sheet};
use crate::plan::Plan;

/// Sizes in a plan lie on a grid of a nanometre; a few steps of it are allowed for sums.
const GRID: f64 = 1e-8;

/// Something wrong in a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// The sheet's place in the plan, from 0; `None` when it is not about one sheet.
    pub layout: Option<usize>,
    /// What is wrong.
    pub what: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.layout {
            Some(at) => write!(f, "Layout {at}: {}", self.what),
            None => f.write_str(&self.what),
        }
    }
}

/// Proves a plan against the order that it answers: every part placed once or reported once,
/// at its size; every cut from edge to edge of its piece, at its fence setting, exactly a kerf
/// wide and within the saw's crosscut; cuts numbered in an order that can be sawn; every part
/// inside its trimmed sheet and a kerf away from every other; no more sheets than there are.
///
/// # Errors
/// Every fault found.
pub fn check(
    plan: &Plan,
    parts: &[Part],
    sheets: &[Sheet],
    settings: &Settings,
) -> Result<(), Vec<Fault>> {
    let mut faults = Vec::new();
    for (at, layout) in plan.layouts.iter().enumerate() {
        let mut wrong = |what: String| {
            faults.push(Fault {
                layout: Some(at),
                what,
            })
        };
        match sheets.iter().find(|sheet| sheet.id == layout.sheet) {
            None => wrong(format!("there is no sheet {}", layout.sheet)),
            Some(sheet) => check_layout(layout, sheet, parts, settings, &mut wrong),
        }
    }
    let mut wrong = |what: String| faults.push(Fault { layout: None, what });
    check_parts(plan, parts, &mut wrong);
    check_sheets(plan, sheets, &mut wrong);
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

fn check_layout(
    layout: &Layout,
    sheet: &Sheet,
    parts: &[Part],
    settings: &Settings,
    wrong: &mut impl FnMut(String),
) {
    let whole = Rect {
        x: 0.0,
        y: 0.0,
        length: sheet.length,
        width: sheet.width,
    };
    if !same(&layout.root.rect, &whole) {
        wrong(format!(
            "it begins with {:?}, not with the sheet",
            layout.root.rect
        ));
    }
    let mut numbers = Vec::new();
    check_piece(&layout.root, 0, settings, &mut numbers, wrong);
    numbers.sort_unstable();
    if numbers.iter().copied().ne(1..=numbers.len()) {
        wrong(format!("the cuts are numbered {numbers:?}"));
    }
    let placements = layout.placements();
    for placement in &placements {
        check_placement(placement, &whole, parts, settings, wrong);
    }
    for (at, a) in placements.iter().enumerate() {
        for b in &placements[at + 1..] {
            if !apart(&a.rect, &b.rect, settings.kerf) {
                wrong(format!(
                    "parts {} and {} are nearer than a kerf",
                    a.part, b.part
                ));
            }
        }
    }
}

fn check_piece(
    piece: &Piece,
    after: usize,
    settings: &Settings,
    numbers: &mut Vec<usize>,
    wrong: &mut impl FnMut(String),
) {
    let mut waiting = vec![(piece, after)];
    while let Some((piece, after)) = waiting.pop() {
        if let Fate::Cut(cut) = &piece.fate {
            if cut.number <= after {
                wrong(format!(
                    "cut {} comes before cut {after}, which frees its piece",
                    cut.number
                ));
            }
            numbers.push(cut.number);
            check_cut(&piece.rect, cut, settings, wrong);
            waiting.push((&cut.kept, cut.number));
            waiting.extend(cut.rest.iter().map(|rest| (rest, cut.number)));
        }
    }
}

fn check_cut(piece: &Rect, cut: &Cut, settings: &Settings, wrong: &mut impl FnMut(String)) {
    let depth = match cut.runs {
        Runs::AlongLength => piece.width,
        Runs::AlongWidth => piece.length,
    };
    let beyond = depth - cut.fence - settings.kerf;
    if cut.fence < 0.0 || cut.fence >= depth {
        wrong(format!(
            "cut {} is set {} m into a piece {depth} m deep",
            cut.number, cut.fence
        ));
    }
    let part = |from: f64, size: f64| slice(piece, cut, depth, from, size);
    if !same(&cut.kept.rect, &part(0.0, cut.fence)) {
        wrong(format!(
            "cut {} does not leave {:?}",
            cut.number, cut.kept.rect
        ));
    }
    match &cut.rest {
        Some(rest) if !same(&rest.rect, &part(depth - beyond, beyond)) => {
            wrong(format!(
                "cut {} does not leave {:?} beyond the blade",
                cut.number, rest.rect
            ));
        }
        None if beyond > GRID => wrong(format!(
            "{beyond} m beyond cut {} is not accounted for",
            cut.number
        )),
        _ => {}
    }
    check_reach(piece, cut, depth, settings, wrong);
}

/// The slice of a piece that begins `from` its reference edge and is `size` deep.
fn slice(piece: &Rect, cut: &Cut, depth: f64, from: f64, size: f64) -> Rect {
    let from = match cut.reference {
        Reference::Near => from,
        Reference::Far => depth - from - size,
    };
    match cut.runs {
        Runs::AlongLength => Rect {
            y: piece.y + from,
            width: size,
            ..*piece
        },
        Runs::AlongWidth => Rect {
            x: piece.x + from,
            length: size,
            ..*piece
        },
    }
}

/// A crosscut is no longer than the saw can, but for trimming.
fn check_reach(
    piece: &Rect,
    cut: &Cut,
    depth: f64,
    settings: &Settings,
    wrong: &mut impl FnMut(String),
) {
    let trims = cut
        .rest
        .as_ref()
        .map_or(settings.trim > 0.0, |rest| rest.fate == Fate::Trimming);
    let run = match cut.runs {
        Runs::AlongLength => piece.length,
        Runs::AlongWidth => piece.width,
    };
    let too_long = settings
        .largest_crosscut
        .is_some_and(|limit| run > limit + GRID && run < depth - GRID);
    if too_long && !trims {
        wrong(format!(
            "cut {} is {run} m across, more than the saw can",
            cut.number
        ));
    }
}

fn check_placement(
    placed: &Placement,
    sheet: &Rect,
    parts: &[Part],
    settings: &Settings,
    wrong: &mut impl FnMut(String),
) {
    let Some(part) = parts.iter().find(|part| part.id == placed.part) else {
        wrong(format!("there is no part {}", placed.part));
        return;
    };
    let (length, width) = if placed.turned {
        (part.width, part.length)
    } else {
        (part.length, part.width)
    };
    if placed.turned && !part.may_turn {
        wrong(format!("part {} may not turn", part.id));
    }
    let Rect { x, y, .. } = placed.rect;
    if !same(
        &placed.rect,
        &Rect {
            x,
            y,
            length,
            width,
        },
    ) {
        wrong(format!("part {} has the wrong size", part.id));
    }
    let trim = settings.trim - GRID;
    let inside = x >= trim
        && y >= trim
        && x + length <= sheet.length - trim
        && y + width <= sheet.width - trim;
    if !inside {
        wrong(format!("part {} is not inside the trimmed sheet", part.id));
    }
}

fn check_parts(plan: &Plan, parts: &[Part], wrong: &mut impl FnMut(String)) {
    let mut times: BTreeMap<usize, usize> = parts.iter().map(|part| (part.id, 0)).collect();
    let placed = plan
        .layouts
        .iter()
        .flat_map(Layout::placements)
        .map(|placement| placement.part);
    for id in placed.chain(plan.left_out.iter().map(|left| left.part)) {
        *times.entry(id).or_default() += 1;
    }
    for (id, times) in times {
        if times != 1 {
            wrong(format!("part {id} comes back {times} times"));
        }
    }
}

fn check_sheets(plan: &Plan, sheets: &[Sheet], wrong: &mut impl FnMut(String)) {
    for sheet in sheets {
        let used = plan
            .layouts
            .iter()
            .filter(|layout| layout.sheet == sheet.id)
            .count();
        if sheet.count.is_some_and(|count| used > count) {
            wrong(format!(
                "{used} of sheet {} are used, more than there are",
                sheet.id
            ));
        }
    }
    if plan.layouts.len() < plan.bound.sheets && plan.left_out.is_empty() {
        wrong(format!(
            "{} sheets are used, fewer than the bound {}",
            plan.layouts.len(),
            plan.bound.sheets
        ));
    }
}

fn same(a: &Rect, b: &Rect) -> bool {
    [a.x - b.x, a.y - b.y, a.length - b.length, a.width - b.width]
        .iter()
        .all(|gap| gap.abs() <= GRID)
}

fn apart(a: &Rect, b: &Rect, kerf: f64) -> bool {
    let gap = |a_from: f64, a_size: f64, b_from: f64, b_size: f64| {
        (b_from - a_from - a_size).max(a_from - b_from - b_size)
    };
    gap(a.x, a.length, b.x, b.length).max(gap(a.y, a.width, b.y, b.width)) >= kerf - GRID
}
