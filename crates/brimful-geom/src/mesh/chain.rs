//! Elementary edges joined into maximal straight lines.

use super::arrange::{Arrangement, Edge};
use super::line::{Extra, LineFlat, MeshLine};
use std::collections::BTreeMap;

/// All lines of a mesh.
pub(super) fn lines(arrangement: &Arrangement) -> Vec<MeshLine> {
    let edges = &arrangement.edges;
    let mut at_node: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, edge) in edges.iter().enumerate() {
        let (a, b) = edge.ends();
        at_node.entry(a).or_default().push(index);
        at_node.entry(b).or_default().push(index);
    }
    let mut used = vec![false; edges.len()];
    let mut lines = Vec::new();
    for start in 0..edges.len() {
        if used[start] {
            continue;
        }
        used[start] = true;
        let mut nodes: Vec<_> = edges[start].nodes.iter().rev().copied().collect();
        for _ in 0..2 {
            nodes.reverse();
            let mut last = start;
            while let Some(next) = continuation(arrangement, &at_node, &used, &nodes, last) {
                used[next] = true;
                extend(&mut nodes, &edges[next]);
                last = next;
            }
        }
        lines.push(line(nodes, &edges[start]));
    }
    lines
}

fn line(nodes: Vec<usize>, edge: &Edge) -> MeshLine {
    MeshLine {
        nodes,
        flats: signature(edge).0,
        extras: signature(edge).1,
    }
}

/// The unused edge that goes straight on from the end of `nodes` with the same flats.
fn continuation(
    arrangement: &Arrangement,
    at_node: &BTreeMap<usize, Vec<usize>>,
    used: &[bool],
    nodes: &[usize],
    last: usize,
) -> Option<usize> {
    let place = |node: usize| arrangement.nodes[node];
    let end = nodes[nodes.len() - 1];
    let way = (place(end) - place(nodes[0])).unit()?;
    let wanted = signature(&arrangement.edges[last]);
    let goes_on = |&&index: &&usize| {
        let edge = &arrangement.edges[index];
        let (a, b) = edge.ends();
        let far = if a == end { b } else { a };
        let straight = (place(far) - place(end)).unit().is_some_and(|onward| {
            onward.dot(way) > 0.0 && onward.cross(way).length() < STRAIGHT_SINE
        });
        !used[index] && straight && signature(edge) == wanted
    };
    at_node.get(&end)?.iter().find(goes_on).copied()
}

fn extend(nodes: &mut Vec<usize>, edge: &Edge) {
    let end = nodes[nodes.len() - 1];
    if edge.nodes[0] == end {
        nodes.extend(&edge.nodes[1..]);
    } else {
        nodes.extend(edge.nodes.iter().rev().skip(1));
    }
}

fn signature(edge: &Edge) -> (Vec<LineFlat>, Vec<Extra>) {
    let flats = edge.flats.iter().map(|f| LineFlat {
        flat: f.flat,
        part: f.part,
    });
    let mut extras = edge.extras.clone();
    extras.sort();
    (flats.collect(), extras)
}

/// Lines that turn by less than this (sine; 0.06 degrees) go straight on: more than merging
/// nodes turns an edge of a centimetre, less than any fold that is meant.
const STRAIGHT_SINE: f64 = 1e-3;
