//! How far a panel stands outward at each of its places, under whatever load asks most there.
//!
//! The shell tells it at its nodes. Over a triangle it is taken as straight, plus what a curve through
//! the neighbours stands over that; outside the mesh, which ends where the middles of sheets meet, as
//! at the next edge of the mesh; in holes as the greatest of the whole panel.

use super::convex::Convex;
use brimful_geom::plate::Plate;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_panels::panel::Panel;
use brimful_strength::whole::{Displacement, Whole};
use brimful_units::Length;
use std::collections::BTreeMap;
use std::sync::Arc;

/// What a curve stands over its chords, as a share of how far the chord of one triangle, drawn on, misses
/// the far corner of the next: for even spans `f'' h^2 / 8` on a line, of `f'' h^2`; in a triangle the
/// three sides together make at most four thirds of that.
const OVER_CHORD: f64 = 1.0 / 6.0;

/// So much further than the furthest corner is looked, m, so that rounding leaves none out.
const ROUNDING: f64 = 1e-6;

/// Where a panel stands outward, and by how much.
#[derive(Clone, Debug, PartialEq)]
pub struct Bulge {
    /// The greatest of all, m.
    pub most: f64,
    /// Where it is known place by place; none where only the greatest is.
    pub patches: Vec<Patch>,
}

/// Part of a panel over which the bulge is straight.
#[derive(Clone, Debug, PartialEq)]
pub struct Patch {
    /// Where, in the axes of the panel's plate.
    pub outline: Convex,
    /// The bulge at the origin of those axes, m, and how much more it is per metre along each.
    straight: [f64; 3],
}

impl Patch {
    /// Where it is straight: at the origin, and per metre along each axis, m.
    #[cfg(test)]
    pub fn new(outline: Convex, straight: [f64; 3]) -> Self {
        Self { outline, straight }
    }

    fn even(outline: Convex, height: f64) -> Self {
        Self {
            outline,
            straight: [height, 0.0, 0.0],
        }
    }

    /// The bulge at a place, m.
    pub fn at(&self, place: Point2) -> f64 {
        let [height, x, y] = self.straight;
        height + x * place.x + y * place.y
    }
}

impl Bulge {
    /// The same everywhere.
    pub fn even(most: Length) -> Self {
        Self {
            most: most.m(),
            patches: Vec::new(),
        }
    }

    /// The greatest at a place, m.
    pub fn at(&self, place: Point2) -> f64 {
        let own = self.patches.iter();
        let own = own.filter(|patch| patch.outline.contains(place));
        own.map(|patch| patch.at(place))
            .reduce(f64::max)
            .unwrap_or(self.most)
    }

    /// What the whole-tank check found of a panel, on the finest mesh of each load case. `most` is the
    /// greatest on any mesh, and `corners` those of what goes out with the panel.
    pub fn of(
        whole: &Whole,
        number: usize,
        panel: &Panel,
        most: Length,
        corners: impl Iterator<Item = Point3>,
    ) -> Self {
        let plate = &panel.finished;
        let corners: Vec<Point2> = corners.map(|it| plate.frame.flat_from_world(it)).collect();
        let mut patches = Vec::new();
        for (mesh, cases) in by_mesh(whole) {
            let field = Field::of(whole, mesh, &cases, number, plate);
            patches.extend(field.patches(field.reach(&corners)));
        }
        let cutouts = plate
            .cutouts
            .iter()
            .filter_map(|it| Convex::of(it.outline().0));
        if !patches.is_empty() {
            patches.extend(cutouts.map(|outline| Patch::even(outline, most.m())));
        }
        Self {
            most: most.m(),
            patches,
        }
    }
}

/// Numbers of the load cases that stand on each mesh.
fn by_mesh(whole: &Whole) -> Vec<(&Displacement, Vec<usize>)> {
    let mut meshes: Vec<(&Displacement, Vec<usize>)> = Vec::new();
    for (number, displacement) in whole.displacements.iter().enumerate() {
        let own = meshes
            .iter_mut()
            .find(|(first, _)| Arc::ptr_eq(&first.mesh, &displacement.mesh));
        match own {
            Some((_, cases)) => cases.push(number),
            None => meshes.push((displacement, vec![number])),
        }
    }
    meshes
}

/// The bulge of a panel on one mesh.
struct Field {
    /// The triangles of the panel, by their nodes.
    triangles: Vec<[usize; 3]>,
    /// Where each node lies, in the axes of the plate.
    places: BTreeMap<usize, Point2>,
    /// The greatest of all cases at each node, m.
    heights: BTreeMap<usize, f64>,
    /// What a curve stands over each triangle, m.
    over: Vec<f64>,
}

