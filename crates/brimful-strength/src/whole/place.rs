//! Places on the mesh, and when two of them are one.

use brimful_geom::mesh::Mesh;
use brimful_geom::vector::Point3;

/// Places nearer than this are one node, m: far above rounding, far below a sheet's thickness.
pub const MERGE: f64 = 1e-6;

/// A panel that leans less than this is level (sine, half a degree).
pub const LEVEL: f64 = 0.01;

/// The middle of a triangle.
pub fn centroid(mesh: &Mesh, triangle: usize) -> Point3 {
    let [a, b, c] = mesh.triangles[triangle]
        .nodes
        .map(|node| mesh.nodes[node].to_vec());
    Point3::ORIGIN + (a + b + c) / 3.0
}

/// The nodes of the triangles of a flat whose middles are where `holds` says, each with a third of the area
/// of every such triangle that it is a corner of.
pub fn areas_of_nodes(
    mesh: &Mesh,
    flat: usize,
    holds: impl Fn(Point3) -> bool,
) -> Vec<(usize, f64)> {
    let mut areas = vec![0.0; mesh.nodes.len()];
    for (number, triangle) in mesh.triangles.iter().enumerate() {
        if triangle.flat == flat && holds(centroid(mesh, number)) {
            let [a, b, c] = triangle.nodes.map(|node| mesh.nodes[node]);
            let area = (b - a).cross(c - a).length() / 2.0;
            for node in triangle.nodes {
                areas[node] += area / 3.0;
            }
        }
    }
    let areas = areas.into_iter().enumerate();
    areas.filter(|(_, area)| *area > 0.0).collect()
}

/// Whether a point lies on the line from `a` to `b`.
pub fn on_segment(point: Point3, a: Point3, b: Point3) -> bool {
    let way = b - a;
    let along = (point - a).dot(way) / way.dot(way);
    (-1e-6..=1.0 + 1e-6).contains(&along) && (point - a - way * along).length() < MERGE
}
