//! Working time line by line, and what is waited for.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::laying::SpeedBound;
use brimful_tank::hours::{Amount, Labour};
use brimful_tank::waits::Waiting;
use brimful_units::UnitSystem;

impl Words<'_> {
    /// What is done in a line of the sum.
    pub fn labour(&self, labour: Labour) -> Text {
        match labour {
            Labour::Sawing => say!(self, "sawing blanks out of the sheets"),
            Labour::FurtherCuts => say!(self, "angles, notches and bevelled sides"),
            Labour::Bevelling => say!(self, "bevelling edges for welding"),
            Labour::Holes => say!(self, "cutting holes and slots"),
            Labour::Setting => say!(self, "marking, lifting and setting panels"),
            Labour::Clamping => say!(self, "clamping"),
            Labour::Tacking => say!(self, "tacking seams"),
            Labour::Scraping => say!(self, "scraping before every run"),
            Labour::Laying => say!(self, "laying runs"),
            Labour::LayingByRod => say!(self, "laying runs, as fast as the rod melts"),
            Labour::LayingByOutput => say!(self, "laying runs, as fast as the extruder gives"),
            Labour::LayingShort => say!(
                self,
                "laying short runs through corners with the round nozzle"
            ),
            Labour::Starting => say!(self, "starting and ending runs"),
            Labour::Turning => say!(self, "turning it over, by each person it takes"),
            Labour::Fitting => say!(self, "fitting what goes in the openings"),
            Labour::Filling => say!(self, "filling for the leak test"),
            Labour::Testing => say!(self, "looking and measuring at each stage of the leak test"),
        }
    }

    /// What is waited for.
    pub fn waiting(&self, waiting: Waiting) -> Text {
        match waiting {
            Waiting::NextRun => say!(
                self,
                "runs cooling, with no other run of the step left to lay"
            ),
            Waiting::BeforeTurning => say!(self, "beads cooling before it is turned"),
            Waiting::LastBeads => say!(self, "the last beads cooling before clamps come off"),
            Waiting::LeakTest => say!(self, "standing full in the leak test"),
        }
    }

    /// What bounds the speed of a run.
    pub fn speed_bound(&self, bound: SpeedBound) -> Text {
        match bound {
            SpeedBound::Shop => say!(self, "the shop's speed"),
            SpeedBound::Rod => say!(self, "the rod"),
            SpeedBound::Output => say!(self, "the extruder's output"),
        }
    }

    /// How much of it there is: `12.3 m`, or a count.
    pub fn amount(&self, amount: Amount) -> Text {
        match amount {
            Amount::Along(length, _) => self.long_length(length),
            Amount::Each(count, _) => Text::from(count),
            Amount::Laid(mass, _) => self.mass(mass),
            Amount::Filled(volume, _) => self.volume(volume),
        }
    }

    /// The same as a number in its unit; without a unit where it is a count.
    pub fn amount_in_unit(&self, amount: Amount) -> (f64, Option<&'static str>) {
        let pick = |metric: (f64, &'static str), inch: (f64, &'static str)| {
            let (number, unit) = match self.system {
                UnitSystem::Metric => metric,
                UnitSystem::Inch => inch,
            };
            (number, Some(unit))
        };
        match amount {
            Amount::Along(it, _) => pick((it.m(), "m"), (it.feet(), "ft")),
            Amount::Each(count, _) => (count as f64, None),
            Amount::Laid(it, _) => pick((it.kg(), "kg"), (it.lb(), "lb")),
            Amount::Filled(it, _) => pick((it.litres(), "L"), (it.us_gal(), "US gal")),
        }
    }

    /// The shop's rate for it.
    pub fn rate(&self, amount: Amount) -> Text {
        match amount {
            Amount::Along(_, speed) => self.speed(speed),
            Amount::Each(_, time) => say!(
                self,
                "{minutes} min each",
                minutes = self.number(time.minutes(), 1)
            ),
            Amount::Laid(_, rate) => self.mass_rate(rate),
            Amount::Filled(_, rate) => self.flow_rate(rate),
        }
    }
}
