//! A page a panel: its drawing, its sides, its holes, what stands on it.

use super::document::{Document, figures, wide, words as column};
use crate::draw::panel::{centre, corner, hole_mark, hole_size, panel_drawing};
use crate::words::{self, Words, edge_cut};
use brimful_geom::plate::{Cutout, PlateFace};
use brimful_geom::vector::Point2;
use brimful_tank::panel::{Panel, Role};
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    for panel in &plan.panels {
        write_panel(document, plan, panel, words);
    }
}

fn write_panel(document: &mut Document, plan: &Plan, panel: &Panel, words: &Words<'_>) {
    document.page(&format!("{}: {}", panel.mark, panel.name));
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
    document.paragraph(&heading(plan, panel, words, &scale));
    document.drawing(drawing);
    sides(document, plan, panel, words);
    holes(document, panel, words);
    lands(document, plan, panel, words);
}

fn heading(plan: &Plan, panel: &Panel, words: &Words<'_>, scale: &str) -> String {
    let size = |plate: &brimful_geom::plate::Plate| {
        let (low, high) = plate.bounds();
        format!(
            "{} x {} {}",
            words.bare(high.x - low.x),
            words.bare(high.y - low.y),
            words.length_unit()
        )
    };
    let seen = match panel.role {
        Role::Rib => "Seen from above, the wall along its lower side.",
        role if role.is_inner() => {
            "Seen along the axis it stands across, with up (or left) upward."
        }
        _ => "Seen from outside the tank.",
    };
    format!(
        "{} {}, {} thick. Size as cut {}; finished {}. {seen} Drawn as cut, scale {scale}; all figures on the drawing in {}, measured from the lower-left corner of the rectangle round the panel as cut. Do not measure from the print.",
        plan.job.stock.material,
        words::role(panel.role),
        words.thickness(panel.thickness),
        size(&panel.cut),
        size(&panel.finished),
        words.length_unit()
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
                    _ => "-".into(),
                }
            };
            let seam = side.mark.and_then(|mark| plan.seams.get(mark));
            let (mark, meets, joint) = match seam {
                None => ("-".to_string(), "free edge".to_string(), "-".to_string()),
                Some(seam) => {
                    let own = plan
                        .panels
                        .iter()
                        .position(|other| other.mark == panel.mark);
                    let other = seam.panels.iter().find(|number| Some(**number) != own);
                    let other = other.and_then(|number| plan.panels.get(*number));
                    let mark_of = |number: usize| {
                        plan.panels
                            .get(number)
                            .map_or(String::new(), |panel| panel.mark.clone())
                    };
                    (
                        seam.mark.clone(),
                        other.map_or(String::new(), |other| {
                            format!("{} {}", other.mark, other.name)
                        }),
                        words::joint(seam.joint, mark_of),
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
                edge_cut(words, side.bevel(panel.cut.thickness)),
            ]);
        }
    }
    let unit = words.length_unit();
    document.heading("Sides, counter-clockwise");
    document.table(
        &[
            column("Seam"),
            wide("Meets"),
            wide("Joint"),
            figures(format!("Outside face\nas cut ({unit})")),
            figures(format!("Inside face\nas cut ({unit})")),
            figures(format!("Outside face\nfinished ({unit})")),
            wide("Edge is cut"),
        ],
        &rows,
    );
}

fn holes(document: &mut Document, panel: &Panel, words: &Words<'_>) {
    let low = corner(panel);
    let place = |point: Point2| [words.bare(point.x - low.x), words.bare(point.y - low.y)];
    let mut rows = Vec::new();
    for (number, cutout) in panel.cut.cutouts.iter().enumerate() {
        let opening = panel
            .openings
            .iter()
            .find(|opening| opening.cutout == number);
        let name = opening.map_or_else(
            || brimful_text::say!(words.text, "slot for a tongue"),
            |opening| words.text.hole(&opening.name),
        );
        let size = match cutout {
            Cutout::Round { radius, .. } => format!("dia. {}", words.bare(radius * 2.0)),
            Cutout::Straight(outline) => {
                let (width, height) = hole_size(outline);
                format!("{} x {}", words.bare(width), words.bare(height))
            }
        };
        let [x, y] = place(centre(cutout));
        rows.push(vec![hole_mark(number), name.to_string(), size, x, y]);
    }
    for relief in &panel.reliefs {
        let [x, y] = place(relief.centre);
        let size = format!("dia. {}", words.bare(relief.radius.m() * 2.0));
        rows.push(vec![
            "-".into(),
            "stop hole: drill before sawing into the inside corner".into(),
            size,
            x,
            y,
        ]);
    }
    if rows.is_empty() {
        return;
    }
    let unit = words.length_unit();
    document.heading("Holes: size and middle, from the lower-left corner of the rectangle round the panel as cut");
    document.table(
        &[
            column("Mark"),
            wide("What for"),
            figures(format!("Size ({unit})")),
            figures(format!("Across ({unit})")),
            figures(format!("Up ({unit})")),
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
        format!(
            "{}, {}",
            words.bare(point.x - low.x),
            words.bare(point.y - low.y)
        )
    };
    let rows: Vec<Vec<String>> = panel
        .lands
        .iter()
        .map(|land| {
            let (standing, face) = match plan.panels.get(land.panel) {
                Some(panel) => (
                    format!("{} {}", panel.mark, panel.name),
                    match panel.role {
                        Role::Rib => "outside",
                        _ => "inside",
                    },
                ),
                None => (String::new(), ""),
            };
            let seam = plan
                .seams
                .get(land.seam)
                .map_or(String::new(), |seam| seam.mark.clone());
            vec![
                standing,
                face.to_owned(),
                seam,
                place(land.from),
                place(land.to),
            ]
        })
        .collect();
    let unit = words.length_unit();
    document.heading("What stands on it: inside dashed, outside in thin lines (figures are of its middle line, seen from outside)");
    document.table(
        &[
            wide("Panel"),
            column("Face"),
            column("Seam"),
            figures(format!("From across, up ({unit})")),
            figures(format!("To across, up ({unit})")),
        ],
        &rows,
    );
}
