//! The pack of our own example jobs: which files, how many pages, the same bytes twice.

use brimful_job::Job;
use brimful_pack::{PackFile, Paper};
use brimful_tank::fit::fit;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_text::Language;
use std::fs;

fn example(name: &str) -> Plan {
    let place = format!(
        "{}/../../examples/{name}.job.toml",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = fs::read_to_string(place).expect("the example is there");
    plan(Job::parse(&text).expect("it can be read"), Depth::Whole).expect("it can be worked out")
}

/// The pack with what fits the space, where the job has one.
fn pack(plan: &Plan, paper: Paper) -> Vec<PackFile> {
    let has_space = plan.job.space.is_some();
    let fit = has_space.then(|| fit(plan.job.clone()).expect("something fits"));
    brimful_pack::pack(plan, fit.as_ref(), paper, Language::English).expect("the pack can be drawn")
}

fn named<'a>(files: &'a [PackFile], name: &str) -> &'a [u8] {
    let found = files.iter().find(|file| file.name == name);
    &found.expect("the pack has this file").bytes
}

/// The page tree of an uncompressed object says how many leaves it has.
fn pages(pdf: &[u8]) -> usize {
    let text = String::from_utf8_lossy(pdf);
    let counts = text.split("/Count ").skip(1).filter_map(|rest| {
        let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
        digits.parse().ok()
    });
    counts.max().unwrap_or(0)
}

#[test]
fn the_pack_of_a_box_has_a_file_for_everything() {
    let plan = example("bench-box");
    let files = pack(&plan, Paper::A4);
    let names: Vec<&str> = files.iter().map(|file| file.name.as_str()).collect();
    for panel in &plan.panels {
        let start = format!("panels/{}-", panel.mark);
        assert_eq!(
            names.iter().filter(|name| name.starts_with(&start)).count(),
            1
        );
    }
    let sheets = names
        .iter()
        .filter(|name| name.starts_with("sheets/"))
        .count();
    assert_eq!(sheets, plan.cut.sheets());
    for name in [
        "build-pack.pdf",
        "panels/P1-rear.dxf",
        "sheets/sheet-1-10mm-2000x1000mm.dxf",
        "tank.step",
        "tank.glb",
        "panels.csv",
        "cuts.csv",
        "seams.csv",
        "welds.csv",
        "strength.csv",
        "gauge.csv",
        "findings.csv",
    ] {
        assert!(!named(&files, name).is_empty(), "{name} is empty");
    }
    let mut sorted = names.clone();
    sorted.sort_unstable();
    sorted.dedup();
    assert_eq!(sorted.len(), names.len(), "two files share a name");
    // A page a panel, a page a sheet, and at least ten others.
    let pdf = named(&files, "build-pack.pdf");
    assert!(pages(pdf) >= plan.panels.len() + plan.cut.sheets() + 10);
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    let plan = example("l-shape");
    assert_eq!(pack(&plan, Paper::A4), pack(&plan, Paper::A4));
}

#[test]
fn both_papers_work_in_both_unit_systems() {
    for name in [
        "frame-rail-sprayer",
        "two-compartment",
        "sloping-floor",
        "camper-bench",
    ] {
        let plan = example(name);
        for (paper, box_text) in [(Paper::A4, "595.27"), (Paper::Letter, "0 0 612")] {
            let files = pack(&plan, paper);
            let pdf = String::from_utf8_lossy(named(&files, "build-pack.pdf")).into_owned();
            assert!(
                pdf.contains("/MediaBox") && pdf.contains(box_text),
                "{name}"
            );
        }
    }
}

#[test]
fn an_inch_job_says_inches_in_its_files() {
    let files = pack(&example("frame-rail-sprayer"), Paper::Letter);
    let panels = String::from_utf8_lossy(named(&files, "panels.csv")).into_owned();
    assert!(panels.contains("thickness (in)"));
    let drawing = files
        .iter()
        .find(|file| file.name.starts_with("panels/"))
        .unwrap();
    let drawing = String::from_utf8_lossy(&drawing.bytes).into_owned();
    assert!(drawing.contains("$INSUNITS\n 70\n1\n"));
    // Cut layers carry no words.
    assert!(!drawing.contains("\nTEXT\n"));
}

/// What warmth does to the sheets is in the deck of a load that has it.
#[test]
fn the_deck_grows_with_its_load() {
    let mut plan = example("shelf-box");
    let deck = |plan: &Plan| {
        let files = pack(plan, Paper::A4);
        String::from_utf8(named(&files, "shell.inp").to_vec()).expect("it is text")
    };
    assert!(!deck(&plan).contains("*EXPANSION"), "rest has no warmth");
    let whole = plan.whole.as_mut().expect("it is checked");
    let picture = whole.picture.as_mut().expect("it has a picture");
    let mut strains = vec![Default::default(); picture.shell.triangles.len()];
    picture.load.initial_strains.append(&mut strains);
    for strain in &mut picture.load.initial_strains {
        strain.stretch = [0.002, 0.002, 0.0];
    }
    assert!(deck(&plan).contains("*EXPANSION\n2.0"));
}
