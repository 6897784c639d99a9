//! The steps of the work: panels are set in an order that is given; what can be welded inside, before the lids, then
//! lids, turn over, weld outside; ribs go round the finished box. Where another panel than a lid comes last, it is that which
//! closes the tank.
//!
//! Which sides can be welded at all has been settled before (`weld/reach.rs`), and in which order panels are
//! set is searched for in [`super::work`].

use super::run::Run;
use super::seam_weld::{SeamWeld, of_rib};
use super::side::WeldSide;
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::plate::PlateFace;
use brimful_geom::polygon::Outline;
use brimful_reach::Plates;
use brimful_units::{Angle, Length};

/// Nearer to square than this no sheet is set (a bevel gauge is read to half a degree at best).
const SQUARE: Angle = Angle::from_deg(0.25);

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// Put a panel in its place.
    Set,
    /// Tack it to what stands.
    Tack,
    /// Lay runs from inside.
    WeldInside,
    /// Turn the tank over.
    Turn,
    /// Lay runs from outside.
    WeldOutside,
}

impl Work {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Set => "set",
            Self::Tack => "tack",
            Self::WeldInside => "weld inside",
            Self::Turn => "turn",
            Self::WeldOutside => "weld outside",
        }
    }

    /// The side that it lays runs from; none where it lays none.
    pub const fn side(self) -> Option<WeldSide> {
        match self {
            Self::WeldInside => Some(WeldSide::Inside),
            Self::WeldOutside => Some(WeldSide::Outside),
            Self::Set | Self::Tack | Self::Turn => None,
        }
    }
}

/// How a step is done.
#[derive(Clone, Debug, PartialEq)]
pub enum How {
    /// In the plain way.
    Plain,
    /// On packers, since nothing that the panel meets stands yet.
    OnPackers,
    /// On the wall that a rib runs along.
    OnItsWall,
    /// Against what stands, seam by seam.
    Against(Vec<Corner>),
    /// With the lid up, or what else closed the tank.
    ClosingPanelUp,
    /// Turned over, with what closed the tank down.
    ClosingPanelDown,
    /// As the tank will stand.
    RightSideUp,
    /// Once all panels stand, through the hatches.
    ThroughHatches,
    /// Above and below each rib.
    AboveAndBelow,
    /// Before the next panel takes hand and gun away.
    WhileOpen,
}

impl How {
    /// A word for it that is the same in every language.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::OnPackers => "on packers",
            Self::OnItsWall => "on its wall",
            Self::Against(_) => "against",
            Self::ClosingPanelUp => "closing panel up",
            Self::ClosingPanelDown => "closing panel down",
            Self::RightSideUp => "right side up",
            Self::ThroughHatches => "through hatches",
            Self::AboveAndBelow => "above and below",
            Self::WhileOpen => "while open",
        }
    }
}

/// How a panel stands at one of its seams.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Number of the seam.
    pub seam: usize,
    /// How the two panels meet.
    pub meets: Meets,
}

/// How two panels meet, as it is set with square or bevel gauge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meets {
    /// At a right angle.
    Square,
    /// In one plane.
    Flush,
    /// At another angle.
    At {
        /// The angle between the two.
        angle: Angle,
        /// Where it is measured.
        from: MeasuredFrom,
    },
}

/// Where the angle between two panels is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredFrom {
    /// In the tank.
    Inside,
    /// Outside the tank, at an inside corner of the body.
    Outside,
    /// On the sharper side of a panel that stands on another.
    SharperSide,
}

impl Meets {
    fn of(seam: &Seam) -> Self {
        let (angle, from) = match seam.joint {
            Joint::Butt => return Self::Flush,
            Joint::Tee | Joint::SlotThrough => (seam.angle, MeasuredFrom::SharperSide),
            _ if seam.is_re_entrant() => {
                (Angle::from_deg(360.0) - seam.angle, MeasuredFrom::Outside)
            }
            _ => (seam.angle, MeasuredFrom::Inside),
        };
        match (angle - Angle::from_deg(90.0)).abs() <= SQUARE {
            true => Self::Square,
            false => Self::At { angle, from },
        }
    }
}

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub work: Work,
    /// Numbers of the panels it is done to.
    pub panels: Vec<usize>,
    /// Numbers of the seams it is done to.
    pub seams: Vec<usize>,
    /// How it is done.
    pub how: How,
}

/// All panels by the fixed rule: floors, inner panels, walls from the largest down, lids, ribs.
pub(super) fn by_rule(panels: &[Panel]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..panels.len()).collect();
    order.sort_by_key(|&number| {
        let panel = &panels[number];
        (place(panel.role), -area(panel), number)
    });
    order
}

