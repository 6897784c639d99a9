//! Rod: section, runs, and whether there is enough.

use super::seam_weld::SeamWeld;
use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_job::{Job, Process, RodForm, RodStock};
use brimful_units::{Area, Density, Length, Mass};
use std::f64::consts::PI;

/// A groove is full when it is short of a run by less than this share of one: a thousandth of a
/// rod is below what any hand lays.
const FULL_ENOUGH: f64 = 1e-3;

/// Mass and length of the same rod may differ by this share before one of them must be wrong:
/// rod is drawn to about 5 % on the diameter (trade practice, from memory).
const ROD_DISAGREES: f64 = 0.15;

/// Rod of one size of the stock.
#[derive(Clone, Debug, PartialEq)]
pub struct RodTotal {
    /// Number of the rod in the stock.
    pub rod: usize,
    /// Its diameter or side.
    pub diameter: Length,
    /// What is needed.
    pub length: Length,
    /// The same by mass.
    pub mass: Mass,
    /// What there is, if the job says.
    pub on_hand: Option<Length>,
}

/// Section of a rod; a triangular one is taken with equal sides.
pub fn section(rod: &RodStock) -> Area {
    let square = rod.diameter * rod.diameter;
    match rod.form {
        RodForm::Round => square * (PI / 4.0),
        RodForm::Triangular => square * (3.0_f64.sqrt() / 4.0),
    }
}

/// Number of the rod with the largest section, which needs the fewest runs (a training text on hot
/// gas asks for the size with the fewest passes, seen); the first of equals, 0 of none.
pub fn largest(rods: &[RodStock]) -> usize {
    let mut best = 0;
    for (number, rod) in rods.iter().enumerate() {
        if section(rod) > section(&rods[best]) {
            best = number;
        }
    }
    best
}

/// Runs that fill a net section: an extruder lays one (building-services dictionary, seen).
pub fn runs(process: Process, area: Area, factor: f64, rod: &RodStock) -> usize {
    if process == Process::Extrusion {
        return 1;
    }
    let rods = area * factor / section(rod);
    // A job's rod is never thinner than nothing, but it may be a hair.
    if rods.is_finite() {
        ((rods - FULL_ENOUGH).ceil().max(1.0)) as usize
    } else {
        1
    }
}

/// Rod by size, and where the stock falls short or contradicts itself.
pub fn totals(job: &Job, welds: &[SeamWeld], density: Density) -> (Vec<RodTotal>, Vec<Finding>) {
    let mut totals = Vec::new();
    let mut findings = Vec::new();
    for (number, rod) in job.stock.rods.iter().enumerate() {
        let of = welds.iter().filter(|weld| weld.rod == number);
        let length: Length = of.map(|weld| weld.rod_length).sum();
        if length <= Length::ZERO {
            continue;
        }
        let kg_a_metre = kg_a_metre(rod, density);
        let by_mass = rod.mass.map(|mass| Length::from_m(mass.kg() / kg_a_metre));
        let on_hand = rod.length.into_iter().chain(by_mass).reduce(Length::min);
        if let (Some(by_length), Some(by_mass)) = (rod.length, by_mass)
            && ((by_length - by_mass) / by_length).abs() > ROD_DISAGREES
        {
            findings.push(
                Finding::of(
                    Grade::Mend,
                    Subject::Part(Part::Rod),
                    WeldKind::RodDisagrees,
                )
                .figures(Quantity::Length(by_mass), Quantity::Length(by_length))
                .at(&rod.place),
            );
        }
        if let Some(on_hand) = on_hand.filter(|on_hand| *on_hand < length) {
            findings.push(
                Finding::of(Grade::Mend, Subject::Part(Part::Rod), WeldKind::RodShort)
                    .figures(Quantity::Length(length), Quantity::Length(on_hand))
                    .at(&rod.place),
            );
        }
        totals.push(RodTotal {
            rod: number,
            diameter: rod.diameter,
            length,
            mass: Mass::from_kg(length.m() * kg_a_metre),
            on_hand,
        });
    }
    (totals, findings)
}

/// Kilograms in a metre of rod.
fn kg_a_metre(rod: &RodStock, density: Density) -> f64 {
    section(rod).m2() * density.kg_m3()
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_job::Place;

    fn round(mm: f64) -> RodStock {
        RodStock {
            diameter: Length::from_mm(mm),
            form: RodForm::Round,
            mass: None,
            length: None,
            price: None,
            place: Place::default(),
        }
    }

    /// Grams a metre computed for the reference: HDPE 950 kg/m3, 3 mm 6.72, 4 mm 11.94, 5 mm 18.65.
    #[test]
    fn rod_masses_are_those_of_the_table() {
        for (mm, grams) in [(3.0, 6.72), (3.175, 7.52), (4.0, 11.94), (5.0, 18.65)] {
            let found = kg_a_metre(&round(mm), Density::from_kg_m3(950.0)) * 1e3;
            assert!((found - grams).abs() < 0.006, "{mm}: {found}");
        }
    }

    /// DVS 2207-3, table of weld structure (from memory): with the factor 2 the number of runs
    /// comes out within one of the published lay-up, for grooves of 60 degrees and 1 mm.
    #[test]
    fn runs_are_those_of_published_lay_ups() {
        // Sides of the groove, sheet in mm, rods laid into each side, the largest rod in mm.
        let published = [
            (1.0, 2.0, 1, 4.0),
            (1.0, 3.0, 3, 3.0),
            (1.0, 4.0, 3, 4.0),
            (1.0, 5.0, 6, 3.0),
            (2.0, 4.0, 1, 4.0),
            (2.0, 5.0, 3, 3.0),
            (2.0, 6.0, 3, 3.0),
            (2.0, 8.0, 3, 4.0),
            (2.0, 10.0, 6, 3.0),
        ];
        let slope = 30.0_f64.to_radians().tan();
        for (sides, thickness, rods, largest) in published {
            let depth = thickness / sides;
            let net = Area::from_mm2(depth + depth * depth * slope);
            let found = runs(Process::HotGas, net, 2.0, &round(largest));
            assert!(
                found.abs_diff(rods) <= 1,
                "{thickness} mm: {found}, not {rods}"
            );
        }
    }
}
