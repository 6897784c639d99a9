//! How large elements should be, place by place.

use super::arrange::{Arrangement, Edge};
use super::flat::Flat;
use crate::vector::Point3;

/// How the size of elements varies.
///
/// From the size of its flat it falls to the length of an edge at a short edge, to the width of
/// a gap between lines that do not meet, to a share of the outline round a hole and to the
/// size asked at [`Refine`] places, and grows away from each at the rate `growth`.
#[derive(Clone, Debug)]
pub struct Size {
    /// Growth of the size with distance, m/m; 0.2 to 0.4 keeps neighbours of like size.
    pub growth: f64,
    /// Least number of elements round a hole.
    pub round: usize,
    /// The size is not made smaller than this for gaps and refined places, m. Edges that are
    /// shorter remain.
    pub least: f64,
    /// Places where elements are to be smaller.
    pub refine: Vec<Refine>,
    /// Most nodes that the mesh may have.
    pub most_nodes: usize,
}

impl Default for Size {
    fn default() -> Self {
        Self {
            growth: 0.3,
            round: 12,
            least: 0.0,
            refine: Vec::new(),
            most_nodes: 1_000_000,
        }
    }
}

/// A place where elements are to have a given size.
#[derive(Clone, Copy, Debug)]
pub struct Refine {
    /// Where.
    pub point: Point3,
    /// Wanted length of element sides, m.
    pub size: f64,
}

/// Element size as the lowest of cones: each source asks for a size along a segment, growing
/// away from it.
#[derive(Clone, Debug)]
pub(super) struct SizeField {
    /// What asks for small elements.
    pub sources: Vec<Source>,
    /// Growth of the size with distance.
    pub growth: f64,
}

/// A segment (or a point, where the ends are one) along which elements are to be small.
#[derive(Clone, Copy, Debug)]
pub(super) struct Source {
    pub a: Point3,
    pub b: Point3,
    /// Wanted size there, m.
    pub size: f64,
}

impl SizeField {
    /// The field of the whole.
    pub fn of(flats: &[Flat], size: &Size, arrangement: &Arrangement) -> Self {
        let coarsest = flats.iter().map(|f| f.size).fold(0.0, f64::max);
        let mut sources = edge_sources(flats, size, arrangement);
        for flat in 0..flats.len() {
            gap_sources(flats, flat, size, arrangement, &mut sources);
        }
        sources.extend(size.refine.iter().map(|refine| Source {
            a: refine.point,
            b: refine.point,
            size: refine.size.max(size.least),
        }));
        sources.retain(|source| source.size < coarsest);
        Self {
            sources,
            growth: size.growth,
        }
    }

    /// Those of `among` that can matter within `radius` of `centre`, where nothing is larger
    /// than `cap`.
    pub fn near(&self, among: &[usize], centre: Point3, radius: f64, cap: f64) -> Vec<usize> {
        let distances: Vec<_> = among
            .iter()
            .map(|&i| self.sources[i].distance(centre))
            .collect();
        let highest = among
            .iter()
            .zip(&distances)
            .map(|(&i, d)| self.sources[i].size + self.growth * (d + radius))
            .fold(cap, f64::min);
        let matters =
            |i: usize, d: f64| self.sources[i].size + self.growth * (d - radius).max(0.0) < highest;
        let both = among.iter().zip(&distances);
        both.filter(|&(&i, &d)| matters(i, d))
            .map(|(&i, _)| i)
            .collect()
    }

    /// Wanted size at a place as far as the sources `among` say, no larger than `cap`.
    pub fn at(&self, among: &[usize], place: Point3, cap: f64) -> f64 {
        among
            .iter()
            .map(|&i| self.sources[i].size + self.growth * self.sources[i].distance(place))
            .fold(cap, f64::min)
    }

    /// All sources.
    pub fn all(&self) -> Vec<usize> {
        (0..self.sources.len()).collect()
    }
}

