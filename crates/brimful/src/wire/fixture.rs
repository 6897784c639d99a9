//! What holds a tank together until its welds do, as JSON.

use super::cut::{Place, place};
use super::mark;
use super::point::flat_point;
use brimful_panels::weld::fixture::block;
use brimful_panels::weld::fixture::hold::{self, Release};
use brimful_panels::weld::fixture::packer;
use brimful_tank::cut::angle_block::{BlockStock, FromOffcut};
use brimful_tank::plan::Plan;
use brimful_text::Words;
use brimful_units::{Length, Time};
use schemars::JsonSchema;
use serde::Serialize;

/// What holds each panel while it is tacked and welded.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Fixtures {
    /// Angle blocks, a line a kind.
    blocks: Vec<Block>,
    /// In the order in which panels are set.
    holdings: Vec<Holding>,
    /// What goes for every panel, in sentences.
    text: Vec<String>,
    /// Where the rules are from, and how sure they are.
    source: String,
}

/// A kind of angle block.
#[derive(Debug, Serialize, JsonSchema)]
struct Block {
    mark: String,
    /// Between its legs.
    angle_rad: f64,
    /// Of either leg, from where the two would meet.
    leg_m: f64,
    /// What is nipped off either leg.
    nip_m: f64,
    /// How many are in use at once.
    count: usize,
    /// Its outline with the first leg along x, from where the legs would meet.
    outline_m: Vec<[f64; 2]>,
    /// What they are cut from, offcut by offcut.
    from: Vec<Offcut>,
    /// How many are cut from board, since no offcut is large enough.
    from_board: usize,
}

/// Blocks from one offcut.
#[derive(Debug, Serialize, JsonSchema)]
struct Offcut {
    /// Place in `cut.groups`, from 0.
    group: usize,
    /// Place in its `layouts`, from 0.
    layout: usize,
    /// The offcut on that sheet.
    offcut: Place,
    /// The blanks on that sheet, one a block.
    blanks: Vec<Place>,
}

/// What holds one panel when it is set.
#[derive(Debug, Serialize, JsonSchema)]
struct Holding {
    /// Place in `steps`, from 0.
    step: usize,
    /// Mark of the panel.
    panel: String,
    seams: Vec<SeamHold>,
    corner_clamps: usize,
    /// Null where something carries it.
    packers: Option<Packers>,
    /// All of it in sentences.
    text: Vec<String>,
}

/// What holds a panel at one seam.
#[derive(Debug, Serialize, JsonSchema)]
struct SeamHold {
    /// Mark of the seam.
    seam: String,
    /// Mark of the kind of block; null where a block has no place.
    block: Option<String>,
    /// How many of it.
    blocks: usize,
    /// Where they stand; null where there are none.
    #[schemars(extend("enum" = ["in the angle", "at the ends", "other face", null]))]
    blocks_stand: Option<&'static str>,
    /// Length of the straight backing.
    backing_m: f64,
    /// Clamps between the corners.
    clamps: usize,
    release: Off,
}

/// When something comes off.
#[derive(Debug, Serialize, JsonSchema)]
struct Off {
    /// Place in `steps` of the step after which, from 0; null where that is when all is welded and cold.
    after_step: Option<usize>,
    /// How long the bead cools before; null where no bead is waited for, or it is not known.
    wait_s: Option<f64>,
    text: String,
}

/// What stands under a panel that nothing carries yet.
#[derive(Debug, Serialize, JsonSchema)]
struct Packers {
    /// Mark of the panel that they stand on; null where it is the bench.
    on: Option<String>,
    /// The lowest and the highest.
    height_m: [f64; 2],
    release: Off,
}

pub(super) fn fixtures(plan: &Plan, words: &Words<'_>) -> Fixtures {
    let fixtures = &plan.fixtures;
    let blocks = fixtures.blocks.iter().zip(&plan.block_stock);
    let holdings = fixtures.holdings.iter();
    Fixtures {
        blocks: blocks.map(|(it, stock)| block(it, stock)).collect(),
        holdings: holdings.map(|it| holding(plan, it, words)).collect(),
        text: words.holding_rules().map(String::from).into(),
        source: words.fixture_sources().into(),
    }
}

fn block(block: &block::AngleBlock, stock: &BlockStock) -> Block {
    let outline = block.outline();
    Block {
        mark: block.mark.clone(),
        angle_rad: block.angle.rad(),
        leg_m: block.leg.m(),
        nip_m: block.nip.m(),
        count: block.count,
        outline_m: outline.0.iter().map(|&p| flat_point(p)).collect(),
        from: stock.from.iter().map(offcut).collect(),
        from_board: stock.from_board,
    }
}

fn offcut(from: &FromOffcut) -> Offcut {
    Offcut {
        group: from.group,
        layout: from.layout,
        offcut: place(from.offcut),
        blanks: from.blanks.iter().copied().map(place).collect(),
    }
}

fn holding(plan: &Plan, holding: &hold::Holding, words: &Words<'_>) -> Holding {
    let packers = |(packers, release): &(packer::Packers, Release)| Packers {
        on: packers.on.map(|it| mark::panel(plan, it)),
        height_m: packers.heights.map(Length::m),
        release: off(plan, *release, words),
    };
    let said = words.held_by(holding, plan).into_iter();
    Holding {
        step: holding.step,
        panel: mark::panel(plan, holding.panel),
        seams: holding
            .seams
            .iter()
            .map(|it| hold(plan, it, words))
            .collect(),
        corner_clamps: holding.corner_clamps,
        packers: holding.packers.as_ref().map(packers),
        text: said.map(String::from).collect(),
    }
}

fn hold(plan: &Plan, hold: &hold::SeamHold, words: &Words<'_>) -> SeamHold {
    let kind = hold.blocks.and_then(|it| plan.fixtures.blocks.get(it.kind));
    SeamHold {
        seam: mark::seam(plan, hold.seam),
        block: kind.map(|it| it.mark.clone()),
        blocks: hold.blocks.map_or(0, |it| it.count),
        blocks_stand: hold.blocks.map(|it| it.place.key()),
        backing_m: hold.backing.m(),
        clamps: hold.clamps,
        release: off(plan, hold.release, words),
    }
}

fn off(plan: &Plan, release: Release, words: &Words<'_>) -> Off {
    Off {
        after_step: release.step(),
        wait_s: match release {
            Release::Cold { wait, .. } => wait.map(Time::s),
            Release::Tied { .. } | Release::Last => None,
        },
        text: words.release(release, &plan.order.steps).into(),
    }
}
