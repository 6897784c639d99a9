//! Seams, grooves, rod and settings; then the order of work and its hours.

use super::document::{Document, figures, wide, words as column};
use crate::draw::groove::groove_drawing;
use crate::words::{self, Words};
use brimful_job::{Nozzle, Process};
use brimful_tank::plan::Plan;
use brimful_tank::seam::Seam;
use brimful_tank::weld::SeamWeld;
use brimful_tank::weld::hours::total;
use brimful_units::{Length, show};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Welding: grooves, seams, rod");
    document.paragraph(&process(plan, words));
    let grooves = grooves(plan, words);
    draw_grooves(document, plan, &grooves, words);
    seam_list(document, plan, &grooves, words);
    rod(document, plan, words);
    settings(document, plan, words);
    order(document, plan, words);
    hours(document, plan, words);
}

fn process(plan: &Plan, words: &Words<'_>) -> String {
    let shop = &plan.job.shop;
    let how = match (shop.process, shop.nozzle) {
        (Process::HotGas, Nozzle::Speed) => "Hot gas with a speed nozzle",
        (Process::HotGas, Nozzle::Round) => "Hot gas with a round nozzle, fanned by hand",
        (Process::Extrusion, _) => "Hand extruder",
    };
    format!(
        "{how}; sheet and rod of {}. Root gap {}. Scrape both edges just before every run. Sections below are across the seam: light is sheet, dark is what rod fills.",
        plan.job.stock.material,
        words.fine(shop.gap)
    )
}

/// Seams with one section, and its welds.
struct Groove<'a> {
    seams: Vec<usize>,
    welds: Vec<&'a SeamWeld>,
}

/// Seams whose sections are the same figures on paper share a groove.
fn grooves<'a>(plan: &'a Plan, words: &Words<'_>) -> Vec<Groove<'a>> {
    let mut grooves: Vec<Groove<'_>> = Vec::new();
    for (number, seam) in plan.seams.iter().enumerate() {
        let welds: Vec<&SeamWeld> = plan
            .welds
            .welds
            .iter()
            .filter(|weld| weld.seam == number)
            .collect();
        if welds.is_empty() {
            continue;
        }
        let same = |groove: &&mut Groove<'_>| {
            let first = &plan.seams[groove.seams[0]];
            alike(plan, seam, first)
                && groove.welds.len() == welds.len()
                && groove.welds.iter().zip(&welds).all(|(a, b)| {
                    a.kind == b.kind
                        && a.side == b.side
                        && words.text.preparation(a.preparation)
                            == words.text.preparation(b.preparation)
                })
        };
        match grooves.iter_mut().find(same) {
            Some(groove) => groove.seams.push(number),
            None => grooves.push(Groove {
                seams: vec![number],
                welds,
            }),
        }
    }
    grooves
}

fn alike(plan: &Plan, a: &Seam, b: &Seam) -> bool {
    /// Angles that no protractor tells apart, radians.
    const SAME_ANGLE: f64 = 1e-3;
    let thick = |seam: &Seam| {
        let mut both = seam.panels.map(|number| {
            plan.panels
                .get(number)
                .map_or(0.0, |panel| panel.thickness.m())
        });
        both.sort_by(f64::total_cmp);
        both
    };
    std::mem::discriminant(&a.joint) == std::mem::discriminant(&b.joint)
        && (a.angle.rad() - b.angle.rad()).abs() < SAME_ANGLE
        && thick(a) == thick(b)
        && a.is_re_entrant() == b.is_re_entrant()
}

