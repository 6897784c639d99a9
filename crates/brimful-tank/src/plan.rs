//! The whole job, a line a stage.

use crate::body::{Body, body};
use crate::capacity::{Capacity, capacity};
use crate::check::load::{Heads, level};
use crate::check::quick::{Quick, quick};
use crate::check::whole::{Tank, Whole, whole};
use crate::cut::{CutPlan, cut};
use crate::finding::kind::PlanKind;
use crate::finding::{Finding, Grade, Part, Subject};
use crate::gauge::{Gauge, gauges};
use crate::liquid::{Compartment, compartments};
use crate::mass::{MassTable, mass};
use crate::panel::Panel;
use crate::panels::{Proof, panels};
use crate::practice::practice;
use crate::progress::{Progress, Unwatched};
use crate::remedy::{AutoSelection, Remedies, remedies, select};
use crate::room::{self, RoomKept, room_kept};
use crate::seam::Seam;
use crate::shape::{ShapeFault, WholeFault};
use crate::table::material::Material;
use crate::way_in::{TankEntry, of_tank};
use crate::weld::{Welds, welds};
use brimful_job::{DefaultUsed, Job, Place};
use brimful_units::Angle;

/// Everything that is known about a tank before the first cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The job, defaults filled in.
    pub job: Job,
    /// Every default used, the job's and the later stages'.
    pub defaults: Vec<DefaultUsed>,
    /// The outside and the cavity.
    pub body: Body,
    /// All panels.
    pub panels: Vec<Panel>,
    /// All seams.
    pub seams: Vec<Seam>,
    /// The proof that the panels make up the body.
    pub proof: Proof,
    /// The rooms for liquid.
    pub compartments: Vec<Compartment>,
    /// What they hold.
    pub capacity: Capacity,
    /// A gauge table a compartment, level.
    pub gauges: Vec<Gauge>,
    /// The quick strength check, span by span.
    pub quick: Quick,
    /// The whole-tank check; none where only a draft was asked for.
    pub whole: Option<Whole>,
    /// What is left of the room about it, full and warm.
    pub room: RoomKept,
    /// Grooves, rod, hours and order of work.
    pub welds: Welds,
    /// What would make it hold, where it does not.
    pub remedies: Remedies,
    /// What it weighs.
    pub mass: MassTable,
    /// How the sheets are cut.
    pub cut: CutPlan,
    /// How it gets to its place.
    pub way_in: Option<TankEntry>,
    /// What all checks say, worst first.
    pub findings: Vec<Finding>,
}

impl Plan {
    /// Whether a finding stops the build.
    pub fn stops(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.grade == Grade::Stop)
    }
}

/// How surely a tank is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// By published plate coefficients alone: for drafts, and said to be one.
    Quick,
    /// The whole tank as one shell; the quick check stands beside it.
    Whole,
    /// That, and changes worked out that would make it hold where it does not.
    Remedies,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPlan {
    /// Every fault of the job that keeps it from being worked out, with its place.
    Faults(Vec<ShapeFault>),
    /// It is no longer wanted.
    Cancelled,
}

/// Works a job out from end to end.
///
/// # Errors
/// Every fault of the job that keeps it from being worked out, with its place.
pub fn plan(job: Job, depth: Depth) -> Result<Plan, Vec<ShapeFault>> {
    worked_out(selected(job, depth, &Unwatched), depth, &Unwatched)
}

/// As [`plan`], for somebody who waits and may lose interest.
///
/// # Errors
/// [`NoPlan`].
pub fn plan_watched(job: Job, depth: Depth, progress: &dyn Progress) -> Result<Plan, NoPlan> {
    let plan = worked_out(selected(job, depth, progress), depth, progress);
    if progress.is_cancelled() {
        return Err(NoPlan::Cancelled);
    }
    plan.map_err(NoPlan::Faults)
}

/// A plan of [`Depth::Whole`] as one of [`Depth::Remedies`]: nothing but the changes is worked out.
///
/// # Errors
/// It is no longer wanted.
pub fn with_remedies(plan: &Plan, progress: &dyn Progress) -> Result<Plan, NoPlan> {
    let mut plan = plan.clone();
    if let Some(whole) = &plan.whole {
        plan.remedies = remedies(&plan.job, whole, progress);
    }
    if progress.is_cancelled() {
        return Err(NoPlan::Cancelled);
    }
    plan.findings.extend(plan.remedies.findings.iter().cloned());
    plan.findings.sort_by_key(|finding| finding.grade);
    Ok(plan)
}

