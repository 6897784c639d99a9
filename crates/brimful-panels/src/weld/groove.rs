//! The section that rod fills, by plane geometry.
//!
//! Plain metres and radians. Sections are drawn in a frame across the seam. For grooves between
//! two edges (open corner, mitred, butt) the origin is the root, `y` points to the side the weld
//! is laid from, along the middle of the groove. For joints where one sheet stands on another
//! (through and butt, tee, slot through) the origin is where the standing sheet's far face meets
//! the other's surface, `x` runs along that surface and `y` up the standing sheet.
//!
//! Grooves are filled to the straight line between the two sheets' edges, less than a sharp
//! corner; the overfill of real runs is in the shop's rod factor.

mod layers;
mod preparation;

pub use layers::run_sections;
pub use preparation::Preparation;

use super::side::WeldSide;
pub use crate::finding::kind::NoSection;
use crate::seam::{Joint, Seam};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;
use brimful_units::{Angle, Length};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4, PI};

/// Single V up to this thickness, double above: hot-gas practice, seen in a training text.
const THICKEST_SINGLE_V: f64 = 0.006;

/// Throat of a fillet over the thinner sheet: DVS 2205-3 and EN 12573 practice, from memory.
const THROAT: f64 = 0.7;

/// Depth of the outside bevel over the butting sheet's thickness; the inside fillet does the
/// rest. DVS asks for 45 to 60 degrees, from both sides where reachable (from memory).
const BEVEL_DEPTH: f64 = 0.5;

/// The bevel of a butting edge, from memory as above.
const BEVEL: f64 = FRAC_PI_4;

/// Where a sheet leans out so far that 45 degrees would not run out on its face, the bevel takes
/// this share of what room there is; the rest lets it run out.
const SHARE_OF_ROOM: f64 = 2.0 / 3.0;

/// A groove narrower than this cannot be reached into: half of the usual 60-degree V. A hair is
/// left for the rounding of angles.
const NARROWEST: f64 = PI / 6.0 - 1e-6;

/// Joints nearer than this to flat or to shut have no section worth drawing (5 degrees).
const LEAST_ANGLE: f64 = PI / 36.0;

/// Points nearer than this are one, metres: a thousandth of a hair.
const SAME_POINT: f64 = 1e-9;

/// What a section is worked out from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheets {
    /// Thickness of the seam's two panels.
    pub thickness: [f64; 2],
    /// Root gap.
    pub gap: f64,
    /// Angle between the two faces of a V.
    pub groove_angle: f64,
}

/// What a weld looks like across the seam.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GrooveKind {
    /// Open to one side between two edges.
    V,
    /// Open to one side between an edge and a face.
    HalfV,
    /// One side of a groove that is open to both.
    DoubleV,
    /// In a corner.
    Fillet,
    /// Beside a tongue in its slot.
    Plug,
}

/// From which sides a seam can be welded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// From both.
    BothSides,
    /// From outside the tank alone: the groove goes through the whole sheet, and what only an inside
    /// run would fill is left out.
    OutsideOnly,
    /// From inside alone, in the same way.
    InsideOnly,
    /// From outside through the whole sheet, and from inside in part.
    InsideInPart,
    /// From one face of the inner panel of a tee alone: its edge is bevelled through the whole sheet.
    OneFace,
    /// From nowhere.
    Nowhere,
}

/// The section of one weld.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// The side it is laid from.
    pub side: WeldSide,
    /// What it looks like.
    pub kind: GrooveKind,
    /// How the edges are prepared.
    pub preparation: Preparation,
    /// The outline, gap included.
    pub outline: Outline,
    /// Where it is open: from edge to edge of what rod fills.
    pub surface: [Point2; 2],
    /// The throat.
    pub throat: f64,
}

