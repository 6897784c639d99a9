//! Seams, grooves, rod and settings; then the order of work and its hours.

use super::document::{Document, figures, wide, words as column};
use crate::draw::groove::{Across, groove_drawing};
use crate::draw::picture::while_welding;
use crate::draw::pull_strip::pull_strip_drawing;
use crate::words::Words;
use brimful_job::{Nozzle, Process, Shop};
use brimful_panels::seam::Seam;
use brimful_panels::weld::laying::stretch_limit;
use brimful_panels::weld::order::Work;
use brimful_panels::weld::work::OrderedBy;
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::Length;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Welding: grooves, seams, rod"));
    document.paragraph(&process(plan, words));
    let grooves = grooves(plan, words);
    draw_grooves(document, plan, &grooves, words);
    seam_list(document, plan, &grooves, words);
    run_list(document, plan, words);
    rod(document, plan, words);
    settings(document, plan, words);
    heat(document, plan, words);
    order(document, plan, words);
    hours(document, plan, words);
    pull(document, plan, words);
}

fn process(plan: &Plan, words: &Words<'_>) -> Text {
    let shop = &plan.job.shop;
    let how = match (shop.process, shop.nozzle) {
        (Process::HotGas, Nozzle::Speed) => say!(words, "Hot gas with a speed nozzle"),
        (Process::HotGas, Nozzle::Round) => {
            say!(words, "Hot gas with a round nozzle, fanned by hand")
        }
        (Process::Extrusion, _) => say!(words, "Hand extruder"),
    };
    say!(
        words,
        "{how}; sheet and rod of {material}. Root gap {gap}. Scrape both edges just before every run. Sections below are across the seam: light is sheet, dark are the runs, each as its share of what rod fills, numbered in the order in which they are laid. Weld symbols after ISO 2553, system A, from memory: the full line is for the side that the arrow points to, the dashed line for the other; a is the throat of a fillet, of a groove its depth is given; the tail has the process as DVS abbreviates it (WF hot gas with a round nozzle, WZ with a speed nozzle, WE extrusion).",
        how = how,
        material = words.given(&plan.job.stock.material),
        gap = words.fine(shop.gap)
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
                        && a.process == b.process
                        && a.runs == b.runs
                        && words.preparation(a.preparation) == words.preparation(b.preparation)
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
        let marks = groove.seams.iter().map(|&seam| &plan.seams[seam].mark);
        let panels = seam.panels.iter();
        let panels = panels.filter_map(|&panel| plan.panels.get(panel));
        let thicknesses = panels.map(|panel| words.thickness(panel.thickness));
        let mut lines = vec![
            say!(
                words,
                "Groove {groove}: seams {marks}",
                groove = groove_mark(number, words),
                marks = Text::join(marks.map(|mark| words.symbol(mark)), ", ")
            ),
            section(seam, Text::join(thicknesses, " + "), words),
        ];
        lines.extend(groove.welds.iter().map(|weld| weld_line(plan, weld, words)));
        let across = Across {
            seam,
            panels: &plan.panels,
            welds: &groove.welds,
            process: processes(&plan.job.shop, &groove.welds, words),
        };
        document.beside(groove_drawing(&across, words, (84.0, 54.0)), &lines);
    }
}

/// The codes of the processes of a groove, each once.
fn processes(shop: &Shop, welds: &[&SeamWeld], words: &Words<'_>) -> Text {
    let mut codes: Vec<&str> = welds
        .iter()
        .map(|weld| process_code(shop, weld.process))
        .collect();
    codes.dedup();
    Text::join(codes.into_iter().map(|code| words.symbol(code)), " / ")
}

/// The code of a process in the rules of the German welding society, from memory; the gun beside an extruder has a round nozzle.
fn process_code(shop: &Shop, process: Process) -> &'static str {
    let nozzle = match shop.process {
        Process::HotGas => shop.nozzle,
        Process::Extrusion => Nozzle::Round,
    };
    match (process, nozzle) {
        (Process::HotGas, Nozzle::Speed) => "WZ",
        (Process::HotGas, Nozzle::Round) => "WF",
        (Process::Extrusion, _) => "WE",
    }
}

fn groove_mark(number: usize, words: &Words<'_>) -> Text {
    words.symbol(&format!("G{}", number + 1))
}

