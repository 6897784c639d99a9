//! Tongues of a slot-through panel and the slots they pass through.

use crate::panel::Panel;
use crate::seam::{Joint, Seam};
use brimful_geom::plate::{Cutout, PlateFace, Side};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec2};

/// Tongues of a slot-through panel: this long, this far apart at most (common practice; a tongue
/// is several sheet thicknesses long so that its two ends do not heat each other).
const TONGUE_LENGTH: f64 = 0.060;
const TONGUE_PITCH: f64 = 0.200;

/// The foot `base` of an inner panel along `foot`, alternating with tongues that reach to the far
/// face of the panel `on` it stands on; cuts the slots for them into that panel, the gap all round.
pub fn with_tongues(
    base: &Side,
    foot: [Point3; 2],
    thickness: f64,
    gap: f64,
    on: &mut Panel,
) -> Vec<Side> {
    let length = foot[0].distance(foot[1]);
    let Some(way) = (foot[1] - foot[0]).unit() else {
        return vec![*base];
    };
    let n = (length / TONGUE_PITCH).ceil().max(1.0);
    let tongue = TONGUE_LENGTH.min(length / (2.0 * n));
    let reach = gap + on.thickness.m();
    let step = |at: f64| base.start + base.along() * at;
    let land = on.finished.frame;
    let mut sides = vec![*base];
    for i in 0..n as usize {
        let middle = length * (i as f64 + 0.5) / n;
        sides.push(Side {
            mark: None,
            start: step(middle - tongue / 2.0),
            ..base.moved(reach)
        });
        sides.push(Side {
            start: step(middle + tongue / 2.0),
            ..*base
        });
        let centre = land.flat_from_world(foot[0] + way * middle);
        let along = land.flat_from_world_vec(way);
        let slot = rectangle(centre, along, tongue + 2.0 * gap, thickness + 2.0 * gap);
        on.finished.cutouts.push(Cutout::Straight(slot));
    }
    sides
}

/// Volume of a slot-through panel's tongues outside the cavity, m3.
pub fn tongue_volume(panel: &Panel, seams: &[Seam]) -> f64 {
    let outlines = panel.finished.outlines(PlateFace::Outside);
    let mut volume = 0.0;
    for (ring, outline) in panel.finished.loops.iter().zip(&outlines) {
        for (i, (start, end)) in outline.sides().enumerate() {
            let foot = ring.iter().find(|side| {
                side.mark
                    .is_some_and(|seam| seams[seam].joint == Joint::SlotThrough)
                    && side.normal == ring[i].normal
                    && ring[i].mark.is_none()
                    && ring[i].outer > side.outer
            });
            if let Some((foot, seam)) = foot.and_then(|foot| Some((foot, &seams[foot.mark?]))) {
                let outside = ring[i].outer - foot.outer - seam.gap.m();
                volume += start.distance(end) * outside * panel.thickness.m();
            }
        }
    }
    volume
}

fn rectangle(centre: Point2, along: Vec2, length: f64, width: f64) -> Outline {
    let (a, b) = (along * (length / 2.0), along.left() * (width / 2.0));
    Outline(vec![
        centre - a - b,
        centre + a - b,
        centre + a + b,
        centre - a + b,
    ])
}
