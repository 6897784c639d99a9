//! Elementary edges divided by the size field, once for all flats they lie in.

use super::arrange::Arrangement;
use super::fault::MeshFault;
use super::flat::Flat;
use super::size::SizeField;
use crate::vector::Point3;

/// Divides every edge into parts as long as the field asks, and appends the nodes.
pub(super) fn divide(
    arrangement: &mut Arrangement,
    flats: &[Flat],
    field: &SizeField,
    most_nodes: usize,
) -> Result<(), MeshFault> {
    let all = field.all();
    for edge in &mut arrangement.edges {
        let (first, last) = edge.ends();
        let (a, b) = (arrangement.nodes[first], arrangement.nodes[last]);
        let cap = edge.flats.iter().map(|f| flats[f.flat].size);
        let cap = cap.fold(f64::INFINITY, f64::min);
        let near = field.near(&all, a.midpoint(b), a.distance(b) / 2.0, cap);
        let wanted = |p: Point3| field.at(&near, p, cap);
        let room = most_nodes.saturating_sub(arrangement.nodes.len());
        let too_many = || MeshFault::TooManyNodes(edge.flats[0].flat, most_nodes);
        let shares = shares(a, b, wanted, room).ok_or_else(too_many)?;
        let mut nodes = vec![first];
        for share in shares {
            nodes.push(arrangement.nodes.len());
            arrangement.nodes.push(a + (b - a) * share);
        }
        nodes.push(last);
        edge.nodes = nodes;
    }
    Ok(())
}

/// Where to divide the segment from `a` to `b`, as shares of its length: places of equal steps
/// of the integral of 1/size. `None` where that takes more than `room`.
fn shares(a: Point3, b: Point3, wanted: impl Fn(Point3) -> f64, room: usize) -> Option<Vec<f64>> {
    let length = a.distance(b);
    let (mut at, mut count) = (0.0, 0.0);
    let mut here = wanted(a);
    let mut table = vec![(0.0, 0.0)];
    while at < length {
        let step = (here / STEPS_AN_ELEMENT).max(length * SHORTEST_STEP);
        let step = step.min(length - at);
        let next = if at + step < length {
            at + step
        } else {
            length
        };
        let there = wanted(a + (b - a) * (next / length));
        count += (next - at) * (1.0 / here + 1.0 / there) / 2.0;
        (at, here) = (next, there);
        table.push((at, count));
        if count > room as f64 + 1.0 {
            return None;
        }
    }
    let parts = (count - STRETCH).ceil().max(1.0) as usize;
    let mut row = 0;
    let place = |part: usize| {
        let target = count * part as f64 / parts as f64;
        while row + 2 < table.len() && table[row + 1].1 < target {
            row += 1;
        }
        let ((x0, c0), (x1, c1)) = (table[row], table[row + 1]);
        (x0 + (x1 - x0) * (target - c0) / (c1 - c0)) / length
    };
    Some((1..parts).map(place).collect())
}

/// Steps in which the integral is taken; the size grows little over a quarter of an element.
const STEPS_AN_ELEMENT: f64 = 4.0;
/// An edge may be this share of an element longer than its parts should make it: better
/// elements a little too large than a whole row much too small, and no jump by rounding.
const STRETCH: f64 = 0.2;
/// Steps are no shorter than this share of an edge, so that rounding cannot stop them; parts so
/// short are over any limit of nodes.
const SHORTEST_STEP: f64 = 1e-9;
