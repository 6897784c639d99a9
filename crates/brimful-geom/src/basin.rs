//! What drains out of a solid of liquid through some points, and what stays behind in other basins.
//!
//! Liquid leaves through an outlet until, in the outlet's own basin, the surface has fallen to
//! it. On the way down the part below the surface may fall apart: a part that no outlet is
//! in keeps all that it holds then. The level falls from one corner of the solid to the next,
//! since only at corners can parts come apart. Turned upside down the same tells which air vents
//! let out and which stays trapped.

use crate::boolean::{BooleanFault, clip, pieces};
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};

/// Corners whose heights differ by less are taken as level, metres: a hundredth of a millimetre,
/// far flatter than a floor is laid.
const LEVEL: f64 = 1e-5;

/// What some outlets reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drained {
    /// Volume that leaves, m3.
    pub out: f64,
    /// Volume that stays, m3.
    pub left: f64,
    /// How many separate low places the solid has.
    pub basins: usize,
}

/// What drains from `solid` through all of its `outlets` together when `up` (unit) points up.
///
/// # Errors
/// A boolean that cannot be made, where the solid has more than one low place.
pub fn drained(solid: &Solid, up: Vec3, outlets: &[Point3]) -> Result<Drained, BooleanFault> {
    let whole = solid.moments().volume;
    let below = |level: f64| Plane {
        normal: up,
        offset: level,
    };
    let basins = low_places(solid, up);
    let sills = outlets.iter().map(|outlet| up.dot(outlet.to_vec()));
    let lowest = sills.fold(f64::INFINITY, f64::min);
    if outlets.is_empty() || basins <= 1 {
        // Above an outlet that is none there is all of it.
        let left = match outlets.is_empty() {
            true => whole,
            false => solid.moments_below(&below(lowest)).volume,
        };
        return Ok(Drained {
            out: whole - left,
            left,
            basins,
        });
    }
    let mut out = 0.0;
    // Parts that still drain, each with the outlets in it.
    let mut parts = vec![(solid.clone(), outlets.to_vec())];
    for pair in levels_above(solid, up, lowest).windows(2) {
        let (high, low) = (pair[0], pair[1]);
        // The level has begun to fall from the corners at `high`. Cutting just below them keeps parts
        // from hanging together by a sheet of no thickness.
        let cut = high - CUT_BELOW_CORNERS;
        let mut falling = Vec::new();
        for (part, mut outlets) in parts {
            outlets.retain(|outlet| up.dot(outlet.to_vec()) < cut);
            if !outlets.is_empty() {
                let part = clip(&part, &below(cut))?;
                falling.extend(with_outlets(&part, up, &outlets, low)?);
            }
        }
        for (part, outlets) in &falling {
            let sills = outlets.iter().map(|outlet| up.dot(outlet.to_vec()));
            let floor = sills.fold(f64::INFINITY, f64::min).max(low);
            let volume = |level: f64| part.moments_below(&below(level)).volume;
            out += extrapolated_cubic(floor, cut, high, &volume) - volume(floor);
        }
        parts = falling;
    }
    Ok(Drained {
        out,
        left: whole - out,
        basins,
    })
}

/// How far below corners the solid is cut, metres; less than the smallest step between levels.
const CUT_BELOW_CORNERS: f64 = 0.2 * LEVEL;

/// The value at `end` of a cubic known from `low` to `high`: between two levels without corners
/// the volume below a level is a cubic in it.
fn extrapolated_cubic(low: f64, high: f64, end: f64, cubic: &dyn Fn(f64) -> f64) -> f64 {
    let at = [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0].map(|share| low + (high - low) * share);
    let weight = |i: usize| {
        (0..4)
            .filter(|&j| j != i)
            .map(|j| (end - at[j]) / (at[i] - at[j]))
            .product::<f64>()
    };
    (0..4).map(|i| weight(i) * cubic(at[i])).sum()
}

/// Heights of the solid's corners above the sill, from the top down, the sill last. Of corners that
/// are taken as level the lowest counts: below it they have all been passed.
fn levels_above(solid: &Solid, up: Vec3, sill: f64) -> Vec<f64> {
    let corners = solid.vertices.iter().map(|p| up.dot(p.to_vec()));
    let mut levels: Vec<f64> = corners.filter(|&h| h > sill + LEVEL).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup_by(|a, b| (*a - *b).abs() < LEVEL);
    levels.reverse();
    levels.push(sill);
    levels
}

/// The pieces of a solid that have outlets, each with its own: an outlet drains the piece it is nearest
/// to, measured at the level to which the liquid falls next (one below that level drains the piece
/// above it).
fn with_outlets(
    solid: &Solid,
    up: Vec3,
    outlets: &[Point3],
    level: f64,
) -> Result<Vec<(Solid, Vec<Point3>)>, BooleanFault> {
    let parts = pieces(solid)?;
    let mut parts: Vec<(Solid, Vec<Point3>)> =
        parts.into_iter().map(|part| (part, Vec::new())).collect();
    for &outlet in outlets {
        let rise = (level - up.dot(outlet.to_vec())).max(0.0);
        let probe = outlet + up * rise.min(LEVEL);
        let nearest = parts
            .iter_mut()
            .min_by(|a, b| distance(&a.0, probe).total_cmp(&distance(&b.0, probe)));
        if let Some((_, own)) = nearest {
            own.push(outlet);
        }
    }
    parts.retain(|(_, own)| !own.is_empty());
    Ok(parts)
}

