//! Load cases: what presses on the tank, for how long and how warm.
//!
//! Liquid that rests against an accelerated tank presses as if gravity were turned and stretched:
//! `p = density x (gravity - acceleration) . way from the highest point in that direction`, the form of
//! 46 CFR 154.407 (seen). The tank is full to the brim, or to the level that its job keeps it below, and
//! the head is taken over the whole cavity, also where dividers would shorten it.

use crate::finding::Quantity;
use crate::growth::WELDED;
use crate::table::Flag;
use brimful_geom::boolean::clip;
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Event, FilledTo, Job};
use brimful_units::{Acceleration, Density, Length, Mass, Pressure, Temperature, Time};

/// What is needed to know the pressure anywhere: the liquid, and the corners it can reach.
#[derive(Clone, Debug, PartialEq)]
pub struct Heads {
    /// Density of the liquid.
    pub density: Density,
    /// Corners of the cavity.
    pub corners: Vec<Point3>,
    /// Corners of what is filled of it in use.
    filled: Vec<Point3>,
}

impl Heads {
    /// The heads in a brim-full cavity.
    pub fn new(density: Density, cavity: &Solid) -> Self {
        Self {
            density,
            corners: cavity.vertices.clone(),
            filled: cavity.vertices.clone(),
        }
    }

    /// The heads in a cavity that is never filled higher than `level` (z, in the tank's axes); a cavity
    /// above it is taken as brim-full.
    pub fn below(density: Density, cavity: &Solid, level: Option<Length>) -> Self {
        let surface =
            level.and_then(|level| Plane::through(Point3::new(0.0, 0.0, level.m()), Vec3::Z));
        let filled = surface.and_then(|surface| clip(cavity, &surface).ok());
        let filled = filled.filter(|filled| !filled.vertices.is_empty());
        let brimful = Self::new(density, cavity);
        Self {
            filled: filled.map_or_else(|| brimful.filled.clone(), |filled| filled.vertices),
            ..brimful
        }
    }

    /// The pressure of a load case at a point, Pa: nought at the highest corner, in the direction of
    /// the pull, plus what is blown or sucked in.
    pub fn pressure(&self, case: &LoadCase, point: Point3) -> f64 {
        let density = case.density(self.density).kg_m3();
        let head = case.pull.dot(point.to_vec()) - datum(self.wet(case.kind), case.pull);
        // Rounding may leave a hair below nought at the highest corner.
        (density * head).max(0.0) + case.overpressure.pa()
    }

    /// Corners of what is filled: a leak test is brim-full whatever the job says of its filling.
    fn wet(&self, kind: LoadKind) -> &[Point3] {
        match kind {
            LoadKind::Test => &self.corners,
            _ => &self.filled,
        }
    }
}

/// The least of `pull . corner`: there the pressure is nought.
fn datum(corners: &[Point3], pull: Vec3) -> f64 {
    corners
        .iter()
        .map(|corner| pull.dot(corner.to_vec()))
        .fold(f64::INFINITY, f64::min)
}

/// What kind of load it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadKind {
    /// The liquid of the job at rest, for its years.
    Rest,
    /// Filled with water to be tested.
    Test,
    /// Being filled, with liquid standing above the tank.
    Filling,
    /// Being emptied against a shut vent.
    Suction,
    /// Something on the road.
    Event,
    /// Brim-full, grown or shrunk since it was welded.
    Warmth,
    /// Somebody stands on the lid of the empty tank.
    OnLid,
}

impl LoadKind {
    /// Whether the published plate coefficients can tell anything of it.
    pub fn is_for_plates(self) -> bool {
        !matches!(self, Self::Warmth | Self::OnLid)
    }
}

/// One load case.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadCase {
    /// What it is called.
    pub name: String,
    /// Its kind.
    pub kind: LoadKind,
    /// How long it acts.
    pub duration: Time,
    /// How warm it is.
    pub temperature: Temperature,
    /// What pulls on the liquid and the sheet, gravity included, m/s2.
    pub pull: Vec3,
    /// Pressure inside beyond that of the liquid, below nought for suction.
    pub overpressure: Pressure,
    /// How much warmer the sheet is than when it was welded, K.
    pub warming: f64,
    /// What stands on the lid.
    pub on_lid: Mass,
    /// Where it comes from.
    pub source: String,
    /// How sure that is.
    pub flag: Flag,
}

