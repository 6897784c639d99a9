//! Says what is in mesh files: a JSON line a file, for a judge to compare.
//!
//! `read_mesh FILE...`

use brimful_formats::mesh::{MeshFormat, read_mesh};
use std::io::Write;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut out = std::io::stdout().lock();
    for name in std::env::args().skip(1) {
        let format = MeshFormat::of_name(&name).ok_or("no mesh format goes by this name")?;
        let mesh = read_mesh(&std::fs::read(&name)?, format)?;
        let corner = |v: usize| mesh.points[v];
        let sixfold = |t: &[usize; 3]| {
            let [a, b, c] = t.map(corner);
            a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
                + a[2] * (b[0] * c[1] - b[1] * c[0])
        };
        let volume = mesh.triangles.iter().map(sixfold).sum::<f64>() / 6.0;
        let mut bounds = [[f64::INFINITY; 3], [f64::NEG_INFINITY; 3]];
        for point in &mesh.points {
            for i in 0..3 {
                bounds[0][i] = bounds[0][i].min(point[i]);
                bounds[1][i] = bounds[1][i].max(point[i]);
            }
        }
        let line = serde_json::json!({
            "points": mesh.points.len(), "triangles": mesh.triangles.len(), "volume": volume, "bounds": bounds,
        });
        writeln!(out, "{line}")?;
    }
    Ok(())
}
