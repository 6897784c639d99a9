//! What holds a tank together until its welds do, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_nest::Rect;
use brimful_panels::table::{Cited, fixture};
use brimful_panels::weld::fixture::block::AngleBlock;
use brimful_panels::weld::fixture::hold::{BlockPlace, Holding, Release, SeamHold};
use brimful_panels::weld::fixture::packer::Packers;
use brimful_panels::weld::order::{Step, Work};
use brimful_tank::cut::angle_block::BlockStock;
use brimful_tank::plan::Plan;
use brimful_units::Length;

/// The rows of the table that fixtures follow.
const ROWS: [&str; 5] = [
    "angle block",
    "clamps on thin sheet",
    "clamps on thick sheet",
    "clamps",
    "tacks",
];

impl Words<'_> {
    /// What holds a panel when it is set, in sentences.
    pub fn held_by(&self, holding: &Holding, plan: &Plan) -> Vec<Text> {
        let mut said = Vec::new();
        if let Some((packers, _)) = &holding.packers {
            said.push(self.packers(packers, plan));
        }
        let blocks = holding.seams.iter().filter(|it| it.blocks.is_some());
        let blocks: Vec<Text> = blocks.map(|it| self.blocks_at(it, plan)).collect();
        if !blocks.is_empty() {
            said.push(say!(
                self,
                "Angle blocks: {blocks}.",
                blocks = Text::join(blocks, "; ")
            ));
        }
        if !holding.seams.is_empty() {
            said.push(say!(
                self,
                "{count} clamps: one at each of {corners} corners, and between them {between}.",
                count = holding.clamps(),
                corners = holding.corner_clamps,
                between = self.clamps_between(holding, plan)
            ));
        }
        said.extend(self.closing_hold(holding));
        said
    }

    /// What goes for every panel that is set.
    pub fn holding_rules(&self) -> [Text; 2] {
        let [least, most] = fixture::lengths("tacks", "apart");
        [
            say!(
                self,
                "Blocks hard against both panels, nipped corner to the seam; a straight backing all along each seam under the clamps."
            ),
            say!(
                self,
                "Tack from the middle of each seam outwards, every {least} to {most}, before a clamp comes off.",
                least = self.length(least),
                most = self.length(most)
            ),
        ]
    }

    /// What holds a tank in a step and what comes off after it; none where nothing does.
    pub fn held_in_step(&self, step: usize, plan: &Plan) -> Option<Text> {
        let holding = plan.fixtures.holdings.iter().find(|it| it.step == step);
        let held = holding.map_or_else(Vec::new, |it| self.held_by(it, plan));
        let panel = holding.and_then(|it| plan.panels.get(it.panel));
        let panel = panel.map(|it| say!(self, "{panel}.", panel = self.marked(it)));
        let off = self.comes_off(step, plan);
        let off =
            (!off.is_empty()).then(|| say!(self, "Comes off: {off}", off = Text::join(off, " ")));
        let said: Vec<Text> = panel.into_iter().chain(held).chain(off).collect();
        (!said.is_empty()).then(|| Text::join(said, " "))
    }

    /// How what closes the tank is held, round which no clamp gets.
    fn closing_hold(&self, holding: &Holding) -> Option<Text> {
        (holding.closes && !holding.seams.is_empty()).then(|| {
            say!(
                self,
                "No block goes inside: it could not be got out. Where a clamp does not grip, hold it down at the same places with straps round the tank, or with weights."
            )
        })
    }

    fn packers(&self, packers: &Packers, plan: &Plan) -> Text {
        let [least, most] = packers.heights;
        let on = match packers.on.and_then(|it| plan.panels.get(it)) {
            Some(panel) => self.marked(panel),
            None => say!(self, "the bench"),
        };
        let (low, high) = (self.thickness(least), self.thickness(most));
        match low == high {
            true => say!(
                self,
                "Packers under its lower edge, {height} high, on {on}: nothing carries it yet. Two people, or a prop, until it is tacked.",
                height = low,
                on = on
            ),
            false => say!(
                self,
                "Packers under its lower edge, {low} high at one end and {high} at the other, on {on}: nothing carries it yet. Two people, or a prop, until it is tacked.",
                low = low,
                high = high,
                on = on
            ),
        }
    }

    fn blocks_at(&self, hold: &SeamHold, plan: &Plan) -> Text {
        let Some(own) = hold.blocks else {
            return Text::default();
        };
        let block = plan.fixtures.blocks.get(own.kind);
        let (mark, seam) = (
            block.map_or_else(Text::default, |it| self.given(&it.mark)),
            self.seam_mark(hold.seam, plan),
        );
        let at = say!(
            self,
            "{count} of {mark} at {seam}",
            count = own.count,
            mark = mark,
            seam = seam
        );
        match own.place {
            BlockPlace::InAngle => at,
            BlockPlace::AtEnds => say!(
                self,
                "{blocks}, flat against the open ends of both sheets, clear of the run",
                blocks = at
            ),
            BlockPlace::OtherFace => say!(
                self,
                "{blocks}, on the face where no run is being laid: change them over when the first is cold",
                blocks = at
            ),
        }
    }

    fn clamps_between(&self, holding: &Holding, plan: &Plan) -> Text {
        let each = holding.seams.iter().filter(|it| it.clamps > 0);
        let each = each.map(|it| {
            say!(
                self,
                "{count} at {seam}",
                count = it.clamps,
                seam = self.seam_mark(it.seam, plan)
            )
        });
        Text::join(each, ", ")
    }

    fn seam_mark(&self, seam: usize, plan: &Plan) -> Text {
        let seam = plan.seams.get(seam);
        seam.map_or_else(Text::default, |it| self.given(&it.mark))
    }

    /// When what holds a panel at a seam comes off.
    pub fn release(&self, release: Release, steps: &[Step]) -> Text {
        match release {
            Release::Tied { step } => say!(
                self,
                "{after}, tacks cold",
                after = self.after_step(step, steps)
            ),
            Release::Cold { step, wait } => {
                let after = self.after_step(step, steps);
                match wait {
                    Some(wait) => say!(
                        self,
                        "{wait} {after}, bead hand-warm",
                        wait = self.time(wait),
                        after = after
                    ),
                    None => say!(self, "{after}, bead hand-warm", after = after),
                }
            }
            Release::Last => say!(self, "when all is welded and cold"),
        }
    }

    fn after_step(&self, step: usize, steps: &[Step]) -> Text {
        let work = match steps.get(step).map(|it| it.work) {
            Some(Work::Set) => say!(self, "set"),
            Some(Work::Tack) => say!(self, "tack"),
            Some(Work::WeldInside) => say!(self, "weld inside"),
            Some(Work::WeldOutside) => say!(self, "weld outside"),
            Some(Work::Turn) => say!(self, "turn over"),
            None => Text::default(),
        };
        say!(
            self,
            "after step {step} ({work})",
            step = step + 1,
            work = work
        )
    }

    /// What comes off after a step, in sentences.
    pub fn comes_off(&self, step: usize, plan: &Plan) -> Vec<Text> {
        let mut said = Vec::new();
        for holding in &plan.fixtures.holdings {
            let is_now = |release: Release| release.step() == Some(step);
            let own = holding.seams.iter().filter(|it| is_now(it.release));
            let own: Vec<&SeamHold> = own.collect();
            let panel = plan.panels.get(holding.panel);
            let panel = panel.map_or_else(Text::default, |it| self.marked(it));
            if let Some(first) = own.first() {
                let seams = own.iter().map(|it| self.seam_mark(it.seam, plan));
                let seams = Text::join(seams, ", ");
                said.push(match first.release {
                    Release::Cold { wait: Some(wait), .. } => say!(
                        self,
                        "What holds {panel} at {seams}, {wait} after the last run, when the bead is hand-warm.",
                        panel = panel.clone(),
                        seams = seams,
                        wait = self.time(wait)
                    ),
                    Release::Cold { wait: None, .. } => say!(
                        self,
                        "What holds {panel} at {seams}, when the bead is hand-warm.",
                        panel = panel.clone(),
                        seams = seams
                    ),
                    Release::Tied { .. } | Release::Last => say!(
                        self,
                        "What holds {panel} at {seams}, once its tacks are cold.",
                        panel = panel.clone(),
                        seams = seams
                    ),
                });
            }
            if holding.packers.is_some_and(|(_, release)| is_now(release)) {
                said.push(say!(
                    self,
                    "The packers under {panel}, once its tacks are cold.",
                    panel = panel
                ));
            }
        }
        said
    }

    /// A kind of block in a sentence.
    pub fn angle_block(&self, block: &AngleBlock) -> Text {
        say!(
            self,
            "{mark}: {count} of {angle}, legs {leg}, corner nipped off by {nip} along each leg",
            mark = self.given(&block.mark),
            count = block.count,
            angle = self.angle(block.angle),
            leg = self.length(block.leg),
            nip = self.length(block.nip)
        )
    }

    /// What the blocks of a kind are cut from.
    pub fn block_stock(&self, stock: &BlockStock, plan: &Plan) -> Text {
        let each = stock.from.iter().map(|from| {
            let group = plan.cut.groups.get(from.group);
            let thickness = group.map_or(Length::ZERO, |it| it.thickness);
            say!(
                self,
                "{count} from the offcut of {size} on {thickness} sheet {sheet}, its lower left corner at {place}",
                count = from.blanks.len(),
                size = self.rect_size(from.offcut),
                thickness = self.thickness(thickness),
                sheet = from.layout + 1,
                place = self.rect_place(from.offcut)
            )
        });
        let board = (stock.from_board > 0).then(|| {
            say!(
                self,
                "{count} from plywood or other straight board as thick as the sheet or thicker: no offcut is large enough",
                count = stock.from_board
            )
        });
        Text::join(each.chain(board), "; ")
    }

    fn rect_size(&self, rect: Rect) -> Text {
        self.sizes([rect.length, rect.width].map(Length::from_m))
    }

    fn rect_place(&self, rect: Rect) -> Text {
        self.sizes([rect.x, rect.y].map(Length::from_m))
    }

    /// Where the rules of holding are from.
    pub fn fixture_sources(&self) -> Text {
        self.rows_cited(&ROWS)
    }

    /// Where rows of the table of fixtures are from, and how sure they are.
    pub(crate) fn rows_cited(&self, rows: &[&str]) -> Text {
        let sources = fixture::sources(rows).into_iter();
        let sources = sources.map(|(source, flag)| {
            say!(
                self,
                "{source} ({flag})",
                source = self.cited(&Cited::Row(source)),
                flag = self.flag(flag)
            )
        });
        Text::join(sources, "; ")
    }
}
