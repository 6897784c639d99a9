//! Rules of practice: what experience says goes wrong, each with where it comes from.

mod chocks;
mod filling;
mod liquids;
mod rooms;

use crate::mass::{MassStateKind, MassTable};
use brimful_geom::boolean::pieces;
use brimful_geom::plate::PlateFace;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Point3;
use brimful_job::{Axis, Checks, Duty, Event, FilledTo, Job, OpeningSize, Service, Support};
use brimful_panels::body::Body;
use brimful_panels::capacity::Capacity;
use brimful_panels::finding::kind::{Bearing, FillingKind, PracticeKind, Push, Rule};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::liquid::{Compartment, nearest};
use brimful_panels::panel::{Panel, Role};
use brimful_panels::port::ports;
use brimful_panels::site::Site;
use brimful_panels::table::factor::{LoadClass, coldest_use, safety_factor};
use brimful_panels::table::material::Material;
use brimful_panels::way_in::TankEntry;
use brimful_units::{Acceleration, Density, Length, Mass, Time};

/// A tank longer than this without baffles surges: 46 CFR 182.440(a)(8).
const LONGEST_WITHOUT_BAFFLE: Length = Length::from_mm(760.0);

/// The usable share of the rated capacity that fire services work with (about; seen).
const USABLE: f64 = 0.9;

fn of(grade: Grade, part: Part, kind: PracticeKind) -> Finding {
    Finding::of(grade, Subject::Part(part), kind)
}

/// Everything that practice has to say about a tank.
pub fn practice(
    job: &Job,
    site: Option<&Site>,
    body: &Body,
    way_in: Option<&TankEntry>,
    panels: &[Panel],
    compartments: &[Compartment],
    capacity: &Capacity,
    mass: &MassTable,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(way_in.map(TankEntry::finding));
    findings.extend(carried(job, site, &body.solid));
    findings.extend(liquids::known(job, compartments));
    findings.extend(brittle(job));
    findings.extend(below_rule(job));
    findings.extend(apart(panels, compartments));
    findings.extend(rooms::said_of_rooms(job, panels, compartments));
    findings.extend(rooms::dry_and_closed(job, panels, compartments));
    findings.extend(liquids::drinking_water_beside_other(panels, compartments));
    findings.extend(chocks::grows_between_chocks(job, body));
    findings.extend(payload(job, compartments, capacity, mass));
    findings.extend(not_computed(job));
    for compartment in compartments.iter().filter(|it| it.holds_liquid()) {
        findings.extend(vents(job, panels, compartments, compartment));
    }
    findings.extend(filling::kept_below(job, panels, compartments));
    findings.extend(liquids::frost(job, compartments, capacity));
    findings.extend(usable_shares(job, capacity));
    findings.extend(surge(job, compartments, panels));
    findings.extend(crossings(&body.solid));
    findings.extend(access(job, panels));
    findings
}

/// Whether what carries the tank is under it at all. Places of rails and feet are in the body's axes.
fn carried(job: &Job, site: Option<&Site>, body: &Solid) -> Option<Finding> {
    let (low, high) = body.bounds();
    let origin = job.body.as_ref().map_or([Length::ZERO; 3], |spec| spec.at);
    let under = |axis: Axis, at: Length| {
        let (low, high, shift) = match axis {
            Axis::X => (low.x, high.x, origin[0].m()),
            Axis::Y => (low.y, high.y, origin[1].m()),
            Axis::Z => (low.z, high.z, origin[2].m()),
        };
        low <= at.m() + shift && at.m() + shift <= high
    };
    let (all_under, bearing) = match &job.support {
        Support::Rails { along, at, .. } => {
            let across = if *along == Axis::X { Axis::Y } else { Axis::X };
            (at.iter().all(|&at| under(across, at)), Bearing::Rail)
        }
        Support::Straps { across, at, .. } => {
            (at.iter().all(|&at| under(*across, at)), Bearing::Strap)
        }
        Support::Feet { at, .. } => (
            at.iter()
                .all(|at| under(Axis::X, at[0]) && under(Axis::Y, at[1])),
            Bearing::Foot,
        ),
        Support::Bed => return None,
        Support::Floor => {
            let floor = site.map(|site| site.room.shell.bounds().0.z);
            let stands = floor.is_none_or(|floor| low.z - floor <= FLOOR_PACKING);
            (stands, Bearing::FloorOfSpace)
        }
    };
    let kind = PracticeKind::NotCarried(bearing);
    (!all_under).then(|| of(Grade::Stop, Part::Support, kind))
}

