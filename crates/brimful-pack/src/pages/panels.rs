//! A page a panel: its drawing, its sides, its holes, what stands on it.

use super::document::{Document, figures, wide, words as column};
use crate::draw::panel::{centre, corner, hole_mark, hole_size, panel_drawing};
use crate::words::Words;
use brimful_geom::plate::{Cutout, Plate, PlateFace};
use brimful_geom::vector::Point2;
use brimful_panels::panel::{Panel, Role};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::{Angle, Length};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    for panel in &plan.panels {
        write_panel(document, plan, panel, words);
    }
}

fn write_panel(document: &mut Document, plan: &Plan, panel: &Panel, words: &Words<'_>) {
    document.page(&say!(
        words,
        "{mark}: {name}",
        mark = words.symbol(&panel.mark),
        name = words.panel(&panel.name)
    ));
    let (width, height) = document.room();
    // The tables take the rest of the page; where that is too little they go to the next one and
    // leave this one to the drawing.
    let lines = panel.cut.loops.iter().map(Vec::len).sum::<usize>()
        + panel.cut.cutouts.len()
        + panel.reliefs.len()
        + panel.lands.len();
    let left = height - 62.0 - 5.6 * lines as f64;
    let for_drawing = if left < height * 0.42 {
        height * 0.85
    } else {
        left
    };
    let (drawing, scale) = panel_drawing(plan, panel, words, (width, for_drawing));
    document.paragraph(&heading(plan, panel, words, scale));
    document.drawing(drawing);
    sides(document, plan, panel, words);
    holes(document, panel, words);
    lands(document, plan, panel, words);
}

fn heading(plan: &Plan, panel: &Panel, words: &Words<'_>, scale: Text) -> Text {
    let size = |plate: &Plate| {
        let (low, high) = plate.bounds();
        words.size([high.x - low.x, high.y - low.y].map(Length::from_m))
    };
    let seen = match panel.role {
        Role::Rib => say!(words, "Seen from above, the wall along its lower side."),
        role if role.is_inner() => say!(
            words,
            "Seen along the axis it stands across, with up (or left) upward."
        ),
        _ => say!(words, "Seen from outside the tank."),
    };
    say!(
        words,
        "{material} {role}, {thickness} thick. Size as cut {cut}; finished {finished}. {seen} Drawn as cut, scale {scale}; all figures on the drawing in {unit}, measured from the lower-left corner of the rectangle round the panel as cut. Do not measure from the print.",
        material = words.given(&plan.job.stock.material),
        role = words.role(panel.role),
        thickness = words.thickness(panel.thickness),
        cut = size(&panel.cut),
        finished = size(&panel.finished),
        seen = seen,
        scale = scale,
        unit = words.length_unit()
    )
}

fn sides(document: &mut Document, plan: &Plan, panel: &Panel, words: &Words<'_>) {
    let mut rows = Vec::new();
    let cut = [PlateFace::Outside, PlateFace::Inside].map(|face| panel.cut.outlines(face));
    let finished = panel.finished.outlines(PlateFace::Outside);
    for (ring, sides) in panel.cut.loops.iter().enumerate() {
        for (i, side) in sides.iter().enumerate() {
            let length = |outlines: &[brimful_geom::polygon::Outline]| {
                let ring = outlines.get(ring).map_or(&[][..], |outline| &outline.0[..]);
                match (ring.get(i), ring.get((i + 1) % ring.len().max(1))) {
                    (Some(a), Some(b)) => words.bare(a.distance(*b)),
                    _ => words.symbol("-"),
                }
            };
            let seam = side.mark.and_then(|mark| plan.seams.get(mark));
            let (mark, meets, joint) = match seam {
                None => (
                    words.symbol("-"),
                    say!(words, "free edge"),
                    words.symbol("-"),
                ),
                Some(seam) => {
                    let panels = seam
                        .panels
                        .iter()
                        .filter_map(|&number| plan.panels.get(number));
                    let other = panels.into_iter().find(|other| other.mark != panel.mark);
                    (
                        words.symbol(&seam.mark),
                        other.map_or_else(Text::default, |other| words.marked(other)),
                        words.joint_of(seam, &plan.panels),
                    )
                }
            };
            rows.push(vec![
                mark,
                meets,
                joint,
                length(&cut[0]),
                length(&cut[1]),
                length(&finished),
                words.edge_cut(Angle::from_rad(side.bevel(panel.cut.thickness))),
            ]);
        }
    }
    let unit = words.length_unit();
    document.heading(&say!(words, "Sides, counter-clockwise"));
    document.table(
        &[
            column(say!(words, "Seam")),
            wide(say!(words, "Meets")),
            wide(say!(words, "Joint")),
            figures(say!(words, "Outside face\nas cut ({unit})", unit = &unit)),
            figures(say!(words, "Inside face\nas cut ({unit})", unit = &unit)),
            figures(say!(words, "Outside face\nfinished ({unit})", unit = &unit)),
            wide(say!(words, "Edge is cut")),
        ],
        &rows,
    );
}

