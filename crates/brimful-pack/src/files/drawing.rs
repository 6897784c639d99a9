//! Panels and sheets as DXF at full size: closed outlines, a layer an operation, no text and no
//! dimensions among them.

use crate::draw::panel::corner;
use crate::draw::sheet::cut_line;
use crate::draw::stick::check_length;
use crate::error::PackError;
use crate::file::{PackFile, file};
use crate::words::Words;
use brimful_formats::dxf::{DxfColour, DxfDrawing, DxfUnit};
use brimful_geom::plate::{Cutout, Plate, PlateFace, Side};
use brimful_geom::vector::Point2;
use brimful_nest::{Layout, Placement, Rect};
use brimful_panels::panel::Panel;
use brimful_tank::cut::CutGroup;
use brimful_tank::plan::Plan;
use brimful_units::show::decimal;
use brimful_units::{Length, UnitSystem};

/// The outline of the piece as the blade or cutter must leave it: round both faces.
const CUT: &str = "CUT";
/// Holes for fittings, hatches, flow and tongues.
const HOLES: &str = "HOLES";
/// Stop holes at inside corners.
const RELIEF: &str = "RELIEF";
/// Lines on the outside face to which its edge is bevelled back.
const BEVEL_OUTSIDE: &str = "BEVEL_OUTSIDE";
/// Lines on the inside face to which its edge is bevelled back.
const BEVEL_INSIDE: &str = "BEVEL_INSIDE";
/// The sheet's own edge.
const SHEET: &str = "SHEET";
/// The near side of each saw cut.
const SAW: &str = "SAW";
/// A square of known size, to prove the scale.
const CHECK: &str = "CHECK_SQUARE";

/// Sides of the two faces closer than this are square, metres: less than any machine holds.
const SQUARE: f64 = 1e-6;

/// One drawing a panel, its lower-left corner at the origin, seen from outside.
pub fn panel_drawings(plan: &Plan, words: &Words<'_>) -> Result<Vec<PackFile>, PackError> {
    let one = |panel: &Panel| {
        let mut drawing = DxfDrawing::new(unit(plan));
        piece_layers(&mut drawing);
        let low = corner(panel);
        draw_panel(&mut drawing, panel, &|p| {
            Point2::new(p.x - low.x, p.y - low.y)
        });
        file(
            format!(
                "panels/{}-{}.dxf",
                panel.mark,
                plain(words.panel(&panel.name).as_str())
            ),
            drawing.to_bytes(),
        )
    };
    plan.panels.iter().map(one).collect()
}

/// One drawing a sheet, with the panels in their places and the saw's cuts.
pub fn sheet_drawings(plan: &Plan, words: &Words<'_>) -> Result<Vec<PackFile>, PackError> {
    let mut files = Vec::new();
    for group in &plan.cut.groups {
        for layout in &group.plan.layouts {
            let name = sheet_name(words, group, layout, files.len() + 1);
            files.push(file(name, sheet(plan, layout, words).to_bytes())?);
        }
    }
    Ok(files)
}

fn unit(plan: &Plan) -> DxfUnit {
    match plan.job.about.units {
        UnitSystem::Metric => DxfUnit::Millimetre,
        UnitSystem::Inch => DxfUnit::Inch,
    }
}

/// The name says number, thickness and size, so that a wrong unit shows.
fn sheet_name(words: &Words<'_>, group: &CutGroup, layout: &Layout, number: usize) -> String {
    let rect = layout.root.rect;
    let text = |length: Length| match words.system {
        UnitSystem::Metric => decimal(length.mm(), 1),
        UnitSystem::Inch => decimal(length.inches(), 4),
    };
    let unit = words.length_unit();
    format!(
        "sheets/sheet-{number}-{}{unit}-{}x{}{unit}.dxf",
        text(group.thickness),
        text(Length::from_m(rect.length)),
        text(Length::from_m(rect.width))
    )
}

fn sheet(plan: &Plan, layout: &Layout, words: &Words<'_>) -> DxfDrawing {
    let mut drawing = DxfDrawing::new(unit(plan));
    piece_layers(&mut drawing);
    drawing
        .layer(SHEET, DxfColour::Grey)
        .layer(SAW, DxfColour::Yellow)
        .layer(CHECK, DxfColour::Magenta);
    drawing.closed_polyline(SHEET, &rectangle(&layout.root.rect));
    for placed in layout.placements() {
        if let Some(panel) = plan.panels.get(placed.part) {
            draw_panel(&mut drawing, panel, &sheet_from_panel(panel, &placed));
        }
    }
    for (piece, cut) in layout.cuts() {
        let [from, to] = cut_line(&piece, cut);
        drawing.line(SAW, from, to);
    }
    let side = check_length(words).m();
    // Below the sheet by half its own size.
    let below = Rect {
        x: layout.root.rect.x,
        y: layout.root.rect.y - 1.5 * side,
        length: side,
        width: side,
    };
    drawing.closed_polyline(CHECK, &rectangle(&below));
    drawing
}