impl LoadCase {
    /// Density of what is in the tank, where `liquid` is that of the job's own.
    pub fn density(&self, liquid: Density) -> Density {
        match self.kind {
            LoadKind::Test => TEST_WATER,
            // Emptied to the last drop there is nothing inside that would hold the walls out.
            LoadKind::Suction | LoadKind::OnLid => Density::ZERO,
            LoadKind::Rest | LoadKind::Event | LoadKind::Filling | LoadKind::Warmth => liquid,
        }
    }

    /// Whether it lasts long enough for the sheet to creep.
    pub fn creeps(&self) -> bool {
        self.kind != LoadKind::Event
    }
}

/// A leak test stands for a day: DVS 2206 and shop practice, from memory.
const TEST_TIME: Time = Time::from_hours(24.0);
/// The room temperature of the tables.
const TEST_TEMPERATURE: Temperature = Temperature::from_degc(23.0);
/// Water when it is heaviest, at 4 degC: 999.97 by Kell 1975, from memory.
const TEST_WATER: Density = Density::from_kg_m3(1000.0);
/// How long liquid stands above a tank that is being filled, and how long a shut vent goes
/// unnoticed: an hour, common practice.
const FILLING_TIME: Time = Time::from_hours(1.0);
/// How long a tank is at its warmest or coldest: common practice.
const SEASON: Time = Time::from_hours(2000.0);
/// How long an event is said to last; the short-time properties hold for seconds.
const EVENT_TIME: Time = Time::from_s(1.0);

/// Standard gravity, m/s2.
pub const STANDARD_GRAVITY: f64 = Acceleration::from_g(1.0).m_s2();

/// How high the liquid stands at most in use, where the job keeps it below the brim (z, in the tank's
/// axes): the air space under `top`, the highest place of the cavity.
pub fn level(job: &Job, top: f64) -> Option<Length> {
    let below = Length::from_m(top) - job.liquid.air_space;
    (job.checks.filled_to == FilledTo::Rated).then_some(below)
}

/// Every load case of the job. "Full" is to the brim, or to the level that the job keeps it below.
pub fn cases(job: &Job) -> Vec<LoadCase> {
    let mut cases = vec![rest(
        job,
        "full at rest".to_owned(),
        -Vec3::Z * STANDARD_GRAVITY,
    )];
    for (name, pull) in tilts(job) {
        cases.push(rest(job, name, pull));
    }
    cases.push(LoadCase {
        name: "leak test with water".to_owned(),
        kind: LoadKind::Test,
        duration: TEST_TIME,
        temperature: TEST_TEMPERATURE,
        pull: -Vec3::Z * STANDARD_GRAVITY,
        overpressure: Pressure::ZERO,
        warming: 0.0,
        on_lid: Mass::ZERO,
        source: "A day brim-full: DVS 2206 and shop practice".to_owned(),
        flag: Flag::FromMemory,
    });
    cases.extend(by_air_and_standpipe(job));
    cases.extend(by_warmth(job));
    cases.extend(on_lid(job));
    for event in &job.events {
        cases.extend(
            pushes(event)
                .into_iter()
                .map(|(way, push)| event_case(job, event, way, push)),
        );
    }
    cases
}

