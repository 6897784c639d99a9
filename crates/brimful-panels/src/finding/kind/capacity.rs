//! Findings of a stage: how much it holds.

use brimful_geom::boolean::BooleanFault;
use brimful_job::Capacity;
use brimful_units::Volume;
use schemars::JsonSchema;
use serde::Serialize;

/// How much it holds.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum CapacityKind {
    /// What an opening reaches could not be computed.
    ReachUnknown(BooleanFault),
    /// A compartment has no vent.
    NoVent,
    /// A compartment has no opening to draw or drain from.
    NoOutlet,
    /// A compartment beside others has neither an opening to fill it nor one to draw or drain from, and
    /// is not said to stay dry.
    NeitherFilledNorDrawn,
    /// At the worst trim trapped air keeps a compartment from filling to its rated surface.
    TrappedAir,
    /// A capacity is less than what the job wants.
    BelowWanted(Capacity),
    /// A capacity is what the job wants, but by less than the saw is true to.
    NarrowlyWanted {
        /// Which.
        of: Capacity,
        /// By how much it may come out smaller.
        #[serde(rename = "within_m3")]
        within: Volume,
    },
}
