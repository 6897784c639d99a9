//! Sections at stations, joined corner to corner by straight lines.
//!
//! A side between two sections is ruled: at every place along x it is a straight line, and where its
//! four corners lie in no one plane it is twisted. The area of a section between two stations is a
//! quadratic of x, as its corners move along straight lines, so Simpson's rule gives the volume
//! exactly. The clear inside is built of strips narrow enough that what they lose is small, each of
//! two triangles that meet along the diagonal further in, so it lies wholly inside the ruled body.
//!
//! A body is faced with flats in one of two ways (`flats` has the other): two triangles a side, as
//! the strips are, but from station to station; or one flat a side.

use super::flats;
use super::shell::Shell;
use super::stretch::{Section, Stretch};
use crate::shape::{ShapeFault, SpaceFault, simple};
use brimful_geom::boolean::{BooleanFault, union};
use brimful_geom::solid::Solid;
use brimful_job::{Space, Station};

/// Strips between two stations: what folding a strip loses falls with their square, and of a twist
/// of 50 mm a sixteenth leaves less than 1 mm.
const STRIPS: usize = 16;

/// The shell of sections.
pub(super) fn shell(space: &Space, stations: &[Station]) -> Result<Shell, ShapeFault> {
    let sections = stations
        .iter()
        .map(|station| {
            Ok(Section {
                x: station.at.m(),
                outline: simple(&station.outline)?.counter_clockwise(),
            })
        })
        .collect::<Result<Vec<Section>, ShapeFault>>()?;
    let not_made = |fault: BooleanFault| {
        ShapeFault::new(&space.measured.place(), SpaceFault::SectionsOpen(fault))
    };
    let stretches: Vec<Stretch<'_>> = sections
        .windows(2)
        .map(|pair| Stretch {
            from: &pair[0],
            to: &pair[1],
        })
        .collect();
    let whole = |strips: usize| {
        let parts: Vec<Solid> = stretches
            .iter()
            .map(|stretch| stretch.folded(strips))
            .collect();
        match &parts[..] {
            [one] => Ok(one.clone()),
            parts => union(&parts.iter().collect::<Vec<_>>()).map_err(not_made),
        }
    };
    // One flat a side over several stretches would have to fit all of them.
    let kept_within = match &stretches[..] {
        [one] => flats::kept_within(space, one).map_err(not_made)?,
        _ => None,
    };
    let faced = kept_within.is_some();
    Ok(Shell {
        solid: whole(STRIPS)?,
        facing: (!faced).then(|| whole(1)).transpose()?,
        kept_within,
        findings: stretches
            .iter()
            .filter_map(|stretch| stretch.twist(space.twisted, faced))
            .collect(),
    })
}
