//! What holds the tank while it is tacked and welded, and how its runs pass the corners.

use super::document::{Document, figures, wide, words as column};
use crate::draw::angle_block::angle_block_drawing;
use crate::draw::corner::corner_drawing;
use crate::words::Words;
use brimful_panels::weld::WeldSide;
use brimful_panels::weld::cautions::Caution;
use brimful_panels::weld::corner::Corner;
use brimful_panels::weld::fixture::hold::{BlockPlace, Holding, SeamHold};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    if !plan.fixtures.holdings.is_empty() {
        holding(document, plan, words);
    }
    if !plan.corners.is_empty() {
        corners(document, plan, words);
    }
}

fn holding(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let fixtures = &plan.fixtures;
    document.page(&say!(words, "Holding it: angle blocks, backing, clamps"));
    document.paragraph(&say!(words, "What holds each panel from when it is set until its corner holds itself: a panel that meets another along one line hinges about it until others hold it along other lines. Lay the sheet on a flat bench. Have ready: {clamps} clamps, and straight backings (angle iron or battens) up to {backing} long.", clamps = fixtures.clamps_at_once(), backing = words.length(fixtures.longest_backing())));
    blocks(document, plan, words);
    document.heading(&say!(words, "Step by step"));
    for rule in words.holding_rules() {
        document.paragraph(&rule);
    }
    let mut rows = Vec::new();
    for holding in &fixtures.holdings {
        rows.extend(rows_of(holding, plan, words));
    }
    document.table(
        &[
            figures(say!(words, "Step")),
            column(say!(words, "Panel")),
            column(say!(words, "Seam")),
            column(say!(words, "Blocks")),
            figures(say!(words, "Backing")),
            column(say!(words, "Clamps")),
            wide(say!(words, "Comes off")),
        ],
        &rows,
    );
    document.paragraph(&say!(words, "Clamps: so many at the corners where the panel's seams end, once a panel, and so many between them, evenly along each seam. Blocks stand where a clamp presses, in the angle, and are out before a run is laid there. \"At the ends\": the run is laid while they hold, so they are clamped flat against the open ends of both sheets, clear of it. \"Other face\": they stand on the face where no run is being laid, and change over when the first is cold. What closes the tank has none inside, since they could not be got out: where a clamp does not grip, hold it with straps round the tank or with weights. Whether a block goes between two panels that stand close is not looked at: shorten its legs where it does not."));
    document.paragraph(&say!(words, "A panel that the welds before have bowed is not pressed back into line by force: set it to the bow, or wait until the other side is welded and cold. How much force a bowed edge would take is not worked out."));
    document.paragraph(&say!(
        words,
        "From: {sources}.",
        sources = words.fixture_sources()
    ));
}

fn blocks(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let fixtures = &plan.fixtures;
    if fixtures.blocks.is_empty() {
        return;
    }
    document.heading(&say!(words, "Angle blocks to saw"));
    let saws = words.caution(Caution::SawsAndRouters);
    document.notice(&say!(words, "Small pieces: {caution}", caution = saws.text));
    for (kind, block) in fixtures.blocks.iter().enumerate() {
        let (drawing, scale) = angle_block_drawing(block, words, (62.0, 48.0));
        let marks = fixtures.uses_of(kind).map(|(holding, hold)| {
            say!(
                words,
                "{seam} (step {step})",
                seam = words.symbol(&plan.seams[hold.seam].mark),
                step = holding.step + 1
            )
        });
        let marks = Text::join(marks, ", ");
        let mut lines = vec![
            say!(words, "{block}.", block = words.angle_block(block)),
            say!(words, "At {seams}.", seams = marks),
        ];
        if let Some(stock) = plan.block_stock.get(kind) {
            lines.push(say!(
                words,
                "Cut: {stock}. Blank {size} each.",
                stock = words.block_stock(stock, plan),
                size = words.sizes(block.blank())
            ));
        }
        lines.push(say!(words, "Scale {scale}.", scale = scale));
        document.beside(drawing, &lines);
    }
}

