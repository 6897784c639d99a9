//! Parted into pieces that each pass the opening straight.

use super::clear;
use super::straight::straight;
use crate::job::WayIn;
use brimful_geom::boolean::{clip, pieces};
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;

/// More tanks than this are no answer to one hole.
const MOST_PIECES: usize = 4;

/// The fewest pieces of equal length along an axis that pass, by the axis with the smallest cuts.
pub(super) fn parted(way_in: &WayIn, body: &Solid) -> Option<Vec<Solid>> {
    let opening = clear(way_in);
    for count in 2..=MOST_PIECES {
        let mut ways: Vec<(f64, Vec<Solid>)> = [Vec3::X, Vec3::Y, Vec3::Z]
            .into_iter()
            .filter_map(|axis| along(body, axis, count))
            .filter(|parts| parts.iter().all(|part| straight(part, opening).is_some()))
            .map(|parts| (parts.iter().map(Solid::area).sum::<f64>(), parts))
            .collect();
        // The least area of all pieces is the least area of the cuts.
        ways.sort_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, parts)) = ways.into_iter().next() {
            return Some(parts);
        }
    }
    None
}

/// The body cut square to an axis into parts of equal length; none where a part falls apart.
fn along(body: &Solid, axis: Vec3, count: usize) -> Option<Vec<Solid>> {
    let reach = body.vertices.iter().map(|p| axis.dot(p.to_vec()));
    let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
        (low.min(v), high.max(v))
    });
    let at = |place: usize| low + (high - low) * place as f64 / count as f64;
    (0..count)
        .map(|place| {
            let above = Plane {
                normal: -axis,
                offset: -at(place),
            };
            let below = Plane {
                normal: axis,
                offset: at(place + 1),
            };
            let part = clip(&clip(body, &above).ok()?, &below).ok()?;
            (pieces(&part).ok()?.len() == 1).then_some(part)
        })
        .collect()
}