/// The sections of a seam, inside first; none where it has no side that can be welded.
///
/// # Errors
/// Angles at which the joint has no groove.
pub fn sections(seam: &Seam, sheets: &Sheets, access: Access) -> Result<Vec<Section>, NoSection> {
    let sizes = [
        sheets.thickness[0],
        sheets.thickness[1],
        sheets.groove_angle,
        seam.angle.rad(),
    ];
    if !(sizes.iter().all(|size| size.is_finite() && *size > 0.0)
        && sheets.gap.is_finite()
        && sheets.gap >= 0.0)
    {
        return Err(NoSection::Size);
    }
    // At an inside corner of the body, inside and outside change places.
    let (angle, near, far) = if seam.is_re_entrant() {
        (
            2.0 * PI - seam.angle.rad(),
            WeldSide::Outside,
            WeldSide::Inside,
        )
    } else {
        (seam.angle.rad(), WeldSide::Inside, WeldSide::Outside)
    };
    let share = |both: f64| match access {
        Access::BothSides => both,
        _ => 1.0,
    };
    let thickest = sheets.thickness[0].max(sheets.thickness[1]);
    let double = access == Access::BothSides && thickest > THICKEST_SINGLE_V;
    let mut sections = match seam.joint {
        Joint::OpenCorner => vec![open_corner(angle, sheets, far)?],
        Joint::ThroughAndButt { through } => {
            let butting = if through == seam.panels[0] { 1 } else { 0 };
            vec![
                standing_fillet(angle, sheets, butting, near)?,
                bevel(angle, sheets, butting, share(BEVEL_DEPTH), far)?,
            ]
        }
        Joint::Mitred => mitred(angle, sheets, double, [near, far])?,
        // Which face it is is left open: on the sharper side there is less room for the bevel.
        Joint::Tee if access == Access::OneFace => {
            vec![bevel(PI - angle, sheets, 0, 1.0, WeldSide::Inside)?]
        }
        Joint::Tee => tee(angle, sheets)?,
        Joint::SlotThrough => vec![plug(sheets), plug(sheets)],
        Joint::Butt => mitred(PI, sheets, double, [WeldSide::Inside, WeldSide::Outside])?,
    };
    sections.retain(|it| match access {
        Access::BothSides | Access::OneFace | Access::InsideInPart => true,
        Access::OutsideOnly => it.side == WeldSide::Outside,
        Access::InsideOnly => it.side == WeldSide::Inside,
        Access::Nowhere => false,
    });
    // What is missing inside has nothing to bear it where there is no outside.
    let has_outside = sections.iter().any(|it| it.side == WeldSide::Outside);
    if access == Access::InsideInPart && !has_outside {
        sections.clear();
    }
    sections.sort_by_key(|section| section.side);
    Ok(sections)
}

/// Square edges whose near corners meet: a V of 180 degrees less the angle, chamfered where that
/// is less than the shop's groove.
fn open_corner(angle: f64, sheets: &Sheets, side: WeldSide) -> Result<Section, NoSection> {
    if !(LEAST_ANGLE..=PI + LEAST_ANGLE).contains(&angle) {
        return Err(NoSection::Angle);
    }
    let natural = PI - angle;
    let half = natural.max(sheets.groove_angle) / 2.0;
    // Each sheet runs away from the root at half the angle from straight down.
    let run = angle / 2.0;
    let wall = |t: f64| {
        let root = [sheets.gap / 2.0 * run.sin(), -sheets.gap / 2.0 * run.cos()];
        // From the root up the edge, at `half` from upright, to the far face.
        let rise = t / (half - (FRAC_PI_2 - run)).cos();
        [
            root,
            [root[0] + rise * half.sin(), root[1] + rise * half.cos()],
        ]
    };
    let [left, right] = sheets.thickness.map(wall);
    let outline = vec![
        point(right[0]),
        point(right[1]),
        mirrored(left[1]),
        mirrored(left[0]),
    ];
    let preparation = match natural >= sheets.groove_angle {
        true => Preparation::OpenV(Angle::from_rad(natural)),
        false => Preparation::Chamfered {
            double: false,
            to: Angle::from_rad(2.0 * half),
        },
    };
    let throat = distance_to_line(
        Point2::new(0.0, root_height(&right, &left)),
        outline[1],
        outline[2],
    );
    Ok(Section {
        side,
        kind: GrooveKind::V,
        preparation,
        surface: [outline[1], outline[2]],
        outline: outline_of(outline),
        throat,
    })
}