/// Filled until liquid stands in its pipes, and emptied against a shut vent.
fn by_air_and_standpipe(job: &Job) -> [LoadCase; 2] {
    let short = |name: &str, kind, overpressure, [key, what]: [&str; 2], standing: Flag| LoadCase {
        name: name.to_owned(),
        kind,
        duration: FILLING_TIME,
        temperature: job.liquid.warmest,
        pull: -Vec3::Z * STANDARD_GRAVITY,
        overpressure,
        warming: 0.0,
        on_lid: Mass::ZERO,
        source: format!("{what} of the job, for an hour"),
        flag: if by_default(job, key) {
            standing
        } else {
            Flag::Given
        },
    };
    let standing = job.liquid.density.kg_m3() * STANDARD_GRAVITY * job.checks.filling_head.m();
    [
        short(
            "being filled, liquid standing above the lid",
            LoadKind::Filling,
            Pressure::from_pa(standing),
            ["filling_head", "The filling head"],
            Flag::CommonPractice,
        ),
        short(
            "empty, suction of a shut vent",
            LoadKind::Suction,
            -job.checks.suction,
            ["suction", "The suction"],
            Flag::Seen,
        ),
    ]
}

/// Grown at its warmest and shrunk at its coldest, against what holds it sideways. The tables of
/// stiffness and strength begin at room temperature, so colder sheet is taken as it is there.
fn by_warmth(job: &Job) -> Vec<LoadCase> {
    let told = |temperature| Quantity::Temperature(temperature).text(&job.about);
    let case = |temperature: Temperature| LoadCase {
        name: format!(
            "full, welded at {}, now {}",
            told(WELDED),
            told(temperature)
        ),
        kind: LoadKind::Warmth,
        duration: SEASON,
        temperature: temperature.max(WELDED),
        warming: temperature.degc() - WELDED.degc(),
        source: "The coldest and warmest liquid of the job, for a season".to_owned(),
        ..rest(job, String::new(), -Vec3::Z * STANDARD_GRAVITY)
    };
    let extremes = [job.liquid.coldest, job.liquid.warmest];
    extremes
        .into_iter()
        .filter(|temperature| *temperature != WELDED)
        .map(case)
        .collect()
}

/// What may stand on the lid, on the empty tank: liquid under it would only help.
fn on_lid(job: &Job) -> Option<LoadCase> {
    let load = job.checks.lid_load?;
    Some(LoadCase {
        name: "empty, somebody on the lid".to_owned(),
        kind: LoadKind::OnLid,
        duration: FILLING_TIME,
        on_lid: load,
        source: "What the job lets stand on the lid, for an hour".to_owned(),
        ..rest(job, String::new(), -Vec3::Z * STANDARD_GRAVITY)
    })
}

/// Whether the job leaves a key of `[checks]` to its default.
fn by_default(job: &Job, key: &str) -> bool {
    let key = format!("checks.{key}");
    job.defaults.iter().any(|used| used.key == key)
}

fn rest(job: &Job, name: String, pull: Vec3) -> LoadCase {
    LoadCase {
        name,
        kind: LoadKind::Rest,
        duration: job.liquid.years,
        temperature: job.liquid.warmest,
        pull,
        overpressure: Pressure::ZERO,
        warming: 0.0,
        on_lid: Mass::ZERO,
        source: "The job's years of service and warmest liquid, all the time".to_owned(),
        flag: Flag::Given,
    }
}

fn event_case(job: &Job, event: &Event, way: &str, push: Vec3) -> LoadCase {
    LoadCase {
        name: format!("{}, {way}", event.name),
        kind: LoadKind::Event,
        duration: EVENT_TIME,
        temperature: job.liquid.warmest,
        pull: push - Vec3::Z * STANDARD_GRAVITY,
        overpressure: Pressure::ZERO,
        warming: 0.0,
        on_lid: Mass::ZERO,
        flag: flag_of(&event.source),
        source: event.source.clone(),
    }
}

/// The standing table of events writes its flag into its source; figures of the job's own have none.
fn flag_of(source: &str) -> Flag {
    let written = [Flag::FromMemory, Flag::Seen]
        .into_iter()
        .find(|flag| source.contains(flag.word()));
    written.unwrap_or(Flag::Given)
}