/// Distance from a point to the surface of a solid, metres.
pub fn distance(solid: &Solid, point: Point3) -> f64 {
    (0..solid.faces.len())
        .map(|face| distance_to_face(solid, face, point))
        .fold(f64::INFINITY, f64::min)
}

/// Distance of a point from one face of a solid, metres.
pub fn distance_to_face(solid: &Solid, face: usize, point: Point3) -> f64 {
    let frame = solid.face_frame(face);
    let outlines = solid.face_outlines(face, &frame);
    let flat = frame.flat_from_world(point);
    let over = outlines[0].contains(flat) && !outlines[1..].iter().any(|hole| hole.contains(flat));
    let beside = if over {
        0.0
    } else {
        outlines
            .iter()
            .map(|outline| outline.distance(flat))
            .fold(f64::INFINITY, f64::min)
    };
    solid.faces[face].plane.distance(point).hypot(beside)
}

/// How many separate low places a solid has: level stretches of its surface whose neighbours are
/// all higher and that have the solid above them. (The underside of something that hangs in the
/// liquid also has only higher neighbours, but the solid below it.)
fn low_places(solid: &Solid, up: Vec3) -> usize {
    let n = solid.vertices.len();
    let height: Vec<f64> = solid.vertices.iter().map(|p| up.dot(p.to_vec())).collect();
    let edges = solid.edges();
    let mut stretch: Vec<usize> = (0..n).collect();
    for edge in &edges {
        if (height[edge.from] - height[edge.to]).abs() < LEVEL {
            let (a, b) = (root(&stretch, edge.from), root(&stretch, edge.to));
            stretch[a.max(b)] = a.min(b);
        }
    }
    let stretch: Vec<usize> = (0..n).map(|v| root(&stretch, v)).collect();
    let mut lowest = vec![true; n];
    for edge in &edges {
        let (a, b) = (stretch[edge.from], stretch[edge.to]);
        if a != b {
            lowest[if height[edge.from] > height[edge.to] {
                a
            } else {
                b
            }] = false;
        }
    }
    let outward = pseudo_normals(solid, &stretch);
    (0..n)
        .filter(|&v| stretch[v] == v && lowest[v] && outward[v].dot(up) < 0.0)
        .count()
}

fn root(stretch: &[usize], mut v: usize) -> usize {
    while stretch[v] != v {
        v = stretch[v];
    }
    v
}

