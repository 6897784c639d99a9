//! Points and directions as JSON: lists of coordinates in metres.

/// A direction in the tank's axes.
pub(super) fn vector(v: brimful_geom::vector::Vec3) -> [f64; 3] {
    [v.x, v.y, v.z]
}

/// A point in the tank's axes.
pub(super) fn point(p: brimful_geom::vector::Point3) -> [f64; 3] {
    [p.x, p.y, p.z]
}

/// A point in a panel's own axes.
pub(super) fn flat_point(p: brimful_geom::vector::Point2) -> [f64; 2] {
    [p.x, p.y]
}