fn root_height(right: &[[f64; 2]; 2], left: &[[f64; 2]; 2]) -> f64 {
    (right[0][1] + left[0][1]) / 2.0
}

/// Two edges cut to meet in one plane (a butt at 180 degrees), chamfered from the far side, or
/// from both. `sides`: near and far.
fn mitred(
    angle: f64,
    sheets: &Sheets,
    double: bool,
    sides: [WeldSide; 2],
) -> Result<Vec<Section>, NoSection> {
    if !(LEAST_ANGLE..=PI).contains(&angle) {
        return Err(NoSection::Angle);
    }
    let [t, u] = sheets.thickness;
    // The mitre plane goes through the near and the far line of the two sheets; each sheet runs
    // away from it at its own angle.
    let first = (t * angle.sin()).atan2(u + t * angle.cos());
    let runs = if angle == PI {
        [FRAC_PI_2; 2]
    } else {
        [first, angle - first]
    };
    let depth = if angle == PI {
        t.min(u)
    } else {
        t / first.sin()
    };
    let slope = (sheets.groove_angle / 2.0).tan();
    let g = sheets.gap / 2.0;
    let root = if double { depth / 2.0 } else { 0.0 };
    let rise = depth - root;
    // On the far side the sheets fall away from the top of the mitre plane.
    let far = runs.map(|run| {
        let along = (g + rise * slope) / (run.sin() + run.cos() * slope);
        [along * run.sin(), rise - along * run.cos()]
    });
    let far_outline = vec![
        Point2::new(g, 0.0),
        point(far[0]),
        mirrored(far[1]),
        Point2::new(-g, 0.0),
    ];
    let preparation = Preparation::Chamfered {
        double,
        to: Angle::from_rad(sheets.groove_angle),
    };
    let mut sections = vec![Section {
        side: sides[1],
        kind: if double {
            GrooveKind::DoubleV
        } else {
            GrooveKind::V
        },
        preparation,
        surface: [far_outline[1], far_outline[2]],
        outline: outline_of(far_outline),
        throat: rise,
    }];
    if double {
        // On the near side they fall away too, from the near corner; the groove opens downward
        // and is drawn turned over.
        let mut near = [[0.0; 2]; 2];
        for (end, run) in near.iter_mut().zip(runs) {
            let opening = run.sin() - run.cos() * slope;
            if opening <= LEAST_ANGLE.sin() {
                return Err(NoSection::Angle);
            }
            let along = (g + root * slope) / opening;
            *end = [along * run.sin(), root + along * run.cos()];
        }
        let outline = vec![
            Point2::new(g, 0.0),
            point(near[0]),
            Point2::new(0.0, root),
            mirrored(near[1]),
            Point2::new(-g, 0.0),
        ];
        sections.push(Section {
            side: sides[0],
            kind: GrooveKind::DoubleV,
            preparation,
            surface: [outline[1], outline[3]],
            outline: outline_of(outline),
            throat: root,
        });
    }
    Ok(sections)
}

/// The bevel on the far side of a butting sheet that stands on the other at `angle`, as deep as a share
/// of the sheet.
fn bevel(
    angle: f64,
    sheets: &Sheets,
    butting: usize,
    share: f64,
    side: WeldSide,
) -> Result<Section, NoSection> {
    let depth = share * sheets.thickness[butting];
    let (sin, cos) = angle.sin_cos();
    // Where the bevel starts on the butting edge, and along the standing sheet's far face.
    let start = Point2::new(sheets.gap * cos / sin + depth / sin, sheets.gap);
    let opening = BEVEL.min(SHARE_OF_ROOM * (PI - angle));
    if angle < LEAST_ANGLE || opening < NARROWEST {
        return Err(NoSection::Angle);
    }
    // start + k (-cos opening, sin opening) lies on the far face u (cos angle, sin angle).
    let (bevel_sin, bevel_cos) = opening.sin_cos();
    let determinant = -bevel_cos * sin - bevel_sin * cos;
    let k = (start.y * cos - start.x * sin) / determinant;
    let end = Point2::new(start.x - k * bevel_cos, start.y + k * bevel_sin);
    let outline = vec![Point2::new(0.0, 0.0), Point2::new(start.x, 0.0), start, end];
    let preparation = Preparation::Bevelled {
        to: Angle::from_rad(opening),
        depth: Length::from_m(depth),
    };
    Ok(Section {
        side,
        kind: GrooveKind::HalfV,
        preparation,
        surface: [outline[3], outline[0]],
        outline: outline_of(outline),
        throat: depth,
    })
}

