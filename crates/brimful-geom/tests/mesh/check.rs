//! What every mesh must be, counted again from its nodes and triangles.

use brimful_geom::mesh::{Flat, LinePart, Mesh, Size};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point3;
use std::collections::{BTreeMap, BTreeSet};

pub const MERGE: f64 = 1e-6;

/// How often each side is used by the triangles of one flat.
type Uses = BTreeMap<(usize, usize), usize>;

/// Meshes and checks; gives the mesh and its worst angle, degrees, given corners left out.
pub fn meshed(flats: &[Flat], size: &Size) -> (Mesh, f64) {
    let mesh = Mesh::of(flats, size, MERGE).unwrap();
    let uses = uses(flats, &mesh);
    areas(flats, &mesh);
    borders(flats, &mesh, &uses);
    lines(&mesh, &uses);
    conformity(flats, &mesh, &uses);
    let worst = worst_angle(&mesh);
    (mesh, worst)
}

fn uses(flats: &[Flat], mesh: &Mesh) -> Vec<Uses> {
    let mut uses = vec![Uses::new(); flats.len()];
    let mut directed = BTreeSet::new();
    for t in &mesh.triangles {
        for i in 0..3 {
            let (a, b) = (t.nodes[i], t.nodes[(i + 1) % 3]);
            assert!(
                directed.insert((t.flat, a, b)),
                "a side is used twice one way"
            );
            *uses[t.flat].entry((a.min(b), a.max(b))).or_default() += 1;
        }
    }
    uses
}

fn areas(flats: &[Flat], mesh: &Mesh) {
    for (index, flat) in flats.iter().enumerate() {
        let area = |nodes: [usize; 3]| {
            let [a, b, c] = nodes.map(|n| mesh.nodes[n]);
            (b - a).cross(c - a).dot(flat.frame.z) / 2.0
        };
        let mine = mesh.triangles.iter().filter(|t| t.flat == index);
        let found: f64 = mine
            .map(|t| area(t.nodes))
            .inspect(|&a| assert!(a > 0.0))
            .sum();
        let wanted: f64 = flat.outlines.iter().map(Outline::signed_area).sum();
        assert!(
            (found - wanted).abs() < 1e-9 * wanted.max(1.0),
            "{index}: {found} {wanted}"
        );
    }
}

/// Sides used once are on an outline; all others are used twice.
fn borders(flats: &[Flat], mesh: &Mesh, uses: &[Uses]) {
    for (flat, uses) in flats.iter().zip(uses) {
        for (&(a, b), &count) in uses {
            let middle = mesh.nodes[a].midpoint(mesh.nodes[b]);
            let distance = edge_distance(flat, middle);
            let ends = [a, b].map(|n| edge_distance(flat, mesh.nodes[n]));
            let border = distance < MERGE && ends.iter().all(|&d| d < MERGE);
            assert_eq!(count, if border { 1 } else { 2 });
        }
    }
}

/// Every side of a line is a side in all flats it names, once where they end there.
fn lines(mesh: &Mesh, uses: &[Uses]) {
    let mut seen = BTreeSet::new();
    for line in &mesh.lines {
        for pair in line.nodes.windows(2) {
            let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            assert!(seen.insert(key), "a side is on two lines");
            for there in &line.flats {
                let count = if there.part == LinePart::Edge { 1 } else { 2 };
                assert_eq!(uses[there.flat].get(&key), Some(&count));
            }
            let known = |flat: usize| line.flats.iter().any(|f| f.flat == flat);
            for (flat, uses) in uses.iter().enumerate() {
                assert!(
                    known(flat) || !uses.contains_key(&key),
                    "a line leaves out a flat"
                );
            }
        }
    }
    for (flat, uses) in uses.iter().enumerate() {
        for (key, &count) in uses {
            assert!(
                count == 2 || seen.contains(key),
                "an edge of flat {flat} is on no line"
            );
        }
    }
}

/// A triangle side of one flat that lies in another, by its place alone, is a side there too.
fn conformity(flats: &[Flat], mesh: &Mesh, uses: &[Uses]) {
    for (index, mine) in uses.iter().enumerate() {
        for (other, flat) in flats.iter().enumerate() {
            if other == index {
                continue;
            }
            for &(a, b) in mine.keys() {
                let (p, q) = (mesh.nodes[a], mesh.nodes[b]);
                let places = [p, p.midpoint(q), q];
                if places.iter().all(|&p| lies_in(flat, p)) {
                    assert!(
                        uses[other].contains_key(&(a, b)),
                        "flats {index} and {other} do not conform at {p:?} {q:?}"
                    );
                }
            }
        }
    }
}

fn lies_in(flat: &Flat, p: Point3) -> bool {
    let local = flat.frame.frame_from_world(p);
    if local.z.abs() > MERGE {
        return false;
    }
    let at = flat.frame.flat_from_world(p);
    let inside =
        flat.outlines[0].contains(at) && !flat.outlines[1..].iter().any(|o| o.contains(at));
    inside || edge_distance(flat, p) < MERGE
}

fn edge_distance(flat: &Flat, p: Point3) -> f64 {
    let at = flat.frame.flat_from_world(p);
    let distances = flat.outlines.iter().map(|o| o.distance(at));
    distances.fold(f64::INFINITY, f64::min)
}

/// Smallest angle that is not between two lines, degrees.
fn worst_angle(mesh: &Mesh) -> f64 {
    let kept: BTreeSet<(usize, usize)> = mesh
        .lines
        .iter()
        .flat_map(|l| l.nodes.windows(2))
        .flat_map(|w| [(w[0], w[1]), (w[1], w[0])])
        .collect();
    let mut worst = 180.0_f64;
    for t in &mesh.triangles {
        for i in 0..3 {
            let [a, b, c] = [0, 1, 2].map(|j| t.nodes[(i + j) % 3]);
            if kept.contains(&(a, b)) && kept.contains(&(a, c)) {
                continue;
            }
            let [p, q, r] = [a, b, c].map(|n| mesh.nodes[n]);
            let (u, v) = (q - p, r - p);
            worst = worst.min(u.cross(v).length().atan2(u.dot(v)).to_degrees());
        }
    }
    worst
}

/// Smallest angle between two lines at a node of a flat, degrees.
pub fn given_angle(flats: &[Flat], mesh: &Mesh) -> f64 {
    let mut least = 180.0_f64;
    for flat in 0..flats.len() {
        let mut ways: BTreeMap<usize, Vec<_>> = BTreeMap::new();
        for line in &mesh.lines {
            if line.flats.iter().any(|f| f.flat == flat) {
                for w in line.nodes.windows(2) {
                    let way = mesh.nodes[w[1]] - mesh.nodes[w[0]];
                    ways.entry(w[0]).or_default().push(way);
                    ways.entry(w[1]).or_default().push(-way);
                }
            }
        }
        for ways in ways.values() {
            for (i, u) in ways.iter().enumerate() {
                for v in &ways[..i] {
                    least = least.min(u.cross(*v).length().atan2(u.dot(*v)).to_degrees());
                }
            }
        }
    }
    least
}

/// How many triangles, of all flats, use each side.
pub fn side_counts(mesh: &Mesh) -> Uses {
    let mut counts = Uses::new();
    for t in &mesh.triangles {
        for i in 0..3 {
            let (a, b) = (t.nodes[i], t.nodes[(i + 1) % 3]);
            *counts.entry((a.min(b), a.max(b))).or_default() += 1;
        }
    }
    counts
}
