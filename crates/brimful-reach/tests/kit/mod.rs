//! A pencil-sized gun, an arm and boxes of plates, for tests.

use brimful_geom::frame::Frame;
use brimful_geom::plate::{Plate, Side};
use brimful_geom::vector::{Point2, Point3, Vec2, Vec3};
use brimful_reach::{Arm, Part, Sight, Tool};
use std::f64::consts::PI;

/// Kept of everything.
pub const CLEARANCE: f64 = 0.002;
/// What an arm goes through.
pub const PASSAGE: f64 = 0.115;

/// A gun of 270 mm from its tip to the hand, with rod fed by the other hand.
pub fn gun() -> Tool {
    let part = |from: f64, to: f64, radius: f64| Part { from, to, radius };
    Tool {
        shaft: vec![
            part(0.012, 0.055, 0.004),
            part(0.070, 0.165, 0.019),
            part(0.165, 0.380, 0.020),
        ],
        foot: vec![part(0.0, 0.005, 0.002)],
        foot_height: 0.008,
        feed: vec![part(0.012, 0.150, 0.004), part(0.170, 0.180, 0.045)],
        feed_lean: PI / 6.0,
        grip: 0.270,
        leans: [45.0, 60.0, 75.0, 90.0_f64].map(f64::to_radians).to_vec(),
        tilts: [0.0, 15.0, -15.0, 30.0, -30.0_f64]
            .map(f64::to_radians)
            .to_vec(),
    }
}

/// A short person's arm.
pub fn arm() -> Arm {
    Arm {
        hand: 0.050,
        forearm: 0.300,
        forearm_radius: 0.045,
        upper_arm: 0.330,
        upper_arm_radius: 0.055,
        wrist: 110_f64.to_radians(),
        elbow: 120_f64.to_radians(),
        body_radius: 0.220,
        lean_in: 0.600,
        reach: 0.600,
    }
}

/// An eye.
pub fn sight() -> Sight {
    Sight {
        radius: 0.001,
        least: 0.330,
        head: 0.125,
    }
}

/// A square plate from its lowest to its highest corner, across the axis along which it is thinnest.
pub fn plate(low: [f64; 3], high: [f64; 3]) -> Plate {
    let size = |axis: usize| high[axis] - low[axis];
    let across = (0..3)
        .min_by(|a, b| size(*a).total_cmp(&size(*b)))
        .unwrap_or(2);
    let [first, second] = [(across + 1) % 3, (across + 2) % 3];
    let axes = [Vec3::X, Vec3::Y, Vec3::Z];
    let mut origin = low;
    origin[across] = high[across];
    let frame = Frame {
        origin: Point3::new(origin[0], origin[1], origin[2]),
        x: axes[first],
        y: axes[second],
        z: axes[across],
    };
    let side = |x: f64, y: f64, at: f64| Side {
        normal: Vec2::new(x, y),
        outer: at,
        inner: at,
        start: Point2::default(),
        mark: Some(0),
    };
    let ring = vec![
        side(0.0, -1.0, 0.0),
        side(1.0, 0.0, size(first)),
        side(0.0, 1.0, size(second)),
        side(-1.0, 0.0, 0.0),
    ];
    Plate::new(frame, size(across), vec![ring])
}

/// A box of plates of thickness `t`, its inside from the origin to `size`: floor, lid, then across y and across x, each
/// the lower first.
pub fn box_of([x, y, z]: [f64; 3], t: f64) -> Vec<Plate> {
    vec![
        plate([0.0, 0.0, -t], [x, y, 0.0]),
        plate([0.0, 0.0, z], [x, y, z + t]),
        plate([0.0, -t, 0.0], [x, 0.0, z]),
        plate([0.0, y, 0.0], [x, y + t, z]),
        plate([-t, 0.0, 0.0], [0.0, y, z]),
        plate([x, 0.0, 0.0], [x + t, y, z]),
    ]
}
