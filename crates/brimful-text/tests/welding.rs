//! The order of work, cautions and settings in words.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::weld::bench::bench;
use brimful_panels::weld::cautions::Caution;
use brimful_panels::weld::order::Work;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_text::{Language, Text, UnitSystem, Words};

/// A box whose front leans out by atan(100 / 300), 18.4 degrees, with a baffle that hangs first.
const LEANING: &str = r#"
[job]
duty = "standing"
lengths = "mm"
[liquid]
kind = "water"
[body]
side = [[0, 0], [600, 0], [700, 300], [0, 300]]
width = 400
thickness = 8
[[inner]]
name = "screen"
kind = "baffle"
across = "x"
at = 300
"#;

fn planned(text: &str) -> Plan {
    let job = Job::parse(text).unwrap_or_else(|it| panic!("{it:#?}"));
    plan(job, Depth::Quick).unwrap_or_else(|it| panic!("{it:#?}"))
}

fn steps(plan: &Plan, work: Work) -> Vec<String> {
    let words = Words::new(&plan.job, Language::English);
    let steps = plan.order.steps.iter().filter(|step| step.work == work);
    steps.map(|step| words.step(step, plan).into()).collect()
}

#[test]
fn a_panel_is_set_to_the_angle_of_its_seam() {
    let plan = planned(LEANING);
    let tacks = steps(&plan, Work::Tack);
    let of = |name: &str| {
        let start = format!("Tack {name} (");
        let found = tacks.iter().find(|it| it.starts_with(&start));
        found.unwrap_or_else(|| panic!("{name}: {tacks:#?}"))
    };
    assert!(of("left").ends_with("; check that it is square."));
    let front = of("front");
    assert!(front.contains("set it ") && front.contains("to 108.4 deg inside at S"));
    let lid = of("lid");
    assert!(lid.contains("to 71.6 deg inside at S"), "{lid}");
}

#[test]
fn a_hatch_is_named_where_there_is_one() {
    let named = |text: &str| {
        let inside = steps(&planned(text), Work::WeldInside);
        inside.last().unwrap().contains("through the hatches")
    };
    assert!(!named(LEANING));
    // One that lets head and shoulders in.
    let roomy = "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [700, 700, 600]\nthickness = 10\n[[opening]]\nservice = \"hatch\"\npanel = \"lid\"\nat = [350, 350]\ndiameter = 520\n";
    assert!(named(roomy));
}

/// What stands in a text without the mark of the pseudo-locale, in runs of letters.
fn unmarked(text: &Text) -> Vec<String> {
    let mut runs = Vec::new();
    let mut before = ' ';
    let mut run: Option<String> = None;
    for letter in text.as_str().chars().chain([' ']) {
        match (&mut run, letter.is_alphabetic()) {
            (Some(run), true) => run.push(letter),
            (Some(_), false) => runs.extend(run.take()),
            (None, true) if before.is_alphabetic() => {}
            (None, true) if before != '\u{b7}' => run = Some(letter.to_string()),
            (None, _) => {}
        }
        before = letter;
    }
    runs
}

/// Marks of blocks, panels and seams, symbols of units, and the name that the job gives.
const IN_NO_LANGUAGE: [&str; 19] = [
    "A", "P", "S", "mm", "deg", "degC", "degF", "NL", "min", "in", "N", "lbf", "m", "ft", "L",
    "US", "gal", "x", "screen",
];

#[test]
fn every_word_comes_from_a_template() {
    let plan = planned(LEANING);
    for system in [UnitSystem::Metric, UnitSystem::Inch] {
        let words = Words::new(&plan.job, Language::Pseudo).in_units(system);
        let mut said = Vec::new();
        for step in bench(
            &plan.order.steps,
            plan.heat.as_ref(),
            &plan.panels,
            &plan.seams,
            &plan.welds.welds,
            &plan.fixtures.blocks,
        ) {
            said.push(words.bench_title(&step.work, &plan));
            said.push(words.bench_text(&step.work, &plan));
            said.extend(step.prep.iter().map(|&prep| words.prep(prep)));
        }
        for holding in &plan.fixtures.holdings {
            said.extend(words.held_by(holding, &plan));
            said.extend(words.comes_off(holding.step, &plan));
        }
        said.extend(words.holding_rules());
        for stock in &plan.block_stock {
            said.push(words.block_stock(stock, &plan));
        }
        said.extend(words.corners_said(&plan.corners, &plan));
        for caution in Caution::ALL {
            let caution = words.caution(caution);
            said.extend([caution.about, caution.text, caution.source]);
        }
        for setting in &plan.welds.settings {
            said.push(words.setting(setting.quantity));
            said.push(words.setting_range(setting.range));
        }
        for wait in &plan.hours.waits {
            said.push(words.waiting(wait.what));
        }
        for weld in &plan.welds.welds {
            said.push(words.speed_bound(weld.bound));
        }
        for line in &plan.hours.lines {
            said.extend([words.labour(line.what), words.amount(line.amount)]);
            said.push(words.rate(line.amount));
        }
        for weld in &plan.welds.welds {
            said.extend([words.groove(weld.kind), words.weld_side(weld.side)]);
            said.push(words.preparation(weld.preparation));
        }
        for text in &said {
            let foreign: Vec<String> = unmarked(text)
                .into_iter()
                .filter(|run| !IN_NO_LANGUAGE.contains(&run.as_str()))
                .collect();
            assert!(foreign.is_empty(), "{foreign:?} in {text}");
        }
    }
}

/// DVS 2207-3 Supplement 1, draft of March 2013 (seen): 300 to 340 degC, which are 572 to 644 degF.
#[test]
fn a_shop_of_inches_dials_fahrenheit() {
    let plan = planned(LEANING);
    let of = |system| {
        let words = Words::new(&plan.job, Language::English).in_units(system);
        let gas = plan.welds.settings[0].range;
        (words.setting_range(gas).to_string(), words.dialled(gas))
    };
    let (metric, dialled) = of(UnitSystem::Metric);
    assert_eq!(metric, "300 to 340 degC");
    assert_eq!(dialled.1, "degC");
    assert!((dialled.0[0] - 300.0).abs() < 1e-9 && (dialled.0[1] - 340.0).abs() < 1e-9);
    let (inch, dialled) = of(UnitSystem::Inch);
    assert_eq!(inch, "572 to 644 degF");
    assert_eq!(dialled.1, "degF");
}
