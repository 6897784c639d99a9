//! How far welds pull, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::pull::InherentStrain;
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_strength::whole::{Bow, Greatest, Lean, LeanAt, Misfit, Pull, Way};
use brimful_tank::plan::Plan;
use brimful_units::{Angle, Force, Length, UnitSystem};

/// A bevel gauge is read to half a degree at best.
const READ_TO: Angle = Angle::from_deg(0.5);
/// What is less is a touch of the hand, and what is more is beyond a few clamps that are drawn by hand, common practice.
const BY_ITSELF: Force = Force::from_n(10.0);
const BY_CLAMPS: Force = Force::from_n(1000.0);
/// A straight edge shows half a millimetre.
const FELT: Length = Length::from_mm(0.5);

fn shows(lean: [Angle; 3]) -> bool {
    lean[1].abs() >= READ_TO
}

/// Grams in an ounce, and millimetres in an inch.
const OUNCE: f64 = 28.349_523;
const INCH: f64 = 25.4;

impl Words<'_> {
    /// By how much a bead draws in, and whether that was measured.
    pub fn drawn_in(&self, inherent: &InherentStrain) -> Text {
        let [low, likely, high] = inherent.strain.map(|it| self.number(it * 100.0, 1));
        match inherent.strain[0] == inherent.strain[2] {
            true => say!(
                self,
                "Each bead draws in by {likely} % of its length while it cools, as the shop has measured.",
                likely = likely
            ),
            false => say!(
                self,
                "Each bead draws in by {low} to {high} % of its length while it cools, most likely {likely} %: nobody has measured it on welded sheet, and a strip of the shop's own settles it.",
                low = low,
                high = high,
                likely = likely
            ),
        }
    }

    /// What is said beside the figures of panels and seams.
    pub fn pull_notes(&self, plan: &Plan, pull: &Pull) -> Vec<Text> {
        let misfits = pull.misfits.iter();
        let misfits =
            misfits.flat_map(|it| self.misfit(it, &self.panel(&plan.panels[it.panel].name)));
        let notes = [
            self.two_ways(pull),
            self.alternating(pull),
            self.other_seams(pull),
            self.preset_unmeasured(pull),
        ];
        notes.into_iter().flatten().chain(misfits).collect()
    }

    /// That it is not worked out.
    pub fn no_pull(&self) -> Text {
        say!(
            self,
            "How far the welds pull it is not worked out: nothing is known of how much beads of this material draw in, or the tank has no model. A strip of the shop's own settles the first."
        )
    }

    /// What is left out.
    pub fn pull_model(&self) -> Text {
        say!(
            self,
            "Worked out on the folded panels as they stand in each step, joined along all their seams, cold and free of clamps: clamps and a flat bench that hold it until it is cold take some of it off. Angles are between the planes of two panels; a panel that bows closes its corners more than that."
        )
    }

    /// A bow: `2 mm to 6 mm outward`, or one figure where the strain was measured.
    pub fn bow(&self, bow: &Bow) -> Text {
        let ends = self.ends(bow.bow.map(|it| self.length(it)));
        match bow.way {
            Some(Way::Out) => say!(self, "{bow} outward", bow = ends),
            Some(Way::In) => say!(self, "{bow} inward", bow = ends),
            None => ends,
        }
    }

    /// The change of an angle: `closes by 1 deg to 3 deg`.
    fn lean(&self, at: LeanAt, lean: [Angle; 3]) -> Text {
        let ends = self.ends(lean.map(|it| self.angle(it.abs())));
        match (at, lean[2].deg() >= 0.0) {
            (LeanAt::Corner, true) => say!(self, "closes by {lean}", lean = ends),
            (LeanAt::Corner, false) => say!(self, "opens by {lean}", lean = ends),
            (LeanAt::Flush, true) => say!(self, "hollow inside by {lean}", lean = ends),
            (LeanAt::Flush, false) => say!(self, "hollow outside by {lean}", lean = ends),
            (LeanAt::Foot, true) => say!(self, "leans to its first bead by {lean}", lean = ends),
            (LeanAt::Foot, false) => say!(self, "leans from its first bead by {lean}", lean = ends),
        }
    }

    /// How a corner is set so that it comes right; nothing where that is less than a bevel gauge shows, or others hold it.
    fn preset(&self, lean: &Lean) -> Text {
        let Some([_, likely, _]) = lean.set_against().filter(|it| shows(*it)) else {
            return Text::default();
        };
        let angle = self.angle(likely.abs());
        match (lean.at, likely.deg() > 0.0) {
            (LeanAt::Corner, true) => say!(self, "{angle} more open", angle = angle),
            (LeanAt::Corner, false) => say!(self, "{angle} less open", angle = angle),
            (LeanAt::Flush, true) => say!(self, "hollow outside by {angle}", angle = angle),
            (LeanAt::Flush, false) => say!(self, "hollow inside by {angle}", angle = angle),
            (LeanAt::Foot, true) => say!(self, "{angle} from its first bead", angle = angle),
            (LeanAt::Foot, false) => say!(self, "{angle} to its first bead", angle = angle),
        }
    }

    /// The seams whose angle is off by what a bevel gauge shows, at any time.
    pub fn seams_off<'a>(&self, pull: &'a Pull) -> impl Iterator<Item = &'a Lean> {
        let at_any_time =
            |it: &&Lean| shows(it.lean) || [it.free, it.one_side].into_iter().flatten().any(shows);
        pull.seams.iter().filter(at_any_time)
    }

    /// A row of the table of seams: mark, panels, angle before others hold it, in the end, after one side, and how it is set.
    pub fn lean_row(&self, plan: &Plan, lean: &Lean) -> [Text; 6] {
        let seam = &plan.seams[lean.seam];
        let known =
            |it: Option<[Angle; 3]>| it.map(|it| self.lean(lean.at, it)).unwrap_or_default();
        [
            self.symbol(&seam.mark),
            self.panels_of(seam, &plan.panels),
            known(lean.free),
            known(Some(lean.lean)),
            known(lean.one_side),
            self.preset(lean),
        ]
    }

    /// What is said of the seams that are not listed.
    fn other_seams(&self, pull: &Pull) -> Option<Text> {
        match self.seams_off(pull).count() {
            0 => Some(say!(
                self,
                "The planes of no two panels are likely to be off by what a bevel gauge shows, {angle}.",
                angle = self.angle(READ_TO)
            )),
            listed if listed < pull.seams.len() => Some(say!(
                self,
                "Seams that are not listed are not likely to be off by what a bevel gauge shows, {angle}.",
                angle = self.angle(READ_TO)
            )),
            _ => None,
        }
    }

    /// That nothing is to be set by a range that nobody has measured.
    fn preset_unmeasured(&self, pull: &Pull) -> Option<Text> {
        let any = |it: &Lean| it.set_against().is_some_and(shows);
        (pull.strip.is_some() && pull.seams.iter().any(any)).then(|| {
            say!(
                self,
                "What to set beforehand is the likely one of a wide range: tack it square, unless a strip or the first such corner has shown how much it is in this shop."
            )
        })
    }

    /// What the second side takes back of what the first has drawn, where it takes back enough to be seen.
    fn alternating(&self, pull: &Pull) -> Option<Text> {
        let taken_back = |it: &Lean| Some(it.one_side?[1].abs() - it.lean[1].abs());
        let seams = pull.seams.iter();
        let two_sided = seams.filter_map(|it| Some((taken_back(it)?, it)));
        let (taken_back, seam) = two_sided.max_by(|(a, _), (b, _)| a.total_cmp(b))?;
        let one_side = seam.one_side.filter(|_| taken_back >= READ_TO)?;
        let ends = |lean: [Angle; 3]| self.ends(lean.map(|it| self.angle(it.abs())));
        Some(say!(
            self,
            "With one side laid a corner is off by {one}, and by {both} when the other is laid too: alternate the sides run by run where both are reached, and it does not get that far.",
            one = ends(one_side),
            both = ends(seam.lean)
        ))
    }

    /// The two ways to go about what is welded inside, and which draws less, where that shows.
    fn two_ways(&self, pull: &Pull) -> Option<Text> {
        let as_set = pull.greatest_as_set.as_ref()?;
        let now = &pull.greatest;
        let bow = |it: &Greatest| self.ends(it.bow.map(|it| self.length(it)));
        let lean = |it: &Greatest| self.ends(it.lean.map(|it| self.angle(it)));
        let figures = say!(
            self,
            "As in the order of work, with each run as late as hand and gun get there, the most that a panel is out of flat is {bow}, and the most that an angle is off {lean}. With each seam welded inside as soon as its panels stand it would be {bow_as_set} and {lean_as_set}.",
            bow = bow(now),
            lean = lean(now),
            bow_as_set = bow(as_set),
            lean_as_set = lean(as_set)
        );
        let flatter = |one: &Greatest, other: &Greatest| other.bow[1] - one.bow[1] >= FELT;
        let squarer = |one: &Greatest, other: &Greatest| other.lean[1] - one.lean[1] >= READ_TO;
        let first = [flatter(now, as_set), squarer(now, as_set)];
        let second = [flatter(as_set, now), squarer(as_set, now)];
        let better = match (first, second) {
            ([false, false], [false, false]) => say!(self, "They differ by less than shows."),
            (_, [false, false]) => say!(self, "The first draws less."),
            ([false, false], _) => say!(
                self,
                "The second draws less, but whether its panels then fit each other as they are set has not been worked out."
            ),
            ([true, _], _) => say!(self, "The first is flatter, the second squarer."),
            _ => say!(self, "The first is squarer, the second flatter."),
        };
        Some(Text::join([figures, better], " "))
    }

    /// What keeps a panel from its place when it is set.
    fn misfit(&self, misfit: &Misfit, panel: &Text) -> Vec<Text> {
        let ends = |lengths: [Length; 3]| self.ends(lengths.map(|it| self.length(it)));
        let come_in = misfit.inward.map(|inward| {
            say!(
                self,
                "{panel} ends between edges that have come in over its own by {inward} when it is set. Set what leans more open beforehand, press it back, or measure there before this panel is sawn.",
                panel = panel.clone(),
                inward = ends(inward)
            )
        });
        let sprung = misfit.sprung.map(|sprung| {
            let strain = self.ends(sprung.strain.map(|it| self.percent_to_a_tenth(it)));
            let allowed = self.percent_to_a_tenth(sprung.allowed);
            let is_too_much = sprung.strain[2] > sprung.allowed || sprung.force[2] > BY_CLAMPS;
            match is_too_much {
                true => say!(
                    self,
                    "{panel} lies over edges that stand {gap} off a plane when it is set; to bend it to them takes up to {force} and strains it by {strain}, of {allowed} that it may bear. Do not force it: plane the edges that it lies on, or weld later what has drawn.",
                    panel = panel.clone(),
                    gap = ends(sprung.gap),
                    force = self.force(sprung.force[2]),
                    strain = strain,
                    allowed = allowed
                ),
                false if sprung.force[2] < BY_ITSELF => say!(
                    self,
                    "{panel} lies over edges that stand {gap} off a plane when it is set. Let what is welded get cold; next to nothing presses it on.",
                    panel = panel.clone(),
                    gap = ends(sprung.gap)
                ),
                false => say!(
                    self,
                    "{panel} lies over edges that stand {gap} off a plane when it is set. Let what is welded get cold, then press it on where it stands off most, with up to {force}, and clamp and tack it before it is let go; that strains it by {strain}, of {allowed} that it may bear. Lay its runs with the clamps on.",
                    panel = panel.clone(),
                    gap = ends(sprung.gap),
                    force = self.force(sprung.force[2]),
                    strain = strain,
                    allowed = allowed
                ),
            }
        });
        [come_in, sprung].into_iter().flatten().collect()
    }

    fn percent_to_a_tenth(&self, share: f64) -> Text {
        say!(self, "{number} %", number = self.number(share * 100.0, 1))
    }

    fn ends(&self, [low, _, high]: [Text; 3]) -> Text {
        match low == high {
            true => high,
            false => say!(self, "{low} to {high}", low = low, high = high),
        }
    }

    /// How the shop measures its own pull.
    pub fn pull_strip(&self, strip: &PullStrip) -> Text {
        let per_bow_and_mass = strip.strain_for_bow_and_mass();
        let (bow, mass, factor) = match self.system {
            UnitSystem::Metric => ("mm", "g", per_bow_and_mass),
            UnitSystem::Inch => ("in", "oz", per_bow_and_mass * INCH / OUNCE),
        };
        say!(
            self,
            "Pull strip: cut {width} x {length} of {thickness} sheet, lay one bead along a long edge with the rod and settings of the job, weigh it before and after, and let it cool for a day. Stand it on the edge with the bead and measure how far its middle has risen. [shop] pull = {factor} x bow in {bow} / bead in {mass}.",
            width = self.length(strip.width),
            length = self.length(strip.length),
            thickness = self.length(strip.thickness),
            factor = self.number(factor, 4),
            bow = Text::verbatim(bow),
            mass = Text::verbatim(mass)
        )
    }
}
