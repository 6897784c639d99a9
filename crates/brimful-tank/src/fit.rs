//! What fits: the space, the bodies offered for it, how each gets in, and ways to more litres. A
//! second entry beside [`crate::plan`].

use crate::candidate::{Candidate, candidates};
use crate::finding::{Finding, Grade};
use crate::job::{Capacity, DefaultUsed, Job, Space};
use crate::offer::{Gain, Offers, gains, offers, wanted};
use crate::shape::ShapeFault;
use crate::space::Room;
use crate::way_in::Entry;

/// What fits a space.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The job, defaults filled in.
    pub job: Job,
    /// Every default used.
    pub defaults: Vec<DefaultUsed>,
    /// The space with what is kept free of it.
    pub room: Room,
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
pub fn fit(job: Job) -> Result<Fit, Vec<ShapeFault>> {
    let space = space_of(&job)?;
    let room = Room::new(space).map_err(|fault| vec![fault])?;
    let mut findings = room.findings.clone();
    let looked_at: Vec<Candidate> = candidates(space, &room);
    let offers = offers(&job, &looked_at);
    findings.extend(wanted(&job, &offers));
    let of = job
        .liquid
        .wanted
        .map_or(Capacity::Rated, |wanted| wanted.of);
    let gains = offers
        .base(of)
        .map_or(Vec::new(), |offer| gains(&job, offer));
    findings.extend(pieces(&offers));
    findings.sort_by_key(|finding| finding.grade);
    Ok(Fit {
        defaults: job.defaults.clone(),
        room,
        offers,
        gains,
        findings,
        job,
    })
}

/// What pieces need beside what one tank does.
fn pieces(offers: &Offers) -> Option<Finding> {
    let offer = offers
        .offers
        .iter()
        .find(|offer| matches!(offer.candidate.entry, Entry::Pieces(_)))?;
    Some(
        Finding::new(
            Grade::Mend,
            "way in",
            format!("The body `{}` goes in as pieces, each a tank of its own: each needs its own fill or link, vent, drain and way in for a hand, and hoses between them. That a piece passes the opening is shown; that it can be turned and moved to its place behind it is not.", offer.candidate.name),
        )
        .source("each piece pushed straight through the opening")
        .cure("Try it with dummies of cardboard, write a job for each piece, and link the outlets at the bottom and the vents at the top."),
    )
}

fn space_of(job: &Job) -> Result<&Space, Vec<ShapeFault>> {
    job.space.as_ref().ok_or_else(|| {
        vec![ShapeFault::new(
            &job.shape_place(),
            "The job gives no space, so nothing can be fitted to it.",
            "Add [space] with what was measured.",
        )]
    })
}
