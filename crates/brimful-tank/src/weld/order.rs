//! The order of work, by a fixed rule: floors, inner panels, walls from the largest down, then what
//! can be welded inside, lids last, turn over, weld outside; ribs go round the finished box.
//!
//! Nothing here knows whether gun and hand reach a run; a finding says so.

use super::{SeamWeld, WeldSide, of_rib};
use crate::finding::{Finding, Grade, Quantity};
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use brimful_geom::plate::PlateFace;
use brimful_job::{Job, Service};

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

/// One step.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub work: Work,
    /// Numbers of the panels it is done to.
    pub panels: Vec<usize>,
    /// Numbers of the seams it is done to.
    pub seams: Vec<usize>,
    /// In a sentence.
    pub text: String,
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
    bench.weld(Work::WeldInside, open, "Weld inside");
    for &number in order
        .iter()
        .filter(|&&number| panels[number].role == Role::Lid)
    {
        bench.set(number);
    }
    let closed = bench.welded_from(WeldSide::Inside, true);
    bench.weld(
        Work::WeldInside,
        closed,
        "Weld inside, through the hatches as far as they let a hand in,",
    );
    let outside = bench.welded_from(WeldSide::Outside, false);
    let outside_of_lid = bench.welded_from(WeldSide::Outside, true);
    bench.weld(Work::WeldOutside, outside_of_lid, "Weld outside, lid up,");
    if !outside.is_empty() {
        let text = "Turn the tank over: two people, on a clean blanket.".to_owned();
        bench.steps.push(Step {
            work: Work::Turn,
            panels: Vec::new(),
            seams: Vec::new(),
            text,
        });
        bench.weld(Work::WeldOutside, outside, "Weld outside");
    }
    for &number in order
        .iter()
        .filter(|&&number| panels[number].role == Role::Rib)
    {
        bench.set(number);
    }
    let ribs = bench.of_ribs();
    bench.weld(Work::WeldOutside, ribs, "Weld the ribs, above and below,");
    bench.steps
}

/// What the rule leaves open.
pub fn findings(job: &Job, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Vec<Finding> {
    if seams.is_empty() {
        return Vec::new();
    }
    let rule = "fixed order of work: floor, inner panels, walls by size, lid last";
    let mut findings = vec![
        Finding::new(Grade::Mend, "order of work", "Reach and access are not yet proven: the order follows a fixed rule, and nobody has shown that hand and gun get to every run.")
            .source(rule)
            .cure("Walk through the steps with the gun in hand before cutting, or ask for outside-only joints."),
    ];
    let behind =
        |weld: &&SeamWeld| weld.side == WeldSide::Inside && touches_lid(panels, &seams[weld.seam]);
    let mut closed: Vec<&str> = welds
        .iter()
        .filter(behind)
        .map(|weld| seams[weld.seam].mark.as_str())
        .collect();
    closed.dedup();
    if !closed.is_empty() {
        let hatch = job
            .openings
            .iter()
            .any(|opening| opening.service == Service::Hatch);
        let (grade, says) = if hatch {
            (
                Grade::Mend,
                "These seams have inside runs that lie behind the lid once it is on: they can only be laid through a hatch, if at all.",
            )
        } else {
            (
                Grade::Stop,
                "These seams have inside runs that lie behind the lid once it is on, and there is no hatch to lay them through.",
            )
        };
        findings.push(
            Finding::new(grade, closed.join(", "), says)
                .figures(Quantity::Count(closed.len()), Quantity::Count(0))
                .source(rule)
                .cure("A hatch large enough, or an open-corner lid welded from outside alone at its lower strength."),
        );
    }
    findings
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

fn touches_lid(panels: &[Panel], seam: &Seam) -> bool {
    seam.panels.iter().any(|&number| {
        panels
            .get(number)
            .is_some_and(|panel| panel.role == Role::Lid)
    })
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
        let what = format!("{} ({})", panel.name, panel.mark);
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
        let how = if hangs {
            " on packers, held in place until a wall meets it"
        } else if panel.role == Role::Rib {
            " on its wall, with the corner beads planed flush where it crosses them"
        } else {
            ""
        };
        self.steps.push(Step {
            work: Work::Set,
            panels: vec![number],
            seams: Vec::new(),
            text: format!("Set {what}{how}; scrape and wipe dry every edge that meets another."),
        });
        if !tacked.is_empty() {
            let text = format!(
                "Tack {what} along {}; check that it is square.",
                self.marks(&tacked)
            );
            self.steps.push(Step {
                work: Work::Tack,
                panels: vec![number],
                seams: tacked,
                text,
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

    fn weld(&mut self, work: Work, seams: Vec<usize>, what: &str) {
        if !seams.is_empty() {
            let text = format!("{what} {}; scrape between runs.", self.marks(&seams));
            self.steps.push(Step {
                work,
                panels: Vec::new(),
                seams,
                text,
            });
        }
    }

    fn marks(&self, seams: &[usize]) -> String {
        let marks: Vec<&str> = seams
            .iter()
            .map(|&seam| self.seams[seam].mark.as_str())
            .collect();
        marks.join(", ")
    }
}

fn number_of_standing(standing: &[bool]) -> usize {
    standing.iter().filter(|stands| **stands).count()
}
