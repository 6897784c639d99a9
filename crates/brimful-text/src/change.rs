//! Changes that were tried on a job: what is changed, what that adds, and what came of it.

use crate::text::Text;
use crate::words::Words;
use brimful_job::Axis;
use brimful_panels::panels::NotLaidOut;
use brimful_strength::whole::NoScore;
use brimful_tank::remedy::{Adds, AutoResult, NoTrial, Remedy, Variant, What};
use brimful_units::{Mass, Time, Volume};

/// A change of what a tank holds below this is rounding of a thicker sheet or another baffle.
const WORTH_SAYING: Volume = Volume::from_litres(0.5);
/// Grams and millimetres of rod are rounding too, and so is what is no tenth of an hour.
const NOTHING: f64 = 1e-3;
const NO_TIME: Time = Time::from_s(180.0);

/// Where in a job file a change is written.
pub fn change_entry(what: &What) -> &'static str {
    match what {
        What::OuterSheets(_) => "[body] thickness",
        What::InnerSheets(_) => "[[inner]] thickness",
        What::Baffles { .. } => "[[inner]] kind = \"baffle\"",
        What::WithoutBaffles { .. } => "[[inner]]",
        What::SlotThrough { .. } => "[[inner]] joint",
        What::Hatches { .. } => "[[opening]] service = \"hatch\"",
        What::Bands { .. } => "[[rib]]",
        What::Stays { .. } => "[[inner]] kind = \"stay\"",
        What::Rails(_) | What::Board => "[support]",
        What::Extrusion => "[shop] process",
        What::Clearance(_) => "[space] clearance",
        What::LowerFill { .. } => "[liquid] air_space, [checks] filled_to = \"rated\"",
        What::Both(_, other) => change_entry(other),
    }
}

