//! From metres of tank to millimetres of paper, at a scale that can be said.

use super::canvas::Spot;
use crate::words::Words;
use brimful_geom::vector::Point2;
use brimful_text::{Text, say};

/// Reductions that are printed, `1 : n`.
const REDUCTIONS: [f64; 17] = [
    1.0, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 40.0, 50.0, 100.0, 200.0,
];

/// Where a flat drawing in metres (y up) lies on the paper (y down).
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    /// The paper is `1 : reduction` of the real thing.
    pub reduction: f64,
    /// What lies at `place`.
    origin: Point2,
    /// Where the origin is on the paper.
    place: Spot,
}

impl Scale {
    /// The largest scale at which `size` metres fit into `room` millimetres, with `origin` at
    /// `place`.
    pub fn fitting(size: (f64, f64), room: (f64, f64), origin: Point2, place: Spot) -> Self {
        let reduction = reduction(size, room);
        Self {
            reduction,
            origin,
            place,
        }
    }
    /// So many millimetres of paper to the metre, with `origin` at `place`.
    pub fn free(per_metre: f64, origin: Point2, place: Spot) -> Self {
        Self {
            reduction: 1000.0 / per_metre,
            origin,
            place,
        }
    }
    /// The same scale with the origin elsewhere on the paper.
    pub fn at(self, place: Spot) -> Self {
        Self { place, ..self }
    }
    /// Metres as millimetres of paper.
    pub fn paper(&self, metres: f64) -> f64 {
        metres * 1000.0 / self.reduction
    }
    /// Millimetres of paper as metres.
    pub fn metres(&self, paper: f64) -> f64 {
        paper * self.reduction / 1000.0
    }
    /// Where a point lies on the paper.
    pub fn spot(&self, point: Point2) -> Spot {
        (
            self.place.0 + self.paper(point.x - self.origin.x),
            self.place.1 - self.paper(point.y - self.origin.y),
        )
    }
    /// The scale in words.
    pub fn text(&self, words: &Words<'_>) -> Text {
        say!(
            words,
            "1 : {reduction}",
            reduction = words.number(self.reduction, 1)
        )
    }
}

fn reduction(size: (f64, f64), room: (f64, f64)) -> f64 {
    let needed = (size.0 * 1000.0 / room.0).max(size.1 * 1000.0 / room.1);
    REDUCTIONS
        .into_iter()
        .find(|reduction| *reduction >= needed)
        .unwrap_or_else(|| needed.ceil())
}
