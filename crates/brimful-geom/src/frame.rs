//! Planes in space, and flat frames laid in them.

use crate::vector::{Point2, Point3, Vec2, Vec3};

/// An oriented plane `normal . p = offset`; the normal has length one and, on a solid, points
/// out of the material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// Unit normal.
    pub normal: Vec3,
    /// Signed distance of the plane from the origin along the normal, metres.
    pub offset: f64,
}

impl Plane {
    /// The plane through `point` with the direction `normal` (any length but zero).
    pub fn through(point: Point3, normal: Vec3) -> Option<Self> {
        let normal = normal.unit()?;
        Some(Self {
            normal,
            offset: normal.dot(point.to_vec()),
        })
    }
    /// Signed distance of a point, positive on the side the normal points to, metres.
    pub fn distance(&self, point: Point3) -> f64 {
        self.normal.dot(point.to_vec()) - self.offset
    }
    /// The plane moved along its normal by `distance` (negative: into the material).
    pub fn moved(&self, distance: f64) -> Self {
        Self {
            normal: self.normal,
            offset: self.offset + distance,
        }
    }
    /// The same plane seen from the other side.
    pub fn flipped(&self) -> Self {
        Self {
            normal: -self.normal,
            offset: -self.offset,
        }
    }
    /// The foot of the perpendicular from `point`.
    pub fn project(&self, point: Point3) -> Point3 {
        point - self.normal * self.distance(point)
    }
    /// The point common to three planes; `None` where they have none or more than one.
    pub fn meet(a: &Self, b: &Self, c: &Self) -> Option<Point3> {
        let bc = b.normal.cross(c.normal);
        let determinant = a.normal.dot(bc);
        if determinant.abs() < PARALLEL_DETERMINANT {
            return None;
        }
        let ca = c.normal.cross(a.normal);
        let ab = a.normal.cross(b.normal);
        let sum = bc * a.offset + ca * b.offset + ab * c.offset;
        let mut point = Point3::ORIGIN + sum / determinant;
        [a, b, c]
            .into_iter()
            .for_each(|plane| plane.settle(&mut point));
        Some(point)
    }
    /// Puts a point that is on the plane but for rounding exactly on it, where the plane is square
    /// to an axis: faces that touch then touch exactly.
    fn settle(&self, point: &mut Point3) {
        match self.normal.to_array() {
            [x, 0.0, 0.0] => point.x = self.offset * x,
            [0.0, y, 0.0] => point.y = self.offset * y,
            [0.0, 0.0, z] => point.z = self.offset * z,
            _ => {}
        }
    }
}

/// Below this triple product of unit normals three planes are taken to meet in no single point.
/// It is the volume of the parallelepiped of the normals; 1e-9 is a tilt of about 0.03 mrad
/// between two of them, far flatter than any two sheets that a weld joins.
const PARALLEL_DETERMINANT: f64 = 1e-9;

/// A right-handed flat frame in space: `x` and `y` lie in the plane, `z` is its normal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Where the frame's origin is in the world.
    pub origin: Point3,
    /// First in-plane axis, unit.
    pub x: Vec3,
    /// Second in-plane axis, unit.
    pub y: Vec3,
    /// Normal, `x` cross `y`, unit.
    pub z: Vec3,
}

impl Frame {
    /// The world's own frame.
    pub const WORLD: Self = Self {
        origin: Point3::ORIGIN,
        x: Vec3::X,
        y: Vec3::Y,
        z: Vec3::Z,
    };

    /// A frame in `plane` with its origin at the foot of `near`, and with `y` as near to the
    /// world's up as the plane allows (for a level plane `x` is the world's x).
    pub fn upright(plane: &Plane, near: Point3) -> Self {
        let z = plane.normal;
        let level = z.x.hypot(z.y) < LEVEL_SINE;
        let x = if level {
            Vec3::X - z * z.x
        } else {
            Vec3::Z.cross(z)
        };
        let x = x.unit().unwrap_or(Vec3::X);
        Self {
            origin: plane.project(near),
            x,
            y: z.cross(x),
            z,
        }
    }
    /// The plane of the frame.
    pub fn plane(&self) -> Plane {
        Plane {
            normal: self.z,
            offset: self.z.dot(self.origin.to_vec()),
        }
    }
    /// In-plane coordinates of a point (its height above the plane is dropped).
    pub fn flat_from_world(&self, point: Point3) -> Point2 {
        let way = point - self.origin;
        Point2::new(way.dot(self.x), way.dot(self.y))
    }
    /// In-plane part of a direction.
    pub fn flat_from_world_vec(&self, way: Vec3) -> Vec2 {
        Vec2::new(way.dot(self.x), way.dot(self.y))
    }
    /// The place in the world of an in-plane point.
    pub fn world_from_flat(&self, point: Point2) -> Point3 {
        self.world_from_frame(Point3::new(point.x, point.y, 0.0))
    }
    /// The place in the world of a point given in this frame.
    pub fn world_from_frame(&self, point: Point3) -> Point3 {
        self.origin + self.x * point.x + self.y * point.y + self.z * point.z
    }
    /// The coordinates in this frame of a place in the world.
    pub fn frame_from_world(&self, point: Point3) -> Point3 {
        let way = point - self.origin;
        Point3::new(way.dot(self.x), way.dot(self.y), way.dot(self.z))
    }
}

/// A plane whose normal leans less than this from the vertical is called level (sine of 0.06
/// degrees: a tenth of a millimetre in 100 mm, below what a workshop level shows).
const LEVEL_SINE: f64 = 1e-3;
