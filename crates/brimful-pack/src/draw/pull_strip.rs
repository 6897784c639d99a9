//! The strip that shows how much a bead draws in: as it is welded, and as it stands when it is cold.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot, TEXT};
use super::dimension::measure;
use super::scale::Scale;
use crate::words::Words;
use brimful_geom::vector::Point2;
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_text::{Text, say};
use brimful_units::Length;

/// Room about the strip for its figures, millimetres of paper.
const MARGIN: f64 = 12.0;
/// Room between the two strips, and how far the bowed one is drawn to bow, far more than it does, millimetres of paper.
const APART: f64 = 16.0;
const BOW: f64 = 5.0;
/// Straight pieces that the bowed strip is drawn with.
const PIECES: usize = 24;

/// The strip as wide as `room` millimetres.
pub fn pull_strip_drawing(strip: &PullStrip, words: &Words<'_>, room: f64) -> Drawing {
    let size = (strip.length.m(), strip.width.m());
    let origin = Point2::new(0.0, 0.0);
    let scale = Scale::fitting(size, (room - 2.0 * MARGIN, room), origin, (0.0, 0.0));
    let (long, wide) = (scale.paper(size.0), scale.paper(size.1));
    let (width, height) = (long + 2.0 * MARGIN, 2.0 * wide + APART + BOW + 2.0 * MARGIN);
    let scale = scale.at((MARGIN, MARGIN / 2.0 + wide));
    let mut canvas = Canvas::new(width, height);
    let corner = |x: f64, y: f64| Point2::new(x * size.0, y * size.1);
    let flat = [
        corner(0.0, 0.0),
        corner(1.0, 0.0),
        corner(1.0, 1.0),
        corner(0.0, 1.0),
    ];
    canvas.outlines(
        &[flat.map(|it| scale.spot(it)).to_vec()],
        Some(0.9),
        Some(Line::Seen),
    );
    canvas.line(scale.spot(flat[3]), scale.spot(flat[2]), Line::Run);
    let figure = |length: Length| words.length(length);
    measure(
        &mut canvas,
        &scale,
        [flat[0], flat[1]],
        3.0,
        &figure(strip.length),
    );
    measure(
        &mut canvas,
        &scale,
        [flat[1], flat[2]],
        3.0,
        &figure(strip.width),
    );
    let (x, y) = scale.spot(corner(0.5, 1.0));
    canvas.text(
        (x, y - 1.5),
        Anchor::Middle,
        0.0,
        TEXT,
        &say!(words, "bead"),
    );
    // It stands on the edge with the bead, which has drawn in: its ends touch the bench, and its middle has risen.
    let foot = MARGIN / 2.0 + 2.0 * wide + APART + BOW;
    let edge = |up: f64| -> Vec<Spot> {
        let at = |i: usize| {
            let share = i as f64 / PIECES as f64;
            let bowed = 4.0 * BOW * share * (1.0 - share);
            (MARGIN + long * share, foot - bowed - up)
        };
        (0..=PIECES).map(at).collect()
    };
    let (under, over) = (edge(0.0), edge(wide));
    let ring: Vec<Spot> = over
        .iter()
        .copied()
        .chain(under.iter().copied().rev())
        .collect();
    canvas.outlines(&[ring], Some(0.9), Some(Line::Seen));
    for pair in under.windows(2) {
        canvas.line(pair[0], pair[1], Line::Run);
    }
    canvas.line(
        (MARGIN / 2.0, foot),
        (width - MARGIN / 2.0, foot),
        Line::Thin,
    );
    let middle = MARGIN + long / 2.0;
    canvas.text(
        (middle, foot + 4.0),
        Anchor::Middle,
        0.0,
        TEXT,
        &bow_words(words),
    );
    canvas.finish()
}

fn bow_words(words: &Words<'_>) -> Text {
    say!(
        words,
        "bow: between the bench and its middle, drawn too large"
    )
}
