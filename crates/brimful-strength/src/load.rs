//! Load cases: what presses on the tank, for how long and how warm.
//!
//! Liquid that rests against an accelerated tank presses as if gravity were turned and stretched:
//! `p = density x (gravity - acceleration) . way from the highest point in that direction`, the form of
//! 46 CFR 154.407 (seen). The tank is full to the brim, or to the level that its job keeps it below, and
//! the head is taken over the whole cavity, also where dividers would shorten it.

use brimful_geom::boolean::clip;
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Event, EventFlag, FilledTo, Job};
pub use brimful_panels::case::LoadKind;
use brimful_panels::case::{CaseId, Direction, End, Tilt};
use brimful_panels::growth::WELDED;
pub use brimful_panels::table::LoadOrigin;
use brimful_panels::table::repeat::{LoadTime, often};
use brimful_panels::table::{Flag, Source};
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
    /// The heads in a cavity filled as far as the job says, with the heaviest of its liquids.
    pub fn in_use(job: &Job, cavity: &Solid) -> Self {
        let level = level(job, cavity.bounds().1.z);
        Self::below(heaviest(job), cavity, level)
    }

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

    /// The pressure of a load case at a point, Pa: zero at the highest corner, in the direction of
    /// the body acceleration, plus what is blown or sucked in.
    pub fn pressure(&self, case: &LoadCase, point: Point3) -> f64 {
        let density = case.density(self.density).kg_m3();
        let head = case.body_acceleration.dot(point.to_vec())
            - datum(self.wet(case.id.kind), case.body_acceleration);
        // Rounding may leave a hair below zero at the highest corner.
        (density * head).max(0.0) + case.overpressure(self.density).pa()
    }

    /// The pressure of its own liquid at a point under an acceleration, Pa, whatever a load case has in the others.
    pub fn of_liquid(&self, acceleration: Vec3, point: Point3) -> f64 {
        let head = acceleration.dot(point.to_vec()) - datum(&self.filled, acceleration);
        (self.density.kg_m3() * head).max(0.0)
    }

    /// Corners of what is filled: a leak test is brim-full whatever the job says of its filling.
    fn wet(&self, kind: LoadKind) -> &[Point3] {
        match kind {
            LoadKind::Test => &self.corners,
            _ => &self.filled,
        }
    }
}

/// The least of `acceleration . corner`: there the pressure is zero.
fn datum(corners: &[Point3], acceleration: Vec3) -> f64 {
    corners
        .iter()
        .map(|corner| acceleration.dot(corner.to_vec()))
        .fold(f64::INFINITY, f64::min)
}

/// One load case.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadCase {
    /// Which it is.
    pub id: CaseId,
    /// How long it acts each time.
    pub duration: Time,
    /// How long it acts over the whole service, all together.
    pub total: Time,
    /// How often it comes, where that is more than once; none of what lasts.
    pub times: Option<f64>,
    /// How warm it is.
    pub temperature: Temperature,
    /// What pulls on the liquid and the sheet, gravity included, m/s2.
    pub body_acceleration: Vec3,
    /// Pressure of the air inside, below zero for suction.
    pub air: Pressure,
    /// How high liquid stands above the tank.
    pub standing: Length,
    /// How much warmer the sheet is than when it was welded, K.
    pub warming: f64,
    /// What stands on the lid.
    pub on_lid: Mass,
    /// Where how long and how often it acts is from.
    pub sources: Vec<Source>,
    /// Where it comes from.
    pub origin: LoadOrigin,
    /// How sure that is.
    pub flag: Flag,
}

impl LoadCase {
    /// Density of what is in the tank, where `liquid` is that of the job's own.
    pub fn density(&self, liquid: Density) -> Density {
        match self.id.kind {
            LoadKind::Test => TEST_WATER,
            // Emptied to the last drop there is nothing inside that would hold the walls out.
            LoadKind::Suction | LoadKind::OnLid => Density::ZERO,
            LoadKind::Rest
            | LoadKind::Event
            | LoadKind::Filling
            | LoadKind::Coldest
            | LoadKind::Warmest => liquid,
        }
    }

    /// Pressure inside beyond that of the tank's own liquid, `liquid`, below zero for suction.
    pub fn overpressure(&self, liquid: Density) -> Pressure {
        let standing = self.density(liquid).kg_m3() * STANDARD_GRAVITY * self.standing.m();
        self.air + Pressure::from_pa(standing)
    }

    /// Whether it lasts long enough for the sheet to creep.
    pub fn creeps(&self) -> bool {
        self.id.kind != LoadKind::Event
    }
}

/// A leak test stands for a day: DVS 2206 and shop practice, from memory.
const TEST_TIME: Time = Time::from_hours(24.0);
/// The room temperature of the tables.
const TEST_TEMPERATURE: Temperature = Temperature::from_degc(23.0);
/// Water when it is heaviest, at 4 degC: 999.97 by Kell 1975, from memory.
const TEST_WATER: Density = Density::from_kg_m3(1000.0);
/// How long an event lasts; the short-time properties hold for seconds.
const EVENT_TIME: Time = Time::from_s(1.0);
/// A tank on the road is driven every day of the year.
const DAYS_A_YEAR: f64 = 365.25;

