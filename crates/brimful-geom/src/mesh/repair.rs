//! Triangles smoothed, and skinny ones taken out.

use super::delaunay::{Lines, Meshed, triangles};
use super::smooth::{Stars, smooth};
use crate::polygon::distance_to_segment;
use crate::predicate::segments_touch;
use crate::vector::Point2;
use std::collections::BTreeSet;

/// The best mesh found over the nodes on `lines` and the places `inner`; the place of a line
/// that cannot be kept, if there is one.
///
/// Skinny triangles lose a node that is too near another, or gain one at the off-centre of their
/// shortest side (A. Üngör, "Off-centers", LATIN 2004: the place on the bisector of the shortest
/// side from where it is seen under the wanted angle, or the circumcentre where that is nearer).
pub(super) fn best(lines: &Lines, inner: Vec<Point2>) -> Result<Meshed, Point2> {
    let fixed = lines.places.len();
    let mut places = lines.places.clone();
    places.extend(inner);
    let first = triangles(lines, &places)?;
    let mut mesh = Meshed {
        places,
        triangles: first,
    };
    let kept: BTreeSet<(usize, usize)> = lines
        .sides
        .iter()
        .flat_map(|&[i, j]| [(i, j), (j, i)])
        .collect();
    let mut best: Option<(f64, Meshed)> = None;
    for _ in 0..PASSES {
        for _ in 0..ROUNDS {
            smooth(&mut mesh.places, fixed, &mesh.triangles);
            match triangles(lines, &mesh.places) {
                Ok(found) => mesh.triangles = found,
                Err(place) => return best.map(|(_, mesh)| mesh).ok_or(place),
            }
        }
        let bad = skinny(&mesh, &kept);
        let worst = bad.first().map_or(f64::INFINITY, |b| b.angle);
        if best.as_ref().is_none_or(|(angle, _)| worst > *angle) {
            best = Some((worst, mesh.clone()));
        }
        if bad.is_empty() || !repair(lines, &mut mesh, &bad) {
            break;
        }
        match triangles(lines, &mesh.places) {
            Ok(found) => mesh.triangles = found,
            Err(place) => return best.map(|(_, mesh)| mesh).ok_or(place),
        }
    }
    Ok(best.map_or(mesh, |(_, mesh)| mesh))
}

/// A triangle with an angle that could be larger.
struct Skinny {
    triangle: usize,
    angle: f64,
    /// Its nodes: that of the smallest angle first, then on counter-clockwise.
    nodes: [usize; 3],
}

/// The skinny triangles, worst first, without those whose small angle lies between two lines.
fn skinny(mesh: &Meshed, kept: &BTreeSet<(usize, usize)>) -> Vec<Skinny> {
    let mut bad = Vec::new();
    for (triangle, &nodes) in mesh.triangles.iter().enumerate() {
        for turn in 0..3 {
            let nodes = [0, 1, 2].map(|i| nodes[(i + turn) % 3]);
            let angle = angle(mesh, nodes);
            let given =
                || kept.contains(&(nodes[0], nodes[1])) && kept.contains(&(nodes[0], nodes[2]));
            if angle < WANTED && !given() {
                bad.push(Skinny {
                    triangle,
                    angle,
                    nodes,
                });
            }
        }
    }
    bad.sort_by(|a, b| {
        a.angle
            .total_cmp(&b.angle)
            .then(a.triangle.cmp(&b.triangle))
    });
    bad
}

/// Angle at the first of three nodes, radians.
fn angle(mesh: &Meshed, nodes: [usize; 3]) -> f64 {
    let [a, b, c] = nodes.map(|n| mesh.places[n]);
    (b - a).cross(c - a).atan2((b - a).dot(c - a))
}

/// Takes out or adds a node for each skinny triangle not near one already repaired; whether any
/// could be.
fn repair(lines: &Lines, mesh: &mut Meshed, bad: &[Skinny]) -> bool {
    let fixed = lines.places.len();
    let stars = Stars::of(mesh.places.len(), &mesh.triangles);
    let mut touched = vec![false; mesh.places.len()];
    let mut removed = vec![false; mesh.places.len()];
    let mut added = Vec::new();
    for skinny in bad {
        if skinny.nodes.iter().any(|&n| touched[n]) {
            continue;
        }
        let [_, b, c] = skinny.nodes;
        let obtuse = [b, c].into_iter().find(|&n| {
            let turn = skinny.nodes.iter().position(|&m| m == n).unwrap_or(0);
            n >= fixed && angle(mesh, [0, 1, 2].map(|i| skinny.nodes[(i + turn) % 3])) > OBTUSE
        });
        if let Some(node) = obtuse {
            removed[node] = true;
        } else if b >= fixed && c >= fixed {
            removed[c] = true;
            mesh.places[b] = mesh.places[b].midpoint(mesh.places[c]);
        } else if b >= fixed || c >= fixed {
            removed[b.max(c)] = true;
        } else if let Some(place) = off_centre(lines, mesh, skinny.nodes) {
            added.push(place);
        } else {
            continue;
        }
        for &node in &skinny.nodes {
            for &t in stars.round(node) {
                mesh.triangles[t].iter().for_each(|&n| touched[n] = true);
            }
        }
    }
    let mut index = 0..removed.len();
    mesh.places
        .retain(|_| !index.next().is_some_and(|i| removed[i]));
    mesh.places.extend(&added);
    !added.is_empty() || removed.contains(&true)
}

/// Where a node would repair a triangle whose shortest side, across from its first node, is kept;
/// `None` where that is behind a line or too near to one.
fn off_centre(lines: &Lines, mesh: &Meshed, nodes: [usize; 3]) -> Option<Point2> {
    let [a, b, c] = nodes.map(|n| mesh.places[n]);
    let (short, middle) = (b.distance(c), b.midpoint(c));
    // Circumcentre on the bisector: half the side over the tangent of the angle across from it.
    let to_circumcentre = short / 2.0 / angle(mesh, nodes).tan();
    let height = to_circumcentre.min(short * OFF_CENTRE);
    let place = middle + (c - b).unit()?.left() * height;
    debug_assert!((a - middle).dot(place - middle) > 0.0);
    let clear = |&[i, j]: &[usize; 2]| {
        let side = (lines.places[i], lines.places[j]);
        let own = side == (b, c) || side == (c, b);
        distance_to_segment(place, side.0, side.1) >= CLEAR * short
            && (own || !segments_touch((middle, place), side))
    };
    lines.sides.iter().all(clear).then_some(place)
}

/// Angle below which a triangle is repaired, radians (25 degrees; more seldom ends well).
const WANTED: f64 = 25.0 * std::f64::consts::PI / 180.0;
/// A free node with an angle above this (120 degrees) is too near the side across.
const OBTUSE: f64 = 120.0 * std::f64::consts::PI / 180.0;
/// Height of the off-centre over its side, of the side: the tip of an angle of 45 degrees.
const OFF_CENTRE: f64 = 1.2;
/// New nodes keep this share of the shortest side from all lines.
const CLEAR: f64 = 0.4;
/// How often skinny triangles are repaired.
const PASSES: usize = 10;
/// How often nodes are moved and sides chosen again between.
const ROUNDS: usize = 2;
