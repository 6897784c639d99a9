//! A body that is offered, and how it compares.

use super::figures::Figures;
use brimful_job::Capacity;
use brimful_panels::candidate::Candidate;
use brimful_panels::finding::kind::FullSize;
use brimful_panels::name::CandidateName;
use brimful_units::{Length, Volume};

/// A body that is offered.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The body.
    pub candidate: Candidate,
    /// What it comes to.
    pub figures: Figures,
    /// What it takes of its room when full and warm; none of pieces, and where nothing is near.
    pub full_size: Option<FullSize>,
    /// What it gives up against the largest; none for the largest.
    pub gives_up: Option<Trade>,
    /// What the next larger one gains, and at what price; none for the largest.
    pub next_gains: Option<Trade>,
}

/// What another body holds more, and what that costs.
#[derive(Clone, Debug, PartialEq)]
pub struct Trade {
    /// The other body.
    pub other: CandidateName,
    /// What it holds more below the air space.
    pub rated: Volume,
    /// How many panels it has more; less than zero where it has fewer.
    pub panels: isize,
    /// How much more it has to weld; none where that is too little to count.
    pub seams: Option<Length>,
}

/// What figures hold of a capacity; where the usable one is not known, the rated.
pub fn holds(figures: &Figures, of: Capacity) -> Volume {
    match of {
        Capacity::Brim => figures.brim,
        Capacity::Rated => figures.rated,
        Capacity::Usable => figures.usable.unwrap_or(figures.rated),
    }
}
