//! Bodies offered: those of the candidates that no other beats in everything, with what each
//! gives up and what the next one gains; the true maximum, and computed ways to more litres.

mod as_let_in;
mod figures;
mod full;
mod gain;
mod left_out;
mod offered;

pub use brimful_panels::finding::kind::{FullSize, Interference, SideTaken};
pub use figures::{Figures, figures, sheet_of};
pub use full::kept_off;
pub use gain::{Gain, GainChange, gains};
pub use left_out::LeftOut;
pub use offered::{Offer, Trade, holds};

use as_let_in::{comes_to, proven};
use brimful_job::{Capacity, Job};
use brimful_panels::candidate::Candidate;
use brimful_panels::finding::kind::{FitKind, HeldInPieces, NotOffered};
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::name::CandidateName;
use brimful_panels::progress::Progress;
use brimful_panels::site::Site;
use brimful_panels::way_in::{Entry, Piece};
use brimful_units::{Length, Volume};
use rayon::prelude::*;

/// Two bodies hold the same where they differ by less: a glass of water.
const SAME_VOLUME: Volume = Volume::from_litres(0.05);
/// Two seam lengths or reaches are the same where they differ by less: a hand's breadth.
const SAME_LENGTH: Length = Length::from_mm(50.0);
/// Hours that differ by less are the same: what a coffee takes.
const SAME_HOURS: f64 = 0.1;

/// The bodies worth offering, smallest first, and those that were left out with the reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Offers {
    /// The Pareto set over rated litres, panels, seams, sheets, hours and reach.
    pub offers: Vec<Offer>,
    /// Names and reasons of candidates that another beats in everything, or that cannot be built.
    pub left_out: Vec<(CandidateName, LeftOut)>,
}

impl Offers {
    /// The offer that holds most of the capacity asked about.
    pub fn largest(&self, of: Capacity) -> Option<&Offer> {
        most(self.offers.iter(), of)
    }

    /// The offer that holds most among those that go in as one tank.
    pub fn largest_in_one(&self, of: Capacity) -> Option<&Offer> {
        most(
            self.offers
                .iter()
                .filter(|offer| offer.candidate.entry.in_one()),
            of,
        )
    }

    /// The first offer that goes in in pieces, by name, and they.
    pub fn in_pieces(&self) -> Option<(&CandidateName, &[Piece])> {
        self.offers
            .iter()
            .find_map(|offer| match &offer.candidate.entry {
                Entry::Pieces(pieces) => Some((&offer.candidate.name, pieces.as_slice())),
                _ => None,
            })
    }

    /// The offer that ways to more litres are measured from: the largest single tank, unless
    /// pieces hold so much more that nobody would build it.
    pub fn base(&self, of: Capacity) -> Option<&Offer> {
        /// A judgement: a quarter more is worth a second tank.
        const WORTH_A_SECOND: f64 = 1.25;
        let largest = self.largest(of)?;
        let in_one = self.largest_in_one(of);
        let volume = |offer: &Offer| holds(&offer.figures, of);
        Some(
            in_one
                .filter(|one| volume(largest) < volume(one) * WORTH_A_SECOND)
                .unwrap_or(largest),
        )
    }
}

fn most<'a>(offers: impl Iterator<Item = &'a Offer>, of: Capacity) -> Option<&'a Offer> {
    offers.max_by(|a, b| holds(&a.figures, of).total_cmp(&holds(&b.figures, of)))
}

/// Lays every candidate out and keeps those that no other beats in everything.
pub fn offers(job: &Job, site: &Site, candidates: &[Candidate], progress: &dyn Progress) -> Offers {
    let thickness = sheet_of(job);
    let laid_out: Vec<Result<Figures, LeftOut>> = candidates
        .par_iter()
        .map(|candidate| match progress.is_cancelled() {
            true => Err(NotOffered::Cancelled.into()),
            false => comes_to(job, candidate, thickness),
        })
        .collect();
    let mut built = Vec::new();
    let mut left_out = Vec::new();
    for (candidate, result) in candidates.iter().zip(laid_out) {
        match result {
            Ok(figures) => built.push((candidate, figures)),
            Err(reason) => left_out.push((candidate.name.clone(), reason)),
        }
    }
    let mut kept = unbeaten(&mut built, &mut left_out, |candidate| {
        match progress.is_cancelled() {
            true => Ok(()),
            false => proven(job, candidate, thickness),
        }
    });
    kept.sort_by(|a, b| a.1.rated.total_cmp(&b.1.rated));
    let full_size: Vec<Option<FullSize>> = kept
        .par_iter()
        .map(|(candidate, _)| match candidate.entry {
            // Each piece is a job of its own, with the next one beside it.
            Entry::Pieces(_) => None,
            _ => full::full_size(job, site, &candidate.solid, thickness),
        })
        .collect();
    Offers {
        offers: described(&kept, full_size),
        left_out,
    }
}

/// A body with what it comes to.
type Built<'a> = (&'a Candidate, Figures);

