//! Reads surfaces and prints for each how many points and triangles it has and the volume it encloses:
//! `read_surface FILE ...`, for tests/outside/check_surfaces.py.

use brimful_formats::mesh::{MeshFormat, read_mesh};
use std::io::{self, Write};

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    for name in std::env::args().skip(1) {
        let bytes = std::fs::read(&name)?;
        let format = MeshFormat::of_name(&name).ok_or(io::ErrorKind::InvalidInput)?;
        let mesh = read_mesh(&bytes, format).map_err(io::Error::other)?;
        let volume: f64 = mesh
            .triangles
            .iter()
            .map(|corners| six(corners.map(|it| mesh.points[it])))
            .sum();
        writeln!(
            out,
            "{} {} {}",
            mesh.points.len(),
            mesh.triangles.len(),
            volume / 6.0
        )?;
    }
    Ok(())
}

/// Six times the volume between a triangle and the origin.
fn six([a, b, c]: [[f64; 3]; 3]) -> f64 {
    a[0] * (b[1] * c[2] - b[2] * c[1])
        + a[1] * (b[2] * c[0] - b[0] * c[2])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
}
