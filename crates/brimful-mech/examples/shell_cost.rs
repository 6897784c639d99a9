//! What a linear answer costs against the number of unknowns, on one thread: a box with two baffles,
//! meshed finer and finer. Prints a table; `shell_cost 10000 50000` takes other sizes.

#![allow(clippy::print_stdout, reason = "it prints a table")]

use brimful_geom::frame::Frame;
use brimful_geom::mesh::{Flat, Mesh, Size};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Constraint, Dof, Load, Plate, Shell, Triangle};
use brimful_mech::shell::{System, Workspace, linear};
use std::time::Instant;

const SIZES: [usize; 4] = [10_000, 50_000, 100_000, 300_000];
/// Square matrices multiplied to see what the machine can do, and how often.
const DENSE: usize = 1500;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let asked: Vec<usize> = std::env::args()
        .skip(1)
        .filter_map(|it| it.parse().ok())
        .collect();
    let sizes = if asked.is_empty() {
        SIZES.to_vec()
    } else {
        asked
    };
    let peak = dense_gflops();
    println!("dense product of {DENSE} x {DENSE}: {peak:.1} GFLOP/s on one thread");
    println!("unknowns  values in L  mesh s  order s  assemble+factor+solve s  GFLOP/s  of peak");
    let mut last: Option<(f64, f64)> = None;
    for size in sizes {
        let started = Instant::now();
        let shell = shell(size)?;
        let meshed = started.elapsed().as_secs_f64();
        let started = Instant::now();
        let system = System::new(&shell)?;
        let ordered = started.elapsed().as_secs_f64();
        let mut workspace = Workspace::new(&system)?;
        let load = Load {
            pressures: vec![[1e3; 3]; shell.triangles.len()],
            ..Load::default()
        };
        // The first run touches the memory; the second is what every later iteration costs.
        linear::solve(&shell, &system, &mut workspace, std::slice::from_ref(&load))?;
        let started = Instant::now();
        linear::solve(&shell, &system, &mut workspace, std::slice::from_ref(&load))?;
        let solved = started.elapsed().as_secs_f64();
        let rate = system.factor_work() / solved / 1e9;
        println!(
            "{:8}  {:11}  {meshed:6.2}  {ordered:7.2}  {solved:23.3}  {rate:7.1}  {:6.0} %",
            system.unknowns(),
            system.factor_values(),
            100.0 * rate / peak
        );
        let here = (system.unknowns() as f64, solved);
        if let Some((unknowns, seconds)) = last {
            let order = (here.1 / seconds).ln() / (here.0 / unknowns).ln();
            println!("          growth from the size before: n^{order:.2}");
        }
        last = Some(here);
    }
    Ok(())
}

/// A box 1.0 x 0.6 x 0.6 m with two baffles, of about so many unknowns.
fn shell(unknowns: usize) -> Result<Shell, Box<dyn std::error::Error>> {
    let (l, w, h) = (1.0, 0.6, 0.6);
    let area = 2.0 * (l * w + w * h + h * l) + 2.0 * w * h;
    // Three unknowns a triangle of sqrt(3) / 4 of its side squared.
    let size = (area * 3.0 / unknowns as f64 / 0.433).sqrt();
    let flat = |origin: Point3, x: Vec3, y: Vec3, width: f64, height: f64| Flat {
        frame: Frame {
            origin,
            x,
            y,
            z: x.cross(y),
        },
        outlines: vec![Outline::rectangle(width, height)],
        size,
        segments: Vec::new(),
        points: Vec::new(),
    };
    let at = Point3::new;
    let mut flats = vec![
        flat(at(0.0, w, 0.0), Vec3::X, -Vec3::Y, l, w),
        flat(at(0.0, 0.0, h), Vec3::X, Vec3::Y, l, w),
        flat(at(0.0, 0.0, 0.0), Vec3::X, Vec3::Z, l, h),
        flat(at(l, w, 0.0), -Vec3::X, Vec3::Z, l, h),
        flat(at(0.0, w, 0.0), -Vec3::Y, Vec3::Z, w, h),
        flat(at(l, 0.0, 0.0), Vec3::Y, Vec3::Z, w, h),
    ];
    for x in [0.35, 0.65] {
        flats.push(flat(at(x, 0.0, 0.0), Vec3::Y, Vec3::Z, w, h));
    }
    let mesh = Mesh::of(&flats, &Size::default(), 1e-6)?;
    let low = mesh
        .nodes
        .iter()
        .enumerate()
        .filter(|(_, point)| point.z < 1e-9);
    let constraints = low.flat_map(|(node, _)| {
        [Dof::X, Dof::Y, Dof::Z].map(|dof| Constraint {
            node,
            dof,
            value: 0.0,
        })
    });
    Ok(Shell {
        constraints: constraints.collect(),
        nodes: mesh.nodes.clone(),
        triangles: mesh
            .triangles
            .iter()
            .map(|triangle| Triangle {
                nodes: triangle.nodes,
                plate: triangle.flat,
            })
            .collect(),
        plates: flats
            .iter()
            .map(|flat| Plate {
                thickness: 0.01,
                modulus: 2e8,
                poisson: 0.45,
                density: 950.0,
                expansion: 0.0,
                twist: 1.0,
                axis: flat.frame.x,
            })
            .collect(),
        ..Shell::default()
    })
}

/// What one thread does in a dense product: the yardstick.
fn dense_gflops() -> f64 {
    let matrix = faer::Mat::<f64>::from_fn(DENSE, DENSE, |i, j| ((i * 7 + j * 3) % 11) as f64);
    let mut product = faer::Mat::<f64>::zeros(DENSE, DENSE);
    let mut best = f64::INFINITY;
    for _ in 0..3 {
        let started = Instant::now();
        faer::linalg::matmul::matmul(
            product.as_mut(),
            faer::Accum::Replace,
            matrix.as_ref(),
            matrix.as_ref(),
            1.0,
            faer::Par::Seq,
        );
        best = best.min(started.elapsed().as_secs_f64());
    }
    2.0 * (DENSE as f64).powi(3) / best / 1e9
}
