//! The whole-tank strength check: pictures, loads, worst places, and what would make it hold.

use super::document::{Document, figures, wide};
use crate::draw::answer::{Shade, answer};
use crate::draw::judged::judged_drawing;
use crate::words::Words;
use brimful_job::Support;
use brimful_panels::table::LoadOrigin;
use brimful_strength::load::heaviest;
use brimful_strength::whole::{CaseRun, SeamFigure, Whole};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::{Length, Pressure};
use std::collections::BTreeSet;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let Some(whole) = plan.whole.as_ref().filter(|whole| !whole.cases.is_empty()) else {
        return;
    };
    document.page(&say!(words, "Strength: the whole tank"));
    document.paragraph(&say!(words, "Every panel as a thin plate, welded to the others along its seams, under each load in turn, with displacements of any size. \"Used\" is stress over what is allowed: above 1 it does not hold."));
    pictures(document, plan, whole, words);
    loads(document, whole, words);
    panels(document, plan, whole, words);
    seams(document, plan, whole, words);
    judged(document, plan, whole, words);
    supports(document, plan, whole, words);
    remedies(document, plan, words);
    document.heading(&say!(words, "What the check takes for granted"));
    document.bullets(&words.strength_assumptions());
    sources(document, whole, words);
}

fn pictures(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let Some(picture) = &whole.picture else {
        return;
    };
    let (width, height) = document.room();
    let room = (width, height * 0.3);
    document.heading(&say!(
        words,
        "How far it moves: {load}",
        load = words.case(picture.case)
    ));
    let length = |metres: f64| words.fine(Length::from_m(metres));
    document.drawing(answer(plan, picture, Shade::Moved, room, length));
    document.heading(&say!(
        words,
        "How much of the sheet\u{2019}s strength is used, same load"
    ));
    let share = |used: f64| words.number(used, 2);
    document.drawing(answer(plan, picture, Shade::Used, room, share));
    document.paragraph(&say!(words, "Bulges are drawn larger than they are. Shades go in six steps; beside each stands its upper bound. Seams are judged by themselves, below."));
}

fn supports(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    document.heading(&say!(
        words,
        "What each support takes: what presses on it as the weight that would, and what it is taken to hold sideways"
    ));
    let rows: Vec<Vec<Text>> = whole
        .on_supports()
        .map(|row| {
            let [at_rest, most, load] = words.pressing(row.pressing);
            let [sideways, friction, left, pushed] = words.held_sideways(&row);
            vec![
                words.bearer(row.support),
                at_rest,
                most,
                load,
                sideways,
                friction,
                left,
                pushed,
            ]
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Support")),
            figures(say!(words, "Brim-full\nat rest")),
            figures(say!(words, "At most")),
            wide(say!(words, "Load")),
            figures(say!(words, "Sideways\nat most")),
            figures(say!(words, "By\nfriction")),
            figures(say!(words, "Not held")),
            wide(say!(words, "Load")),
        ],
        &rows,
    );
    document.paragraph(&words.borne_more());
    if let Some(unknown) = words.borne_unknown(whole) {
        document.notice(&unknown);
    }
    if matches!(plan.job.support, Support::Straps { .. }) {
        document.paragraph(&say!(words, "Of a strap it is the tension."));
    }
}

fn loads(document: &mut Document, whole: &Whole, words: &Words<'_>) {
    let heaviest = heaviest(words.job);
    document.heading(&say!(words, "Loads"));
    let rows: Vec<Vec<Text>> = whole
        .cases
        .iter()
        .map(|run| {
            let figures = &run.figures;
            vec![
                words.case(run.case.id),
                Text::join(
                    [
                        words.time(run.case.duration),
                        words.temperature(run.case.temperature),
                    ],
                    "\n",
                ),
                words.pull(run.case.body_acceleration),
                words.pressure(run.case.overpressure(heaviest)),
                words.stress(run.limits.strictest().modulus),
                Text::join(
                    [
                        words.stress(run.limits.strictest().sheet),
                        words.stress(run.limits.strictest().weld),
                    ],
                    " /\n",
                ),
                words.fine_in_two_lines(Length::from_m(figures.worst_bulge())),
                words.number(figures.worst_panel(), 2),
                used(figures.worst_seam(), words),
                error(run, words),
            ]
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Load")),
            figures(say!(words, "Acts for,\nat")),
            figures(say!(
                words,
                "Pull\nx, y, z\n({unit})",
                unit = words.pull_unit()
            )),
            figures(say!(words, "Over-\npressure")),
            figures(say!(words, "Modulus")),
            figures(say!(words, "Allowed\nsheet / weld")),
            figures(say!(words, "Moves")),
            figures(say!(words, "Panels\nused")),
            figures(say!(words, "Seams\nused")),
            figures(say!(words, "Error\n(%)")),
        ],
        &rows,
    );
    let meshes = whole.meshes.iter().map(|mesh| {
        say!(
            words,
            "{triangles} triangles ({unknowns} unknowns)",
            triangles = mesh.triangles,
            unknowns = mesh.unknowns
        )
    });
    document.paragraph(&say!(
        words,
        "Meshes: {meshes}. The estimated error is that of the greatest use, from two or three meshes; a load that governs nothing was run on the first mesh alone and has none.",
        meshes = Text::join(meshes, ", ")
    ));
}

