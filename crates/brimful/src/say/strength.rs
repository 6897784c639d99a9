//! Will it hold: the whole-tank check with the quick one beside it, at its worst places.

use super::layout::{Table, paragraph};
use brimful_strength::quick::{Governs, SpanCheck};
use brimful_strength::whole::{CaseRun, Whole};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};
use brimful_units::{Length, Pressure};

/// Seams are many and most are idle: so many of the most used are shown.
const SEAMS_SHOWN: usize = 5;

/// Panels and seams with the load that asks most of them.
pub(super) fn strength(plan: &Plan, words: &Words<'_>) -> String {
    match &plan.whole {
        Some(whole) if !whole.cases.is_empty() => [
            panels(plan, words, whole),
            seams(plan, words, whole),
            supports(words, whole),
            done(words, whole),
        ]
        .concat(),
        _ => quick(plan, words),
    }
}

fn percent(words: &Words<'_>, use_of: f64) -> Text {
    if use_of.is_finite() {
        words.percent(use_of)
    } else {
        words.no_number()
    }
}

fn panels(plan: &Plan, words: &Words<'_>, whole: &Whole) -> String {
    let mut table = Table::new(
        words,
        &[
            "strength",
            ">of limit",
            ">stress",
            ">allowed",
            ">bulge",
            ">quick check",
            "load",
        ],
    );
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
            words.marked(panel),
            percent(words, figure.utilisation),
            words.stress(Pressure::from_pa(figure.stress)),
            words.stress(run.limits.of_panel(number).sheet),
            words.length(Length::from_m(bulge)),
            beside(plan, words, number),
            words.case(run.case.id),
        ]);
    }
    format!("\n{}", table.text())
}

/// What the quick check says of a panel.
fn beside(plan: &Plan, words: &Words<'_>, panel: usize) -> Text {
    match worst_span(plan, panel) {
        Some(row) => covered(words, row),
        None => Text::default(),
    }
}

fn covered(words: &Words<'_>, row: &SpanCheck) -> Text {
    match row.covered {
        true => percent(words, row.utilisation),
        false => say!(words, "not covered"),
    }
}

fn seams(plan: &Plan, words: &Words<'_>, whole: &Whole) -> String {
    let mut table = Table::new(
        words,
        &[
            "seam",
            "joins",
            ">of limit",
            ">stress",
            ">allowed",
            ">bending",
            "load",
        ],
    );
    let mut worst: Vec<_> = (0..plan.seams.len())
        .filter_map(|seam| {
            let of = |run: &CaseRun| {
                let own = run.figures.seams.iter().find(|figure| figure.seam == seam);
                own.copied()
                    .map(|figure| (figure, run.case.id, run.limits.of_seam(seam).weld))
            };
            let figures = whole.cases.iter().filter_map(of);
            figures.max_by(|a, b| a.0.utilisation.total_cmp(&b.0.utilisation))
        })
        .collect();
    worst.sort_by(|a, b| b.0.utilisation.total_cmp(&a.0.utilisation));
    for (figure, case, allowed) in worst.into_iter().take(SEAMS_SHOWN) {
        let seam = &plan.seams[figure.seam];
        let [one, other] = seam.panels.map(|it| words.panel(&plan.panels[it].name));
        let moment = words.line_moment(figure.passed.moment);
        table.row([
            words.symbol(&seam.mark),
            say!(words, "{one} to {other}", one = one, other = other),
            percent(words, figure.utilisation),
            words.stress(Pressure::from_pa(figure.stress)),
            words.stress(allowed),
            Text::join([moment, words.line_moment_unit()], " "),
            words.case(case),
        ]);
    }
    format!("\n{}", table.text())
}

/// What each support takes: what presses on it as the weight that would, and what it holds sideways.
fn supports(words: &Words<'_>, whole: &Whole) -> String {
    let heads = [
        "support",
        ">full at rest",
        ">at most",
        "load",
        ">sideways",
        ">by friction",
        ">not held",
        "load",
    ];
    let mut table = Table::new(words, &heads);
    for row in whole.on_supports() {
        let [at_rest, most, load] = words.pressing(row.pressing);
        let [sideways, friction, left, pushed] = words.held_sideways(&row);
        table.row([
            words.bearer(row.support),
            at_rest,
            most,
            load,
            sideways,
            friction,
            left,
            pushed,
        ]);
    }
    let unknown = words.borne_unknown(whole).into_iter();
    let why = [words.borne_more()].into_iter().chain(unknown);
    let why: String = why.map(|it| paragraph(2, 2, &it)).collect();
    format!("\n{}{why}", table.text())
}

fn done(words: &Words<'_>, whole: &Whole) -> String {
    let meshes = whole.meshes.iter().map(|mesh| mesh.triangles.into());
    let line = say!(
        words,
        "Strength: the whole tank as one shell, {loads} load cases, large displacements; meshes of {triangles} triangles; the five most used seams are shown.",
        loads = whole.cases.len(),
        triangles = Text::join(meshes, ", ")
    );
    format!("\n{}", paragraph(2, 2, &line))
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

/// The hardest worked span of every panel that the quick check covers.
fn quick(plan: &Plan, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            "quick check",
            ">of limit",
            ">stress",
            ">allowed",
            ">bulge",
            "where",
            "load",
        ],
    );
    for (number, panel) in plan.panels.iter().enumerate() {
        let Some(row) = worst_span(plan, number) else {
            continue;
        };
        table.row([
            say!(
                words,
                "{mark} {span}",
                mark = words.symbol(&panel.mark),
                span = words.span(&panel.name, row.span)
            ),
            covered(words, row),
            words.stress(row.stress),
            words.stress(row.allowable),
            words.length(row.deflection),
            match row.governs {
                Governs::Sheet => say!(words, "sheet"),
                Governs::Weld => say!(words, "weld"),
            },
            words.case(row.case),
        ]);
    }
    format!("\n{}", table.text())
}
