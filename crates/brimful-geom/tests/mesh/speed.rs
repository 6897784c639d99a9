//! Time of a mesh; printed, not judged. Run with `--ignored --nocapture`.

use crate::shapes::{box_of, flat, p};
use brimful_geom::mesh::{Mesh, Size};
use std::time::Instant;

#[test]
#[ignore = "prints times"]
fn ten_thousand_nodes() {
    for size in [0.04, 0.028, 0.012] {
        let mut flats = box_of(1.2, 0.8, 0.9, size);
        flats.push(flat(
            &[
                p(0.5, 0.03, 0.),
                p(0.5, 0.8, 0.),
                p(0.5, 0.8, 0.86),
                p(0.5, 0.03, 0.86),
            ],
            size,
        ));
        let start = Instant::now();
        let mesh = Mesh::of(&flats, &Size::default(), 1e-6).unwrap();
        let taken = start.elapsed();
        let quality = mesh.quality().unwrap();
        println!(
            "{} nodes, {} triangles: {:.1} ms; worst angle {:.1}, mean {:.1} degrees",
            mesh.nodes.len(),
            mesh.triangles.len(),
            taken.as_secs_f64() * 1e3,
            quality.worst_angle.to_degrees(),
            quality.mean_least_angle.to_degrees(),
        );
    }
}
