//! An angle block with its sizes.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot, TEXT};
use super::dimension::measure;
use super::scale::Scale;
use crate::words::Words;
use brimful_geom::vector::{Point2, Vec2};
use brimful_panels::weld::fixture::block::AngleBlock;
use brimful_text::Text;
use brimful_units::Length;

/// Room below and left of the block for its figures, and beyond it, millimetres of paper.
const MARGIN: (f64, f64) = (16.0, 4.0);
/// How far dimension lines stand from the edge that they measure, nip and leg, millimetres of paper.
const OFF: [f64; 2] = [3.0, 8.5];

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
    let margins = MARGIN.0 + MARGIN.1;
    let inner = (room.0 - margins, room.1 - margins);
    let scale = Scale::fitting(size, inner, low, (0.0, 0.0));
    let (width, height) = (scale.paper(size.0) + margins, scale.paper(size.1) + margins);
    let scale = scale.at((MARGIN.0, height - MARGIN.0));
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
    let figure = |length: Length| words.length(length);
    let [near, far] = OFF;
    // Its figure is wider than the nip, and stands beside it.
    let nip = along(first, block.nip);
    measure(&mut canvas, &scale, [apex, nip], near, &Text::default());
    let (x, y) = scale.spot(nip);
    let beside = (x + 1.5, y + near);
    canvas.text(beside, Anchor::Start, 0.0, TEXT, &figure(block.nip));
    for ends in [
        [apex, along(first, block.leg)],
        [along(second, block.leg), apex],
    ] {
        measure(&mut canvas, &scale, ends, far, &figure(block.leg));
    }
    let middle = scale.spot(outline.centroid());
    canvas.text(middle, Anchor::Middle, 0.0, TEXT, &words.angle(block.angle));
    let text = scale.text(words);
    (canvas.finish(), text)
}
