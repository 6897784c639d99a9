//! `[vehicle]`: what carries the tank on the road.

use super::reader::{Bound, Section};
use brimful_units::{Length, Mass};

/// What carries the tank on the road.
#[derive(Clone, Debug, PartialEq)]
pub struct Vehicle {
    /// What may still be loaded, tank and liquid included.
    pub payload: Option<Mass>,
    /// Where the origin of the space (or of the body) lies on the vehicle, forward along x.
    pub tank_at: Length,
    /// The axles.
    pub axles: Vec<Axle>,
    /// Where the coupling of a trailer lies, forward along x.
    pub coupling: Option<Length>,
}

/// An axle of the vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Axle {
    /// What the shop calls it.
    pub name: String,
    /// Where it lies, forward along x on the vehicle.
    pub at: Length,
    /// What it may still carry.
    pub spare: Option<Mass>,
}

impl Vehicle {
    /// Reads `[vehicle]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let payload = section.optional("payload", |field| field.quantity_above_zero());
        let tank_at = section.defaulted("tank_at", |field| field.length(Bound::Any));
        let axles = section.each("axle", Axle::read);
        let coupling = section.optional("coupling", |field| field.length(Bound::Any));
        section.refuse_unknown_keys();
        Some(Self {
            payload: payload?,
            tank_at: tank_at?,
            axles: axles?,
            coupling: coupling?,
        })
    }
}

impl Axle {
    fn read(section: &Section<'_>, index: usize) -> Option<Self> {
        let name = section.optional("name", |field| field.text());
        let at = section.needed("at", |field| field.length(Bound::Any));
        let spare = section.optional("spare", |field| field.quantity_above_zero());
        Some(Self {
            name: name?.unwrap_or_else(|| format!("axle {}", index + 1)),
            at: at?,
            spare: spare?,
        })
    }
}
