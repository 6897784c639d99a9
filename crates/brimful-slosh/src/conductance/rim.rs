//! Potential flow about the edge of a plate.
//!
//! `across` is the distance from the plate's plane. Only ratios of flux and potential are used, so that the
//! potentials have any size.

use super::quadrature::integral;
use brimful_geom::vector::{Point2, Vec2};

/// The edge of a plate as the liquid sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Rim {
    /// A straight one. The potential is `sqrt(r) sin(theta / 2)`, with `theta` from the way into the opening: the leading
    /// term of the flow about any edge.
    Straight {
        /// Its ends.
        ends: [Point2; 2],
        /// Into the opening, of length one.
        ahead: Vec2,
    },
    /// A round hole in a plate without end. The potential is `(2 / pi) arctan zeta` of oblate spheroidal coordinates (H. Lamb,
    /// *Hydrodynamics*, 6th edition, article 108; from memory), and its flux four radii: a conductance of twice the radius.
    Round {
        /// Its middle.
        centre: Point2,
        /// Its radius.
        radius: f64,
    },
}

impl Rim {
    /// The nearest place on the rim in its plane.
    pub fn distance(&self, at: Point2) -> f64 {
        match *self {
            Self::Straight { ends: [a, b], .. } => {
                let (along, way) = (b - a, at - a);
                let share = (way.dot(along) / along.dot(along)).clamp(0.0, 1.0);
                at.distance(a + along * share)
            }
            Self::Round { centre, radius } => (at.distance(centre) - radius).abs(),
        }
    }

    /// Which way the opening or the plate is from the rim near a place, of length one.
    pub fn way(&self, at: Point2) -> Vec2 {
        match *self {
            Self::Straight { ahead, .. } => ahead,
            Self::Round { centre, .. } => (at - centre).unit().unwrap_or(Vec2::new(1.0, 0.0)),
        }
    }

    /// The potential.
    pub fn potential(&self, across: f64, at: Point2) -> f64 {
        match *self {
            Self::Straight { ends, ahead } => {
                let (radius, angle) = polar(across, (at - ends[0]).dot(ahead));
                across.signum() * radius.sqrt() * (angle / 2.0).sin()
            }
            Self::Round { centre, radius } => {
                let spheroid = Spheroid::at(across, at.distance(centre), radius);
                across.signum() * spheroid.zeta.atan() * std::f64::consts::FRAC_2_PI
            }
        }
    }

    /// How fast the potential grows away from the plane and along it, off the plane.
    pub fn gradient(&self, across: f64, at: Point2) -> (f64, Vec2) {
        match *self {
            Self::Straight { ends, ahead } => {
                let (radius, angle) = polar(across, (at - ends[0]).dot(ahead));
                let half = 0.5 / radius.sqrt();
                let (sin, cos) = (angle / 2.0).sin_cos();
                (half * cos, ahead * (-across.signum() * half * sin))
            }
            Self::Round { centre, radius } => {
                let off = at.distance(centre);
                let (along, outward) = Spheroid::at(across, off, radius).gradient(radius);
                (along, self.way(at) * (outward * across.signum()))
            }
        }
    }

    /// The flux through the part of a rectangle in the plane that is open, and that part's area. Both are
    /// integrals of a divergence, and so are taken along the rectangle's sides.
    pub fn through(&self, low: Point2, high: Point2) -> (f64, f64) {
        let corners = [
            low,
            Point2::new(high.x, low.y),
            high,
            Point2::new(low.x, high.y),
        ];
        let sides = (0..4).map(|it| self.along(corners[it], corners[(it + 1) % 4]));
        sides.fold((0.0, 0.0), |sum, side| (sum.0 + side.0, sum.1 + side.1))
    }

    fn along(&self, from: Point2, to: Point2) -> (f64, f64) {
        match *self {
            Self::Straight { ends, ahead } => {
                let depth = |it: Point2| (it - ends[0]).dot(ahead);
                let turn = ahead.cross(to - from);
                along_straight(depth(from), depth(to), turn)
            }
            Self::Round { centre, radius } => along_round(from - centre, to - centre, radius),
        }
    }
}

