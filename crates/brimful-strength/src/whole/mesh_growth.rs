//! How much finer meshes add to what is found on the first, place by place.
//!
//! What a coarse mesh misses at a place is mostly a matter of the place: the end of a foot, an inward corner.
//! So the loads that ask most of a part are run on finer meshes, and what these add there counts for the
//! others too, with a spread. A part that no load was run on again has the greatest factor that has been met.

use super::figures::Figures;
use super::part::Part;
use std::collections::BTreeMap;

/// A use on the first mesh alone is trusted up to this share of the limit; what asks for more is run
/// on a finer one. The last mesh gives up to 1.75 times what the first does on the examples (feet of
/// baffles, walls between close bands), and up to 2.4 times at the inward corner of a large L.
const ONE_MESH: f64 = 0.4;
/// How much more a load may gain from a finer mesh than the load that asks most of the same part: 1.43 at most
/// on the examples, run under all loads on all meshes, where it asks for a third of the limit or more. Smaller
/// uses gain up to 2.2 times in all, and stay below the limit with that.
const SPREAD: f64 = 1.6;
/// Uses less than this on the first mesh say nothing of its error: what is nearly nothing may grow to twice
/// that.
const LEAST: f64 = 0.05;

/// What the finest mesh gives over the first, for each part that some load was run on again.
#[derive(Clone, Debug, Default)]
pub struct MeshGrowth(BTreeMap<Part, f64>);

impl MeshGrowth {
    /// Of the figures of loads on the first mesh and on the finest that each was run on.
    pub fn of<'a>(runs: impl Iterator<Item = (&'a Figures, &'a Figures)>) -> Self {
        let mut greatest = BTreeMap::new();
        for (first, finest) in runs {
            for part in Part::all(first).filter(|part| part.used(first) >= LEAST) {
                let ratio = part.used(finest) / part.used(first);
                let own: &mut f64 = greatest.entry(part).or_insert(1.0);
                *own = own.max(ratio);
            }
        }
        Self(greatest)
    }

    /// How many times what the first mesh alone gives a use of a part may be.
    pub fn at_most(&self, part: Part) -> f64 {
        let known = self.0.get(&part).map(|growth| growth * SPREAD);
        known.unwrap_or(ONE_MESH.recip())
    }
}
