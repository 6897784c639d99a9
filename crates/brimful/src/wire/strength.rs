//! The quick strength check as JSON.

use crate::words;
use brimful_tank::check::strength;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// What the quick check computed; what it says is among the findings.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Strength {
    /// Every span under every load case.
    spans: Vec<Span>,
    /// What the check takes for granted.
    assumptions: Vec<String>,
}

/// One span of a panel under one load case.
#[derive(Debug, Serialize, JsonSchema)]
struct Span {
    /// Mark of the panel.
    panel: String,
    span: String,
    load_case: String,
    width_m: f64,
    height_m: f64,
    pressure_low_pa: f64,
    pressure_high_pa: f64,
    duration_s: f64,
    temperature_k: f64,
    /// The apparent modulus.
    modulus_pa: f64,
    /// With hinged edges.
    deflection_m: f64,
    deflection_clamped_m: f64,
    /// Where it is nearest to its limit: `sheet` or `weld`.
    governs: &'static str,
    stress_pa: f64,
    allowable_pa: f64,
    /// Stress over allowable.
    utilisation: f64,
    /// Whether plate theory covers it.
    covered: bool,
    sources: Vec<String>,
}

pub(super) fn strength(plan: &Plan) -> Strength {
    Strength {
        spans: plan.strength.rows.iter().map(|it| span(plan, it)).collect(),
        assumptions: plan.strength.assumptions.clone(),
    }
}

fn span(plan: &Plan, row: &strength::SpanCheck) -> Span {
    Span {
        panel: super::panel::mark(plan, row.panel),
        span: row.span.clone(),
        load_case: row.case.clone(),
        width_m: row.width.m(),
        height_m: row.height.m(),
        pressure_low_pa: row.pressure_low.pa(),
        pressure_high_pa: row.pressure_high.pa(),
        duration_s: row.duration.s(),
        temperature_k: row.temperature.kelvin(),
        modulus_pa: row.modulus.pa(),
        deflection_m: row.deflection.m(),
        deflection_clamped_m: row.deflection_clamped.m(),
        governs: words::governs(row.governs),
        stress_pa: row.stress.pa(),
        allowable_pa: row.allowable.pa(),
        utilisation: row.utilisation,
        covered: row.covered,
        sources: row.sources.iter().map(ToString::to_string).collect(),
    }
}
