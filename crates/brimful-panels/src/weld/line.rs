//! The lines that runs are laid along, each with the way out of the work.

use super::seam_weld::of_rib;
use super::side::WeldSide;
use crate::panel::Panel;
use crate::seam::{Joint, Seam};
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::{Point3, Vec3};

/// A line that a run is laid along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    pub from: Point3,
    pub to: Point3,
    /// Square to the line, in the middle between the two sheets as they are seen from this side.
    pub out: Vec3,
}

/// The lines of a seam on one of its sides: two where a panel stands on another, one on either face of it. None where the
/// two sheets lie on one another.
pub(super) fn lines(panels: &[Panel], seam: &Seam, side: WeldSide) -> Vec<Line> {
    let [Some(first), Some(second)] = seam.panels.map(|number| panels.get(number)) else {
        return Vec::new();
    };
    let [a, b] = [first, second].map(|panel| panel.finished.frame.z);
    let line = |[from, to]: [Point3; 2], out: Option<Vec3>| out.map(|out| Line { from, to, out });
    let found = match (seam.joint, side) {
        (Joint::Tee, _) => return beside(first, second, seam),
        // Of two strips of a rib in line both faces are dry.
        (Joint::Butt, _) if of_rib(panels, seam) => {
            let through = a * first.thickness.m();
            let [below, above] = [seam.inner_line, seam.inner_line.map(|end| end + through)];
            return [line(below, Some(-a)), line(above, Some(a))]
                .into_iter()
                .flatten()
                .collect();
        }
        (Joint::SlotThrough, _) => {
            let through = b * second.thickness.m();
            line(seam.inner_line.map(|end| end + through), Some(b))
        }
        (_, WeldSide::Inside) => line(seam.inner_line, (-(a + b)).unit()),
        (_, WeldSide::Outside) => line(seam.outer_line.unwrap_or(seam.inner_line), (a + b).unit()),
    };
    found.into_iter().collect()
}

/// The two lines beside the foot of a standing panel.
fn beside(standing: &Panel, land: &Panel, seam: &Seam) -> Vec<Line> {
    let [from, to] = seam.inner_line;
    let Some(along) = (to - from).unit() else {
        return Vec::new();
    };
    let normal = standing.finished.frame.z;
    let outlines = standing.finished.outlines(PlateFace::Outside);
    let Some(outline) = outlines.first() else {
        return Vec::new();
    };
    let middle = standing.finished.frame.world_from_flat(outline.centroid());
    let toward = |line: Vec3, way: Vec3| if line.dot(way) < 0.0 { -line } else { line };
    // Up the standing panel, and along the one that it stands on.
    let up = toward(along.cross(normal), middle - from);
    let of_side = |face: Vec3| {
        let level = toward(along.cross(land.finished.frame.z), face);
        let off = face * (standing.thickness.m() / 2.0);
        Some(Line {
            from: from + off,
            to: to + off,
            out: (up + level).unit()?,
        })
    };
    [normal, -normal].into_iter().filter_map(of_side).collect()
}
