//! `[checks]`: what the tank is held to.

use super::fault::FaultKind;
use super::reader::{Bound, Complaint, Field, Section};
use brimful_units::Length;

/// What the tank is held to, where the job asks for more than the rules do.
#[derive(Clone, Debug, PartialEq)]
pub struct Checks {
    /// The safety factor on strength, at least 1; none: the rules'.
    pub safety_factor: Option<f64>,
    /// The most a wall may bulge; none: the rules'.
    pub bulge: Option<Length>,
}

impl Checks {
    /// Reads `[checks]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let safety_factor = section.optional("safety_factor", read_safety_factor);
        let bulge = section.optional("bulge", |field| field.length(Bound::AboveZero));
        section.refuse_unknown_keys();
        Some(Self {
            safety_factor: safety_factor?,
            bulge: bulge?,
        })
    }
}

fn read_safety_factor(field: &Field<'_>) -> Option<f64> {
    let factor = field.number(Bound::AboveZero)?;
    if (1.0..=20.0).contains(&factor) {
        Some(factor)
    } else {
        let says = "a safety factor is from 1 to 20";
        field.refuse(Complaint::new(FaultKind::OutOfRange, says))
    }
}
