//! Rod in all, and whether there is enough.

use super::laying::{FULL_ENOUGH, section};
use super::seam_weld::SeamWeld;
use super::side::WeldSide;
use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::table::run::mass;
use brimful_job::{Job, Process, RodStock};
use brimful_units::{Density, Length, Mass};

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
    /// Coils to buy, beside what is on hand; none where the job does not say what one weighs.
    pub coils: Option<usize>,
}

/// Rod by size, and where the stock falls short or contradicts itself.
pub fn totals(job: &Job, welds: &[SeamWeld], density: Density) -> (Vec<RodTotal>, Vec<Finding>) {
    let mut totals = Vec::new();
    let mut findings = Vec::new();
    for (number, rod) in job.stock.rods.iter().enumerate() {
        let of = welds.iter().filter(|weld| weld.rod == number);
        let laid: Length = of.map(|weld| weld.rod_length).sum();
        if laid <= Length::ZERO {
            continue;
        }
        let kg_a_metre = kg_a_metre(rod, density);
        let purged = match kg_a_metre > 0.0 {
            true => Length::from_m(purged(job, welds).kg() / kg_a_metre),
            false => Length::ZERO,
        };
        let length = laid + purged;
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
        let to_buy = length - on_hand.unwrap_or(Length::ZERO).min(length);
        let coils = rod.coil.map(|coil| {
            let coils = to_buy.m() * kg_a_metre / coil.kg();
            // A coil that is short of by a thousandth is no coil more.
            (coils - FULL_ENOUGH).ceil().max(0.0) as usize
        });
        if let Some(on_hand) = on_hand.filter(|on_hand| *on_hand < length) {
            let short = WeldKind::RodShort {
                short: to_buy,
                coils,
            };
            findings.push(
                Finding::of(Grade::Mend, Subject::Part(Part::Rod), short)
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
            coils,
        });
    }
    (totals, findings)
}

/// Old melt that an extruder's start leaves: it starts again on each side that is welded.
fn purged(job: &Job, welds: &[SeamWeld]) -> Mass {
    if job.shop.process == Process::HotGas {
        return Mass::ZERO;
    }
    let mut sides: Vec<WeldSide> = welds.iter().map(|weld| weld.side).collect();
    sides.sort_unstable();
    sides.dedup();
    mass("extrusion", "purge") * sides.len() as f64
}

/// Kilograms in a metre of rod.
fn kg_a_metre(rod: &RodStock, density: Density) -> f64 {
    section(rod).m2() * density.kg_m3()
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_job::{Place, RodForm};

    fn round(mm: f64) -> RodStock {
        RodStock {
            diameter: Length::from_mm(mm),
            form: RodForm::Round,
            mass: None,
            length: None,
            coil: None,
            material: None,
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
}
