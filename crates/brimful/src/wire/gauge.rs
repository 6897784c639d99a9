//! Gauge tables as JSON.

use super::point::point;
use brimful_panels::gauge::GaugeRow;
use brimful_tank::plan::Plan;
use brimful_text::Words;
use schemars::JsonSchema;
use serde::Serialize;

/// Dip against volume for one compartment.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Gauge {
    compartment: String,
    /// What the dip is taken under.
    under: String,
    /// Where the stick touches the floor, in the tank's axes.
    foot_m: [f64; 3],
    heel_rad: f64,
    pitch_rad: f64,
    /// At even dips, from empty to brim.
    rows: Vec<Row>,
    /// At even volumes, for a dipstick.
    marks: Vec<Row>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Row {
    dip_m: f64,
    volume_m3: f64,
}

pub(super) fn gauges(plan: &Plan, words: &Words<'_>) -> Vec<Gauge> {
    let rows = |rows: &[GaugeRow]| {
        let row = |row: &GaugeRow| Row {
            dip_m: row.dip.m(),
            volume_m3: row.volume.m3(),
        };
        rows.iter().map(row).collect()
    };
    let gauges = plan.gauges.iter();
    gauges
        .map(|gauge| Gauge {
            compartment: gauge.compartment.to_string(),
            under: words.dip_under(&gauge.under).into(),
            foot_m: point(gauge.foot),
            heel_rad: gauge.heel.rad(),
            pitch_rad: gauge.pitch.rad(),
            rows: rows(&gauge.rows),
            marks: rows(&gauge.marks),
        })
        .collect()
}
