//! `check`: the whole tank on two screens, then every finding.

use super::findings;
use super::layout::{Table, heading, wrapped};
use super::units::Units;
use crate::words;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::weld::hours::total;
use brimful_tank::plan::Plan;
use brimful_units::{Angle, Length, Mass, Time, UnitSystem, show};

/// A bevel of less than a twentieth of a degree is a square edge: no saw is set finer.
const SQUARE: Angle = Angle::from_deg(0.05);

/// The summary and the findings.
pub(crate) fn check(plan: &Plan) -> String {
    [
        title(plan),
        super::summary::summary(plan, &words::of_plan(plan)),
        capacity(plan),
        mass(plan),
        panels(plan),
        seams(plan),
        sheets(plan),
        super::strength::strength(plan),
        room(plan),
        weld(plan),
        defaults(plan),
        findings::all(&plan.findings, &plan.job),
        findings::verdict(plan),
    ]
    .concat()
}

/// The gap before each panel, what takes from it and what is left.
fn room(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let beside: Vec<_> = plan
        .room
        .rows
        .iter()
        .filter_map(|row| Some((row, row.gap.filter(|_| !row.carries)?)))
        .collect();
    if beside.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&[
        "room", ">gap", ">asked", ">growth", ">bulge", ">ribs", ">weld", ">left",
    ]);
    let or_unknown = |length: Option<Length>| {
        length.map_or_else(|| "unknown".to_owned(), |length| units.length(length))
    };
    for (row, gap) in beside {
        table.row([
            plan.panels[row.panel].name.to_string(),
            units.length(gap),
            units.length(row.clearance),
            row.growth.map_or_else(
                || "unknown".to_owned(),
                |[least, greatest]| {
                    format!("{} to {}", units.length(least), units.length(greatest))
                },
            ),
            or_unknown(row.bulge),
            units.length(row.ribs),
            units.length(row.weld),
            or_unknown(row.left),
        ]);
    }
    format!(
        "\n{}{}{}",
        table.text(),
        fittings(plan),
        wrapped("  ", 2, &assumptions(plan))
    )
}

/// What the room about it takes for granted.
fn assumptions(plan: &Plan) -> String {
    let words = words::of_plan(plan);
    let all = plan.room.assumptions.iter();
    let all = all.map(|it| String::from(words.room_assumption(*it)));
    all.collect::<Vec<_>>().join(" ")
}

/// What the tank is, in two lines; every answer begins with it.
pub(super) fn title(plan: &Plan) -> String {
    let about = &plan.job.about;
    let units = Units(about);
    let corners = &plan.body.solid.vertices;
    let span = |along: fn(&brimful_geom::vector::Point3) -> f64| {
        let at = corners.iter().map(along);
        let (low, high) = at.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
        high - low
    };
    let liquid = match &plan.job.liquid.kind {
        Some(kind) => kind.clone(),
        None => show::density(plan.job.liquid.density, about.units),
    };
    let line = format!(
        "{}, {}; {}; outside {}",
        liquid,
        match words::duty(about.duty) {
            "road" => "on the road",
            other => other,
        },
        plan.job.stock.material,
        units.sizes([span(|p| p.x), span(|p| p.y), span(|p| p.z)])
    );
    let mut text = heading(&about.name).trim_start().to_owned();
    text.push_str(&wrapped("", 0, &line));
    if about.units == UnitSystem::Inch {
        let parts = about.fraction.parts();
        text.push_str(&format!(
            "Lengths are rounded to the nearest 1/{parts} in.\n"
        ));
    }
    text
}

pub(super) fn capacity(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&[
        "capacity",
        ">brim",
        ">rated",
        ">usable",
        ">left behind",
        ">trapped air",
        "outlet",
        "vent",
    ]);
    let none = || "none".to_owned();
    let words = words::of_plan(plan);
    for row in &plan.capacity.compartments {
        table.row([
            words.compartment(row.id).into(),
            units.volume(row.brim),
            units.volume(row.rated),
            units.maybe_volume(row.usable),
            units.maybe_volume(row.stranded),
            units.maybe_volume(row.trapped_air),
            row.outlet.clone().unwrap_or_else(none),
            row.vent.clone().unwrap_or_else(none),
        ]);
    }
    if plan.capacity.compartments.len() > 1 {
        table.row([
            "together".to_owned(),
            units.volume(plan.capacity.brim()),
            units.volume(plan.capacity.rated()),
            units.maybe_volume(plan.capacity.usable()),
        ]);
    }
    format!("\n{}", table.text())
}

