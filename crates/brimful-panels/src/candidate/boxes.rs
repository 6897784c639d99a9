//! The largest boxes in a body: along the axes of the space and turned about the vertical.

use super::given_up::GivenUp;
use crate::finding::kind::{LargestBox, Unsearched};
use brimful_geom::inscribed::{Inscribed, Search, TurnedBox, level_box, upright_box};
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_units::Angle;

/// A box within 2 % of the largest there can be does as a plain box: sizes are rounded anyway.
const SEARCH: Search = Search {
    gap: 0.02,
    boxes: 300,
    angles: 1,
};
/// Angles are many and each search stops early where it cannot better what is had.
const TURNED: Search = Search {
    gap: 0.02,
    boxes: 100,
    angles: 40,
};
/// A normal off its axis by less than this runs along it: sine of a tenth of a degree.
const ALONG: f64 = 0.0017;

/// The largest boxes, with how each lies, and why one could not be looked for. A turned one only where
/// it beats the other by more than the search may be off.
pub(super) fn largest_boxes(solid: &Solid) -> (Vec<(Solid, GivenUp)>, Vec<Unsearched>) {
    let (mut boxes, mut unsearched) = (Vec::new(), Vec::new());
    let mut had = 0.0;
    match level_box(solid, &SEARCH) {
        Ok(found) => {
            had = found.size;
            boxes.push((found.best.solid(), GivenUp::LargestBox));
        }
        Err(fault) => unsearched.push(Unsearched {
            largest: LargestBox::AlongSpace,
            fault,
        }),
    }
    if !is_box(solid) {
        match upright_box(solid, &TURNED) {
            Ok(found) if found.size > had * (1.0 + TURNED.gap) => {
                boxes.push((found.best.solid(), turned(&found)));
            }
            Ok(_) => {}
            Err(fault) => unsearched.push(Unsearched {
                largest: LargestBox::Turned,
                fault,
            }),
        }
    }
    (boxes, unsearched)
}

fn turned(found: &Inscribed<TurnedBox>) -> GivenUp {
    let x = found.best.frame.x;
    GivenUp::LargestTurnedBox {
        angle: Angle::from_rad(x.y.atan2(x.x)),
        gap: found.gap(),
    }
}

/// Whether all sides lie along the axes and none is more than one of a box has: the largest box is then the
/// body itself. (With an inside corner a box between two of them may gain by a turn.)
fn is_box(solid: &Solid) -> bool {
    let along = |normal: Vec3| {
        let off = normal.to_array().map(|c| usize::from(c.abs() > ALONG));
        off.iter().sum::<usize>() == 1
    };
    solid.faces.len() == 6 && solid.faces.iter().all(|face| along(face.plane.normal))
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_geom::boolean::difference;
    use brimful_geom::vector::Point3;

    fn block(low: [f64; 2], high: [f64; 2]) -> Solid {
        let at = |[x, y]: [f64; 2], z| Point3::new(x, y, z);
        Solid::cuboid(at(low, 0.0), at(high, 0.3))
    }

    #[test]
    fn a_box_between_two_posts_is_turned_where_that_gains() {
        // Posts in opposite sides, apart along the room: straight, a box keeps clear of the deeper one all the
        // way; slantwise it passes behind the one and before the other. (A random space in which brute force
        // over the angles found 7 % more.)
        let room = difference(
            &block([0.0, 0.0], [0.935, 0.39]),
            &[
                &block([0.059, -0.1], [0.349, 0.103]),
                &block([0.675, 0.343], [0.876, 0.5]),
            ],
        )
        .unwrap();
        let (boxes, unsearched) = largest_boxes(&room);
        assert_eq!(unsearched, []);
        let sizes: Vec<f64> = boxes.iter().map(|(it, _)| it.moments().volume).collect();
        assert_eq!(sizes.len(), 2, "{boxes:?}");
        assert!(sizes[1] > 1.02 * sizes[0], "{sizes:?}");
    }

    #[test]
    fn a_plain_box_is_not_turned() {
        let (boxes, _) = largest_boxes(&block([0.0, 0.0], [0.8, 0.5]));
        assert_eq!(boxes.len(), 1);
    }
}