/// What pulls on a tank that stands level, m/s2.
const UPRIGHT: Vec3 = Vec3 {
    x: 0.0,
    y: 0.0,
    z: -STANDARD_GRAVITY,
};

/// Standard gravity, m/s2.
pub const STANDARD_GRAVITY: f64 = Acceleration::from_g(1.0).m_s2();

/// The density of the heaviest liquid of a job.
pub fn heaviest(job: &Job) -> Density {
    let densities = job.liquids().map(|liquid| liquid.density);
    densities.fold(job.liquid.density, Density::max)
}

/// How high the liquid stands at most in use, where the job keeps it below the brim (z, in the tank's
/// axes): the air space under `top`, the highest place of the cavity.
pub fn level(job: &Job, top: f64) -> Option<Length> {
    let below = Length::from_m(top) - job.liquid.air_space;
    (job.checks.filled_to == FilledTo::Rated).then_some(below)
}

/// Every load case of the job. "Full" is to the brim, or to the level that the job keeps it below.
pub fn cases(job: &Job) -> Vec<LoadCase> {
    let mut cases = vec![rest(job, CaseId::of(LoadKind::Rest), UPRIGHT)];
    cases.extend(tilts(job));
    cases.push(LoadCase {
        id: CaseId::of(LoadKind::Test),
        duration: TEST_TIME,
        total: TEST_TIME,
        times: None,
        sources: Vec::new(),
        temperature: TEST_TEMPERATURE,
        body_acceleration: UPRIGHT,
        air: Pressure::ZERO,
        standing: Length::ZERO,
        warming: 0.0,
        on_lid: Mass::ZERO,
        origin: LoadOrigin::LeakTest,
        flag: Flag::FromMemory,
    });
    cases.extend(by_air_and_standpipe(job));
    cases.extend(by_warmth(job));
    cases.extend(on_lid(job));
    for (number, event) in job.events.iter().enumerate() {
        cases.extend(pushes(event).into_iter().map(|(direction, push)| {
            event_case(job, event, CaseId::event(number, direction), push)
        }));
    }
    cases
}

/// Filled until liquid stands in its pipes, and emptied against a vent that is slow all its years, as
/// the source of the suction has it.
fn by_air_and_standpipe(job: &Job) -> [LoadCase; 2] {
    let flag = |key: &str, standing: Flag| match by_default(job, key) {
        true => standing,
        false => Flag::Given,
    };
    [
        LoadCase {
            standing: job.checks.filling_head,
            origin: LoadOrigin::FillingHead,
            flag: flag("filling_head", Flag::CommonPractice),
            ..again_and_again(job, LoadKind::Filling, LoadTime::Filling)
        },
        LoadCase {
            air: -job.checks.suction,
            origin: LoadOrigin::Suction,
            flag: flag("suction", Flag::Seen),
            ..rest(job, CaseId::of(LoadKind::Suction), UPRIGHT)
        },
    ]
}

/// A load that comes so often, and so long each time, as the table of load times says.
fn again_and_again(job: &Job, kind: LoadKind, load: LoadTime) -> LoadCase {
    let often = often(load);
    let (sources, often) = (often.sources, often.value);
    // However short the service, it comes once.
    let times = (often.times_a_year * job.liquid.years.years()).max(1.0);
    LoadCase {
        duration: often.each,
        total: often.each * times,
        times: Some(times),
        sources,
        ..rest(job, CaseId::of(kind), UPRIGHT)
    }
}

/// Grown at its warmest and shrunk at its coldest, against what holds it sideways: as stiff as it is then,
/// so that the cold strains it hardest.
fn by_warmth(job: &Job) -> Vec<LoadCase> {
    let case = |(kind, temperature): (LoadKind, Temperature)| LoadCase {
        temperature,
        warming: temperature.degc() - WELDED.degc(),
        origin: LoadOrigin::Season,
        ..again_and_again(job, kind, LoadTime::Season)
    };
    let extremes = [
        (LoadKind::Coldest, job.liquid.coldest),
        (LoadKind::Warmest, job.liquid.warmest),
    ];
    extremes
        .into_iter()
        .filter(|(_, temperature)| *temperature != WELDED)
        .map(case)
        .collect()
}

/// What may stand on the lid, on the empty tank: liquid under it would only help.
fn on_lid(job: &Job) -> Option<LoadCase> {
    let load = job.checks.lid_load?;
    Some(LoadCase {
        on_lid: load,
        origin: LoadOrigin::LidLoad,
        ..again_and_again(job, LoadKind::OnLid, LoadTime::OnLid)
    })
}

/// Whether the job leaves a key of `[checks]` to its default.
fn by_default(job: &Job, key: &str) -> bool {
    let key = format!("checks.{key}");
    job.defaults.iter().any(|used| used.key == key)
}