fn mass(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&["mass", ">liquid", ">in all", ">centre x", ">y", ">z"]);
    let words = words::of_plan(plan);
    for state in &plan.mass.states {
        table.row([
            words.mass_state(state.kind).into(),
            units.volume(state.liquid),
            units.mass(state.mass),
            units.metres(state.centre.x),
            units.metres(state.centre.y),
            units.metres(state.centre.z),
        ]);
    }
    format!("\n{}", table.text())
}

fn panels(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&[
        "panel",
        "name",
        ">sheet",
        ">finished",
        ">as sawn",
        ">sides",
        "edges",
        ">holes",
    ]);
    for panel in &plan.panels {
        table.row([
            panel.mark.clone(),
            panel.name.to_string(),
            units.thickness(panel.thickness),
            size(units, &panel.finished),
            size(units, &panel.cut),
            panel
                .finished
                .loops
                .iter()
                .map(Vec::len)
                .sum::<usize>()
                .to_string(),
            edges(units, panel),
            panel.openings.len().to_string(),
        ]);
    }
    format!("\n{}", table.text())
}

/// The rectangle that covers both faces of a plate.
pub(super) fn size(units: Units<'_>, plate: &brimful_geom::plate::Plate) -> String {
    let (low, high) = plate.bounds();
    units.sizes([high.x - low.x, high.y - low.y])
}

fn edges(units: Units<'_>, panel: &Panel) -> String {
    let sides = panel.finished.loops.iter().flatten();
    let mut bevels: Vec<String> = sides
        .map(|side| Angle::from_rad(side.bevel(panel.thickness.m())).abs())
        .filter(|bevel| *bevel > SQUARE)
        .map(|bevel| units.angle(bevel))
        .collect();
    bevels.sort();
    bevels.dedup();
    match bevels.len() {
        0 => "square".to_owned(),
        _ => format!("bevel {}", bevels.join(", ")),
    }
}

fn seams(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&["seams", ">how many", ">length"]);
    let mut kinds: Vec<&str> = plan.seams.iter().map(|it| words::joint(it.joint)).collect();
    kinds.sort_unstable();
    kinds.dedup();
    for kind in kinds {
        let alike: Vec<&Seam> = plan
            .seams
            .iter()
            .filter(|seam| words::joint(seam.joint) == kind)
            .collect();
        let length: Length = alike.iter().map(|seam| seam.length()).sum();
        table.row([kind.to_owned(), alike.len().to_string(), units.run(length)]);
    }
    format!("\n{}", table.text())
}

fn sheets(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let mut table = Table::new(&[
        ">sheets",
        ">thickness",
        ">least possible",
        ">panels",
        ">left out",
    ]);
    for group in &plan.cut.groups {
        table.row([
            group.plan.layouts.len().to_string(),
            units.thickness(group.thickness),
            group.plan.bound.sheets.to_string(),
            group.blanks.len().to_string(),
            group.plan.left_out.len().to_string(),
        ]);
    }
    format!("\n{}", table.text())
}

/// The hardest worked span of every panel that the quick check covers.
fn weld(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let runs: usize = plan.welds.welds.iter().map(|weld| weld.runs).sum();
    let rod: Mass = plan.welds.rods.iter().map(|rod| rod.mass).sum();
    let length: Length = plan.welds.rods.iter().map(|rod| rod.length).sum();
    let time: Time = total(&plan.welds.hours);
    let line = format!(
        "Welding: {runs} runs, {} of rod ({}), {} of work without sawing; see `brimful weld`.",
        units.run(length),
        units.mass(rod),
        units.time(time)
    );
    format!("\n{}", wrapped("  ", 2, &line))
}

fn defaults(plan: &Plan) -> String {
    let line = format!(
        "Defaults: {} stand in for what the job does not say; the build pack lists them.",
        plan.defaults.len()
    );
    wrapped("  ", 2, &line)
}

/// The room before fittings that have something within half a metre.
fn fittings(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let or = |length: Option<Length>, none: &str| {
        length.map_or_else(|| none.to_owned(), |length| units.length(length))
    };
    let beside = plan.room.fittings.iter();
    let beside: Vec<_> = beside.filter_map(|row| Some((row, row.gap?))).collect();
    if beside.is_empty() {
        return String::new();
    }
    let mut table = Table::new(&["fitting", "on", ">gap", ">stands out", ">left"]);
    for (row, gap) in beside {
        table.row([
            row.name.to_string(),
            plan.panels[row.panel].name.to_string(),
            units.length(gap),
            or(row.stands_out, "not said"),
            match row.goes_through {
                true => "goes through".to_owned(),
                false => or(row.left, "unknown"),
            },
        ]);
    }
    format!("\n{}", table.text())
}
