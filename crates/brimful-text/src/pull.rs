//! How far welds pull, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::pull::InherentStrain;
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_strength::whole::{Bow, Lean, Most, Pull, STANDS_OFF, Spring, Way};
use brimful_tank::plan::Plan;
use brimful_units::{Angle, Length, UnitSystem};

/// A bevel gauge is read to half a degree at best.
const READ_TO: Angle = Angle::from_deg(0.5);

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
        let sprung = pull.springs.iter();
        let sprung = sprung.map(|it| self.sprung(it, self.panel(&plan.panels[it.panel].name)));
        let notes = [self.two_ways(pull), self.alternating(pull)];
        let others = Some(self.other_seams(pull)).filter(|it| !it.is_empty());
        notes
            .into_iter()
            .flatten()
            .chain(sprung)
            .chain(others)
            .collect()
    }

    /// What is left out.
    pub fn pull_model(&self) -> Text {
        say!(
            self,
            "Worked out on the folded panels as they stand in each step, cold and free of clamps. Clamps and a flat bench that hold it until it is cold take some of it off."
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
    pub fn lean(&self, lean: [Angle; 3]) -> Text {
        let ends = self.ends(lean.map(|it| self.angle(it.abs())));
        match lean[2].deg() >= 0.0 {
            true => say!(self, "closes by {lean}", lean = ends),
            false => say!(self, "opens by {lean}", lean = ends),
        }
    }

    /// How a corner is set so that it comes right; nothing where that is less than a bevel gauge shows.
    pub fn preset(&self, lean: &Lean) -> Text {
        let likely = lean.most()[1];
        if likely.abs() < READ_TO {
            return Text::default();
        }
        let angle = self.angle(likely.abs());
        match likely.deg() > 0.0 {
            true => say!(self, "{angle} more open", angle = angle),
            false => say!(self, "{angle} less open", angle = angle),
        }
    }

    /// The seams whose angle is off by what a bevel gauge shows, in the end or after one side.
    pub fn seams_off<'a>(&self, pull: &'a Pull) -> impl Iterator<Item = &'a Lean> {
        let shows = |lean: [Angle; 3]| lean[1].abs() >= READ_TO;
        let seams = pull.seams.iter();
        seams.filter(move |it| shows(it.most()) || it.one_side.is_some_and(shows))
    }

    /// What is said of the seams that are not listed.
    fn other_seams(&self, pull: &Pull) -> Text {
        match self.seams_off(pull).count() {
            0 => say!(
                self,
                "No corner is likely to be off by what a bevel gauge shows, half a degree."
            ),
            listed if listed < pull.seams.len() => say!(
                self,
                "The other corners are not likely to be off by what a bevel gauge shows, half a degree."
            ),
            _ => Text::default(),
        }
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

    /// The two ways to go about what is welded inside, and which draws less.
    fn two_ways(&self, pull: &Pull) -> Option<Text> {
        let as_set = pull.most_as_set.as_ref()?;
        let bow = |most: &Most| self.ends(most.bow.map(|it| self.length(it)));
        let lean = |most: &Most| self.ends(most.lean.map(|it| self.angle(it)));
        let figures = say!(
            self,
            "As in the order of work, with each run as late as hand and gun get there, the most that a panel is out of flat is {bow}, and a corner off its angle {lean}. With each seam welded inside as soon as its panels stand it would be {bow_as_set} and {lean_as_set}.",
            bow = bow(&pull.most),
            lean = lean(&pull.most),
            bow_as_set = bow(as_set),
            lean_as_set = lean(as_set)
        );
        let better = match as_set.bow[2] < pull.most.bow[2] {
            true => say!(
                self,
                "The second stays flatter: the order of work may be followed with its inside runs laid sooner, each once the one before is cold."
            ),
            false => say!(self, "The first stays flatter."),
        };
        Some(Text::join([figures, better], " "))
    }

    /// What keeps a panel from its place when it is set.
    fn sprung(&self, spring: &Spring, panel: Text) -> Text {
        let ends = |lengths: [Length; 3]| self.ends(lengths.map(|it| self.length(it)));
        let come_in = (spring.inward[2] > STANDS_OFF).then(|| {
            say!(
                self,
                "the edges that it meets have come in over its own by {inward}. Set what leans more open beforehand, press it back, or measure there before this panel is sawn.",
                inward = ends(spring.inward)
            )
        });
        let stand_off = (spring.gap[2] > STANDS_OFF).then(|| {
            let strain = self.ends(spring.strain.map(|it| self.percent_to_a_tenth(it)));
            let allowed = self.percent_to_a_tenth(spring.allowed);
            match spring.strain[2] > spring.allowed {
                true => say!(
                    self,
                    "the edges that it meets stand {gap} off a plane, and to bend it to them strains it by {strain}, of {allowed} that it may bear. Do not force it: plane its edges to what stands, or weld what has drawn later.",
                    gap = ends(spring.gap),
                    strain = strain,
                    allowed = allowed
                ),
                false => say!(
                    self,
                    "the edges that it meets stand {gap} off a plane. Let what is welded get cold, then press it on where it stands off most, with up to {force}, and clamp and tack it before it is let go; that strains it by {strain}, of {allowed} that it may bear.",
                    gap = ends(spring.gap),
                    force = self.force(spring.force[2]),
                    strain = strain,
                    allowed = allowed
                ),
            }
        });
        let both = [come_in, stand_off].into_iter().flatten();
        let told = both.map(|it| say!(self, "{panel}: {what}", panel = panel.clone(), what = it));
        Text::join(told, " ")
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
            "Pull strip: cut {width} x {length} of {thickness} sheet, lay one bead along a long edge with the rod and settings of the job, weigh it before and after, and let it cool for a day. Stand it on its edge and measure how far its middle has bowed. [shop] pull = {factor} x bow in {bow} / bead in {mass}.",
            width = self.length(strip.width),
            length = self.length(strip.length),
            thickness = self.length(strip.thickness),
            factor = self.number(factor, 4),
            bow = Text::verbatim(bow),
            mass = Text::verbatim(mass)
        )
    }
}
