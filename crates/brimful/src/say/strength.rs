//! Will it hold: the whole-tank check with the quick one beside it, at its worst places.

use super::layout::{Table, wrapped};
use super::units::Units;
use crate::words;
use brimful_strength::quick::SpanCheck;
use brimful_strength::whole::{CaseRun, Whole};
use brimful_tank::plan::Plan;
use brimful_units::{Length, Pressure, show};

/// Seams are many and most are idle: so many of the most used are shown.
const SEAMS_SHOWN: usize = 5;

/// Panels and seams with the load that asks most of them.
pub(super) fn strength(plan: &Plan) -> String {
    match &plan.whole {
        Some(whole) if !whole.cases.is_empty() => [
            panels(plan, whole),
            seams(plan, whole),
            supports(plan, whole),
            done(whole),
        ]
        .concat(),
        _ => quick(plan),
    }
}

fn percent(use_of: f64) -> String {
    if use_of.is_finite() {
        format!("{} %", show::decimal(use_of * 100.0, 0))
    } else {
        "no credit".to_owned()
    }
}

fn panels(plan: &Plan, whole: &Whole) -> String {
    let units = Units(&plan.job.about);
    let words = words::of_plan(plan);
    let mut table = Table::new(&[
        "strength",
        ">of limit",
        ">stress",
        ">allowed",
        ">bulge",
        ">quick check",
        "load",
    ]);
    for (number, panel) in plan.panels.iter().enumerate() {
        let used = |run: &&CaseRun| run.figures.panels[number].utilisation;
        let worst = whole
            .cases
            .iter()
            .max_by(|a, b| used(a).total_cmp(&used(b)));
        let Some(run) = worst else { continue };
        let figure = &run.figures.panels[number];
        let moves = |run: &CaseRun| {
            let figure = &run.figures.panels[number];
            figure.outward.max(-figure.inward)
        };
        let bulge = whole.cases.iter().map(moves).fold(0.0, f64::max);
        table.row([
            format!("{} {}", panel.mark, panel.name),
            percent(figure.utilisation),
            units.stress(Pressure::from_pa(figure.stress)),
            units.stress(run.limits.sheet),
            units.length(Length::from_m(bulge)),
            beside(plan, number),
            words.case(run.case.id).into(),
        ]);
    }
    format!("\n{}", table.text())
}

/// What the quick check says of a panel.
fn beside(plan: &Plan, panel: usize) -> String {
    match worst_span(plan, panel) {
        Some(row) if row.covered => percent(row.utilisation),
        Some(_) => "not covered".to_owned(),
        None => String::new(),
    }
}

fn seams(plan: &Plan, whole: &Whole) -> String {
    let units = Units(&plan.job.about);
    let words = words::of_plan(plan);
    let mut table = Table::new(&[
        "seam",
        "joins",
        ">of limit",
        ">stress",
        ">allowed",
        ">bending",
        "load",
    ]);
    let mut worst: Vec<_> = (0..plan.seams.len())
        .filter_map(|seam| {
            let of = |run: &CaseRun| {
                let own = run.figures.seams.iter().find(|figure| figure.seam == seam);
                own.copied()
                    .map(|figure| (figure, words.case(run.case.id), run.limits.weld))
            };
            let figures = whole.cases.iter().filter_map(of);
            figures.max_by(|a, b| a.0.utilisation.total_cmp(&b.0.utilisation))
        })
        .collect();
    worst.sort_by(|a, b| b.0.utilisation.total_cmp(&a.0.utilisation));
    for (figure, case, allowed) in worst.into_iter().take(SEAMS_SHOWN) {
        let seam = &plan.seams[figure.seam];
        let names = seam.panels.map(|panel| plan.panels[panel].name.to_string());
        table.row([
            seam.mark.clone(),
            names.join(" to "),
            percent(figure.utilisation),
            if figure.stress.is_finite() {
                units.stress(Pressure::from_pa(figure.stress))
            } else {
                "root open".to_owned()
            },
            units.stress(allowed),
            format!("{} N m/m", show::decimal(figure.passed.moment, 1)),
            case.into(),
        ]);
    }
    format!("\n{}", table.text())
}

/// What presses on each support, as the weight that would.
fn supports(plan: &Plan, whole: &Whole) -> String {
    let units = Units(&plan.job.about);
    let words = words::of_plan(plan);
    let mut table = Table::new(&["support", ">full at rest", ">at most", "load"]);
    for row in whole.on_supports() {
        table.row([
            words.bearer(row.support).into(),
            units.mass(row.at_rest),
            units.mass(row.most),
            words.case(row.load).into(),
        ]);
    }
    format!("\n{}", table.text())
}

fn done(whole: &Whole) -> String {
    let meshes: Vec<String> = whole
        .meshes
        .iter()
        .map(|mesh| mesh.triangles.to_string())
        .collect();
    let line = format!(
        "Strength: the whole tank as one shell, {} load cases, large displacements; meshes of {} triangles; the five most used seams are shown.",
        whole.cases.len(),
        meshes.join(", ")
    );
    format!("\n{}", wrapped("  ", 0, &line))
}

fn worst_span(plan: &Plan, panel: usize) -> Option<&SpanCheck> {
    let rows = plan.quick.rows.iter().filter(|row| row.panel == panel);
    // What is not covered is shown first: its figures must not be trusted.
    rows.max_by(|a, b| {
        (!a.covered)
            .cmp(&!b.covered)
            .then(a.utilisation.total_cmp(&b.utilisation))
    })
}

fn quick(plan: &Plan) -> String {
    let units = Units(&plan.job.about);
    let words = words::of_plan(plan);
    let mut table = Table::new(&[
        "quick check",
        ">of limit",
        ">stress",
        ">allowed",
        ">bulge",
        "where",
        "load",
    ]);
    for (number, panel) in plan.panels.iter().enumerate() {
        let Some(row) = worst_span(plan, number) else {
            continue;
        };
        table.row([
            format!("{} {}", panel.mark, words.span(&panel.name, row.span)),
            if row.covered {
                percent(row.utilisation)
            } else {
                "not covered".to_owned()
            },
            units.stress(row.stress),
            units.stress(row.allowable),
            units.length(row.deflection),
            words::governs(row.governs).to_owned(),
            words.case(row.case).into(),
        ]);
    }
    format!("\n{}", table.text())
}
