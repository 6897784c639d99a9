//! What keeps a tank from being filled higher than its strength is checked for.

use crate::check::load::level;
use crate::finding::{Finding, Grade, Quantity};
use crate::job::{Job, Service};
use crate::liquid::Compartment;
use crate::panel::Panel;
use crate::port::{Port, ports};
use brimful_geom::vector::Vec3;
use brimful_units::Length;

/// An overflow at the level, by the rounding of its place.
const ROUNDING: f64 = 1e-6;

/// For each compartment of a tank that is not checked brim-full: the overflow that keeps liquid below
/// the level it is checked for, or that nothing does.
pub fn kept_below(job: &Job, panels: &[Panel], compartments: &[Compartment]) -> Vec<Finding> {
    let tops = compartments.iter().map(|room| room.heights(Vec3::Z).1);
    let top = tops.fold(f64::NEG_INFINITY, f64::max);
    let Some(level) = level(job, top) else {
        return Vec::new();
    };
    let each = compartments.iter();
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
    // Liquid stands up to the upper edge of an overflow that runs full.
    let upper = |port: &Port<'_>| Length::from_m(port.rim(Vec3::Z).z);
    let overflows = of(Service::Overflow);
    let keeps = |port: &&Port<'_>| {
        upper(port).m() <= level.m() + ROUNDING && size(port) >= fill && fill > Length::ZERO
    };
    let (_, lid) = room.heights(Vec3::Z);
    let air = Quantity::Length(Length::from_m(lid) - level).text(&job.about);
    let about = format!("filling of the {}", room.name);
    match overflows.iter().find(keeps) {
        Some(port) => {
            let name = &port.opening.name;
            let says = format!(
                "Its strength is checked with the topmost {air} empty, which `{name}` keeps so as long as it is open: it takes all that comes in. Plug it for the leak test alone, which is checked brim-full."
            );
            Finding::new(Grade::Note, about, says)
                .figures(Quantity::Length(size(port)), Quantity::Length(fill))
                .source("common practice: an overflow is no smaller than the inlet")
        }
        None => {
            let says = format!(
                "Its strength is checked with the topmost {air} empty, and nothing keeps it so: no overflow as large as the fill lies wholly below that level. That it holds hangs on whoever fills it."
            );
            Finding::new(Grade::Mend, about, says)
                .source("common practice: what nothing keeps lower is filled to the brim one day")
                .cure("Put in an overflow, its upper edge at that level or lower and no smaller than the fill, or make the tank hold brim-full.")
                .entry("[[opening]] service = \"overflow\", or [checks] filled_to = \"brim\"")
        }
    }
}
