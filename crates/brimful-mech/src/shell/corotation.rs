//! Large motion: what is left of it when a triangle's own rotation is taken off.
//!
//! Felippa and Haugen, *A unified formulation of small-strain corotational finite elements: I.
//! Theory*, Comput. Methods Appl. Mech. Engrg. 194 (2005) 2285-2335. The axes of a moved triangle
//! are its normal and, in its plane, those for which the gradient of the motion is symmetric
//! (polar decomposition), so that no corner is preferred.

use super::element::{Column, Flat, Square};
use super::frame::{Plane, flat_in};
use super::small::{
    Matrix, Row, SMALL_TURN, UNIT, add, apply, apply_transposed, cross, dot, length, multiply,
    multiply_transposed, rotation_vector, scale, spin, sub,
};

/// A triangle after a motion.
#[derive(Clone)]
pub(crate) struct Moved {
    /// Its corners along its turned axes, about their middle.
    pub flat: Flat,
    /// Rows are the turned axes.
    pub axes: Matrix,
    /// Displacements and rotations of the corners seen from the turned axes.
    pub deformation: Column,
    /// Turn of the axes, along themselves, by displacement of the corners.
    fitter: [[f64; 9]; 3],
    /// Rate of each corner's rotation by the spin that changes it.
    rates: [Matrix; 3],
}

impl Moved {
    /// The triangle with its corners at `places`, their nodes turned by `rotations`.
    pub fn new(plane: &Plane, places: &[Row; 3], rotations: [&Matrix; 3]) -> Self {
        let sides = [sub(places[1], places[0]), sub(places[2], places[0])];
        let twice_area = cross(sides[0], sides[1]);
        let normal = scale(twice_area, 1.0 / length(twice_area));
        let along = scale(sides[0], 1.0 / length(sides[0]));
        let across = cross(normal, along);
        let tentative = flat_in(&[along, across, normal], places);
        let [[xx, xy], [yx, yy]] = motion_gradient(plane, &tentative);
        let stretch = ((xx + yy).powi(2) + (yx - xy).powi(2)).sqrt();
        let (cosine, sine) = ((xx + yy) / stretch, (yx - xy) / stretch);
        let first = add(scale(along, cosine), scale(across, sine));
        let axes = [first, cross(normal, first), normal];
        let turned = |a: [f64; 3], b: [f64; 3], s: f64| -> [f64; 3] {
            std::array::from_fn(|i| cosine * a[i] + s * sine * b[i])
        };
        let flat = Flat {
            x: turned(tentative.x, tentative.y, 1.0),
            y: turned(tentative.y, tentative.x, -1.0),
            area: tentative.area,
        };
        let mut deformation = [0.0; 18];
        for i in 0..3 {
            deformation[6 * i] = flat.x[i] - plane.flat.x[i];
            deformation[6 * i + 1] = flat.y[i] - plane.flat.y[i];
            // From the triangle's first axes by the node's rotation, seen from its turned axes.
            let rotation = multiply_transposed(&multiply(&axes, rotations[i]), &plane.axes);
            deformation[6 * i + 3..6 * i + 6].copy_from_slice(&rotation_vector(&rotation));
        }
        Self {
            fitter: fitter(plane, &flat, stretch),
            rates: [3, 9, 15].map(|start| rotation_rate(part(&deformation, start))),
            flat,
            axes,
            deformation,
        }
    }

    /// Forces on the corners in the turned axes, in balance with each other, that do the same
    /// work as `forces` do on the deformation.
    pub fn balanced(&self, forces: &Column) -> Column {
        let mut out = self.spun(forces);
        let unbalanced = self.moment(&out);
        for i in 0..3 {
            for c in 0..3 {
                for axis in 0..3 {
                    out[6 * i + c] -= self.fitter[axis][3 * i + c] * unbalanced[axis];
                }
            }
        }
        out
    }

