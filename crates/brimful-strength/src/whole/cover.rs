//! Covers of hatches: what presses on each, and whether a cover of sheet bears it.
//!
//! A cover of sheet is a plate hinged at the rim of its hole. What hangs on it is spread all over it like the
//! pressure, in every load; who stands on a lid may do so on the middle of a cover. All by W. C. Young and R. G.
//! Budynas, *Roark's Formulas for Stress and Strain* (from memory), with `a` the radius and `b` the narrower way, and
//! never too little for a rectangle, which is taken as a long strip:
//!
//! | | round, table 11.2 | rectangular, table 11.4 |
//! | --- | --- | --- |
//! | all over | case 10a: `s = 3 (3 + nu) q a^2 / (8 t^2)` | `s = 3 q b^2 / (4 t^2)` |
//! | on a circle of radius `r` in the middle | case 16: `M = P / (4 pi) ((1 + nu) ln(a / r) + 1 - (1 - nu) r^2 / (4 a^2))` | case 1b: `M = P / (4 pi) ((1 + nu) ln(2 b / (pi r)) + 1)` |

use super::filled::Filled;
use super::lid::SPOT_WIDTH;
use super::tank::Tank;
use crate::limit::Limits;
use crate::load::{Heads, level};
use brimful_job::{OpeningSize, Service};
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Quantity, Subject};
use brimful_panels::fitting::{Fitting, fittings};
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::Role;
use brimful_units::{Force, Length, Mass, Pressure};
use std::f64::consts::PI;

/// What presses on a cover in a load case.
struct Pressed<'a> {
    case: CaseId,
    /// With the liquid under it.
    limits: &'a Limits,
    /// All over it.
    pressure: Pressure,
    /// On a spot in its middle.
    spot: Force,
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
    let findings = hatches.flat_map(|hatch| {
        let pressed: Vec<Pressed<'_>> = pressures(tank, &heads, cases, hatch).collect();
        match hatch.opening.cover {
            Some(thickness) => of_sheet(hatch, thickness, &pressed).into_iter().collect(),
            None => not_checked(hatch, &pressed),
        }
    });
    findings.collect()
}

fn pressures<'a>(
    tank: &Tank<'_>,
    heads: &[Heads],
    cases: &'a [Filled],
    hatch: &Fitting<'_>,
) -> impl Iterator<Item = Pressed<'a>> {
    let at = hatch.at();
    let away = |room: &usize| tank.compartments[*room].distance(at);
    let rooms = 0..tank.compartments.len();
    let own = rooms.min_by(|a, b| away(a).total_cmp(&away(b)));
    let is_on_lid = tank.panels[hatch.panel].role == Role::Lid;
    let area = area(hatch.opening.size);
    cases.iter().filter_map(move |filled| {
        let (room, case) = (own?, &filled.case);
        let limits = filled.limits.in_room(room);
        let liquid = match filled.compartments[room] {
            true => heads[room].pressure(case, at),
            false => 0.0,
        };
        let hung = hatch.opening.weighs.unwrap_or(Mass::ZERO);
        let hung = hung.kg() * case.body_acceleration.dot(hatch.outward()) / area;
        // Where there is less liquid, what hangs there has nothing that bears it up.
        let pressure = (liquid + hung).abs().max(hung.abs());
        let standing = match is_on_lid {
            true => case.on_lid.kg() * case.body_acceleration.length(),
            false => 0.0,
        };
        Some(Pressed {
            case: case.id,
            limits,
            pressure: Pressure::from_pa(pressure),
            spot: Force::from_n(standing),
        })
    })
}

/// A cover of sheet that does not bear some load; none where it bears them all.
fn of_sheet(hatch: &Fitting<'_>, thickness: Length, pressed: &[Pressed<'_>]) -> Option<Finding> {
    let stress = |on: &Pressed<'_>| stress(hatch.opening.size, thickness, on);
    let used = |on: &Pressed<'_>| stress(on) / on.limits.sheet;
    let worst = pressed.iter().max_by(|a, b| used(a).total_cmp(&used(b)))?;
    let case = worst.case;
    (used(worst) > 1.0).then(|| {
        let kind = StrengthKind::CoverOverLimit { case };
        Finding::of(Grade::Stop, subject(hatch), kind).figures(
            Quantity::Stress(stress(worst)),
            Quantity::Stress(worst.limits.sheet),
        )
    })
}

/// The greatest stress in a cover of sheet.
fn stress(size: OpeningSize, thickness: Length, on: &Pressed<'_>) -> Pressure {
    let poisson = on.limits.poisson;
    let half = match size {
        OpeningSize::Round { diameter } => diameter / 2.0,
        OpeningSize::Rectangle { width, height } => width.min(height) / 2.0,
    };
    let spot = half.min(SPOT_WIDTH / 2.0);
    // Stress by pressure over (a / t)^2, and moment by force.
    let (by_pressure, by_force) = match size {
        OpeningSize::Round { .. } => (
            3.0 * (3.0 + poisson) / 8.0,
            (1.0 + poisson) * (half / spot).ln() + 1.0
                - (1.0 - poisson) / 4.0 * (spot / half).powi(2),
        ),
        OpeningSize::Rectangle { .. } => {
            (3.0, (1.0 + poisson) * (4.0 / PI * (half / spot)).ln() + 1.0)
        }
    };
    let moment = on.spot.n() / (4.0 * PI) * by_force;
    on.pressure * (by_pressure * (half / thickness).powi(2))
        + Pressure::from_pa(6.0 * moment / thickness.m().powi(2))
}

/// A cover that nothing is said of but what it has to bear: all over it, and where somebody may stand on it.
fn not_checked(hatch: &Fitting<'_>, pressed: &[Pressed<'_>]) -> Vec<Finding> {
    let area = area(hatch.opening.size);
    let force = |on: &Pressed<'_>| Force::from_n(on.pressure.pa() * area + on.spot.n());
    let most = |is_stood_on: bool| {
        let own = pressed
            .iter()
            .filter(|on| (on.spot > Force::ZERO) == is_stood_on);
        own.max_by(|a, b| force(a).n().total_cmp(&force(b).n()))
    };
    let worst = [most(false), most(true)].into_iter().flatten();
    let told = worst.filter(|on| force(on) > Force::ZERO).map(|on| {
        let kind = StrengthKind::CoverNotChecked {
            case: on.case,
            pressure: Pressure::from_pa(force(on).n() / area),
            force: force(on),
        };
        Finding::of(Grade::Mend, subject(hatch), kind)
    });
    told.collect()
}

fn subject(hatch: &Fitting<'_>) -> Subject {
    Subject::Opening(hatch.opening.name.clone())
}

/// m2.
fn area(size: OpeningSize) -> f64 {
    match size {
        OpeningSize::Round { diameter } => PI / 4.0 * diameter.m().powi(2),
        OpeningSize::Rectangle { width, height } => width.m() * height.m(),
    }
}