fn holes(document: &mut Document, panel: &Panel, words: &Words<'_>) {
    let low = corner(panel);
    let place = |point: Point2| [words.bare(point.x - low.x), words.bare(point.y - low.y)];
    let diameter = |radius: f64| {
        say!(
            words,
            "dia. {diameter}",
            diameter = words.bare(radius * 2.0)
        )
    };
    let mut rows = Vec::new();
    for (number, cutout) in panel.cut.cutouts.iter().enumerate() {
        let opening = panel
            .openings
            .iter()
            .find(|opening| opening.cutout == number);
        let name = opening.map_or_else(
            || say!(words, "slot for a tongue"),
            |opening| words.hole(&opening.name),
        );
        let size = match cutout {
            Cutout::Round { radius, .. } => diameter(*radius),
            Cutout::Straight(outline) => {
                let (width, height) = hole_size(outline);
                words.bare_size([width, height])
            }
        };
        let [x, y] = place(centre(cutout));
        rows.push(vec![words.symbol(&hole_mark(number)), name, size, x, y]);
    }
    for relief in &panel.reliefs {
        let [x, y] = place(relief.centre);
        let size = diameter(relief.radius.m());
        rows.push(vec![
            words.symbol("-"),
            say!(
                words,
                "stop hole: drill before sawing into the inside corner"
            ),
            size,
            x,
            y,
        ]);
    }
    if rows.is_empty() {
        return;
    }
    let unit = words.length_unit();
    document.heading(&say!(
        words,
        "Holes: size and middle, from the lower-left corner of the rectangle round the panel as cut"
    ));
    document.table(
        &[
            column(say!(words, "Mark")),
            wide(say!(words, "What for")),
            figures(say!(words, "Size ({unit})", unit = &unit)),
            figures(say!(words, "Across ({unit})", unit = &unit)),
            figures(say!(words, "Up ({unit})", unit = &unit)),
        ],
        &rows,
    );
}

fn lands(document: &mut Document, plan: &Plan, panel: &Panel, words: &Words<'_>) {
    if panel.lands.is_empty() {
        return;
    }
    let low = corner(panel);
    let place = |point: Point2| {
        Text::join(
            [point.x - low.x, point.y - low.y].map(|metres| words.bare(metres)),
            ", ",
        )
    };
    let rows: Vec<Vec<Text>> = panel
        .lands
        .iter()
        .map(|land| {
            let (standing, face) = match plan.panels.get(land.panel) {
                Some(panel) => (
                    words.marked(panel),
                    match panel.role {
                        Role::Rib => say!(words, "outside"),
                        _ => say!(words, "inside"),
                    },
                ),
                None => (Text::default(), Text::default()),
            };
            let seam = plan
                .seams
                .get(land.seam)
                .map_or(Text::default(), |seam| words.symbol(&seam.mark));
            vec![standing, face, seam, place(land.from), place(land.to)]
        })
        .collect();
    let unit = words.length_unit();
    document.heading(&say!(words, "What stands on it: inside dashed, outside in thin lines (figures are of its middle line, seen from outside)"));
    document.table(
        &[
            wide(say!(words, "Panel")),
            column(say!(words, "Face")),
            column(say!(words, "Seam")),
            figures(say!(words, "From across, up ({unit})", unit = &unit)),
            figures(say!(words, "To across, up ({unit})", unit = &unit)),
        ],
        &rows,
    );
}