/// Where a point of the panel's frame lies on the sheet; a turned panel lies a quarter to the
/// left.
fn sheet_from_panel(panel: &Panel, placed: &Placement) -> impl Fn(Point2) -> Point2 + use<> {
    let (low, high) = panel.cut.bounds();
    let (rect, turned) = (placed.rect, placed.turned);
    let width = high.y - low.y;
    move |p: Point2| {
        let (x, y) = (p.x - low.x, p.y - low.y);
        if turned {
            Point2::new(rect.x + width - y, rect.y + x)
        } else {
            Point2::new(rect.x + x, rect.y + y)
        }
    }
}

fn rectangle(rect: &Rect) -> [Point2; 4] {
    let (x, y) = (rect.x, rect.y);
    [
        (0.0, 0.0),
        (rect.length, 0.0),
        (rect.length, rect.width),
        (0.0, rect.width),
    ]
    .map(|(along, up)| Point2::new(x + along, y + up))
}

fn piece_layers(drawing: &mut DxfDrawing) {
    drawing
        .layer(CUT, DxfColour::Ink)
        .layer(HOLES, DxfColour::Red)
        .layer(RELIEF, DxfColour::Blue)
        .layer(BEVEL_OUTSIDE, DxfColour::Green)
        .layer(BEVEL_INSIDE, DxfColour::Cyan);
}

fn draw_panel(drawing: &mut DxfDrawing, panel: &Panel, place: &dyn Fn(Point2) -> Point2) {
    let plate = &panel.cut;
    for outline in squared(plate).outlines(PlateFace::Outside) {
        let corners: Vec<Point2> = outline.0.iter().map(|p| place(*p)).collect();
        drawing.closed_polyline(CUT, &without_repeats(corners));
    }
    for cutout in &plate.cutouts {
        match cutout {
            Cutout::Round { centre, radius } => {
                drawing.circle(HOLES, place(*centre), *radius);
            }
            Cutout::Straight(outline) => {
                let corners: Vec<Point2> = outline.0.iter().map(|p| place(*p)).collect();
                drawing.closed_polyline(HOLES, &corners);
            }
        }
    }
    for relief in &panel.reliefs {
        drawing.circle(RELIEF, place(relief.centre), relief.radius.m());
    }
    for (face, layer) in [
        (PlateFace::Outside, BEVEL_OUTSIDE),
        (PlateFace::Inside, BEVEL_INSIDE),
    ] {
        for (sides, outline) in plate.loops.iter().zip(plate.outlines(face)) {
            for (side, (a, b)) in sides.iter().zip(outline.sides()) {
                if is_short(side, face) {
                    drawing.line(layer, place(a), place(b));
                }
            }
        }
    }
}

/// Whether a side stops short on this face.
fn is_short(side: &Side, face: PlateFace) -> bool {
    let over = side.outer - side.inner;
    match face {
        PlateFace::Outside => over < -SQUARE,
        PlateFace::Inside => over > SQUARE,
    }
}

/// The plate before its edges are bevelled: every side square, where its longer face has it.
fn squared(plate: &Plate) -> Plate {
    let square = |side: &Side| {
        let furthest = side.outer.max(side.inner);
        Side {
            outer: furthest,
            inner: furthest,
            ..*side
        }
    };
    Plate {
        loops: plate
            .loops
            .iter()
            .map(|ring| ring.iter().map(square).collect())
            .collect(),
        ..plate.clone()
    }
}

/// Machines stumble over sides of no length.
fn without_repeats(corners: Vec<Point2>) -> Vec<Point2> {
    let n = corners.len();
    let far = |i: &usize| corners[*i].distance(corners[(i + 1) % n]) > SQUARE;
    (0..n).filter(far).map(|i| corners[i]).collect()
}

/// A name that every disk takes: small letters, digits and `-`.
fn plain(name: &str) -> String {
    let mut plain = String::new();
    for c in name.chars() {
        if c.is_ascii_alphanumeric() {
            plain.push(c.to_ascii_lowercase());
        } else if !plain.ends_with('-') {
            plain.push('-');
        }
    }
    plain.trim_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_fit_every_disk() {
        assert_eq!(plain("Left 2 / \"Süd\"..."), "left-2-s-d");
    }
}
