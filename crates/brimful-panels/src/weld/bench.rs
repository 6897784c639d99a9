//! The order of work as it is followed at the bench: one step a screen, from the test strips to the
//! water test, each with its preparation, its wait and the cautions that belong to it.

use super::cautions::Caution;
use super::fixture::block::AngleBlock;
use super::heat::Heat;
use super::order::{How, Meets, Step, Work};
use super::seam_weld::SeamWeld;
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_units::Time;
use schemars::JsonSchema;
use serde::Serialize;

/// How long the last stage of the water test stands: a day, as the leak test says.
pub const TEST_WAIT: Time = Time::from_hours(24.0);
/// How long test strips cool before they are bent: an hour, common practice.
const COUPON_WAIT: Time = Time::from_hours(1.0);

/// One step at the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchStep {
    /// The same as long as the step is the same.
    pub id: String,
    /// What is done.
    pub work: BenchWork,
    /// Its number in the order of work; none of a step that is not in it.
    pub order: Option<usize>,
    /// What comes first.
    pub prep: &'static [Prep],
    /// What has to be waited for after it.
    pub wait: Option<Time>,
    /// What can hurt.
    pub cautions: &'static [Caution],
}

/// What is done in a step at the bench.
#[derive(Clone, Debug, PartialEq)]
pub enum BenchWork {
    /// Test strips are welded and bent.
    TestStrip,
    /// The angle blocks are sawn.
    AngleBlocks,
    /// Edges are opened for the welds.
    Edges,
    /// A step of the order of work.
    Order(Step),
    /// The tank is filled with water.
    WaterTest,
}

/// What comes before a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Prep {
    /// Off-cuts of the same sheet.
    OffCuts,
    /// Every edge that meets another is scraped.
    ScrapeEdges,
    /// Nothing is wet with solvent.
    WipeDry,
    /// The panel stands square.
    Square,
    /// The panel stands at the angles of the step.
    Angles,
    /// Groove and rod are scraped before every run.
    ScrapeGroove,
    /// Corners are warmed before their runs.
    WarmCorners,
    /// A short run goes through each corner before the long ones.
    CornersFirst,
    /// The end of a run is cut back before it is taken up again.
    CutBack,
    /// Each run cools before the next.
    CoolBetweenRuns,
    /// The bench is clear, with a blanket on it.
    ClearBench,
    /// All welds are cold.
    ColdWelds,
    /// The tank stands on its support, level.
    OnItsSupport,
}

impl BenchWork {
    /// A word for it that is the same in every language.
    pub fn key(&self) -> &'static str {
        match self {
            Self::TestStrip => "test strip",
            Self::AngleBlocks => "angle blocks",
            Self::Edges => "edges",
            Self::Order(step) => step.work.key(),
            Self::WaterTest => "water test",
        }
    }

    /// A word for how it is done that is the same in every language.
    pub fn how(&self) -> &'static str {
        match self {
            Self::Order(step) => step.how.key(),
            Self::TestStrip | Self::AngleBlocks | Self::Edges | Self::WaterTest => How::Plain.key(),
        }
    }

    /// Numbers of the panels it is done to.
    pub fn panels(&self) -> &[usize] {
        match self {
            Self::Order(step) => &step.panels,
            Self::TestStrip | Self::AngleBlocks | Self::Edges | Self::WaterTest => &[],
        }
    }

    /// Numbers of the seams it is done to.
    pub fn seams(&self) -> &[usize] {
        match self {
            Self::Order(step) => &step.seams,
            Self::TestStrip | Self::AngleBlocks | Self::Edges | Self::WaterTest => &[],
        }
    }

    /// Whether the gun is used, so that its settings are wanted.
    pub fn welds(&self) -> bool {
        match self {
            Self::TestStrip => true,
            Self::Order(step) => {
                matches!(step.work, Work::Tack | Work::WeldInside | Work::WeldOutside)
            }
            Self::AngleBlocks | Self::Edges | Self::WaterTest => false,
        }
    }
}

/// All steps of a tank.
pub fn bench(
    order: &[Step],
    heat: Option<&Heat>,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    blocks: &[AngleBlock],
) -> Vec<BenchStep> {
    let mut steps = vec![BenchStep {
        id: "test-strip".to_owned(),
        work: BenchWork::TestStrip,
        order: None,
        prep: &[Prep::OffCuts],
        wait: Some(COUPON_WAIT),
        cautions: &[Caution::HotGas, Caution::Fumes, Caution::CouponsFirst],
    }];
    if !blocks.is_empty() {
        steps.push(BenchStep {
            id: "angle-blocks".to_owned(),
            work: BenchWork::AngleBlocks,
            order: None,
            prep: &[],
            wait: None,
            cautions: &[Caution::SawsAndRouters],
        });
    }
    if welds.iter().any(|weld| weld.preparation.edges() > 0) {
        steps.push(BenchStep {
            id: "edges".to_owned(),
            work: BenchWork::Edges,
            order: None,
            prep: &[],
            wait: None,
            cautions: &[Caution::SawsAndRouters],
        });
    }
    let cools = heat.map(Heat::longest_wait);
    let of_order = order.iter().enumerate();
    steps.extend(of_order.map(|(number, step)| of(number, step, cools, panels, seams)));
    steps.push(BenchStep {
        id: "water-test".to_owned(),
        work: BenchWork::WaterTest,
        order: None,
        prep: &[Prep::ColdWelds, Prep::OnItsSupport],
        wait: Some(TEST_WAIT),
        cautions: &[Caution::Pressure, Caution::Filling],
    });
    // Steps that are alike keep apart by their count.
    for number in 1..steps.len() {
        let (before, now) = steps.split_at_mut(number);
        let stem = now[0].id.clone();
        let again = before.iter().filter(|it| it.id == stem).count();
        if again > 0 {
            now[0].id = format!("{stem}-{}", again + 1);
        }
    }
    steps
}

fn of(
    number: usize,
    step: &Step,
    cools: Option<Time>,
    panels: &[Panel],
    seams: &[Seam],
) -> BenchStep {
    let marks = step.panels.iter().map(|&it| panels[it].mark.as_str());
    let seam_marks = step.seams.iter().map(|&it| seams[it].mark.as_str());
    let key = [step.work.key()].into_iter();
    let parts: Vec<&str> = key.chain(marks).chain(seam_marks).collect();
    let work = BenchWork::Order(step.clone());
    BenchStep {
        id: parts.join("-").replace(' ', "-"),
        order: Some(number),
        prep: prep(step),
        wait: cools.filter(|_| matches!(step.work, Work::WeldInside | Work::WeldOutside)),
        cautions: match work.welds() {
            true => &[Caution::HotGas, Caution::Fumes, Caution::SolventNearHeat],
            false => &[Caution::Lifting],
        },
        work,
    }
}

fn prep(step: &Step) -> &'static [Prep] {
    match (step.work, &step.how) {
        (Work::Set, _) => &[Prep::ScrapeEdges, Prep::WipeDry],
        (Work::Tack, How::Against(corners)) => {
            let slants = corners
                .iter()
                .any(|corner| matches!(corner.meets, Meets::At { .. }));
            match slants {
                true => &[Prep::Angles],
                false => &[Prep::Square],
            }
        }
        (Work::Tack, _) => &[Prep::Square],
        (Work::WeldInside | Work::WeldOutside, _) => &[
            Prep::ScrapeGroove,
            Prep::WarmCorners,
            Prep::CornersFirst,
            Prep::CutBack,
            Prep::CoolBetweenRuns,
        ],
        (Work::Turn, _) => &[Prep::ClearBench],
    }
}
