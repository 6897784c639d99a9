use super::*;
use crate::shell::model::Plate;
use brimful_geom::vector::Vec3;

fn plate() -> Plate {
    Plate {
        thickness: 0.1,
        modulus: 1000.0,
        poisson: 0.3,
        density: 1.0,
        expansion: 0.0,
        twist: 1.0,
        axis: Vec3::X,
    }
}

fn scalene() -> Flat {
    Flat::new([-1.0, 1.4, -0.4], [-0.5, -0.2, 0.7])
}

fn element() -> Element {
    Element::new(scalene(), Section::of(&plate()))
}

#[test]
fn a_rigid_motion_takes_no_force() {
    let flat = scalene();
    for motion in 0..6 {
        let mut d = [0.0; 18];
        for i in 0..3 {
            let mut turn = [0.0; 3];
            if motion < 3 {
                d[6 * i + motion] = 1.0;
            } else {
                turn[motion - 3] = 1.0;
                let moved = crate::shell::small::cross(turn, [flat.x[i], flat.y[i], 0.0]);
                d[6 * i..6 * i + 3].copy_from_slice(&moved);
                d[6 * i + 3..6 * i + 6].copy_from_slice(&turn);
            }
        }
        let largest = element()
            .forces(&d)
            .iter()
            .fold(0.0_f64, |m, f| m.max(f.abs()));
        assert!(largest < 1e-10, "motion {motion}: {largest}");
    }
}

#[test]
fn constant_strains_and_curvatures_are_exact() {
    let flat = scalene();
    let (stretch, curvature) = ([1e-3, -2e-3, 0.7e-3], [0.3, -0.2, 0.5]);
    let mut d = [0.0; 18];
    for i in 0..3 {
        let (x, y) = (flat.x[i], flat.y[i]);
        d[6 * i] = stretch[0] * x + 0.5 * stretch[2] * y;
        d[6 * i + 1] = stretch[1] * y + 0.5 * stretch[2] * x;
        // w = -1/2 (kx x^2 + ky y^2 + kxy x y); turn about x is w,y and about y is -w,x.
        d[6 * i + 2] = -0.5 * (curvature[0] * x * x + curvature[1] * y * y + curvature[2] * x * y);
        d[6 * i + 3] = -(curvature[1] * y + 0.5 * curvature[2] * x);
        d[6 * i + 4] = curvature[0] * x + 0.5 * curvature[2] * y;
    }
    let free = element().initial_strain_resultants(&InitialStrain { stretch, curvature });
    for corner in element().resultants(&d) {
        for k in 0..3 {
            assert!((corner.force[k] - free.force[k]).abs() < 1e-12);
            assert!((corner.moment[k] - free.moment[k]).abs() < 1e-12);
        }
    }
    let held = element().initial_strain_forces(&InitialStrain { stretch, curvature });
    for (a, b) in element().forces(&d).iter().zip(held) {
        assert!((a - b).abs() < 1e-12);
    }
}

#[test]
fn forces_are_the_stiffness_times_the_deformation() {
    let d: Column = std::array::from_fn(|i| ((i * 7 + 3) % 11) as f64 * 0.1 - 0.4);
    let stiffness = element().stiffness().square();
    for (line, force) in stiffness.iter().zip(element().forces(&d)) {
        let product: f64 = line.iter().zip(&d).map(|(k, x)| k * x).sum();
        assert!((product - force).abs() < 1e-10 * (1.0 + force.abs()));
    }
}

#[test]
fn pressure_forces_have_the_resultant_of_the_pressure() {
    let (flat, p) = (scalene(), [3.0, -1.0, 2.0]);
    let f = pressure_forces(&flat, &p);
    let (mut force, mut about_x, mut about_y) = (0.0, 0.0, 0.0);
    for i in 0..3 {
        force += f[6 * i + 2];
        about_x += flat.y[i] * f[6 * i + 2] + f[6 * i + 3];
        about_y += -flat.x[i] * f[6 * i + 2] + f[6 * i + 4];
    }
    // Exact integrals of linear p and p times a coordinate over the triangle.
    let sum: f64 = p.iter().sum();
    let first = |c: &[f64; 3]| flat.area / 12.0 * (0..3).map(|i| (p[i] + sum) * c[i]).sum::<f64>();
    assert!((force - flat.area * sum / 3.0).abs() < 1e-12);
    assert!((about_x - first(&flat.y)).abs() < 1e-12);
    assert!((about_y + first(&flat.x)).abs() < 1e-12);
}

/// A rectangle of two triangles in pure bending in its plane has the energy of a beam at any
/// aspect ratio: the property (Felippa 2003, section 7) that the coefficients were chosen for.
#[test]
fn bending_in_the_plane_is_exact_for_slender_rectangles() {
    let poisson = 0.3;
    let section = Section::of(&Plate { poisson, ..plate() });
    for slenderness in [0.5, 1.0, 4.0, 16.0] {
        let (a, b) = (slenderness, 1.0);
        let corners = [[0.0, 0.0], [a, 0.0], [a, b], [0.0, b]];
        let mut energy = 0.0;
        for half in [[0, 1, 2], [0, 2, 3]] {
            let (mut x, mut y) = ([0.0; 3], [0.0; 3]);
            for (i, &c) in half.iter().enumerate() {
                (x[i], y[i]) = (corners[c][0] - a / 2.0, corners[c][1] - b / 2.0);
            }
            // u = -k x y, v = k (x^2 + nu y^2) / 2, drilling k x.
            let mut d = [0.0; 18];
            for i in 0..3 {
                d[6 * i] = -x[i] * y[i];
                d[6 * i + 1] = 0.5 * (x[i] * x[i] + poisson * y[i] * y[i]);
                d[6 * i + 5] = x[i];
            }
            let element = Element::new(Flat::new(x, y), section);
            energy += 0.5
                * element
                    .forces(&d)
                    .iter()
                    .zip(&d)
                    .map(|(f, v)| f * v)
                    .sum::<f64>();
        }
        let beam = 0.5 * 1000.0 * 0.1 * b * b * b / 12.0 * a;
        assert!(
            (energy / beam - 1.0).abs() < 1e-9,
            "{slenderness}: {}",
            energy / beam
        );
    }
}
