//! The whole job, a line a stage.

use crate::cut::angle_block::{BlockStock, block_stock};
use crate::cut::{CutPlan, cut};
use crate::hours::{Hours, Made, hours};
use crate::mass::{MassTable, mass};
use crate::practice::practice;
use crate::remedy::{AutoSelection, Checked, Effort, Remedies, remedies, select};
use crate::room::{self, RoomKept, room_kept};
use crate::slosh::{Slosh, slosh};
use brimful_job::{DefaultUsed, Job};
use brimful_panels::body::{Body, body};
use brimful_panels::capacity::{Capacity, capacity};
use brimful_panels::finding::cause::worst_first;
use brimful_panels::finding::kind::{PlanKind, StrengthKind, WeldKind};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::gauge::{Gauge, gauges};
use brimful_panels::liquid::{Compartment, compartments};
use brimful_panels::panel::Panel;
use brimful_panels::panels::{Panels, Proof, panels};
use brimful_panels::progress::{Progress, Unwatched};
use brimful_panels::seam::Seam;
use brimful_panels::shape::{ShapeFault, WholeFault};
use brimful_panels::site::{Input, Site};
use brimful_panels::table::material::Material;
use brimful_panels::way_in::{TankEntry, of_tank};
use brimful_panels::weld::corner::{self, Corner, Restart, corners, mark_short_runs};
use brimful_panels::weld::fixture::hold::{Fixtures, fixtures};
use brimful_panels::weld::heat::{Heat, heat};
use brimful_panels::weld::own_order;
use brimful_panels::weld::work::{OrderOfWork, draft as draft_order};
use brimful_panels::weld::{Welds, welds, welds_in_order};
use brimful_strength::load::Heads;
use brimful_strength::quick::{Quick, quick};
use brimful_strength::whole::{Pull, Tank, Whole, pull, whole};
use brimful_units::Angle;
use std::sync::{Arc, OnceLock};

/// Everything that is known about a tank before the first cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The job, defaults filled in.
    pub job: Job,
    /// Every default used, the job's and the later stages'.
    pub defaults: Vec<DefaultUsed>,
    /// Where it goes; none where the job gives no space.
    pub site: Option<Arc<Site>>,
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
    /// Grooves, runs and rod.
    pub welds: Welds,
    /// In what order it is set and welded.
    pub order: OrderOfWork,
    /// The heat of the welds, where the sheet melts and is welded by published settings.
    pub heat: Option<Heat>,
    /// What holds each panel while it is tacked and welded.
    pub fixtures: Fixtures,
    /// What its angle blocks are cut from, kind by kind.
    pub block_stock: Vec<BlockStock>,
    /// Where three runs and more meet.
    pub corners: Vec<Corner>,
    /// How a run is stopped and taken up again.
    pub restart: Restart,
    /// As [`Plan::pull`] has worked out.
    pull: OnceLock<Option<Pull>>,
    /// As [`Plan::slosh`] has worked out.
    slosh: OnceLock<Slosh>,
    /// What would make it hold, where it does not.
    pub remedies: Remedies,
    /// What it weighs.
    pub mass: MassTable,
    /// How the sheets are cut.
    pub cut: CutPlan,
    /// Working time, line by line, and the waits beside it.
    pub hours: Hours,
    /// How it gets to its place.
    pub way_in: Option<TankEntry>,
    /// What all checks say, worst first.
    pub findings: Vec<Finding>,
}

impl Plan {
    /// What a fit, or the plan of a changed job, is worked out from without measuring the space again.
    pub fn input(&self) -> Input {
        Input::on(self.job.clone(), self.site.clone())
    }

    /// Whether every part has a verdict: a draft leaves to the whole-tank check what its tables do not
    /// cover.
    pub fn is_checked(&self) -> bool {
        let is_open = |it: &Finding| match &it.kind {
            Kind::Quick(kind) => kind.is_not_checked_yet(),
            Kind::Room(kind) => kind.is_not_checked_yet(),
            _ => false,
        };
        !self.findings.iter().any(is_open)
    }

    /// How far the welds pull the panels out of flat, worked out when first asked for; none in a draft, or where it
    /// cannot be said.
    pub fn pull(&self) -> Option<&Pull> {
        let worked_out = || {
            self.whole.as_ref()?;
            let tank = Tank {
                job: &self.job,
                body: &self.body,
                panels: &self.panels,
                seams: &self.seams,
                compartments: &self.compartments,
                progress: &Unwatched,
            };
            pull(&tank, &self.welds.welds, &self.order.steps)
        };
        self.pull.get_or_init(worked_out).as_ref()
    }

