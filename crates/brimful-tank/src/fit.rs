//! What fits: the space, the bodies offered for it, how each gets in, and ways to more litres. A
//! second entry beside [`crate::plan`].

use crate::candidate::candidates;
use crate::finding::kind::SpaceKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::growth::Growth;
use crate::offer::{Gain, KeptOff, Offer, Offers, Reckoned, gains, kept_off, offers, wanted};
use crate::plan::NoPlan;
use crate::shape::{ShapeFault, SpaceFault};
use crate::space::Room;
use crate::watch::{Unwatched, Watch};
use brimful_job::{Capacity, DefaultUsed, Job, Space};
use brimful_units::Length;

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
    looked_for(job, &Unwatched)
}

/// As [`fit`], for somebody who waits and may lose interest.
///
/// # Errors
/// [`NoPlan`].
pub fn fit_watched(job: Job, watch: &dyn Watch) -> Result<Fit, NoPlan> {
    let fit = looked_for(job, watch);
    if watch.is_cancelled() {
        return Err(NoPlan::Cancelled);
    }
    fit.map_err(NoPlan::Faults)
}

fn looked_for(job: Job, watch: &dyn Watch) -> Result<Fit, Vec<ShapeFault>> {
    let space = space_of(&job)?;
    let room = Room::new(space).map_err(|fault| vec![fault])?;
    let mut findings = room.findings.clone();
    watch.step("looking for bodies that fit");
    let looked = candidates(space, &room, &Growth::of(&job), watch);
    watch.step(&format!("laying out {} bodies", looked.candidates.len()));
    let mut offers = offers(&job, &looked.candidates, watch);
    findings.extend(looked.unsearched.iter().map(|what| unsearched(what)));
    findings.extend(cut_up(&room));
    findings.extend(nothing(&job, &offers, &looked.left_out));
    offers.left_out.extend(looked.left_out);
    findings.extend(wanted(&job, &offers));
    let of = job
        .liquid
        .wanted
        .map_or(Capacity::Rated, |wanted| wanted.of);
    watch.step("working out ways to hold more");
    let base = offers.base(of);
    let gains = base.map_or(Vec::new(), |offer| gains(&job, offer, watch));
    findings.extend(base.and_then(|offer| when_full(&job, offer)));
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
fn nothing(job: &Job, offers: &Offers, bearing: &[(String, String)]) -> Option<Finding> {
    if !offers.offers.is_empty() {
        return None;
    }
    let way_in = job.space.as_ref().and_then(|space| space.way_in.as_ref());
    let text = |length: Length| Quantity::Length(length).text(&job.about);
    // The first is the largest; the others fail for the same reason or a like one.
    let first = |all: &[(String, String)]| {
        let first = all.first();
        first.map_or_else(String::new, |(name, reason)| format!(": `{name}` {reason}"))
    };
    let reason = first(&offers.left_out);
    let (about, says, cure) = match way_in {
        _ if reason.is_empty() && !bearing.is_empty() => (
            "space",
            format!("No body can be offered{}.", first(bearing)),
            "Keep more clearance, or draw the space simpler.",
        ),
        Some(way_in) => {
            let [width, height] = way_in.size.map(text);
            (
                "way in",
                format!(
                    "No body can be offered that passes the opening of {width} by {height}{reason}."
                ),
                "Find a larger opening, or build the tank in its place.",
            )
        }
        None => (
            "space",
            format!("No body can be offered{reason}."),
            "Use thinner sheet, or keep less free.",
        ),
    };
    Some(
        Finding::new(Grade::Stop, about, says)
            .source("every body that was looked at")
            .cure(cure),
    )
}

/// A body that may have been worth offering was not looked for.
fn unsearched(what: &str) -> Finding {
    Finding::new(
        Grade::Note,
        "what fits",
        format!("Not looked for: {}.", what.trim_end_matches('.')),
    )
    .source("every body that was looked for")
    .cure("Draw the space simpler near leaning sides, or give a box of your own.")
    .entry("[body]")
}

/// That a body may bear on what is beside it when full and warm, and what it costs to keep it off.
fn when_full(job: &Job, offer: &Offer) -> Option<Finding> {
    let full = offer.full_size.as_ref()?;
    if full.reckoned() == Reckoned::Keeps {
        return None;
    }
    let length = |length: Length| Quantity::Length(length).text(&job.about);
    let further = match kept_off(job, full, offer.candidate.entry.in_one()) {
        Some(KeptOff { clearance, figures }) => format!(
            "With {} kept free all round, so that nothing need hold its walls, at most {} rated would fit.",
            length(clearance),
            Quantity::Volume(figures.rated).text(&job.about)
        ),
        None => "That more clearance alone would do is not shown.".to_owned(),
    };
    let finding = Finding::new(
        Grade::Mend,
        &offer.candidate.name,
        format!("Full and warm it {}. {further}", full.says(&job.about)),
    )
    .source("growth by the coefficients of the sheet, bulge by the plates of the quick check, after the years of service")
    .cure("Hold its walls by baffles, ribs, stays or thicker sheet and let the whole-tank check judge it, or keep more clearance.");
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
    let (name, pieces) = offers.in_pieces()?;
    let unplaced = pieces.iter().any(|piece| piece.passage.is_none());
    let cure = match unplaced {
        true => {
            "Try what is not shown with dummies of cardboard, write a job for each piece, and link the outlets at the bottom and the vents at the top."
        }
        false => {
            "Write a job for each piece, and link the outlets at the bottom and the vents at the top."
        }
    };
    Some(
        Finding::new(
            Grade::Mend,
            "way in",
            format!(
                "The body `{name}` goes in as {} pieces, each a tank of its own with its own vent, drain and way in for a hand.",
                pieces.len()
            ),
        )
        .source("each piece moved through the opening past those before it, every leg proven where a way is shown")
        .cure(cure),
    )
}

fn space_of(job: &Job) -> Result<&Space, Vec<ShapeFault>> {
    let missing = || vec![ShapeFault::new(&job.shape_place(), SpaceFault::Missing)];
    job.space.as_ref().ok_or_else(missing)
}