    /// Stiffness against further motion in the turned axes, for an element of this `stiffness`
    /// in which `forces` act on the deformation. Not symmetric away from equilibrium.
    pub fn tangent(&self, stiffness: &Square, forces: &Column) -> Square {
        let mut out = self.spun_stiffness(stiffness, forces);
        let balanced = self.balanced(forces);
        self.project(&mut out);
        for i in 0..3 {
            let force = spin(part(&balanced, 6 * i));
            let moment = spin(part(&balanced, 6 * i + 3));
            for c in 0..3 {
                for j in 0..3 {
                    for e in 0..3 {
                        let fit = |axis: usize| self.fitter[axis][3 * j + e];
                        let turned = |m: &Matrix| (0..3).map(|a| m[c][a] * fit(a)).sum::<f64>();
                        out[6 * i + c][6 * j + e] -= turned(&force);
                        out[6 * i + 3 + c][6 * j + e] -= turned(&moment);
                    }
                }
            }
        }
        self.subtract_moving_lever(&mut out, &balanced);
        out
    }

    /// Change of the deformation, to first order, with a change of the corners' degrees of freedom along the
    /// turned axes.
    pub fn rate(&self, change: &Column) -> Column {
        let mut out = *change;
        let mut turned = [0.0; 3];
        for axis in 0..3 {
            for i in 0..3 {
                for c in 0..3 {
                    turned[axis] += self.fitter[axis][3 * i + c] * change[6 * i + c];
                }
            }
        }
        for i in 0..3 {
            let carried = cross(turned, [self.flat.x[i], self.flat.y[i], 0.0]);
            let spun = sub(part(change, 6 * i + 3), turned);
            for c in 0..3 {
                out[6 * i + c] -= carried[c];
            }
            out[6 * i + 3..6 * i + 6].copy_from_slice(&apply(&self.rates[i], spun));
        }
        out
    }

    /// Turn about one of the axes by displacement of a corner along another.
    pub fn turn_by(&self, axis: usize, corner: usize, along: usize) -> f64 {
        self.fitter[axis][3 * corner + along]
    }

    /// Forces by the world's axes.
    pub fn to_world(&self, forces: &Column) -> Column {
        to_world(&self.axes, forces)
    }

    /// The rotations' work-conjugate moments changed into those that work on spins.
    fn spun(&self, forces: &Column) -> Column {
        let mut out = *forces;
        for i in 0..3 {
            let moment = apply_transposed(&self.rates[i], part(forces, 6 * i + 3));
            out[6 * i + 3..6 * i + 6].copy_from_slice(&moment);
        }
        out
    }

    /// Moment of forces on the corners about their middle.
    fn moment(&self, forces: &Column) -> Row {
        (0..3).fold([0.0; 3], |sum, i| {
            let lever = [self.flat.x[i], self.flat.y[i], 0.0];
            add(
                sum,
                add(cross(lever, part(forces, 6 * i)), part(forces, 6 * i + 3)),
            )
        })
    }

    /// The stiffness between spins instead of rotations, with what comes of the moments.
    fn spun_stiffness(&self, stiffness: &Square, forces: &Column) -> Square {
        let mut out = *stiffness;
        for i in 0..3 {
            let turn = part(&self.deformation, 6 * i + 3);
            let rate = &self.rates[i];
            for line in &mut out {
                let old = part(line, 6 * i + 3);
                line[6 * i + 3..6 * i + 6].copy_from_slice(&apply_transposed(rate, old));
            }
            let lines: [Column; 3] = std::array::from_fn(|c| out[6 * i + 3 + c]);
            for c in 0..3 {
                out[6 * i + 3 + c] =
                    std::array::from_fn(|f| (0..3).map(|a| rate[a][c] * lines[a][f]).sum());
            }
            let correction = moment_correction(turn, part(forces, 6 * i + 3), rate);
            for r in 0..3 {
                for c in 0..3 {
                    out[6 * i + 3 + r][6 * i + 3 + c] += correction[r][c];
                }
            }
        }
        out
    }

