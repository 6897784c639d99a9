//! The job as JSON, in a form of its own.
//!
//! It is not derived from the types of the job: half of those (space, body, obstacles, support, inner
//! panels, liquid) are enums whose fields JSON has side by side, null where they do not apply, and all of
//! them hold places in the file, which JSON leaves out. What is flat (shop, stock, checks) would need an
//! attribute a field there for the line a field that stands here.

mod shape;
mod shop;
mod space;
mod stock;
mod use_of_tank;

use crate::words;
use brimful_text::Words;
use brimful_units::{Length, Mass, Volume};
use schemars::JsonSchema;
use serde::Serialize;

/// The job, defaults filled in.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub(crate) struct Job {
    /// What it is called.
    name: String,
    /// `standing`, `road` or `afloat`.
    duty: &'static str,
    /// The units of what is printed: `metric` or `inch`.
    units: &'static str,
    /// Who it is for.
    customer: Option<String>,
    /// Anything the shop wants to remember.
    notes: Option<String>,
    /// The measured hole; null where none is given.
    space: Option<space::Space>,
    /// The body as given; null where it takes the whole space.
    body: Option<shape::Body>,
    /// What goes in.
    liquid: Liquid,
    /// How it stands in use.
    trim: use_of_tank::Trim,
    /// Sheets and rod there are.
    stock: stock::Stock,
    /// How the shop works.
    shop: shop::Shop,
    /// In which order the maker sets the panels, by their names; null where it is searched for.
    own_order: Option<Vec<String>>,
    /// Baffles, dividers and stays.
    inner: Vec<shape::Inner>,
    /// Rooms with a liquid, or an amount wanted, of their own.
    compartments: Vec<CompartmentSpec>,
    /// Rooms that stay dry, each by two panels that bound it.
    dry: Vec<[String; 2]>,
    /// Bands round the outside.
    ribs: Vec<shape::Rib>,
    /// Fittings and hatches.
    openings: Vec<Opening>,
    /// What carries the tank.
    support: use_of_tank::Support,
    /// What carries it on the road.
    vehicle: Option<use_of_tank::Vehicle>,
    /// What the road does.
    events: Vec<use_of_tank::Event>,
    /// What it is held to, where the job asks for more than the rules.
    checks: use_of_tank::Checks,
    /// The shop's own prices.
    quote: stock::Quote,
}

/// A default that stands in for something the job does not say.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct DefaultUsed {
    /// The key it stands in for.
    key: String,
    /// Its value, as it would be written in the job file.
    value: String,
    /// Why this value.
    reason: String,
    /// Where it comes from.
    source: String,
}

#[derive(Debug, Default, Serialize, JsonSchema)]
struct Liquid {
    /// Null where only a density was given.
    kind: Option<String>,
    density_kg_m3: f64,
    wanted: Option<Wanted>,
    /// Air left above the rated level.
    air_space_m: f64,
    coldest_k: f64,
    warmest_k: f64,
    additives: Vec<String>,
    medium_factor: Option<f64>,
    /// How long the tank must last.
    service_s: f64,
}

