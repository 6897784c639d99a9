//! Small fixed-size algebra on plain arrays, and finite rotations.
//!
//! Written out, and marked for inlining: these run a thousand times for each triangle. On arrays and
//! not on geometry's vectors, since most are three of an element's eighteen values.

use brimful_geom::vector::Vec3;

/// Three numbers.
pub type Row = [f64; 3];
/// A three by three matrix, by rows.
pub type Matrix = [[f64; 3]; 3];

/// The matrix that changes nothing.
pub const UNIT: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// Below this rotation, rad, the closed forms of a rotation and its rates lose more digits than their
/// series do.
pub const SMALL_TURN: f64 = 0.05;

/// The components of a vector.
#[inline]
pub fn row(vector: Vec3) -> Row {
    vector.to_array()
}

/// Sum.
#[inline]
pub fn add(a: Row, b: Row) -> Row {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

/// Difference.
#[inline]
pub fn sub(a: Row, b: Row) -> Row {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

/// Multiple.
#[inline]
pub fn scale(a: Row, factor: f64) -> Row {
    [a[0] * factor, a[1] * factor, a[2] * factor]
}

/// Scalar product.
#[inline]
pub fn dot(a: Row, b: Row) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

/// Vector product.
#[inline]
pub fn cross(a: Row, b: Row) -> Row {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// Length.
#[inline]
pub fn length(a: Row) -> f64 {
    dot(a, a).sqrt()
}

/// Matrix times column.
#[inline]
pub fn apply(m: &Matrix, v: Row) -> Row {
    [dot(m[0], v), dot(m[1], v), dot(m[2], v)]
}

/// Transposed matrix times column.
#[inline]
pub fn apply_transposed(m: &Matrix, v: Row) -> Row {
    [
        m[0][0] * v[0] + m[1][0] * v[1] + m[2][0] * v[2],
        m[0][1] * v[0] + m[1][1] * v[1] + m[2][1] * v[2],
        m[0][2] * v[0] + m[1][2] * v[1] + m[2][2] * v[2],
    ]
}

/// Matrix product.
#[inline]
pub fn multiply(a: &Matrix, b: &Matrix) -> Matrix {
    [
        apply_transposed(b, a[0]),
        apply_transposed(b, a[1]),
        apply_transposed(b, a[2]),
    ]
}

/// Product of a matrix with the transpose of another.
#[inline]
pub fn multiply_transposed(a: &Matrix, b: &Matrix) -> Matrix {
    [apply(b, a[0]), apply(b, a[1]), apply(b, a[2])]
}

/// The matrix that takes the vector product of `v` with what it is applied to.
#[inline]
pub fn spin(v: Row) -> Matrix {
    [[0.0, -v[2], v[1]], [v[2], 0.0, -v[0]], [-v[1], v[0], 0.0]]
}

/// The rotation about the direction of `turn` by its length (Rodrigues).
#[inline]
pub fn rotation(turn: Row) -> Matrix {
    let angle_squared = dot(turn, turn);
    let (first, second) = if angle_squared < SMALL_TURN * SMALL_TURN {
        (
            1.0 - angle_squared / 6.0 * (1.0 - angle_squared / 20.0 * (1.0 - angle_squared / 42.0)),
            0.5 - angle_squared / 24.0
                * (1.0 - angle_squared / 30.0 * (1.0 - angle_squared / 56.0)),
        )
    } else {
        let angle = angle_squared.sqrt();
        (angle.sin() / angle, (1.0 - angle.cos()) / angle_squared)
    };
    let s = spin(turn);
    let s2 = multiply(&s, &s);
    let mut out = UNIT;
    for i in 0..3 {
        for j in 0..3 {
            out[i][j] += first * s[i][j] + second * s2[i][j];
        }
    }
    out
}

/// The rotation vector, direction times angle up to a half circle, of a rotation matrix.
///
/// By way of the unit quaternion (Spurrier 1978), which keeps its digits at every angle.
#[inline]
pub fn rotation_vector(r: &Matrix) -> Row {
    let trace = r[0][0] + r[1][1] + r[2][2];
    let largest = (0..3).fold(0, |best, i| if r[i][i] > r[best][best] { i } else { best });
    let (real, imaginary) = if trace >= r[largest][largest] {
        let real = 0.5 * (1.0 + trace).sqrt();
        let part = |i: usize, j: usize| (r[i][j] - r[j][i]) / (4.0 * real);
        (real, [part(2, 1), part(0, 2), part(1, 0)])
    } else {
        let (i, j, k) = (largest, (largest + 1) % 3, (largest + 2) % 3);
        let main = (0.5 * r[i][i] + 0.25 * (1.0 - trace)).sqrt();
        let mut imaginary = [0.0; 3];
        imaginary[i] = main;
        imaginary[j] = (r[j][i] + r[i][j]) / (4.0 * main);
        imaginary[k] = (r[k][i] + r[i][k]) / (4.0 * main);
        ((r[k][j] - r[j][k]) / (4.0 * main), imaginary)
    };
    let (real, imaginary) = if real < 0.0 {
        (-real, scale(imaginary, -1.0))
    } else {
        (real, imaginary)
    };
    let sine = length(imaginary);
    let factor = if sine < SMALL_TURN * SMALL_TURN {
        2.0 * (1.0 + sine * sine / 6.0)
    } else {
        2.0 * sine.atan2(real) / sine
    };
    scale(imaginary, factor)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_turn_of_a_rotation_is_the_turn_it_was_made_of() {
        for turn in [
            [0.0, 0.0, 0.0],
            [1e-9, -2e-9, 3e-9],
            [0.01, 0.02, -0.03],
            [0.3, -0.2, 0.9],
            [3.1, 0.0, 0.0],
            [0.0, -2.0, 2.3],
        ] {
            let back = rotation_vector(&rotation(turn));
            assert!(
                length(sub(back, turn)) < 1e-14 + 1e-13 * length(turn),
                "{turn:?} {back:?}"
            );
        }
    }

    #[test]
    fn a_rotation_keeps_lengths() {
        let r = rotation([0.4, 1.3, -0.2]);
        let product = multiply_transposed(&r, &r);
        for i in 0..3 {
            for j in 0..3 {
                assert!((product[i][j] - UNIT[i][j]).abs() < 1e-14);
            }
        }
    }
}
