//! Where an inner panel really stands: its foot less the gaps at floor and lid.

use crate::panel::Panel;
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Point3;

/// The part of `line` along which the sides of `panel` that belong to `seam` run; the whole line
/// where the panel has no such side.
pub fn foot(panel: &Panel, seam: usize, line: [Point3; 2]) -> [Point3; 2] {
    let Some(way) = (line[1] - line[0]).unit() else {
        return line;
    };
    let length = line[0].distance(line[1]);
    let mut reach: Option<(f64, f64)> = None;
    for (face, height) in [
        (PlateFace::Outside, 0.0),
        (PlateFace::Inside, -panel.finished.thickness),
    ] {
        for (ring, outline) in panel
            .finished
            .loops
            .iter()
            .zip(panel.finished.outlines(face))
        {
            let of_seam = ring
                .iter()
                .zip(outline.sides())
                .filter(|(side, _)| side.mark == Some(seam));
            for end in of_seam.flat_map(|(_, (a, b))| [a, b]) {
                let place = panel
                    .finished
                    .frame
                    .world_from_frame(Point3::new(end.x, end.y, height));
                let at = (place - line[0]).dot(way).clamp(0.0, length);
                reach = Some(reach.map_or((at, at), |(low, high)| (low.min(at), high.max(at))));
            }
        }
    }
    reach.map_or(line, |(low, high)| {
        [line[0] + way * low, line[0] + way * high]
    })
}
