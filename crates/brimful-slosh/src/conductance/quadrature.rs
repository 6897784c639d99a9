//! Gauss points on an interval.

/// Points and weights on (0, 1) that are exact for polynomials to the seventh power: four points of Gauss and Legendre (M. Abramowitz,
/// I. A. Stegun, *Handbook of Mathematical Functions*, table 25.4; from memory).
pub(super) const POINTS: [(f64, f64); 4] = [
    (0.069_431_844_202_973_7, 0.173_927_422_568_726_9),
    (0.330_009_478_207_571_9, 0.326_072_577_431_273_1),
    (0.669_990_521_792_428_1, 0.326_072_577_431_273_1),
    (0.930_568_155_797_026_3, 0.173_927_422_568_726_9),
];

/// The integral of a function over an interval.
pub(super) fn integral(from: f64, to: f64, of: impl Fn(f64) -> f64) -> f64 {
    let points = POINTS.iter();
    let sum: f64 = points
        .map(|(at, weight)| weight * of(from + (to - from) * at))
        .sum();
    sum * (to - from)
}

/// The integral of a function that may grow like one over the root at the end that is nearer to zero: its square
/// root is the variable.
pub(super) fn integral_from_edge(a: f64, b: f64, of: impl Fn(f64) -> f64) -> f64 {
    let (near, far) = if a.abs() < b.abs() { (a, b) } else { (b, a) };
    let sum = integral(0.0, 1.0, |u| 2.0 * u * of(near + (far - near) * u * u));
    sum * (b - a).abs()
}
