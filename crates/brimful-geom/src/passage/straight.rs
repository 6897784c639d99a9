//! A solid pushed straight through a rectangular opening, in any attitude.
//!
//! Pushed along a direction, a solid passes where its silhouette does, and a silhouette passes a
//! rectangle where its convex hull's width and the width square to it are no more than the
//! rectangle's sides, at some angle. Between two angles at which a side of the hull lies along the
//! rectangle each width is a cosine, so what is left of a side is convex in the angle, and the
//! least left of both sides is greatest at an end of such a stretch or where both are equal: the
//! plane problem is exact (the rotating calipers of G. T. Toussaint, "Solving geometric problems
//! with the rotating calipers", 1983, from memory, with the equal-margin angles beside).
//!
//! Over directions it is a branch and bound on the sphere. The width of a solid of diameter D along
//! a unit vector changes by no more than D times the change of the vector, so all directions within
//! an angle d of one leave no more than it leaves plus `D d`.

use super::TOUCHING;
use crate::frame::Frame;
use crate::predicate::{Side, side};
use crate::solid::Solid;
use crate::vector::{Point2, Point3, Vec2, Vec3};
use std::f64::consts::{FRAC_PI_2, PI};

/// Most directions looked along.
pub const DIRECTIONS: usize = 6000;

/// The search ends when what may still be gained is less than this, metres: a tenth of a
/// millimetre, what is measured.
const FINE: f64 = 1e-4;

/// A solid before an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Straight {
    /// `solid.moved(&place)` goes through `|x| <= width / 2, |y| <= height / 2` along z; it is
    /// centred on the origin in x and y and begins at z = 0.
    pub place: Frame,
    /// Least air, over width and height together, metres; negative where it does not pass.
    pub margin: f64,
    /// No attitude leaves more than this.
    pub bound: f64,
}

impl Straight {
    /// Whether it passes in the attitude found.
    pub fn passes(&self) -> bool {
        self.margin >= -TOUCHING
    }

    /// Whether no attitude at all passes.
    pub fn is_impossible(&self) -> bool {
        self.bound < -TOUCHING
    }
}

/// The attitude that leaves most air in an opening of `width` by `height`, metres. The solid's
/// convex hull alone counts.
pub fn straight(solid: &Solid, width: f64, height: f64) -> Straight {
    searched(solid, width, height, f64::INFINITY, DIRECTIONS)
}

/// An attitude that passes: the best along the axes where one of those does, else the best of the
/// likely ones along faces and edges. Else it is looked for further along `directions` at most,
/// until one passes or it is proven that none does.
pub fn passing(solid: &Solid, width: f64, height: f64, directions: usize) -> Straight {
    let square = along_axes(&solid.vertices, width, height);
    if square.passes() {
        return square;
    }
    searched(solid, width, height, -TOUCHING, directions)
}

/// Searched until `enough` is left.
fn searched(solid: &Solid, width: f64, height: f64, enough: f64, directions: usize) -> Straight {
    let points = &solid.vertices;
    let diameter = points
        .iter()
        .flat_map(|a| points.iter().map(|b| a.distance(*b)))
        .fold(0.0, f64::max);
    let look = |direction: Vec3| fit(points, direction, width, height);
    let mut best = look(Vec3::Z);
    for direction in likely(solid) {
        let next = look(direction);
        // More than rounding, so that of equals the plainest stays.
        if next.margin > best.margin + TOUCHING {
            best = next;
        }
    }
    if best.margin >= enough || directions == 0 {
        let bound = f64::INFINITY;
        return Straight { bound, ..best };
    }
    over_sphere(look, best, diameter, enough, directions)
}

/// Branch and bound over all directions, from the `best` that is known.
fn over_sphere(
    look: impl Fn(Vec3) -> Straight,
    mut best: Straight,
    diameter: f64,
    enough: f64,
    directions: usize,
) -> Straight {
    let cell = |middle: Vec2, half: f64, axis: usize| {
        let towards = [
            Vec3::new(1.0, middle.x, middle.y),
            Vec3::new(middle.y, 1.0, middle.x),
            Vec3::new(middle.x, middle.y, 1.0),
        ][axis];
        let found = look(towards);
        // A square of the cube's face seen from the centre: no wider than it is at distance one.
        let bound = found.margin + diameter * half * std::f64::consts::SQRT_2;
        let cell = Cell {
            middle,
            half,
            axis,
            bound,
        };
        (cell, found)
    };
    let mut cells = Vec::new();
    let mut looked = 0;
    for axis in 0..3 {
        let (first, found) = cell(Vec2::default(), 1.0, axis);
        cells.push(first);
        best = better(best, found);
        looked += 1;
    }
    loop {
        let widest = (0..cells.len()).max_by(|&a, &b| cells[a].bound.total_cmp(&cells[b].bound));
        let bound = widest.map_or(best.margin, |i| cells[i].bound.max(best.margin));
        let settled = bound < best.margin + FINE
            || bound < -TOUCHING
            || best.margin >= enough
            || looked >= directions;
        let Some(i) = widest.filter(|_| !settled) else {
            return Straight { bound, ..best };
        };
        let whole = cells.swap_remove(i);
        for (x, y) in [(-0.5, -0.5), (0.5, -0.5), (-0.5, 0.5), (0.5, 0.5)] {
            let middle = whole.middle + Vec2::new(x, y) * whole.half;
            let (part, found) = cell(middle, whole.half / 2.0, whole.axis);
            best = better(best, found);
            looked += 1;
            if part.bound > best.margin {
                cells.push(part);
            }
        }
    }
}

