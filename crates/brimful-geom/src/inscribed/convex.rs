//! The box of greatest volume under linear conditions on its bounds.
//!
//! Maximise the sum of the logarithms of the three sides, by a logarithmic barrier and Newton's
//! method (Boyd and Vandenberghe, "Convex Optimization", 2004, sections 11.3 and 11.4, from memory): with m conditions
//! and weight t the volume is within a factor exp(m / t) of the best.

/// Bounds of a box: low x, y, z, high x, y, z.
pub type Bounds = [f64; 6];

/// `row . bounds <= limit`.
#[derive(Clone, Copy, Debug)]
pub struct Condition {
    pub row: Bounds,
    pub limit: f64,
}

impl Condition {
    /// How much is left before the condition fails.
    pub fn slack(&self, bounds: &Bounds) -> f64 {
        self.limit - dot(&self.row, bounds)
    }
}

/// A box, and a volume that no other under the same conditions exceeds.
pub struct Best {
    pub bounds: Bounds,
    pub limit: f64,
}

/// Weight of the objective against one condition at the end: the volume is then within
/// m times this of the best, relatively.
const SHARPNESS: f64 = 1e-9;

/// Sides shorter than this are no box, metres.
const LEAST_SIDE: f64 = 1e-5;

const MOST_NEWTON_STEPS: usize = 50;

/// Half the squared Newton decrement at which a step is done: the barrier problem is then within
/// about this of its best, far below the m / t that is allowed for.
const DONE: f64 = 1e-10;

/// The largest box, `None` where the conditions leave none with sides of 10 micrometres.
pub fn largest(conditions: &[Condition]) -> Option<Best> {
    let mut bounds = inner_point(conditions)?;
    let mut weight = 1.0;
    loop {
        centre(conditions, weight, &mut bounds);
        if weight * SHARPNESS >= 1.0 {
            break;
        }
        weight *= 30.0;
    }
    let volume: f64 = (0..3).map(|i| bounds[i + 3] - bounds[i]).product();
    let limit = volume * (conditions.len() as f64 / weight + DONE.sqrt()).exp();
    Some(Best { bounds, limit })
}

/// Seven unknowns: the bounds and the common slack that phase one raises.
const SIZE: usize = 7;

/// A box of some size with slack in every condition: the greatest common slack, found far enough.
fn inner_point(conditions: &[Condition]) -> Option<Bounds> {
    let mut wide: Vec<([f64; SIZE], f64)> = Vec::new();
    for condition in conditions {
        let mut row = [0.0; SIZE];
        row[..6].copy_from_slice(&condition.row);
        row[6] = 1.0;
        wide.push((row, condition.limit));
    }
    for i in 0..3 {
        let mut row = [0.0; SIZE];
        (row[i], row[i + 3], row[6]) = (1.0, -1.0, 1.0);
        wide.push((row, 0.0));
    }
    let mut at = [0.0; SIZE];
    let least = wide.iter().map(|(_, limit)| *limit);
    at[6] = least.fold(0.0, f64::min) - 1.0;
    // Keeps the problem bounded.
    let mut cap = [0.0; SIZE];
    cap[6] = 1.0;
    wide.push((cap, 1.0));
    let mut weight = 1.0;
    while weight < wide.len() as f64 / LEAST_SIDE {
        for _ in 0..MOST_NEWTON_STEPS {
            let mut gradient = [0.0; SIZE];
            let mut curvature = [[0.0; SIZE]; SIZE];
            gradient[6] = -weight;
            for (row, limit) in &wide {
                add_barrier(row, limit - dot(row, &at), &mut gradient, &mut curvature);
            }
            let step = solve(curvature, gradient)?;
            if -dot(&gradient, &step) < 1e-3 {
                break;
            }
            let value = |x: &[f64; SIZE]| {
                let barrier = wide.iter().map(|(row, limit)| -(limit - dot(row, x)).ln());
                barrier.sum::<f64>() - weight * x[6]
            };
            if !advance(&mut at, &step, dot(&gradient, &step), value) {
                break;
            }
            if at[6] > 1e3 * LEAST_SIDE {
                break;
            }
        }
        if at[6] > LEAST_SIDE {
            return Some([at[0], at[1], at[2], at[3], at[4], at[5]]);
        }
        weight *= 10.0;
    }
    None
}

