//! A sheet with its parts, its cuts in order and what is left over.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot, TEXT, balloon_radius, text_width};
use super::scale::Scale;
use crate::words::Words;
use brimful_geom::vector::Point2;
use brimful_nest::{Cut, Layout, Rect, Reference, Runs};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::Length;

/// Where along a cut its number may stand, best first.
const MARK_PLACES: [f64; 7] = [0.15, 0.85, 0.3, 0.7, 0.5, 0.05, 0.95];

/// The two ends of a cut: the near side of the blade.
pub fn cut_line(piece: &Rect, cut: &Cut) -> [Point2; 2] {
    let along = |near: f64, size: f64| match cut.reference {
        Reference::Near => near + cut.fence,
        Reference::Far => near + size - cut.fence,
    };
    match cut.runs {
        Runs::AlongLength => {
            let y = along(piece.y, piece.width);
            [
                Point2::new(piece.x, y),
                Point2::new(piece.x + piece.length, y),
            ]
        }
        Runs::AlongWidth => {
            let x = along(piece.x, piece.length);
            [
                Point2::new(x, piece.y),
                Point2::new(x, piece.y + piece.width),
            ]
        }
    }
}

/// The sheet at the largest scale that fits `room` millimetres, and the scale in words.
pub fn sheet_drawing(
    plan: &Plan,
    layout: &Layout,
    words: &Words<'_>,
    room: (f64, f64),
) -> (Drawing, Text) {
    let sheet = layout.root.rect;
    let margin = 6.0;
    let inner = (room.0 - 2.0 * margin, room.1 - 2.0 * margin);
    let scale = Scale::fitting(
        (sheet.length, sheet.width),
        inner,
        Point2::new(sheet.x, sheet.y),
        (0.0, 0.0),
    );
    let (length, width) = (scale.paper(sheet.length), scale.paper(sheet.width));
    let height = width + 2.0 * margin;
    let scale = scale.at(((room.0 - length) / 2.0, margin + width));
    let mut canvas = Canvas::new(room.0, height);
    for offcut in layout.offcuts() {
        hatch(&mut canvas, &offcut, &scale);
        name(
            &mut canvas,
            &offcut,
            &[say!(words, "left over"), size(&offcut, words)],
            &scale,
        );
    }
    rectangle(&mut canvas, &sheet, &scale, Line::Seen);
    for placed in layout.placements() {
        rectangle(&mut canvas, &placed.rect, &scale, Line::Seen);
        let Some(panel) = plan.panels.get(placed.part) else {
            continue;
        };
        let lines = [words.marked(panel), size(&placed.rect, words)];
        name(&mut canvas, &placed.rect, &lines, &scale);
    }
    let mut marked: Vec<Spot> = Vec::new();
    for (piece, cut) in layout.cuts() {
        let [a, b] = cut_line(&piece, cut);
        canvas.line(scale.spot(a), scale.spot(b), Line::Thin);
        // The place along the cut that lies clearest of the marks that are there.
        let clear = |spot: &Spot| {
            let far = |other: &Spot| (spot.0 - other.0).hypot(spot.1 - other.1);
            marked.iter().map(far).fold(f64::INFINITY, f64::min)
        };
        let spots = MARK_PLACES.map(|share| scale.spot(a + (b - a) * share));
        let clearest = spots.into_iter().fold(spots[0], |best, spot| {
            let enough = 3.0 * balloon_radius("1");
            if clear(&best) < enough && clear(&spot) > clear(&best) {
                spot
            } else {
                best
            }
        });
        marked.push(clearest);
        canvas.balloon(clearest, &cut.number.to_string());
    }
    let text = scale.text(words);
    (canvas.finish(), text)
}

fn size(rect: &Rect, words: &Words<'_>) -> Text {
    words.size([rect.length, rect.width].map(Length::from_m))
}

fn corners(rect: &Rect, scale: &Scale) -> Vec<Spot> {
    let (x, y) = (rect.x, rect.y);
    let ring = [
        (x, y),
        (x + rect.length, y),
        (x + rect.length, y + rect.width),
        (x, y + rect.width),
    ];
    ring.iter()
        .map(|&(x, y)| scale.spot(Point2::new(x, y)))
        .collect()
}

fn rectangle(canvas: &mut Canvas, rect: &Rect, scale: &Scale, line: Line) {
    canvas.outlines(&[corners(rect, scale)], None, Some(line));
}

/// Lines at 45 degrees, 4 mm apart.
fn hatch(canvas: &mut Canvas, rect: &Rect, scale: &Scale) {
    const PITCH: f64 = 4.0;
    let ring = corners(rect, scale);
    let ((left, bottom), (right, top)) = (ring[0], ring[2]);
    let (width, height) = (right - left, bottom - top);
    let mut along = PITCH;
    while along < width + height {
        let from = (left + along.min(width), bottom - (along - width).max(0.0));
        let to = (left + (along - height).max(0.0), bottom - along.min(height));
        canvas.line(from, to, Line::Thin);
        along += PITCH;
    }
}

/// Lines of text in the middle of a rectangle, upright or turned; the first alone, or none,
/// where there is no room.
fn name(canvas: &mut Canvas, rect: &Rect, lines: &[Text], scale: &Scale) {
    let ring = corners(rect, scale);
    let (across, up) = (ring[2].0 - ring[0].0, ring[0].1 - ring[2].1);
    let middle = ((ring[0].0 + ring[2].0) / 2.0, (ring[0].1 + ring[2].1) / 2.0);
    for count in (1..=lines.len()).rev() {
        let lines = &lines[..count];
        let wide = lines
            .iter()
            .map(|line| text_width(line.as_str(), TEXT))
            .fold(0.0, f64::max)
            + 1.0;
        let high = TEXT * 1.25 * count as f64 + 0.5;
        let turned = !(wide <= across && high <= up);
        if turned && !(wide <= up && high <= across) {
            continue;
        }
        let (half_x, half_y) = if turned {
            (high / 2.0, wide / 2.0)
        } else {
            (wide / 2.0, high / 2.0)
        };
        let (x, y) = middle;
        let ground = vec![
            (x - half_x, y - half_y),
            (x + half_x, y - half_y),
            (x + half_x, y + half_y),
            (x - half_x, y + half_y),
        ];
        canvas.outlines(&[ground], Some(1.0), None);
        for (i, line) in lines.iter().enumerate() {
            let off = (i as f64 - (count as f64 - 1.0) / 2.0) * TEXT * 1.25;
            let (at, turn) = if turned {
                ((x + off, y), 90.0)
            } else {
                ((x, y + off), 0.0)
            };
            canvas.text(at, Anchor::Middle, turn, TEXT, line);
        }
        return;
    }
}