/// The area of a panel's outside face to a square millimetre, so that equal panels keep their order.
pub(super) fn area(panel: &Panel) -> i64 {
    let outlines = panel.finished.outlines(PlateFace::Outside);
    let area: f64 = outlines.iter().map(Outline::signed_area).sum();
    (area * 1e6).round() as i64
}

/// The steps of setting the panels in this order and laying every weld: inside when all but the lids stand, outside when
/// all do, and what a panel would close off before it is set.
pub(super) fn steps(
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    runs: &[Run],
    order: &[usize],
) -> Vec<Step> {
    let is_rib = |number: &usize| panels[*number].role == Role::Rib;
    let body: Vec<usize> = order.iter().copied().filter(|it| !is_rib(it)).collect();
    let closing = closing(panels, &body);
    let mut bench = Bench {
        panels,
        seams,
        welds,
        runs,
        closing,
        standing: vec![false; panels.len()],
        laid: Vec::new(),
        steps: Vec::new(),
    };
    for &number in &body[..body.len() - closing.len()] {
        bench.set(number);
    }
    bench.weld(WeldSide::Inside, false, How::Plain);
    for &number in closing {
        bench.set(number);
    }
    bench.weld(WeldSide::Inside, true, How::ThroughHatches);
    bench.weld(WeldSide::Outside, true, How::ClosingPanelUp);
    let is_turned = !bench.open(WeldSide::Outside, false).is_empty();
    if is_turned {
        bench.turn(How::ClosingPanelDown);
        bench.weld(WeldSide::Outside, false, How::ClosingPanelDown);
    }
    let is_closed_from_above = closing.iter().all(|&it| panels[it].role == Role::Lid);
    if is_turned || !is_closed_from_above {
        bench.turn(How::RightSideUp);
    }
    for number in order.iter().copied().filter(is_rib) {
        bench.set(number);
    }
    let ribs = bench.of_ribs();
    bench.lay(WeldSide::Outside, ribs, How::AboveAndBelow);
    bench.steps
}

/// The panels that close the tank in these steps.
pub(super) fn closing_in(panels: &[Panel], steps: &[Step]) -> Vec<usize> {
    let set = steps.iter().filter(|step| step.work == Work::Set);
    let set = set.flat_map(|step| step.panels.iter().copied());
    let body: Vec<usize> = set
        .filter(|&number| panels[number].role != Role::Rib)
        .collect();
    closing(panels, &body).to_vec()
}

/// The panels that close the tank: its lids where they come last, else the one that does.
fn closing<'a>(panels: &[Panel], body: &'a [usize]) -> &'a [usize] {
    let is_lid = |number: &usize| panels[*number].role == Role::Lid;
    let last_lids = body.iter().rev().take_while(|it| is_lid(it)).count();
    let count = match body.iter().any(is_lid) {
        true => last_lids.max(1),
        false => 0,
    };
    &body[body.len() - count..]
}

/// The same panels set in the same order, with each seam welded inside as soon as both its panels stand. The steps of an order put that off
/// for as long as hand and gun get there.
pub fn welded_as_set(steps: &[Step], welds: &[SeamWeld]) -> Vec<Step> {
    let is_inside = |seam: &usize| {
        let mut welds = welds.iter();
        welds.any(|weld| weld.seam == *seam && weld.side == WeldSide::Inside)
    };
    let mut laid: Vec<usize> = Vec::new();
    let mut sooner: Vec<Step> = Vec::new();
    let weld = |seams: Vec<usize>| Step {
        work: Work::WeldInside,
        panels: Vec::new(),
        seams,
        how: How::WhileOpen,
    };
    for step in steps {
        let seams = step.seams.iter().copied();
        match step.work {
            Work::Tack => {
                let now: Vec<usize> = seams.filter(is_inside).collect();
                laid.extend(&now);
                sooner.push(step.clone());
                sooner.extend((!now.is_empty()).then(|| weld(now)));
            }
            Work::WeldInside => {
                let left: Vec<usize> = seams.filter(|it| !laid.contains(it)).collect();
                sooner.extend((!left.is_empty()).then(|| weld(left)));
            }
            Work::Set | Work::Turn | Work::WeldOutside => sooner.push(step.clone()),
        }
    }
    sooner
}

fn place(role: Role) -> usize {
    match role {
        Role::Floor => 0,
        Role::Baffle | Role::Divider | Role::Stay => 1,
        Role::Wall => 2,
        Role::Lid => 3,
        Role::Rib => 4,
    }
}

/// What stands on the bench, and the steps so far.
struct Bench<'a> {
    panels: &'a [Panel],
    seams: &'a [Seam],
    welds: &'a [SeamWeld],
    /// What is known of the reach of each run.
    runs: &'a [Run],
    /// The panels that close the tank.
    closing: &'a [usize],
    standing: Vec<bool>,
    /// Seams that are welded, by the side.
    laid: Vec<(usize, WeldSide)>,
    steps: Vec<Step>,
}

