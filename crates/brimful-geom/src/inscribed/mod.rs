//! The largest box inside a solid.
//!
//! For given axes the problem is exact. What the box must not meet is cut into convex parts
//! (`parts`); a box and a convex part have no inner point in common just where one of a few
//! directions separates them (the separating-axis theorem: face normals of either, and products of
//! their edges), and each such direction is one linear condition on the box's six bounds. Among
//! chosen conditions the largest box is a convex problem (`convex`; S. Boyd and L. Vandenberghe,
//! "Convex Optimization", 2004, section 8.5.1 and exercise 8.16, from memory). Which direction separates which
//! part is found by branch and bound (`search`): the box that meets a part is worked out again
//! once for each direction.
//!
//! Over the angle the search is a branch and bound too. A box of sides w, h along a turn by d
//! holds one of sides `w cos d - h sin d` and `h cos d - w sin d` that is not turned, whose area is
//! `w h - (w^2 + h^2) sin d cos d`. So between two angles 2 d apart no area is more than that
//! half-way plus `D^2 sin(2 d) / 2`, with D the diameter of the outline.
//!
//! All figures come with a proven bound. (Largest rectangles in polygons: K. Daniels,
//! V. Milenkovic and D. Roth, "Finding the largest area axis-parallel rectangle in a polygon",
//! Computational Geometry 7 (1997); C. Knauer et al., "Largest inscribed rectangles in convex
//! polygons", J. Discrete Algorithms 13 (2012). Neither covers boxes in solids, so this is our own way.)

mod cell;
mod convex;
mod parts;
mod search;
#[cfg(test)]
mod tests;

use crate::boolean::{BooleanFault, remaining_volume};
use crate::frame::Frame;
use crate::polygon::Outline;
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};
use schemars::JsonSchema;
use search::{Room, largest};
use serde::Serialize;
use std::f64::consts::FRAC_PI_2;
use std::fmt;

/// How far to search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Search {
    /// Stop when what could still be gained is less than this share of what is had.
    pub gap: f64,
    /// Most boxes worked out for one set of axes.
    pub boxes: usize,
    /// Most angles tried.
    pub angles: usize,
}

impl Default for Search {
    fn default() -> Self {
        Self {
            gap: 1e-3,
            boxes: 4000,
            angles: 400,
        }
    }
}

/// A largest thing found, with what is proven about larger ones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inscribed<T> {
    /// What was found.
    pub best: T,
    /// Its area, m2, or volume, m3.
    pub size: f64,
    /// No other is larger than this.
    pub bound: f64,
}

impl<T> Inscribed<T> {
    /// How much larger another could be, as a share of the bound.
    pub fn gap(&self) -> f64 {
        1.0 - self.size / self.bound
    }
}

/// A box in any attitude.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TurnedBox {
    /// One corner, with the box's edges along the axes.
    pub frame: Frame,
    /// Lengths of the edges, metres.
    pub size: Vec3,
}

impl TurnedBox {
    /// The box as a solid.
    pub fn solid(&self) -> Solid {
        Solid::prism(
            &Outline::rectangle(self.size.x, self.size.y),
            &self.frame,
            0.0,
            self.size.z,
        )
    }
}

/// Why no box is given.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum InscribedFault {
    /// What the box must keep out of could not be cut into convex parts: the solid is not a proper one.
    Parts,
    /// The solid has too little room, or none was found within the search's limits.
    NoRoom,
    /// The box that was found is not inside the solid: the solid is not a proper one.
    Outside,
    /// Whether the box that was found is inside the solid could not be checked.
    Unchecked(BooleanFault),
}

impl fmt::Display for InscribedFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Parts => write!(f, "the room round the solid cannot be parted"),
            Self::NoRoom => write!(f, "no box was found inside the solid"),
            Self::Outside => write!(f, "the box found is not inside the solid"),
            Self::Unchecked(fault) => {
                write!(
                    f,
                    "whether the box found is inside the solid is not known: {fault}"
                )
            }
        }
    }
}

impl std::error::Error for InscribedFault {}

impl From<BooleanFault> for InscribedFault {
    fn from(fault: BooleanFault) -> Self {
        Self::Unchecked(fault)
    }
}

/// What of a box may be outside by rounding, relative to its own volume.
const OUTSIDE: f64 = 1e-9;

/// The largest box inside `solid` with its edges along the world's axes.
///
/// # Errors
/// An [`InscribedFault`].
pub fn level_box(solid: &Solid, search: &Search) -> Result<Inscribed<TurnedBox>, InscribedFault> {
    box_in_frame(solid, &Frame::WORLD, search)
}

/// The largest box inside `solid` with its edges along the axes of `frame`.
///
/// # Errors
/// An [`InscribedFault`].
pub fn box_in_frame(
    solid: &Solid,
    frame: &Frame,
    search: &Search,
) -> Result<Inscribed<TurnedBox>, InscribedFault> {
    checked(
        solid,
        in_frame(&room_of(solid)?, frame, 0.0, search).found(),
    )
}

