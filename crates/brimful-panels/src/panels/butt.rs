//! Panels larger than any sheet, made of two pieces in line.
//!
//! The seam is placed by rule (common practice: high, out of corners, not in line all round): a
//! wall is parted level, as high as the sheet allows; lids, floors, inner panels and ribs across their
//! longer side, as far along as the sheet allows. It keeps clear of corners, openings and lands,
//! and moves down (or back) until it does.

use crate::name::PanelName;
use crate::panel::{Panel, PanelOpening, Relief, Role};
use crate::seam::{Joint, Seam};
use crate::shape::WholeFault;
use brimful_geom::plate::{Plate, PlateFace, Side};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec2};
use brimful_job::Job;
use brimful_units::{Angle, Length};

/// How far a butt seam keeps from corners, holes and the ends of lands (common practice: several
/// sheet thicknesses, so that two welds do not heat each other).
const KEPT_CLEAR: f64 = 0.050;

/// How far it moves at a time when something is in its way.
const STEP: f64 = 0.010;

/// Seams of neighbouring walls are kept this far out of line: every second one is set lower.
const STAGGER: f64 = 0.080;

/// Panels at most: ten times those of the largest example. A slip of the unit makes thousands, and hours
/// of work for the checks.
const MOST_PANELS: usize = 300;

/// Parts every panel whose blank is larger than any sheet of its thickness, as often as it takes.
/// A panel that cannot be parted by the rule is left whole; the cut layout then says that it fits
/// no sheet.
///
/// # Errors
/// There come to be more panels than anybody welds a tank from.
pub fn part_large_panels(
    job: &Job,
    panels: &mut Vec<Panel>,
    seams: &mut Vec<Seam>,
) -> Result<(), WholeFault> {
    let mut number = 0;
    let mut parted = 0;
    while number < panels.len() {
        let sheets = sheets(job, panels[number].thickness);
        let whole = sheets
            .iter()
            .any(|sheet| fits(job, &panels[number].finished, *sheet));
        let largest = sheets
            .into_iter()
            .max_by(|a, b| (a.0 * a.1).total_cmp(&(b.0 * b.1)));
        let pieces = largest
            .filter(|_| !whole)
            .and_then(|sheet| part(job, &panels[number], sheet, parted, seams.len()));
        let Some((lower, upper)) = pieces else {
            number += 1;
            continue;
        };
        parted += 1;
        add_pieces(job, panels, seams, number, lower, upper);
        if panels.len() > MOST_PANELS {
            return Err(WholeFault::TooManyPanels { most: MOST_PANELS });
        }
    }
    Ok(())
}

/// Sizes of the sheets of a thickness, longer side first, trim taken off.
fn sheets(job: &Job, thickness: Length) -> Vec<(f64, f64)> {
    let trim = 2.0 * job.shop.trim.m();
    let of_thickness = job
        .stock
        .sheets
        .iter()
        .filter(|sheet| (sheet.thickness - thickness).abs() < Length::from_mm(0.01));
    of_thickness
        .map(|sheet| {
            let [a, b] = sheet.size.map(|side| side.m() - trim);
            (a.max(b), a.min(b))
        })
        .collect()
}

fn size(plate: &Plate) -> Vec2 {
    let (low, high) = plate.bounds();
    high - low
}

fn fits(job: &Job, plate: &Plate, sheet: (f64, f64)) -> bool {
    let grown = size(plate) + Vec2::new(2.0, 2.0) * job.shop.edge_allowance.m();
    grown.x.max(grown.y) <= sheet.0 && grown.x.min(grown.y) <= sheet.1
}

