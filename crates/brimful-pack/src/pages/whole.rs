//! The whole-tank strength check: pictures, loads, worst places, and what would make it hold.

use super::document::{Document, figures, wide, words as column};
use crate::draw::answer::{Shade, answer};
use crate::words::Words;
use brimful_job::Support;
use brimful_tank::check::whole::{CaseRun, SeamFigure, Whole};
use brimful_tank::plan::Plan;
use brimful_units::{Length, Pressure, show};
use std::collections::BTreeSet;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let Some(whole) = plan.whole.as_ref().filter(|whole| !whole.cases.is_empty()) else {
        return;
    };
    document.page("Strength: the whole tank");
    document.paragraph("Every panel as a thin plate, welded to the others along its seams, under each load in turn, with displacements of any size. \"Used\" is stress over what is allowed: above 1 it does not hold.");
    pictures(document, plan, whole, words);
    loads(document, plan, whole, words);
    panels(document, plan, whole, words);
    seams(document, plan, whole, words);
    supports(document, plan, whole, words);
    remedies(document, plan, words);
    document.heading("What the check takes for granted");
    document.bullets(&words.text.strength_assumptions());
    sources(document, whole, words);
}

fn pictures(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let Some(picture) = &whole.picture else {
        return;
    };
    let (width, height) = document.room();
    let room = (width, height * 0.3);
    document.heading(&format!(
        "How far it moves: {}",
        words.text.case(picture.case)
    ));
    let length = |metres: f64| words.fine(Length::from_m(metres));
    document.drawing(answer(plan, picture, Shade::Moved, room, length));
    document.heading("How much of the sheet\u{2019}s strength is used, same load");
    let share = |used: f64| show::decimal(used, 2);
    document.drawing(answer(plan, picture, Shade::Used, room, share));
    document.paragraph("Bulges are drawn larger than they are. Shades go in six steps; beside each stands its upper bound. Seams are judged by themselves, below.");
}

fn supports(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let system = plan.job.about.units;
    document.heading("What presses on the supports, as the weight that would");
    let rows: Vec<Vec<String>> = whole
        .on_supports()
        .map(|row| {
            vec![
                words.text.bearer(row.support).into(),
                show::mass(row.at_rest, system),
                show::mass(row.most, system),
                words.text.case(row.load).into(),
            ]
        })
        .collect();
    document.table(
        &[
            wide("Support"),
            figures("Brim-full\nat rest"),
            figures("At most"),
            wide("Load"),
        ],
        &rows,
    );
    if matches!(plan.job.support, Support::Straps { .. }) {
        document.paragraph("Of a strap it is the tension.");
    }
}

fn loads(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let system = plan.job.about.units;
    document.heading("Loads");
    let rows: Vec<Vec<String>> = whole
        .cases
        .iter()
        .map(|run| {
            let [x, y, z] = run.case.pull.to_array().map(|a| show::decimal(a, 2));
            let figures = &run.figures;
            vec![
                words.text.case(run.case.id).into(),
                format!(
                    "{}\n{}",
                    show::time(run.case.duration),
                    show::temperature(run.case.temperature, system)
                ),
                format!("{x}, {y}, {z}"),
                show::pressure(run.case.overpressure, system),
                show::stress(run.limits.modulus, system),
                format!(
                    "{} /\n{}",
                    show::stress(run.limits.sheet, system),
                    show::stress(run.limits.weld, system)
                ),
                words.fine(Length::from_m(figures.worst_bulge())),
                show::decimal(figures.worst_panel(), 2),
                used(figures.worst_seam()),
                error(run),
            ]
        })
        .collect();
    document.table(
        &[
            wide("Load"),
            figures("Acts for,\nat"),
            figures("Pull x, y, z\n(m/s2)"),
            figures("Blown in"),
            figures("Modulus"),
            figures("Allowed\nsheet / weld"),
            figures("Moves"),
            figures("Panels\nused"),
            figures("Seams\nused"),
            figures("Off by\n(%)"),
        ],
        &rows,
    );
    let meshes: Vec<String> = whole
        .meshes
        .iter()
        .map(|mesh| format!("{} triangles ({} unknowns)", mesh.triangles, mesh.unknowns))
        .collect();
    document.paragraph(&format!("Meshes: {}. \"Off by\" is the estimated error of the greatest use, from two or three meshes; a load that governs nothing was run on the first mesh alone and has none.", meshes.join(", ")));
}

fn error(run: &CaseRun) -> String {
    let off = run.panel_error().max(run.seam_error());
    if off.is_finite() {
        show::decimal(off * 100.0, 1)
    } else {
        String::new()
    }
}

fn used(value: f64) -> String {
    if value.is_finite() {
        show::decimal(value, 2)
    } else {
        "no credit".to_owned()
    }
}

