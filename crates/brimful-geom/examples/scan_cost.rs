//! What it costs to find the solid inside a scanned room, by the number of triangles: a box 1.2 m by
//! 0.5 m by 0.4 m with a noise of 3 mm. `cargo run --release -p brimful-geom --example scan_cost`.

use brimful_geom::scan::{Surface, inside};
use brimful_geom::vector::Point3;
use std::io::{self, Write};
use std::time::Instant;

const SIZE: [f64; 3] = [1.2, 0.5, 0.4];
const NOISE: f64 = 0.003;

fn main() -> io::Result<()> {
    let mut out = io::stdout().lock();
    writeln!(
        out,
        "triangles  seconds  litres of {:.1}",
        1e3 * SIZE.iter().product::<f64>()
    )?;
    for step in [0.02, 0.0097, 0.0049] {
        let surface = room(step);
        let begun = Instant::now();
        let found = inside(&surface, NOISE).map_err(io::Error::other)?;
        let seconds = begun.elapsed().as_secs_f64();
        let litres = 1e3 * found.solid.moments().volume;
        writeln!(
            out,
            "{:9}  {seconds:7.2}  {litres:.1}",
            surface.triangles.len()
        )?;
    }
    Ok(())
}

/// The six sides as grids; the rims are joined by their places.
fn room(step: f64) -> Surface {
    let mut random = fastrand::Rng::with_seed(1);
    let mut surface = Surface::default();
    let mut known = std::collections::BTreeMap::new();
    for axis in 0..3 {
        for end in [0.0, SIZE[axis]] {
            let [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
            let counts = [u, v].map(|side| (SIZE[side] / step).ceil() as usize);
            let mut number = |i: usize, j: usize| {
                let mut place = [0.0; 3];
                place[axis] = end;
                place[u] = SIZE[u] * i as f64 / counts[0] as f64;
                place[v] = SIZE[v] * j as f64 / counts[1] as f64;
                let key = place.map(|value| (value * 1e6 + 0.3).floor() as i64);
                *known.entry(key).or_insert_with(|| {
                    // Near enough to a normal one: twelve even ones less six.
                    let [x, y, z] = place.map(|value| {
                        value + NOISE * ((0..12).map(|_| random.f64()).sum::<f64>() - 6.0)
                    });
                    surface.points.push(Point3::new(x, y, z));
                    surface.points.len() - 1
                })
            };
            for i in 0..counts[0] {
                for j in 0..counts[1] {
                    let [a, b, c, d] =
                        [(i, j), (i + 1, j), (i + 1, j + 1), (i, j + 1)].map(|(i, j)| number(i, j));
                    let pair = if end == 0.0 {
                        [[a, c, b], [a, d, c]]
                    } else {
                        [[a, b, c], [a, c, d]]
                    };
                    surface.triangles.extend(pair);
                }
            }
        }
    }
    surface
}