fn section(seam: &Seam, sheets: Text, words: &Words<'_>) -> Text {
    let joint = words.joint(seam.joint).capitalised();
    let angle = words.angle(seam.angle);
    if seam.is_re_entrant() {
        say!(
            words,
            "{joint} of sheets {sheets}, {angle} between them, inside corner of the body.",
            joint = joint,
            sheets = sheets,
            angle = angle
        )
    } else {
        say!(
            words,
            "{joint} of sheets {sheets}, {angle} between them.",
            joint = joint,
            sheets = sheets,
            angle = angle
        )
    }
}

fn weld_line(plan: &Plan, weld: &SeamWeld, words: &Words<'_>) -> Text {
    let runs = match weld.runs {
        1 => say!(words, "1 run"),
        runs => say!(words, "{runs} runs", runs = runs),
    };
    let side = words.weld_side(weld.side);
    say!(
        words,
        "From {side}: {groove}; {preparation}. Throat {throat}, {runs} of rod {rod}.",
        side = match weld.process == plan.job.shop.process {
            true => side,
            false => say!(words, "{side}, by hot gas with a round nozzle", side = side),
        },
        groove = words.groove(weld.kind),
        preparation = words.preparation(weld.preparation),
        throat = words.fine(weld.throat),
        runs = runs,
        rod = rod_size(plan, weld.rod, words)
    )
}

fn rod_size(plan: &Plan, rod: usize, words: &Words<'_>) -> Text {
    plan.job
        .stock
        .rods
        .get(rod)
        .map_or_else(|| words.symbol("-"), |rod| words.fine(rod.diameter))
}

fn seam_list(document: &mut Document, plan: &Plan, grooves: &[Groove<'_>], words: &Words<'_>) {
    document.heading(&say!(words, "Seams"));
    let mark = |number: usize| {
        plan.panels
            .get(number)
            .map_or(Text::default(), |panel| words.symbol(&panel.mark))
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
            words.symbol(&seam.mark),
            Text::join(seam.panels.map(mark), " - "),
            words.joint_of(seam, &plan.panels),
            groove.map_or_else(|| words.symbol("-"), |groove| groove_mark(groove, words)),
            words.weld_side(weld.side),
            words.groove(weld.kind),
            words.bare(weld.length.m()),
            Text::from(weld.runs),
            plan.job.stock.rods.get(weld.rod).map_or_else(
                || words.symbol("-"),
                |rod| words.fine_in_two_lines(rod.diameter),
            ),
            words.long_length(weld.rod_length),
        ]);
    }
    let unit = words.length_unit();
    document.table(
        &[
            column(say!(words, "Seam")),
            column(say!(words, "Panels")),
            wide(say!(words, "Joint")),
            column(say!(words, "Groove")),
            column(say!(words, "From")),
            column(say!(words, "Weld")),
            figures(say!(words, "Length\n({unit})", unit = &unit)),
            figures(say!(words, "Runs")),
            figures(say!(words, "Rod")),
            figures(say!(words, "Rod used")),
        ],
        &rows,
    );
}

/// What each run takes, a line for each of those that are alike on paper.
fn run_list(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Each run"));
    let mut rows: Vec<(Vec<Text>, Vec<Text>)> = Vec::new();
    for weld in &plan.welds.welds {
        let Some(seam) = plan.seams.get(weld.seam) else {
            continue;
        };
        let of_rod = |length: Option<Length>| {
            length.map_or_else(|| words.symbol("-"), |it| words.bare(it.m()))
        };
        let run = vec![
            words.weld_side(weld.side),
            Text::from(weld.runs),
            words.bare(weld.length.m()),
            of_rod(weld.run_rod.map(|run| run.cut)),
            of_rod(weld.run_rod.map(|run| run.most_left)),
            words.speed(weld.speed),
            words.speed_bound(weld.bound),
            words.time(weld.run_time()),
        ];
        let mark = words.symbol(&seam.mark);
        match rows.iter_mut().find(|(_, other)| *other == run) {
            Some((marks, _)) if marks.contains(&mark) => {}
            Some((marks, _)) => marks.push(mark),
            None => rows.push((vec![mark], run)),
        }
    }
    let rows: Vec<Vec<Text>> = rows
        .into_iter()
        .map(|(marks, run)| {
            let mut row = vec![Text::join(marks, ", ")];
            row.extend(run);
            row
        })
        .collect();
    let unit = words.length_unit();
    document.table(
        &[
            wide(say!(words, "Seams")),
            column(say!(words, "From")),
            figures(say!(words, "Runs")),
            figures(say!(words, "Length\n({unit})", unit = &unit)),
            figures(say!(words, "Rod\n({unit})", unit = &unit)),
            figures(say!(words, "Left, most\n({unit})", unit = &unit)),
            figures(say!(words, "Speed")),
            column(say!(words, "Set by")),
            figures(say!(words, "A run")),
        ],
        &rows,
    );
    document.paragraph(&match plan.job.shop.process {
        Process::HotGas => say!(words, "Cut the rod of each run to its length under \"Rod\", which has start, end and overlap in it, and measure all that is left over once the run is laid: more than \"Left, most\" means that the run is over {percent} % longer than the rod in it (a training text on hot-gas welding, seen), so stretched. Stretched rod cracks later: cut that run out and lay it again.", percent = words.number(stretch_limit() * 100.0, 0)),
        Process::Extrusion => say!(words, "\"Rod used\" has overfill and overlaps in it. Where the speed is below the shop's own the extruder gives no more melt: push it no faster."),
    });
}

