//! What the tank holds and weighs, and the room about it, as JSON.

use super::point::point;
use brimful_panels::capacity::CompartmentCapacity;
use brimful_tank::mass::MassState;
use brimful_tank::plan::Plan;
use brimful_units::{Length, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// What the tank holds.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Capacity {
    /// To the inside of the lid.
    brim_m3: f64,
    /// Below the air space.
    rated_m3: f64,
    /// What the outlets take at the worst trim; null where a compartment has none.
    usable_m3: Option<f64>,
    compartments: Vec<Compartment>,
}

/// What a compartment holds.
#[derive(Debug, Serialize, JsonSchema)]
struct Compartment {
    name: String,
    /// What the shop calls it; null where the job does not say.
    called: Option<String>,
    /// Its liquid; null where only a density was given.
    liquid: Option<String>,
    density_kg_m3: f64,
    brim_m3: f64,
    rated_m3: f64,
    usable_m3: Option<f64>,
    /// Left behind by all outlets together at the worst trim.
    stranded_m3: Option<f64>,
    /// Air that all vents together do not let out at the worst trim.
    trapped_air_m3: Option<f64>,
    /// The openings that draw; where there are none, those that drain.
    outlets: Vec<String>,
    /// The openings that vent.
    vents: Vec<String>,
}

/// What the tank weighs.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Mass {
    panels_kg: f64,
    rod_kg: f64,
    /// `empty`, `rated`, `brim` and `worst`.
    states: Vec<State>,
}

/// The tank with some liquid in it.
#[derive(Debug, Serialize, JsonSchema)]
struct State {
    name: &'static str,
    liquid_m3: f64,
    mass_kg: f64,
    /// Centre of mass in the tank's axes.
    centre_m: [f64; 3],
    /// About the centre of mass: xx, yy, zz, yz, zx, xy.
    inertia_kg_m2: [f64; 6],
}

/// The room before one outside panel.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct PanelRoom {
    panel: String,
    /// To what is beside the bare panel; null where nothing is within half a metre.
    gap_m: Option<f64>,
    /// What the job asks to be kept free there.
    clearance_m: f64,
    /// Whether the tank stands on it, so that nothing is asked.
    carries: bool,
    /// Taken by ribs that stand out there.
    ribs_m: f64,
    /// Growth by warmth, by the least and the greatest coefficient; null where no table has them.
    growth_m: Option<[f64; 2]>,
    /// Bulge outward; null where no check covers it.
    bulge_m: Option<f64>,
    /// How far welds stand out.
    weld_m: f64,
    /// What is left; null where nothing is near or something is not known.
    left_m: Option<f64>,
}

/// The room before one fitting.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FittingRoom {
    fitting: String,
    panel: String,
    /// From the panel to what is beside it; null where nothing is within half a metre.
    gap_m: Option<f64>,
    /// How far it stands out; null where the job does not say.
    stands_out_m: Option<f64>,
    /// Whether what is beside it has a hole for it.
    goes_through: bool,
    /// What is left full and warm; null where nothing is near or something is not known.
    left_m: Option<f64>,
}

pub(super) fn beside_fittings(plan: &Plan) -> Vec<FittingRoom> {
    plan.room
        .fittings
        .iter()
        .map(|row| FittingRoom {
            fitting: row.name.to_string(),
            panel: plan.panels[row.panel].name.to_string(),
            gap_m: row.gap.map(Length::m),
            stands_out_m: row.stands_out.map(Length::m),
            goes_through: row.goes_through,
            left_m: row.left.map(Length::m),
        })
        .collect()
}

pub(super) fn kept(plan: &Plan) -> Vec<PanelRoom> {
    plan.room
        .rows
        .iter()
        .map(|row| PanelRoom {
            panel: plan.panels[row.panel].name.to_string(),
            gap_m: row.gap.map(Length::m),
            clearance_m: row.clearance.m(),
            carries: row.carries,
            ribs_m: row.ribs.m(),
            growth_m: row.growth.map(|ends| ends.map(Length::m)),
            bulge_m: row.bulge.map(Length::m),
            weld_m: row.weld.m(),
            left_m: row.left.map(Length::m),
        })
        .collect()
}

pub(super) fn capacity(plan: &Plan) -> Capacity {
    let capacity = &plan.capacity;
    Capacity {
        brim_m3: capacity.brim().m3(),
        rated_m3: capacity.rated().m3(),
        usable_m3: capacity.usable().map(Volume::m3),
        compartments: capacity
            .compartments
            .iter()
            .filter_map(|row| compartment(plan, row))
            .collect(),
    }
}

/// The row of a compartment; it has one of the plan's rooms.
fn compartment(plan: &Plan, row: &CompartmentCapacity) -> Option<Compartment> {
    let room = plan.compartments.iter().find(|room| room.id == row.id)?;
    Some(Compartment {
        name: row.id.to_string(),
        called: room.spec.as_ref().and_then(|spec| spec.name.clone()),
        liquid: room.contents.kind.clone(),
        density_kg_m3: room.contents.density.kg_m3(),
        brim_m3: row.brim.m3(),
        rated_m3: row.rated.m3(),
        usable_m3: row.usable.map(Volume::m3),
        stranded_m3: row.stranded.map(Volume::m3),
        trapped_air_m3: row.trapped_air.map(Volume::m3),
        outlets: row.outlets.clone(),
        vents: row.vents.clone(),
    })
}

pub(super) fn mass(plan: &Plan) -> Mass {
    Mass {
        panels_kg: plan.mass.panels.kg(),
        rod_kg: plan.mass.rod.kg(),
        states: plan.mass.states.iter().map(state).collect(),
    }
}

fn state(state: &MassState) -> State {
    State {
        name: state.kind.key(),
        liquid_m3: state.liquid.m3(),
        mass_kg: state.mass.kg(),
        centre_m: point(state.centre),
        inertia_kg_m2: state.inertia,
    }
}
