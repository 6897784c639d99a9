//! Conduction and melting against published solutions.

use brimful_mech::heat::{Face, Material, Phase, Sides, Wall};

/// Nothing of it melts in these tests.
fn without_melting(phase: Phase, density: f64) -> Material {
    Material {
        density,
        solid: phase,
        melt: phase,
        melting: [1e6, 1e6],
        latent_heat: 0.0,
    }
}

/// Numbers of one, so that time is the Fourier number of a wall one thick.
const PLAIN: Phase = Phase {
    conductivity: 1.0,
    heat_capacity: 1.0,
};

/// The middle of a plane wall of half-thickness one that cools by a film from one to zero.
fn middle(biot: f64, fourier: f64, cells: usize) -> f64 {
    let mut wall = Wall::new(without_melting(PLAIN, 1.0), 1.0, cells, |_| 1.0);
    let film = Face::Film {
        temperature: 0.0,
        coefficient: biot,
    };
    wall.advance([Face::Insulated, film], fourier);
    wall.surface(Face::Insulated)
}

/// One-term coefficients of the plane wall by Biot number: F. P. Incropera, D. P. DeWitt, *Fundamentals of Heat and
/// Mass Transfer*, table 5.1 (from memory). By `Fo = 1` the second term is gone.
const ONE_TERM: [[f64; 3]; 8] = [
    [0.01, 0.0998, 1.0017],
    [0.1, 0.3111, 1.0161],
    [0.25, 0.4801, 1.0382],
    [0.5, 0.6533, 1.0701],
    [1.0, 0.8603, 1.1191],
    [2.0, 1.0769, 1.1785],
    [5.0, 1.3138, 1.2402],
    [10.0, 1.4289, 1.2620],
];

#[test]
fn a_plane_wall_cools_by_the_one_term_table() {
    for [biot, zeta, c] in ONE_TERM {
        let published = c * (-zeta * zeta).exp();
        let found = middle(biot, 1.0, 80);
        // Half a unit of the fourth digit of zeta is 1.5e-4 of the answer, of c 5e-5; the mesh adds its own 1e-4.
        assert!(
            (found / published - 1.0).abs() < 3e-4,
            "{biot}: {found} {published}"
        );
    }
}

#[test]
fn the_error_falls_with_the_square_of_the_cells() {
    // The series of Bi = 1 from its transcendental equation `z tan z = Bi`, to all digits.
    let zeta: f64 = (0..200).fold(0.86, |z: f64, _| {
        z - (z * z.tan() - 1.0) / (z.tan() + z / z.cos().powi(2))
    });
    let exact = 4.0 * zeta.sin() / (2.0 * zeta + (2.0 * zeta).sin()) * (-zeta * zeta).exp();
    let error = |cells| (middle(1.0, 1.0, cells) - exact).abs();
    let order = (error(10) / error(20)).log2();
    // The surface of an insulated cell is its middle, half a cell off: of second order too.
    assert!((order - 2.0).abs() < 0.1, "{order}");
}

/// H. S. Carslaw, J. C. Jaeger, *Conduction of Heat in Solids*, section 2.7: a half space under a film,
/// `1 - exp(b^2) erfc(b)`, `b = h sqrt(a t) / k`.
#[test]
fn the_surface_of_a_half_space_warms_under_a_gas() {
    let phase = Phase {
        conductivity: 0.4,
        heat_capacity: 2200.0,
    };
    let gas = Face::Film {
        temperature: 320.0,
        coefficient: 150.0,
    };
    let mut wall = Wall::new(without_melting(phase, 940.0), 0.02, 800, |_| 20.0);
    let mut before = 0.0;
    for (time, published) in [(1.0, 68.6), (5.0, 113.1), (10.0, 138.6)] {
        wall.advance([gas, Face::Insulated], time - before);
        before = time;
        let found = wall.surface(gas);
        // Half the last digit of the closed form, and as much again for the mesh.
        assert!(
            (found - published).abs() < 0.1,
            "{time}: {found} {published}"
        );
    }
}

