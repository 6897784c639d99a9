//! Seams as JSON.

use super::mark;
use super::point::point;
use crate::words;
use brimful_panels::seam::Joint;
use brimful_tank::plan::Plan;
use schemars::JsonSchema;
use serde::Serialize;

/// A line where two panels are welded.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Seam {
    /// Its short mark: S1, S2, ...
    mark: String,
    /// Marks of the two panels.
    panels: [String; 2],
    /// `open corner`, `through and butt`, `mitred`, `tee`, `slot-through` or `butt`.
    joint: &'static str,
    /// Mark of the panel that runs through, of a through-and-butt joint.
    through: Option<String>,
    length_m: f64,
    /// The root line on the liquid side.
    #[schemars(with = "[brimful_geom::vector::Point3; 2]")]
    inner_line_m: [[f64; 3]; 2],
    /// The line on the dry side; null for a tee.
    #[schemars(with = "Option<[brimful_geom::vector::Point3; 2]>")]
    outer_line_m: Option<[[f64; 3]; 2]>,
    /// Angle through the material between the outside faces.
    angle_rad: f64,
    /// Root gap.
    gap_m: f64,
}

pub(super) fn seams(plan: &Plan) -> Vec<Seam> {
    let seams = plan.seams.iter();
    seams
        .map(|seam| Seam {
            mark: seam.mark.clone(),
            panels: seam.panels.map(|number| mark::panel(plan, number)),
            joint: words::joint(seam.joint),
            through: match seam.joint {
                Joint::ThroughAndButt { through } => Some(mark::panel(plan, through)),
                _ => None,
            },
            length_m: seam.length().m(),
            inner_line_m: seam.inner_line.map(point),
            outer_line_m: seam.outer_line.map(|line| line.map(point)),
            angle_rad: seam.angle.rad(),
            gap_m: seam.gap.m(),
        })
        .collect()
}