/// A square on a face of the cube round the origin.
struct Cell {
    middle: Vec2,
    half: f64,
    axis: usize,
    bound: f64,
}

fn better(a: Straight, b: Straight) -> Straight {
    if b.margin > a.margin { b } else { a }
}

/// The best attitude with the solid's axes along the opening's.
fn along_axes(points: &[Point3], width: f64, height: f64) -> Straight {
    let (x, y, z) = (Vec3::X, Vec3::Y, Vec3::Z);
    // Right-handed: whichever goes first, either of the others across.
    let all = [
        [x, y, z],
        [y, -x, z],
        [y, z, x],
        [z, -y, x],
        [z, x, y],
        [x, -z, y],
    ];
    let fit = |axes: [Vec3; 3]| {
        let long = |axis: Vec3| {
            let along = points.iter().map(|p| p.to_vec().dot(axis));
            let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
                (a.min(v), b.max(v))
            });
            high - low
        };
        Straight {
            place: centred(points, axes),
            margin: (width - long(axes[0])).min(height - long(axes[1])),
            bound: f64::INFINITY,
        }
    };
    let rest = all[1..].iter().map(|&axes| fit(axes));
    rest.fold(fit(all[0]), |best, next| {
        match next.margin > best.margin + TOUCHING {
            true => next,
            false => best,
        }
    })
}

/// Along faces' normals and along edges: where silhouettes are least is mostly there.
fn likely(solid: &Solid) -> Vec<Vec3> {
    let mut directions: Vec<Vec3> = Vec::new();
    let normals = solid.faces.iter().map(|face| face.plane.normal);
    let edges = solid.edges();
    let edges = edges
        .iter()
        .filter_map(|e| (solid.vertices[e.to] - solid.vertices[e.from]).unit());
    for way in normals.chain(edges) {
        if !directions.iter().any(|d| d.cross(way).length() < 1e-6) {
            directions.push(way);
        }
    }
    directions
}

/// The best angle for one direction.
fn fit(points: &[Point3], direction: Vec3, width: f64, height: f64) -> Straight {
    let z = direction.unit().unwrap_or(Vec3::Z);
    let least = [Vec3::X, Vec3::Y, Vec3::Z]
        .into_iter()
        .min_by(|a, b| a.dot(z).abs().total_cmp(&b.dot(z).abs()));
    let x = least.unwrap_or(Vec3::X).cross(z).unit().unwrap_or(Vec3::X);
    let y = z.cross(x);
    let flat: Vec<Point2> = points
        .iter()
        .map(|p| Point2::new(p.to_vec().dot(x), p.to_vec().dot(y)))
        .collect();
    let (angle, margin) = rectangle_fit(&hull(flat), width, height);
    let (sin, cos) = angle.sin_cos();
    let axes = [x * cos + y * sin, y * cos - x * sin, z];
    Straight {
        place: centred(points, axes),
        margin,
        bound: margin,
    }
}

/// The motion after which the given axes of the solid are x, y and z.
fn centred(points: &[Point3], axes: [Vec3; 3]) -> Frame {
    let span = |axis: Vec3| {
        let along = points.iter().map(|p| p.to_vec().dot(axis));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), v| {
            (a.min(v), b.max(v))
        })
    };
    let [x, y, z] = axes.map(span);
    let shift = Vec3::new((x.0 + x.1) / -2.0, (y.0 + y.1) / -2.0, -z.0);
    let column = |pick: fn(Vec3) -> f64| {
        let [a, b, c] = axes.map(pick);
        Vec3::new(a, b, c)
    };
    Frame {
        origin: Point3::ORIGIN + shift,
        x: column(|v| v.x),
        y: column(|v| v.y),
        z: column(|v| v.z),
    }
}

/// Convex hull, counter-clockwise (A. M. Andrew's monotone chain, 1979, from memory).
fn hull(mut points: Vec<Point2>) -> Vec<Point2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    points.dedup();
    let half = |points: &mut dyn Iterator<Item = Point2>| {
        let mut chain: Vec<Point2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && side(a, b, p) != Side::Left
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut ring = half(&mut points.iter().copied());
    ring.extend(half(&mut points.iter().rev().copied()));
    ring
}