    /// Takes the rotation of the axes off on both sides: `P^T A P` with `P = 1 - S G`.
    fn project(&self, a: &mut Square) {
        let levers: [Row; 3] = std::array::from_fn(|i| [self.flat.x[i], self.flat.y[i], 0.0]);
        // Columns: A S, with S made of rotations of the whole.
        for line in a.iter_mut() {
            let turned = (0..3).fold([0.0; 3], |sum, i| {
                add(
                    sum,
                    add(cross(levers[i], part(line, 6 * i)), part(line, 6 * i + 3)),
                )
            });
            for j in 0..3 {
                for e in 0..3 {
                    for axis in 0..3 {
                        line[6 * j + e] -= turned[axis] * self.fitter[axis][3 * j + e];
                    }
                }
            }
        }
        // Lines: S^T of what is left.
        let mut turned = [[0.0; 18]; 3];
        for i in 0..3 {
            let ([x, y, _], row) = (levers[i], 6 * i);
            for f in 0..18 {
                turned[0][f] += y * a[row + 2][f] + a[row + 3][f];
                turned[1][f] += -x * a[row + 2][f] + a[row + 4][f];
                turned[2][f] += x * a[row + 1][f] - y * a[row][f] + a[row + 5][f];
            }
        }
        for j in 0..3 {
            for e in 0..3 {
                for axis in 0..3 {
                    let fit = self.fitter[axis][3 * j + e];
                    for (value, t) in a[6 * j + e].iter_mut().zip(&turned[axis]) {
                        *value -= fit * t;
                    }
                }
            }
        }
    }

    /// `G^T F^T P`: the corners that the balancing forces act on move.
    fn subtract_moving_lever(&self, out: &mut Square, balanced: &Column) {
        // F^T P by axis of the moment; balanced forces make no moment, so of S only its own
        // displacement matters: F^T S is taken with the levers.
        let mut changes = [[0.0; 18]; 3];
        for i in 0..3 {
            let force = spin(part(balanced, 6 * i));
            for axis in 0..3 {
                for e in 0..3 {
                    changes[axis][6 * i + e] = force[e][axis];
                }
            }
        }
        let mut turned: [Row; 3] = [[0.0; 3]; 3];
        for (axis, line) in changes.iter().enumerate() {
            for i in 0..3 {
                let lever = [self.flat.x[i], self.flat.y[i], 0.0];
                turned[axis] = add(turned[axis], cross(lever, part(line, 6 * i)));
            }
        }
        for axis in 0..3 {
            for j in 0..3 {
                for e in 0..3 {
                    for other in 0..3 {
                        changes[axis][6 * j + e] -=
                            turned[axis][other] * self.fitter[other][3 * j + e];
                    }
                }
            }
        }
        for j in 0..3 {
            for e in 0..3 {
                for axis in 0..3 {
                    let fit = self.fitter[axis][3 * j + e];
                    for (value, change) in out[6 * j + e].iter_mut().zip(&changes[axis]) {
                        *value -= fit * change;
                    }
                }
            }
        }
    }
}

/// Forces along turned axes by the world's.
#[inline]
pub(crate) fn to_world(axes: &Matrix, forces: &Column) -> Column {
    let mut out = [0.0; 18];
    for i in 0..6 {
        out[3 * i..3 * i + 3].copy_from_slice(&apply_transposed(axes, part(forces, 3 * i)));
    }
    out
}

/// Degrees of freedom by the world's axes along turned ones.
#[inline]
pub(crate) fn from_world(axes: &Matrix, dofs: &Column) -> Column {
    let mut out = [0.0; 18];
    for i in 0..6 {
        out[3 * i..3 * i + 3].copy_from_slice(&apply(axes, part(dofs, 3 * i)));
    }
    out
}

