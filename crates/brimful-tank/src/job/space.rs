//! `[space]`: the measured hole the tank must go into.

use super::reader::{Bound, Section};
use super::shape::{Obstacle, ShapeSpec};
use brimful_units::Length;

/// The measured hole the tank must go into.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// The clear inside, before obstacles and clearance are taken off.
    pub shape: ShapeSpec,
    /// Air kept between the tank and everything beside and above it; not under it, where it rests.
    pub clearance: Length,
    /// Room kept free above the tank for fittings and hands; where it is less than the clearance,
    /// the clearance counts.
    pub keep_above: Length,
    /// What sticks into the space.
    pub obstacles: Vec<Obstacle>,
    /// The opening the tank must pass to get in, width by height; none: it is lifted straight in.
    pub way_in: Option<[Length; 2]>,
}

impl Space {
    /// Reads `[space]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let shape = ShapeSpec::read(section);
        let clearance = section.defaulted("clearance", |field| field.length(Bound::NotNegative));
        let keep_above = section.defaulted("keep_above", |field| field.length(Bound::NotNegative));
        let obstacles = Obstacle::read_all(section, "obstacle", "obstacle");
        let way_in = section.optional("way_in", |field| field.lengths(Bound::AboveZero));
        section.refuse_unknown_keys();
        Some(Self {
            shape: shape?,
            clearance: clearance?,
            keep_above: keep_above?,
            obstacles: obstacles?,
            way_in: way_in?,
        })
    }
}