/// The largest box inside `solid` that stands upright, turned about the vertical.
///
/// # Errors
/// An [`InscribedFault`].
pub fn upright_box(solid: &Solid, search: &Search) -> Result<Inscribed<TurnedBox>, InscribedFault> {
    checked(solid, over_angles(solid, &room_of(solid)?, search))
}

fn room_of(solid: &Solid) -> Result<Room, InscribedFault> {
    Room::of(solid).ok_or(InscribedFault::Parts)
}

fn checked(
    solid: &Solid,
    found: Option<Inscribed<TurnedBox>>,
) -> Result<Inscribed<TurnedBox>, InscribedFault> {
    let found = found.ok_or(InscribedFault::NoRoom)?;
    let outside = remaining_volume(&found.best.solid(), &[solid])?;
    if outside > OUTSIDE * found.size {
        return Err(InscribedFault::Outside);
    }
    Ok(found)
}

impl Inscribed<Option<TurnedBox>> {
    fn found(self) -> Option<Inscribed<TurnedBox>> {
        let Self { best, size, bound } = self;
        best.map(|best| Inscribed { best, size, bound })
    }
}

/// `worth` is the size that is had already: a search that cannot beat it ends early, without a
/// box; the bound holds all the same.
fn in_frame(
    room: &Room,
    frame: &Frame,
    worth: f64,
    search: &Search,
) -> Inscribed<Option<TurnedBox>> {
    let found = largest(&room.seen_from(frame), worth, search);
    let placed = |(low, high): (Point3, Point3)| TurnedBox {
        frame: Frame {
            origin: frame.world_from_frame(low),
            ..*frame
        },
        size: high - low,
    };
    Inscribed {
        best: found.best.map(placed),
        size: found.size,
        bound: found.bound,
    }
}

/// A stretch of angles, with what no box within it can exceed.
struct Stretch {
    middle: f64,
    half: f64,
    bound: f64,
}

fn over_angles(solid: &Solid, room: &Room, search: &Search) -> Option<Inscribed<TurnedBox>> {
    let (low, high) = solid.bounds();
    let diameter = plan_diameter(solid);
    let height = high.z - low.z;
    let slack = |half: f64| diameter * diameter * (2.0 * half).sin() / 2.0 * height;
    let mut best: Option<Inscribed<TurnedBox>> = None;
    let mut tried = 0;
    let mut stretches = Vec::new();
    let try_at = |middle: f64, half: f64, best: &mut Option<Inscribed<TurnedBox>>| {
        let had = best.as_ref().map_or(0.0, |b| b.size);
        let worth = (had - slack(half)).max(0.0);
        let found = in_frame(room, &upright(middle), worth, search);
        let bound = found.bound + slack(half);
        if let Some(found) = found.found().filter(|f| f.size > had) {
            *best = Some(found);
        }
        Stretch {
            middle,
            half,
            bound,
        }
    };
    // The angles at which a side of the plan lies along the box are likely ones; the first
    // stretches then start from a good box.
    for angle in side_angles(solid) {
        tried += 1;
        try_at(angle, 0.0, &mut best);
    }
    const FIRST: usize = 12;
    for i in 0..FIRST {
        let half = FRAC_PI_2 / (2 * FIRST) as f64;
        tried += 1;
        stretches.push(try_at(half * (2 * i + 1) as f64, half, &mut best));
    }
    loop {
        let had = best.as_ref().map_or(0.0, |b| b.size);
        let widest = (0..stretches.len())
            .max_by(|&a, &b| stretches[a].bound.total_cmp(&stretches[b].bound))?;
        let bound = stretches[widest].bound.max(had);
        if bound <= had * (1.0 + search.gap) || tried >= search.angles {
            return best.map(|best| Inscribed { bound, ..best });
        }
        let Stretch { middle, half, .. } = stretches.swap_remove(widest);
        for side in [-0.5, 0.5] {
            tried += 1;
            stretches.push(try_at(middle + side * half, half / 2.0, &mut best));
        }
    }
}

fn upright(angle: f64) -> Frame {
    let (sin, cos) = angle.sin_cos();
    Frame {
        x: Vec3::new(cos, sin, 0.0),
        y: Vec3::new(-sin, cos, 0.0),
        ..Frame::WORLD
    }
}

fn plan_diameter(solid: &Solid) -> f64 {
    let apart = |a: &Point3, b: &Point3| (a.x - b.x).hypot(a.y - b.y);
    let from = |a| solid.vertices.iter().map(move |b| apart(a, b));
    solid.vertices.iter().flat_map(from).fold(0.0, f64::max)
}

/// Angles in a quarter turn of the sides of the plan, each once.
fn side_angles(solid: &Solid) -> Vec<f64> {
    let mut angles = vec![0.0];
    for edge in solid.edges() {
        let along = solid.vertices[edge.to] - solid.vertices[edge.from];
        if along.x.hypot(along.y) > 0.1 * along.length() {
            angles.push(along.y.atan2(along.x).rem_euclid(FRAC_PI_2));
        }
    }
    angles.sort_by(f64::total_cmp);
    angles.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    angles
}
