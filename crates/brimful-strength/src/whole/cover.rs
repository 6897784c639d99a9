//! Covers of hatches: what presses on each, and whether a cover of sheet bears it.
//!
//! A cover of sheet is a plate hinged at the rim of its hole: round by W. C. Young and R. G. Budynas, *Roark's
//! Formulas for Stress and Strain*, table 11.2 case 10a (from memory), `s = 3 (3 + nu) q a^2 / (8 t^2)`; rectangular
//! as a strip across its narrower way, `s = 3 q b^2 / (4 t^2)`, which is never too little.

use super::filled::Filled;
use super::tank::Tank;
use crate::limit::Limits;
use crate::load::{Heads, level};
use brimful_geom::vector::Point3;
use brimful_job::{OpeningSize, Service};
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Quantity, Subject};
use brimful_panels::fitting::fittings;
use brimful_panels::liquid::Compartment;
use brimful_units::{Force, Length, Pressure};
use std::f64::consts::PI;

/// What presses on a cover in a load case.
struct Pressed<'a> {
    case: CaseId,
    /// With the liquid under it.
    limits: &'a Limits,
    pressure: Pressure,
}

/// What is to be said of the covers of a tank's hatches.
pub fn covers(tank: &Tank<'_>, cases: &[Filled]) -> Vec<Finding> {
    let level = level(tank.job, tank.body.cavity.bounds().1.z);
    let heads = |room: &Compartment| Heads::below(room.contents.density, &room.room, level);
    let heads: Vec<Heads> = tank.compartments.iter().map(heads).collect();
    let hatches = fittings(tank.job, tank.panels);
    let hatches = hatches.iter().filter(|fitting| {
        fitting.opening.service == Service::Hatch || fitting.opening.cover.is_some()
    });
    hatches
        .filter_map(|hatch| {
            let size = hatch.opening.size;
            let pressed: Vec<Pressed<'_>> = pressures(tank, &heads, cases, hatch.at()).collect();
            let subject = Subject::Opening(hatch.opening.name.clone());
            match hatch.opening.cover {
                Some(thickness) => of_sheet(subject, size, thickness, &pressed),
                None => not_checked(subject, size, &pressed),
            }
        })
        .collect()
}

fn pressures<'a>(
    tank: &Tank<'_>,
    heads: &[Heads],
    cases: &'a [Filled],
    at: Point3,
) -> impl Iterator<Item = Pressed<'a>> {
    let away = |room: &usize| tank.compartments[*room].distance(at);
    let rooms = 0..tank.compartments.len();
    let own = rooms.min_by(|a, b| away(a).total_cmp(&away(b)));
    cases.iter().filter_map(move |filled| {
        let room = own.filter(|&room| filled.compartments[room])?;
        let pressure = heads[room].pressure(&filled.case, at);
        Some(Pressed {
            case: filled.case.id,
            limits: filled.limits.in_room(room),
            pressure: Pressure::from_pa(pressure.abs()),
        })
    })
}

/// A cover of sheet that does not bear some load; none where it bears them all.
fn of_sheet(
    subject: Subject,
    size: OpeningSize,
    thickness: Length,
    pressed: &[Pressed<'_>],
) -> Option<Finding> {
    let stress = |on: &Pressed<'_>| {
        let poisson = on.limits.poisson;
        on.pressure
            * match size {
                OpeningSize::Round { diameter } => {
                    3.0 * (3.0 + poisson) / 8.0 * (diameter / 2.0 / thickness).powi(2)
                }
                OpeningSize::Rectangle { width, height } => {
                    0.75 * (width.min(height) / thickness).powi(2)
                }
            }
    };
    let used = |on: &Pressed<'_>| stress(on) / on.limits.sheet;
    let worst = pressed.iter().max_by(|a, b| used(a).total_cmp(&used(b)))?;
    let case = worst.case;
    (used(worst) > 1.0).then(|| {
        let kind = StrengthKind::CoverOverLimit { case };
        Finding::of(Grade::Stop, subject, kind).figures(
            Quantity::Stress(stress(worst)),
            Quantity::Stress(worst.limits.sheet),
        )
    })
}

/// A cover that nothing is said of.
fn not_checked(subject: Subject, size: OpeningSize, pressed: &[Pressed<'_>]) -> Option<Finding> {
    let by_pressure = |a: &&Pressed<'_>, b: &&Pressed<'_>| a.pressure.total_cmp(&b.pressure);
    let worst = pressed.iter().max_by(by_pressure)?;
    let area = match size {
        OpeningSize::Round { diameter } => PI / 4.0 * diameter.m().powi(2),
        OpeningSize::Rectangle { width, height } => width.m() * height.m(),
    };
    let (case, pressure): (CaseId, Pressure) = (worst.case, worst.pressure);
    let kind = StrengthKind::CoverNotChecked {
        case,
        pressure,
        force: Force::from_n(pressure.pa() * area),
    };
    Some(Finding::of(Grade::Mend, subject, kind))
}
