//! Points and directions in the plane and in space, in metres.
//!
//! A point is a place, a vector is the way from one place to another; adding two points does
//! not compile.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// A place in a plane, in metres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point2 {
    /// Along the first axis of the plane.
    pub x: f64,
    /// Along the second axis of the plane.
    pub y: f64,
}

/// A direction with a length in a plane.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec2 {
    /// Along the first axis of the plane.
    pub x: f64,
    /// Along the second axis of the plane.
    pub y: f64,
}

/// A place in space, in metres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point3 {
    /// Along x.
    pub x: f64,
    /// Along y.
    pub y: f64,
    /// Along z.
    pub z: f64,
}

/// A direction with a length in space.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Vec3 {
    /// Along x.
    pub x: f64,
    /// Along y.
    pub y: f64,
    /// Along z.
    pub z: f64,
}

/// In JSON a list of its coordinates, metres.
impl Serialize for Point3 {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        [self.x, self.y, self.z].serialize(serializer)
    }
}

impl JsonSchema for Point3 {
    fn schema_name() -> Cow<'static, str> {
        "Point".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        <[f64; 3]>::json_schema(generator)
    }
}

impl Point2 {
    /// The place at `(x, y)`.
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
    /// The way here from the origin.
    #[inline]
    pub fn to_vec(self) -> Vec2 {
        Vec2::new(self.x, self.y)
    }
    /// Distance to another place.
    #[inline]
    pub fn distance(self, other: Self) -> f64 {
        (self - other).length()
    }
    /// The place halfway to another.
    #[inline]
    pub fn midpoint(self, other: Self) -> Self {
        Self::new((self.x + other.x) / 2.0, (self.y + other.y) / 2.0)
    }
}

impl Vec2 {
    /// The vector `(x, y)`.
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
    /// Scalar product.
    #[inline]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }
    /// The z part of the cross product: positive when `other` is to the left of `self`.
    #[inline]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }
    /// Euclidean length.
    #[inline]
    pub fn length(self) -> f64 {
        self.x.hypot(self.y)
    }
    /// This direction with length one; `None` for the zero vector.
    #[inline]
    pub fn unit(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0).then(|| self / length)
    }
    /// Turned a quarter to the left.
    #[inline]
    pub fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }
    /// Turned a quarter to the right.
    #[inline]
    pub fn right(self) -> Self {
        Self::new(self.y, -self.x)
    }
}

impl Point3 {
    /// The origin.
    pub const ORIGIN: Self = Self::new(0.0, 0.0, 0.0);
    /// The place at `(x, y, z)`.
    #[inline]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }
    /// The way here from the origin.
    #[inline]
    pub fn to_vec(self) -> Vec3 {
        Vec3::new(self.x, self.y, self.z)
    }
    /// Distance to another place.
    #[inline]
    pub fn distance(self, other: Self) -> f64 {
        (self - other).length()
    }
    /// Distance to the segment between two others.
    pub fn distance_to_segment(self, a: Self, b: Self) -> f64 {
        let (way, from) = (b - a, self - a);
        let squared = way.dot(way);
        if squared == 0.0 {
            return from.length();
        }
        let share = (from.dot(way) / squared).clamp(0.0, 1.0);
        (from - way * share).length()
    }
    /// The place halfway to another.
    #[inline]
    pub fn midpoint(self, other: Self) -> Self {
        self + (other - self) * 0.5
    }
    /// The coordinates as `[x, y, z]`.
    #[inline]
    pub const fn to_array(self) -> [f64; 3] {
        [self.x, self.y, self.z]
    }
}

impl Vec3 {
    /// The zero vector.
    pub const ZERO: Self = Self::new(0.0, 0.0, 0.0);
    /// Unit vector along x.
    pub const X: Self = Self::new(1.0, 0.0, 0.0);
    /// Unit vector along y.
    pub const Y: Self = Self::new(0.0, 1.0, 0.0);
    /// Unit vector along z.
    pub const Z: Self = Self::new(0.0, 0.0, 1.0);
    /// The vector `(x, y, z)`.
    #[inline]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }
    /// Scalar product.
    #[inline]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }
    /// Vector product.
    #[inline]
    pub fn cross(self, other: Self) -> Self {
        Self::new(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }
    /// Euclidean length.
    #[inline]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }
    /// This direction with length one; `None` for the zero vector.
    #[inline]
    pub fn unit(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0).then(|| self / length)
    }
    /// The components as `[x, y, z]`.
    #[inline]
    pub const fn to_array(self) -> [f64; 3] {
        [self.x, self.y, self.z]
    }
}

macro_rules! vector_arithmetic {
    ($point:ident, $vector:ident, $($axis:ident),+) => {
        impl Add for $vector {
            type Output = Self;
            #[inline]
            fn add(self, other: Self) -> Self { Self { $($axis: self.$axis + other.$axis),+ } }
        }
        impl AddAssign for $vector {
            #[inline]
            fn add_assign(&mut self, other: Self) { $(self.$axis += other.$axis;)+ }
        }
        impl Sub for $vector {
            type Output = Self;
            #[inline]
            fn sub(self, other: Self) -> Self { Self { $($axis: self.$axis - other.$axis),+ } }
        }
        impl Neg for $vector {
            type Output = Self;
            #[inline]
            fn neg(self) -> Self { Self { $($axis: -self.$axis),+ } }
        }
        impl Mul<f64> for $vector {
            type Output = Self;
            #[inline]
            fn mul(self, factor: f64) -> Self { Self { $($axis: self.$axis * factor),+ } }
        }
        impl Div<f64> for $vector {
            type Output = Self;
            #[inline]
            fn div(self, divisor: f64) -> Self { Self { $($axis: self.$axis / divisor),+ } }
        }
        impl Add<$vector> for $point {
            type Output = Self;
            #[inline]
            fn add(self, way: $vector) -> Self { Self { $($axis: self.$axis + way.$axis),+ } }
        }
        impl Sub<$vector> for $point {
            type Output = Self;
            #[inline]
            fn sub(self, way: $vector) -> Self { Self { $($axis: self.$axis - way.$axis),+ } }
        }
        impl Sub for $point {
            type Output = $vector;
            #[inline]
            fn sub(self, other: Self) -> $vector { $vector { $($axis: self.$axis - other.$axis),+ } }
        }
    };
}
vector_arithmetic!(Point2, Vec2, x, y);
vector_arithmetic!(Point3, Vec3, x, y, z);
