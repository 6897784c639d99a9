//! Places and attitudes of a rigid body, and the ways between them.

use crate::vector::Vec3;

/// A pose: where the body's centre is, and a unit quaternion (w, x, y, z) that turns it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    pub centre: Vec3,
    pub turn: [f64; 4],
}

impl Pose {
    pub fn still(centre: Vec3) -> Self {
        Self {
            centre,
            turn: [1.0, 0.0, 0.0, 0.0],
        }
    }

    pub fn axes(&self) -> [Vec3; 3] {
        let [w, x, y, z] = self.turn;
        [
            Vec3::new(
                1.0 - 2.0 * (y * y + z * z),
                2.0 * (x * y + w * z),
                2.0 * (x * z - w * y),
            ),
            Vec3::new(
                2.0 * (x * y - w * z),
                1.0 - 2.0 * (x * x + z * z),
                2.0 * (y * z + w * x),
            ),
            Vec3::new(
                2.0 * (x * z + w * y),
                2.0 * (y * z - w * x),
                1.0 - 2.0 * (x * x + y * y),
            ),
        ]
    }

    /// From three orthogonal axes (S. W. Shepperd, "Quaternion from rotation matrix", 1978, from memory).
    pub fn turn_of([x, y, z]: [Vec3; 3]) -> [f64; 4] {
        let four = [
            1.0 + x.x + y.y + z.z,
            1.0 + x.x - y.y - z.z,
            1.0 - x.x + y.y - z.z,
            1.0 - x.x - y.y + z.z,
        ];
        let largest = (0..4)
            .max_by(|&a, &b| four[a].total_cmp(&four[b]))
            .unwrap_or(0);
        let (wx, wy, wz) = (y.z - z.y, z.x - x.z, x.y - y.x);
        let (xy, yz, zx) = (x.y + y.x, y.z + z.y, z.x + x.z);
        let own = four[largest];
        let quaternion = match largest {
            0 => [own, wx, wy, wz],
            1 => [wx, own, xy, zx],
            2 => [wy, xy, own, yz],
            _ => [wz, zx, yz, own],
        };
        unit4(quaternion)
    }

    /// Cosine of half the angle between two turns, and the second's sign on the shorter way.
    pub fn half_cosine(&self, other: &Self) -> (f64, f64) {
        let dot: f64 = self.turn.iter().zip(other.turn).map(|(a, b)| a * b).sum();
        (dot.abs().min(1.0), dot.signum())
    }

    pub fn angle(&self, other: &Self) -> f64 {
        2.0 * self.half_cosine(other).0.acos()
    }

    /// The pose at a share of the way to another: straight, and turning evenly.
    pub fn towards(&self, other: &Self, share: f64) -> Self {
        let (cosine, sign) = self.half_cosine(other);
        let half = cosine.acos();
        let (a, b) = if half < 1e-9 {
            (1.0 - share, share)
        } else {
            (
                ((1.0 - share) * half).sin() / half.sin(),
                (share * half).sin() / half.sin(),
            )
        };
        let mut turn = [0.0; 4];
        for (i, t) in turn.iter_mut().enumerate() {
            *t = a * self.turn[i] + b * sign * other.turn[i];
        }
        Self {
            centre: self.centre + (other.centre - self.centre) * share,
            turn: unit4(turn),
        }
    }
}

fn unit4(q: [f64; 4]) -> [f64; 4] {
    let length = q.iter().map(|c| c * c).sum::<f64>().sqrt();
    q.map(|c| c / length)
}
