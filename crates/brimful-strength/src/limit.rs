//! Stiffness and allowable stress for a load case, every factor with its source.
//!
//! Allowable stress = strength x weld factor / (A1 x A2 x safety factor), the form of DVS 2205-1
//! (from memory); under a lasting load not more than the design strain allows either.

use crate::load::{LoadCase, LoadKind};
use brimful_job::Job;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::table::factor::{LoadClass, medium_factor, safety_factor, weld_factor};
use brimful_panels::table::material::{Duration, Material};
use brimful_panels::table::{Cited, Flag, NotCovered, Source, Sourced, SourcedValue};
use brimful_units::{Density, Pressure};

/// What a span may take under one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// The apparent modulus.
    pub modulus: Pressure,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Allowable stress in the sheet.
    pub sheet: Pressure,
    /// Allowable stress at a weld.
    pub weld: Pressure,
    /// Density of the sheet.
    pub sheet_density: Density,
    /// How much the sheet has grown since it was welded, as a share of its length.
    pub growth: f64,
    /// Where all of it comes from.
    pub sources: Vec<Source>,
}

/// The limits for a load case.
///
/// # Errors
/// The table that does not reach so far.
pub fn limits(job: &Job, case: &LoadCase) -> Result<Limits, NotCovered> {
    let material = Material::of(&job.stock.material)?;
    let mut sources = Vec::new();
    let duration = if case.id.kind == LoadKind::Event {
        Duration::Short
    } else {
        Duration::Long
    };
    let (modulus, strength) = match duration {
        Duration::Short => (
            material.short_modulus(case.temperature)?,
            material.short_strength(case.temperature)?,
        ),
        Duration::Long => (
            material.creep_modulus(case.duration, case.temperature)?,
            material.long_strength(case.duration, case.temperature)?,
        ),
    };
    let modulus = keep(&mut sources, modulus);
    let strength = keep(&mut sources, strength);
    let poisson = keep(&mut sources, material.poisson(duration)?);
    let weld_factor = keep(&mut sources, weld_factor(job.shop.process, duration)?);
    let toughness = keep(&mut sources, material.toughness_factor()?);
    // The leak test is done with plain water.
    let additives: &[String] = if case.id.kind == LoadKind::Test {
        &[]
    } else {
        &job.liquid.additives
    };
    let medium = keep(&mut sources, medium_factor(additives)?);
    let safety = match job.checks.safety_factor {
        Some(factor) => {
            sources.push(Source {
                value: SourcedValue::SafetyFactor(factor),
                flag: Flag::Given,
                cited: Cited::Job,
            });
            factor
        }
        None => keep(&mut sources, safety_factor(LoadClass::ChangingOrHarmful)?),
    };
    let by_strength = strength / (toughness * medium * safety);
    let by_strain = match duration {
        Duration::Short => Pressure::from_pa(f64::INFINITY),
        Duration::Long => modulus * keep(&mut sources, material.design_strain()?),
    };
    let sheet_density = keep(&mut sources, material.density()?);
    let growth = if case.id.kind.is_warmth() {
        let [_, greatest] = keep(&mut sources, material.expansion()?);
        greatest * case.warming
    } else {
        0.0
    };
    Ok(Limits {
        growth,
        modulus,
        poisson,
        sheet: by_strength.min(by_strain),
        weld: (by_strength * weld_factor).min(by_strain),
        sheet_density,
        sources,
    })
}

/// A factor of the liquid that nobody has published.
pub fn medium_finding(job: &Job) -> Option<Finding> {
    let medium = medium_factor(&job.liquid.additives).ok()?;
    let unsure = medium
        .sources
        .iter()
        .find(|source| source.flag == Flag::CommonPractice)?;
    Some(
        Finding::of(
            Grade::Mend,
            Subject::Part(Part::Liquid),
            StrengthKind::MediumFactorUnsure {
                of: unsure.value.clone(),
            },
        )
        .figures(Quantity::Ratio(medium.value), Quantity::Ratio(1.0))
        .table(unsure.clone()),
    )
}

fn keep<T>(sources: &mut Vec<Source>, found: Sourced<T>) -> T {
    sources.extend(found.sources);
    found.value
}
