//! Panels as JSON.

use super::mark;
use super::point::{flat_point, point};
use crate::words;
use brimful_geom::plate::{Cutout, Plate, PlateFace};
use brimful_panels::panel;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// One flat piece of sheet, cut.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Panel {
    /// Its short mark: P1, P2, ...
    mark: String,
    name: String,
    /// `floor`, `lid`, `wall`, `baffle` or `divider`.
    role: &'static str,
    thickness_m: f64,
    /// Where it is in the tank.
    frame: Frame,
    /// As it stands in the tank.
    finished: Outlines,
    /// As it leaves the saw, with the edge allowance.
    cut: Outlines,
    /// Every side of the outer outline, counter-clockwise seen from outside.
    sides: Vec<Side>,
    /// Holes.
    holes: Vec<Hole>,
    /// Stop holes at inside corners.
    reliefs: Vec<Relief>,
}

/// A frame in the tank's axes; `z` points out of the panel's outside face.
#[derive(Debug, Serialize, JsonSchema)]
struct Frame {
    origin_m: [f64; 3],
    x: [f64; 3],
    y: [f64; 3],
    z: [f64; 3],
}

/// The outlines on both faces, in the panel's frame: the outer one first, then those round holes
/// of the body itself.
#[derive(Debug, Serialize, JsonSchema)]
struct Outlines {
    /// Length and width of the rectangle that covers both faces.
    size_m: [f64; 2],
    outside_m: Vec<Vec<[f64; 2]>>,
    inside_m: Vec<Vec<[f64; 2]>>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Side {
    /// Mark of the seam it is welded in; null where it is free.
    seam: Option<String>,
    /// Tilt from square; positive where the outside face is the larger.
    bevel_rad: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Hole {
    name: String,
    centre_m: [f64; 2],
    /// Of a round hole.
    radius_m: Option<f64>,
    /// Of any other hole.
    outline_m: Option<Vec<[f64; 2]>>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Relief {
    centre_m: [f64; 2],
    radius_m: f64,
}

pub(super) fn panels(plan: &Plan) -> Vec<Panel> {
    plan.panels
        .iter()
        .map(|panel| panel_of(plan, panel))
        .collect()
}

fn panel_of(plan: &Plan, panel: &panel::Panel) -> Panel {
    let plate = &panel.finished;
    let axis = |v: brimful_geom::vector::Vec3| [v.x, v.y, v.z];
    let sides = plate.loops.first().into_iter().flatten();
    Panel {
        mark: panel.mark.clone(),
        name: panel.name.to_string(),
        role: words::role(panel.role),
        thickness_m: panel.thickness.m(),
        frame: Frame {
            origin_m: point(plate.frame.origin),
            x: axis(plate.frame.x),
            y: axis(plate.frame.y),
            z: axis(plate.frame.z),
        },
        finished: outlines(plate),
        cut: outlines(&panel.cut),
        sides: sides
            .map(|side| Side {
                seam: side.mark.map(|number| mark::seam(plan, number)),
                bevel_rad: side.bevel(panel.thickness.m()),
            })
            .collect(),
        holes: panel
            .openings
            .iter()
            .filter_map(|hole| Some(hole_of(hole, plate.cutouts.get(hole.cutout)?)))
            .collect(),
        reliefs: panel
            .reliefs
            .iter()
            .map(|relief| Relief {
                centre_m: flat_point(relief.centre),
                radius_m: relief.radius.m(),
            })
            .collect(),
    }
}

fn outlines(plate: &Plate) -> Outlines {
    let (low, high) = plate.bounds();
    let face = |face: PlateFace| {
        let outlines = plate.outlines(face).into_iter();
        outlines
            .map(|outline| outline.0.into_iter().map(flat_point).collect())
            .collect()
    };
    Outlines {
        size_m: [high.x - low.x, high.y - low.y],
        outside_m: face(PlateFace::Outside),
        inside_m: face(PlateFace::Inside),
    }
}

fn hole_of(hole: &panel::PanelOpening, cutout: &Cutout) -> Hole {
    let (radius_m, outline_m) = match cutout {
        Cutout::Round { radius, .. } => (Some(*radius), None),
        Cutout::Straight(outline) => {
            let points = outline.0.iter().map(|&p| flat_point(p)).collect();
            (None, Some(points))
        }
    };
    Hole {
        name: hole.name.to_string(),
        centre_m: flat_point(hole.centre),
        radius_m,
        outline_m,
    }
}
