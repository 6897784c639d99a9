//! How far a tank leans over as a whole.

use super::model::Model;
use brimful_geom::vector::Vec3;
use brimful_mech::shell::State;

/// The turn about level axes that fits the displacements of the whole best (least squares over the
/// area): what bulges to both sides alike does not turn.
pub fn tilt(model: &Model, state: &State) -> f64 {
    let at = |node: usize| model.mesh.nodes[node].to_vec();
    let moved = |node: usize| {
        let [x, y, z, ..] = state.displacements[node];
        Vec3::new(x, y, z)
    };
    let mean = |nodes: [usize; 3], of: &dyn Fn(usize) -> Vec3| {
        nodes
            .into_iter()
            .fold(Vec3::ZERO, |sum, node| sum + of(node))
            / 3.0
    };
    let pieces: Vec<(f64, Vec3, Vec3)> = model
        .mesh
        .triangles
        .iter()
        .map(|triangle| {
            let [a, b, c] = triangle.nodes.map(at);
            let area = (b - a).cross(c - a).length() / 2.0;
            (
                area,
                mean(triangle.nodes, &at),
                mean(triangle.nodes, &moved),
            )
        })
        .collect();
    let total: f64 = pieces.iter().map(|(area, ..)| area).sum();
    let centre = pieces
        .iter()
        .fold(Vec3::ZERO, |sum, (area, place, _)| sum + *place * *area)
        / total;
    let shift = pieces
        .iter()
        .fold(Vec3::ZERO, |sum, (area, _, way)| sum + *way * *area)
        / total;
    let mut rows = [Vec3::ZERO; 3];
    let mut turning = Vec3::ZERO;
    for (area, place, way) in &pieces {
        let (arm, way) = (*place - centre, *way - shift);
        turning += arm.cross(way) * *area;
        for (row, axis) in rows.iter_mut().zip([Vec3::X, Vec3::Y, Vec3::Z]) {
            *row += (axis * arm.dot(arm) - arm * arm.dot(axis)) * *area;
        }
    }
    let [a, b, c] = rows;
    let turn = (b.cross(c) * turning.x + c.cross(a) * turning.y + a.cross(b) * turning.z)
        / a.dot(b.cross(c));
    turn.x.hypot(turn.y)
}
