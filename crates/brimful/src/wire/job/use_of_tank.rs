//! How the tank stands, what carries it, what the road does, what it is held to: as JSON.

use crate::words;
use brimful_job::{self, AngleRange};
use brimful_units::{Length, Mass};
use schemars::JsonSchema;
use serde::Serialize;

/// How the tank stands in use: from one angle to another.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Trim {
    /// Tilt about x; positive: the left side up.
    heel_rad: [f64; 2],
    /// Tilt about y; positive: the front down.
    pitch_rad: [f64; 2],
}

/// What carries the tank.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Support {
    /// `floor`, `bed`, `rails`, `straps` or `feet`.
    kind: &'static str,
    /// The axis rails run along, or straps stand perpendicular to.
    axis: Option<&'static str>,
    /// Middle lines of rails or straps on the axis they are placed by; middles (x, y) of feet.
    at_m: Vec<Vec<f64>>,
    /// Width of rails or straps.
    width_m: Option<f64>,
    /// Size of a foot along x and y.
    foot_m: Option<[f64; 2]>,
}

/// What carries the tank on the road.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Vehicle {
    payload_kg: Option<f64>,
    tank_at_m: f64,
    coupling_m: Option<f64>,
    axles: Vec<Axle>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Axle {
    name: String,
    at_m: f64,
    spare_kg: Option<f64>,
}

/// What the road does: the way the liquid pushes, each in metres per second squared.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Event {
    name: String,
    forward_m_s2: f64,
    rear_m_s2: f64,
    side_m_s2: f64,
    up_m_s2: f64,
    down_m_s2: f64,
    /// All directions at once; otherwise one after the other.
    combined: bool,
    per_day: f64,
    source: String,
}

/// What the job asks for beyond the rules; null where the rules stand.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Checks {
    safety_factor: Option<f64>,
    bulge_m: Option<f64>,
    /// How high liquid can stand above the lid while the tank is filled.
    filling_head_m: f64,
    /// How hard a shut vent lets the tank be sucked at.
    suction_pa: f64,
    /// How full its strength is checked: `brim`, or `rated`.
    filled_to: &'static str,
    /// What may stand on the lid, in one place.
    lid_load_kg: Option<f64>,
}

pub(super) fn trim(trim: &brimful_job::Trim) -> Trim {
    let ends = |range: AngleRange| [range.low.rad(), range.high.rad()];
    Trim {
        heel_rad: ends(trim.heel),
        pitch_rad: ends(trim.pitch),
    }
}

pub(super) fn support(support: &brimful_job::Support) -> Support {
    let lines = |at: &[Length]| at.iter().map(|at| vec![at.m()]).collect();
    match support {
        brimful_job::Support::Floor => Support {
            kind: "floor",
            ..Support::default()
        },
        brimful_job::Support::Bed => Support {
            kind: "bed",
            ..Support::default()
        },
        brimful_job::Support::Rails { along, at, width } => Support {
            kind: "rails",
            axis: Some(words::axis(*along)),
            at_m: lines(at),
            width_m: Some(width.m()),
            foot_m: None,
        },
        brimful_job::Support::Straps { across, at, width } => Support {
            kind: "straps",
            axis: Some(words::axis(*across)),
            at_m: lines(at),
            width_m: Some(width.m()),
            foot_m: None,
        },
        brimful_job::Support::Feet { at, size } => Support {
            kind: "feet",
            at_m: at.iter().map(|at| at.map(Length::m).to_vec()).collect(),
            foot_m: Some(size.map(Length::m)),
            ..Support::default()
        },
    }
}

pub(super) fn vehicle(vehicle: &brimful_job::Vehicle) -> Vehicle {
    let axle = |axle: &brimful_job::Axle| Axle {
        name: axle.name.clone(),
        at_m: axle.at.m(),
        spare_kg: axle.spare.map(Mass::kg),
    };
    Vehicle {
        payload_kg: vehicle.payload.map(Mass::kg),
        tank_at_m: vehicle.tank_at.m(),
        coupling_m: vehicle.coupling.map(Length::m),
        axles: vehicle.axles.iter().map(axle).collect(),
    }
}

pub(super) fn event(event: &brimful_job::Event) -> Event {
    Event {
        name: event.name.clone(),
        forward_m_s2: event.forward.m_s2(),
        rear_m_s2: event.rear.m_s2(),
        side_m_s2: event.side.m_s2(),
        up_m_s2: event.up.m_s2(),
        down_m_s2: event.down.m_s2(),
        combined: event.combined,
        per_day: event.per_day,
        source: event.source.clone(),
    }
}

pub(super) fn checks(checks: &brimful_job::Checks) -> Checks {
    Checks {
        safety_factor: checks.safety_factor,
        bulge_m: checks.bulge.map(Length::m),
        filling_head_m: checks.filling_head.m(),
        suction_pa: checks.suction.pa(),
        filled_to: words::filled_to(checks.filled_to),
        lid_load_kg: checks.lid_load.map(Mass::kg),
    }
}
