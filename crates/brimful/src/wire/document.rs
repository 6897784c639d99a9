//! What the verbs answer.

use super::{
    cause, cut, finding, fit, gauge, job, pack, panel, room, seam, slosh, strength, way_in, weld,
};
use crate::named_bytes::NamedBytes;
use brimful_panels::finding::Finding;
use brimful_panels::panel::Panel;
use brimful_tank::fit::Fit;
use brimful_tank::plan::Plan;
use brimful_tank::remedy::Remedies;
use brimful_text::Words;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::Path;

/// What every verb but `new` answers. `check` and `pack` give every section, the others those
/// that they are about.
#[derive(Debug, Default, Serialize, JsonSchema)]
pub struct Document {
    /// The job as written, defaults filled in.
    job: job::Job,
    /// Every default used (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    defaults: Option<Vec<job::DefaultUsed>>,
    /// The bodies that fit the space (`fit`).
    #[serde(skip_serializing_if = "Option::is_none")]
    fit: Option<fit::Fit>,
    /// What the tank holds (`check`, `gauge`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    capacity: Option<room::Capacity>,
    /// What it weighs and where its weight sits (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    mass: Option<room::Mass>,
    /// The room about the tank in its space, panel by panel (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    room: Option<Vec<room::PanelRoom>>,
    /// The room before each fitting (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    fitting_room: Option<Vec<room::FittingRoom>>,
    /// How the tank gets in (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    way_in: Option<way_in::TankWayIn>,
    /// All panels (`check`, `cut`, `weld`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    panels: Option<Vec<panel::Panel>>,
    /// All seams (`check`, `weld`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    seams: Option<Vec<seam::Seam>>,
    /// What the strength checks computed (`check`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    strength: Option<strength::Strength>,
    /// The sheet layouts (`check`, `cut`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    cut: Option<cut::Cut>,
    /// Runs, rod, hours and the order of work (`check`, `weld`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    weld: Option<weld::Weld>,
    /// A gauge table a compartment (`check`, `gauge`, `pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    gauge: Option<Vec<gauge::Gauge>>,
    /// How the liquid swings (`slosh`).
    #[serde(skip_serializing_if = "Option::is_none")]
    slosh: Option<slosh::Slosh>,
    /// What is behind the findings: those of one cause together, what stops the build first.
    causes: Vec<cause::Cause>,
    /// What all checks say, worst first.
    findings: Vec<finding::Finding>,
    /// The pack that was written (`pack`).
    #[serde(skip_serializing_if = "Option::is_none")]
    pack: Option<pack::Pack>,
}

/// What `new` answers.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NewJob {
    /// The job file that was written.
    written: String,
}

impl Document {
    /// What fits the space.
    pub(crate) fn fit(fit: &Fit, words: &Words<'_>) -> Self {
        Self {
            job: job::job(&fit.job),
            defaults: Some(job::defaults(&fit.defaults, words)),
            fit: Some(fit::fit(fit, words)),
            ..Self::said(&fit.findings, &Remedies::default(), &[], words)
        }
    }

    /// Everything.
    pub(crate) fn check(plan: &Plan, words: &Words<'_>) -> Self {
        Self {
            defaults: Some(job::defaults(&plan.defaults, words)),
            capacity: Some(room::capacity(plan)),
            mass: Some(room::mass(plan)),
            room: Some(room::kept(plan)),
            fitting_room: Some(room::beside_fittings(plan)),
            way_in: Some(way_in::of_tank(plan.way_in.as_ref(), words)),
            panels: Some(panel::panels(plan)),
            seams: Some(seam::seams(plan)),
            strength: Some(strength::strength(plan, words)),
            cut: Some(cut::cut(plan)),
            weld: Some(weld::weld(plan, words)),
            gauge: Some(gauge::gauges(plan, words)),
            ..Self::framed(plan, words)
        }
    }

    /// The sheet layouts with the panels on them.
    pub(crate) fn cut(plan: &Plan, words: &Words<'_>) -> Self {
        Self {
            panels: Some(panel::panels(plan)),
            cut: Some(cut::cut(plan)),
            ..Self::framed(plan, words)
        }
    }

    /// The welds with the seams and panels they join.
    pub(crate) fn weld(plan: &Plan, words: &Words<'_>) -> Self {
        Self {
            panels: Some(panel::panels(plan)),
            seams: Some(seam::seams(plan)),
            weld: Some(weld::weld(plan, words)),
            ..Self::framed(plan, words)
        }
    }

    /// How the liquid swings, with what is found of that beside what all checks say.
    pub(crate) fn slosh(plan: &Plan, words: &Words<'_>) -> Self {
        let findings = [&plan.findings[..], &plan.slosh().findings].concat();
        Self {
            job: job::job(&plan.job),
            slosh: Some(slosh::slosh(plan, words)),
            ..Self::said(&findings, &plan.remedies, &plan.panels, words)
        }
    }

    /// The gauge tables with the capacities.
    pub(crate) fn gauge(plan: &Plan, words: &Words<'_>) -> Self {
        Self {
            capacity: Some(room::capacity(plan)),
            gauge: Some(gauge::gauges(plan, words)),
            ..Self::framed(plan, words)
        }
    }

    /// Everything, with the files of the pack: as it lies in the pack, which may be moved.
    pub(crate) fn pack(plan: &Plan, words: &Words<'_>, files: &[&NamedBytes]) -> Self {
        Self {
            pack: Some(pack::Pack::new(files)),
            ..Self::check(plan, words)
        }
    }

    /// With the folder that the pack was written to.
    pub(crate) fn written_to(mut self, folder: &str) -> Self {
        if let Some(pack) = &mut self.pack {
            pack.folder = Some(folder.to_owned());
        }
        self
    }

    /// What every answer has: the job and the findings.
    fn framed(plan: &Plan, words: &Words<'_>) -> Self {
        Self {
            job: job::job(&plan.job),
            ..Self::said(&plan.findings, &plan.remedies, &plan.panels, words)
        }
    }

    /// What the checks say, and what is behind it.
    fn said(
        findings: &[Finding],
        remedies: &Remedies,
        panels: &[Panel],
        words: &Words<'_>,
    ) -> Self {
        let told = |one| finding::finding(one, panels, words);
        Self {
            causes: cause::causes(findings, remedies, words),
            findings: findings.iter().map(told).collect(),
            ..Self::default()
        }
    }
}

impl NewJob {
    /// For a job file that was written.
    pub(crate) fn new(file: &Path) -> Self {
        Self {
            written: file.display().to_string(),
        }
    }
}