/// The fillet on the near side of the same joint, with the rest of the gap under the sheet.
fn standing_fillet(
    angle: f64,
    sheets: &Sheets,
    butting: usize,
    side: WeldSide,
) -> Result<Section, NoSection> {
    let t = sheets.thickness[butting];
    fillet(angle, sheets, (t * BEVEL_DEPTH, t), side)
}

/// A fillet in the corner of `angle` with the gap under the sheet between two depths from its far
/// face.
fn fillet(
    angle: f64,
    sheets: &Sheets,
    (from, to): (f64, f64),
    side: WeldSide,
) -> Result<Section, NoSection> {
    if !(LEAST_ANGLE..=PI - LEAST_ANGLE).contains(&angle) {
        return Err(NoSection::Angle);
    }
    let throat = THROAT * sheets.thickness[0].min(sheets.thickness[1]);
    let leg = throat / (angle / 2.0).cos();
    let (sin, cos) = angle.sin_cos();
    let g = sheets.gap;
    let corner = to / sin;
    let under = g * cos / sin;
    let mut outline = vec![
        Point2::new(corner + leg, 0.0),
        Point2::new(corner + leg * cos, leg * sin),
        Point2::new(corner + under, g),
    ];
    if g > SAME_POINT {
        outline.extend([
            Point2::new(from / sin + under, g),
            Point2::new(from / sin + under, 0.0),
        ]);
    }
    let preparation = Preparation::Fillet {
        throat: Length::from_m(throat),
    };
    Ok(Section {
        side,
        kind: GrooveKind::Fillet,
        preparation,
        surface: [outline[0], outline[1]],
        outline: outline_of(outline),
        throat,
    })
}

/// An inner panel on another: a fillet on either side, the gap shared.
fn tee(angle: f64, sheets: &Sheets) -> Result<Vec<Section>, NoSection> {
    let t = sheets.thickness[0];
    let each = |angle| fillet(angle, sheets, (t / 2.0, t), WeldSide::Inside);
    Ok(vec![each(angle)?, each(PI - angle)?])
}

/// One long side of a tongue in its slot, from outside: the gap, opened by a bevel of the slot.
fn plug(sheets: &Sheets) -> Section {
    let (t, g) = (sheets.thickness[1], sheets.gap);
    let depth = BEVEL_DEPTH * t;
    let outline = vec![
        Point2::new(0.0, 0.0),
        Point2::new(g, 0.0),
        Point2::new(g, t - depth),
        Point2::new(g + depth * BEVEL.tan(), t),
        Point2::new(0.0, t),
    ];
    Section {
        side: WeldSide::Outside,
        kind: GrooveKind::Plug,
        preparation: Preparation::Slot {
            to: Angle::from_rad(BEVEL),
            depth: Length::from_m(depth),
        },
        surface: [outline[3], outline[4]],
        outline: outline_of(outline),
        throat: depth,
    }
}

/// The outline without repeated points, which a gap of zero leaves.
fn outline_of(points: Vec<Point2>) -> Outline {
    let n = points.len();
    let apart = |i: &usize| points[*i].distance(points[(i + 1) % n]) > SAME_POINT;
    Outline((0..n).filter(apart).map(|i| points[i]).collect())
}

fn point([x, y]: [f64; 2]) -> Point2 {
    Point2::new(x, y)
}

fn mirrored([x, y]: [f64; 2]) -> Point2 {
    Point2::new(-x, y)
}

fn distance_to_line(point: Point2, a: Point2, b: Point2) -> f64 {
    (b - a).unit().map_or(0.0, |way| way.cross(point - a).abs())
}

#[cfg(test)]
mod tests;