fn selected(job: Job, depth: Depth, progress: &dyn Progress) -> AutoSelection {
    match depth {
        Depth::Quick => AutoSelection::none(job),
        Depth::Whole | Depth::Remedies => select(job, progress),
    }
}

/// Every stage in turn.
fn worked_out(
    selection: AutoSelection,
    depth: Depth,
    progress: &dyn Progress,
) -> Result<Plan, Vec<ShapeFault>> {
    let whole_job = |fault: WholeFault| vec![ShapeFault::new(&Place::default(), fault)];
    let mut defaults = selection.job.defaults.clone();
    defaults.extend(selection.defaults());
    let auto = selection.finding();
    let job = selection.job;
    let (body, mut findings) = body(&job)?;
    findings.extend(auto);
    defaults.extend(body.defaults.iter().cloned());
    let (laid_out, found) = panels(&job, &body)?;
    findings.extend(found);
    let (panels, seams, proof) = (laid_out.panels, laid_out.seams, laid_out.proof);
    let compartments = compartments(&body, &panels, &seams)
        .map_err(|fault| whole_job(WholeFault::NotDivided(fault)))?;
    let (capacity, found) = capacity(&job, &panels, &compartments);
    findings.extend(found);
    let gauges = gauges(&job, &panels, &compartments, Angle::ZERO, Angle::ZERO);
    let quick = quick(
        &job,
        &panels,
        &seams,
        &Heads::below(
            job.liquid.density,
            &body.cavity,
            level(&job, body.cavity.bounds().1.z),
        ),
    );
    let welds = welds(&job, &panels, &seams);
    findings.extend(welds.findings.iter().cloned());
    let tank = Tank {
        job: &job,
        body: &body,
        panels: &panels,
        seams: &seams,
        compartments: &compartments,
        progress,
    };
    let whole = (depth != Depth::Quick).then(|| whole(&tank, &welds.welds));
    // What the quick check could not cover the whole-tank check does; its verdict is the surer one.
    match &whole {
        Some(whole) => findings.extend(whole.findings.iter().cloned()),
        None => {
            findings.extend(quick.findings.iter().cloned());
            findings.push(draft());
        }
    }
    let about = room::Tank {
        job: &job,
        body: &body,
        panels: &panels,
        seams: &seams,
        welds: &welds.welds,
        quick: &quick,
        whole: whole.as_ref(),
    };
    let ((room, way_in), sawn) = rayon::join(
        || rayon::join(|| room_kept(&about), || of_tank(&job, &body.solid, &panels)),
        || cut(&job, &panels),
    );
    findings.extend(room.findings.iter().cloned());
    let remedies = match &whole {
        Some(whole) if depth == Depth::Remedies => remedies(&job, whole, progress),
        _ => Remedies::default(),
    };
    let sheet = Material::of(&job.stock.material)
        .and_then(Material::density)
        .map_err(|fault| whole_job(WholeFault::NotWeighed(fault)))?;
    let rod = welds.rod_mass_by_seam(seams.len());
    let mass = mass(&job, &panels, &seams, &rod, sheet.value, &compartments);
    let (cut, found) = sawn.map_err(|fault| whole_job(WholeFault::NotLaidOut(fault)))?;
    findings.extend(found);
    findings.extend(practice(
        &job,
        &body.solid,
        way_in.as_ref(),
        &panels,
        &compartments,
        &capacity,
        &mass,
    ));
    findings.extend(remedies.findings.iter().cloned());
    findings.sort_by_key(|finding| finding.grade);
    Ok(Plan {
        job,
        defaults,
        body,
        panels,
        seams,
        proof,
        compartments,
        capacity,
        gauges,
        quick,
        whole,
        room,
        remedies,
        welds,
        mass,
        cut,
        way_in,
        findings,
    })
}

/// That the strength of a draft is not the verdict.
fn draft() -> Finding {
    Finding::of(Grade::Mend, Subject::Part(Part::Strength), PlanKind::Draft)
}
