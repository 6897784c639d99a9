//! The shop as JSON.

use crate::words;
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// How the shop cuts and welds.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(super) struct Shop {
    /// `saw` or `router`.
    cutting: &'static str,
    kerf_m: f64,
    /// Cut off each edge of a fresh sheet.
    trim_m: f64,
    /// The longest cut the saw can make across a sheet; null for no limit.
    crosscut_m: Option<f64>,
    /// `hot gas` or `extrusion`.
    process: &'static str,
    /// `speed` or `round`.
    nozzle: &'static str,
    /// Rod that its speed nozzles take; empty where it is not said.
    nozzle_sizes_m: Vec<f64>,
    /// Size of the hand extruder: `small`, `medium` or `large`.
    extruder: &'static str,
    /// What the extruder is rated at.
    output_kg_s: f64,
    /// The root opening left between two edges.
    gap_m: f64,
    groove_angle_rad: f64,
    edge_allowance_m: f64,
    saw_tolerance_m: f64,
    relief_radius_m: f64,
    reach_m: f64,
    /// From the tip of the nozzle to the middle of the hand.
    gun_length_m: f64,
    /// At its thickest in front of the hand.
    gun_diameter_m: f64,
    /// The room that the hand on the gun takes, across.
    hand_m: f64,
    hands: u8,
    /// By what share a bead draws in along itself; null where the shop has not measured it.
    pull: Option<f64>,
    rates: Rates,
}

/// How fast the shop works.
#[derive(Debug, Default, Serialize, JsonSchema)]
struct Rates {
    weld_m_per_s: f64,
    tack_m_per_s: f64,
    scrape_m_per_s: f64,
    cut_m_per_s: f64,
    bevel_m_per_s: f64,
    hole_s: f64,
    panel_s: f64,
    clamp_s: f64,
    run_s: f64,
    /// Of each person that it takes.
    turn_s: f64,
    opening_s: f64,
    /// Of the leak test.
    stage_s: f64,
    fill_m3_per_s: f64,
    /// Rod used over the net volume of the groove.
    rod_factor: f64,
}

pub(super) fn shop(shop: &brimful_job::Shop) -> Shop {
    Shop {
        cutting: words::cutting(shop.cutting),
        kerf_m: shop.kerf.m(),
        trim_m: shop.trim.m(),
        crosscut_m: shop.crosscut.map(Length::m),
        process: words::process(shop.process),
        nozzle: words::nozzle(shop.nozzle),
        nozzle_sizes_m: shop.nozzle_sizes.iter().map(|it| it.m()).collect(),
        extruder: words::extruder(shop.extruder),
        output_kg_s: shop.output.kg_s(),
        gap_m: shop.gap.m(),
        groove_angle_rad: shop.groove_angle.rad(),
        edge_allowance_m: shop.edge_allowance.m(),
        saw_tolerance_m: shop.saw_tolerance.m(),
        relief_radius_m: shop.relief_radius.m(),
        reach_m: shop.reach.m(),
        gun_length_m: shop.gun_length.m(),
        gun_diameter_m: shop.gun_diameter.m(),
        hand_m: shop.hand.m(),
        hands: shop.hands,
        pull: shop.pull,
        rates: Rates {
            weld_m_per_s: shop.rates.weld_speed.m_s(),
            tack_m_per_s: shop.rates.tack_speed.m_s(),
            scrape_m_per_s: shop.rates.scrape_speed.m_s(),
            cut_m_per_s: shop.rates.cut_speed.m_s(),
            bevel_m_per_s: shop.rates.bevel_speed.m_s(),
            hole_s: shop.rates.hole_time.s(),
            panel_s: shop.rates.panel_time.s(),
            clamp_s: shop.rates.clamp_time.s(),
            run_s: shop.rates.run_time.s(),
            turn_s: shop.rates.turn_time.s(),
            opening_s: shop.rates.opening_time.s(),
            stage_s: shop.rates.stage_time.s(),
            fill_m3_per_s: shop.rates.fill_rate.m3_s(),
            rod_factor: shop.rates.rod_factor,
        },
    }
}