/// Foam, strips or a mat under a tank that stands on a floor are no thicker than this, metres
/// (common practice).
const FLOOR_PACKING: f64 = 0.030;

/// Sheet that is brittle at the coldest of the job, or may be: on the way it meets shocks.
fn brittle(job: &Job) -> Option<Finding> {
    let material = Material::of(&job.stock.material).ok()?;
    let (coldest, [limit, surely]) = (job.liquid.coldest, coldest_use(material));
    let moves = job.about.duty != Duty::Standing;
    let (grade, kind, limit) = match moves {
        true if coldest < limit => (Grade::Stop, PracticeKind::Brittle { moves }, limit),
        true if coldest < surely => (Grade::Mend, PracticeKind::NearlyBrittle, surely),
        false if coldest < limit => (Grade::Mend, PracticeKind::Brittle { moves }, limit),
        _ => return None,
    };
    let figures = [coldest, limit].map(Quantity::Temperature);
    let [coldest, limit] = figures;
    Some(of(grade, Part::Freezing, kind).figures(coldest, limit))
}

/// What the job sets below the rule or the table, each by name.
fn below_rule(job: &Job) -> Vec<Finding> {
    let (checks, standard) = (&job.checks, Checks::standard());
    let of_rule = |rule, figure, limit| {
        of(Grade::Mend, Part::Strength, PracticeKind::BelowRule(rule)).figures(figure, limit)
    };
    let mut findings = Vec::new();
    let rule = safety_factor(LoadClass::ChangingOrHarmful).map(|it| it.value);
    if let (Some(own), Ok(rule)) = (checks.safety_factor, rule)
        && own < rule
    {
        let (own, rule) = (Quantity::Ratio(own), Quantity::Ratio(rule));
        findings.push(of_rule(Rule::SafetyFactor, own, rule));
    }
    if checks.filling_head < standard.filling_head {
        let (own, rule) = (checks.filling_head, standard.filling_head);
        let (own, rule) = (Quantity::Length(own), Quantity::Length(rule));
        findings.push(of_rule(Rule::FillingHead, own, rule));
    }
    if checks.suction < standard.suction {
        let (own, rule) = (checks.suction, standard.suction);
        let (own, rule) = (Quantity::Pressure(own), Quantity::Pressure(rule));
        findings.push(of_rule(Rule::Suction, own, rule));
    }
    if job.liquid.years < Time::from_years(1.0) {
        let [own, rule] = [job.liquid.years, Time::from_years(1.0)].map(Time::years);
        let [own, rule] = [own, rule].map(Quantity::Ratio);
        findings.push(of_rule(Rule::Years, own, rule));
    }
    findings.extend(pushes_below_rule(job).map(|(rule, own, usual)| {
        let [own, usual] = [own, usual].map(Quantity::Ratio);
        of_rule(rule, own, usual)
    }));
    findings
}

/// The ways in which the events of a tank on a road push less hard than those that stand where a job names none (in g), or so
/// hard less often (a day), with both figures.
fn pushes_below_rule(job: &Job) -> impl Iterator<Item = (Rule, f64, f64)> {
    type Way = fn(&Event) -> Acceleration;
    let ways: [(Push, Way); 5] = [
        (Push::Forward, |it| it.forward),
        (Push::Rear, |it| it.rear),
        (Push::Side, |it| it.side),
        (Push::Up, |it| it.up),
        (Push::Down, |it| it.down),
    ];
    let hardest = |events: &mut dyn Iterator<Item = &Event>, way: Way| {
        events.map(|it| way(it).g()).fold(0.0, f64::max)
    };
    let on_road = ways.into_iter().filter(|_| job.about.duty == Duty::Road);
    on_road.filter_map(move |(push, way)| {
        let own = hardest(&mut job.events.iter(), way);
        let usual = hardest(&mut Event::usual(), way);
        if own < usual {
            return Some((Rule::Push(push), own, usual));
        }
        let so_hard = |it: &&Event| way(it).g() >= usual;
        let own: f64 = job.events.iter().filter(so_hard).map(|it| it.per_day).sum();
        let usual: f64 = Event::usual().filter(so_hard).map(|it| it.per_day).sum();
        (own < usual).then_some((Rule::PushesPerDay(push), own, usual))
    })
}