fn rod(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Rod in all"));
    let metres = |length: Length| words.long_length(length);
    let rows: Vec<Vec<Text>> = plan
        .welds
        .rods
        .iter()
        .map(|rod| {
            vec![
                words.fine(rod.diameter),
                metres(rod.length),
                words.mass(rod.mass),
                rod.on_hand.map_or_else(|| words.not_stated(), metres),
                rod.coils.map_or_else(|| words.not_stated(), Text::from),
            ]
        })
        .collect();
    document.table(
        &[
            column(say!(words, "Rod")),
            figures(say!(words, "Needed")),
            figures(say!(words, "By weight")),
            figures(say!(words, "On hand")),
            figures(say!(words, "Coils to buy")),
        ],
        &rows,
    );
    document.paragraph(&match plan.job.shop.process {
        Process::HotGas => say!(words, "Whole rods, each as long as its run, with what starts, ends and overlaps take."),
        Process::Extrusion => say!(words, "What the sections take with the shop's rod factor, the overlap of a restart at each run, and old melt run out at the start of each side."),
    });
}

fn settings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(
        words,
        "Settings to start from, to be proven on a test piece"
    ));
    if plan.welds.settings.is_empty() {
        document.paragraph(&say!(
            words,
            "No published settings are held for this material and process. Use the makers' own."
        ));
        return;
    }
    let rows: Vec<Vec<Text>> = plan
        .welds
        .settings
        .iter()
        .map(|setting| {
            vec![
                words.tool(setting.tool),
                words.setting(setting.quantity),
                words.setting_range(setting.range),
                words.source(&setting.source),
            ]
        })
        .collect();
    document.table(
        &[
            column(say!(words, "With")),
            column(say!(words, "What")),
            column(say!(words, "Range")),
            wide(say!(words, "Source")),
        ],
        &rows,
    );
}

fn heat(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let Some(heat) = &plan.heat else {
        return;
    };
    document.heading(&say!(words, "Heat: how deep it melts, how long it cools"));
    document.paragraph(&words.melted(heat));
    document.paragraph(&words.heat_model());
    let rows: Vec<Vec<Text>> = heat
        .waits
        .iter()
        .map(|wait| {
            vec![
                words.fine(wait.thickness),
                wait.next_run
                    .map_or_else(|| say!(words, "one run"), |time| words.time(time)),
                words.time(wait.clamps),
            ]
        })
        .collect();
    document.table(
        &[
            column(say!(words, "Sheet")),
            figures(say!(words, "Next run after")),
            figures(say!(words, "Clamps off, turn over after")),
        ],
        &rows,
    );
    let sources = heat.sources.iter().map(|it| words.source(it));
    let sources = Text::join(sources, "; ");
    document.paragraph(&say!(words, "From: {sources}.", sources = sources));
}

/// Room for the picture of a step, millimetres: across and up.
const STEP_ROOM: (f64, f64) = (74.0, 46.0);

