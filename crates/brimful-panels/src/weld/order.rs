//! The order of work, by a fixed rule: floors, inner panels, walls from the largest down, then what
//! can be welded inside, lids last, turn over, weld outside; ribs go round the finished box.
//!
//! Which runs can be laid at all has been settled before (`weld/reach.rs`).

use super::reach::touches_lid;
use super::seam_weld::{SeamWeld, of_rib};
use super::side::WeldSide;
use crate::panel::{Panel, Role};
use crate::seam::{Joint, Seam};
use brimful_geom::plate::PlateFace;
use brimful_units::Angle;

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
    /// With the lid up.
    LidUp,
    /// Behind the lid, through the hatches.
    ThroughHatches,
    /// Above and below each rib.
    AboveAndBelow,
}

impl How {
    /// A word for it that is the same in every language.
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Plain => "plain",
            Self::OnPackers => "on packers",
            Self::OnItsWall => "on its wall",
            Self::Against(_) => "against",
            Self::LidUp => "lid up",
            Self::ThroughHatches => "through hatches",
            Self::AboveAndBelow => "above and below",
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

/// The steps.
pub fn steps(panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Vec<Step> {
    let mut order: Vec<usize> = (0..panels.len()).collect();
    // To a square millimetre, so that equal panels keep their order.
    let area = |number: usize| {
        let outlines = panels[number].finished.outlines(PlateFace::Outside);
        (outlines
            .iter()
            .map(brimful_geom::polygon::Outline::signed_area)
            .sum::<f64>()
            * 1e6)
            .round() as i64
    };
    order.sort_by_key(|&number| (place(panels[number].role), -area(number), number));
    let mut bench = Bench {
        panels,
        seams,
        welds,
        standing: vec![false; panels.len()],
        steps: Vec::new(),
    };
    for &number in order
        .iter()
        .filter(|&&number| !matches!(panels[number].role, Role::Lid | Role::Rib))
    {
        bench.set(number);
    }
    let open = bench.welded_from(WeldSide::Inside, false);
    bench.weld(Work::WeldInside, open, How::Plain);
    for &number in order
        .iter()
        .filter(|&&number| panels[number].role == Role::Lid)
    {
        bench.set(number);
    }
    let closed = bench.welded_from(WeldSide::Inside, true);
    bench.weld(Work::WeldInside, closed, How::ThroughHatches);
    let outside = bench.welded_from(WeldSide::Outside, false);
    let outside_of_lid = bench.welded_from(WeldSide::Outside, true);
    bench.weld(Work::WeldOutside, outside_of_lid, How::LidUp);
    if !outside.is_empty() {
        bench.steps.push(Step {
            work: Work::Turn,
            panels: Vec::new(),
            seams: Vec::new(),
            how: How::Plain,
        });
        bench.weld(Work::WeldOutside, outside, How::Plain);
    }
    for &number in order
        .iter()
        .filter(|&&number| panels[number].role == Role::Rib)
    {
        bench.set(number);
    }
    let ribs = bench.of_ribs();
    bench.weld(Work::WeldOutside, ribs, How::AboveAndBelow);
    bench.steps
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
    standing: Vec<bool>,
    steps: Vec<Step>,
}

impl Bench<'_> {
    /// Sets a panel and tacks it to everything that stands.
    fn set(&mut self, number: usize) {
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
        let hangs = tacked.is_empty() && number_of_standing(&self.standing) > 1;
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

    /// Seams welded from a side, those at a lid or the others.
    fn welded_from(&self, side: WeldSide, at_lid: bool) -> Vec<usize> {
        let mut seams: Vec<usize> = self
            .welds
            .iter()
            .filter(|weld| {
                let seam = &self.seams[weld.seam];
                weld.side == side
                    && !of_rib(self.panels, seam)
                    && touches_lid(self.panels, seam) == at_lid
            })
            .map(|weld| weld.seam)
            .collect();
        seams.dedup();
        seams
    }

    /// Seams of ribs that have a weld.
    fn of_ribs(&self) -> Vec<usize> {
        let numbers = self.welds.iter().map(|weld| weld.seam);
        let mut seams: Vec<usize> = numbers
            .filter(|&seam| of_rib(self.panels, &self.seams[seam]))
            .collect();
        seams.dedup();
        seams
    }

    fn weld(&mut self, work: Work, seams: Vec<usize>, how: How) {
        if !seams.is_empty() {
            self.steps.push(Step {
                work,
                panels: Vec::new(),
                seams,
                how,
            });
        }
    }
}

fn number_of_standing(standing: &[bool]) -> usize {
    standing.iter().filter(|stands| **stands).count()
}
