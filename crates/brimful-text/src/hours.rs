//! Working time line by line.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::hours::{Amount, Labour};
use brimful_units::UnitSystem;

impl Words<'_> {
    /// What is done in a line of the sum.
    pub fn labour(&self, labour: Labour) -> Text {
        match labour {
            Labour::Setting => say!(self, "marking, lifting and setting panels"),
            Labour::Tacking => say!(self, "tacking seams"),
            Labour::Scraping => say!(self, "scraping before every run"),
            Labour::Laying => say!(self, "laying runs"),
            Labour::Starting => say!(self, "starting and ending runs"),
            Labour::Openings => say!(self, "cutting openings and fitting what goes in"),
        }
    }

    /// How much of it there is: `12.3 m`, or a count.
    pub fn amount(&self, amount: Amount) -> Text {
        match amount {
            Amount::Along(length, _) => self.long_length(length),
            Amount::Each(count, _) => Text::from(count),
        }
    }

    /// The same as a number of metres or feet; without a unit where it is a count.
    pub fn amount_in_unit(&self, amount: Amount) -> (f64, Option<&'static str>) {
        match (amount, self.system) {
            (Amount::Along(length, _), UnitSystem::Metric) => (length.m(), Some("m")),
            (Amount::Along(length, _), UnitSystem::Inch) => (length.feet(), Some("ft")),
            (Amount::Each(count, _), _) => (count as f64, None),
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
        }
    }
}