fn order(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Order of work"));
    document.paragraph(&match plan.order.by {
        OrderedBy::Search => say!(words, "Searched for by reach of gun, hand and arm among what stands at each step. The search has your sizes from the job and nobody's eyes: walk through the steps with the tacked tank before welding, and say so on the record where you go another way."),
        OrderedBy::Maker => say!(words, "The order is the job's own; the findings say what it costs. Reach is worked out with your sizes from the job and nobody's eyes: walk through the steps with the tacked tank before welding, and say so on the record where you go another way."),
        OrderedBy::Rule => say!(words, "By a fixed rule. Whether gun and hand reach every run is not proven: walk through the steps with the tacked tank before welding, and say so on the record where you go another way."),
    });
    if let Some(edges) = words.edges_first(plan) {
        document.notice(&edges);
    }
    document.paragraph(&say!(words, "The pictures show what stands while these runs are laid, the right way up also where the tank is turned over."));
    let mut standing: Vec<usize> = Vec::new();
    for (number, (step, said)) in plan.order.steps.iter().zip(words.steps(plan)).enumerate() {
        let said = say!(words, "{number}. {step}", number = number + 1, step = said);
        if step.work == Work::Set {
            standing.extend(&step.panels);
        }
        let side = match step.work {
            Work::WeldInside => WeldSide::Inside,
            Work::WeldOutside => WeldSide::Outside,
            Work::Set | Work::Tack | Work::Turn => {
                document.ticks(&[said]);
                continue;
            }
        };
        let picture = while_welding(plan, &standing, &step.seams, side, STEP_ROOM);
        document.tick_beside(&said, picture);
    }
}

fn hours(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Hours"));
    let mut rows: Vec<Vec<Text>> = plan
        .hours
        .lines
        .iter()
        .map(|line| {
            vec![
                words.labour(line.what),
                words.amount(line.amount),
                words.rate(line.amount),
                words.working_time(line.time),
            ]
        })
        .collect();
    rows.push(vec![
        say!(words, "all together"),
        Text::default(),
        Text::default(),
        words.working_time(plan.hours.work()),
    ]);
    document.table(
        &[
            wide(say!(words, "What")),
            figures(say!(words, "How much")),
            figures(say!(words, "At the shop's rate")),
            figures(say!(words, "Time")),
        ],
        &rows,
    );
    document.paragraph(&say!(words, "Working time by the shop's own rates (defaults are guesses and are listed); drying and breaks are not in it. Weigh and lift with as many people as it takes, or with a hoist."));
    if plan.hours.waits.is_empty() {
        return;
    }
    let waits = plan.hours.waits.iter();
    let waits = waits.map(|wait| vec![words.waiting(wait.what), words.time(wait.time)]);
    let waits: Vec<Vec<Text>> = waits.collect();
    document.table(
        &[
            wide(say!(words, "Waiting beside it")),
            figures(say!(words, "Time")),
        ],
        &waits,
    );
    document.paragraph(&say!(words, "Waits are what is left once other runs of the same step are laid in that time, one after another; a second welder leaves more of them."));
}

fn pull(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    let Some(pull) = plan.pull() else {
        if plan.whole.is_some() {
            document.heading(&say!(words, "Pull: how far the welds draw it out of flat"));
            document.paragraph(&words.no_pull());
        }
        return;
    };
    document.heading(&say!(words, "Pull: how far the welds draw it out of flat"));
    document.paragraph(&words.drawn_in(&pull.inherent));
    document.paragraph(&words.pull_model());
    let rows: Vec<Vec<Text>> = pull
        .panels
        .iter()
        .map(|bow| {
            let panel = &plan.panels[bow.panel];
            vec![
                words.symbol(&panel.mark),
                words.panel(&panel.name),
                words.bow(bow),
            ]
        })
        .collect();
    let seams: Vec<Vec<Text>> = words
        .seams_off(pull)
        .map(|lean| words.lean_row(plan, lean).to_vec())
        .collect();
    document.table(
        &[
            column(say!(words, "Mark")),
            column(say!(words, "Panel")),
            column(say!(words, "Out of flat")),
        ],
        &rows,
    );
    if !seams.is_empty() {
        document.table(
            &[
                column(say!(words, "Seam")),
                column(say!(words, "Joins")),
                column(say!(words, "Before others hold it")),
                column(say!(words, "In the end")),
                column(say!(words, "After one side")),
                column(say!(words, "Set it beforehand")),
            ],
            &seams,
        );
    }
    for note in words.pull_notes(plan, pull) {
        document.paragraph(&note);
    }
    document.paragraph(&words.source(&pull.inherent.source));
    if let Some(strip) = pull.strip {
        document.paragraph(&words.pull_strip(&strip));
        let width = document.room().0;
        document.drawing(pull_strip_drawing(&strip, words, width));
        document.lines(&[
            say!(words, "Strip before, after"),
            say!(words, "Bow when cold"),
            say!(words, "[shop] pull"),
        ]);
    }
}
