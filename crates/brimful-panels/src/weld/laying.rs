//! How a weld is laid: runs, rod to a run, and the speed with what bounds it.
//!
//! By hot gas whole rods are laid, so that a run takes as much rod as it is long, and what starts, ends and overlaps take.
//! An extruder lays its melt: with the section of the bead its output gives a speed, and where that is less than the
//! shop's own it rules.

use crate::table::fixture::lengths;
use crate::table::run::{length, rod_speed, share};
use brimful_job::{Job, Nozzle, Process, RodForm, RodStock};
use brimful_units::{Area, Density, Length, MassRate, Speed, Time};
use std::f64::consts::PI;

/// A groove is full when it is short of a run by less than this share of one: a thousandth of a
/// rod is below what any hand lays.
pub(super) const FULL_ENOUGH: f64 = 1e-3;

/// What bounds the speed of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpeedBound {
    /// The speed that the shop welds with, by default inside what is published.
    Shop,
    /// The rod: a heavier one takes longer to warm.
    Rod,
    /// What the extruder gives.
    Output,
}

impl SpeedBound {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Shop => "speed",
            Self::Rod => "rod",
            Self::Output => "output",
        }
    }
}

/// Rod of one run by hot gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunRod {
    /// To cut off and mark: the run with its start, end and overlap.
    pub cut: Length,
    /// Where more than this of it is left over once the run is laid, the rod was stretched.
    pub most_left: Length,
}

/// How one weld is laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Laying {
    /// How many runs.
    pub runs: usize,
    /// Rod that ends up in the weld.
    pub laid: Length,
    /// Rod used for it, with what is cut off.
    pub rod: Length,
    /// Of each run; none of an extruder.
    pub run_rod: Option<RunRod>,
    /// Along the run.
    pub speed: Speed,
    /// What bounds that.
    pub bound: SpeedBound,
}

/// Section of a rod; a triangular one is taken with equal sides.
pub fn section(rod: &RodStock) -> Area {
    let square = rod.diameter * rod.diameter;
    match rod.form {
        RodForm::Round => square * (PI / 4.0),
        RodForm::Triangular => square * (3.0_f64.sqrt() / 4.0),
    }
}

/// Runs of rod by hot gas that fill a section, its overfill included.
fn runs(bead: Area, rod: &RodStock) -> usize {
    let rods = bead / section(rod);
    // A job's rod is never thinner than nothing, but it may be a hair.
    if rods.is_finite() {
        ((rods - FULL_ENOUGH).ceil().max(1.0)) as usize
    } else {
        1
    }
}

/// What is laid by a process into a net section of so much area and throat along a length, with a rod.
pub(super) fn laying(
    job: &Job,
    process: Process,
    rod: &RodStock,
    (area, throat): (Area, Length),
    along: Length,
    density: Density,
) -> Laying {
    let bead = area * rod_factor(job, process);
    let rod_area = section(rod);
    match process {
        Process::HotGas => {
            let runs = runs(bead, rod);
            let allowance = overlap("hot gas restart") + length("hot gas", "trim");
            let cut = along + allowance;
            let (speed, bound) = by_rod(job, rod);
            Laying {
                runs,
                laid: along * runs as f64,
                rod: cut * runs as f64,
                run_rod: Some(RunRod {
                    cut,
                    most_left: cut - along / (1.0 + stretch_limit()),
                }),
                speed,
                bound,
            }
        }
        Process::Extrusion => {
            let runs = extruded_runs(throat);
            let overlap = overlap("extrusion restart") * runs as f64;
            let of_rod = |along: Length| match rod_area > Area::ZERO {
                true => along * (bead / rod_area),
                false => Length::ZERO,
            };
            let (speed, bound) = by_output(job, bead * (1.0 / runs as f64), density);
            Laying {
                runs,
                laid: of_rod(along),
                rod: of_rod(along) + of_rod(overlap * (1.0 / runs as f64)),
                run_rod: None,
                speed,
                bound,
            }
        }
    }
}

/// What a run laps where it is taken up again: the middle of what is usual.
fn overlap(restart: &str) -> Length {
    let [least, most] = lengths(restart, "overlap");
    (least + most) * 0.5
}

/// Rod used over the net volume of the groove: the shop's, or that of the gun beside its extruder.
fn rod_factor(job: &Job, process: Process) -> f64 {
    match process == job.shop.process {
        true => job.shop.rates.rod_factor,
        false => share("beside an extruder", "rod used"),
    }
}

/// What an extruder is planned to give: less than it is rated at.
pub fn planned_output(job: &Job) -> MassRate {
    job.shop.output * share("extrusion", "planned share of the output")
}

