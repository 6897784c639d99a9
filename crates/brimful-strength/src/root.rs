//! Where a function that never rises passes zero.

/// How far from the root, in either way. The unknowns are natural logarithms, so that it is a ten thousand
/// millionth of what they stand for.
const TOLERANCE: f64 = 1e-10;
/// Steps that may be lost to interpolation over what halving alone takes (`n_0` of the paper).
const LOST: i32 = 1;

/// The last place found at which `f` is not below zero, between `low`, where it is not, and `high`, where it is.
///
/// Interpolation, truncation and projection (I. F. D. Oliveira and R. H. C. Takahashi, *An enhancement of the
/// bisection method average performance preserving minmax optimality*, ACM Trans. Math. Softw. 47 (2020), article
/// 5, algorithm ITP; from memory): false position that takes no more steps than halving, whatever the function.
pub fn falling_root(low: f64, high: f64, f: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = ((low, f(low)), (high, f(high)));
    let first = high.0 - low.0;
    let halvings = (first / (2.0 * TOLERANCE)).log2().ceil() as i32;
    for step in 0..halvings + LOST {
        let width = high.0 - low.0;
        if width <= 2.0 * TOLERANCE {
            break;
        }
        let middle = low.0 + width / 2.0;
        let position = low.0 + width * low.1 / (low.1 - high.1);
        let towards = (middle - position).signum();
        // kappa_1 = 0.2 / (b - a) at the start, kappa_2 = 2.
        let nudge = 0.2 / first * width * width;
        let truncated = match nudge <= (middle - position).abs() {
            true => position + towards * nudge,
            false => middle,
        };
        let reach = TOLERANCE * 2.0_f64.powi(halvings + LOST - step) - width / 2.0;
        let at = match (truncated - middle).abs() <= reach {
            true => truncated,
            false => middle - towards * reach,
        };
        match f(at) {
            value if value >= 0.0 => low = (at, value),
            value => high = (at, value),
        }
    }
    low.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    type Falling<'a> = &'a dyn Fn(f64) -> f64;

    /// Roots known exactly. Halving takes 38 steps and the values at the ends: the paper's claim is that no function
    /// takes more but for the one step lost, and simple roots take far fewer.
    #[test]
    fn roots_are_found_in_few_steps() {
        let cases: [(Falling<'_>, f64, f64); 4] = [
            (&|x| 2.0 - x, 2.0, 15.0),
            (&|x| (3.0 - x).powi(3), 3.0, 41.0),
            (&|x| 1.0 - (x / 10.0).exp(), 0.0, 15.0),
            (&|x| if x < 0.7 { 1.0 } else { -1e3 }, 0.7, 41.0),
        ];
        for (f, root, most) in cases {
            let steps = Cell::new(0.0);
            let found = falling_root(-20.0, 20.0, |x| {
                steps.set(steps.get() + 1.0);
                f(x)
            });
            assert!(
                (found - root).abs() <= 2.0 * TOLERANCE,
                "{found} for {root}"
            );
            assert!(steps.get() <= most, "{} steps to {root}", steps.get());
        }
    }
}