fn rows_of(holding: &Holding, plan: &Plan, words: &Words<'_>) -> Vec<Vec<Text>> {
    let fixtures = &plan.fixtures;
    let steps = &plan.order.steps;
    let step = Text::from(holding.step + 1);
    let mark = words.symbol(&plan.panels[holding.panel].mark);
    let mut rows = Vec::new();
    if let Some((packers, release)) = &holding.packers {
        let [least, most] = packers.heights.map(|it| words.thickness(it));
        let height = match least == most {
            true => least,
            false => say!(words, "{least} to {most}", least = least, most = most),
        };
        let on = packers.on.and_then(|it| plan.panels.get(it));
        let on = on.map_or_else(|| say!(words, "the bench"), |it| words.symbol(&it.mark));
        rows.push(vec![
            step.clone(),
            mark.clone(),
            Text::default(),
            say!(
                words,
                "packers of {height} on {on}",
                height = height,
                on = on
            ),
            Text::default(),
            Text::default(),
            words.release(*release, steps),
        ]);
    }
    let row = |(place, hold): (usize, &SeamHold)| {
        let blocks = hold.blocks.and_then(|own| {
            let mark = words.symbol(&fixtures.blocks.get(own.kind)?.mark);
            let of = say!(words, "{count} of {mark}", count = own.count, mark = mark);
            Some(match own.place {
                BlockPlace::InAngle => of,
                BlockPlace::AtEnds => say!(words, "{blocks}, at the ends", blocks = of),
                BlockPlace::OtherFace => say!(words, "{blocks}, other face", blocks = of),
            })
        });
        let clamps = match place {
            0 => say!(
                words,
                "{corners} at corners, {between} between",
                corners = holding.corner_clamps,
                between = hold.clamps
            ),
            _ => say!(words, "{between} between", between = hold.clamps),
        };
        vec![
            step.clone(),
            mark.clone(),
            words.symbol(&plan.seams[hold.seam].mark),
            blocks.unwrap_or_else(|| words.symbol("-")),
            words.length(hold.backing),
            clamps,
            words.release(hold.release, steps),
        ]
    };
    rows.extend(holding.seams.iter().enumerate().map(row));
    rows
}

fn corners(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Corners: how the runs pass them"));
    document.paragraph(&words.corner_rule(&plan.restart));
    document.paragraph(&words.corner_preheat());
    document.paragraph(&words.restart_rule(&plan.restart));
    let taken_up = |it: &&Corner| it.passes.iter().filter_map(|pass| pass.taken_up).count();
    let fullest = plan.corners.iter().rev().max_by_key(taken_up);
    let drawn = fullest.and_then(|corner| {
        let marks = corner.passes.iter().map(|it| &plan.seams[it.seam].mark);
        let marks: Vec<Text> = marks.map(|it| words.symbol(it)).collect();
        let drawing = corner_drawing(corner, &marks, words, (80.0, 48.0))?;
        Some((corner, drawing))
    });
    if let Some((corner, drawing)) = drawn {
        let lines = [
            words.corner(corner, plan),
            say!(
                words,
                "Not to scale. Dark: the short run through the corner, without a stop. Grey: what is laid against it, or past the edge. Light: the long runs, taken up where they are marked."
            ),
        ];
        document.beside(drawing, &lines);
    }
    for side in [WeldSide::Inside, WeldSide::Outside] {
        let of_side: Vec<&Corner> = plan.corners.iter().filter(|it| it.side == side).collect();
        if of_side.is_empty() {
            continue;
        }
        document.heading(&match side {
            WeldSide::Inside => say!(words, "Inside: runs in the order in which they are laid"),
            WeldSide::Outside => say!(words, "Outside: runs in the order in which they are laid"),
        });
        document.ticks(&words.corners_said(of_side, plan));
    }
    document.paragraph(&say!(
        words,
        "From: {sources}.",
        sources = words.restart_sources()
    ));
}