/// By what share a finished run may be longer than the rod in it.
pub fn stretch_limit() -> f64 {
    share("hot gas", "stretch")
}

/// The speed at which so much output fills a section.
pub fn output_speed(output: MassRate, density: Density, bead: Area) -> Speed {
    Speed::from_m_s(output.kg_s() / (density.kg_m3() * bead.m2()))
}

/// An extruder lays one run (building-services dictionary, seen), but for the deepest throats.
pub(super) fn extruded_runs(throat: Length) -> usize {
    let deepest = length("extrusion", "deepest run");
    (throat / deepest).floor() as usize + 1
}

fn by_output(job: &Job, bead: Area, density: Density) -> (Speed, SpeedBound) {
    let shop = job.shop.rates.weld_speed;
    let given = output_speed(planned_output(job), density, bead);
    match given < shop {
        true => (given, SpeedBound::Output),
        false => (shop, SpeedBound::Shop),
    }
}

/// How fast a round nozzle is moved by a shop that lays its long runs with another tool: the middle of what is published.
fn round_nozzle_speed() -> Speed {
    length("round nozzle", "along in a minute") / Time::from_minutes(1.0)
}

/// How often the round nozzle goes over a section of so much area with a rod, and how fast.
pub(super) fn by_round_nozzle(job: &Job, rod: &RodStock, area: Area) -> (usize, Speed) {
    let bead = area * rod_factor(job, Process::HotGas);
    (runs(bead, rod), round_nozzle_speed())
}

