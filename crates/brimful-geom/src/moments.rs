//! Volume, centre and second moments of solids, whole or below a level surface.
//!
//! By the divergence theorem the integral of a homogeneous polynomial of degree d over a solid
//! is 1/(3+d) times the integral of that polynomial times `r . n` over its faces, for any
//! origin. With the origin *on* the cutting plane `r . n` vanishes on the cut, so the liquid
//! below a surface is found exactly from the clipped faces alone and the cut is never built.
//! (The cone form of the surface integrals in D. Eberly, "Polyhedral Mass Properties
//! (Revisited)", 2002, and B. Mirtich, "Fast and Accurate Computation of Polyhedral Mass
//! Properties", J. Graphics Tools 1(2), 1996.)

use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};
use std::ops::{Add, AddAssign, Mul, Sub};

/// Integrals of 1, r and r r^T over a solid, about the world's origin.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Moments {
    /// Volume, m3.
    pub volume: f64,
    /// Integral of the position, m4.
    pub first: Vec3,
    /// Integrals of xx, yy, zz, m5.
    pub second_axis: Vec3,
    /// Integrals of yz, zx, xy, m5.
    pub second_cross: Vec3,
}

/// Picks one component of a vector.
type Component = fn(Vec3) -> f64;

impl Moments {
    /// Centre of volume; the origin for an empty solid.
    pub fn centroid(&self) -> Point3 {
        if self.volume == 0.0 {
            Point3::ORIGIN
        } else {
            Point3::ORIGIN + self.first / self.volume
        }
    }

    /// Inertia for density one about a point, m5: `[Ixx, Iyy, Izz, Iyz, Izx, Ixy]` with the
    /// products of inertia signed as in the tensor (`Ixy = -integral of xy`).
    pub fn inertia_about(&self, point: Point3) -> [f64; 6] {
        let m = self.moved(Point3::ORIGIN - point);
        let (a, c) = (m.second_axis, m.second_cross);
        [a.y + a.z, a.z + a.x, a.x + a.y, -c.x, -c.y, -c.z]
    }

    /// The moments of the same solid moved by `way`.
    pub fn moved(&self, way: Vec3) -> Self {
        let (f, v, w) = (self.first, self.volume, way);
        let axis = |s: f64, fi: f64, wi: f64| s + 2.0 * wi * fi + wi * wi * v;
        let cross =
            |s: f64, fi: f64, fj: f64, wi: f64, wj: f64| s + wi * fj + wj * fi + wi * wj * v;
        let (a, c) = (self.second_axis, self.second_cross);
        Self {
            volume: v,
            first: f + w * v,
            second_axis: Vec3::new(
                axis(a.x, f.x, w.x),
                axis(a.y, f.y, w.y),
                axis(a.z, f.z, w.z),
            ),
            second_cross: Vec3::new(
                cross(c.x, f.y, f.z, w.y, w.z),
                cross(c.y, f.z, f.x, w.z, w.x),
                cross(c.z, f.x, f.y, w.x, w.y),
            ),
        }
    }

    /// The cone from the origin over a triangle; signed by the triangle's turn.
    fn cone(a: Vec3, b: Vec3, c: Vec3) -> Self {
        let volume = a.dot(b.cross(c)) / 6.0;
        let sum = a + b + c;
        let axis = |pick: Component| {
            let (a, b, c, s) = (pick(a), pick(b), pick(c), pick(sum));
            volume / 20.0 * (a * a + b * b + c * c + s * s)
        };
        let cross = |p: Component, q: Component| {
            volume / 20.0 * (p(a) * q(a) + p(b) * q(b) + p(c) * q(c) + p(sum) * q(sum))
        };
        let (x, y, z): (Component, Component, Component) = (|v| v.x, |v| v.y, |v| v.z);
        Self {
            volume,
            first: sum * (volume / 4.0),
            second_axis: Vec3::new(axis(x), axis(y), axis(z)),
            second_cross: Vec3::new(cross(y, z), cross(z, x), cross(x, y)),
        }
    }
}

impl Add for Moments {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            volume: self.volume + other.volume,
            first: self.first + other.first,
            second_axis: self.second_axis + other.second_axis,
            second_cross: self.second_cross + other.second_cross,
        }
    }
}

impl AddAssign for Moments {
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Moments {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + other * -1.0
    }
}

impl Mul<f64> for Moments {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self {
            volume: self.volume * factor,
            first: self.first * factor,
            second_axis: self.second_axis * factor,
            second_cross: self.second_cross * factor,
        }
    }
}

impl Solid {
    /// The moments of the whole solid.
    pub fn moments(&self) -> Moments {
        let Some(&apex) = self.vertices.first() else {
            return Moments::default();
        };
        let mut sum = Moments::default();
        self.for_each_triangle(|a, b, c| sum += Moments::cone(a - apex, b - apex, c - apex));
        sum.moved(apex.to_vec())
    }

    /// The moments of the part on the inner side of `surface` (against its normal): the liquid
    /// below a surface whose normal points up.
    pub fn moments_below(&self, surface: &Plane) -> Moments {
        let Some(&near) = self.vertices.first() else {
            return Moments::default();
        };
        let apex = surface.project(near);
        let mut sum = Moments::default();
        self.for_each_triangle(|a, b, c| {
            let height = [a, b, c].map(|p| surface.distance(p));
            sum += cone_below([a - apex, b - apex, c - apex], height);
        });
        sum.moved(apex.to_vec())
    }

    /// Fans of signed triangles that add up to the faces; holes count against.
    fn for_each_triangle(&self, mut visit: impl FnMut(Point3, Point3, Point3)) {
        for ring in self.faces.iter().flat_map(|face| &face.loops) {
            for pair in ring[1..].windows(2) {
                visit(
                    self.vertices[ring[0]],
                    self.vertices[pair[0]],
                    self.vertices[pair[1]],
                );
            }
        }
    }
}

/// The cone over the part of a triangle at or below height zero; linear in the triangle's
/// sign, so that fans over any loop add up.
fn cone_below(corner: [Vec3; 3], height: [f64; 3]) -> Moments {
    let below = height.map(|h| h <= 0.0);
    match below.iter().filter(|&&b| b).count() {
        3 => Moments::cone(corner[0], corner[1], corner[2]),
        0 => Moments::default(),
        n_below => {
            // The corner that is alone on its side, then the others in order.
            let lone = (0..3).find(|&i| below[i] == (n_below == 1)).unwrap_or(0);
            let [i, j, k] = [lone, (lone + 1) % 3, (lone + 2) % 3];
            let cut = |p: usize| {
                corner[i] + (corner[p] - corner[i]) * (height[i] / (height[i] - height[p]))
            };
            let (q, r) = (cut(j), cut(k));
            if n_below == 1 {
                Moments::cone(corner[i], q, r)
            } else {
                Moments::cone(q, corner[j], corner[k]) + Moments::cone(q, corner[k], r)
            }
        }
    }
}