impl Bench<'_> {
    /// Sets a panel and tacks it to everything that stands.
    fn set(&mut self, number: usize) {
        self.weld_before(number);
        let panel = &self.panels[number];
        let stands = |other: &usize| self.standing.get(*other).copied().unwrap_or(false);
        let meets = |seam: &Seam| match seam.panels {
            [a, b] if a == number => stands(&b),
            [a, b] if b == number => stands(&a),
            _ => false,
        };
        let tacked: Vec<usize> = (0..self.seams.len())
            .filter(|&seam| meets(&self.seams[seam]))
            .collect();
        self.standing[number] = true;
        let hangs = tacked.is_empty() && self.standing_numbers().count() > 1;
        self.steps.push(Step {
            work: Work::Set,
            panels: vec![number],
            seams: Vec::new(),
            how: match panel.role {
                _ if hangs => How::OnPackers,
                Role::Rib => How::OnItsWall,
                _ => How::Plain,
            },
        });
        if !tacked.is_empty() {
            let corners = tacked.iter().map(|&seam| Corner {
                seam,
                meets: Meets::of(&self.seams[seam]),
            });
            self.steps.push(Step {
                work: Work::Tack,
                panels: vec![number],
                how: How::Against(corners.collect()),
                seams: tacked,
            });
        }
    }

    /// Seams that are still to be welded from a side, those at a closing panel or the others, ribs apart.
    fn open(&self, side: WeldSide, at_closing: bool) -> Vec<usize> {
        let is_at_closing =
            |seam: &Seam| seam.panels.iter().any(|panel| self.closing.contains(panel));
        let mut seams: Vec<usize> = self
            .welds
            .iter()
            .filter(|weld| {
                let seam = &self.seams[weld.seam];
                weld.side == side
                    && !of_rib(self.panels, seam)
                    && is_at_closing(seam) == at_closing
                    && !self.laid.contains(&(weld.seam, side))
            })
            .map(|weld| weld.seam)
            .collect();
        seams.dedup();
        seams
    }

    /// Seams of ribs that have a weld and are still to be welded.
    fn of_ribs(&self) -> Vec<usize> {
        let numbers = self.welds.iter().map(|weld| weld.seam);
        let mut seams: Vec<usize> = numbers
            .filter(|&seam| of_rib(self.panels, &self.seams[seam]))
            .filter(|&seam| !self.laid.contains(&(seam, WeldSide::Outside)))
            .collect();
        seams.dedup();
        seams
    }

    fn turn(&mut self, how: How) {
        let panels = self.panels_named_in(&how);
        self.steps.push(Step {
            work: Work::Turn,
            panels,
            seams: Vec::new(),
            how,
        });
    }

    /// The panels by which it is said how the tank lies.
    fn panels_named_in(&self, how: &How) -> Vec<usize> {
        match how {
            How::ClosingPanelUp | How::ClosingPanelDown => self.closing.to_vec(),
            _ => Vec::new(),
        }
    }

    fn weld(&mut self, side: WeldSide, at_closing: bool, how: How) {
        let seams = self.open(side, at_closing);
        self.lay(side, seams, how);
    }

    /// Welds what a panel that is set next takes hand and gun away from.
    fn weld_before(&mut self, next: usize) {
        let standing: Plates = self.standing_numbers().collect();
        let with = standing.and(Plates::one(next));
        for side in [WeldSide::Inside, WeldSide::Outside] {
            let is_closed_off = |run: &&Run| {
                let stand = run.panels.iter().all(|&number| self.standing[number]);
                let mut welds = self.welds.iter();
                let is_planned = welds.any(|weld| (weld.seam, weld.side) == (run.seam, side));
                let is_open =
                    is_planned && run.side == side && !self.laid.contains(&(run.seam, side));
                stand && is_open && run.lost(standing, with) > Length::ZERO
            };
            let mut seams: Vec<usize> = self
                .runs
                .iter()
                .filter(is_closed_off)
                .map(|run| run.seam)
                .collect();
            seams.dedup();
            self.lay(side, seams, How::WhileOpen);
        }
    }

    fn standing_numbers(&self) -> impl Iterator<Item = usize> + '_ {
        (0..self.standing.len()).filter(|&number| self.standing[number])
    }

    fn lay(&mut self, side: WeldSide, seams: Vec<usize>, how: How) {
        if seams.is_empty() {
            return;
        }
        self.laid.extend(seams.iter().map(|&seam| (seam, side)));
        let panels = self.panels_named_in(&how);
        self.steps.push(Step {
            work: match side {
                WeldSide::Inside => Work::WeldInside,
                WeldSide::Outside => Work::WeldOutside,
            },
            panels,
            seams,
            how,
        });
    }
}