/// Angle-weighted normals summed over each level stretch. The sign of such a normal tells inside
/// from outside next to a vertex (J. A. Baerentzen and H. Aanaes, "Signed distance computation
/// using the angle weighted pseudonormal", IEEE TVCG 11 (2005)).
fn pseudo_normals(solid: &Solid, stretch: &[usize]) -> Vec<Vec3> {
    let mut normals = vec![Vec3::ZERO; stretch.len()];
    for face in &solid.faces {
        for ring in &face.loops {
            let k = ring.len();
            for i in 0..k {
                let at = |j: usize| solid.vertices[ring[(i + j) % k]];
                let (before, here, after) = (at(k - 1), at(0), at(1));
                let (a, b) = (after - here, before - here);
                let turn = face.plane.normal.dot(a.cross(b)).atan2(a.dot(b));
                let angle = if turn < 0.0 {
                    turn + std::f64::consts::TAU
                } else {
                    turn
                };
                normals[stretch[ring[i]]] += face.plane.normal * angle;
            }
        }
    }
    normals
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::boolean::difference;
    use crate::testing::cube;

    #[test]
    fn a_level_box_keeps_what_is_below_the_sill() {
        let tank = cube([0.0; 3], [1.0, 0.5, 0.4]);
        let d = drained(&tank, Vec3::Z, &[Point3::new(1.0, 0.25, 0.03)]).unwrap();
        assert_eq!(d.basins, 1);
        assert!((d.left - 1.0 * 0.5 * 0.03).abs() < 1e-15);
    }

    #[test]
    fn a_saddle_leaves_the_far_basin_full_to_the_saddle() {
        let d = drained(&two_legs(), Vec3::Z, &[Point3::new(0.0, 0.25, 0.05)]).unwrap();
        assert_eq!(d.basins, 2);
        // Own leg below the sill, other leg below the saddle.
        let want = 0.4 * 0.5 * 0.05 + 0.4 * 0.5 * 0.3;
        assert!((d.left - want).abs() < 1e-14, "{} {want}", d.left);
    }

    /// A U over an arch from x 0.4 to 0.6, 0.3 high: two legs below a common top.
    fn two_legs() -> Solid {
        difference(
            &cube([0.0; 3], [1.0, 0.5, 0.4]),
            &[&cube([0.4, -1.0, -1.0], [0.6, 1.0, 0.3])],
        )
        .unwrap()
    }

    #[test]
    fn every_outlet_drains_its_own_basin() {
        let (near, far) = (Point3::new(0.0, 0.25, 0.05), Point3::new(1.0, 0.25, 0.12));
        let d = drained(&two_legs(), Vec3::Z, &[near, far]).unwrap();
        // Each leg below its own sill.
        let want = 0.4 * 0.5 * 0.05 + 0.4 * 0.5 * 0.12;
        assert!((d.left - want).abs() < 1e-14, "{} {want}", d.left);
        let swapped = drained(&two_legs(), Vec3::Z, &[far, near]).unwrap();
        assert!((swapped.left - want).abs() < 1e-14);
    }

    #[test]
    fn of_two_outlets_in_one_basin_the_lower_one_counts() {
        let (low, high) = (Point3::new(0.0, 0.25, 0.05), Point3::new(0.0, 0.25, 0.2));
        let d = drained(&two_legs(), Vec3::Z, &[high, low]).unwrap();
        let want = 0.4 * 0.5 * 0.05 + 0.4 * 0.5 * 0.3;
        assert!((d.left - want).abs() < 1e-14, "{} {want}", d.left);
        // One above the saddle draws from both legs down to itself, and the other goes on.
        let above = Point3::new(1.0, 0.25, 0.35);
        let both = drained(&two_legs(), Vec3::Z, &[above, low]).unwrap();
        assert!((both.left - want).abs() < 1e-14, "{} {want}", both.left);
    }

    #[test]
    fn without_an_outlet_all_of_it_stays() {
        let d = drained(&two_legs(), Vec3::Z, &[]).unwrap();
        assert!((d.left - (0.2 - 0.2 * 0.5 * 0.3)).abs() < 1e-14 && d.out.abs() < 1e-14);
    }

    #[test]
    fn a_saddle_out_of_level_by_less_than_is_told_apart_still_parts_the_basins() {
        // The head of the arch rises by 8 micrometres from x 0.4 to x 0.6.
        let mut arch = cube([0.4, -1.0, -1.0], [0.6, 1.0, 0.3]);
        for vertex in arch.vertices.iter_mut().filter(|p| p.z > 0.0 && p.x > 0.5) {
            vertex.z += 8e-6;
        }
        let ring = arch.faces.iter().position(|face| face.plane.normal.z > 0.5);
        let ring = ring.unwrap();
        let corner = |i: usize| arch.vertices[arch.faces[ring].loops[0][i]];
        let normal = (corner(1) - corner(0)).cross(corner(2) - corner(1));
        arch.faces[ring].plane = Plane::through(corner(0), normal).unwrap();
        let tank = difference(&cube([0.0; 3], [1.0, 0.5, 0.4]), &[&arch]).unwrap();
        let d = drained(&tank, Vec3::Z, &[Point3::new(0.0, 0.25, 0.05)]).unwrap();
        let want = 0.4 * 0.5 * 0.05 + 0.4 * 0.5 * 0.3;
        // What lies within the levels that are taken as one.
        assert!(
            (d.left - want).abs() < 0.5 * 1.0 * LEVEL,
            "{} {want}",
            d.left
        );
    }

    #[test]
    fn a_hanging_baffle_makes_no_basin_but_traps_air_each_side() {
        let tank = difference(
            &cube([0.0; 3], [1.0, 0.5, 0.4]),
            &[&cube([0.49, -1.0, 0.1], [0.51, 1.0, 1.0])],
        )
        .unwrap();
        let level = drained(&tank, Vec3::Z, &[Point3::new(0.0, 0.25, 0.0)]).unwrap();
        assert_eq!(level.basins, 1);
        assert!(level.left.abs() < 1e-15);
        let air = drained(&tank, -Vec3::Z, &[Point3::new(0.2, 0.25, 0.4)]).unwrap();
        assert_eq!(air.basins, 2);
        // The bay without a vent keeps its air down to the baffle's foot.
        assert!((air.left - 0.49 * 0.5 * 0.3).abs() < 1e-14, "{}", air.left);
    }

    #[test]
    fn tilting_strands_liquid_behind_a_raised_floor() {
        let up = Vec3::new(-0.2, 0.0, 1.0).unit().unwrap();
        let tank = difference(
            &cube([0.0; 3], [1.0, 0.5, 0.4]),
            &[&cube([0.45, -1.0, -1.0], [0.55, 1.0, 0.1])],
        )
        .unwrap();
        let d = drained(&tank, up, &[Point3::new(1.0, 0.25, 0.0)]).unwrap();
        // By hand: with the x+ end down, the far leg keeps a wedge behind the sill's near edge
        // (x = 0.45, z = 0.1), surface z = 0.1 + 0.2 (x - 0.45), its depth zero nowhere below x = 0.45.
        let depth = |x: f64| 0.1 + 0.2 * (x - 0.45);
        let far = 0.5 * 0.45 * (depth(0.0) + depth(0.45)) / 2.0;
        let near = 0.0;
        assert!((d.left - far - near).abs() < 1e-12, "{} {far}", d.left);
    }
}
