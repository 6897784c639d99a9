//! A plan said in other units is, to the bit, the plan of the same job written in them.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_tank::plan::{Depth, Plan, plan, reworded};
use brimful_tank::watch::Unwatched;
use brimful_units::UnitSystem;

const STOCK: &str = "[stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = 6\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = 10\n[[stock.rod]]\ndiameter = 4\n";

fn same_in_either(rest: &str, depth: Depth) -> Plan {
    let text = format!(
        "[job]\nlengths = \"mm\"\nunits = \"metric\"\nduty = \"standing\"\n[liquid]\nkind = \"water\"\n{STOCK}{rest}"
    );
    let of = |text: &str| {
        let job = Job::parse(text).unwrap_or_else(|it| panic!("{it:#?}"));
        plan(job, depth).unwrap_or_else(|it| panic!("{it:#?}"))
    };
    let metric = of(&text);
    // As long, so that everything stands in its place.
    let inch = of(&text.replace("\"metric\"", "\"inch\"  "));
    let there = reworded(&metric, UnitSystem::Inch, &Unwatched).unwrap();
    alike(&there, &inch);
    let back = reworded(&there, UnitSystem::Metric, &Unwatched).unwrap();
    alike(&back, &metric);
    inch
}

/// Compared as text, which tells where they differ.
fn alike(found: &Plan, wanted: &Plan) {
    let [found, wanted] = [found, wanted].map(|plan| format!("{plan:#?}"));
    let lines = found.lines().zip(wanted.lines()).enumerate();
    let differ = lines.filter(|(_, (a, b))| a != b).take(5);
    let differ: Vec<_> = differ.collect();
    assert!(
        differ.is_empty() && found.len() == wanted.len(),
        "{differ:#?}"
    );
}

#[test]
fn a_tank_with_remedies_and_rails() {
    let plan = same_in_either(
        "[body]\nbox = [700, 400, 500]\nthickness = 6\n[support]\nkind = \"rails\"\nalong = \"y\"\nat = [100, 600]\nwidth = 60\n",
        Depth::Remedies,
    );
    assert!(!plan.remedies.findings.is_empty());
    let whole = plan.whole.unwrap();
    assert!(whole.supports[0].ends_with(" in"), "{:?}", whole.supports);
    let warm = whole.cases.iter().find(|run| run.case.name.contains("now"));
    assert!(warm.unwrap().case.name.ends_with("degF"));
}

#[test]
fn what_was_chosen() {
    let plan = same_in_either(
        "[body]\nbox = [440, 280, 220]\nthickness = \"auto\"\n",
        Depth::Whole,
    );
    let auto = plan
        .findings
        .iter()
        .find(|it| it.about() == "auto")
        .unwrap();
    assert!(
        auto.says().contains(" in") && !auto.says().contains(" mm"),
        "{}",
        auto.says()
    );
}

/// Sucked at by half an atmosphere it buckles; on rails that are not under it no load has an answer.
#[test]
fn loads_without_an_answer() {
    let body = "[body]\nbox = [700, 400, 300]\nthickness = 6\n";
    let buckles = format!("{body}[checks]\nsuction = \"50 kPa\"\n");
    let plan = same_in_either(&buckles, Depth::Whole);
    assert!(plan.whole.unwrap().unanswered > 0);
    let rails = "[support]\nkind = \"rails\"\nalong = \"y\"\nat = [1100, 1600]\nwidth = 60\n";
    let plan = same_in_either(&format!("{body}{rails}"), Depth::Whole);
    assert!(plan.whole.unwrap().cases.is_empty());
}