/// A solid at its melting point whose face is held above it, by the Stefan number `c dT / L`: roots of
/// `lambda exp(lambda^2) erf(lambda) = Ste / sqrt(pi)` (Carslaw and Jaeger, section 11.2). The front is at
/// `2 lambda sqrt(a t)`.
#[test]
fn a_solid_at_its_melting_point_melts_by_stefans_root() {
    for (stefan, lambda) in [
        (0.05, 0.15682),
        (0.1, 0.22002),
        (0.2, 0.30642),
        (0.5, 0.46479),
        (1.0, 0.62006),
        (2.0, 0.80060),
    ] {
        let material = Material {
            density: 1.0,
            solid: PLAIN,
            melt: PLAIN,
            melting: [0.0, 0.0],
            latent_heat: 1.0 / stefan,
        };
        let mut wall = Wall::new(material, 2.0, 400, |_| 0.0);
        wall.advance([Face::Held(1.0), Face::Insulated], 0.4);
        let (found, published) = (wall.melted(), 2.0 * lambda * f64::sqrt(0.4));
        // One cell of 0.005: the front stands anywhere in it.
        assert!(
            (found - published).abs() < 0.005,
            "{stefan}: {found} {published}"
        );
    }
}

/// Neumann's solution for two phases (Carslaw and Jaeger, section 11.2), with the properties of PE-HD and PP-H: held
/// at 230 degC from 20 degC, melting at 130 and 163 degC. Its roots, 0.36756 and 0.28987, were found by another program.
#[test]
fn a_cold_solid_melts_by_neumanns_root() {
    let pe = Material {
        density: 900.0,
        solid: Phase {
            conductivity: 0.40,
            heat_capacity: 2200.0,
        },
        melt: Phase {
            conductivity: 0.26,
            heat_capacity: 2500.0,
        },
        melting: [130.0, 130.0],
        latent_heat: 190e3,
    };
    let pp = Material {
        density: 850.0,
        solid: Phase {
            conductivity: 0.21,
            heat_capacity: 2000.0,
        },
        melt: Phase {
            conductivity: 0.17,
            heat_capacity: 2650.0,
        },
        melting: [163.0, 163.0],
        latent_heat: 95e3,
    };
    for (material, depths) in [
        (pe, [0.2499e-3, 0.5588e-3, 0.7902e-3]),
        (pp, [0.1593e-3, 0.3561e-3, 0.5036e-3]),
    ] {
        let mut wall = Wall::new(material, 10e-3, 1000, |_| 20.0);
        let mut before = 0.0;
        for (time, published) in [1.0, 5.0, 10.0].into_iter().zip(depths) {
            wall.advance([Face::Held(230.0), Face::Insulated], time - before);
            before = time;
            let found = wall.melted();
            // One cell of 0.01 mm.
            assert!(
                (found - published).abs() < 0.01e-3,
                "{time}: {found} {published}"
            );
        }
    }
}

#[test]
fn what_no_face_takes_stays() {
    let material = Material {
        melting: [0.4, 0.6],
        latent_heat: 1.0,
        ..without_melting(PLAIN, 1.0)
    };
    let mut wall = Wall::new(material, 1.0, 50, |x| x);
    let before = wall.heat();
    wall.advance([Face::Insulated, Face::Insulated], 5.0);
    // Rounding of a few thousand steps.
    assert!((wall.heat() - before).abs() < 1e-10);
    let temperatures = wall.temperatures();
    assert!(
        temperatures
            .iter()
            .all(|t| (t - temperatures[0]).abs() < 1e-3),
        "{temperatures:?}"
    );
}

/// The fin of uniform section with an insulated tip, `cosh m (L - x) / cosh m L`: Incropera, DeWitt, table 3.4 (from
/// memory).
#[test]
fn a_fin_comes_to_rest_by_the_table() {
    let sides = Sides {
        temperature: 0.0,
        per_volume: 4.0,
    };
    let mut wall = Wall::new(without_melting(PLAIN, 1.0), 1.0, 100, |_| 0.0).between(sides);
    wall.advance([Face::Held(1.0), Face::Insulated], 10.0);
    let m: f64 = 2.0;
    for (number, found) in wall.temperatures().iter().enumerate() {
        let x = (number as f64 + 0.5) / 100.0;
        let published = (m * (1.0 - x)).cosh() / m.cosh();
        // The square of a cell of a hundredth.
        assert!((found - published).abs() < 1e-4, "{x}: {found} {published}");
    }
}
