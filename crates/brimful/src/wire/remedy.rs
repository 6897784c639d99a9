//! Changes that were worked out for a tank that does not hold, as the page offers them.

use super::edits::edits;
use brimful_job::Job;
use brimful_panels::finding::kind::Adds;
use brimful_strength::whole::Score;
use brimful_tank::plan::Plan;
use brimful_text::{Words, change_entry};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// One change, before and after.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Remedy {
    /// What is changed.
    says: String,
    /// Where in a job file it is written.
    entry: &'static str,
    /// Whether the tank bears every load with it, as far as it was tried.
    holds: bool,
    /// Whether it went through everything that is checked of a tank.
    checked: bool,
    /// What stops the build with it that does not without it.
    breaks: Vec<String>,
    before: Option<Comes>,
    /// Null where it could not be worked out; `why` says why.
    after: Option<Comes>,
    why: Option<String>,
    /// What it adds; less than zero where it saves.
    adds: Option<Adds>,
    /// Changes to the file that put it into the job, as a `PATCH` takes them.
    #[schemars(with = "Vec<crate::edit::Edit>")]
    edits: Vec<Value>,
    /// Fittings in walls that it was worked out without; the file keeps them.
    without: Vec<String>,
}

/// What the worst loads come to.
#[derive(Debug, Serialize, JsonSchema)]
struct Comes {
    /// The greatest use of any panel or seam; null where it is no number.
    utilisation: Option<f64>,
    bulge_m: f64,
}

/// All that were tried, cheapest that holds first, for the file of `job`.
pub(crate) fn remedies(plan: &Plan, job: &Job, words: &Words<'_>) -> Vec<Remedy> {
    let before = plan.whole.as_ref().and_then(|whole| whole.score());
    let told = |remedy: &brimful_tank::remedy::Remedy| Remedy {
        says: words.change(&remedy.change.what).into(),
        entry: change_entry(&remedy.change.what),
        holds: remedy.holds,
        checked: remedy.checked,
        breaks: remedy
            .breaks
            .iter()
            .map(|it| words.finding(it).says.into())
            .collect(),
        before: before.as_ref().map(comes),
        after: remedy.score.as_ref().ok().map(comes),
        why: remedy
            .score
            .as_ref()
            .err()
            .map(|why| words.no_trial(why).into()),
        adds: remedy.adds,
        edits: edits(&remedy.change, job),
        without: without(job, &remedy.change.job),
    };
    plan.remedies.tried.iter().map(told).collect()
}

fn comes(score: &Score) -> Comes {
    let used = score.panel.max(score.seam);
    Comes {
        utilisation: used.is_finite().then_some(used),
        bulge_m: score.bulge.m(),
    }
}