/// Dividers that do not divide, and bays that nothing gets into or out of.
fn apart(panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for divider in panels.iter().filter(|panel| panel.role == Role::Divider) {
        let plate = &divider.finished;
        let middle = plate.outlines(PlateFace::Outside)[0].centroid();
        // A point just off either face.
        let beside = |z: f64| {
            plate
                .frame
                .world_from_frame(Point3::new(middle.x, middle.y, z))
        };
        let room = |point: Point3| nearest(compartments, point).map(|compartment| compartment.id);
        let off = 1e-4;
        if room(beside(off)) == room(beside(-plate.thickness - off)) {
            let subject = Subject::Panel(divider.name.clone());
            let kind = PracticeKind::DividerLeaks;
            findings.push(Finding::of(Grade::Stop, subject, kind));
        }
    }
    for compartment in compartments {
        let parts = pieces(&compartment.liquid).map_or(2, |parts| parts.len());
        if parts > 1 {
            let subject = Subject::Compartment(compartment.id);
            findings.push(
                Finding::of(Grade::Stop, subject, PracticeKind::BayClosed)
                    .figures(Quantity::Count(parts), Quantity::Count(1)),
            );
        }
    }
    findings
}

fn middle_of(panel: &Panel) -> Point3 {
    let plate = &panel.finished;
    let middle = plate.outlines(PlateFace::Outside)[0].centroid();
    let halfway = Point3::new(middle.x, middle.y, -plate.thickness / 2.0);
    plate.frame.world_from_frame(halfway)
}

/// What the job gives and nothing here makes use of.
fn not_computed(job: &Job) -> Vec<Finding> {
    let mut findings = Vec::new();
    let vehicle = job.vehicle.as_ref();
    if vehicle.is_some_and(|vehicle| !vehicle.axles.is_empty() || vehicle.coupling.is_some()) {
        findings.push(of(Grade::Mend, Part::Axles, PracticeKind::AxlesNotComputed));
    }
    let quote = &job.quote;
    if quote.sheet.is_some() || quote.rod.is_some() || quote.hour.is_some() {
        findings.push(of(Grade::Note, Part::Quote, PracticeKind::NotPriced));
    }
    findings
}

/// The full tank against what the vehicle may carry, with the fill that it allows.
fn payload(
    job: &Job,
    compartments: &[Compartment],
    capacity: &Capacity,
    mass: &MassTable,
) -> Option<Finding> {
    let payload = job.vehicle.as_ref()?.payload?;
    let of_state = |kind| mass.state(kind).map(|state| state.mass);
    let rated = of_state(MassStateKind::Rated)?;
    let empty = of_state(MassStateKind::Empty)?;
    let brim = of_state(MassStateKind::Brim)?;
    let found = |grade, kind, mass| {
        of(grade, Part::Payload, kind).figures(Quantity::Mass(mass), Quantity::Mass(payload))
    };
    if rated <= payload {
        let kind = PracticeKind::BrimTooHeavy;
        return (brim > payload).then(|| found(Grade::Mend, kind, brim));
    }
    let room = (payload - empty).max(Mass::ZERO);
    // However it is shared out between compartments: as if all of it were the heaviest of their liquids.
    let holding = compartments.iter().filter(|it| it.holds_liquid());
    let densities = holding.map(|it| it.contents.density);
    let heaviest = densities.fold(Density::ZERO, Density::max);
    let fill = (room / heaviest).min(capacity.rated());
    let kind = PracticeKind::RatedTooHeavy { fill };
    Some(found(Grade::Stop, kind, rated))
}