impl Source {
    fn distance(&self, place: Point3) -> f64 {
        place.distance_to_segment(self.a, self.b)
    }
}

/// Every elementary edge asks for the finest size of its flats, its own length and its share of
/// the hole it goes round.
fn edge_sources(flats: &[Flat], size: &Size, arrangement: &Arrangement) -> Vec<Source> {
    let source = |edge: &Edge| {
        let (a, b) = edge.ends();
        let (a, b) = (arrangement.nodes[a], arrangement.nodes[b]);
        let finest = edge.flats.iter().map(|f| flats[f.flat].size);
        let share = edge.hole.map(|around| around / size.round.max(1) as f64);
        let wanted = finest.chain(share).fold(a.distance(b), f64::min);
        Source { a, b, size: wanted }
    };
    arrangement.edges.iter().map(source).collect()
}

/// Lines of a flat that do not meet ask for elements no larger than the gap between them.
fn gap_sources(
    flats: &[Flat],
    flat: usize,
    size: &Size,
    arrangement: &Arrangement,
    sources: &mut Vec<Source>,
) {
    let place = |node: usize| arrangement.nodes[node];
    let mut features: Vec<Feature> = arrangement
        .edges_of(flat)
        .map(|(edge, _)| edge.ends())
        .map(|(i, j)| Feature {
            ends: [i, j],
            a: place(i),
            b: place(j),
        })
        .collect();
    features.extend(arrangement.points[flat].iter().map(|&i| Feature {
        ends: [i, i],
        a: place(i),
        b: place(i),
    }));
    let gaps = Gaps {
        features: &features,
        cap: flats[flat].size,
        least: size.least.max(flats[flat].size * FINEST_GAP),
    };
    for feature in &features {
        let near = gaps.near(feature);
        gaps.split(feature.a, feature.b, &near, sources);
    }
}

struct Feature {
    ends: [usize; 2],
    a: Point3,
    b: Point3,
}

struct Gaps<'a> {
    features: &'a [Feature],
    cap: f64,
    least: f64,
}

impl Gaps<'_> {
    /// The features that do not meet this one and come nearer to it than the size.
    fn near(&self, feature: &Feature) -> Vec<usize> {
        let apart = |f: &Feature| f.ends.iter().all(|end| !feature.ends.contains(end));
        let half = |f: &Feature| f.a.distance(f.b) / 2.0;
        let (middle, reach) = (feature.a.midpoint(feature.b), half(feature) + self.cap);
        let close = |f: &Feature| middle.distance_to_segment(f.a, f.b) < reach;
        (0..self.features.len())
            .filter(|&i| apart(&self.features[i]) && close(&self.features[i]))
            .collect()
    }

    /// Halves the segment until each part has one gap along it, and asks for that.
    fn split(&self, a: Point3, b: Point3, near: &[usize], sources: &mut Vec<Source>) {
        let (middle, half) = (a.midpoint(b), a.distance(b) / 2.0);
        let with_gap = near.iter().map(|&i| {
            let f = &self.features[i];
            (i, middle.distance_to_segment(f.a, f.b))
        });
        let near: Vec<_> = with_gap.filter(|(_, gap)| *gap < half + self.cap).collect();
        let Some(gap) = near.iter().map(|(_, gap)| *gap).min_by(f64::total_cmp) else {
            return;
        };
        let wanted = gap.max(self.least);
        if half > wanted / 2.0 {
            let near: Vec<_> = near.into_iter().map(|(i, _)| i).collect();
            self.split(a, middle, &near, sources);
            self.split(middle, b, &near, sources);
        } else if wanted < self.cap {
            sources.push(Source { a, b, size: wanted });
        }
    }
}

/// Gaps narrower than this share of the flat's size are not resolved by elements as small as
/// they are: one row of flat elements costs less than the millions that would fill it.
const FINEST_GAP: f64 = 1e-3;
