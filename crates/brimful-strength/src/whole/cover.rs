//! Covers of hatches: what presses on each, and whether a cover of sheet bears it.
//!
//! A cover of sheet is a plate hinged at the rim of its hole. What hangs on it may do so at its middle, on no more than a
//! foot's width, and pulls sideways at half the height that it stands out; who stands on a lid may do so on the
//! middle of a cover. All by W. C. Young and R. G.
//! Budynas, *Roark's Formulas for Stress and Strain* (from memory), with `a` the radius and `b` the narrower way, and
//! never too little for a rectangle, which is taken as a long strip:
//!
//! | | round, table 11.2 | rectangular, table 11.4 |
//! | --- | --- | --- |
//! | all over | case 10a: `s = 3 (3 + nu) q a^2 / (8 t^2)` | `s = 3 q b^2 / (4 t^2)` |
//! | on a circle of radius `r` in the middle | case 16: `M = P / (4 pi) ((1 + nu) ln(a / r) + 1 - (1 - nu) r^2 / (4 a^2))` | case 1b: `M = P / (4 pi) ((1 + nu) ln(2 b / (pi r)) + 1)` |
//!
//! A couple `C` on that circle bends the sheet at its rim by `s = 3 C / (pi r t^2)`, as in a plate without end, where
//! bending and shear carry half of it each; what holds the plate further out takes some off, in a strip as in a round plate (the
//! trunnion of table 11.2, which the test has).

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
use brimful_units::{Force, Length, Pressure};
use std::f64::consts::PI;

/// A load case of a cover.
struct Pressed<'a> {
    case: CaseId,
    /// With the liquid under it.
    limits: &'a Limits,
    on: Press,
}

/// What presses on a cover.
#[derive(Clone, Copy)]
struct Press {
    /// All over it, out of the tank.
    pressure: Pressure,
    /// At its middle: what hangs there, out of the tank, and who stands there, into it.
    hung: Force,
    standing: Force,
    /// Tilts its middle, N m.
    couple: f64,
}

impl Press {
    /// The most that the pressure, of effect `by_pressure` a pascal, and what is at the middle, `by_force` a newton, come to
    /// together. What either does has one sign all over a plate: where they pull against each other it is less than the
    /// larger, and where there is less liquid nothing bears up what hangs there.
    fn together(&self, by_pressure: f64, by_force: f64) -> f64 {
        let spread = by_pressure * self.pressure.pa();
        let middle = by_force * (self.hung.n() - self.standing.n());
        match spread * middle > 0.0 {
            true => spread.abs() + middle.abs(),
            false => spread.abs().max(middle.abs()),
        }
    }
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
    cases.iter().filter_map(move |filled| {
        let (room, case) = (own?, &filled.case);
        let limits = filled.limits.in_room(room);
        let liquid = match filled.compartments[room] {
            true => heads[room].pressure(case, at),
            false => 0.0,
        };
        let pulled = case.body_acceleration;
        let (hung, couple) = hatch.weight().map_or((0.0, 0.0), |(mass, middle)| {
            let couple = (middle - at).cross(pulled).length();
            (mass.kg() * pulled.dot(hatch.outward()), mass.kg() * couple)
        });
        let standing = match is_on_lid {
            true => case.on_lid.kg() * pulled.length(),
            false => 0.0,
        };
        Some(Pressed {
            case: case.id,
            limits,
            on: Press {
                pressure: Pressure::from_pa(liquid),
                hung: Force::from_n(hung),
                standing: Force::from_n(standing),
                couple,
            },
        })
    })
}

/// A cover of sheet that does not bear some load; none where it bears them all.
fn of_sheet(hatch: &Fitting<'_>, thickness: Length, pressed: &[Pressed<'_>]) -> Option<Finding> {
    let size = hatch.opening.size;
    let stress = |it: &Pressed<'_>| stress(size, thickness, it.limits.poisson, &it.on);
    let used = |it: &Pressed<'_>| stress(it) / it.limits.sheet;
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
fn stress(size: OpeningSize, thickness: Length, poisson: f64, on: &Press) -> Pressure {
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
    let section = thickness.m().powi(2);
    let bent = on.together(
        by_pressure * (half / thickness).powi(2),
        6.0 / section * by_force / (4.0 * PI),
    );
    Pressure::from_pa(bent + 3.0 * on.couple / (PI * spot.m() * section))
}

/// A cover that nothing is said of but what it has to bear: all over it, and where somebody may stand on it.
fn not_checked(hatch: &Fitting<'_>, pressed: &[Pressed<'_>]) -> Vec<Finding> {
    let area = area(hatch.opening.size);
    let force = |it: &Pressed<'_>| Force::from_n(it.on.together(area, 1.0));
    let most = |is_stood_on: bool| {
        let own = pressed
            .iter()
            .filter(|it| (it.on.standing > Force::ZERO) == is_stood_on);
        own.max_by(|a, b| force(a).n().total_cmp(&force(b).n()))
    };
    let worst = [most(false), most(true)].into_iter().flatten();
    let told = worst.filter(|it| force(it) > Force::ZERO).map(|it| {
        let kind = StrengthKind::CoverNotChecked {
            case: it.case,
            pressure: Pressure::from_pa(force(it).n() / area),
            force: force(it),
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

#[cfg(test)]
mod tests {
    use super::*;

    const NONE: Press = Press {
        pressure: Pressure::ZERO,
        hung: Force::ZERO,
        standing: Force::ZERO,
        couple: 0.0,
    };

    /// Roark, table 11.2, a plate of radius `a` hinged at its rim with a central couple on a trunnion of radius `b`:
    /// `s = beta C / (a t^2)`, `b / a` and `beta` (from memory; the same come of the plate equation). Ours has no rim, and is
    /// never less, and for a foot on a hatch of up to 1 m a sixth more at most.
    #[test]
    fn a_couple_bends_no_less_than_a_trunnion() {
        let table = [(0.10, 9.478), (0.20, 4.621), (0.30, 2.947), (0.40, 2.062)];
        for (ratio, beta) in table {
            let half = SPOT_WIDTH / 2.0 / ratio;
            let size = OpeningSize::Round {
                diameter: half * 2.0,
            };
            let thickness = Length::from_mm(10.0);
            let on = Press {
                couple: 7.0,
                ..NONE
            };
            let found = stress(size, thickness, 0.3, &on).pa();
            let published = beta * 7.0 / (half.m() * thickness.m().powi(2));
            let over = found / published;
            assert!((1.0..1.16).contains(&over), "{ratio}: {over}");
        }
    }

    /// The same, case 16, `b / a = 0.2`, `nu = 0.3`: `6 M / t^2 = 1.4731 P / t^2`, by hand.
    #[test]
    fn what_hangs_at_the_middle_bends_more_than_spread() {
        let size = OpeningSize::Round {
            diameter: SPOT_WIDTH * 5.0,
        };
        let thickness = Length::from_mm(10.0);
        let hung = Force::from_n(-100.0);
        let on = Press { hung, ..NONE };
        let found = stress(size, thickness, 0.3, &on).pa();
        assert!((found / 1.4731e6 - 1.0).abs() < 1e-3, "{found}");
        // As much pressed up as pulled down is less than either, and never nothing.
        let pressure = Pressure::from_pa(100.0 / area(size));
        let both = Press { pressure, ..on };
        assert!((stress(size, thickness, 0.3, &both).pa() - found).abs() < 1.0);
        let spread = Press { pressure, ..NONE };
        assert!(stress(size, thickness, 0.3, &spread).pa() < 0.5 * found);
    }
}
