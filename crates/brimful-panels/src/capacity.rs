//! The three capacities: brim, rated, usable; and what is stranded and trapped.

use crate::finding::kind::CapacityKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::liquid::{Compartment, trims_within};
use crate::name::CompartmentId;
use crate::panel::Panel;
use crate::port::{Port, ports};
use brimful_geom::basin::drained;
use brimful_geom::boolean::BooleanFault;
use brimful_geom::frame::Plane;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Job, Service, Wanted};
use brimful_units::Volume;

/// What the tank holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// Each compartment by itself.
    pub compartments: Vec<CompartmentCapacity>,
}

/// What a compartment holds.
#[derive(Clone, Debug, PartialEq)]
pub struct CompartmentCapacity {
    /// Which compartment it is.
    pub id: CompartmentId,
    /// To the inside of the lid, level.
    pub brim: Volume,
    /// Below the air space and any overflow, level, less what trapped air keeps out.
    pub rated: Volume,
    /// Below the air space and any overflow, level, trapped air or not.
    pub below_rated_surface: Volume,
    /// What the outlets together take of the rated volume at the worst trim; none without an outlet.
    pub usable: Option<Volume>,
    /// What they leave behind at the worst trim; none without an outlet.
    pub stranded: Option<Volume>,
    /// Air that the vents together do not let out at the worst trim; none without a vent.
    pub trapped_air: Option<Volume>,
    /// The openings that draw; where there are none, those that drain.
    pub outlets: Vec<String>,
    /// The openings that vent.
    pub vents: Vec<String>,
}

impl Capacity {
    /// Brim capacity of all compartments.
    pub fn brim(&self) -> Volume {
        self.compartments
            .iter()
            .map(|compartment| compartment.brim)
            .sum()
    }
    /// Brim capacity of each compartment.
    pub fn brims(&self) -> Vec<Volume> {
        let all = self.compartments.iter();
        all.map(|compartment| compartment.brim).collect()
    }
    /// Rated capacity of all compartments.
    pub fn rated(&self) -> Volume {
        self.compartments
            .iter()
            .map(|compartment| compartment.rated)
            .sum()
    }
    /// Usable capacity, if every compartment has an outlet.
    pub fn usable(&self) -> Option<Volume> {
        self.compartments
            .iter()
            .map(|compartment| compartment.usable)
            .sum::<Option<Volume>>()
    }
}

/// The level surface of the rated fill of a compartment: below the air space, and no higher than
/// the lowest edge of an overflow.
pub fn rated_surface(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
) -> Plane {
    let (_, top) = compartment.heights(Vec3::Z);
    let overflows = ports(job, panels, all, compartment, Service::Overflow);
    let sills = overflows.iter().map(|port| port.rim(-Vec3::Z).z);
    Plane {
        normal: Vec3::Z,
        offset: sills.fold(top - job.liquid.air_space.m(), f64::min),
    }
}

/// The three capacities, with what they fall short of.
pub fn capacity(
    job: &Job,
    panels: &[Panel],
    compartments: &[Compartment],
) -> (Capacity, Vec<Finding>) {
    let mut findings = Vec::new();
    let mut rows = Vec::new();
    for compartment in compartments.iter().filter(|it| it.holds_liquid()) {
        let row = capacity_of(job, panels, compartments, compartment, &mut findings);
        let filled = !ports(job, panels, compartments, compartment, Service::Fill).is_empty();
        // Of several, one may be meant to stay dry.
        let idle = compartments.len() > 1 && !filled && row.outlets.is_empty();
        findings.extend(vent_and_outlet_findings(&row, idle));
        let wanted = compartment.spec.as_ref().and_then(|spec| spec.wanted);
        findings.extend(wanted.and_then(|wanted| {
            let alone = Capacity {
                compartments: vec![row.clone()],
            };
            let subject = Subject::Compartment(row.id);
            wanted_finding(job, wanted, subject, &[compartment], &alone)
        }));
        rows.push(row);
    }
    let capacity = Capacity { compartments: rows };
    findings.extend(job.liquid.wanted.and_then(|wanted| {
        let holding = compartments.iter().filter(|room| room.holds_liquid());
        let holding: Vec<&Compartment> = holding.collect();
        let subject = Subject::Part(Part::Capacity);
        wanted_finding(job, wanted, subject, &holding, &capacity)
    }));
    (capacity, findings)
}

