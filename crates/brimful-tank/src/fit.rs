//! What fits: the space, the bodies offered for it, how each gets in, and ways to more litres. A
//! second entry beside [`crate::plan`].

use crate::candidate::candidates;
use crate::finding::{Finding, Grade, Quantity};
use crate::growth::Growth;
use crate::job::{Capacity, DefaultUsed, Job, Space};
use crate::offer::{Gain, Offers, gains, offers, wanted};
use crate::plan::NoPlan;
use crate::shape::ShapeFault;
use crate::space::Room;
use crate::watch::{Unwatched, Watch};
use crate::way_in::{Entry, Piece};
use brimful_geom::vector::Point3;
use brimful_units::{Length, Volume};

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
    let mut findings = room.findings(&job.about);
    watch.step("looking for bodies that fit");
    let looked = candidates(space, &room, &Growth::of(&job), watch);
    watch.step(&format!("laying out {} bodies", looked.candidates.len()));
    let offers = offers(&job, &looked.candidates, watch);
    findings.extend(looked.unsearched.iter().map(|what| unsearched(what)));
    findings.extend(cut_up(&job, &room));
    findings.extend(nothing(&job, &offers));
    findings.extend(wanted(&job, &offers));
    let of = job
        .liquid
        .wanted
        .map_or(Capacity::Rated, |wanted| wanted.of);
    watch.step("working out ways to hold more");
    let gains = offers
        .base(of)
        .map_or(Vec::new(), |offer| gains(&job, offer, watch));
    findings.extend(pieces(&job, &offers));
    findings.sort_by_key(|finding| finding.grade);
    Ok(Fit {
        defaults: job
            .defaults
            .iter()
            .map(|used| used.told(&job.about))
            .collect(),
        room,
        offers,
        gains,
        findings,
        job,
    })
}

/// That the obstacles leave several spaces.
fn cut_up(job: &Job, room: &Room) -> Option<Finding> {
    Some(
        Finding::new(
            Grade::Note,
            "space",
            format!("{} Bodies are offered for each.", room.cut_up(&job.about)?),
        )
        .source("the space less obstacles and the room kept"),
    )
}

/// That there is nothing to offer, with the reason.
fn nothing(job: &Job, offers: &Offers) -> Option<Finding> {
    if !offers.offers.is_empty() {
        return None;
    }
    let way_in = job.space.as_ref().and_then(|space| space.way_in.as_ref());
    let text = |length: Length| Quantity::Length(length).text(&job.about);
    // The first is the largest; the others fail for the same reason or a like one.
    let reason = offers
        .left_out
        .first()
        .map_or_else(String::new, |(name, reason)| format!(": `{name}` {reason}"));
    let (about, says, cure) = match way_in {
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
    .source("the search for the largest box")
    .cure("Draw the space simpler near leaning sides, or give a box of your own.")
    .entry("[body]")
}

/// What pieces need beside what one tank does, piece by piece.
fn pieces(job: &Job, offers: &Offers) -> Option<Finding> {
    let (name, pieces) = offers.offers.iter().find_map(|offer| {
        let Entry::Pieces(pieces) = &offer.candidate.entry else {
            return None;
        };
        Some((&offer.candidate.name, pieces))
    })?;
    let each: Vec<String> = pieces
        .iter()
        .enumerate()
        .map(|(number, piece)| piece_needs(job, number, piece))
        .collect();
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
                "The body `{name}` goes in as {} pieces, each a tank of its own, in this order. {}",
                pieces.len(),
                each.join(" ")
            ),
        )
        .source("each piece moved through the opening past those before it, every leg proven where a way is shown")
        .cure(cure),
    )
}

/// A piece's way in, its own fittings, and where it is linked to the next.
fn piece_needs(job: &Job, number: usize, piece: &Piece) -> String {
    let length = |metres: f64| Quantity::Length(Length::from_m(metres)).text(&job.about);
    let place = |p: Point3| format!("x {}, y {}, z {}", length(p.x), length(p.y), length(p.z));
    let litres = Volume::from_m3(piece.solid.moments().volume);
    let way = match &piece.passage {
        None => "passes the opening, but no way behind it to its place was found",
        Some(_) => "gets to its place",
    };
    let joints: Vec<String> = piece
        .joints
        .iter()
        .map(|joint| {
            format!(
                "to piece {} a hose for the liquid at {} and one for the air at {}",
                joint.to + 1,
                place(joint.liquid_at),
                place(joint.air_at)
            )
        })
        .collect();
    format!(
        "Piece {} ({} outside) {way}; it needs its own vent at {}, drain at {} and way in for a hand, and {}.",
        number + 1,
        Quantity::Volume(litres).text(&job.about),
        place(piece.vent_at),
        place(piece.drain_at),
        joints.join(", ")
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
