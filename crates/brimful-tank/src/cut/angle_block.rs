//! What angle blocks are cut from: what the panels leave over of their sheets.

use super::{CutGroup, CutPlan, saw};
use brimful_job::Job;
use brimful_nest::{Part, Rect, Settings, Sheet, nest};
use brimful_panels::weld::fixture::block::AngleBlock;
use brimful_units::Length;

/// What the blocks of one kind are cut from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BlockStock {
    /// How many of it come from which offcut.
    pub from: Vec<FromOffcut>,
    /// How many there is no offcut for: they are cut from board.
    pub from_board: usize,
}

/// Blocks from one offcut.
#[derive(Clone, Debug, PartialEq)]
pub struct FromOffcut {
    /// Number of the group of sheets, by thickness.
    pub group: usize,
    /// Number of the sheet's layout in it.
    pub layout: usize,
    /// The offcut on that sheet, metres.
    pub offcut: Rect,
    /// The blanks on that sheet, metres.
    pub blanks: Vec<Rect>,
}

/// An offcut with its group and layout.
struct Offcut {
    group: usize,
    layout: usize,
    rect: Rect,
}

/// Finds an offcut for every block, kind by kind; thick sheet is taken first, since a block of it does not bend.
pub fn block_stock(job: &Job, blocks: &[AngleBlock], cut: &CutPlan) -> Vec<BlockStock> {
    // Offcuts have sawn edges: nothing is trimmed off.
    let settings = Settings {
        trim: 0.0,
        ..saw::settings(job)
    };
    let mut stock = vec![BlockStock::default(); blocks.len()];
    // The kinds of all blocks that have no place yet.
    let mut open: Vec<usize> = Vec::new();
    for (kind, block) in blocks.iter().enumerate() {
        open.extend(std::iter::repeat_n(kind, block.count));
    }
    for (number, group) in cut.groups.iter().enumerate() {
        let offcuts = offcuts(number, group);
        let parts = open.iter().enumerate();
        let parts: Vec<Part> = parts.map(|(id, &kind)| part(id, &blocks[kind])).collect();
        let sheets: Vec<Sheet> = offcuts.iter().enumerate().map(sheet).collect();
        // What cannot be laid out is cut from board.
        let Ok(plan) = nest(&parts, &sheets, &settings) else {
            continue;
        };
        for layout in &plan.layouts {
            let offcut = &offcuts[layout.sheet];
            for placed in layout.placements() {
                let (rect, kind) = (offcut.rect, open[placed.part]);
                let blank = Rect {
                    x: rect.x + placed.rect.x,
                    y: rect.y + placed.rect.y,
                    ..placed.rect
                };
                let from = &mut stock[kind].from;
                let same = from
                    .iter_mut()
                    .find(|it| (it.group, it.layout, it.offcut) == (number, offcut.layout, rect));
                match same {
                    Some(same) => same.blanks.push(blank),
                    None => from.push(FromOffcut {
                        group: offcut.group,
                        layout: offcut.layout,
                        offcut: rect,
                        blanks: vec![blank],
                    }),
                }
            }
        }
        open = plan.left_out.iter().map(|out| open[out.part]).collect();
        open.sort_unstable();
    }
    for kind in open {
        stock[kind].from_board += 1;
    }
    stock
}

fn offcuts(number: usize, group: &CutGroup) -> Vec<Offcut> {
    let layouts = group.plan.layouts.iter().enumerate();
    let each = layouts.flat_map(|(layout, it)| {
        let rects = it.offcuts().into_iter();
        rects.map(move |rect| Offcut {
            group: number,
            layout,
            rect,
        })
    });
    each.collect()
}

fn part(id: usize, block: &AngleBlock) -> Part {
    let [length, width] = block.blank().map(Length::m);
    Part {
        id,
        length,
        width,
        may_turn: true,
    }
}

fn sheet((id, offcut): (usize, &Offcut)) -> Sheet {
    Sheet {
        id,
        length: offcut.rect.length,
        width: offcut.rect.width,
        count: Some(1),
        cost: offcut.rect.area(),
    }
}
