//! A solid parted by planes into pieces that each pass an opening straight.

use super::straight::{Straight, passing};
use crate::boolean::{clip, pieces};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::Vec3;

/// Places nearer than this along a direction are one, metres.
const SAME_PLACE: f64 = 1e-3;

/// A piece thinner than this is none, metres: no tank is.
const LEAST_PIECE: f64 = 0.02;

/// A piece of less than this share of an equal one is none: nobody welds a tank for so little.
const LEAST_SHARE: f64 = 0.25;

/// Directions apart by less than this (sine) are one.
const SAME_WAY: f64 = 0.02;

/// Directions that are cut across, longest first.
const DIRECTIONS: usize = 6;

/// Partings tried, by area of the seam.
const TRIED: usize = 60;

/// A solid in pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    /// The planes it was cut along, all with the same normal.
    pub cuts: Vec<Plane>,
    /// The pieces, from the inner side of the first cut on.
    pub pieces: Vec<Solid>,
    /// How each passes.
    pub passes: Vec<Straight>,
    /// Area of the cuts, m2.
    pub seam_area: f64,
}

/// Partings of `solid` into the fewest pieces, `most` at most, each of which passes an opening of
/// `width` by `height` straight; smallest seams first, at most `wanted`.
///
/// Cuts are square to the solid's own axes and its longest edges, at equal parts and, into two or
/// three, at corners and half-way between them. Others are not tried, so that an empty list is not
/// a proof.
pub fn split(solid: &Solid, width: f64, height: f64, most: usize, wanted: usize) -> Vec<Split> {
    for count in 1..most {
        let mut partings: Vec<(f64, Vec<Plane>)> = Vec::new();
        for way in ways(solid) {
            for places in cut_places(solid, way, count) {
                let cuts: Vec<Plane> = places
                    .into_iter()
                    .map(|offset| Plane {
                        normal: way,
                        offset,
                    })
                    .collect();
                let area: f64 = cuts.iter().map(|cut| section_area(solid, cut)).sum();
                partings.push((area, cuts));
            }
        }
        partings.sort_by(|a, b| a.0.total_cmp(&b.0));
        let found: Vec<Split> = partings
            .into_iter()
            .take(TRIED)
            .filter_map(|(area, cuts)| parted(solid, cuts, area, width, height))
            .take(wanted)
            .collect();
        if !found.is_empty() {
            return found;
        }
    }
    Vec::new()
}

/// The world's axes and the longest edges' directions, longest extent first.
fn ways(solid: &Solid) -> Vec<Vec3> {
    let mut edges: Vec<Vec3> = solid
        .edges()
        .iter()
        .map(|e| solid.vertices[e.to] - solid.vertices[e.from])
        .collect();
    edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
    let mut ways: Vec<Vec3> = Vec::new();
    let all = [Vec3::X, Vec3::Y, Vec3::Z].into_iter().chain(edges);
    for way in all.filter_map(Vec3::unit) {
        if ways.len() < DIRECTIONS && !ways.iter().any(|w| w.cross(way).length() < SAME_WAY) {
            ways.push(way);
        }
    }
    let extent = |way: &Vec3| {
        let (low, high) = extent(solid, *way);
        high - low
    };
    ways.sort_by(|a, b| extent(b).total_cmp(&extent(a)));
    ways
}

fn extent(solid: &Solid, way: Vec3) -> (f64, f64) {
    let along = solid.vertices.iter().map(|p| p.to_vec().dot(way));
    along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
        (a.min(v), b.max(v))
    })
}

/// Sets of `count` places along a direction.
fn cut_places(solid: &Solid, way: Vec3, count: usize) -> Vec<Vec<f64>> {
    let (low, high) = extent(solid, way);
    let share = |part: usize| low + (high - low) * part as f64 / (count + 1) as f64;
    let mut sets = vec![(1..=count).map(share).collect::<Vec<_>>()];
    let mut corners: Vec<f64> = solid.vertices.iter().map(|p| p.to_vec().dot(way)).collect();
    corners.sort_by(f64::total_cmp);
    corners.dedup_by(|a, b| (*a - *b).abs() < SAME_PLACE);
    let half_way: Vec<f64> = corners.windows(2).map(|p| (p[0] + p[1]) / 2.0).collect();
    let places: Vec<f64> = [corners, half_way]
        .concat()
        .into_iter()
        .filter(|&p| p > low + LEAST_PIECE && p < high - LEAST_PIECE)
        .collect();
    match count {
        1 => sets.extend(places.into_iter().map(|p| vec![p])),
        3.. => {}
        _ => sets.extend(places.iter().flat_map(|&p| {
            let beyond = move |q: &&f64| **q > p + LEAST_PIECE;
            places.iter().filter(beyond).map(move |&q| vec![p, q])
        })),
    }
    sets
}

/// Area of a solid's section: how its volume grows where the plane is, by a central difference
/// over a tenth of a millimetre (the smaller of both sides' at a step in the solid).
fn section_area(solid: &Solid, cut: &Plane) -> f64 {
    const STEP: f64 = 1e-4;
    let below = |by: f64| solid.moments_below(&cut.moved(by)).volume;
    ((below(STEP) - below(0.0)) / STEP).min((below(0.0) - below(-STEP)) / STEP)
}

fn parted(
    solid: &Solid,
    cuts: Vec<Plane>,
    seam_area: f64,
    width: f64,
    height: f64,
) -> Option<Split> {
    let mut rest = solid.clone();
    let mut parts = Vec::new();
    for cut in &cuts {
        parts.extend(pieces(&clip(&rest, cut).ok()?).ok()?);
        rest = clip(&rest, &cut.flipped()).ok()?;
    }
    parts.extend(pieces(&rest).ok()?);
    // A cut after which a side falls apart in two makes more pieces than was asked for.
    if parts.len() != cuts.len() + 1 || parts.iter().any(|p| !p.faults().is_empty()) {
        return None;
    }
    let least = LEAST_SHARE * solid.moments().volume / parts.len() as f64;
    if parts.iter().any(|part| part.moments().volume < least) {
        return None;
    }
    let passes: Vec<Straight> = parts
        .iter()
        .map(|part| passing(part, width, height, 0))
        .collect();
    passes.iter().all(Straight::passes).then_some(Split {
        cuts,
        pieces: parts,
        passes,
        seam_area,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_box_too_big_is_halved_across_its_length() {
        let solid = cube([0.0; 3], [0.9, 0.8, 0.3]);
        assert!(split(&solid, 0.5, 0.31, 1, 3).is_empty());
        let found = split(&solid, 0.5, 0.31, 2, 3);
        assert!((found[0].seam_area - 0.8 * 0.3).abs() < 1e-9);
        assert_eq!(found[0].pieces.len(), 2);
        let volume: f64 = found[0].pieces.iter().map(|p| p.moments().volume).sum();
        assert!((volume - 0.9 * 0.8 * 0.3).abs() < 1e-12);
        // An opening smaller than any piece.
        assert!(split(&solid, 0.05, 0.05, 3, 3).is_empty());
        // Thirds where halves do not pass.
        assert_eq!(split(&solid, 0.31, 0.31, 3, 1)[0].pieces.len(), 3);
    }
}
