//! Bodies offered for a space, in words.

use super::said::Said;
use crate::text::Text;
use crate::words::Words;
use brimful_job::Capacity;
use brimful_panels::finding::kind::{FitKind, FullSize, HeldInPieces, MoreClearance, NotOffered};
use brimful_panels::name::CandidateName;
use brimful_units::{Length, Volume};

pub(super) fn said(words: &Words<'_>, kind: &FitKind) -> Said {
    match kind {
        FitKind::NothingOffered { opening, largest } => {
            nothing_offered(words, *opening, largest.as_ref())
        }
        FitKind::Unsearched(unsearched) => Said::new(say!(
            words,
            "Not looked for: {what}.",
            what = words.unsearched(unsearched)
        ))
        .source(say!(words, "every body that was looked for"))
        .cure(say!(
            words,
            "Draw the space simpler near leaning sides, or give a box of your own."
        ))
        .entry("[body]"),
        FitKind::Interferes { full, kept_off } => interferes(words, full, *kept_off),
        FitKind::InPieces {
            body,
            pieces,
            unplaced,
        } => {
            let cure = match unplaced {
                true => say!(
                    words,
                    "Try what is not shown with dummies of cardboard, write a job for each piece, and link the outlets at the bottom and the vents at the top."
                ),
                false => say!(
                    words,
                    "Write a job for each piece, and link the outlets at the bottom and the vents at the top."
                ),
            };
            Said::new(say!(words, "The body `{body}` goes in as {n} pieces, each a tank of its own with its own vent, drain and way in for a hand.", body = words.candidate(body), n = *pieces))
                .source(say!(words, "each piece moved through the opening past those before it, every leg proven where a way is shown"))
                .cure(cure)
        }
        FitKind::TooLittle {
            wanted,
            of,
            in_one,
            in_pieces,
            rated_instead,
        } => {
            let had = had(words, in_one.as_ref(), in_pieces.as_ref());
            let had = match rated_instead {
                true => say!(
                    words,
                    "{had} (what is rated: the outlet finds no place on these bodies, and less is usable)",
                    had = had
                ),
                false => had,
            };
            Said::new(too_little(words, *wanted, *of, had))
                .source(say!(
                    words,
                    "every body that was looked at, laid out with its sheet"
                ))
                .cure(say!(words, "See the ways to hold more, or promise less."))
        }
    }
}

fn nothing_offered(
    words: &Words<'_>,
    opening: Option<[Length; 2]>,
    largest: Option<&(CandidateName, NotOffered)>,
) -> Said {
    let too_near = matches!(largest, Some((_, NotOffered::NoRoomToGrow(_))));
    let (says, cure) = match opening.filter(|_| !too_near) {
        Some(size) => {
            let [width, height] = size.map(|size| words.length(size));
            (
                say!(
                    words,
                    "No body can be offered that passes the opening of {width} by {height}",
                    width = width,
                    height = height
                ),
                say!(
                    words,
                    "Find a larger opening, or build the tank in its place."
                ),
            )
        }
        None if too_near => (
            say!(words, "No body can be offered"),
            say!(words, "Keep more clearance, or draw the space simpler."),
        ),
        None => (
            say!(words, "No body can be offered"),
            say!(words, "Use thinner sheet, or keep less free."),
        ),
    };
    let says = match largest {
        None => say!(words, "{says}.", says = says),
        Some((name, why)) => say!(
            words,
            "{says}: `{name}` {why}.",
            says = says,
            name = words.candidate(name),
            why = words.not_offered(why)
        ),
    };
    Said::new(says)
        .source(say!(words, "every body that was looked at"))
        .cure(cure)
}

fn interferes(words: &Words<'_>, full: &FullSize, kept_off: Option<MoreClearance>) -> Said {
    let full = words.full_size(full);
    let says = match kept_off {
        Some(MoreClearance { clearance, rated }) => say!(
            words,
            "Full and warm it {full}. With {clearance} kept free all round, so that nothing need hold its walls, at most {rated} rated would fit.",
            full = full,
            clearance = words.length(clearance),
            rated = words.volume(rated)
        ),
        None => say!(
            words,
            "Full and warm it {full}. That more clearance alone would do is not shown.",
            full = full
        ),
    };
    Said::new(says)
        .source(say!(words, "growth by the coefficients of the sheet, bulge by the plates of the quick check, after the years of service"))
        .cure(say!(words, "Hold its walls by baffles, ribs, stays or thicker sheet and let the whole-tank check judge it, or keep more clearance."))
}

fn too_little(words: &Words<'_>, wanted: Volume, of: Capacity, had: Text) -> Text {
    let wanted = words.volume(wanted);
    match of {
        Capacity::Brim => say!(
            words,
            "{wanted} to the brim is not possible in one tank in this space: {had}.",
            wanted = wanted,
            had = had
        ),
        Capacity::Rated => say!(
            words,
            "{wanted} rated is not possible in one tank in this space: {had}.",
            wanted = wanted,
            had = had
        ),
        Capacity::Usable => say!(
            words,
            "{wanted} usable is not possible in one tank in this space: {had}.",
            wanted = wanted,
            had = had
        ),
    }
}

/// What can be had, in one tank and in pieces.
fn had(
    words: &Words<'_>,
    in_one: Option<&(Volume, CandidateName)>,
    in_pieces: Option<&HeldInPieces>,
) -> Text {
    let had = match in_one {
        Some((most, body)) => say!(
            words,
            "the most is {most} with the body `{body}`",
            most = words.volume(*most),
            body = words.candidate(body)
        ),
        None => say!(words, "no body was found that goes in whole"),
    };
    let Some(pieces) = in_pieces else {
        return had;
    };
    let had = say!(
        words,
        "{had}; in pieces, each a tank of its own, {volume} with `{body}`",
        had = had,
        volume = words.volume(pieces.volume),
        body = words.candidate(&pieces.body)
    );
    match pieces.shown {
        true => had,
        false => say!(
            words,
            "{had}, though not every piece is shown to get to its place",
            had = had
        ),
    }
}