/// Openings of `job` that `changed` does without.
fn without(job: &Job, changed: &Job) -> Vec<String> {
    let gone = |name: &&String| {
        !changed
            .openings
            .iter()
            .any(|opening| opening.name == **name)
    };
    let names = job.openings.iter().map(|opening| &opening.name);
    names.filter(gone).cloned().collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use crate::edit::{Edit, edited};
    use brimful_panels::site::Site;
    use brimful_tank::remedy::{What, untried};
    use std::collections::BTreeSet;

    /// Deep, thin, on two rails: every kind of change is worth a trial.
    const METRIC: &str = r#"# ours
[job]
name = "deep"
lengths = "mm"
[body]
box = [900, 500, 800]
thickness = 5 # what is left over
thicknesses = { lid = 4 }
[liquid]
kind = "water"
[[inner]]
name = "the old one"
kind = "baffle"
across = "x"
at = 500
thickness = 5
hole = [{ diameter = 60 }]
[[opening]]
name = "tap"
service = "draw"
panel = "front"
at = [60, 60]
diameter = 30
[support]
kind = "rails"
along = "y"
at = [100, 800]
width = 60
"#;

    fn in_inches() -> String {
        METRIC
            .replace("lengths = \"mm\"", "units = \"inch\"")
            .replace("900, 500, 800", "\"36 in\", \"20 in\", \"32 in\"")
            .replace("thickness = 5", "thickness = \"3/16 in\"")
            .replace("lid = 4", "lid = \"4 mm\"")
            .replace("at = 500", "at = \"20 in\"")
            .replace("diameter = 60", "diameter = \"2 3/8 in\"")
            .replace("[60, 60]", "[\"2 1/2 in\", \"2 1/2 in\"]")
            .replace("diameter = 30", "diameter = \"1 1/4 in\"")
            .replace("[100, 800]", "[\"4 in\", \"32 in\"]")
            .replace("width = 60", "width = \"2 1/2 in\"")
    }

    /// A job without what says only where in its file something stands, and without the fittings
    /// that a trial leaves out.
    fn plain(job: &Job) -> Job {
        let nowhere = brimful_job::Place::default();
        let mut job = job.clone();
        job.defaults.clear();
        job.openings.clear();
        job.inner.iter_mut().for_each(|inner| {
            inner.place = nowhere.clone();
            inner
                .holes
                .iter_mut()
                .for_each(|hole| hole.place = nowhere.clone());
        });
        job.ribs
            .iter_mut()
            .for_each(|rib| rib.place = nowhere.clone());
        if let Some(body) = &mut job.body {
            body.shape = brimful_job::BodyShape::Fitted {
                name: String::new(),
                place: nowhere,
            };
        }
        job.stock
            .sheets
            .iter_mut()
            .for_each(|it| it.place = Default::default());
        job.stock
            .rods
            .iter_mut()
            .for_each(|it| it.place = Default::default());
        job
    }

    /// Without where each is written.
    fn openings(job: &Job) -> Vec<brimful_job::Opening> {
        let plain = |opening: &brimful_job::Opening| brimful_job::Opening {
            place: Default::default(),
            ..opening.clone()
        };
        job.openings.iter().map(plain).collect()
    }

    /// The kinds of change that one is made of.
    fn kinds_of(what: &What) -> Vec<&'static str> {
        match what {
            What::OuterSheets(_) => vec!["outer sheets"],
            What::InnerSheets(_) => vec!["inner sheets"],
            What::Baffles { .. } => vec!["baffles"],
            What::Hatches { .. } => vec!["hatches"],
            What::WithoutBaffles { .. } => vec!["without baffles"],
            What::SlotThrough { .. } => vec!["slot through"],
            What::Bands { .. } => vec!["bands"],
            What::Stays { .. } => vec!["stays"],
            What::Rails(_) => vec!["rails"],
            What::Board => vec!["board"],
            What::LowerFill { .. } => vec!["lower fill"],
            What::Extrusion => vec!["extrusion"],
            What::Clearance(_) => vec!["clearance"],
            What::Both(one, other) => [kinds_of(one), kinds_of(other)].concat(),
        }
    }

    /// Puts every change that is worth a trial on `settled` into `text`; the kinds there were.
    fn put_in(text: &str, settled: &Job) -> BTreeSet<&'static str> {
        let job = Job::parse(text).unwrap();
        let mut kinds = BTreeSet::new();
        let site = Site::of(&settled.clone().into()).unwrap();
        for change in untried(settled, site.as_ref()) {
            let edits = edits(&change, &job);
            let edits: Vec<Edit> = serde_json::from_value(Value::Array(edits)).unwrap();
            let after = edited(text, &edits).unwrap();
            let read = Job::parse(&after);
            let read = read.unwrap_or_else(|faults| panic!("{faults:?}\n{after}"));
            // The same job to the last bit, so the same strength to the last bit.
            assert_eq!(
                plain(&read),
                plain(&change.job),
                "{:?}\n{after}",
                change.what
            );
            match change.job.has_new_openings(&job) {
                true => assert_eq!(openings(&read), openings(&change.job), "{after}"),
                false => {
                    assert_eq!(read.openings.len(), 1, "fittings stay");
                    let left_out = 1 - change.job.openings.len();
                    assert_eq!(without(&job, &change.job).len(), left_out);
                }
            }
            assert!(after.starts_with("# ours"));
            kinds.extend(kinds_of(&change.what));
        }
        kinds
    }

    #[test]
    fn the_edits_of_every_kind_of_change_make_the_job_that_was_tried() {
        for text in [METRIC.to_owned(), in_inches()] {
            let kinds = put_in(&text, &Job::parse(&text).unwrap());
            assert_eq!(kinds.len(), 11, "{kinds:?}");
        }
    }

    /// A body that follows its space is made smaller by the clearance.
    #[test]
    fn the_clearance_of_a_body_that_follows_its_space_is_written() {
        let body = "[body]\nbox = [900, 500, 800]\nthickness = 5 # what is left over\nthicknesses = { lid = 4 }\n";
        let space = "[space]\nbox = [920, 520, 810]\nclearance = 10\n[body]\nfitted = \"plain box\"\nthickness = 5\n";
        assert!(METRIC.contains(body));
        let text = METRIC.replace(body, space);
        let kinds = put_in(&text, &Job::parse(&text).unwrap());
        assert!(kinds.contains("clearance"), "{kinds:?}");
    }

    /// What was chosen for a job is written down with the change, since the change was tried on it.
    #[test]
    fn what_was_chosen_for_a_job_is_written_with_the_change() {
        let open = METRIC
            .replace("thickness = 5 # what", "thickness = \"auto\" # what")
            .replace("across = \"x\"\nat = 500", "at = \"auto\"");
        assert_eq!(open.matches("\"auto\"").count(), 2);
        let kinds = put_in(&open, &Job::parse(METRIC).unwrap());
        assert_eq!(kinds.len(), 11, "{kinds:?}");
    }
}
