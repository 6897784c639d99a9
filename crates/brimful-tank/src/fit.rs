//! What fits: the space, the bodies offered for it, how each gets in, and ways to more litres. A
//! second entry beside [`crate::plan`].

use crate::offer::{Gain, LeftOut, Offer, Offers, gains, kept_off, offers, wanted};
use crate::plan::NoPlan;
use brimful_job::{Capacity, DefaultUsed, Job};
use brimful_panels::finding::kind::{FitKind, Interference, NoRoomToGrow, NotOffered, SpaceKind};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::name::CandidateName;
use brimful_panels::progress::{Progress, Step, Unwatched};
use brimful_panels::shape::{ShapeFault, SpaceFault};
use brimful_panels::site::{Input, Site};
use brimful_panels::space::Room;
use std::sync::Arc;

/// What fits a space.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The job, defaults filled in.
    pub job: Job,
    /// Every default used.
    pub defaults: Vec<DefaultUsed>,
    /// The space with what is kept free of it, and the bodies that fit.
    pub site: Arc<Site>,
    /// The bodies offered.
    pub offers: Offers,
    /// Computed ways to gain litres, most first.
    pub gains: Vec<Gain>,
    /// What is to be said, worst first.
    pub findings: Vec<Finding>,
}

/// Works out what fits.
///
/// # Errors
/// A job without a space, or one whose measures close no solid.
pub fn fit(input: impl Into<Input>) -> Result<Fit, Vec<ShapeFault>> {
    looked_for(input.into(), &Unwatched)
}

/// As [`fit`], for somebody who waits and may lose interest.
///
/// # Errors
/// [`NoPlan`].
pub fn fit_watched(input: impl Into<Input>, progress: &dyn Progress) -> Result<Fit, NoPlan> {
    let fit = looked_for(input.into(), progress);
    if progress.is_cancelled() {
        return Err(NoPlan::Cancelled);
    }
    fit.map_err(NoPlan::Faults)
}

fn looked_for(input: Input, progress: &dyn Progress) -> Result<Fit, Vec<ShapeFault>> {
    let site = site_of(&input)?;
    let job = input.job;
    let mut findings = site.room.findings.clone();
    progress.step(Step::FindingBodies);
    let looked = site.bodies(progress);
    progress.step(Step::LayingOutBodies {
        count: looked.candidates.len(),
    });
    let mut offers = offers(&job, &site, &looked.candidates, progress);
    findings.extend(looked.unsearched.iter().map(|unsearched| {
        let subject = Subject::Part(Part::Fit);
        Finding::of(
            Grade::Note,
            subject,
            FitKind::Unsearched(unsearched.clone()),
        )
    }));
    findings.extend(cut_up(&site.room));
    findings.extend(nothing(&job, &offers, &looked.left_out));
    let interfering = looked.left_out.iter().cloned();
    offers
        .left_out
        .extend(interfering.map(|(name, why)| (name, NotOffered::NoRoomToGrow(why).into())));
    findings.extend(wanted(&job, &offers));
    let of = job
        .liquid
        .wanted
        .map_or(Capacity::Rated, |wanted| wanted.of);
    progress.step(Step::Gains);
    let base = offers.base(of);
    let gains = base.map_or(Vec::new(), |offer| gains(&job, &site, offer, progress));
    findings.extend(base.and_then(|offer| when_full(&job, &site, offer)));
    findings.extend(pieces(&offers));
    findings.sort_by_key(|finding| finding.grade);
    Ok(Fit {
        defaults: job.defaults.clone(),
        site,
        offers,
        gains,
        findings,
        job,
    })
}

/// That the obstacles leave several spaces.
fn cut_up(room: &Room) -> Option<Finding> {
    let pieces = room.cut_up()?;
    let subject = Subject::Part(Part::Space);
    Some(Finding::of(
        Grade::Note,
        subject,
        SpaceKind::CutUp { pieces },
    ))
}

/// That there is nothing to offer, with the reason.
fn nothing(
    job: &Job,
    offers: &Offers,
    interfering: &[(CandidateName, NoRoomToGrow)],
) -> Option<Finding> {
    if !offers.offers.is_empty() {
        return None;
    }
    // The first is the largest; the others fail for the same reason or a like one.
    let first = |(name, why): &(CandidateName, LeftOut)| Some((name.clone(), why.in_short()?));
    let largest = match (offers.left_out.first(), interfering.first()) {
        (Some(left_out), _) => first(left_out),
        (None, Some((name, why))) => Some((name.clone(), NotOffered::NoRoomToGrow(why.clone()))),
        (None, None) => None,
    };
    let way_in = job.space.as_ref().and_then(|space| space.way_in.as_ref());
    let part = match (&largest, way_in) {
        (Some((_, NotOffered::NoRoomToGrow(_))), _) | (_, None) => Part::Space,
        (_, Some(_)) => Part::WayIn,
    };
    let kind = FitKind::NothingOffered {
        opening: way_in.map(|way_in| way_in.size),
        largest,
    };
    Some(Finding::of(Grade::Stop, Subject::Part(part), kind))
}

/// That a body may bear on what is beside it when full and warm, and what it costs to keep it off.
fn when_full(job: &Job, site: &Arc<Site>, offer: &Offer) -> Option<Finding> {
    let full = offer.full_size.as_ref()?;
    if full.interference() == Interference::Clear {
        return None;
    }
    let subject = Subject::Candidate(offer.candidate.name.clone());
    let kind = FitKind::Interferes {
        full: full.clone(),
        kept_off: kept_off(job, site, full, offer.candidate.entry.in_one()),
    };
    let finding = Finding::of(Grade::Mend, subject, kind);
    Some(match &full.worst {
        Some(worst) => finding.figures(
            Quantity::Length(worst.takes()[1]),
            Quantity::Length(worst.gap),
        ),
        None => finding,
    })
}

/// What pieces need beside what one tank does.
fn pieces(offers: &Offers) -> Option<Finding> {
    let (body, pieces) = offers.in_pieces()?;
    let kind = FitKind::InPieces {
        body: body.clone(),
        pieces: pieces.len(),
        unplaced: pieces.iter().any(|piece| piece.passage.is_none()),
    };
    Some(Finding::of(Grade::Mend, Subject::Part(Part::WayIn), kind))
}

fn site_of(input: &Input) -> Result<Arc<Site>, Vec<ShapeFault>> {
    let missing = || ShapeFault::new(&input.job.shape_place(), SpaceFault::Missing);
    let site = Site::of(input).and_then(|site| site.ok_or_else(missing));
    site.map_err(|fault| vec![fault])
}