fn capacity_of(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
    findings: &mut Vec<Finding>,
) -> CompartmentCapacity {
    let brim = Volume::from_m3(compartment.whole().volume);
    let surface = rated_surface(job, panels, all, compartment);
    let below_surface = Volume::from_m3(compartment.below(&surface).volume);
    let of = |service: Service| ports(job, panels, all, compartment, service);
    let draws = of(Service::Draw);
    let outlets = if draws.is_empty() {
        of(Service::Drain)
    } else {
        draws
    };
    let vents = of(Service::Vent);
    let names = |ports: &[Port<'_>]| ports.iter().map(|port| port.opening.name.clone()).collect();
    let mut reached = |ports, turn| match left_by(job, compartment, ports, turn) {
        Ok(left) => left,
        Err(fault) => {
            let (subject, kind) = (
                Subject::Compartment(compartment.id),
                CapacityKind::ReachUnknown(fault),
            );
            findings.push(Finding::of(Grade::Stop, subject, kind));
            None
        }
    };
    let stranded = reached(&outlets, 1.0);
    let trapped = reached(&vents, -1.0);
    // Air that stays in takes the liquid's room.
    let fills_to = trapped.map_or(brim, |air| brim - air);
    let rated = below_surface.min(fills_to);
    CompartmentCapacity {
        id: compartment.id,
        brim,
        rated,
        below_rated_surface: below_surface,
        usable: stranded.map(|left| (rated - left).max(Volume::ZERO)),
        stranded,
        trapped_air: trapped,
        outlets: names(&outlets),
        vents: names(&vents),
    }
}

/// What all of some openings together leave behind at the worst trim: liquid, or air with `turn`
/// below zero. None where there are none.
fn left_by(
    job: &Job,
    compartment: &Compartment,
    ports: &[Port<'_>],
    turn: f64,
) -> Result<Option<Volume>, BooleanFault> {
    if ports.is_empty() {
        return Ok(None);
    }
    let mut worst = 0.0_f64;
    for up in trims_within(job).into_iter().map(|up| up * turn) {
        let rims: Vec<Point3> = ports.iter().map(|port| port.rim(-up)).collect();
        worst = worst.max(drained(&compartment.liquid, up, &rims)?.left);
    }
    Ok(Some(Volume::from_m3(worst)))
}

fn vent_and_outlet_findings(row: &CompartmentCapacity, idle: bool) -> Vec<Finding> {
    let of = |grade, kind| Finding::of(grade, Subject::Compartment(row.id), kind);
    let mut findings = Vec::new();
    if row.vents.is_empty() {
        findings.push(of(Grade::Stop, CapacityKind::NoVent));
    }
    if idle {
        findings.push(of(Grade::Mend, CapacityKind::NeitherFilledNorDrawn));
    } else if row.outlets.is_empty() {
        findings.push(of(Grade::Mend, CapacityKind::NoOutlet));
    }
    let keeps_out = row.rated < row.below_rated_surface;
    if let Some(trapped) = row.trapped_air.filter(|_| keeps_out) {
        let space = row.brim - row.below_rated_surface;
        findings.push(
            of(Grade::Mend, CapacityKind::TrappedAir)
                .figures(Quantity::Volume(trapped), Quantity::Volume(space)),
        );
    }
    findings
}

/// What is wanted of some rooms against what they hold.
fn wanted_finding(
    job: &Job,
    wanted: Wanted,
    subject: Subject,
    rooms: &[&Compartment],
    capacity: &Capacity,
) -> Option<Finding> {
    let have = match wanted.of {
        brimful_job::Capacity::Brim => Some(capacity.brim()),
        brimful_job::Capacity::Rated => Some(capacity.rated()),
        brimful_job::Capacity::Usable => capacity.usable(),
    };
    let Some(have) = have else {
        return Some(Finding::of(Grade::Stop, subject, CapacityKind::NoOutlet));
    };
    // A millilitre more or less is no broken promise.
    let short = have < wanted.volume - Volume::from_litres(0.001);
    let told = |grade, kind| {
        let finding = Finding::of(grade, subject, kind);
        Some(finding.figures(Quantity::Volume(have), Quantity::Volume(wanted.volume)))
    };
    if short {
        return told(Grade::Stop, CapacityKind::BelowWanted(wanted.of));
    }
    let within = sawn_within(job, rooms);
    let of = wanted.of;
    if have - wanted.volume < within {
        return told(Grade::Mend, CapacityKind::NarrowlyWanted { of, within });
    }
    None
}

/// By how much the tank may come out smaller: every size of the cavity by the saw's tolerance, which
/// moves two faces that look at each other together by that much.
fn sawn_within(job: &Job, rooms: &[&Compartment]) -> Volume {
    let area: f64 = rooms.iter().map(|room| room.room.area()).sum();
    Volume::from_m3(area / 2.0 * job.shop.saw_tolerance.m())
}