/// Distance from a straight edge, and the angle from the way into the opening, from 0 to pi.
fn polar(across: f64, depth: f64) -> (f64, f64) {
    (across.hypot(depth), across.abs().atan2(depth))
}

/// The integrals of the root of the depth, and of the depth, along a side where it is above zero; `turn` is what
/// the side runs square to the depth. In the plane the potential grows with `1 / (2 sqrt depth)`, the divergence of the root.
fn along_straight(mut from: f64, mut to: f64, mut turn: f64) -> (f64, f64) {
    if from <= 0.0 && to <= 0.0 {
        return (0.0, 0.0);
    }
    if from < 0.0 || to < 0.0 {
        turn *= from.max(to) / (from - to).abs();
        (from, to) = (from.max(0.0), to.max(0.0));
    }
    // The mean of the root along the side, in a form without a difference that vanishes.
    let (u, v) = (from.sqrt(), to.sqrt());
    let mean = match u + v {
        0.0 => 0.0,
        sum => 2.0 / 3.0 * (u * u + u * v + v * v) / sum,
    };
    (turn * mean, turn * (from + to) / 2.0)
}

/// The same about a round hole: the potential grows with `(2 / pi) / sqrt(a^2 - r^2)` in it, the divergence of
/// `(2 / pi) (a - sqrt(a^2 - r^2)) / r`.
fn along_round(from: Vec2, to: Vec2, radius: f64) -> (f64, f64) {
    // Parts so short that the root at the rim costs less than a ten-thousandth.
    const PARTS: usize = 8;
    let (flux, area) = (0..PARTS).fold((0.0, 0.0), |(flux, area), part| {
        let place = |share: f64| (from + (to - from) * share).length();
        let (a, b) = (part as f64 / PARTS as f64, (part + 1) as f64 / PARTS as f64);
        let of_flux = |at: f64| {
            let square = radius * radius - place(at).powi(2);
            match square > 0.0 {
                true => 1.0 / (radius + square.sqrt()),
                false => radius / (radius * radius - square),
            }
        };
        let of_area = |at: f64| (radius / place(at)).powi(2).min(1.0) / 2.0;
        (
            flux + integral(a, b, of_flux),
            area + integral(a, b, of_area),
        )
    });
    let turn = from.cross(to);
    (turn * flux * std::f64::consts::FRAC_2_PI, turn * area)
}

/// Oblate spheroidal coordinates about a disk.
struct Spheroid {
    across: f64,
    off: f64,
    /// `r^2 + z^2 - a^2`, and the root of that squared plus `4 a^2 z^2`.
    sum: f64,
    root: f64,
    zeta: f64,
}

impl Spheroid {
    fn at(across: f64, off: f64, radius: f64) -> Self {
        let across = across.abs();
        let sum = off * off + across * across - radius * radius;
        let root = sum.hypot(2.0 * radius * across);
        // The form that does not cancel on either side of the rim.
        let square = match sum > 0.0 {
            true => (sum + root) / (2.0 * radius * radius),
            false => 2.0 * across * across / (root - sum).max(f64::MIN_POSITIVE),
        };
        Self {
            across,
            off,
            sum,
            root,
            zeta: square.sqrt(),
        }
    }

    /// The gradient of the potential away from the plane, and outward along it.
    fn gradient(&self, radius: f64) -> (f64, f64) {
        let steep = std::f64::consts::FRAC_2_PI / (1.0 + self.zeta * self.zeta);
        let scale = steep / (2.0 * self.zeta * radius * radius);
        let outward = self.off * (1.0 + self.sum / self.root);
        let away = self.across * (1.0 + (self.sum + 2.0 * radius * radius) / self.root);
        (scale * away, scale * outward)
    }
}
