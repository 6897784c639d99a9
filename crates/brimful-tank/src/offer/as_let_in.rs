//! A candidate laid out and proven as it gets in: whole, or each of its pieces.

use super::figures::{self, Figures, figures};
use super::left_out::LeftOut;
use brimful_job::Job;
use brimful_panels::candidate::Candidate;
use brimful_panels::finding::kind::NotOffered;
use brimful_panels::way_in::Entry;
use brimful_units::Length;

/// Proves a candidate as it gets in: whole, or each of its pieces.
pub(super) fn proven(job: &Job, candidate: &Candidate, thickness: Length) -> Result<(), LeftOut> {
    match &candidate.entry {
        Entry::Pieces(pieces) => pieces
            .iter()
            .try_for_each(|piece| figures::proven(job, &piece.solid, thickness)),
        _ => figures::proven(job, &candidate.solid, thickness),
    }
}

/// What a candidate comes to as it gets in: whole, or as the tanks of its pieces.
///
/// # Errors
/// Why it cannot be built, or does not get in.
pub fn comes_to(job: &Job, candidate: &Candidate, thickness: Length) -> Result<Figures, LeftOut> {
    match &candidate.entry {
        Entry::Pieces(pieces) => pieces
            .iter()
            .map(|piece| figures(job, &piece.solid, thickness))
            .reduce(|all, piece| Ok(all?.and(piece?)))
            .unwrap_or_else(|| Err(NotOffered::NoPieces.into())),
        Entry::NotFound(why) => Err(NotOffered::NoWayIn(why.clone()).into()),
        _ => figures(job, &candidate.solid, thickness),
    }
}