fn panels(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let system = plan.job.about.units;
    document.heading("Panels, each with the load that asks most of it");
    let rows: Vec<Vec<String>> = (0..plan.panels.len())
        .filter_map(|number| {
            let by = |run: &&CaseRun| run.figures.panels[number].utilisation;
            let run = whole.cases.iter().max_by(|a, b| by(a).total_cmp(&by(b)))?;
            let figure = &run.figures.panels[number];
            let moves = whole.cases.iter().map(|run| {
                let figure = &run.figures.panels[number];
                figure.outward.max(-figure.inward)
            });
            Some(vec![
                format!(
                    "{} {}",
                    plan.panels[number].mark,
                    words.text.panel(&plan.panels[number].name)
                ),
                words.text.case(run.case.id).into(),
                place(words, figure.stress_at),
                show::stress(Pressure::from_pa(figure.stress), system),
                show::stress(run.limits.sheet, system),
                show::decimal(figure.utilisation, 2),
                words.fine(Length::from_m(moves.fold(0.0, f64::max))),
            ])
        })
        .collect();
    document.table(
        &[
            wide("Panel"),
            wide("Load"),
            figures(format!("Where x, y, z ({})", words.length_unit())),
            figures("Stress"),
            figures("Allowed"),
            figures("Used"),
            figures("Moves"),
        ],
        &rows,
    );
}

fn place(words: &Words<'_>, point: brimful_geom::vector::Point3) -> String {
    [point.x, point.y, point.z]
        .map(|v| words.bare(v))
        .join(", ")
}

fn seams(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let system = plan.job.about.units;
    document.heading("Seams, each with the load that asks most of it");
    let rows: Vec<Vec<String>> = (0..plan.seams.len())
        .filter_map(|seam| {
            let of = |run: &CaseRun| -> Option<SeamFigure> {
                run.figures
                    .seams
                    .iter()
                    .find(|figure| figure.seam == seam)
                    .copied()
            };
            let figures = whole.cases.iter().filter_map(|run| Some((run, of(run)?)));
            let (run, figure) =
                figures.max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation))?;
            let names = plan.seams[seam]
                .panels
                .map(|panel| plan.panels[panel].name.to_string());
            let passed = figure.passed;
            let force = |newtons: f64| show::decimal(newtons / 1000.0, 2);
            Some(vec![
                format!("{} {}", plan.seams[seam].mark, names.join(" to ")),
                words.text.case(run.case.id).into(),
                force(passed.pull),
                force(passed.along.hypot(passed.across)),
                show::decimal(passed.moment, 1),
                if figure.stress.is_finite() {
                    show::stress(Pressure::from_pa(figure.stress), system)
                } else {
                    "root open".to_owned()
                },
                show::stress(run.limits.weld, system),
                used(figure.utilisation),
            ])
        })
        .collect();
    document.table(
        &[
            wide("Seam"),
            wide("Load"),
            figures("Pull\n(kN/m)"),
            figures("Shear\n(kN/m)"),
            figures("Bending\n(N m/m)"),
            figures("Stress"),
            figures("Allowed"),
            figures("Used"),
        ],
        &rows,
    );
    document.paragraph("By hand: stress = sqrt((pull / d + 6 bending / d²)² + 3 (shear / d)²), with d the depth of the weld: its throats together, at most the thinner sheet. Forces are evened out over twice the thinner sheet, or over two cells of the mesh where those are longer.");
}

fn remedies(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let tried = &plan.remedies.tried;
    if tried.is_empty() {
        return;
    }
    document.heading("Changes that were worked out");
    let rows: Vec<Vec<String>> = tried
        .iter()
        .map(|remedy| {
            let (panel, seam, bulge) = match &remedy.score {
                Ok(score) => (
                    show::decimal(score.panel, 2),
                    used(score.seam),
                    words.fine(score.bulge),
                ),
                Err(_) => ("none".to_owned(), String::new(), String::new()),
            };
            let adds = |text: &dyn Fn(&brimful_tank::remedy::Adds) -> String| {
                remedy.adds.as_ref().map_or(String::new(), text)
            };
            vec![
                words.text.change(&remedy.change.what).to_string(),
                if remedy.holds { "yes" } else { "no" }.to_owned(),
                panel,
                seam,
                bulge,
                adds(&|adds| words.mass(adds.sheet)),
                adds(&|adds| show::decimal(adds.rod.m(), 1)),
                adds(&|adds| show::decimal(adds.hours.hours(), 1)),
            ]
        })
        .collect();
    document.table(
        &[
            wide("Change"),
            column("Holds"),
            figures("Panels\nused"),
            figures("Seams\nused"),
            figures("Moves"),
            figures("Sheet"),
            figures("Rod\n(m)"),
            figures("Hours"),
        ],
        &rows,
    );
    let reasons: Vec<String> = tried
        .iter()
        .filter_map(|remedy| {
            let reason = remedy.score.as_ref().err()?;
            let says = words.text.change(&remedy.change.what);
            Some(format!("{says} {}", words.text.no_trial(reason)))
        })
        .collect();
    if !reasons.is_empty() {
        document.paragraph("These came to no answer:");
        document.bullets(&reasons);
    }
    document.paragraph("Each was laid out and run again under the loads that governed, on the first mesh; what holds was run under all that ask for more than half. Sheet, rod and hours are what it adds.");
}

fn sources(document: &mut Document, whole: &Whole, words: &Words<'_>) {
    let sources: BTreeSet<String> = whole
        .cases
        .iter()
        .flat_map(|run| {
            let own = format!(
                "load: {} ({})",
                words.text.load_origin(&run.case.origin),
                words.text.flag(run.case.flag)
            );
            let limits = run.limits.sources.iter();
            limits
                .map(|source| words.text.source(source).to_string())
                .chain([own])
        })
        .collect();
    document.heading("Factors and sources");
    document.bullets(&sources.into_iter().collect::<Vec<_>>());
}
