//! What the job says of single rooms, and rooms that no liquid goes into: said to be dry, or closed by oversight.

use brimful_geom::solid::Solid;
use brimful_job::{Job, Service};
use brimful_panels::finding::kind::{PracticeKind, RoomSaid};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::liquid::{Compartment, Holds, room_between};
use brimful_panels::panel::Panel;
use brimful_panels::port::ports;

const SERVICES: [Service; 7] = [
    Service::Fill,
    Service::Vent,
    Service::Draw,
    Service::Drain,
    Service::Sender,
    Service::Hatch,
    Service::Overflow,
];

/// What is said of rooms that are none, or twice of one.
pub fn said_of_rooms(job: &Job, panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let solids: Vec<&Solid> = compartments.iter().map(|it| &it.room).collect();
    let dry = job.dry.iter();
    let dry = dry.map(|it| (RoomSaid::Dry, &it.between, &it.place));
    let own = job.compartments.iter();
    let own = own.map(|it| (RoomSaid::Compartment, &it.between, &it.place));
    let mut known: Vec<(usize, RoomSaid)> = Vec::new();
    let mut findings = Vec::new();
    for (said, between, place) in dry.chain(own) {
        let mut tell = |kind, count: usize| {
            let finding = Finding::of(Grade::Stop, Subject::Part(Part::Panels), kind).at(place);
            findings.push(finding.figures(Quantity::Count(count), Quantity::Count(1)));
        };
        let between = between.clone();
        match room_between(&between, panels, &solids) {
            Err(rooms) => tell(PracticeKind::NotOneRoom { between, said }, rooms),
            Ok(room) => match known.iter().find(|(own, _)| *own == room) {
                None => known.push((room, said)),
                // Dry is dry, however often it is said.
                Some((_, RoomSaid::Dry)) if said == RoomSaid::Dry => {}
                Some(&(_, first)) => tell(PracticeKind::RoomSaidTwice { between, first }, 2),
            },
        }
    }
    findings
}

/// What is wrong with rooms that hold nothing.
pub fn dry_and_closed(job: &Job, panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for room in compartments {
        let subject = Subject::Compartment(room.id);
        match room.holds {
            Holds::Liquid => {}
            Holds::Unknown => {
                findings.push(Finding::of(Grade::Stop, subject, PracticeKind::ClosedRoom));
            }
            Holds::Nothing => {
                let kind = dry(job, panels, compartments, room);
                findings.extend(kind.map(|kind| Finding::of(Grade::Stop, subject, kind)));
            }
        }
    }
    findings
}

/// What is wrong with a room that is said to stay dry.
fn dry(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    room: &Compartment,
) -> Option<PracticeKind> {
    let of = |service| ports(job, panels, all, room, service);
    let wet = [Service::Fill, Service::Draw];
    if let Some(port) = wet.into_iter().flat_map(of).next() {
        let opening = port.opening.name.clone();
        return Some(PracticeKind::DryIsFilled { opening });
    }
    let sealed = SERVICES.into_iter().all(|service| of(service).is_empty());
    sealed.then_some(PracticeKind::DrySealed)
}
