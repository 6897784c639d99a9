//! Pressure and mass of one triangle, brought to its corners.

use super::dofs::Column;
use super::flat::{Flat, Section};

/// Forces and moments on the corners from a pressure along the normal that varies linearly.
///
/// They do the work of the pressure on a deflection that is a cubic along every side (the
/// interpolation of Bazeley, Cheung, Irons, Zienkiewicz 1965), so moments about the axes in the
/// plane are among them. Without the moments the clamping moment of a plate is short by about
/// `p h^2 / 12` at element size `h`; drilling moments there are none.
pub(crate) fn pressure_forces(flat: &Flat, pressure: &[f64; 3]) -> Column {
    let mut out = [0.0; 18];
    let weights = pressure_weights(pressure);
    for i in 0..3 {
        out[6 * i + 2] = weights[i] * flat.area;
        for (j, k) in [((i + 1) % 3, (i + 2) % 3), ((i + 2) % 3, (i + 1) % 3)] {
            let share =
                flat.area / 360.0 * (7.0 * pressure[i] + 5.0 * pressure[j] + 3.0 * pressure[k]);
            out[6 * i + 3] += share * (flat.y[j] - flat.y[i]);
            out[6 * i + 4] -= share * (flat.x[j] - flat.x[i]);
        }
    }
    out
}

/// Force along the normal on each corner per unit of area, Pa.
pub(crate) fn pressure_weights(pressure: &[f64; 3]) -> [f64; 3] {
    let sum: f64 = pressure.iter().sum();
    // The linear share, and what the cubic moves from the lower to the higher side.
    pressure.map(|own| (sum + own) / 12.0 + (3.0 * own - sum) / 180.0)
}

/// Mass of a corner, kg, and its inertia against turning, kg m2, the same about every axis so
/// that it does not depend on how the element lies.
pub(crate) fn lumped_mass(flat: &Flat, section: &Section) -> (f64, f64) {
    let mass = section.mass * flat.area / 3.0;
    (mass, mass * section.thickness * section.thickness / 12.0)
}
