//! The verdict on every example, as a page.

use brimful_job::Job;
use brimful_strength::limit::Limits;
use brimful_strength::whole::{CaseRun, SeamFigure};
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_text::{Language, Words};
use brimful_units::Length;
use std::fmt::Write as _;
use std::path::Path;

const HEAD: &str = "# The examples and their verdicts

What the whole check says of each example, and of the jobs in `tests/jobs`, which are some of them as they were first asked for:
what stops it, by cause, worst first, or what is at its limit; and which load asks most of the sheet and of the welds, where, and
how much of what is allowed that is. What is allowed is strength x weld factor x repeat factor / (toughness x liquid x safety), with
the values listed; the stress of a weld follows from its pull N, shear V, bending M and depth d as
sqrt((N / d + 6 M / d^2)^2 + 3 (V / d)^2); at the root of a seam welded from outside alone it counts twice, and tongues in slots carry
by their length and in shear. Of the five scenarios S1 is `camper-bench`, S2 `under-bed-arch`, S3 `bilge-wedge`,
S4 `frame-rail-sprayer` and S5 `rain-alcove`. Written by
`cargo run --release -p brimful-text --example verdicts > docs/examples.md` and compared by a test.
";

/// The page.
pub fn page() -> String {
    let examples: Vec<(String, Plan)> = jobs_of("examples");
    let asked_for: Vec<(String, Plan)> = jobs_of("tests/jobs");
    let all = || examples.iter().chain(&asked_for);
    let table: String = all().map(|(name, plan)| summary(name, plan)).collect();
    let table = format!("| job | verdict | used at most |\n| --- | --- | --- |\n{table}");
    let texts = all().map(|(name, plan)| of_plan(name, plan, &[|_| true]));
    [HEAD.to_owned(), table]
        .into_iter()
        .chain(texts)
        .collect::<Vec<_>>()
        .join("\n")
}

/// The jobs of a folder, worked out.
fn jobs_of(folder: &str) -> Vec<(String, Plan)> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(folder);
    let mut jobs: Vec<_> = std::fs::read_dir(path)
        .expect("a folder of jobs")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.to_string_lossy().ends_with(".job.toml"))
        .collect();
    jobs.sort();
    jobs.iter()
        .map(|path| {
            let file = path.file_name().unwrap_or_default().to_string_lossy();
            (format!("{folder}/{file}"), checked(path))
        })
        .collect()
}

/// Some of the loads.
pub type Loads = fn(&CaseRun) -> bool;

/// The whole check of a job file.
pub fn checked(path: &Path) -> Plan {
    let text = std::fs::read_to_string(path).expect("a job file");
    let job = Job::parse(&text).expect("a job");
    plan(job, Depth::Whole).expect("a plan")
}

fn summary(name: &str, plan: &Plan) -> String {
    let words = Words::new(&plan.job, Language::English).with_panels(&plan.panels);
    let used = plan.whole.as_ref().and_then(|whole| whole.score());
    let used = used.map_or("-".to_owned(), |score| {
        format!("{:.0} %", 100.0 * score.panel.max(score.seam))
    });
    format!("| {name} | {} | {used} |\n", words.verdict(plan).headline)
}

/// The verdict on a job, and of each kind of its loads what asks most.
pub fn of_plan(name: &str, plan: &Plan, kinds: &[Loads]) -> String {
    let words = Words::new(&plan.job, Language::English).with_panels(&plan.panels);
    let verdict = words.verdict(plan);
    let mut page = format!("## {name}\n\n{}\n", verdict.headline);
    for cause in &verdict.causes {
        let _ = writeln!(page, "\n- {}", cause.found);
    }
    let (rows, notes): (Vec<String>, Vec<String>) = kinds
        .iter()
        .filter_map(|loads| governing(plan, &words, *loads))
        .unzip();
    if !rows.is_empty() {
        page.push_str("\n| of | part | load | stress | allowed | used |\n| --- | --- | --- | --- | --- | --- |\n");
        page.push_str(&rows.concat());
        page.push_str(&notes.concat());
    }
    page
}

/// What asks most of sheet and welds under some of the loads: rows of the table, and what they follow from.
fn governing(plan: &Plan, words: &Words<'_>, loads: Loads) -> Option<(String, String)> {
    let runs = &plan.whole.as_ref()?.cases;
    let most = |used: &dyn Fn(&CaseRun) -> f64| {
        let runs = runs.iter().filter(|run| loads(run));
        runs.max_by(|a, b| used(a).total_cmp(&used(b)))
    };
    let sheet = most(&|run| run.figures.worst_panel())?;
    let weld = most(&|run| run.figures.worst_seam())?;
    let panel = sheet
        .figures
        .panels
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.utilisation.total_cmp(&b.1.utilisation))?;
    let seam = weld
        .figures
        .seams
        .iter()
        .max_by(|a, b| a.utilisation.total_cmp(&b.utilisation))?;
    let row = |of: &str, part: &str, case, used: f64, stress, allowed| {
        format!(
            "| {of} | {part} | {} | {} | {} | {:.0} % |\n",
            words.case(case),
            words.stress(stress),
            words.stress(allowed),
            100.0 * used
        )
    };
    let stress = brimful_units::Pressure::from_pa;
    let rows = [
        row(
            "sheet",
            &plan.panels[panel.0].name.to_string(),
            sheet.case.id,
            panel.1.utilisation,
            stress(panel.1.stress),
            sheet.limits.of_panel(panel.0).sheet,
        ),
        row(
            "weld",
            &plan.seams[seam.seam].mark,
            weld.case.id,
            seam.utilisation,
            stress(seam.stress),
            weld.limits.of_seam(seam.seam).weld,
        ),
    ];
    let of_sheet = sheet.limits.of_panel(panel.0);
    let of_weld = weld.limits.of_seam(seam.seam);
    let factors = match sheet.case.id == weld.case.id {
        true => factors("sheet and weld", of_weld, words),
        false => factors("sheet", of_sheet, words) + &factors("weld", of_weld, words),
    };
    Some((rows.concat(), by_hand(plan, seam, words) + &factors))
}

/// What the stress of a weld is worked out from.
fn by_hand(plan: &Plan, figure: &SeamFigure, words: &Words<'_>) -> String {
    let seam = &plan.seams[figure.seam];
    let own = plan.welds.welds.iter();
    let own = own.filter(|weld| weld.seam == figure.seam);
    let throats: Length = own.map(|weld| weld.throat).sum();
    let thinner = seam.panels.map(|panel| plan.panels[panel].thickness);
    let depth = throats.min(thinner[0]).min(thinner[1]);
    let passed = figure.passed;
    format!(
        "\nWeld {}: pull {} {force}, shear {} {force}, bending {} {}, {} deep.\n",
        seam.mark,
        words.line_force(passed.tension),
        words.line_force(passed.along.hypot(passed.across)),
        words.line_moment(passed.moment),
        words.line_moment_unit(),
        words.thickness(depth),
        force = words.line_force_unit(),
    )
}

/// What is allowed under a load, factor by factor.
fn factors(of: &str, limits: &Limits, words: &Words<'_>) -> String {
    let sources = limits.sources.iter();
    let values: Vec<String> = sources
        .map(|source| words.sourced_value(&source.value).into())
        .collect();
    format!("\nAllowed in the {of}: {}.\n", values.join("; "))
}
