//! What keeps a tank from being filled higher than its strength is checked for.

use brimful_geom::frame::Plane;
use brimful_geom::vector::Vec3;
use brimful_job::{Job, Service};
use brimful_panels::finding::kind::{FillingKind, PracticeKind};
use brimful_panels::finding::{Finding, Grade, Quantity, Subject};
use brimful_panels::liquid::{Compartment, trims};
use brimful_panels::panel::Panel;
use brimful_panels::port::{Port, ports};
use brimful_strength::load::level;
use brimful_units::{Length, Volume};

/// An overflow at the level, by the rounding of its place, m.
const ROUNDING: f64 = 1e-6;

/// For each compartment that is not checked brim-full: the overflow that keeps liquid below the level
/// it is checked for, or that nothing does.
pub fn kept_below(job: &Job, panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let tops = compartments.iter().map(|room| room.heights(Vec3::Z).1);
    let top = tops.fold(f64::NEG_INFINITY, f64::max);
    let Some(level) = level(job, top) else {
        return Vec::new();
    };
    // One that lies wholly below the level or above it is checked brim-full.
    let is_cut = |room: &&Compartment| {
        if !room.holds_liquid() {
            return false;
        }
        let (floor, lid) = room.heights(Vec3::Z);
        floor < level.m() && level.m() < lid
    };
    let each = compartments.iter().filter(is_cut);
    each.map(|room| kept(job, panels, compartments, room, level))
        .collect()
}

fn kept(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    room: &Compartment,
    level: Length,
) -> Finding {
    let of = |service| ports(job, panels, all, room, service);
    let size = |port: &Port<'_>| port.opening.size.hydraulic_diameter();
    let fill = of(Service::Fill)
        .iter()
        .map(|port| port.opening.size.largest())
        .fold(Length::ZERO, Length::max);
    let overflows = of(Service::Overflow);
    let is_large = |port: &&Port<'_>| size(port) >= fill && fill > Length::ZERO;
    let large: Vec<&Port<'_>> = overflows.iter().filter(is_large).collect();
    let checked = below(room, Vec3::Z, level.m() + ROUNDING);
    let ups: Vec<Vec3> = trims(job).into_iter().chain([Vec3::Z]).collect();
    let more = |port: &Port<'_>, ups: &[Vec3]| most_below(room, port, ups) - checked;
    // Each by itself: between two tilts at which one of several keeps it, neither may.
    let least = |ups: &[Vec3]| {
        let each = large.iter().map(|port| (*port, more(port, ups)));
        each.min_by(|(_, a), (_, b)| a.total_cmp(b))
    };
    let is_kept = |found: &(&Port<'_>, Volume)| found.1 <= Volume::ZERO;

    let (_, lid) = room.heights(Vec3::Z);
    let air = Length::from_m(lid) - level;
    let of = |grade, kind| {
        let kind = PracticeKind::Filling(kind);
        Finding::of(grade, Subject::Filling(room.id), kind)
    };
    if let Some((port, _)) = least(&ups).filter(is_kept) {
        let overflow = port.opening.name.clone();
        let (size, fill) = (Quantity::Length(size(port)), Quantity::Length(fill));
        of(Grade::Note, FillingKind::KeptBelow { air, overflow }).figures(size, fill)
    } else if let Some((port, more)) = least(&[Vec3::Z]).filter(is_kept).and_then(|_| least(&ups)) {
        let kind = FillingKind::KeptBelowWhenLevel {
            air,
            overflow: port.opening.name.clone(),
            more,
        };
        of(Grade::Mend, kind)
    } else {
        of(Grade::Mend, FillingKind::NotKeptBelow { air })
    }
}

/// What a compartment takes at most until it runs out of a port, at the worst of some tilts: liquid
/// stands up to the upper edge of one that runs full.
fn most_below(room: &Compartment, port: &Port<'_>, ups: &[Vec3]) -> Volume {
    let taken = ups
        .iter()
        .map(|&up| below(room, up, up.dot(port.rim(up).to_vec())));
    taken.fold(Volume::ZERO, Volume::max)
}

fn below(room: &Compartment, up: Vec3, offset: f64) -> Volume {
    let surface = Plane { normal: up, offset };
    Volume::from_m3(room.below(&surface).volume)
}