impl Field {
    fn of(
        whole: &Whole,
        first: &Displacement,
        cases: &[usize],
        number: usize,
        plate: &Plate,
    ) -> Self {
        let mesh = &first.mesh;
        let own = mesh.triangles.iter().zip(&mesh.panel);
        let own = own.filter(|(_, panel)| **panel == number);
        let triangles: Vec<[usize; 3]> = own.map(|(nodes, _)| *nodes).collect();
        let place = |node: usize| plate.frame.flat_from_world(mesh.nodes[node]);
        let nodes = triangles.iter().flatten();
        let places: BTreeMap<usize, Point2> = nodes.map(|&node| (node, place(node))).collect();
        let across = across(&triangles);
        let mut heights: BTreeMap<usize, f64> = places.keys().map(|&node| (node, 0.0)).collect();
        let mut over = vec![0.0; triangles.len()];
        for &case in cases {
            let of_case = outward(whole, case, number, plate.frame.z, &places);
            for (node, height) in &of_case {
                let most = heights.entry(*node).or_insert(0.0);
                *most = most.max(*height);
            }
            for (triangle, nodes) in triangles.iter().enumerate() {
                let chord = Chord::of(nodes.map(|node| (places[&node], of_case[&node])));
                let sags = across[triangle]
                    .iter()
                    .map(|far| chord.at(places[far]) - of_case[far]);
                over[triangle] = sags
                    .map(|sag| sag * OVER_CHORD)
                    .fold(over[triangle], f64::max);
            }
        }
        Self {
            triangles,
            places,
            heights,
            over,
        }
    }

    /// How far off the mesh the furthest of some places lies, m.
    fn reach(&self, places: &[Point2]) -> f64 {
        let off = |place: &Point2| {
            let nodes = self.places.values();
            nodes
                .map(|node| node.distance(*place))
                .fold(f64::INFINITY, f64::min)
        };
        places.iter().map(off).fold(0.0, f64::max) + ROUNDING
    }

    fn patches(&self, reach: f64) -> Vec<Patch> {
        let mut patches = Vec::new();
        let edges = edges(&self.triangles);
        for (nodes, over) in self.triangles.iter().zip(&self.over) {
            let corners = nodes.map(|node| self.places[&node]);
            let chord = Chord::of(nodes.map(|node| (self.places[&node], self.heights[&node])));
            let Chord([height, x, y]) = chord;
            patches.extend(Convex::of(corners.to_vec()).map(|outline| Patch {
                outline,
                straight: [height + over, x, y],
            }));
        }
        for ([a, b], triangles) in edges {
            let [triangle] = triangles[..] else {
                continue;
            };
            let height = self.heights[&a].max(self.heights[&b]) + self.over[triangle];
            let outline = Convex::about(self.places[&a], self.places[&b], reach);
            patches.extend(outline.map(|outline| Patch::even(outline, height)));
        }
        patches
    }
}

/// How far each node of a panel stands outward in a load case, m. What it came to on the finest mesh is
/// stretched to the most that the panel came to on any.
fn outward(
    whole: &Whole,
    case: usize,
    panel: usize,
    way: Vec3,
    places: &BTreeMap<usize, Point2>,
) -> BTreeMap<usize, f64> {
    let (run, displacement) = (&whole.cases[case], &whole.displacements[case]);
    let last = run.figures.panels[panel].outward;
    let earlier = run
        .earlier
        .iter()
        .map(|figures| figures.panels[panel].outward);
    let most = earlier.fold(last, f64::max);
    let (stretch, more) = match last > 0.0 {
        true => (most / last, 0.0),
        false => (1.0, most),
    };
    let nodes = places.keys().copied();
    nodes
        .map(|node| {
            let by = displacement.along(node, way, run.limits.strictest().growth);
            (node, stretch * by + more)
        })
        .collect()
}

/// A height that is straight over the plane: at the origin, and per metre along each axis.
struct Chord([f64; 3]);

impl Chord {
    /// Through three places; level where they lie on a line.
    fn of(points: [(Point2, f64); 3]) -> Self {
        let [(a, at_a), (b, at_b), (c, at_c)] = points;
        let (u, v) = (b - a, c - a);
        let area = u.cross(v);
        let (p, q) = (at_b - at_a, at_c - at_a);
        let (x, y) = ((p * v.y - q * u.y) / area, (q * u.x - p * v.x) / area);
        if !(x.is_finite() && y.is_finite()) {
            return Self([at_a.max(at_b).max(at_c), 0.0, 0.0]);
        }
        Self([at_a - x * a.x - y * a.y, x, y])
    }

    fn at(&self, place: Point2) -> f64 {
        let Self([height, x, y]) = self;
        height + x * place.x + y * place.y
    }
}

/// The triangles at each edge.
fn edges(triangles: &[[usize; 3]]) -> BTreeMap<[usize; 2], Vec<usize>> {
    let mut edges: BTreeMap<[usize; 2], Vec<usize>> = BTreeMap::new();
    for (number, [a, b, c]) in triangles.iter().enumerate() {
        for (from, to) in [(a, b), (b, c), (c, a)] {
            edges
                .entry([*from.min(to), *from.max(to)])
                .or_default()
                .push(number);
        }
    }
    edges
}

/// The far corners of the neighbours of each triangle.
fn across(triangles: &[[usize; 3]]) -> Vec<Vec<usize>> {
    let mut across = vec![Vec::new(); triangles.len()];
    for ([a, b], beside) in edges(triangles) {
        for &own in &beside {
            let others = beside.iter().filter(|&&other| other != own);
            let far = others.flat_map(|&other| triangles[other]);
            across[own].extend(far.filter(|&node| node != a && node != b));
        }
    }
    across
}
