//! The order of work in words, as a list and as it is followed at the bench.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::kind::OrderCost;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::weld::bench::{BenchWork, Prep};
use brimful_panels::weld::corner::{Restart, ShortRun};
use brimful_panels::weld::order::{Corner, How, MeasuredFrom, Meets, Step, Work};
use brimful_panels::weld::work::OrderedBy;
use brimful_tank::hours::people;
use brimful_tank::plan::Plan;

impl Words<'_> {
    /// The steps of a plan in sentences; in the maker's own order each with what it costs, where it costs anything.
    pub fn steps(&self, plan: &Plan) -> Vec<Text> {
        let steps = plan.order.steps.iter().zip(plan.order.costs());
        let said = |(step, cost): (&Step, Option<OrderCost>)| {
            let step = self.step(step, plan);
            let is_own = plan.order.by == OrderedBy::Maker;
            match cost.filter(|cost| is_own && *cost != OrderCost::default()) {
                Some(cost) => say!(
                    self,
                    "{step} Costs: {cost}.",
                    step = step,
                    cost = self.order_cost(&cost)
                ),
                None => step,
            }
        };
        steps.map(said).collect()
    }

    /// What is done to the edges before any panel is set, alike together; none where nothing is opened.
    pub fn edges_first(&self, plan: &Plan) -> Option<Text> {
        let mut alike: Vec<(Text, Vec<usize>)> = Vec::new();
        let opened = plan.welds.welds.iter();
        for weld in opened.filter(|weld| weld.preparation.edges() > 0) {
            let what = self.preparation(weld.preparation);
            match alike.iter_mut().find(|(own, _)| *own == what) {
                Some((_, seams)) => seams.push(weld.seam),
                None => alike.push((what, vec![weld.seam])),
            }
        }
        let each = alike.into_iter().map(|(what, mut seams)| {
            seams.dedup();
            let seams = self.marks(&seams, &plan.seams);
            say!(self, "{seams}: {what}", seams = seams, what = what)
        });
        let each: Vec<Text> = each.collect();
        (!each.is_empty()).then(|| {
            let each = Text::join(each, "; ");
            say!(self, "Before any panel is set, its edges are opened for the weld, on the face that it is laid from; once it is tacked no tool gets there. {each}.", each = each)
        })
    }

    /// A step of the order of work in a sentence.
    pub fn step(&self, step: &Step, plan: &Plan) -> Text {
        let seams = self.marks(&step.seams, &plan.seams);
        match step.work {
            Work::Set => self.set(&self.with_marks(&step.panels, &plan.panels), &step.how),
            Work::Tack => {
                let corners = match &step.how {
                    How::Against(corners) => corners.as_slice(),
                    _ => &[],
                };
                say!(
                    self,
                    "Tack {panels} along {seams}; {corners}.",
                    panels = self.with_marks(&step.panels, &plan.panels),
                    seams = seams,
                    corners = self.corners(corners, &plan.seams)
                )
            }
            Work::Turn => {
                let down = self.with_marks(&step.panels, &plan.panels);
                self.turn(&step.how, &down, people(plan.mass.empty()))
            }
            Work::WeldInside => self.weld_inside(&seams, &step.how),
            Work::WeldOutside => {
                let closing = self.with_marks(&step.panels, &plan.panels);
                self.weld_outside(&seams, &step.how, &closing)
            }
        }
    }

    fn set(&self, panels: &Text, how: &How) -> Text {
        match how {
            How::OnPackers => say!(
                self,
                "Set {panels} on packers, held in place until a wall meets it; scrape and wipe dry every edge that meets another.",
                panels = panels
            ),
            How::OnItsWall => say!(
                self,
                "Set {panels} on its wall, with the corner beads planed flush where it crosses them; scrape and wipe dry every edge that meets another.",
                panels = panels
            ),
            _ => say!(
                self,
                "Set {panels}; scrape and wipe dry every edge that meets another.",
                panels = panels
            ),
        }
    }

    /// That corners come first, where somebody lays short runs through them.
    fn corners_first(&self) -> Text {
        match Restart::of(self.job).short_run {
            ShortRun::RoundNozzle | ShortRun::SameNozzle => {
                say!(self, "short runs through the corners first; ")
            }
            ShortRun::None => Text::default(),
        }
    }

    fn weld_inside(&self, seams: &Text, how: &How) -> Text {
        match how {
            How::ThroughHatches => say!(
                self,
                "Weld inside, through the hatches as far as they let a hand in, {seams}: {corners}scrape between runs.",
                seams = seams,
                corners = self.corners_first()
            ),
            How::WhileOpen => say!(
                self,
                "Weld inside {seams} now, since the next panel takes hand and gun away: {corners}scrape between runs.",
                seams = seams,
                corners = self.corners_first()
            ),
            _ => say!(
                self,
                "Weld inside {seams}: {corners}scrape between runs.",
                seams = seams,
                corners = self.corners_first()
            ),
        }
    }

    fn turn(&self, how: &How, down: &Text, people: usize) -> Text {
        match how {
            How::RightSideUp => say!(
                self,
                "Turn the tank right side up, as it will stand: {people} people or a hoist, on a clean blanket.",
                people = people
            ),
            _ => say!(
                self,
                "Turn the tank over, {panels} down: {people} people or a hoist, on a clean blanket.",
                panels = down,
                people = people
            ),
        }
    }

    fn weld_outside(&self, seams: &Text, how: &How, closing: &Text) -> Text {
        match how {
            How::ClosingPanelUp => say!(
                self,
                "Weld outside, with {panels} up, {seams}: {corners}scrape between runs.",
                panels = closing,
                seams = seams,
                corners = self.corners_first()
            ),
            How::ClosingPanelDown => say!(
                self,
                "Weld outside, with {panels} down, {seams}: {corners}scrape between runs.",
                panels = closing,
                seams = seams,
                corners = self.corners_first()
            ),
            How::WhileOpen => say!(
                self,
                "Weld outside {seams} now, since the next panel takes hand and gun away: {corners}scrape between runs.",
                seams = seams,
                corners = self.corners_first()
            ),
            How::AboveAndBelow => say!(
                self,
                "Weld the ribs, above and below, {seams}; scrape between runs.",
                seams = seams
            ),
            _ => say!(
                self,
                "Weld outside {seams}: {corners}scrape between runs.",
                seams = seams,
                corners = self.corners_first()
            ),
        }
    }

    /// How a panel is set to what stands, seams that meet alike together.
    fn corners(&self, corners: &[Corner], seams: &[Seam]) -> Text {
        if corners.iter().all(|corner| corner.meets == Meets::Square) {
            return say!(self, "check that it is square");
        }
        let mut alike: Vec<(Text, Vec<usize>)> = Vec::new();
        for corner in corners {
            let what = self.meets(corner.meets);
            match alike.iter_mut().find(|(said, _)| *said == what) {
                Some((_, of)) => of.push(corner.seam),
                None => alike.push((what, vec![corner.seam])),
            }
        }
        let each = alike.into_iter().map(|(what, of)| {
            let of = self.marks(&of, seams);
            say!(self, "{what} at {seams}", what = what, seams = of)
        });
        let each = Text::join(each, "; ");
        say!(self, "set it {each}", each = each)
    }

    fn meets(&self, meets: Meets) -> Text {
        match meets {
            Meets::Square => say!(self, "square"),
            Meets::Flush => say!(self, "flush"),
            Meets::At { angle, from } => {
                let angle = self.angle(angle);
                match from {
                    MeasuredFrom::Inside => say!(self, "to {angle} inside", angle = angle),
                    MeasuredFrom::Outside => say!(self, "to {angle} outside", angle = angle),
                    MeasuredFrom::SharperSide => {
                        say!(self, "to {angle} on the sharper side", angle = angle)
                    }
                }
            }
        }
    }

    /// A step at the bench in a few words.
    pub fn bench_title(&self, work: &BenchWork, plan: &Plan) -> Text {
        let names = work.panels().iter().map(|&it| &plan.panels[it].name);
        let panels = Text::join(names.map(|name| self.panel(name)), ", ");
        match work {
            BenchWork::TestStrip => say!(self, "Test strips"),
            BenchWork::AngleBlocks => say!(self, "Angle blocks"),
            BenchWork::Edges => say!(self, "Open the edges"),
            BenchWork::WaterTest => say!(self, "Water test"),
            BenchWork::Order(step) => match step.work {
                Work::Set => say!(self, "Set {panels}", panels = panels),
                Work::Tack => say!(self, "Tack {panels}", panels = panels),
                Work::WeldInside => say!(self, "Weld inside"),
                Work::Turn => match step.how {
                    How::RightSideUp => say!(self, "Turn right side up"),
                    _ => say!(self, "Turn over"),
                },
                Work::WeldOutside => say!(self, "Weld outside"),
            },
        }
    }

    /// A step at the bench in sentences.
    pub fn bench_text(&self, work: &BenchWork, plan: &Plan) -> Text {
        match work {
            BenchWork::TestStrip => say!(
                self,
                "Weld two off-cuts of the same sheet with the same rod and settings, let them cool, bend them in a vice. They must not part along the weld. Note the settings that worked."
            ),
            BenchWork::AngleBlocks => {
                let blocks = plan.fixtures.blocks.iter();
                let blocks = Text::join(blocks.map(|it| self.angle_block(it)), "; ");
                say!(
                    self,
                    "Saw the blocks that set the angles, by the page of the pack that draws them: {blocks}. Check each with a bevel gauge.",
                    blocks = blocks
                )
            }
            BenchWork::Edges => self.edges_first(plan).unwrap_or_default(),
            BenchWork::Order(step) => self.step(step, plan),
            BenchWork::WaterTest => say!(
                self,
                "Fill with water in the stages of the leak test page. Look at every seam and note the bulge at each stage. Brim-full it stands for a day."
            ),
        }
    }

    /// What comes before a step.
    pub fn prep(&self, prep: Prep) -> Text {
        match prep {
            Prep::OffCuts => say!(self, "Off-cuts of the sheet that is used, not of another."),
            Prep::ScrapeEdges => say!(self, "Scrape every edge that meets another."),
            Prep::WipeDry => say!(self, "Wipe dry; nothing that is still wet with solvent."),
            Prep::Square => say!(self, "Check that it stands square."),
            Prep::Angles => say!(self, "Set a bevel gauge to the angles of the step."),
            Prep::ScrapeGroove => say!(self, "Scrape groove and rod just before every run."),
            Prep::WarmCorners => self.corner_preheat(),
            Prep::CornersFirst => self.corner_rule(&Restart::of(self.job)),
            Prep::CutBack => self.restart_rule(&Restart::of(self.job)),
            Prep::CoolBetweenRuns => say!(
                self,
                "Let each run cool until it can be touched before the next."
            ),
            Prep::ClearBench => say!(self, "Clear the bench; lay a clean blanket."),
            Prep::ColdWelds => say!(self, "All welds cold, at best overnight."),
            Prep::OnItsSupport => say!(
                self,
                "On the support it will have, level, with room to see every seam."
            ),
        }
    }

    /// Panels by name and mark: `front (P3)`.
    fn with_marks(&self, numbers: &[usize], panels: &[Panel]) -> Text {
        let panels = numbers.iter().map(|&number| &panels[number]);
        let each = panels.map(|panel| {
            say!(
                self,
                "{name} ({mark})",
                name = self.panel(&panel.name),
                mark = self.given(&panel.mark)
            )
        });
        Text::join(each, ", ")
    }

    fn marks(&self, numbers: &[usize], seams: &[Seam]) -> Text {
        let marks = numbers.iter().map(|&number| seams[number].mark.as_str());
        Text::join(marks.map(|mark| self.given(mark)), ", ")
    }
}
