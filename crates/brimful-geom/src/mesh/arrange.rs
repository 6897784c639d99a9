//! All lines of all flats cut by each other into elementary edges between common nodes.

use super::fault::MeshFault;
use super::flat::Flat;
use super::line::{Extra, LinePart};
use super::meet::Piece;
use crate::vector::Point3;
use std::collections::BTreeMap;

/// Nodes and elementary edges of the whole.
#[derive(Clone, Debug)]
pub(super) struct Arrangement {
    /// Places of the nodes; grows when edges are divided.
    pub nodes: Vec<Point3>,
    /// Elementary edges, in order of their end nodes.
    pub edges: Vec<Edge>,
    /// For each flat the nodes of its extra points.
    pub points: Vec<Vec<usize>>,
}

/// A straight edge that no other line cuts.
#[derive(Clone, Debug)]
pub(super) struct Edge {
    /// Its nodes in order: the two ends, and what lies between once divided.
    pub nodes: Vec<usize>,
    /// The flats it lies in, by number.
    pub flats: Vec<EdgeFlat>,
    /// The extra segments it is part of.
    pub extras: Vec<Extra>,
    /// Outline length of the smallest hole it goes round, m.
    pub hole: Option<f64>,
}

/// How an elementary edge lies in a flat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct EdgeFlat {
    /// Which flat.
    pub flat: usize,
    /// Whether the flat ends here.
    pub part: LinePart,
    /// For an edge of the flat: whether the material is to the left of the edge as stored.
    pub forward: bool,
}

impl Edge {
    /// The two ends.
    pub fn ends(&self) -> (usize, usize) {
        (self.nodes[0], self.nodes[self.nodes.len() - 1])
    }
    /// How the edge lies in a flat, if it does.
    pub fn in_flat(&self, flat: usize) -> Option<&EdgeFlat> {
        self.flats.iter().find(|f| f.flat == flat)
    }
}

impl Arrangement {
    /// Cuts `pieces` at their ends and crossings; places within `merge` are one node.
    pub fn of(flats: &[Flat], pieces: &[Piece], merge: f64) -> Result<Self, MeshFault> {
        let mut register = Register::new(merge);
        let mut ends: Vec<_> = Vec::with_capacity(pieces.len());
        for piece in pieces {
            ends.push((register.node(piece.a), register.node(piece.b)));
        }
        let points = flats
            .iter()
            .map(|flat| {
                let world = flat.points.iter().map(|&p| flat.frame.world_from_flat(p));
                world.map(|p| register.node(p)).collect()
            })
            .collect();
        for place in crossings(flats, pieces, &ends, &register.nodes) {
            register.node(place);
        }
        let nodes = register.nodes;
        let edges = cut(pieces, &ends, &nodes, merge)?;
        Ok(Self {
            nodes,
            edges,
            points,
        })
    }

    /// The elementary edges of a flat with how they lie in it.
    pub fn edges_of(&self, flat: usize) -> impl Iterator<Item = (&Edge, &EdgeFlat)> {
        self.edges
            .iter()
            .filter_map(move |edge| edge.in_flat(flat).map(|lies| (edge, lies)))
    }
}

/// Where lines of one flat cross inside both. Sides of its outlines are known not to.
fn crossings(
    flats: &[Flat],
    pieces: &[Piece],
    ends: &[(usize, usize)],
    nodes: &[Point3],
) -> Vec<Point3> {
    let mut places = Vec::new();
    for (index, flat) in flats.iter().enumerate() {
        let flat_place = |node: usize| flat.frame.flat_from_world(nodes[node]);
        let mine: Vec<_> = pieces
            .iter()
            .zip(ends)
            .filter_map(|(piece, &(a, b))| {
                let (_, part) = piece.flats.iter().find(|(f, _)| *f == index)?;
                Some((a, b, flat_place(a), flat_place(b), *part))
            })
            .collect();
        for (i, &(a, b, from, to, part)) in mine.iter().enumerate() {
            if part == LinePart::Edge {
                continue;
            }
            for (j, &(c, d, start, end, other)) in mine.iter().enumerate() {
                let found_before = other == LinePart::Interior && j <= i;
                if found_before || a == c || a == d || b == c || b == d {
                    continue;
                }
                let (u, v) = (to - from, end - start);
                let sine = u.cross(v);
                if sine.abs() <= SAME_LINE_SINE * u.length() * v.length() {
                    continue;
                }
                let share = (start - from).cross(v) / sine;
                let their = (start - from).cross(u) / sine;
                if (0.0..=1.0).contains(&share) && (0.0..=1.0).contains(&their) {
                    places.push(nodes[a] + (nodes[b] - nodes[a]) * share);
                }
            }
        }
    }
    places
}

