//! `[trim]`: how the tank stands in use.

use super::fault::{Items, OutOfRange};
use super::reader::{Field, Section};
use brimful_units::Angle;

/// How the tank stands in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trim {
    /// Tilt about x (travel); positive: the left side up.
    pub heel: AngleRange,
    /// Tilt about y (cross axis); positive: the front down.
    pub pitch: AngleRange,
}

/// An angle, or all angles from one to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AngleRange {
    /// The least.
    pub low: Angle,
    /// The greatest; the same as `low` for a single angle.
    pub high: Angle,
}

impl AngleRange {
    /// No tilt.
    pub const LEVEL: Self = Self {
        low: Angle::ZERO,
        high: Angle::ZERO,
    };
}

/// Steeper than this no tank is in use; it also keeps the lid above the floor.
const STEEPEST: Angle = Angle::from_deg(45.0);

impl Trim {
    /// Reads `[trim]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let heel = section.defaulted("heel", AngleRange::read);
        let pitch = section.defaulted("pitch", AngleRange::read);
        section.refuse_unknown_keys();
        Some(Self {
            heel: heel?,
            pitch: pitch?,
        })
    }
}

impl AngleRange {
    fn read(field: &Field<'_>) -> Option<Self> {
        if field.is_word("level") {
            return Some(Self::LEVEL);
        }
        if !field.is_list() {
            let angle = read_angle(field)?;
            return Some(Self {
                low: angle,
                high: angle,
            });
        }
        let ends = field.all(2..=2, Items::Angles, read_angle)?;
        let (low, high) = (ends[0], ends[1]);
        if low > high {
            return field.refuse(OutOfRange::Backwards);
        }
        Some(Self { low, high })
    }
}

fn read_angle(field: &Field<'_>) -> Option<Angle> {
    field.angle_within(-STEEPEST..=STEEPEST)
}