    /// What the liquid does in small waves, worked out when first asked for.
    pub fn slosh(&self) -> &Slosh {
        self.slosh
            .get_or_init(|| slosh(&self.job, &self.panels, &self.seams, &self.compartments))
    }

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
pub fn plan(input: impl Into<Input>, depth: Depth) -> Result<Plan, Vec<ShapeFault>> {
    worked_out(input.into(), depth, &Unwatched)
}

/// As [`plan`], for somebody who waits and may lose interest.
///
/// # Errors
/// [`NoPlan`].
pub fn plan_watched(
    input: impl Into<Input>,
    depth: Depth,
    progress: &dyn Progress,
) -> Result<Plan, NoPlan> {
    let plan = worked_out(input.into(), depth, progress);
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
    let plan = remedied(plan.clone(), progress);
    match progress.is_cancelled() {
        true => Err(NoPlan::Cancelled),
        false => Ok(plan),
    }
}

/// A plan with the changes that would make it hold.
fn remedied(mut plan: Plan, progress: &dyn Progress) -> Plan {
    if let Some(whole) = &plan.whole {
        let check = |job: &Job| all_checks(Input::on(job.clone(), plan.site.clone()), progress);
        let (site, now) = (plan.site.as_ref(), &plan.findings);
        let effort = effort(&plan);
        plan.remedies = remedies(&plan.job, site, whole, now, effort, &check, progress);
    }
    plan.findings.extend(plan.remedies.findings.iter().cloned());
    plan.findings = worst_first(&plan.findings);
    plan
}

/// All that is checked of a changed job.
fn all_checks(input: Input, progress: &dyn Progress) -> Option<Checked> {
    let plan = checked(input, Depth::Whole, progress).ok()?;
    Some(Checked {
        score: plan.whole.as_ref().and_then(Whole::score),
        effort: effort(&plan),
        findings: plan.findings,
    })
}

fn effort(plan: &Plan) -> Effort {
    Effort::of(&plan.welds.rods, plan.hours.work())
}

/// Every stage in turn.
fn worked_out(
    input: Input,
    depth: Depth,
    progress: &dyn Progress,
) -> Result<Plan, Vec<ShapeFault>> {
    let plan = checked(input, depth, progress)?;
    Ok(match depth {
        Depth::Quick | Depth::Whole => plan,
        Depth::Remedies => remedied(plan, progress),
    })
}

/// Every stage up to the findings, without the changes that would mend them.
fn checked(input: Input, depth: Depth, progress: &dyn Progress) -> Result<Plan, Vec<ShapeFault>> {
    let site = Site::of(&input)?;
    let room = site.as_ref().map(|site| &site.room);
    let selection = selected(input.job, site.as_ref(), depth, progress);
    let job = &selection.job;
    let (body, of_body) = body(job, site.as_deref())?;
    let (laid_out, of_panels) = panels(job, &body, room)?;
    let Panels {
        panels,
        seams,
        proof,
    } = laid_out;
    let compartments = compartments(job, &body, &panels, &seams).map_err(WholeFault::NotDivided)?;
    let (capacity, of_capacity) = capacity(job, &panels, &compartments);
    let faults = own_order::faults(job.own_order.as_ref(), &panels);
    if !faults.is_empty() {
        return Err(faults);
    }
    let gauges = gauges(job, &panels, &compartments, Angle::ZERO, Angle::ZERO);
    let quick = quick(job, &panels, &seams, &Heads::in_use(job, &body.cavity));
    let (mut welds, order) = match depth {
        Depth::Quick => {
            let welds = welds(job, &panels, &seams);
            let order = draft_order(job, &panels, &seams, &welds.welds);
            (welds, order)
        }
        Depth::Whole | Depth::Remedies => welds_in_order(job, &panels, &seams),
    };
    let restart = Restart::of(job);
    let corners = corners(&panels, &seams, &welds.welds, &order.steps, &restart);
    mark_short_runs(job, &mut welds.welds, &corners, &seams, &restart);
    let heat = heat(job, &panels, &seams, &welds.welds);
    let tank = Tank {
        job,
        body: &body,
        panels: &panels,
        seams: &seams,
        compartments: &compartments,
        progress,
    };
    let whole = match depth {
        Depth::Quick => None,
        Depth::Whole | Depth::Remedies => Some(whole(&tank, &welds.welds)),
    };
    let fixtures = fixtures(&panels, &seams, &welds.welds, &order.steps, heat.as_ref());
    let about = room::Tank {
        job,
        site: site.as_deref(),
        body: &body,
        panels: &panels,
        seams: &seams,
        welds: &welds.welds,
        quick: &quick,
        whole: whole.as_ref(),
    };
    let entry = || room.and_then(|room| of_tank(job, room, &body.solid, &panels));
    let ((room, way_in), sawn) = rayon::join(
        || rayon::join(|| room_kept(&about), entry),
        || cut(job, &panels),
    );
    let mass = weighed(job, &panels, &seams, &welds, &compartments)?;
    let (cut, of_cut) = sawn.map_err(WholeFault::NotLaidOut)?;
    let hours = hours(&Made {
        job,
        panels: &panels,
        seams: &seams,
        welds: &welds.welds,
        steps: &order.steps,
        fixtures: &fixtures,
        heat: heat.as_ref(),
        cut: &cut,
        empty: mass.empty(),
        rooms: &capacity.brims(),
    });
    let block_stock = block_stock(job, &fixtures.blocks, &cut);
    let of_practice = practice(
        job,
        site.as_deref(),
        &body,
        way_in.as_ref(),
        &panels,
        &compartments,
        &capacity,
        &mass,
    );
    // What the quick check could not cover the whole-tank check does; its verdict is the surer one.
    let of_strength = match &whole {
        Some(whole) => once_if_not_laid(&whole.findings, &welds.findings),
        None => quick.findings.iter().cloned().chain([draft()]).collect(),
    };
    let found = [
        site.as_ref()
            .map_or_else(Vec::new, |site| site.room.findings.clone()),
        of_body,
        selection.finding().into_iter().collect(),
        of_panels,
        of_capacity,
        welds.findings.clone(),
        order.findings.clone(),
        corner::finding(&corners, &seams).into_iter().collect(),
        heat.as_ref().and_then(Heat::finding).into_iter().collect(),
        of_strength,
        room.findings.clone(),
        of_cut,
        of_practice,
    ];
    let findings = worst_first(&found.concat());
    Ok(Plan {
        defaults: [
            job.defaults.clone(),
            selection.defaults(),
            body.defaults.clone(),
        ]
        .concat(),
        job: selection.job,
        site,
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
        remedies: Remedies::default(),
        welds,
        order,
        heat,
        fixtures,
        block_stock,
        corners,
        restart,
        pull: OnceLock::new(),
        slosh: OnceLock::new(),
        mass,
        cut,
        hours,
        way_in,
        findings,
    })
}

/// What was found of the strength, but of seams of which no run can be laid: they have none, and the weld stage
/// says why.
fn once_if_not_laid(of_strength: &[Finding], of_welds: &[Finding]) -> Vec<Finding> {
    let not_laid = |mark: &String| {
        of_welds.iter().any(|it| match (&it.kind, &it.subject) {
            (Kind::Weld(WeldKind::CannotBeLaid(_)), Subject::Seams(marks)) => marks.contains(mark),
            _ => false,
        })
    };
    let is_told = |it: &&Finding| match (&it.kind, &it.subject) {
        (Kind::Strength(StrengthKind::SeamNotMeshed), Subject::Seam(mark, _)) => not_laid(mark),
        _ => false,
    };
    of_strength
        .iter()
        .filter(|it| !is_told(it))
        .cloned()
        .collect()
}

/// The job with what it leaves to be chosen chosen; a draft takes it as it stands.
fn selected(
    job: Job,
    site: Option<&Arc<Site>>,
    depth: Depth,
    progress: &dyn Progress,
) -> AutoSelection {
    match depth {
        Depth::Quick => AutoSelection::none(job),
        Depth::Whole | Depth::Remedies => select(job, site, progress),
    }
}

/// What the tank weighs.
fn weighed(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &Welds,
    compartments: &[Compartment],
) -> Result<MassTable, WholeFault> {
    let sheet = Material::of(&job.stock.material)
        .and_then(Material::density)
        .map_err(WholeFault::NotWeighed)?;
    let rod = welds.rod_mass_by_seam(seams.len());
    Ok(mass(job, panels, seams, &rod, sheet.value, compartments))
}

/// That the strength of a draft is not the verdict.
fn draft() -> Finding {
    Finding::of(Grade::Mend, Subject::Part(Part::Strength), PlanKind::Draft)
}