fn rest(job: &Job, id: CaseId, acceleration: Vec3) -> LoadCase {
    LoadCase {
        id,
        duration: job.liquid.years,
        total: job.liquid.years,
        times: None,
        sources: Vec::new(),
        temperature: job.liquid.warmest,
        body_acceleration: acceleration,
        air: Pressure::ZERO,
        standing: Length::ZERO,
        warming: 0.0,
        on_lid: Mass::ZERO,
        origin: LoadOrigin::Service,
        flag: Flag::Given,
    }
}

/// An event, which comes on every day of the service.
fn event_case(job: &Job, event: &Event, id: CaseId, push: Vec3) -> LoadCase {
    let times = (event.per_day * DAYS_A_YEAR * job.liquid.years.years()).max(1.0);
    LoadCase {
        duration: EVENT_TIME,
        total: EVENT_TIME * times,
        times: Some(times),
        flag: flag_of(event),
        origin: LoadOrigin::Event(event.source.clone()),
        ..rest(job, id, push + UPRIGHT)
    }
}

fn flag_of(event: &Event) -> Flag {
    match event.flag {
        EventFlag::Seen => Flag::Seen,
        EventFlag::FromMemory => Flag::FromMemory,
        EventFlag::Given => Flag::Given,
    }
}

/// The tank at each corner of its range of heel and pitch, as the acceleration seen from the tank.
fn tilts(job: &Job) -> Vec<LoadCase> {
    let trim = &job.trim;
    let mut tilts: Vec<LoadCase> = Vec::new();
    for heel_end in [End::Low, End::High] {
        for pitch_end in [End::Low, End::High] {
            let tilt = Tilt {
                heel: heel_end,
                pitch: pitch_end,
            };
            let [heel, pitch] = tilt.angles(trim);
            // Heel lifts the left (+y) side, so the liquid runs right; pitch lowers the front (+x).
            let down = Vec3::new(
                pitch.rad().sin(),
                -heel.rad().sin() * pitch.rad().cos(),
                -heel.rad().cos() * pitch.rad().cos(),
            );
            let acceleration = down * STANDARD_GRAVITY;
            let level = heel.rad() == 0.0 && pitch.rad() == 0.0;
            if !level
                && tilts
                    .iter()
                    .all(|other| other.body_acceleration != acceleration)
            {
                let id = CaseId {
                    tilt: Some(tilt),
                    ..CaseId::of(LoadKind::Rest)
                };
                tilts.push(rest(job, id, acceleration));
            }
        }
    }
    tilts
}

/// Each way an event pushes: one at a time, or in every combination at once.
fn pushes(event: &Event) -> Vec<(Direction, Vec3)> {
    let along = |axis: Vec3, push: Acceleration| axis * push.m_s2();
    let x = [
        (Direction::Forward, along(Vec3::X, event.forward)),
        (Direction::Rear, along(-Vec3::X, event.rear)),
    ];
    let y = [
        (Direction::Left, along(Vec3::Y, event.side)),
        (Direction::Right, along(-Vec3::Y, event.side)),
    ];
    let z = [
        (Direction::Down, along(-Vec3::Z, event.down)),
        (Direction::Up, along(Vec3::Z, event.up)),
    ];
    if event.combined {
        let mut all = Vec::new();
        for (to_x, x) in x {
            for (to_y, y) in y {
                all.extend(z.iter().map(|(to_z, z)| {
                    let direction = Direction::All {
                        forward: to_x == Direction::Forward,
                        left: to_y == Direction::Left,
                        up: *to_z == Direction::Up,
                    };
                    (direction, x + y + *z)
                }));
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
        let acceleration = Vec3::new(0.8, 0.0, -1.0) * STANDARD_GRAVITY;
        let pressure = |point: Point3| {
            998.2 * (acceleration.dot(point.to_vec()) - datum(&heads.corners, acceleration))
        };
        assert!((pressure(Point3::new(1.0, 0.0, 0.0)) - 11_747.0).abs() < 0.5);
        assert!(pressure(Point3::new(0.0, 0.5, 0.4)).abs() < 1e-9);
    }

    /// 250 mm of liquid over the lid: 2,942 Pa of one of 1200 kg/m3 (9.80665 m/s2).
    #[test]
    fn what_stands_over_the_lid_is_the_compartments_own_liquid() {
        let job = Job::parse(
            "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [1016, 516, 416]\nthickness = 8\n[checks]\nfilling_head = 250\n",
        );
        let mut all = cases(&job.expect("a job")).into_iter();
        let filling = all.find(|case| case.id.kind == LoadKind::Filling);
        let over = filling
            .expect("a case")
            .overpressure(Density::from_kg_m3(1200.0));
        assert!((over.pa() - 2_942.0).abs() < 0.01, "{}", over.pa());
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
            let case = all.find(|case| case.id.kind == kind).expect("a case");
            heads.pressure(&case, Point3::ORIGIN)
        };
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 0.01, "{found}");
        near(foot(level(&job, 0.4), LoadKind::Rest), 2_942.0);
        near(foot(level(&job, 0.4), LoadKind::Test), 3_922.66);
        near(foot(Some(Length::from_m(-0.1)), LoadKind::Rest), 3_922.66);
    }
}
