//! Weld symbols after ISO 2553, system A: from memory, and said so on the page.
//!
//! The full reference line is for the side that the arrow points to, the dashed line beside it for the other side; a weld
//! that is alike on both sides has no dashed line. Strokes take a tenth of the height of the letters.

use super::canvas::{Anchor, Canvas, Line, Spot};
use brimful_panels::weld::SeamWeld;
use brimful_panels::weld::groove::GrooveKind;
use brimful_text::Text;

/// Height of the letters and of a symbol, millimetres.
const HEIGHT: f64 = 2.5;
/// Size of the letters' type: its capitals are seven tenths of it high.
const TYPE: f64 = 3.2;
/// The dashed line lies so far below the full one.
const BESIDE: f64 = 1.0;
/// From the arrow to the symbol along the reference line.
const TO_SYMBOL: f64 = 16.0;
/// Length of the reference line, to its tail.
pub const LINE: f64 = 34.0;
/// Room that a symbol takes above and below its line.
pub const ROOM: f64 = 2.0 * (HEIGHT + BESIDE) + 2.0;
/// Room that its tail takes beyond the line.
pub const TAIL: f64 = 10.0;

/// One side of a symbol.
pub struct Side<'a> {
    /// What is laid there.
    pub weld: &'a SeamWeld,
    /// Its throat, in figures.
    pub throat: Text,
    /// Inside or outside, in words.
    pub side: Text,
}

/// Draws a symbol whose reference line begins at `at`, and whose arrow points to `tip`.
pub fn weld_symbol(
    canvas: &mut Canvas,
    at: Spot,
    tip: Spot,
    arrow_side: &Side<'_>,
    other_side: Option<&Side<'_>>,
    process: &Text,
) {
    let (x, y) = at;
    let end = (x + LINE, y);
    canvas.line(at, tip, Line::Thin);
    arrow_head(canvas, at, tip);
    canvas.line(at, end, Line::Fine);
    canvas.line(end, (end.0 + 2.0, y - 2.0), Line::Fine);
    canvas.line(end, (end.0 + 2.0, y + 2.0), Line::Fine);
    canvas.text((end.0 + 3.0, y), Anchor::Start, 0.0, TYPE, process);
    half(canvas, (x, y), -1.0, arrow_side);
    let is_alike = |other: &Side<'_>| {
        other.weld.kind == arrow_side.weld.kind && matches!(other.weld.kind, GrooveKind::DoubleV)
            || other.weld.side == arrow_side.weld.side
    };
    match other_side {
        Some(other) if is_alike(other) => half(canvas, (x, y), 1.0, other),
        other => {
            let beside = y + BESIDE;
            canvas.line((x, beside), (end.0, beside), Line::Hidden);
            if let Some(other) = other {
                half(canvas, (x, beside), 1.0, other);
            }
        }
    }
}

/// A symbol that stands on a line, or hangs from it (`way` -1 or 1), with its size and its side.
fn half(canvas: &mut Canvas, (x, y): Spot, way: f64, side: &Side<'_>) {
    let x = x + TO_SYMBOL;
    let spot = |across: f64, off: f64| (x + across * HEIGHT, y + way * off * HEIGHT);
    let mut stroke = |from: (f64, f64), to: (f64, f64)| {
        canvas.line(spot(from.0, from.1), spot(to.0, to.1), Line::Fine);
    };
    // A V of 60 degrees, whatever the groove has.
    let open = 30.0_f64.to_radians().tan();
    let (strokes, width): (&[[(f64, f64); 2]], f64) = match side.weld.kind {
        GrooveKind::V | GrooveKind::DoubleV => (
            &[[(-open, 1.0), (0.0, 0.0)], [(0.0, 0.0), (open, 1.0)]],
            open,
        ),
        GrooveKind::HalfV => (&[[(0.0, 1.0), (0.0, 0.0)], [(0.0, 0.0), (1.0, 1.0)]], 1.0),
        GrooveKind::Fillet => (&[[(0.0, 0.0), (0.0, 1.0)], [(0.0, 1.0), (1.0, 0.0)]], 1.0),
        GrooveKind::Plug => (
            &[
                [(-0.7, 0.0), (-0.7, 0.7)],
                [(-0.7, 0.7), (0.7, 0.7)],
                [(0.7, 0.7), (0.7, 0.0)],
            ],
            0.7,
        ),
    };
    for [from, to] in strokes {
        stroke(*from, *to);
    }
    let (left, _) = spot(-0.7, 0.0);
    let (right, middle) = spot(width + 0.3, 0.65);
    canvas.text((left - 0.6, middle), Anchor::End, 0.0, TYPE, &side.throat);
    canvas.text((right, middle), Anchor::Start, 0.0, TYPE, &side.side);
}

fn arrow_head(canvas: &mut Canvas, from: Spot, tip: Spot) {
    const LENGTH: f64 = 2.0;
    let (dx, dy) = (from.0 - tip.0, from.1 - tip.1);
    let length = dx.hypot(dy);
    if length < LENGTH {
        return;
    }
    let (ux, uy) = (dx / length * LENGTH, dy / length * LENGTH);
    let half = 0.2;
    let head = vec![
        tip,
        (tip.0 + ux - half * uy, tip.1 + uy + half * ux),
        (tip.0 + ux + half * uy, tip.1 + uy - half * ux),
    ];
    canvas.outlines(&[head], Some(0.0), None);
}