/// The tank at each corner of its range of heel and pitch, as the pull seen from the tank.
fn tilts(job: &Job) -> Vec<(String, Vec3)> {
    let trim = &job.trim;
    let mut tilts: Vec<(String, Vec3)> = Vec::new();
    for heel in [trim.heel.low, trim.heel.high] {
        for pitch in [trim.pitch.low, trim.pitch.high] {
            // Heel lifts the left (+y) side, so the liquid runs right; pitch lowers the front (+x).
            let down = Vec3::new(
                pitch.rad().sin(),
                -heel.rad().sin() * pitch.rad().cos(),
                -heel.rad().cos() * pitch.rad().cos(),
            );
            let name = format!(
                "full at rest, heel {:.1} deg, pitch {:.1} deg",
                heel.deg(),
                pitch.deg()
            );
            let level = heel.rad() == 0.0 && pitch.rad() == 0.0;
            if !level && tilts.iter().all(|tilt| tilt.0 != name) {
                tilts.push((name, down * STANDARD_GRAVITY));
            }
        }
    }
    tilts
}

/// Each way an event pushes, with its name: one at a time, or in every combination at once.
fn pushes(event: &Event) -> Vec<(&'static str, Vec3)> {
    let along = |axis: Vec3, push: Acceleration| axis * push.m_s2();
    let x = [
        ("forward", along(Vec3::X, event.forward)),
        ("to the rear", along(-Vec3::X, event.rear)),
    ];
    let y = [
        ("to the left", along(Vec3::Y, event.side)),
        ("to the right", along(-Vec3::Y, event.side)),
    ];
    let z = [
        ("down", along(-Vec3::Z, event.down)),
        ("up", along(Vec3::Z, event.up)),
    ];
    if event.combined {
        let mut all = Vec::new();
        for (_, x) in x {
            for (_, y) in y {
                all.extend(z.iter().map(|(_, z)| ("all at once", x + y + *z)));
            }
        }
        return all;
    }
    x.into_iter()
        .chain(y)
        .chain(z)
        .filter(|(_, push)| *push != Vec3::ZERO)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A full closed tank 1.0 m long and 0.4 m deep at 0.8 g: rho g (0.4 + 0.8 x 1.0) = 11,747 Pa
    /// at the lower front edge, by the form of 46 CFR 154.407; water of 998.2 kg/m3.
    #[test]
    fn braking_adds_the_length() {
        let cavity = Solid::cuboid(Point3::ORIGIN, Point3::new(1.0, 0.5, 0.4));
        let heads = Heads::new(Density::from_kg_m3(998.2), &cavity);
        let pull = Vec3::new(0.8, 0.0, -1.0) * STANDARD_GRAVITY;
        let pressure =
            |point: Point3| 998.2 * (pull.dot(point.to_vec()) - datum(&heads.corners, pull));
        assert!((pressure(Point3::new(1.0, 0.0, 0.0)) - 11_747.0).abs() < 0.5);
        assert!(pressure(Point3::new(0.0, 0.5, 0.4)).abs() < 1e-9);
    }

    /// 300 mm of water under 100 mm of air press at the foot with 2.94 kPa; the leak test is
    /// brim-full with 3.92 kPa, and a cavity above the level too (9.80665 m/s2 by 1000 kg/m3).
    #[test]
    fn a_level_below_the_brim_is_for_all_but_the_leak_test() {
        let cavity = Solid::cuboid(Point3::ORIGIN, Point3::new(1.0, 0.5, 0.4));
        let job = Job::parse(
            "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\nair_space = 100\n[body]\nbox = [1016, 516, 416]\nthickness = 8\n[checks]\nfilled_to = \"rated\"\n",
        );
        let job = job.expect("a job");
        let foot = |level: Option<Length>, kind: LoadKind| {
            let heads = Heads::below(job.liquid.density, &cavity, level);
            let mut all = cases(&job).into_iter();
            let case = all.find(|case| case.kind == kind).expect("a case");
            heads.pressure(&case, Point3::ORIGIN)
        };
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 0.01, "{found}");
        near(foot(level(&job, 0.4), LoadKind::Rest), 2_942.0);
        near(foot(level(&job, 0.4), LoadKind::Test), 3_922.66);
        near(foot(Some(Length::from_m(-0.1)), LoadKind::Rest), 3_922.66);
    }
}