/// A room with a liquid, or an amount wanted, of its own.
#[derive(Debug, Serialize, JsonSchema)]
struct CompartmentSpec {
    /// What the shop calls it.
    name: Option<String>,
    /// Two panels that bound it.
    between: [String; 2],
    /// What goes in it; `wanted` is of this room alone.
    liquid: Liquid,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Wanted {
    /// `brim`, `rated` or `usable`.
    of: &'static str,
    volume_m3: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Opening {
    name: String,
    /// `fill`, `vent`, `draw`, `drain`, `sender`, `hatch` or `overflow`.
    service: &'static str,
    /// The name of the panel.
    panel: String,
    /// Its middle, from the panel's lower-left corner, seen from outside.
    at_m: [f64; 2],
    /// Of a round hole.
    diameter_m: Option<f64>,
    /// Of a rectangular hole, across and up.
    size_m: Option<[f64; 2]>,
    /// Diameter of the flat the fitting covers.
    flange_m: Option<f64>,
    /// How far what goes in it stands out of the tank; null where it is not said.
    stands_out_m: Option<f64>,
    /// How thick its cover of sheet is; null where it is not said.
    cover_m: Option<f64>,
    /// What goes in it weighs; null where it is too little to matter.
    weighs_kg: Option<f64>,
    /// The plastic of what is welded in; null for that of the sheet, or where nothing is.
    material: Option<String>,
    /// `before` or `after` the tank is in its place.
    goes_on: &'static str,
    /// `space`, or `hole` where what is beside the tank has a hole for it.
    faces: &'static str,
}

pub(crate) fn job(job: &brimful_job::Job) -> Job {
    Job {
        name: job.about.name.clone(),
        duty: words::duty(job.about.duty),
        units: words::units(job.about.units),
        customer: job.about.customer.clone(),
        notes: job.about.notes.clone(),
        space: job.space.as_ref().map(space::space),
        body: job.body.as_ref().map(shape::body),
        liquid: liquid(&job.liquid),
        trim: use_of_tank::trim(&job.trim),
        stock: stock::stock(&job.stock),
        shop: shop::shop(&job.shop),
        own_order: job.own_order.as_ref().map(|order| {
            let names = order.panels.iter().map(|panel| panel.name.clone());
            names.collect()
        }),
        inner: job.inner.iter().map(shape::inner).collect(),
        compartments: job
            .compartments
            .iter()
            .map(|own| compartment(own, &job.liquid))
            .collect(),
        dry: job.dry.iter().map(|dry| dry.between.clone()).collect(),
        ribs: job.ribs.iter().map(shape::rib).collect(),
        openings: job.openings.iter().map(opening).collect(),
        support: use_of_tank::support(&job.support),
        vehicle: job.vehicle.as_ref().map(use_of_tank::vehicle),
        events: job.events.iter().map(use_of_tank::event).collect(),
        checks: use_of_tank::checks(&job.checks),
        quote: stock::quote(&job.quote),
    }
}

pub(super) fn defaults(used: &[brimful_job::DefaultUsed], words: &Words<'_>) -> Vec<DefaultUsed> {
    let told = |used: &brimful_job::DefaultUsed| {
        let said = words.default_used(used);
        DefaultUsed {
            key: used.key.clone(),
            value: said.value.into(),
            reason: said.reason.into(),
            source: said.source.into(),
        }
    };
    used.iter().map(told).collect()
}

fn compartment(
    own: &brimful_job::CompartmentSpec,
    of_job: &brimful_job::Liquid,
) -> CompartmentSpec {
    CompartmentSpec {
        name: own.name.clone(),
        between: own.between.clone(),
        liquid: liquid(&own.liquid(of_job)),
    }
}

fn liquid(liquid: &brimful_job::Liquid) -> Liquid {
    Liquid {
        kind: liquid.kind.clone(),
        density_kg_m3: liquid.density.kg_m3(),
        wanted: liquid.wanted.map(|wanted| Wanted {
            of: words::capacity(wanted.of),
            volume_m3: Volume::m3(wanted.volume),
        }),
        air_space_m: liquid.air_space.m(),
        coldest_k: liquid.coldest.kelvin(),
        warmest_k: liquid.warmest.kelvin(),
        additives: liquid.additives.clone(),
        medium_factor: liquid.medium_factor,
        service_s: liquid.years.s(),
    }
}

fn opening(opening: &brimful_job::Opening) -> Opening {
    let (diameter_m, size_m) = match opening.size {
        brimful_job::OpeningSize::Round { diameter } => (Some(diameter.m()), None),
        brimful_job::OpeningSize::Rectangle { width, height } => {
            (None, Some([width.m(), height.m()]))
        }
    };
    Opening {
        name: opening.name.clone(),
        service: words::service(opening.service),
        panel: opening.panel.clone(),
        at_m: opening.at.map(Length::m),
        diameter_m,
        size_m,
        flange_m: opening.flange.map(Length::m),
        stands_out_m: opening.stands_out.map(Length::m),
        cover_m: opening.cover.map(Length::m),
        weighs_kg: opening.weighs.map(Mass::kg),
        material: opening.material.clone(),
        goes_on: opening.goes_on.word(),
        faces: opening.faces.word(),
    }
}