/// A matrix over turned axes by the world's, made symmetric.
#[inline]
pub(crate) fn square_to_world(axes: &Matrix, a: &Square) -> Square {
    let mut out = [[0.0; 18]; 18];
    for i in 0..6 {
        for j in 0..=i {
            let mut right = [[0.0; 3]; 3];
            for r in 0..3 {
                let mut line = [0.0; 3];
                for c in 0..3 {
                    line[c] = 0.5 * (a[3 * i + r][3 * j + c] + a[3 * j + c][3 * i + r]);
                }
                right[r] = apply_transposed(axes, line);
            }
            for r in 0..3 {
                for c in 0..3 {
                    let value = axes[0][r] * right[0][c]
                        + axes[1][r] * right[1][c]
                        + axes[2][r] * right[2][c];
                    out[3 * i + r][3 * j + c] = value;
                    out[3 * j + c][3 * i + r] = value;
                }
            }
        }
    }
    out
}

/// Three components out of many.
#[inline]
pub(crate) fn part(column: &Column, start: usize) -> Row {
    [column[start], column[start + 1], column[start + 2]]
}

/// Gradient of the motion in the plane, first index displacement.
fn motion_gradient(plane: &Plane, now: &Flat) -> [[f64; 2]; 2] {
    let mut out = [[0.0; 2]; 2];
    for (i, gradient) in plane.flat.gradients().iter().enumerate() {
        for (line, place) in out.iter_mut().zip([now.x[i], now.y[i]]) {
            line[0] += place * gradient[0];
            line[1] += place * gradient[1];
        }
    }
    out
}

/// Turn of the axes by displacement of the corners: about the axes in the plane by how the plane
/// tilts, about the normal by how the polar decomposition turns.
fn fitter(plane: &Plane, now: &Flat, stretch: f64) -> [[f64; 9]; 3] {
    let mut out = [[0.0; 9]; 3];
    for (i, (now, first)) in now
        .gradients()
        .iter()
        .zip(plane.flat.gradients())
        .enumerate()
    {
        out[0][3 * i + 2] = now[1];
        out[1][3 * i + 2] = -now[0];
        out[2][3 * i] = -first[1] / stretch;
        out[2][3 * i + 1] = first[0] / stretch;
    }
    out
}

/// Rate of a rotation by the spin that changes it (`H`, Felippa and Haugen eq. 98 ff.).
fn rotation_rate(turn: Row) -> Matrix {
    let s = spin(turn);
    let s2 = multiply(&s, &s);
    let eta = coefficients(turn).0;
    let mut out = UNIT;
    for i in 0..3 {
        for j in 0..3 {
            out[i][j] += -0.5 * s[i][j] + eta * s2[i][j];
        }
    }
    out
}

/// How the moments that work on spins change with the rotation (`L` there).
fn moment_correction(turn: Row, moment: Row, rate: &Matrix) -> Matrix {
    let (eta, mu) = coefficients(turn);
    let s = spin(turn);
    let twice_turned = apply(&s, apply(&s, moment));
    let half = spin(moment);
    let inner = dot(turn, moment);
    let mut left = [[0.0; 3]; 3];
    for i in 0..3 {
        for j in 0..3 {
            left[i][j] = eta
                * (inner * UNIT[i][j] + turn[i] * moment[j] - 2.0 * moment[i] * turn[j])
                + mu * twice_turned[i] * turn[j]
                - 0.5 * half[i][j];
        }
    }
    multiply(&left, rate)
}

/// `eta = (1 - a/2 cot(a/2)) / a^2` and `mu`, its derivative by the rotation's length `a` over `a`.
fn coefficients(turn: Row) -> (f64, f64) {
    let squared = dot(turn, turn);
    if squared < SMALL_TURN * SMALL_TURN {
        (
            1.0 / 12.0 + squared / 720.0 + squared * squared / 30_240.0,
            1.0 / 360.0 + squared / 7_560.0 + squared * squared / 201_600.0,
        )
    } else {
        let angle = squared.sqrt();
        let half_sine = (0.5 * angle).sin();
        (
            (1.0 - 0.5 * angle / (0.5 * angle).tan()) / squared,
            (squared + 4.0 * angle.cos() + angle * angle.sin() - 4.0)
                / (4.0 * squared * squared * half_sine * half_sine),
        )
    }
}

#[cfg(test)]
mod tests;