/// A heavy rod slows a speed nozzle down, where the shop has not timed it.
fn by_rod(job: &Job, rod: &RodStock) -> (Speed, SpeedBound) {
    if job.shop.process == Process::Extrusion {
        // The gun beside the extruder has a round nozzle.
        return (round_nozzle_speed(), SpeedBound::Rod);
    }
    let shop = job.shop.rates.weld_speed;
    let known = rod_speed(rod)
        .filter(|_| job.shop.nozzle == Nozzle::Speed && job.is_default("shop.weld_speed"));
    match known {
        Some([_, most]) if most < shop => (most, SpeedBound::Rod),
        _ => (shop, SpeedBound::Shop),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reference table of speeds of an extruder, mm/min, from its output and the area of the bead, at 955 kg/m3 and
    /// without waste (computed by hand): each given to a whole mm/min.
    #[test]
    fn speeds_of_an_extruder_are_those_of_the_table() {
        let areas = [20.0, 30.0, 50.0, 80.0, 120.0, 200.0];
        let table = [
            (0.5, [436.0, 291.0, 175.0, 109.0, 73.0, 44.0]),
            (1.0, [873.0, 582.0, 349.0, 218.0, 145.0, 87.0]),
            (2.0, [1745.0, 1163.0, 698.0, 436.0, 291.0, 175.0]),
            (3.0, [2618.0, 1745.0, 1047.0, 654.0, 436.0, 262.0]),
            (4.5, [3927.0, 2618.0, 1571.0, 982.0, 654.0, 393.0]),
            (6.0, [5236.0, 3490.0, 2094.0, 1309.0, 873.0, 524.0]),
        ];
        for (output, speeds) in table {
            for (area, wanted) in areas.iter().zip(speeds) {
                let found = output_speed(
                    MassRate::from_kg_h(output),
                    Density::from_kg_m3(955.0),
                    Area::from_mm2(*area),
                );
                // Rounded to a whole mm/min.
                assert!(
                    (found.mm_min() - wanted).abs() <= 0.51,
                    "{output} {area}: {found:?}"
                );
            }
        }
    }

    fn job(shop: &str) -> Job {
        let text = format!(
            "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\n[shop]\n{shop}"
        );
        Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    fn laid(job: &Job, mm2: f64) -> Laying {
        let (area, throat) = (Area::from_mm2(mm2), Length::from_mm(6.0));
        let density = Density::from_kg_m3(950.0);
        laying(
            job,
            job.shop.process,
            &job.stock.rods[0],
            (area, throat),
            Length::from_m(1.0),
            density,
        )
    }

    /// Where an extruder does not get, a round nozzle lays rods: 80 mm in a minute, the middle of what is published.
    #[test]
    fn the_gun_beside_an_extruder_lays_rods() {
        let shop = job("process = \"extrusion\"\n");
        let (area, throat) = (Area::from_mm2(20.0), Length::from_mm(6.0));
        let (along, density) = (Length::from_m(1.0), Density::from_kg_m3(950.0));
        let rod = &shop.stock.rods[0];
        let laid = laying(&shop, Process::HotGas, rod, (area, throat), along, density);
        assert!((laid.speed.mm_min() - 80.0).abs() < 1e-9);
        assert!(laid.runs > 1 && laid.run_rod.is_some());
    }

    #[test]
    fn an_extruder_is_bound_by_its_output_or_by_the_shop() {
        let shop = job("process = \"extrusion\"\nrod_factor = 1.0\n");
        let thick = laid(&shop, 100.0);
        assert_eq!(thick.bound, SpeedBound::Output);
        // 0.65 x 2.3 kg/h over 950 kg/m3 and 100 mm2, in mm/min.
        let wanted = 0.65 * 2.3 / 60.0 / 950.0 / 100e-6 * 1e3;
        assert!((thick.speed.mm_min() - wanted).abs() < 1e-9);
        let thin = laid(&shop, 20.0);
        assert_eq!(
            (thin.bound, thin.speed),
            (SpeedBound::Shop, Speed::from_mm_min(500.0))
        );
        let small = laid(
            &job("process = \"extrusion\"\nextruder = \"small\"\n"),
            100.0,
        );
        assert!(small.speed < thick.speed * 0.3);
        let own = laid(
            &job("process = \"extrusion\"\noutput = \"3.5 kg/h\"\nrod_factor = 1.0\n"),
            100.0,
        );
        assert!((own.speed / thick.speed - 3.5 / 2.3).abs() < 1e-12);
    }

    /// 5 mm rod is laid at no more than 250 mm/min by a speed nozzle (from memory), but for a shop that has timed it.
    #[test]
    fn a_heavy_rod_slows_the_speed_nozzle_down() {
        let with = |rod: &str, shop: &str| {
            let mut job = job(shop);
            job.stock.rods[0].diameter = Length::from_mm(rod.parse().unwrap());
            let laid = laid(&job, 20.0);
            (laid.speed.mm_min().round(), laid.bound)
        };
        assert_eq!(with("4", ""), (300.0, SpeedBound::Shop));
        assert_eq!(with("5", ""), (250.0, SpeedBound::Rod));
        assert_eq!(
            with("5", "weld_speed = \"280 mm/min\"\n"),
            (280.0, SpeedBound::Shop)
        );
        assert_eq!(with("5", "nozzle = \"round\"\n"), (80.0, SpeedBound::Shop));
    }

    /// Deposit of hot gas worked out for the reference, kg/h: 3 mm at 300 mm/min 0.121, 4 mm at 280 0.20, 5 mm at 225 0.25,
    /// at 950 kg/m3; a small extruder gives 3 to 5 times that.
    #[test]
    fn deposits_of_hot_gas_are_those_of_the_table() {
        for (mm, speed, wanted) in [(3.0, 300.0, 0.121), (4.0, 280.0, 0.2), (5.0, 225.0, 0.25)] {
            let area = Area::from_mm2(PI / 4.0 * mm * mm);
            let deposit = MassRate::from_kg_h(wanted);
            let found = output_speed(deposit, Density::from_kg_m3(950.0), area);
            // Given to two or three figures.
            assert!(
                (found.mm_min() / speed - 1.0).abs() < 0.02,
                "{mm}: {found:?}"
            );
        }
    }

    #[test]
    fn a_run_of_hot_gas_takes_its_own_length_of_rod_and_its_ends() {
        let laid = laid(&job(""), 20.0);
        let run = laid.run_rod.expect("rod of a run");
        assert_eq!(run.cut, Length::from_mm(1000.0 + 15.0 + 75.0));
        // A tenth longer than the rod in it the run may be.
        let finished = (run.cut - run.most_left) * 1.1;
        assert!((finished - Length::from_m(1.0)).abs() < Length::from_mm(1e-9));
        // 20 mm2 twice over, of 12.6 mm2 each.
        assert_eq!(laid.runs, 4);
        assert!((laid.rod.mm() - 4.0 * 1090.0).abs() < 1e-9);
        assert_eq!(laid.laid, Length::from_m(4.0));
    }

    #[test]
    fn deep_throats_take_an_extruder_several_runs() {
        let runs = [6.0, 17.9, 18.0, 36.5].map(|mm| extruded_runs(Length::from_mm(mm)));
        assert_eq!(runs, [1, 1, 2, 3]);
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
            let round = RodStock {
                diameter: Length::from_mm(largest),
                ..job("").stock.rods[0].clone()
            };
            let net = Area::from_mm2(depth + depth * depth * slope);
            let found = runs(net * 2.0, &round);
            assert!(
                found.abs_diff(rods) <= 1,
                "{thickness} mm: {found}, not {rods}"
            );
        }
    }
}
