//! The verdict on every example, as a page.

use brimful_job::Job;
use brimful_strength::whole::CaseRun;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_text::{Language, Words};
use std::fmt::Write as _;
use std::path::Path;

const HEAD: &str = "# The examples and their verdicts

What the whole check says of each example: what stops it, by cause, worst first, or what is at its limit; and which load
asks most of the sheet and of the welds, where, and how much of what is allowed that is. Written by
`cargo run --release -p brimful-text --example verdicts > docs/examples.md` and compared by a test.
";

/// The page.
pub fn page() -> String {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples");
    let mut jobs: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of the examples")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.to_string_lossy().ends_with(".job.toml"))
        .collect();
    jobs.sort();
    let texts = jobs.iter().map(|path| of_job(path));
    std::iter::once(HEAD.to_owned())
        .chain(texts)
        .collect::<Vec<_>>()
        .join("\n")
}

fn of_job(path: &Path) -> String {
    let text = std::fs::read_to_string(path).expect("a job file");
    let job = Job::parse(&text).expect("a job");
    let plan = plan(job, Depth::Whole).expect("a plan");
    let words = Words::new(&plan.job, Language::English).with_panels(&plan.panels);
    let verdict = words.verdict(&plan);
    let mut page = format!(
        "## {}\n\n{}\n",
        path.file_name().unwrap_or_default().to_string_lossy(),
        verdict.headline
    );
    for cause in &verdict.causes {
        let _ = writeln!(page, "\n- {}", cause.found);
    }
    if let Some(governing) = governing(&plan, &words) {
        let _ = write!(page, "\n{governing}");
    }
    page
}

/// What asks most of sheet and welds.
fn governing(plan: &Plan, words: &Words<'_>) -> Option<String> {
    let runs = &plan.whole.as_ref()?.cases;
    let most =
        |used: &dyn Fn(&CaseRun) -> f64| runs.iter().max_by(|a, b| used(a).total_cmp(&used(b)));
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
    Some(
        [
            "| of | part | load | stress | allowed | used |\n| --- | --- | --- | --- | --- | --- |\n".to_owned(),
            row(
                "sheet",
                &plan.panels[panel.0].name.to_string(),
                sheet.case.id,
                panel.1.utilisation,
                stress(panel.1.stress),
                sheet.limits.sheet,
            ),
            row(
                "weld",
                &plan.seams[seam.seam].mark,
                weld.case.id,
                seam.utilisation,
                stress(seam.stress),
                weld.limits.weld,
            ),
        ]
        .concat(),
    )
}
