//! Rooms that no liquid goes into: said to be dry, or closed by oversight.

use brimful_geom::solid::Solid;
use brimful_job::{Job, Service};
use brimful_panels::finding::kind::PracticeKind;
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::liquid::{Compartment, Holds, dry_room};
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

/// What is wrong with rooms that hold nothing.
pub fn dry_and_closed(job: &Job, panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let mut findings = Vec::new();
    let solids: Vec<&Solid> = compartments.iter().map(|it| &it.room).collect();
    for dry in &job.dry {
        if let Err(rooms) = dry_room(dry, panels, &solids) {
            let between = dry.between.clone();
            let subject = Subject::Part(Part::Panels);
            findings.push(
                Finding::of(Grade::Stop, subject, PracticeKind::NotOneRoom { between })
                    .figures(Quantity::Count(rooms), Quantity::Count(1))
                    .at(&dry.place),
            );
        }
    }
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