/// Those that can be proven and that no other such beats.
fn unbeaten<'a>(
    built: &mut Vec<Built<'a>>,
    left_out: &mut Vec<(CandidateName, LeftOut)>,
    prove: impl Fn(&Candidate) -> Result<(), LeftOut> + Sync,
) -> Vec<Built<'a>> {
    loop {
        let kept = kept(built);
        let unproven: Vec<(usize, LeftOut)> = kept
            .par_iter()
            .filter_map(|&place| Some((place, prove(built[place].0).err()?)))
            .collect();
        if unproven.is_empty() {
            for (place, (candidate, _)) in built.iter().enumerate() {
                if let Some(better) = rival(built, place, &kept).filter(|_| !kept.contains(&place))
                {
                    let better = built[better].0.name.clone();
                    left_out.push((candidate.name.clone(), LeftOut::Beaten(better)));
                }
            }
            return kept.iter().map(|&place| built[place].clone()).collect();
        }
        let places: Vec<usize> = unproven.iter().map(|(place, _)| *place).collect();
        for (place, reason) in unproven {
            left_out.push((built[place].0.name.clone(), reason));
        }
        for place in places.into_iter().rev() {
            built.remove(place);
        }
    }
}

/// Places of those that no other beats, and of those that only such beat which are beaten
/// themselves: differences too small to count do not add up.
fn kept(built: &[Built<'_>]) -> Vec<usize> {
    let all: Vec<usize> = (0..built.len()).collect();
    let (mut kept, beaten): (Vec<usize>, Vec<usize>) = all
        .iter()
        .partition(|&&place| rival(built, place, &all).is_none());
    for place in beaten {
        if rival(built, place, &kept).is_none() {
            kept.push(place);
        }
    }
    kept.sort_unstable();
    kept
}

/// The first at these places that beats the one at a place in everything.
fn rival(built: &[Built<'_>], place: usize, among: &[usize]) -> Option<usize> {
    let (candidate, figures) = &built[place];
    among.iter().copied().find(|&other| {
        let (rival, theirs) = &built[other];
        // Of two that are alike the first one stays.
        beats((rival, theirs), (candidate, figures), other < place)
    })
}

/// Whether the first is no worse in anything and better in something (or an equal that came first).
fn beats(
    (rival, theirs): (&Candidate, &Figures),
    (candidate, ours): (&Candidate, &Figures),
    first: bool,
) -> bool {
    // Each as (theirs less ours, what is no difference), greater being worse for them.
    let differences = [
        ((ours.rated - theirs.rated).litres(), SAME_VOLUME.litres()),
        (theirs.panels as f64 - ours.panels as f64, 0.5),
        ((theirs.seams - ours.seams).m(), SAME_LENGTH.m()),
        (theirs.sheets as f64 - ours.sheets as f64, 0.5),
        (theirs.left_out as f64 - ours.left_out as f64, 0.5),
        (theirs.hours.hours() - ours.hours.hours(), SAME_HOURS),
        ((theirs.reach - ours.reach).m(), SAME_LENGTH.m()),
        (
            rival.entry.effort() as f64 - candidate.entry.effort() as f64,
            0.5,
        ),
    ];
    let no_worse = differences.iter().all(|(by, same)| by <= same);
    let better = differences.iter().any(|(by, same)| *by < -same);
    no_worse && (better || first)
}

/// The offers with what each gives up and what the next one gains.
fn described(kept: &[Built<'_>], full_size: Vec<Option<FullSize>>) -> Vec<Offer> {
    let next = |place: usize| kept.get(place + 1);
    kept.iter()
        .zip(full_size)
        .enumerate()
        .map(|(place, ((candidate, ours), full_size))| Offer {
            candidate: (*candidate).clone(),
            figures: ours.clone(),
            full_size,
            gives_up: next(place)
                .and(kept.last())
                .map(|most| Trade::between(ours, most)),
            next_gains: next(place).map(|next| Trade::between(ours, next)),
        })
        .collect()
}

impl Trade {
    fn between(ours: &Figures, (other, theirs): &Built<'_>) -> Self {
        let seams = theirs.seams - ours.seams;
        Self {
            other: other.name.clone(),
            rated: theirs.rated - ours.rated,
            panels: theirs.panels as isize - ours.panels as isize,
            seams: (seams.abs() > SAME_LENGTH).then_some(seams),
        }
    }
}

/// What is wanted against the most that can be had, in one tank and in pieces.
pub fn wanted(job: &Job, offers: &Offers) -> Option<Finding> {
    let wanted = job.liquid.wanted?;
    let largest = offers.largest(wanted.of)?;
    let most = holds(&largest.figures, wanted.of);
    let one = offers.largest_in_one(wanted.of);
    let in_one = one.map_or(Volume::ZERO, |one| holds(&one.figures, wanted.of));
    if in_one >= wanted.volume {
        return None;
    }
    let shown = largest.candidate.entry.is_shown();
    let grade = match most >= wanted.volume && shown {
        true => Grade::Mend,
        false => Grade::Stop,
    };
    let kind = FitKind::TooLittle {
        wanted: wanted.volume,
        of: wanted.of,
        in_one: one.map(|one| (in_one, one.candidate.name.clone())),
        in_pieces: (most > in_one).then(|| HeldInPieces {
            volume: most,
            body: largest.candidate.name.clone(),
            shown,
        }),
        rated_instead: wanted.of == Capacity::Usable && largest.figures.usable.is_none(),
    };
    Some(
        Finding::of(grade, Subject::Part(Part::Capacity), kind)
            .figures(Quantity::Volume(in_one), Quantity::Volume(wanted.volume)),
    )
}
