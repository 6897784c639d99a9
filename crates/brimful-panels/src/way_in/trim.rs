//! Trimmed until it passes the opening: the largest body that a cut at the top or at the ends
//! leaves and that goes in whole without turning behind the opening.

use super::entry::Entry;
use super::opening::clear;
use super::whole::unturned;
use crate::space::Room;
use brimful_geom::boolean::clip;
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_job::WayIn;
use rayon::prelude::*;

/// The largest trimmed body that goes in whole, with its way.
pub fn trimmed(way_in: &WayIn, room: &Room, body: &Solid) -> Option<(Solid, Entry)> {
    let mut cut: Vec<(f64, Solid)> = fitting_sizes(clear(way_in))
        .into_par_iter()
        .flat_map_iter(|sizes| cut_to(body, sizes))
        .filter(|solid| !solid.faces.is_empty())
        .map(|solid| (rounded(solid.moments().volume), solid))
        .collect();
    cut.sort_by(|a, b| b.0.total_cmp(&a.0));
    cut.dedup_by(|a, b| a.1 == b.1);
    cut.into_par_iter()
        .find_map_first(|(_, solid)| unturned(way_in, room, &solid).map(|entry| (solid, entry)))
}

/// A volume in whole cubic millimetres, so that equal ones stay in their order.
fn rounded(volume: f64) -> f64 {
    (volume * 1e9).round()
}

/// For each axis that may go first and each way to lie in the opening, the sizes that pass; none
/// on the axis that goes first.
fn fitting_sizes([width, height]: [f64; 2]) -> Vec<[Option<f64>; 3]> {
    let mut all = Vec::new();
    for first in 0..3 {
        for (a, b) in [(width, height), (height, width)] {
            let mut sizes = [Some(a); 3];
            sizes[first] = None;
            sizes[(first + 2) % 3] = Some(b);
            all.push(sizes);
        }
    }
    all
}

/// The body cut to sizes: at the top for its height, at either end for length and depth.
fn cut_to(body: &Solid, sizes: [Option<f64>; 3]) -> Vec<Solid> {
    let (low, high) = body.bounds();
    let axes = [
        (Vec3::X, low.x, high.x),
        (Vec3::Y, low.y, high.y),
        (Vec3::Z, low.z, high.z),
    ];
    let mut parts = vec![body.clone()];
    for ((axis, low, high), size) in axes.into_iter().zip(sizes) {
        let Some(size) = size.filter(|size| high - low > *size) else {
            continue;
        };
        let far = Plane {
            normal: axis,
            offset: low + size,
        };
        let near = Plane {
            normal: -axis,
            offset: size - high,
        };
        let cuts = if axis == Vec3::Z {
            vec![far]
        } else {
            vec![far, near]
        };
        parts = parts
            .iter()
            .flat_map(|part| cuts.iter().filter_map(|plane| clip(part, plane).ok()))
            .collect();
    }
    parts
}