/// Cuts every piece at every node that lies on it and joins what coincides.
fn cut(
    pieces: &[Piece],
    ends: &[(usize, usize)],
    nodes: &[Point3],
    merge: f64,
) -> Result<Vec<Edge>, MeshFault> {
    let mut by_x: Vec<usize> = (0..nodes.len()).collect();
    by_x.sort_by(|&i, &j| nodes[i].x.total_cmp(&nodes[j].x));
    let mut edges: BTreeMap<(usize, usize), Edge> = BTreeMap::new();
    for (piece, &(a, b)) in pieces.iter().zip(ends) {
        let chain = nodes_on(a, b, nodes, &by_x, merge);
        for pair in chain.windows(2) {
            let forward = pair[0] < pair[1];
            let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            let edge = edges.entry(key).or_insert_with(|| Edge {
                nodes: vec![key.0, key.1],
                flats: Vec::new(),
                extras: Vec::new(),
                hole: None,
            });
            add_piece(edge, piece, forward)
                .map_err(|flat| MeshFault::SidesTouch(flat, nodes[key.0].midpoint(nodes[key.1])))?;
        }
    }
    Ok(edges.into_values().collect())
}

/// Adds to an elementary edge what one more piece says of it; the flat that would end twice on it.
fn add_piece(edge: &mut Edge, piece: &Piece, forward: bool) -> Result<(), usize> {
    for &(flat, part) in &piece.flats {
        let lies = EdgeFlat {
            flat,
            part,
            forward,
        };
        match edge.flats.binary_search_by_key(&flat, |f| f.flat) {
            Err(at) => edge.flats.insert(at, lies),
            Ok(_) if part == LinePart::Interior => {}
            Ok(at) if edge.flats[at].part == LinePart::Interior => edge.flats[at] = lies,
            Ok(_) => return Err(flat),
        }
        if let Some(segment) = piece.segment {
            let extra = Extra { flat, segment };
            if !edge.extras.contains(&extra) {
                edge.extras.push(extra);
            }
        }
    }
    edge.hole = match (edge.hole, piece.hole) {
        (Some(a), Some(b)) => Some(a.min(b)),
        (a, b) => a.or(b),
    };
    Ok(())
}

/// The nodes within `merge` of the segment from `a` to `b`, in order along it, ends included.
fn nodes_on(a: usize, b: usize, nodes: &[Point3], by_x: &[usize], merge: f64) -> Vec<usize> {
    let (from, way) = (nodes[a], nodes[b] - nodes[a]);
    let length = way.length();
    let Some(along) = way.unit().filter(|_| a != b) else {
        return Vec::new();
    };
    let (low, high) = (
        nodes[a].x.min(nodes[b].x) - merge,
        nodes[a].x.max(nodes[b].x) + merge,
    );
    let first = by_x.partition_point(|&i| nodes[i].x < low);
    let mut on: Vec<(f64, usize)> = by_x[first..]
        .iter()
        .take_while(|&&i| nodes[i].x <= high)
        .filter(|&&i| i != a && i != b)
        .filter_map(|&i| {
            let w = nodes[i] - from;
            let at = w.dot(along);
            let near = (w - along * at).length() <= merge;
            (near && at > 0.0 && at < length).then_some((at, i))
        })
        .collect();
    on.sort_by(|p, q| p.0.total_cmp(&q.0).then(p.1.cmp(&q.1)));
    let mut chain = vec![a];
    chain.extend(on.into_iter().map(|(_, i)| i));
    chain.push(b);
    chain
}

/// Nodes looked up by place. The first place given stands for all that are near it.
struct Register {
    nodes: Vec<Point3>,
    cells: BTreeMap<[i64; 3], Vec<usize>>,
    merge: f64,
}

impl Register {
    fn new(merge: f64) -> Self {
        Self {
            nodes: Vec::new(),
            cells: BTreeMap::new(),
            merge,
        }
    }

    /// The node at a place, new if there is none within the tolerance.
    fn node(&mut self, place: Point3) -> usize {
        let cell = place.to_array().map(|v| (v / self.merge).floor() as i64);
        let mut nearest: Option<(f64, usize)> = None;
        for i in 0..27_i64 {
            let step = [i % 3 - 1, i / 3 % 3 - 1, i / 9 - 1];
            let key = [0, 1, 2].map(|axis| cell[axis].saturating_add(step[axis]));
            for &node in self.cells.get(&key).into_iter().flatten() {
                let distance = self.nodes[node].distance(place);
                if distance <= self.merge && nearest.is_none_or(|(d, _)| distance < d) {
                    nearest = Some((distance, node));
                }
            }
        }
        if let Some((_, node)) = nearest {
            return node;
        }
        let node = self.nodes.len();
        self.nodes.push(place);
        self.cells.entry(cell).or_default().push(node);
        node
    }
}

/// Lines that lean less than this to each other (sine) have no crossing worth a node: ends that
/// lie on the other line cut it instead.
const SAME_LINE_SINE: f64 = 1e-6;
