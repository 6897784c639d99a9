//! Places where the resultants are read between the nodes: they run straight between the corners of a
//! triangle. At the face of the sheet that another stands against, off a line of the mesh, and on circles round
//! notches.

use super::model::Model;
use super::place::centroid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Resultants, Shell};
use brimful_mech::shell::recover::Smooth;

/// A place inside a triangle.
#[derive(Clone, Copy, Debug)]
pub struct SamplePoint {
    /// The triangle of the mesh.
    pub triangle: usize,
    /// Shares of its corners.
    shares: [f64; 3],
}

impl SamplePoint {
    /// The place among these triangles of one plane; none where it lies in none of them.
    pub fn at(model: &Model, triangles: &[usize], place: Point3) -> Option<Self> {
        let near = triangles.iter().filter_map(|&triangle| {
            let shares = shares(model, triangle, place)?;
            Some(Self { triangle, shares })
        });
        let least = |sample: &Self| sample.shares.into_iter().fold(f64::INFINITY, f64::min);
        let nearest = near.max_by(|a, b| least(a).total_cmp(&least(b)));
        nearest.filter(|sample| least(sample) >= -OUTSIDE)
    }

    /// What the sheet bears there.
    pub fn resultants(&self, smooth: &Smooth) -> Resultants {
        let corners = &smooth.corners[self.triangle];
        let mean = |of: &dyn Fn(&Resultants) -> f64| {
            let parts = corners.iter().zip(self.shares);
            parts.map(|(own, share)| of(own) * share).sum::<f64>()
        };
        Resultants {
            force: std::array::from_fn(|k| mean(&|own| own.force[k])),
            moment: std::array::from_fn(|k| mean(&|own| own.moment[k])),
        }
    }
}

/// A place off a line of the mesh, at the face of the sheet that another stands against.
#[derive(Clone, Copy, Debug)]
pub struct FacePoint {
    /// Where.
    pub sample: SamplePoint,
    /// The way square to the line, in the axes of the flat.
    way: [f64; 2],
}

impl FacePoint {
    /// For each node of a chain the place `off` it, m, into the flat, that `beside` are triangles of; none
    /// where that is nowhere in the flat, or on the line itself.
    pub fn off_line(
        model: &Model,
        flat: usize,
        chain: &[usize],
        beside: &[usize],
        off: f64,
    ) -> Vec<Option<Self>> {
        let at = |node: usize| model.mesh.nodes[node];
        let normal = model.normals[flat];
        let along = (at(chain[chain.len() - 1]) - at(chain[0])).unit();
        let Some(along) = along.filter(|_| off > 0.0) else {
            return vec![None; chain.len()];
        };
        let square = normal.cross(along);
        let middles = beside.iter().map(|&number| centroid(&model.mesh, number));
        let side: f64 = middles
            .map(|middle| (middle - at(chain[0])).dot(square))
            .sum();
        let inward = square * side.signum();
        let axes = plate_axes(&model.shell, flat, normal);
        let way = axes.map(|axis| axis.dot(inward));
        let ends = [at(chain[0]), at(chain[chain.len() - 1])];
        let own = near(model, flat, ends, off);
        let face = |&node: &usize| {
            let sample = SamplePoint::at(model, &own, at(node) + inward * off)?;
            Some(Self { sample, way })
        };
        chain.iter().map(face).collect()
    }

    /// The part square to the line of forces or moments along x, y and xy.
    pub fn across(&self, [x, y, xy]: &[f64; 3]) -> f64 {
        let [c, s] = self.way;
        x * c * c + y * s * s + 2.0 * xy * c * s
    }
}

/// The triangles of a flat that anything `within` a line, m, may be in.
pub fn near(model: &Model, flat: usize, line: [Point3; 2], within: f64) -> Vec<usize> {
    let mesh = &model.mesh;
    let reaches = |&number: &usize| {
        let triangle = &mesh.triangles[number];
        let corners = triangle.nodes.map(|node| mesh.nodes[node]);
        let side = |i: usize| corners[i].distance(corners[(i + 1) % 3]);
        triangle.flat == flat && {
            let longest = side(0).max(side(1)).max(side(2));
            corners
                .iter()
                .any(|&corner| corner.distance_to_segment(line[0], line[1]) <= within + longest)
        }
    };
    (0..mesh.triangles.len()).filter(reaches).collect()
}

/// A place counts to a triangle whose edge it is past by less than this share: rounding, and edges that
/// are cut at an angle.
const OUTSIDE: f64 = 1e-6;

/// The axes in which a flat has its resultants: its plate's, and the one square to it.
fn plate_axes(shell: &Shell, flat: usize, normal: Vec3) -> [Vec3; 2] {
    let given = shell.plates[flat].axis;
    let first = given - normal * given.dot(normal);
    let first = first.unit().unwrap_or(given);
    [first, normal.cross(first)]
}

/// The shares of a triangle's corners at a place in its plane.
fn shares(model: &Model, triangle: usize, place: Point3) -> Option<[f64; 3]> {
    let [a, b, c] = model.mesh.triangles[triangle]
        .nodes
        .map(|node| model.mesh.nodes[node]);
    let normal = (b - a).cross(c - a);
    let twice = normal.dot(normal);
    let share = |p: Point3, q: Point3| (q - p).cross(place - p).dot(normal) / twice;
    (twice > 0.0).then(|| [share(b, c), share(c, a), share(a, b)])
}
