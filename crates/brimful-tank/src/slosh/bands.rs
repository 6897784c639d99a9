//! Where liquid swings as fast as a vehicle moves.

use super::motion::{RoomMotion, Swing};
use brimful_job::{Duty, Job};
use brimful_panels::finding::kind::SloshKind;
use brimful_panels::finding::{Finding, Grade, Origin, Subject};
use brimful_panels::table::motion::Motion;
use brimful_units::Frequency;

/// Fills that a tank on the road is seen at again and again: from a quarter, common practice, to nine tenths, above which the liquid
/// has no room.
const COMMON: [f64; 2] = [0.25, 0.90];
/// What less of the liquid does is not told: a tenth of it pushes less than a driver feels, common practice.
const TOLD: f64 = 0.10;

/// The motions that a tank's liquid is held against. No bands are known here of boats, and a tank that stands has none.
pub(super) fn motions(job: &Job) -> Vec<Motion> {
    match job.about.duty {
        Duty::Road => Motion::ALL.to_vec(),
        Duty::Standing | Duty::Afloat => Vec::new(),
    }
}

/// A note for every room and motion of the vehicle that its liquid swings with at a common fill.
pub(super) fn bands(motions: &[Motion], rooms: &[RoomMotion]) -> Vec<Finding> {
    rooms
        .iter()
        .flat_map(|room| motions.iter().filter_map(|&motion| in_band(room, motion)))
        .collect()
}

fn in_band(room: &RoomMotion, motion: Motion) -> Option<Finding> {
    let band = motion.band();
    let hits: Vec<(f64, Swing)> = room
        .fills
        .iter()
        .filter(|it| COMMON[0] <= it.fill && it.fill <= COMMON[1])
        .filter_map(|it| {
            let swings = it.along(motion.direction())?.swings.iter();
            let told = swings.filter(|it| it.moves >= TOLD && is_within(it, band.value));
            let most = told.max_by(|a, b| a.moves.total_cmp(&b.moves))?;
            Some((it.fill, *most))
        })
        .collect();
    let (first, last) = (hits.first()?.0, hits.last()?.0);
    // By what the liquid weighs, not by its share alone: half of much is more than all of little.
    let mass = |(fill, swing): &(f64, Swing)| fill * swing.moves;
    let (worst, swing) = hits.iter().max_by(|a, b| mass(a).total_cmp(&mass(b)))?;
    let kind = SloshKind::InBand {
        motion,
        fills: [first, last],
        worst: *worst,
        frequency: swing.frequency,
        moves: swing.moves,
    };
    let subject = Subject::Compartment(room.compartment);
    let mut finding = Finding::of(Grade::Note, subject, kind);
    finding.source = band.sources.into_iter().next().map(Origin::Table);
    Some(finding)
}

/// Whether a swing may lie in a band, its error counted; one whose error is not known may.
fn is_within(swing: &Swing, [low, high]: [Frequency; 2]) -> bool {
    swing.error.is_none_or(|off| {
        swing.frequency * (1.0 + off) >= low && swing.frequency * (1.0 - off) <= high
    })
}