/// Vents and overflows of a compartment against what fills it.
fn vents(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
) -> Vec<Finding> {
    let largest = |service: Service, size: fn(OpeningSize) -> Length| {
        let ports = ports(job, panels, all, compartment, service);
        ports
            .iter()
            .map(|port| size(port.opening.size))
            .fold(Length::ZERO, Length::max)
    };
    // Of one that is not round: what may come in at most, and what is sure to get out.
    let comes_in = |service| largest(service, OpeningSize::largest);
    let gets_out = |service| largest(service, OpeningSize::hydraulic_diameter);
    let (fill, vent, overflow) = (
        comes_in(Service::Fill),
        gets_out(Service::Vent),
        gets_out(Service::Overflow),
    );
    let liquid_way = fill.max(comes_in(Service::Draw));
    let (of_vent, of_overflow) = (
        Subject::Vent(compartment.id),
        Subject::Overflow(compartment.id),
    );
    let mend = |subject, kind| Finding::of(Grade::Mend, subject, PracticeKind::Filling(kind));
    let mut findings = Vec::new();
    if vent > Length::ZERO && vent < liquid_way {
        findings.push(
            mend(of_vent, FillingKind::SmallVent)
                .figures(Quantity::Length(vent), Quantity::Length(liquid_way)),
        );
    }
    if fill > Length::ZERO && overflow == Length::ZERO {
        // Nothing then keeps the liquid at the level that strength is checked for.
        let grade = match job.checks.filled_to {
            FilledTo::Brim => Grade::Mend,
            FilledTo::Rated => Grade::Stop,
        };
        let kind = PracticeKind::Filling(FillingKind::NoOverflow);
        findings.push(Finding::of(grade, of_overflow, kind));
    } else if overflow < fill {
        findings.push(
            mend(of_overflow, FillingKind::SmallOverflow)
                .figures(Quantity::Length(overflow), Quantity::Length(fill)),
        );
    }
    findings
}

/// Compartments of which much stays behind; worth knowing alone where the job says how much it wants to be
/// usable, and gets it.
fn usable_shares(job: &Job, capacity: &Capacity) -> Vec<Finding> {
    let is_wanted = job.liquid.wanted.is_some_and(|wanted| {
        let of_usable = wanted.of == brimful_job::Capacity::Usable;
        of_usable && capacity.usable().is_some_and(|it| it >= wanted.volume)
    });
    let grade = if is_wanted { Grade::Note } else { Grade::Mend };
    let rows = capacity.compartments.iter();
    rows.filter_map(|row| {
        let share = row.usable? / row.rated;
        (share < USABLE).then(|| {
            let subject = Subject::Compartment(row.id);
            Finding::of(grade, subject, PracticeKind::LittleUsable)
                .figures(Quantity::Ratio(share), Quantity::Ratio(USABLE))
        })
    })
    .collect()
}

/// Long bays without baffles on the road or afloat, and events that nobody named.
fn surge(job: &Job, compartments: &[Compartment], panels: &[Panel]) -> Vec<Finding> {
    if job.about.duty == Duty::Standing {
        return Vec::new();
    }
    let mut findings = Vec::new();
    if job.events.is_empty() {
        findings.push(of(Grade::Stop, Part::Events, PracticeKind::NoEvents));
    }
    for compartment in compartments.iter().filter(|it| it.holds_liquid()) {
        let (low, high) = compartment.room.bounds();
        let longest = Length::from_m((high.x - low.x).max(high.y - low.y));
        let baffled = panels.iter().any(|panel| {
            panel.role == Role::Baffle
                && nearest(compartments, middle_of(panel)) == Some(compartment)
        });
        if longest > LONGEST_WITHOUT_BAFFLE && !baffled {
            let subject = Subject::Compartment(compartment.id);
            findings.push(
                Finding::of(Grade::Mend, subject, PracticeKind::LongWithoutBaffle).figures(
                    Quantity::Length(longest),
                    Quantity::Length(LONGEST_WITHOUT_BAFFLE),
                ),
            );
        }
    }
    if panels.iter().any(|panel| panel.role == Role::Baffle) {
        let kind = PracticeKind::BafflesNotComputed;
        findings.push(of(Grade::Note, Part::Baffles, kind));
    }
    findings
}

/// Corners where four or more seams run together.
fn crossings(body: &Solid) -> Option<Finding> {
    let edges = body.edges();
    let seams_at = |vertex: usize| {
        edges
            .iter()
            .filter(|edge| edge.from == vertex || edge.to == vertex)
            .count()
    };
    let crowded = (0..body.vertices.len())
        .filter(|&vertex| seams_at(vertex) > 3)
        .count();
    let kind = PracticeKind::SeamsCross { corners: crowded };
    (crowded > 0).then(|| {
        of(Grade::Mend, Part::Seams, kind).figures(Quantity::Count(crowded), Quantity::Count(0))
    })
}

/// Every compartment should be reached by a hand.
fn access(job: &Job, panels: &[Panel]) -> Option<Finding> {
    let hatch = job
        .openings
        .iter()
        .any(|opening| opening.service == Service::Hatch);
    let baffles = panels.iter().any(|panel| panel.role == Role::Baffle);
    let kind = PracticeKind::NoHatch { baffles };
    (!hatch).then(|| of(Grade::Note, Part::Hatches, kind))
}
