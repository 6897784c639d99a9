//! Liquid in motion, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::table::motion::{Direction, Motion};
use brimful_tank::slosh::NotComputed;
use brimful_units::show::{decimal, figures};
use brimful_units::{Frequency, Length};

impl Words<'_> {
    /// How often something swings.
    pub fn frequency(&self, frequency: Frequency) -> Text {
        Text::verbatim(format!("{} Hz", decimal(frequency.hz(), 2)))
    }

    /// How long one swing takes.
    pub fn swing_period(&self, frequency: Frequency) -> Text {
        Text::verbatim(format!("{} s", decimal(frequency.period().s(), 2)))
    }

    /// A range of frequencies.
    pub fn band(&self, [low, high]: [Frequency; 2]) -> Text {
        let low = Text::verbatim(decimal(low.hz(), 2));
        say!(
            self,
            "{low} to {high}",
            low = low,
            high = self.frequency(high)
        )
    }

    /// A small share in per cent.
    pub fn number_percent(&self, share: f64) -> Text {
        Text::verbatim(format!("{} %", figures(100.0 * share, 1, 0..=1)))
    }

    /// A motion of the vehicle.
    pub fn motion(&self, motion: Motion) -> Text {
        match motion {
            Motion::Braking => say!(self, "braking"),
            Motion::Pitch => say!(self, "the nod of the vehicle's body"),
            Motion::Roll => say!(self, "the lean of the vehicle's body"),
            Motion::LaneChange => say!(self, "a change of lanes"),
        }
    }

    /// A level direction.
    pub fn level_direction(&self, direction: Direction) -> Text {
        match direction {
            Direction::Along => say!(self, "along"),
            Direction::Across => say!(self, "across"),
        }
    }

    /// Where the mass of a swing pushes, over the lowest place of its room.
    pub fn height_of_push(&self, height: Length) -> Text {
        // Nearer than a millimetre it is not known.
        let height = Length::from_mm(height.mm().round());
        match height < Length::ZERO {
            true => say!(self, "{height} below", height = self.length(height.abs())),
            false => self.length(height),
        }
    }

    /// Why it is not known how the liquid swings.
    pub fn no_swings(&self, why: NotComputed) -> Text {
        match why {
            NotComputed::Nothing => say!(self, "no liquid to speak of"),
            NotComputed::NoSurface => say!(self, "no surface that could move"),
            NotComputed::Oblique => say!(self, "not worked out: a baffle or a stay stands oblique"),
            NotComputed::NotSettled => say!(self, "not worked out: the numbers did not settle"),
        }
    }

    /// What the figures are and what they are not.
    pub fn slosh_model(&self) -> Text {
        say!(
            self,
            "Small waves in a tank that stands level: how the liquid swings by itself, not what an event does. Blows of waves, and the forces of an event in time, are not worked out. Baffles have no thickness; what their edges and openings take of the motion, the air and the give of the walls are left out, so that swings through narrow openings die faster than this shows."
        )
    }

    /// How the columns of the swings read.
    pub fn slosh_columns(&self) -> Text {
        say!(
            self,
            "Swings that move a twentieth of the liquid or more, slowest first. Depth and height are over the lowest place; the height is that at which the swinging liquid pushes, its weight counted apart."
        )
    }
}
