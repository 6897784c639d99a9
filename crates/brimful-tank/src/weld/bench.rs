//! The order of work as it is followed at the bench: one step a screen, from the test strips to the
//! water test, each with its preparation, its wait and the cautions that belong to it.

use super::Welds;
use super::cautions::{self, Caution};
use super::order::{Step, Work};
use crate::panel::Panel;
use crate::seam::Seam;
use brimful_units::{Time, UnitSystem};

/// How long the last stage of the water test stands: a day, as the leak test says.
const TEST_WAIT: Time = Time::from_hours(24.0);
/// How long test strips cool before they are bent: an hour, common practice.
const COUPON_WAIT: Time = Time::from_hours(1.0);
/// What comes before every run; common practice.
const WELD_PREP: &[&str] = &[
    "Scrape groove and rod just before every run.",
    "Let each run cool until it can be touched before the next.",
];

/// One step at the bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchStep {
    /// The same as long as the step is the same.
    pub id: String,
    /// In a few words.
    pub title: String,
    /// In sentences.
    pub text: String,
    /// What kind of work it is: `test strip`, `set`, `tack`, `weld inside`, `turn`, `weld outside`,
    /// `water test`.
    pub work: &'static str,
    /// Numbers of the panels it is done to.
    pub panels: Vec<usize>,
    /// Numbers of the seams it is done to.
    pub seams: Vec<usize>,
    /// Whether the welding settings are wanted.
    pub welds: bool,
    /// What comes first.
    pub prep: &'static [&'static str],
    /// What has to be waited for after it.
    pub wait: Option<Time>,
    /// What can hurt.
    pub cautions: Vec<Caution>,
}

/// All steps of a tank, told in these units.
pub fn bench(welds: &Welds, panels: &[Panel], seams: &[Seam], units: UnitSystem) -> Vec<BenchStep> {
    let told = |step: BenchStep, about: &[&str]| BenchStep {
        cautions: cautions::cautions(units)
            .into_iter()
            .filter(|caution| about.contains(&caution.about))
            .collect(),
        ..step
    };
    let work = welds.steps.iter().map(|step| {
        let step = of(step, panels, seams);
        let about: &[&str] = match step.welds {
            true => &["hot gas", "fumes", "solvent near heat"],
            false => &["lifting"],
        };
        told(step, about)
    });
    let mut steps = vec![told(coupon(), &["hot gas", "fumes", "coupons first"])];
    steps.extend(work);
    steps.push(told(water_test(), &["pressure", "filling"]));
    // Steps that are alike keep apart by their count.
    for number in 1..steps.len() {
        let (before, now) = steps.split_at_mut(number);
        let stem = now[0].id.clone();
        let again = before.iter().filter(|it| it.id == stem).count();
        if again > 0 {
            now[0].id = format!("{stem}-{}", again + 1);
        }
    }
    steps
}

fn of(step: &Step, panels: &[Panel], seams: &[Seam]) -> BenchStep {
    let (work, title, prep, welds): (_, _, &[&str], _) = match step.work {
        Work::Set => (
            "set",
            "Set",
            &[
                "Scrape every edge that meets another.",
                "Wipe dry; nothing that is still wet with solvent.",
            ],
            false,
        ),
        Work::Tack => ("tack", "Tack", &["Check that it stands square."], true),
        Work::WeldInside => ("weld inside", "Weld inside", WELD_PREP, true),
        Work::Turn => (
            "turn",
            "Turn over",
            &["Clear the bench; lay a clean blanket."],
            false,
        ),
        Work::WeldOutside => ("weld outside", "Weld outside", WELD_PREP, true),
    };
    let marks = step.panels.iter().map(|&it| panels[it].mark.as_str());
    let names: Vec<String> = step
        .panels
        .iter()
        .map(|&it| panels[it].name.to_string())
        .collect();
    let seam_marks = step.seams.iter().map(|&it| seams[it].mark.as_str());
    let parts: Vec<&str> = [work].into_iter().chain(marks).chain(seam_marks).collect();
    BenchStep {
        id: parts.join("-").replace(' ', "-"),
        title: format!("{title} {}", names.join(", "))
            .trim_end()
            .to_owned(),
        text: step.text.clone(),
        work,
        panels: step.panels.clone(),
        seams: step.seams.clone(),
        welds,
        prep,
        wait: None,
        cautions: Vec::new(),
    }
}

fn coupon() -> BenchStep {
    BenchStep {
        id: "test-strip".to_owned(),
        title: "Test strips".to_owned(),
        text: "Weld two off-cuts of the same sheet with the same rod and settings, let them cool, bend them in a vice. They must not part along the weld. Note the settings that worked.".to_owned(),
        work: "test strip",
        panels: Vec::new(),
        seams: Vec::new(),
        welds: true,
        prep: &["Off-cuts of the sheet that is used, not of another."],
        wait: Some(COUPON_WAIT),
        cautions: Vec::new(),
    }
}

fn water_test() -> BenchStep {
    BenchStep {
        id: "water-test".to_owned(),
        title: "Water test".to_owned(),
        text: "Fill with water in the stages of the leak test page. Look at every seam and note the bulge at each stage. Brim-full it stands for a day.".to_owned(),
        work: "water test",
        panels: Vec::new(),
        seams: Vec::new(),
        welds: false,
        prep: &[
            "All welds cold, at best overnight.",
            "On the support it will have, level, with room to see every seam.",
        ],
        wait: Some(TEST_WAIT),
        cautions: Vec::new(),
    }
}
