//! A solid parted by planes into pieces that each pass an opening straight.

use super::straight::passing;
use crate::boolean::{clip, pieces};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::Vec3;
use rayon::prelude::*;

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

/// Directions are across each other where their cosine is less.
const ACROSS: f64 = 0.5;

/// Partings tried, by area of the seam.
const TRIED: usize = 60;

/// Partings tried side by side.
const AT_A_TIME: usize = 8;

/// A solid in pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    /// Which pieces face each other, and the plane between them.
    pub cuts: Vec<Cut>,
    /// The pieces: from one end to the other, or quarter by quarter.
    pub pieces: Vec<Solid>,
    /// Area of the cuts, m2.
    pub seam_area: f64,
}

/// A cut between two pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Numbers of the pieces: the one that the plane looks out of, the one that it looks into.
    pub pieces: [usize; 2],
    /// The plane.
    pub plane: Plane,
}

/// Partings of `solid` into `count` pieces, two to four, each of which passes an opening of `width` by
/// `height` straight; smallest seams first, at most `wanted`.
///
/// Cuts are square to the solid's own axes and its longest edges, at equal parts and, into two or
/// three, at corners and half-way between them; into four also in quarters. Others are not tried,
/// so that an empty list is not a proof. Metres.
pub fn split(solid: &Solid, width: f64, height: f64, count: usize, wanted: usize) -> Vec<Split> {
    if count < 2 {
        return Vec::new();
    }
    let ways = ways(solid);
    let mut partings: Vec<(f64, Parting)> = Vec::new();
    let area = |cuts: &[Plane]| -> f64 { cuts.iter().map(|cut| section_area(solid, cut)).sum() };
    for &way in &ways {
        for places in cut_places(solid, way, count - 1) {
            let cut = |offset| Plane {
                normal: way,
                offset,
            };
            let cuts: Vec<Plane> = places.into_iter().map(cut).collect();
            partings.push((area(&cuts), Parting::Slices(cuts)));
        }
    }
    if count == 4 {
        for (number, &a) in ways.iter().enumerate() {
            let across = ways[number + 1..]
                .iter()
                .filter(|b| b.dot(a).abs() < ACROSS);
            for &b in across {
                let cuts = [a, b].map(|way| half_way(solid, way));
                partings.push((area(&cuts), Parting::Quarters(cuts)));
            }
        }
    }
    partings.sort_by(|a, b| a.0.total_cmp(&b.0));
    partings.truncate(TRIED);
    let passes = |(area, parting): &(f64, Parting)| {
        parted(solid, parting, *area).filter(|split| {
            let mut pieces = split.pieces.iter();
            pieces.all(|piece| passing(piece, width, height, 0).passes())
        })
    };
    // A few at a time, so that little is tried past those that are wanted.
    let mut found = Vec::new();
    for few in partings.chunks(AT_A_TIME) {
        let few: Vec<Option<Split>> = few.par_iter().map(passes).collect();
        found.extend(few.into_iter().flatten());
        if found.len() >= wanted {
            break;
        }
    }
    found.truncate(wanted);
    found
}

/// Where a solid is cut.
enum Parting {
    /// Along planes one behind the other.
    Slices(Vec<Plane>),
    /// Along the first plane, and both halves along the second.
    Quarters([Plane; 2]),
}

fn half_way(solid: &Solid, way: Vec3) -> Plane {
    let (low, high) = extent(solid, way);
    Plane {
        normal: way,
        offset: (low + high) / 2.0,
    }
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

fn parted(solid: &Solid, parting: &Parting, seam_area: f64) -> Option<Split> {
    let cut = |pieces: [usize; 2], plane: &Plane| Cut {
        pieces,
        plane: *plane,
    };
    let (parts, cuts) = match parting {
        Parting::Slices(planes) => {
            let cuts = planes.iter().enumerate();
            let cuts = cuts.map(|(number, plane)| cut([number, number + 1], plane));
            (slices(solid, planes)?, cuts.collect())
        }
        Parting::Quarters([first, second]) => {
            let halves = slices(solid, std::slice::from_ref(first))?;
            let mut parts = Vec::new();
            for half in &halves {
                parts.extend(slices(half, std::slice::from_ref(second))?);
            }
            let cuts = vec![
                cut([0, 1], second),
                cut([2, 3], second),
                cut([0, 2], first),
                cut([1, 3], first),
            ];
            (parts, cuts)
        }
    };
    let least = LEAST_SHARE * solid.moments().volume / parts.len() as f64;
    let worth = |part: &Solid| part.faults().is_empty() && part.moments().volume >= least;
    parts.iter().all(worth).then_some(Split {
        cuts,
        pieces: parts,
        seam_area,
    })
}

/// The slices between planes of one normal; none where a cut leaves a side in two, which makes more
/// pieces than was asked for.
fn slices(solid: &Solid, planes: &[Plane]) -> Option<Vec<Solid>> {
    let mut rest = solid.clone();
    let mut parts = Vec::new();
    for plane in planes {
        parts.extend(pieces(&clip(&rest, plane).ok()?).ok()?);
        rest = clip(&rest, &plane.flipped()).ok()?;
    }
    parts.extend(pieces(&rest).ok()?);
    (parts.len() == planes.len() + 1).then_some(parts)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_box_too_big_is_halved_across_its_length() {
        let solid = cube([0.0; 3], [0.9, 0.8, 0.3]);
        let found = split(&solid, 0.5, 0.31, 2, 3);
        assert!((found[0].seam_area - 0.8 * 0.3).abs() < 1e-9);
        assert_eq!(found[0].pieces.len(), 2);
        let volume: f64 = found[0].pieces.iter().map(|p| p.moments().volume).sum();
        assert!((volume - 0.9 * 0.8 * 0.3).abs() < 1e-12);
        // An opening smaller than any piece.
        assert!((2..5).all(|count| split(&solid, 0.05, 0.05, count, 3).is_empty()));
        // Thirds where halves do not pass.
        assert!(split(&solid, 0.31, 0.31, 2, 1).is_empty());
        assert_eq!(split(&solid, 0.31, 0.31, 3, 1)[0].pieces.len(), 3);
    }

    #[test]
    fn what_neither_slices_nor_halves_pass_is_quartered() {
        // 0.9 by 0.9 by 0.4 through 0.46 square: a slice of a quarter is 0.9 by 0.4 by 0.225 and
        // passes too, with more seam: 3 * 0.36 against 2 * 0.36.
        let solid = cube([0.0; 3], [0.9, 0.9, 0.4]);
        let found = &split(&solid, 0.46, 0.46, 4, 1)[0];
        assert!((found.seam_area - 2.0 * 0.36).abs() < 1e-9);
        assert_eq!(found.pieces.len(), 4);
        for cut in &found.cuts {
            let [behind, before] = cut.pieces.map(|piece| found.pieces[piece].moments());
            let side = |m: crate::moments::Moments| {
                let middle = m.first / m.volume;
                cut.plane.normal.dot(middle) - cut.plane.offset
            };
            assert!((side(behind) + 0.225).abs() < 1e-9 && (side(before) - 0.225).abs() < 1e-9);
        }
    }
}
