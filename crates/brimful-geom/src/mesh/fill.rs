//! A triangular lattice of graded spacing inside a flat.

use super::size::SizeField;
use crate::frame::Frame;
use crate::polygon::{Outline, distance_to_segment};
use crate::vector::{Point2, Vec2};
use std::collections::BTreeMap;

/// What the lattice has to fit.
pub(super) struct Ground<'a> {
    /// Frame of the flat.
    pub frame: &'a Frame,
    /// All divided edges in the flat and its isolated points, in its plane.
    pub segments: &'a [(Point2, Point2)],
    /// Outlines of the flat, as given.
    pub outlines: &'a [Outline],
    /// Wanted sizes.
    pub field: &'a SizeField,
    /// Size of the flat, m.
    pub cap: f64,
}

/// Places inside the flat about the wanted size apart and no nearer than about half of it to
/// any line; `None` where there are more than `most`.
///
/// Lattices of spacing falling by the square root of 2 each fill the places where the wanted
/// size is nearest to their spacing. Cells of a quadtree keep the lists of what is near short.
pub(super) fn lattice(ground: &Ground, most: usize) -> Option<Vec<Point2>> {
    let layout = Layout::of(ground);
    let (low, high) = layout.bounds;
    let half = (high - low).x.max((high - low).y) / 2.0;
    let root = Cell {
        centre: low + (high - low) / 2.0,
        half: half * (1.0 + ROUNDING_ROOM) + ROUNDING_ROOM * ground.cap,
        sources: ground.field.all(),
        segments: (0..ground.segments.len()).collect(),
    };
    let mut candidates = Vec::new();
    let mut cells = vec![root];
    while let Some(cell) = cells.pop() {
        let cell = cell.narrowed(ground, &layout);
        if !cell.segments.is_empty() || layout.inside(ground, layout.flat(cell.centre)) {
            if cell.half <= LEAF_HALF * cell.size(ground, &layout) {
                cell.candidates(ground, &layout, &mut candidates);
            } else {
                cells.extend(cell.quarters());
            }
        }
        if candidates.len() > most {
            return None;
        }
    }
    Some(thinned(candidates, ground.cap))
}

/// A place with the lattice it comes from and the size wanted there.
struct Candidate {
    place: Point2,
    /// Halvings of the area per place, row and number in the row.
    lattice: (i32, i64, i64),
    size: f64,
}

/// The lattice's own axes: along the longest edge of the flat, stretched to fit its bounds.
struct Layout {
    origin: Point2,
    along: Vec2,
    stretch: Vec2,
    bounds: (Point2, Point2),
}

impl Layout {
    fn of(ground: &Ground) -> Self {
        let mut along = Vec2::new(1.0, 0.0);
        let mut longest = 0.0;
        for (a, b) in ground.outlines[0].sides() {
            // A clear margin: which of two equal sides is taken must not turn on rounding.
            if a.distance(b) > longest * (1.0 + ROUNDING_ROOM) {
                longest = a.distance(b);
                along = (b - a) / longest;
            }
        }
        let turned = |p: &Point2| Point2::new(along.dot(p.to_vec()), along.cross(p.to_vec()));
        let (low, high) = Outline(ground.outlines[0].0.iter().map(turned).collect()).bounds();
        let fit = |width: f64, step: f64| width / (width / step).round().max(1.0) / step;
        let extent = high - low;
        Self {
            origin: Point2::default() + along * low.x + along.left() * low.y,
            along,
            stretch: Vec2::new(
                fit(extent.x, ground.cap).clamp(LEAST_STRETCH, MOST_STRETCH),
                fit(extent.y, ground.cap * ROW).clamp(LEAST_STRETCH, MOST_STRETCH),
            ),
            bounds: (Point2::default(), Point2::default() + extent),
        }
    }

    /// A place in the flat from one in the lattice's axes.
    fn flat(&self, p: Point2) -> Point2 {
        self.origin + self.along * p.x + self.along.left() * p.y
    }

    /// Whether a place that is on no line is inside the flat, by counting crossings.
    fn inside(&self, ground: &Ground, p: Point2) -> bool {
        let crossed = |(a, b): &(Point2, Point2)| {
            (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
        };
        let sides = ground.outlines.iter().flat_map(Outline::sides);
        sides.filter(crossed).count() % 2 == 1
    }
}

/// A square in the lattice's axes with what matters in it.
struct Cell {
    centre: Point2,
    half: f64,
    sources: Vec<usize>,
    segments: Vec<usize>,
}

impl Cell {
    /// The same cell with shorter lists.
    fn narrowed(self, ground: &Ground, layout: &Layout) -> Self {
        let radius = self.half * std::f64::consts::SQRT_2;
        let centre = layout.flat(self.centre);
        let world = ground.frame.world_from_flat(centre);
        let sources = ground.field.near(&self.sources, world, radius, ground.cap);
        let reach = radius
            + CLEAR_POINT * ground.field.at(&sources, world, ground.cap)
            + CLEAR_POINT * ground.field.growth * radius;
        let near = |&i: &usize| {
            let (a, b) = ground.segments[i];
            distance_to_segment(centre, a, b) <= reach
        };
        Self {
            segments: self.segments.into_iter().filter(near).collect(),
            sources,
            ..self
        }
    }

    fn size(&self, ground: &Ground, layout: &Layout) -> f64 {
        let world = ground.frame.world_from_flat(layout.flat(self.centre));
        ground.field.at(&self.sources, world, ground.cap)
    }

    fn quarters(self) -> impl Iterator<Item = Self> {
        let half = self.half / 2.0;
        (0..4).map(move |i| {
            let way = Vec2::new(
                if i % 2 == 0 { -half } else { half },
                if i < 2 { -half } else { half },
            );
            Self {
                centre: self.centre + way,
                half,
                sources: self.sources.clone(),
                segments: self.segments.clone(),
            }
        })
    }

