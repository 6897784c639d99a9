//! Prescribed inherent strain along a line: what a weld keeps when it has cooled.
//!
//! A weld that wants to be shorter than its plates is described by three figures a line: how much it
//! draws in along itself (m: shortening strain times the width of the band that has it), how much
//! it draws in across (m) and by what angle it turns (rad), after Ueda, Murakawa and Ma, *Welding
//! Deformation and Residual Stress Prevention* (2012), ch. 3 (from memory). On a mesh they are
//! spread over the triangles with a side on the line so that their integral over the area is that
//! of the line, whatever the size of the triangles.

use super::fault::Fault;
use super::model::{InitialStrain, Shell, Triangle};
use brimful_geom::vector::Vec3;

/// What a line would do if nothing hindered it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Inherent {
    /// Shortening along the line times the width over which it acts, m.
    pub along: f64,
    /// Shortening across the line, m.
    pub across: f64,
    /// Turn of one side of the line against the other, rad; positive where it lengthens the face
    /// that the normals of the plates point to.
    pub turn: f64,
}

/// The initial strains of all triangles of `shell` that stand for `inherent` along the line through
/// `nodes`; sums of such lists stand for several lines.
///
/// Each side of the line between two nodes gives its share to the triangles that have it, all alike.
///
/// # Errors
/// [`Fault::Input`] where the line has no length, or a piece of it is no side of any triangle.
pub fn along_line(
    shell: &Shell,
    nodes: &[usize],
    inherent: &Inherent,
) -> Result<Vec<InitialStrain>, Fault> {
    beside_line(shell, nodes, |beside| {
        let share = 1.0 / beside.len() as f64;
        let each = Inherent {
            along: share * inherent.along,
            across: share * inherent.across,
            turn: share * inherent.turn,
        };
        vec![each; beside.len()]
    })
}

/// As [`along_line`], where `of` says what each of the triangles with a side on the line does by itself.
///
/// # Errors
/// As [`along_line`].
pub fn beside_line(
    shell: &Shell,
    nodes: &[usize],
    of: impl Fn(&[usize]) -> Vec<Inherent>,
) -> Result<Vec<InitialStrain>, Fault> {
    let mut strains = vec![InitialStrain::default(); shell.triangles.len()];
    if nodes.len() < 2 {
        return Err(Fault::Input {
            what: "A line of inherent strain needs two nodes at least.".into(),
        });
    }
    for side in nodes.windows(2) {
        let ends = [side[0], side[1]];
        let beside: Vec<usize> = (0..shell.triangles.len())
            .filter(|&number| {
                ends.iter()
                    .all(|node| shell.triangles[number].nodes.contains(node))
            })
            .collect();
        if ends[0] == ends[1] || beside.is_empty() {
            return Err(Fault::Input {
                what: format!(
                    "No triangle has the side from node {} to node {}, along which strain is prescribed.",
                    ends[0], ends[1]
                ),
            });
        }
        for (&number, inherent) in beside.iter().zip(of(&beside)) {
            let triangle = &shell.triangles[number];
            add(&mut strains[number], shell, triangle, ends, &inherent);
        }
    }
    Ok(strains)
}

/// Adds what a triangle does at its side between `ends`: a tensor along and across it, whose integral over
/// the triangle's area is that of the side.
fn add(
    strain: &mut InitialStrain,
    shell: &Shell,
    triangle: &Triangle,
    ends: [usize; 2],
    inherent: &Inherent,
) {
    let [a, b, c] = triangle.nodes.map(|node| shell.nodes[node]);
    let twice_area = (b - a).cross(c - a);
    let normal = twice_area / twice_area.length();
    let way = shell.nodes[ends[1]] - shell.nodes[ends[0]];
    let length = way.length();
    let x = shell.plates[triangle.plate].axis;
    let y = normal.cross(x);
    let along = Direction::of(way / length, x, y);
    let across = Direction::of(normal.cross(way / length), x, y);
    let density = length / (0.5 * twice_area.length());
    for k in 0..3 {
        strain.stretch[k] -=
            density * (inherent.along * along.tensor()[k] + inherent.across * across.tensor()[k]);
        strain.curvature[k] += density * inherent.turn * across.tensor()[k];
    }
}

/// A unit direction in a plate's axes.
struct Direction {
    x: f64,
    y: f64,
}

impl Direction {
    fn of(way: Vec3, x: Vec3, y: Vec3) -> Self {
        Self {
            x: way.dot(x),
            y: way.dot(y),
        }
    }

    /// A unit strain along it: `xx, yy, xy` with the engineering shear.
    fn tensor(&self) -> [f64; 3] {
        [self.x * self.x, self.y * self.y, 2.0 * self.x * self.y]
    }
}