fn centre(conditions: &[Condition], weight: f64, bounds: &mut Bounds) {
    let value = |x: &Bounds| {
        let sides = (0..3).map(|i| -weight * (x[i + 3] - x[i]).ln());
        let barrier = conditions.iter().map(|c| -c.slack(x).ln());
        sides.sum::<f64>() + barrier.sum::<f64>()
    };
    for _ in 0..MOST_NEWTON_STEPS {
        let mut gradient = [0.0; 6];
        let mut curvature = [[0.0; 6]; 6];
        for i in 0..3 {
            let side = bounds[i + 3] - bounds[i];
            gradient[i] += weight / side;
            gradient[i + 3] -= weight / side;
            let bend = weight / (side * side);
            curvature[i][i] += bend;
            curvature[i + 3][i + 3] += bend;
            curvature[i][i + 3] -= bend;
            curvature[i + 3][i] -= bend;
        }
        for condition in conditions {
            add_barrier(
                &condition.row,
                condition.slack(bounds),
                &mut gradient,
                &mut curvature,
            );
        }
        let Some(step) = solve(curvature, gradient) else {
            return;
        };
        let slope = dot(&gradient, &step);
        if -slope / 2.0 < DONE || !advance(bounds, &step, slope, value) {
            return;
        }
    }
}

fn add_barrier<const N: usize>(
    row: &[f64; N],
    slack: f64,
    gradient: &mut [f64; N],
    curvature: &mut [[f64; N]; N],
) {
    for i in 0..N {
        if row[i] == 0.0 {
            continue;
        }
        gradient[i] += row[i] / slack;
        for j in 0..N {
            curvature[i][j] += row[i] * row[j] / (slack * slack);
        }
    }
}

/// Goes along the step as far as the value falls enough (Armijo); a value that is not a number is
/// outside. False where it cannot go on.
fn advance<const N: usize>(
    at: &mut [f64; N],
    step: &[f64; N],
    slope: f64,
    value: impl Fn(&[f64; N]) -> f64,
) -> bool {
    let here = value(at);
    let mut length = 1.0;
    for _ in 0..60 {
        let mut next = *at;
        for i in 0..N {
            next[i] += length * step[i];
        }
        if value(&next) <= here + 0.01 * length * slope {
            *at = next;
            return true;
        }
        length *= 0.5;
    }
    false
}

/// Solves `matrix x = -right` for a symmetric positive definite matrix, by Cholesky.
fn solve<const N: usize>(mut matrix: [[f64; N]; N], right: [f64; N]) -> Option<[f64; N]> {
    for i in 0..N {
        for j in 0..=i {
            let sum = matrix[i][j] - (0..j).map(|k| matrix[i][k] * matrix[j][k]).sum::<f64>();
            if i == j {
                if sum <= 0.0 || sum.is_nan() {
                    return None;
                }
                matrix[i][i] = sum.sqrt();
            } else {
                matrix[i][j] = sum / matrix[j][j];
            }
        }
    }
    let mut x = right.map(|r| -r);
    for i in 0..N {
        x[i] = (x[i] - (0..i).map(|k| matrix[i][k] * x[k]).sum::<f64>()) / matrix[i][i];
    }
    for i in (0..N).rev() {
        x[i] = (x[i] - (i + 1..N).map(|k| matrix[k][i] * x[k]).sum::<f64>()) / matrix[i][i];
    }
    Some(x)
}

fn dot<const N: usize>(a: &[f64; N], b: &[f64; N]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