/// The two pieces of a panel, the one nearer the frame's origin first; `seam` is the number the
/// butt seam will get.
fn part(
    job: &Job,
    panel: &Panel,
    sheet: (f64, f64),
    parted: usize,
    seam: usize,
) -> Option<(Plate, Plate)> {
    let plate = &panel.finished;
    let (low, _) = plate.bounds();
    let across = size(plate);
    // The level seam of a wall limits its height, the upright seam of others their length; a wall
    // that is too long even for the long side of the sheet is parted upright too.
    let level = panel.role == Role::Wall && across.x <= sheet.0 || across.y > sheet.0;
    let (length, width) = if level {
        (across.y, across.x)
    } else {
        (across.x, across.y)
    };
    let most = if width <= sheet.1 { sheet.0 } else { sheet.1 };
    let along = if level {
        Vec2::new(0.0, 1.0)
    } else {
        Vec2::new(1.0, 0.0)
    };
    let from = along.dot(low.to_vec());
    let stagger = if parted % 2 == 1 { STAGGER } else { 0.0 };
    let mut at = (most - 2.0 * job.shop.edge_allowance.m()).min(length - KEPT_CLEAR) - stagger;
    while at > KEPT_CLEAR {
        let line = Side {
            normal: along,
            outer: from + at,
            inner: from + at,
            start: low,
            mark: Some(seam),
        };
        if clear(panel, &line)
            && let Some(pieces) = cut_in_two(plate, &line, job.shop.gap.m())
        {
            return Some(pieces);
        }
        at -= STEP;
    }
    None
}

fn clear(panel: &Panel, line: &Side) -> bool {
    let off = |p: Point2| (line.normal.dot(p.to_vec()) - line.outer).abs();
    let plate = &panel.finished;
    let corners = [PlateFace::Outside, PlateFace::Inside]
        .into_iter()
        .flat_map(|face| plate.outlines(face))
        .flat_map(|outline| outline.0);
    let holes = plate.cutouts.iter().flat_map(|cutout| cutout.outline().0);
    let lands = panel.lands.iter().flat_map(|land| [land.from, land.to]);
    let along_line = |land: &crate::panel::Land| {
        (land.to - land.from).dot(line.normal).abs() < 0.5 * land.from.distance(land.to)
    };
    let lies_on = panel
        .lands
        .iter()
        .any(|land| along_line(land) && off(land.from).min(off(land.to)) < KEPT_CLEAR);
    !lies_on
        && corners.map(off).all(|d| d > KEPT_CLEAR)
        && lands.map(off).all(|d| d > KEPT_CLEAR)
        && plate
            .cutouts
            .iter()
            .all(|cutout| !straddles(&cutout.outline(), line))
        && holes.map(off).all(|d| d > KEPT_CLEAR)
}

fn straddles(outline: &Outline, line: &Side) -> bool {
    let below = |p: &Point2| line.normal.dot(p.to_vec()) < line.outer;
    outline.0.iter().any(below) && !outline.0.iter().all(below)
}

/// Both pieces of a plate that the line crosses in just two sides; half the gap on each.
fn cut_in_two(plate: &Plate, line: &Side, gap: f64) -> Option<(Plate, Plate)> {
    let [ring] = plate.loops.as_slice() else {
        return None;
    };
    let outline = &plate.outlines(PlateFace::Outside)[0];
    let n = ring.len();
    let below: Vec<bool> = outline
        .0
        .iter()
        .map(|p| line.normal.dot(p.to_vec()) < line.outer)
        .collect();
    let crossings = (0..n).filter(|&i| below[i] != below[(i + 1) % n]).count();
    if crossings != 2 {
        return None;
    }
    let piece = |keep_below: bool| {
        let end = if keep_below {
            line.moved(-gap / 2.0)
        } else {
            Side {
                normal: -line.normal,
                outer: -line.outer,
                inner: -line.inner,
                ..*line
            }
            .moved(-gap / 2.0)
        };
        let mut sides = Vec::new();
        for i in 0..n {
            let (here, next) = (below[i] == keep_below, below[(i + 1) % n] == keep_below);
            if here || next {
                sides.push(ring[i]);
            }
            if here && !next {
                sides.push(end);
            }
        }
        let keep = |p: Point2| (line.normal.dot(p.to_vec()) < line.outer) == keep_below;
        let cutouts = plate
            .cutouts
            .iter()
            .filter(|cutout| keep(cutout.outline().centroid()))
            .cloned()
            .collect();
        let piece = Plate {
            loops: vec![sides],
            cutouts,
            ..plate.clone()
        };
        piece.faults().is_empty().then_some(piece)
    };
    Some((piece(true)?, piece(false)?))
}

