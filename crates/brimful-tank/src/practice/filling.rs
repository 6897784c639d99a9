//! What keeps a tank from being filled higher than its strength is checked for.

use crate::check::load::level;
use crate::finding::{Finding, Grade, Quantity};
use crate::liquid::{Compartment, trims};
use crate::panel::Panel;
use crate::port::{Port, ports};
use brimful_geom::frame::Plane;
use brimful_geom::vector::Vec3;
use brimful_job::{Job, Service};
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
    let size = |port: &Port<'_>| port.opening.size.largest();
    let fill = of(Service::Fill)
        .iter()
        .map(size)
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
    let air = Quantity::Length(Length::from_m(lid) - level).text(&job.about);
    let about = format!("filling of the {}", room.id);
    if let Some((port, _)) = least(&ups).filter(is_kept) {
        let name = &port.opening.name;
        let says = format!(
            "Its strength is checked with the topmost {air} empty, which `{name}` keeps so as long as it is open: it takes all that comes in. Plug it for the leak test alone, which is checked brim-full."
        );
        Finding::new(Grade::Note, about, says)
            .figures(Quantity::Length(size(port)), Quantity::Length(fill))
            .source("common practice: an overflow is no smaller than the inlet")
    } else if let Some((port, more)) = least(&[Vec3::Z]).filter(is_kept).and_then(|_| least(&ups)) {
        let name = &port.opening.name;
        let more = Quantity::Volume(more).text(&job.about);
        let says = format!(
            "Its strength is checked with the topmost {air} empty, which is kept so where the tank is filled standing level. Filled at the heel and pitch of its use it takes up to {more} more before `{name}` runs, which stand higher than was checked once it is level again."
        );
        Finding::new(Grade::Mend, about, says)
            .source("geometry: what lies below the upper edge of the overflow, tilted; several are not added up")
            .cure("Put the overflow lower or nearer the middle, until it lets in no more however the tank stands, or make the tank hold brim-full. Until then fill it standing level alone.")
            .entry("[[opening]] service = \"overflow\", or [checks] filled_to = \"brim\"")
    } else {
        let says = format!(
            "Its strength is checked with the topmost {air} empty, and nothing keeps it so: no overflow as large as the fill lies wholly below that level. That it holds hangs on whoever fills it."
        );
        Finding::new(Grade::Mend, about, says)
            .source("common practice: what nothing keeps lower is filled to the brim one day")
            .cure("Put in an overflow, its upper edge at that level or lower and no smaller than the fill, or make the tank hold brim-full.")
            .entry("[[opening]] service = \"overflow\", or [checks] filled_to = \"brim\"")
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