fn error(run: &CaseRun, words: &Words<'_>) -> Text {
    let off = run.panel_error().max(run.seam_error());
    if off.is_finite() {
        words.number(off * 100.0, 1)
    } else {
        Text::default()
    }
}

fn used(value: f64, words: &Words<'_>) -> Text {
    if value.is_finite() {
        words.number(value, 2)
    } else {
        words.no_number()
    }
}

fn panels(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    document.heading(&say!(
        words,
        "Panels, each with the load that asks most of it"
    ));
    let rows: Vec<Vec<Text>> = (0..plan.panels.len())
        .filter_map(|number| {
            let by = |run: &&CaseRun| run.figures.panels[number].utilisation;
            let run = whole.cases.iter().max_by(|a, b| by(a).total_cmp(&by(b)))?;
            let figure = &run.figures.panels[number];
            let moves = whole.cases.iter().map(|run| {
                let figure = &run.figures.panels[number];
                figure.outward.max(-figure.inward)
            });
            Some(vec![
                words.marked(&plan.panels[number]),
                words.case(run.case.id),
                place(words, figure.stress_at),
                words.stress(Pressure::from_pa(figure.stress)),
                words.stress(run.limits.of_panel(number).sheet),
                words.number(figure.utilisation, 2),
                used(whole.panel_at_most(run, number), words),
                words.fine(Length::from_m(moves.fold(0.0, f64::max))),
            ])
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Panel")),
            wide(say!(words, "Load")),
            figures(say!(
                words,
                "Where x, y, z ({unit})",
                unit = words.length_unit()
            )),
            figures(say!(words, "Stress")),
            figures(say!(words, "Allowed")),
            figures(say!(words, "Used")),
            figures(say!(words, "At\nmost")),
            figures(say!(words, "Moves")),
        ],
        &rows,
    );
    document.paragraph(&say!(words, "At most: what the use may be by the error of the meshes, from two or three of them, or for a load that was run on the first alone by what finer ones added there under other loads."));
}

fn place(words: &Words<'_>, point: brimful_geom::vector::Point3) -> Text {
    Text::join(point.to_array().map(|v| words.bare(v)), ", ")
}

fn seams(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    document.heading(&say!(
        words,
        "Seams, each with the load that asks most of it"
    ));
    let rows: Vec<Vec<Text>> = (0..plan.seams.len())
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
            let [one, other] = plan.seams[seam]
                .panels
                .map(|panel| words.panel(&plan.panels[panel].name));
            let passed = figure.passed;
            Some(vec![
                say!(
                    words,
                    "{mark} {one} to {other}",
                    mark = words.symbol(&plan.seams[seam].mark),
                    one = one,
                    other = other
                ),
                words.case(run.case.id),
                words.line_force(passed.tension),
                words.line_force(passed.along.hypot(passed.across)),
                words.line_moment(passed.moment),
                words.stress(Pressure::from_pa(figure.stress)),
                words.stress(run.limits.of_seam(seam).weld),
                used(figure.utilisation, words),
                used(whole.seam_at_most(run, seam), words),
            ])
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Seam")),
            wide(say!(words, "Load")),
            figures(say!(
                words,
                "Pull\n({unit})",
                unit = words.line_force_unit()
            )),
            figures(say!(
                words,
                "Shear\n({unit})",
                unit = words.line_force_unit()
            )),
            figures(say!(
                words,
                "Bending\n({unit})",
                unit = words.line_moment_unit()
            )),
            figures(say!(words, "Stress")),
            figures(say!(words, "Allowed")),
            figures(say!(words, "Used")),
            figures(say!(words, "At\nmost")),
        ],
        &rows,
    );
    document.paragraph(&say!(words, "By hand: stress = sqrt((pull / d + 6 bending / d²)² + 3 (shear / d)²), with d the depth of the weld: its throats together, at most the thinner sheet. Of a seam welded from one side the bending is about the middle of its throat, and at a root that is pulled open the stress counts twice. Bending is that at the face of the sheet it stands against. Forces are evened out over twice the thinner sheet, or over two cells of the mesh where those are longer."));
}

