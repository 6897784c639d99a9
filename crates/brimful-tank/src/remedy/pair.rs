//! Two changes together, where neither does by itself.

use super::change::{Change, changes, extrusion, more_baffles, thicker};
use super::trial::Trial;
use brimful_job::Job;
use brimful_panels::finding::kind::What;

/// Thicker sheets that are tried together with something else.
const SHEETS: usize = 2;

/// Pairs of changes that are worth a trial, by kind; of each kind the smallest first.
pub fn pairs(job: &Job, now: &Trial) -> Vec<Vec<Change>> {
    let baffles = more_baffles(job, &now.body);
    let firsts = extrusion(job)
        .into_iter()
        .chain(thicker(job, &now.panels).into_iter().take(SHEETS))
        .chain(baffles.into_iter().next_back());
    firsts
        .filter_map(|first| {
            let trial = Trial::of(&first.job, now.site.as_ref()).ok()?;
            Some(with_each(&first, &trial))
        })
        .flatten()
        .collect()
}

/// A change with every other that can come on top of it.
fn with_each(first: &Change, trial: &Trial) -> Vec<Vec<Change>> {
    let seconds = changes(&first.job, trial).into_iter();
    let apart = seconds.filter(|kind| {
        let second = kind.first().map(|change| &change.what);
        second.is_some_and(|second| order(&first.what) < order(second))
    });
    apart
        .map(|kind| {
            let both = kind.into_iter().map(|second| Change {
                what: What::Both(Box::new(first.what.clone()), Box::new(second.what)),
                job: second.job,
            });
            both.collect()
        })
        .collect()
}

/// Each pair is tried in one order alone.
fn order(what: &What) -> usize {
    match what {
        What::Extrusion => 0,
        What::OuterSheets(_) => 1,
        What::Baffles { .. } => 2,
        What::InnerSheets(_)
        | What::Bands { .. }
        | What::Stays { .. }
        | What::Rails(_)
        | What::Board
        | What::LowerFill { .. }
        | What::Clearance(_)
        | What::WithoutBaffles { .. }
        | What::SlotThrough { .. }
        | What::Hatches { .. }
        | What::Both(..) => 3,
    }
}