fn draw_grooves(document: &mut Document, plan: &Plan, grooves: &[Groove<'_>], words: &Words<'_>) {
    for (number, groove) in grooves.iter().enumerate() {
        let seam = &plan.seams[groove.seams[0]];
        let marks: Vec<&str> = groove
            .seams
            .iter()
            .map(|number| plan.seams[*number].mark.as_str())
            .collect();
        let thick: Vec<String> = seam
            .panels
            .iter()
            .filter_map(|number| plan.panels.get(*number))
            .map(|panel| words.thickness(panel.thickness))
            .collect();
        let corner = if seam.is_re_entrant() {
            ", inside corner of the body"
        } else {
            ""
        };
        let mut lines = vec![
            format!("Groove G{}: seams {}", number + 1, marks.join(", ")),
            format!(
                "{} of sheets {}, {} between them{corner}.",
                sentence(&words::joint(seam.joint, |_| String::new())),
                thick.join(" and "),
                words.angle(seam.angle.rad())
            ),
        ];
        for weld in &groove.welds {
            lines.push(format!(
                "From {}: {}; {}. Throat {}, {} of rod {}.",
                words.text.weld_side(weld.side),
                words.text.groove(weld.kind),
                words.text.preparation(weld.preparation),
                words.fine(weld.throat),
                runs(weld.runs),
                rod_size(plan, weld.rod, words)
            ));
        }
        document.beside(
            groove_drawing(seam, &plan.panels, &groove.welds, (48.0, 30.0)),
            &lines,
        );
    }
}

fn runs(runs: usize) -> String {
    if runs == 1 {
        "1 run".into()
    } else {
        format!("{runs} runs")
    }
}

fn sentence(joint: &str) -> String {
    let joint = joint.split(" (").next().unwrap_or(joint);
    let mut letters = joint.chars();
    letters.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

fn rod_size(plan: &Plan, rod: usize, words: &Words<'_>) -> String {
    plan.job
        .stock
        .rods
        .get(rod)
        .map_or("-".into(), |rod| words.fine(rod.diameter))
}

fn seam_list(document: &mut Document, plan: &Plan, grooves: &[Groove<'_>], words: &Words<'_>) {
    document.heading("Seams");
    let mark = |number: usize| {
        plan.panels
            .get(number)
            .map_or(String::new(), |panel| panel.mark.clone())
    };
    let mut rows = Vec::new();
    for weld in &plan.welds.welds {
        let Some(seam) = plan.seams.get(weld.seam) else {
            continue;
        };
        let groove = grooves
            .iter()
            .position(|groove| groove.seams.contains(&weld.seam));
        rows.push(vec![
            seam.mark.clone(),
            format!("{} - {}", mark(seam.panels[0]), mark(seam.panels[1])),
            words::joint(seam.joint, mark),
            groove.map_or("-".into(), |groove| format!("G{}", groove + 1)),
            words.text.weld_side(weld.side).into(),
            words.text.groove(weld.kind).into(),
            words.bare(weld.length.m()),
            weld.runs.to_string(),
            plan.job.stock.rods.get(weld.rod).map_or("-".into(), |rod| {
                format!("{} mm", show::decimal(rod.diameter.mm(), 1))
            }),
            words.run(weld.rod_length),
        ]);
    }
    let unit = words.length_unit();
    document.table(
        &[
            column("Seam"),
            column("Panels"),
            wide("Joint"),
            column("Groove"),
            column("From"),
            column("Weld"),
            figures(format!("Length\n({unit})")),
            figures("Runs"),
            figures("Rod"),
            figures("Rod used"),
        ],
        &rows,
    );
    document.paragraph("\"Rod used\" is for all runs of the weld, overfill and waste included. Less rod than this laid in a seam means it was stretched, and stretched rod cracks later.");
}

fn rod(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Rod in all");
    let metres = |length: Length| words.run(length);
    let rows: Vec<Vec<String>> = plan
        .welds
        .rods
        .iter()
        .map(|rod| {
            vec![
                words.fine(rod.diameter),
                metres(rod.length),
                words.mass(rod.mass),
                rod.on_hand.map_or("not said".into(), metres),
            ]
        })
        .collect();
    document.table(
        &[
            column("Rod"),
            figures("Needed"),
            figures("By weight"),
            figures("On hand"),
        ],
        &rows,
    );
}

fn settings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Settings to start from, to be proven on a test piece");
    if plan.welds.settings.is_empty() {
        document.paragraph(
            "No published settings are held for this material and process. Use the makers' own.",
        );
        return;
    }
    let rows: Vec<Vec<String>> = plan
        .welds
        .settings
        .iter()
        .map(|setting| {
            vec![
                words.text.setting(setting.quantity).into(),
                words.text.setting_range(setting.range).into(),
                words.text.source(&setting.source).into(),
            ]
        })
        .collect();
    document.table(&[column("What"), column("Range"), wide("Source")], &rows);
}

fn order(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Order of work");
    document.paragraph("By a fixed rule. Whether gun and hand reach every run is not proven: walk through the steps with the tacked tank before welding, and say so on the record where you go another way.");
    let texts: Vec<String> = plan
        .welds
        .steps
        .iter()
        .enumerate()
        .map(|(number, step)| format!("{}. {}", number + 1, words.text.step(step, plan)))
        .collect();
    document.ticks(&texts);
}

fn hours(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Hours");
    let mut rows: Vec<Vec<String>> = plan
        .welds
        .hours
        .iter()
        .map(|line| {
            vec![
                words.text.labour(line.what).into(),
                words.text.amount(line.amount).into(),
                words.text.rate(line.amount).into(),
                show::time(line.time),
            ]
        })
        .collect();
    rows.push(vec![
        "all together".into(),
        String::new(),
        String::new(),
        show::time(total(&plan.welds.hours)),
    ]);
    document.table(
        &[
            wide("What"),
            figures("How much"),
            figures("At the shop's rate"),
            figures("Time"),
        ],
        &rows,
    );
    document.paragraph("Working time by the shop's own rates (defaults are guesses and are listed); cooling, drying and breaks are not in it.");
}