/// Puts the pieces in the panel's place and at the end of the list, with the seam between.
fn add_pieces(
    job: &Job,
    panels: &mut Vec<Panel>,
    seams: &mut Vec<Seam>,
    number: usize,
    lower: Plate,
    upper: Plate,
) {
    let whole = panels[number].clone();
    let new = panels.len();
    let seam = seams.len();
    let ends = |z: f64| {
        let outline = &lower.outlines(if z == 0.0 {
            PlateFace::Outside
        } else {
            PlateFace::Inside
        })[0];
        let at = lower.loops[0]
            .iter()
            .position(|side| side.mark == Some(seam))
            .unwrap_or(0);
        let n = outline.0.len();
        [outline.0[at], outline.0[(at + 1) % n]]
            .map(|p| lower.frame.world_from_frame(Point3::new(p.x, p.y, z)))
    };
    seams.push(Seam {
        mark: format!("S{}", seam + 1),
        panels: [number, new],
        joint: Joint::Butt,
        inner_line: ends(-lower.thickness),
        outer_line: Some(ends(0.0)),
        angle: Angle::from_deg(180.0),
        gap: job.shop.gap,
    });
    let piece = |plate: Plate, mark: String, name: PanelName| {
        let inside = |p: Point2| plate.outlines(PlateFace::Outside)[0].contains(p);
        Panel {
            mark,
            name,
            openings: openings_of(&whole, &plate),
            reliefs: whole
                .reliefs
                .iter()
                .copied()
                .filter(|relief: &Relief| {
                    nearest_corner(&plate, relief.centre) <= relief.radius.m() * 1.001
                })
                .collect(),
            lands: whole
                .lands
                .iter()
                .copied()
                .filter(|land| inside(land.from.midpoint(land.to)))
                .collect(),
            cut: plate.clone(),
            finished: plate,
            ..whole.clone()
        }
    };
    let second = piece(
        upper,
        format!("P{}", new + 1),
        PanelName::Upper(Box::new(whole.name.clone())),
    );
    panels[number] = piece(lower, whole.mark.clone(), whole.name.clone());
    panels.push(second);
    move_seams(panels, seams, number, new);
}

/// Gives the second piece the seams of what stands on it alone, or by which it stands alone.
fn move_seams(panels: &[Panel], seams: &mut [Seam], number: usize, new: usize) {
    let has = |panel: usize, seam: usize| {
        let plate = &panels[panel].finished;
        plate
            .loops
            .iter()
            .flatten()
            .any(|side| side.mark == Some(seam))
    };
    for (mark, seam) in seams.iter_mut().enumerate() {
        let lands = panels[new].lands.iter().any(|land| land.seam == mark);
        let stands = matches!(seam.joint, Joint::Tee | Joint::Butt | Joint::SlotThrough)
            && has(new, mark)
            && !has(number, mark);
        if lands || stands {
            for panel in seam.panels.iter_mut().filter(|panel| **panel == number) {
                *panel = new;
            }
        }
    }
}

fn nearest_corner(plate: &Plate, point: Point2) -> f64 {
    let corners = plate
        .outlines(PlateFace::Outside)
        .into_iter()
        .flat_map(|outline| outline.0);
    corners
        .map(|corner| corner.distance(point))
        .fold(f64::INFINITY, f64::min)
}

/// The openings whose hole the piece has kept, renumbered.
fn openings_of(whole: &Panel, plate: &Plate) -> Vec<PanelOpening> {
    let renumbered = whole.openings.iter().filter_map(|opening| {
        let cutout = &whole.finished.cutouts[opening.cutout];
        let place = plate.cutouts.iter().position(|kept| kept == cutout)?;
        Some(PanelOpening {
            cutout: place,
            ..opening.clone()
        })
    });
    renumbered.collect()
}