/// The angle of the rectangle's first side that leaves most, and what it leaves.
fn rectangle_fit(hull: &[Point2], width: f64, height: f64) -> (f64, f64) {
    let n = hull.len();
    let along = |i: usize| {
        let way = hull[(i + 1) % n] - hull[i];
        way.y.atan2(way.x).rem_euclid(FRAC_PI_2)
    };
    let mut ends: Vec<f64> = (0..n).map(along).chain([0.0, FRAC_PI_2]).collect();
    ends.sort_by(f64::total_cmp);
    let mut best = (0.0, f64::NEG_INFINITY);
    for turn in [0.0, FRAC_PI_2] {
        let left = |angle: f64| {
            let (u, v) = (span(hull, angle), span(hull, angle + FRAC_PI_2));
            (width - u.length(angle)).min(height - v.length(angle + FRAC_PI_2))
        };
        let mut take = |angle: f64| {
            let margin = left(angle);
            if margin > best.1 + TOUCHING {
                best = (angle, margin);
            }
        };
        for pair in ends.windows(2) {
            take(pair[0] + turn);
            if pair[1] - pair[0] > 1e-12 {
                let middle = (pair[0] + pair[1]) / 2.0 + turn;
                let (u, v) = (span(hull, middle), span(hull, middle + FRAC_PI_2));
                for angle in equal_margins(u.0, v.0, width - height) {
                    if (pair[0]..=pair[1]).contains(&(angle - turn)) {
                        take(angle);
                    }
                }
            }
        }
    }
    best
}

/// The way from the nearest to the farthest corner along a direction.
struct Span(Vec2);

impl Span {
    fn length(&self, angle: f64) -> f64 {
        let (sin, cos) = angle.sin_cos();
        self.0.dot(Vec2::new(cos, sin))
    }
}

fn span(hull: &[Point2], angle: f64) -> Span {
    let (sin, cos) = angle.sin_cos();
    let along = |p: &Point2| p.to_vec().dot(Vec2::new(cos, sin));
    let by = |a: &&Point2, b: &&Point2| along(a).total_cmp(&along(b));
    match (hull.iter().min_by(by), hull.iter().max_by(by)) {
        (Some(near), Some(far)) => Span(*far - *near),
        _ => Span(Vec2::default()),
    }
}

/// Angles at which `u` along the angle is longer by `more` than `v` along it and a quarter turn.
fn equal_margins(u: Vec2, v: Vec2, more: f64) -> [f64; 2] {
    // u.x cos + u.y sin + v.x sin - v.y cos = more
    let (a, b) = (u.x - v.y, u.y + v.x);
    let (phase, swing) = (b.atan2(a), (more / a.hypot(b)).clamp(-1.0, 1.0).acos());
    [phase + swing, phase - swing].map(|angle| angle.rem_euclid(PI))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::cube;

    #[test]
    fn a_box_passes_by_its_two_lesser_sides() {
        let solid = cube([1.0, 2.0, 3.0], [1.3, 2.5, 5.0]);
        let found = straight(&solid, 0.6, 0.35);
        assert!((found.margin - 0.05).abs() < 1e-9, "{}", found.margin);
        assert!(found.bound < 0.05 + 2.0 * FINE, "{}", found.bound);
        let (low, high) = solid.moved(&found.place).bounds();
        assert!((high.x - 0.25).abs() < 1e-9 && (low.x + 0.25).abs() < 1e-9);
        assert!((high.y - 0.15).abs() < 1e-9 && low.z.abs() < 1e-9);
    }

    #[test]
    fn a_cube_passes_a_smaller_square_than_its_face_is_not() {
        // Prince Rupert's cube: the unit cube passes a square hole of 1 only face on; its
        // silhouette never fits a square of less than 1 (the face is its least projection's square).
        let unit = cube([0.0; 3], [1.0, 1.0, 1.0]);
        assert!(straight(&unit, 0.999, 0.999).is_impossible());
        assert!(straight(&unit, 1.001, 1.001).passes());
    }

    #[test]
    fn a_long_box_goes_through_a_short_slot_only_turned() {
        // A rectangle p by q fits a by b (p > a) where
        // b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)) / (p^2 + q^2)
        // (J. E. Wetzel, "Rectangles in rectangles", Mathematics Magazine 73 (2000), from memory).
        let (p, q, a): (f64, f64, f64) = (1.05, 0.1, 1.0);
        let needed =
            (2.0 * p * q * a + (p * p - q * q) * (p * p + q * q - a * a).sqrt()) / (p * p + q * q);
        let plate = cube([0.0; 3], [p, q, 4.0]);
        let flat: Vec<Point2> = [(0.0, 0.0), (p, 0.0), (p, q), (0.0, q)]
            .map(|(x, y)| Point2::new(x, y))
            .to_vec();
        assert!(rectangle_fit(&hull(flat.clone()), a, needed + 1e-9).1 >= 0.0);
        assert!(rectangle_fit(&hull(flat), a, needed - 1e-6).1 < 0.0);
        let bar = straight(&plate, a, needed + 0.002);
        assert!(bar.passes(), "{}", bar.margin);
    }
}
