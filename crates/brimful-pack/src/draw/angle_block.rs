//! An angle block with its sizes.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot, TEXT};
use super::scale::Scale;
use crate::words::Words;
use brimful_geom::vector::{Point2, Vec2};
use brimful_panels::weld::fixture::block::AngleBlock;
use brimful_text::Text;
use brimful_units::Length;

/// Room round the block for its figures, millimetres of paper.
const MARGIN: f64 = 11.0;
/// How far a dimension line stands from the edge that it measures, millimetres of paper.
const OFF: f64 = 4.5;

/// The block no larger than `room` millimetres, and its scale.
pub fn angle_block_drawing(
    block: &AngleBlock,
    words: &Words<'_>,
    room: (f64, f64),
) -> (Drawing, Text) {
    let outline = block.outline();
    let apex = Point2::new(0.0, 0.0);
    let mut all = outline.clone();
    all.0.push(apex);
    let (low, high) = all.bounds();
    let size = (high.x - low.x, high.y - low.y);
    let inner = (room.0 - 2.0 * MARGIN, room.1 - 2.0 * MARGIN);
    let scale = Scale::fitting(size, inner, low, (0.0, 0.0));
    let (width, height) = (
        scale.paper(size.0) + 2.0 * MARGIN,
        scale.paper(size.1) + 2.0 * MARGIN,
    );
    let scale = scale.at((MARGIN, height - MARGIN));
    let mut canvas = Canvas::new(width, height);
    let ring: Vec<Spot> = outline.0.iter().map(|&it| scale.spot(it)).collect();
    canvas.outlines(&[ring], Some(0.9), Some(Line::Seen));
    // Where the legs would meet.
    let first = Vec2::new(1.0, 0.0);
    let angle = block.angle.rad();
    let second = Vec2::new(angle.cos(), angle.sin());
    let along = |way: Vec2, far: Length| apex + way * far.m();
    for way in [first, second] {
        let (from, to) = (scale.spot(apex), scale.spot(along(way, block.nip)));
        canvas.line(from, to, Line::Centre);
    }
    measure(&mut canvas, &scale, [apex, along(first, block.leg)], OFF, &words.length(block.leg));
    measure(&mut canvas, &scale, [along(second, block.leg), apex], OFF, &words.length(block.leg));
    let inside = apex + (first + second).unit().unwrap_or(first) * (block.leg.m() * 0.38);
    canvas.text(scale.spot(inside), Anchor::Middle, 0.0, TEXT, &words.angle(block.angle));
    let text = scale.text(words);
    (canvas.finish(), text)
}

/// A dimension line beside an edge on its right, with end strokes and its figure.
fn measure(canvas: &mut Canvas, scale: &Scale, [from, to]: [Point2; 2], off: f64, figure: &Text) {
    let Some(way) = (to - from).unit() else {
        return;
    };
    let out = way.right() * scale.metres(off);
    let spot = |at: Point2, share: f64| scale.spot(at + out * share);
    for end in [from, to] {
        canvas.line(spot(end, 0.15), spot(end, 1.3), Line::Thin);
    }
    canvas.line(spot(from, 1.0), spot(to, 1.0), Line::Thin);
    let (middle, turn) = (from.midpoint(to), way.y.atan2(way.x).to_degrees());
    // Read from below or from the right.
    let turn = match turn {
        turn if turn > 90.0 + 1e-9 => turn - 180.0,
        turn if turn <= -90.0 => turn + 180.0,
        turn => turn,
    };
    canvas.text(spot(middle, 1.6), Anchor::Middle, turn, TEXT, figure);
}