impl Words<'_> {
    /// What is changed, in a sentence.
    pub fn change(&self, what: &What) -> Text {
        match what {
            What::OuterSheets(thickness) => say!(
                self,
                "Outer sheets of {thickness}.",
                thickness = self.thickness(*thickness)
            ),
            What::InnerSheets(thickness) => say!(
                self,
                "Baffles and dividers of {thickness}.",
                thickness = self.thickness(*thickness)
            ),
            What::Baffles { across, at } => {
                let axis = match across {
                    Axis::X => "x",
                    Axis::Y => "y",
                    Axis::Z => "z",
                };
                let (axis, places) = (self.given(axis), self.lengths(at));
                match at.len() {
                    1 => say!(
                        self,
                        "1 baffle across {axis}, at {at}.",
                        axis = axis,
                        at = places
                    ),
                    n => say!(
                        self,
                        "{n} baffles across {axis}, at {at}.",
                        n = n,
                        axis = axis,
                        at = places
                    ),
                }
            }
            What::WithoutBaffles { names } => {
                let named = Text::join(names.iter().map(|name| self.given(name)), ", ");
                match names.len() {
                    1 => say!(self, "Without the baffle {named}.", named = named),
                    _ => say!(self, "Without the baffles {named}.", named = named),
                }
            }
            What::SlotThrough { names } => say!(
                self,
                "{named} joined by tongues through slots, welded outside.",
                named = Text::join(names.iter().map(|name| self.given(name)), ", ")
            ),
            What::Bands { instead, depth, at } => {
                let (n, depth, at) = (at.len(), self.length(*depth), self.lengths(at));
                match instead {
                    true => say!(
                        self,
                        "{n} bands round the walls in place of the ribs it has, {depth} deep, at {at}.",
                        n = n,
                        depth = depth,
                        at = at
                    ),
                    false => say!(
                        self,
                        "{n} bands round the walls, {depth} deep, at {at}.",
                        n = n,
                        depth = depth,
                        at = at
                    ),
                }
            }
            What::Stays { width, at } => say!(
                self,
                "{n} pairs of stays {width} wide from wall to wall, in the middle both ways, at {at}.",
                n = at.len(),
                width = self.length(*width),
                at = self.lengths(at)
            ),
            What::Hatches {
                diameter,
                at,
                instead,
                ..
            } => {
                let places = at.iter().map(|place| self.lengths(place));
                let (places, diameter) = (Text::join(places, "; "), self.length(*diameter));
                let hatches = match at.len() {
                    1 => say!(
                        self,
                        "1 hatch of {diameter} in the lid, at {places}",
                        diameter = diameter,
                        places = places
                    ),
                    n => say!(
                        self,
                        "{n} hatches of {diameter} in the lid, at {places}",
                        n = n,
                        diameter = diameter,
                        places = places
                    ),
                };
                match instead.is_empty() {
                    true => say!(self, "{hatches}.", hatches = hatches),
                    false => say!(
                        self,
                        "{hatches}, in place of {names}.",
                        hatches = hatches,
                        names = Text::join(instead.iter().map(|name| self.given(name)), ", ")
                    ),
                }
            }
            What::Rails(at) => say!(
                self,
                "{n} rails, at {at}.",
                n = at.len(),
                at = self.lengths(at)
            ),
            What::Board => say!(self, "A flat board under the whole floor."),
            What::Extrusion => say!(self, "Welded with an extruder instead of hot gas."),
            What::Clearance(clearance) => say!(
                self,
                "A smaller body, {clearance} off what is beside it.",
                clearance = self.length(*clearance)
            ),
            What::LowerFill { air_space } => say!(
                self,
                "Never filled into the topmost {air}, which an overflow of full size has to see to.",
                air = self.length(*air_space)
            ),
            What::Both(one, other) => Text::join([self.change(one), self.change(other)], " "),
        }
    }

    /// What is changed, and what that adds, where it is known.
    pub fn change_with_adds(&self, what: &What, adds: Option<&Adds>) -> Text {
        let what = self.change(what);
        match adds {
            Some(adds) => say!(self, "{what} ({adds})", what = what, adds = self.adds(adds)),
            None => what,
        }
    }

    /// What came of a change that was tried.
    pub fn outcome(&self, remedy: &Remedy) -> Text {
        match remedy {
            Remedy { holds: false, .. } => say!(self, "no"),
            Remedy { checked: false, .. } => say!(self, "not checked in full"),
            Remedy { breaks, .. } if !breaks.is_empty() => {
                let breaks = breaks.iter().map(|it| self.finding(it).says);
                let breaks = Text::join(breaks, " ");
                say!(self, "yes, but: {breaks}", breaks = breaks)
            }
            _ => say!(self, "yes"),
        }
    }

    /// What a change adds or saves: sheet, rod, hours, money where the job has prices, litres.
    pub fn adds(&self, adds: &Adds) -> Text {
        let parts = [
            (adds.sheet.kg(), {
                let mass = self.mass(Mass::from_kg(adds.sheet.kg().abs()));
                say!(self, "{mass} of sheet", mass = mass)
            }),
            (adds.rod.m(), {
                let rod = self.long_length(adds.rod.abs());
                say!(self, "{rod} of rod", rod = rod)
            }),
            (
                if adds.hours.abs() < NO_TIME {
                    0.0
                } else {
                    adds.hours.s()
                },
                {
                    let hours = self.number(adds.hours.hours().abs(), 1);
                    say!(self, "{hours} h", hours = hours)
                },
            ),
        ];
        let worth_saying = parts.into_iter().filter(|(by, _)| by.abs() > NOTHING);
        let (less, more): (Vec<_>, Vec<_>) = worth_saying.partition(|(by, _)| *by < 0.0);
        let list = |parts: Vec<(f64, Text)>| Text::join(parts.into_iter().map(|(_, it)| it), ", ");
        let mut said = Vec::new();
        if !more.is_empty() {
            said.push(say!(self, "adds {parts}", parts = list(more)));
        }
        if !less.is_empty() {
            said.push(say!(self, "saves {parts}", parts = list(less)));
        }
        if let (Some(currency), Some(money)) = (&self.job.quote.currency, adds.money) {
            let parts = [self.number(money, 2), self.given(currency)];
            said.push(Text::join(parts, " "));
        }
        if adds.rated < -WORTH_SAYING {
            let less = self.volume(-adds.rated);
            said.push(say!(self, "holds {less} less", less = less));
        }
        Text::join(said, ", ")
    }

    /// A sheet and places of baffles.
    pub(crate) fn variant(&self, variant: &Variant) -> Text {
        let sheet = variant.sheet.map(|sheet| {
            say!(
                self,
                "sheet of {thickness}",
                thickness = self.thickness(sheet)
            )
        });
        let baffles = variant.baffles.as_ref().map(|at| {
            let places = self.lengths(at);
            match at.len() {
                1 => say!(self, "1 baffle at {at}", at = places),
                n => say!(self, "{n} baffles at {at}", n = n, at = places),
            }
        });
        match (sheet, baffles) {
            (Some(sheet), Some(baffles)) => say!(
                self,
                "{sheet} with {baffles}",
                sheet = sheet,
                baffles = baffles
            ),
            (sheet, baffles) => sheet.or(baffles).unwrap_or_default(),
        }
    }

    /// A variant that was tried, and what came of it.
    pub(crate) fn variant_result(&self, (variant, result): &(Variant, AutoResult)) -> Text {
        let variant = self.variant(variant);
        match result {
            AutoResult::Holds => say!(self, "{variant} holds", variant = variant),
            AutoResult::Over { panel, seam } => say!(
                self,
                "{variant} uses {panel} of a panel and {seam} of a seam",
                variant = variant,
                panel = self.percent(*panel),
                seam = self.percent(*seam)
            ),
            AutoResult::NoAnswer(why) => say!(
                self,
                "{variant} has no answer: {why}",
                variant = variant,
                why = self.no_score(why)
            ),
            AutoResult::Unsure => say!(
                self,
                "{variant} is too near its limits, or a load has no answer",
                variant = variant
            ),
        }
    }

    /// Why a change came to no answer, in a sentence.
    pub fn no_trial(&self, why: &NoTrial) -> Text {
        match why {
            NoTrial::NotLaidOut(why) => self.not_laid_out(why),
            NoTrial::NoScore(why) => {
                say!(self, "It has no answer: {why}.", why = self.no_score(why))
            }
        }
    }

    /// Why a body is not laid out as a tank, in a sentence.
    pub(crate) fn not_laid_out(&self, why: &NotLaidOut) -> Text {
        match why {
            NotLaidOut::Faults(faults) => match faults.first() {
                Some(fault) => self.shape_fault(fault).says,
                None => say!(self, "It cannot be laid out."),
            },
            NotLaidOut::Stopped(finding) => self.finding(finding).says,
        }
    }

    /// Why a tank has no score, in a clause.
    fn no_score(&self, why: &NoScore) -> Text {
        match why {
            NoScore::CaseNotCovered(case, why) => say!(
                self,
                "{case} is not covered: {why}",
                case = self.case(*case),
                why = self.not_covered(why)
            ),
            NoScore::NoModel(why) => self.no_model(why),
            NoScore::NoAnswer(case, fault) => say!(
                self,
                "{fault} ({case})",
                fault = self.shell(fault),
                case = self.case(*case)
            ),
            NoScore::CaseGone => say!(self, "a load case that governs is not there any more"),
            NoScore::EventWithoutRest => {
                say!(self, "an event comes on top of rest, which is not covered")
            }
        }
    }
}
