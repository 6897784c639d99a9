//! Load cases by their ids: what presses on a tank, without a figure or a word.
//!
//! An id refers to the job (its events, the corners of its trim) and to the tank (compartments,
//! baffles) by number, so that two runs of one tank are paired by it. `brimful-text` says what it is
//! called.

use crate::name::{CompartmentId, text_in_json};
use brimful_job::{AngleRange, Trim};
use brimful_units::Angle;
use std::fmt;

text_in_json!(CaseId);

/// A load case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CaseId {
    /// What kind of load it is.
    pub kind: LoadKind,
    /// The corner of the range of heel and pitch that the tank stands at; none: level.
    pub tilt: Option<Tilt>,
    /// What happens on the way, and which way that throws the liquid.
    pub event: Option<EventPush>,
    /// Where the liquid is.
    pub fill: Fill,
}

/// What kind of load it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LoadKind {
    /// The liquid of the job at rest, for its years.
    Rest,
    /// Filled with water to be tested.
    Test,
    /// Being filled, with liquid standing above the tank.
    Filling,
    /// Being emptied against a shut vent.
    Suction,
    /// Full, as cold as it gets since it was welded.
    Coldest,
    /// Full, as warm as it gets since it was welded.
    Warmest,
    /// Somebody stands on the lid of the empty tank.
    OnLid,
    /// Something on the road.
    Event,
}

impl LoadKind {
    /// Whether the published plate coefficients can tell anything of it.
    pub fn is_for_plates(self) -> bool {
        !self.is_warmth() && self != Self::OnLid
    }

    /// Whether it is growth or shrinkage by warmth.
    pub fn is_warmth(self) -> bool {
        matches!(self, Self::Coldest | Self::Warmest)
    }
}

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum End {
    /// The lower.
    Low,
    /// The higher.
    High,
}

/// A corner of the range of heel and pitch of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tilt {
    /// Which heel.
    pub heel: End,
    /// Which pitch.
    pub pitch: End,
}

impl Tilt {
    /// Heel and pitch.
    pub fn angles(self, trim: &Trim) -> [Angle; 2] {
        let of = |range: &AngleRange, end: End| match end {
            End::Low => range.low,
            End::High => range.high,
        };
        [of(&trim.heel, self.heel), of(&trim.pitch, self.pitch)]
    }
}

/// What happens on the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EventPush {
    /// Number in the job's list of events.
    pub event: usize,
    /// The way the liquid is thrown.
    pub direction: Direction,
}

/// The way an event throws the liquid.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// Along x.
    Forward,
    /// Against x.
    Rear,
    /// Along y.
    Left,
    /// Against y.
    Right,
    /// On top of gravity.
    Down,
    /// Against gravity.
    Up,
    /// All ways at once.
    All {
        /// Forward, not to the rear.
        forward: bool,
        /// To the left, not to the right.
        left: bool,
        /// Up, not down.
        up: bool,
    },
}

/// Where the liquid is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Fill {
    /// In all of the tank.
    All,
    /// In one compartment alone.
    Alone(CompartmentId),
    /// Only behind a baffle, thrown against it; the number of the panel.
    Behind(usize),
}

impl CaseId {
    /// A kind of load on all of the level tank.
    pub fn of(kind: LoadKind) -> Self {
        Self {
            kind,
            tilt: None,
            event: None,
            fill: Fill::All,
        }
    }

    /// What an event of the job does to all of the tank.
    pub fn event(event: usize, direction: Direction) -> Self {
        Self {
            event: Some(EventPush { event, direction }),
            ..Self::of(LoadKind::Event)
        }
    }

    /// The same with its liquid elsewhere.
    #[must_use]
    pub fn filled(self, fill: Fill) -> Self {
        Self { fill, ..self }
    }

    /// Whether it is the same load, or stands for it in a tank that has other baffles.
    pub fn stands_for(&self, other: &Self) -> bool {
        let behind = |id: &Self| matches!(id.fill, Fill::Behind(_));
        let same_fill = self.fill == other.fill || (behind(self) && behind(other));
        same_fill && self.filled(Fill::All) == other.filled(Fill::All)
    }
}

impl fmt::Display for CaseId {
    /// As JSON writes it: an id, the same in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.kind {
            LoadKind::Rest => "rest",
            LoadKind::Test => "test",
            LoadKind::Filling => "filling",
            LoadKind::Suction => "suction",
            LoadKind::Coldest => "coldest",
            LoadKind::Warmest => "warmest",
            LoadKind::OnLid => "on_lid",
            LoadKind::Event => "event",
        })?;
        if let Some(tilt) = self.tilt {
            let end = |end: End| if end == End::Low { "low" } else { "high" };
            write!(f, ".heel_{}.pitch_{}", end(tilt.heel), end(tilt.pitch))?;
        }
        if let Some(push) = self.event {
            write!(f, ".{}.{}", push.event + 1, push.direction)?;
        }
        match self.fill {
            Fill::All => Ok(()),
            Fill::Alone(CompartmentId::Only) => f.write_str(".alone"),
            Fill::Alone(CompartmentId::Number(number)) => write!(f, ".alone_{number}"),
            Fill::Behind(panel) => write!(f, ".behind_P{}", panel + 1),
        }
    }
}

impl fmt::Display for Direction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Forward => f.write_str("forward"),
            Self::Rear => f.write_str("rear"),
            Self::Left => f.write_str("left"),
            Self::Right => f.write_str("right"),
            Self::Down => f.write_str("down"),
            Self::Up => f.write_str("up"),
            Self::All { forward, left, up } => {
                let pick =
                    |first: bool, [one, other]: [&'static str; 2]| if first { one } else { other };
                write!(
                    f,
                    "all_{}_{}_{}",
                    pick(forward, ["forward", "rear"]),
                    pick(left, ["left", "right"]),
                    pick(up, ["up", "down"])
                )
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_thrown_against_any_baffle_stands_for_another() {
        let event = CaseId::event(0, Direction::Forward);
        assert_eq!(
            event.filled(Fill::Behind(4)).to_string(),
            "event.1.forward.behind_P5"
        );
        assert!(
            event
                .filled(Fill::Behind(4))
                .stands_for(&event.filled(Fill::Behind(7)))
        );
        assert!(!event.stands_for(&event.filled(Fill::Behind(7))));
        assert!(!event.stands_for(&CaseId::of(LoadKind::Rest)));
    }
}