/// The section at which the most used seam is judged.
fn judged(document: &mut Document, plan: &Plan, whole: &Whole, words: &Words<'_>) {
    let figures = whole.cases.iter().flat_map(|run| &run.figures.seams);
    let Some(most) = figures.max_by(|a, b| a.utilisation.total_cmp(&b.utilisation)) else {
        return;
    };
    let seam = &plan.seams[most.seam];
    let [one, other] = seam.panels.map(|panel| plan.panels[panel].thickness);
    document.beside(
        judged_drawing(one, other, (48.0, 30.0)),
        &[
            say!(
                words,
                "Where a seam is judged, drawn for {mark}.",
                mark = words.symbol(&seam.mark)
            ),
            say!(
                words,
                "The middles of the sheets cross where the shell has its corner. Bending is read at the thick line: at the face of the sheet that the other stands against, half a sheet off that corner. The weld is there as deep as d."
            ),
        ],
    );
}

fn remedies(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let tried = &plan.remedies.tried;
    if tried.is_empty() {
        return;
    }
    document.heading(&say!(words, "Changes that were worked out"));
    let rows: Vec<Vec<Text>> = tried
        .iter()
        .map(|remedy| {
            let (panel, seam, bulge) = match &remedy.score {
                Ok(score) => (
                    words.number(score.panel, 2),
                    used(score.seam, words),
                    words.fine(score.bulge),
                ),
                Err(_) => (say!(words, "none"), Text::default(), Text::default()),
            };
            let adds = |text: &dyn Fn(&brimful_tank::remedy::Adds) -> Text| {
                remedy.adds.as_ref().map_or(Text::default(), text)
            };
            vec![
                words.change(&remedy.change.what),
                words.outcome(remedy),
                panel,
                seam,
                bulge,
                adds(&|adds| words.mass(adds.sheet)),
                adds(&|adds| words.long_length(adds.rod)),
                adds(&|adds| words.number(adds.hours.hours(), 1)),
            ]
        })
        .collect();
    document.table(
        &[
            wide(say!(words, "Change")),
            wide(say!(words, "Holds")),
            figures(say!(words, "Panels\nused")),
            figures(say!(words, "Seams\nused")),
            figures(say!(words, "Moves")),
            figures(say!(words, "Sheet")),
            figures(say!(words, "Rod")),
            figures(say!(words, "Hours")),
        ],
        &rows,
    );
    let reasons: Vec<Text> = tried
        .iter()
        .filter_map(|remedy| {
            let reason = remedy.score.as_ref().err()?;
            let change = words.change(&remedy.change.what);
            Some(Text::join([change, words.no_trial(reason)], " "))
        })
        .collect();
    if !reasons.is_empty() {
        document.paragraph(&say!(words, "These came to no answer:"));
        document.bullets(&reasons);
    }
    document.paragraph(&say!(words, "Each was laid out and run again under the loads that governed, on the first mesh; what holds was run under all that ask for more than half. Sheet, rod and hours are what it adds."));
}

fn sources(document: &mut Document, whole: &Whole, words: &Words<'_>) {
    let sources: BTreeSet<Text> = whole
        .cases
        .iter()
        .flat_map(|run| {
            let origin = words.load_origin(&run.case.origin);
            let own = match &run.case.origin {
                // Its own source says how sure it is.
                LoadOrigin::Event(_) => say!(words, "load: {origin}", origin = origin),
                _ => say!(
                    words,
                    "load: {origin} ({flag})",
                    origin = origin,
                    flag = words.flag(run.case.flag)
                ),
            };
            let limits = run.limits.sources().into_iter();
            limits.map(|source| words.source(source)).chain([own])
        })
        .collect();
    document.heading(&say!(words, "Factors and sources"));
    document.bullets(&sources.into_iter().collect::<Vec<_>>());
}