    /// Adds the lattice places of this cell.
    fn candidates(&self, ground: &Ground, layout: &Layout, found: &mut Vec<Candidate>) {
        let middle = self.size(ground, layout);
        let spread = ground.field.growth * self.half * std::f64::consts::SQRT_2;
        let finest = level(ground.cap, (middle - spread).max(middle / 4.0));
        let coarsest = level(ground.cap, middle + spread).max(0);
        for step in coarsest..=finest {
            let spacing = layout.stretch * spacing(ground.cap, step);
            for (row, number) in self.nodes_of(spacing) {
                let flat = layout.flat(lattice_place(spacing, row, number));
                let world = ground.frame.world_from_flat(flat);
                let size = ground.field.at(&self.sources, world, ground.cap);
                if level(ground.cap, size) == step && self.is_free(ground, layout, flat, size) {
                    found.push(Candidate {
                        place: flat,
                        lattice: (step, row, number),
                        size,
                    });
                }
            }
        }
    }

    /// Rows and numbers of a lattice in this cell and, for rounding, a hair around it.
    fn nodes_of(&self, spacing: Vec2) -> impl Iterator<Item = (i64, i64)> {
        let half = self.half * (1.0 + ROUNDING_ROOM);
        let Point2 { x, y } = self.centre;
        let rise = spacing.y * ROW;
        let within = move |middle: f64, step: f64, shift: f64| {
            let first = ((middle - half) / step - shift).ceil() as i64;
            first..=((middle + half) / step - shift).floor() as i64
        };
        within(y, rise, 0.0).flat_map(move |row| {
            within(x, spacing.x, row_shift(row)).map(move |number| (row, number))
        })
    }

    fn is_free(&self, ground: &Ground, layout: &Layout, p: Point2, size: f64) -> bool {
        let clear = |&i: &usize| {
            let (a, b) = ground.segments[i];
            let wanted = if a == b { CLEAR_POINT } else { CLEAR_LINE };
            distance_to_segment(p, a, b) >= wanted * size
        };
        self.segments.iter().all(clear) && (self.segments.is_empty() || layout.inside(ground, p))
    }
}

/// Drops places found twice, and places of one lattice that come too near to those of a finer
/// one.
fn thinned(mut candidates: Vec<Candidate>, cap: f64) -> Vec<Point2> {
    let order = |c: &Candidate| (-c.lattice.0, c.lattice.1, c.lattice.2);
    candidates.sort_by_key(order);
    candidates.dedup_by_key(|c| c.lattice);
    let ends = candidates.first().zip(candidates.last());
    if ends.is_none_or(|(first, last)| first.lattice.0 == last.lattice.0) {
        return candidates.into_iter().map(|c| c.place).collect();
    }
    let mut bins: BTreeMap<(i32, i64, i64), Vec<(Point2, f64)>> = BTreeMap::new();
    let mut places = Vec::with_capacity(candidates.len());
    for c in candidates {
        let level = c.lattice.0;
        let bin = |level: i32| {
            let width = spacing(cap, level);
            (
                (c.place.x / width).floor() as i64,
                (c.place.y / width).floor() as i64,
            )
        };
        let crowded = (level + 1..=level + NEAR_LEVELS).any(|level| {
            let (x, y) = bin(level);
            (-2..=2).any(|dx| {
                (-2..=2).any(|dy| {
                    let there = bins.get(&(level, x + dx, y + dy));
                    there
                        .into_iter()
                        .flatten()
                        .any(|&(p, size)| p.distance(c.place) < CLEAR_LEVEL * (size + c.size) / 2.0)
                })
            })
        });
        if !crowded {
            let (x, y) = bin(level);
            bins.entry((level, x, y))
                .or_default()
                .push((c.place, c.size));
            places.push(c.place);
        }
    }
    places
}

fn lattice_place(spacing: Vec2, row: i64, number: i64) -> Point2 {
    let x = (number as f64 + row_shift(row)) * spacing.x;
    Point2::new(x, row as f64 * spacing.y * ROW)
}

/// Every other row is shifted by half a place.
fn row_shift(row: i64) -> f64 {
    if row.rem_euclid(2) == 0 { 0.0 } else { 0.5 }
}

fn level(cap: f64, size: f64) -> i32 {
    (2.0 * (cap / size).log2()).round() as i32
}

fn spacing(cap: f64, level: i32) -> f64 {
    cap * 0.5_f64.powf(f64::from(level) / 2.0)
}

/// Height of an equilateral triangle over its side: of the rows of a triangular lattice over its
/// spacing.
pub(super) const ROW: f64 = 0.866_025_403_784_438_6;
/// Places nearer to a line than this share of the size are left out: the triangle they would
/// make with an element side on the line would be flatter than a right-angled one.
const CLEAR_LINE: f64 = 0.47;
/// The same for a single point.
const CLEAR_POINT: f64 = 0.7;
/// Places of neighbouring lattices keep this share of the size between them.
const CLEAR_LEVEL: f64 = 0.75;
/// How many finer lattices can reach near a place: neighbours differ by one, rarely by two.
const NEAR_LEVELS: i32 = 2;
/// Cells are split until they are this many elements in half-width: lists are short, and
/// sizes vary little within.
const LEAF_HALF: f64 = 3.0;
/// Lattices are stretched no more than this to fit.
const MOST_STRETCH: f64 = 1.15;
/// Lattices are shrunk no more than this to fit.
const LEAST_STRETCH: f64 = 0.87;
/// Room for rounding in comparisons of lengths, relative.
const ROUNDING_ROOM: f64 = 1e-6;
