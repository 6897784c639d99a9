//! The three capacities: brim, rated, usable; and what is stranded and trapped.

use crate::finding::kind::CapacityKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::liquid::{Compartment, trims};
use crate::name::CompartmentId;
use crate::panel::Panel;
use crate::port::{Port, ports};
use brimful_geom::basin::drained;
use brimful_geom::frame::Plane;
use brimful_geom::vector::Vec3;
use brimful_job::{Job, Service};
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
    /// What the outlet takes of the rated volume at the worst trim; none without an outlet.
    pub usable: Option<Volume>,
    /// What the outlet leaves behind at the worst trim; none without an outlet.
    pub stranded: Option<Volume>,
    /// Air that the vent does not let out at the worst trim; none without a vent.
    pub trapped_air: Option<Volume>,
    /// The opening that draws.
    pub outlet: Option<String>,
    /// The opening that vents.
    pub vent: Option<String>,
}

impl Capacity {
    /// Brim capacity of all compartments.
    pub fn brim(&self) -> Volume {
        self.compartments
            .iter()
            .map(|compartment| compartment.brim)
            .sum()
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
    for compartment in compartments {
        let row = capacity_of(job, panels, compartments, compartment, &mut findings);
        findings.extend(vent_and_outlet_findings(&row));
        rows.push(row);
    }
    let capacity = Capacity { compartments: rows };
    findings.extend(wanted_finding(job, compartments, &capacity));
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
    let mut left_by = |ports: &[Port<'_>], turn: f64| -> Option<(String, Volume)> {
        let worst = |port: &Port<'_>| {
            let left = trims(job).into_iter().map(|up| {
                let up = up * turn;
                drained(&compartment.liquid, up, port.rim(-up)).map(|drained| drained.left)
            });
            left.collect::<Result<Vec<f64>, _>>()
                .map(|left| left.into_iter().fold(0.0, f64::max))
        };
        let mut best: Option<(String, f64)> = None;
        for port in ports {
            match worst(port) {
                Ok(left) if best.as_ref().is_none_or(|(_, least)| left < *least) => {
                    best = Some((port.opening.name.clone(), left))
                }
                Ok(_) => {}
                Err(fault) => findings.push(Finding::of(
                    Grade::Stop,
                    Subject::Opening(port.opening.name.clone()),
                    CapacityKind::ReachUnknown(fault),
                )),
            }
        }
        best.map(|(name, left)| (name, Volume::from_m3(left)))
    };
    let stranded = left_by(&outlets, 1.0);
    let trapped = left_by(&vents, -1.0);
    // Air that stays in takes the liquid's room.
    let fills_to = trapped.as_ref().map_or(brim, |(_, air)| brim - *air);
    let rated = below_surface.min(fills_to);
    CompartmentCapacity {
        id: compartment.id,
        brim,
        rated,
        usable: stranded
            .as_ref()
            .map(|(_, left)| (rated - *left).max(Volume::ZERO)),
        outlet: stranded.as_ref().map(|(name, _)| name.clone()),
        stranded: stranded.map(|(_, left)| left),
        vent: trapped.as_ref().map(|(name, _)| name.clone()),
        trapped_air: trapped.map(|(_, left)| left),
        below_rated_surface: below_surface,
    }
}

fn vent_and_outlet_findings(row: &CompartmentCapacity) -> Vec<Finding> {
    let of = |grade, kind| Finding::of(grade, Subject::Compartment(row.id), kind);
    let mut findings = Vec::new();
    if row.vent.is_none() {
        findings.push(of(Grade::Stop, CapacityKind::NoVent));
    }
    if row.outlet.is_none() {
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

fn wanted_finding(job: &Job, compartments: &[Compartment], capacity: &Capacity) -> Option<Finding> {
    let wanted = job.liquid.wanted?;
    let have = match wanted.of {
        brimful_job::Capacity::Brim => Some(capacity.brim()),
        brimful_job::Capacity::Rated => Some(capacity.rated()),
        brimful_job::Capacity::Usable => capacity.usable(),
    };
    let Some(have) = have else {
        let subject = Subject::Part(Part::Capacity);
        return Some(Finding::of(Grade::Stop, subject, CapacityKind::NoOutlet));
    };
    // A millilitre more or less is no broken promise.
    let short = have < wanted.volume - Volume::from_litres(0.001);
    let told = |grade, kind| {
        let finding = Finding::of(grade, Subject::Part(Part::Capacity), kind);
        Some(finding.figures(Quantity::Volume(have), Quantity::Volume(wanted.volume)))
    };
    if short {
        return told(Grade::Stop, CapacityKind::BelowWanted(wanted.of));
    }
    let within = sawn_within(job, compartments);
    let of = wanted.of;
    if have - wanted.volume < within {
        return told(Grade::Mend, CapacityKind::NarrowlyWanted { of, within });
    }
    None
}

/// By how much the tank may come out smaller: every size of the cavity by the saw's tolerance, which
/// moves two faces that look at each other together by that much.
fn sawn_within(job: &Job, compartments: &[Compartment]) -> Volume {
    let area: f64 = compartments.iter().map(|room| room.room.area()).sum();
    Volume::from_m3(area / 2.0 * job.shop.saw_tolerance.m())
}
