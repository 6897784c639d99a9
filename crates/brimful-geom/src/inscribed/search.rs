//! Branch and bound over the directions that keep a box off the convex parts round it.

use super::cell::{Cell, ON};
use super::convex::{self, Best, Bounds, Condition};
use super::found::Inscribed;
use super::parts::parts_about;
use crate::frame::{Frame, Plane};
use crate::solid::Solid;
use crate::vector::{Point3, Vec3};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// Overlaps shallower than this are none, metres: a ten-thousandth of a millimetre. The box is drawn
/// in by as much at the end.
const TOUCH: f64 = 1e-7;

/// Directions nearer than this are one.
const SAME_DIRECTION: f64 = 1e-9;

/// How far to search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Search {
    /// Stop when what could still be gained is less than this share of the incumbent.
    pub gap: f64,
    /// Most boxes evaluated for one set of axes.
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

/// The inside of a solid: planes that hold all of it, and convex parts that are not it.
pub struct Room {
    walls: Vec<Plane>,
    parts: Vec<Part>,
    corners: Vec<Point3>,
}

/// A convex part, by what separating directions need.
struct Part {
    corners: Vec<Point3>,
    normals: Vec<Vec3>,
    edges: Vec<Vec3>,
}

impl Room {
    /// None where the room about the solid cannot be parted: it is not a proper one.
    pub fn of(solid: &Solid) -> Option<Self> {
        let holds_all = |plane: &Plane| solid.vertices.iter().all(|&p| plane.distance(p) <= ON);
        let is_wall: Vec<bool> = solid.faces.iter().map(|f| holds_all(&f.plane)).collect();
        let (low, high) = solid.bounds();
        let mut hull = Cell::of(&Solid::cuboid(low, high));
        let mut walls: Vec<Plane> = Vec::new();
        for (face, _) in solid.faces.iter().zip(&is_wall).filter(|(_, wall)| **wall) {
            let known = |w: &Plane| (w.normal - face.plane.normal).length() < SAME_DIRECTION;
            if !walls.iter().any(known) {
                walls.push(face.plane);
                hull = hull.behind(&face.plane)?;
            }
        }
        let parts = parts_about(solid, &hull, &is_wall, TOUCH)?;
        Some(Self {
            walls,
            parts: parts.iter().map(Part::of).collect(),
            corners: solid.vertices.clone(),
        })
    }

    /// The conditions on a box along the axes of `frame`.
    pub fn seen_from(&self, frame: &Frame) -> Conditions {
        let turn = |v: Vec3| Vec3::new(v.dot(frame.x), v.dot(frame.y), v.dot(frame.z));
        let corners: Vec<Vec3> = self
            .corners
            .iter()
            .map(|&p| frame.frame_from_world(p).to_vec())
            .collect();
        let axes = [Vec3::X, Vec3::Y, Vec3::Z];
        let both_ways = axes.iter().flat_map(|&axis| [axis, -axis]);
        let outer = both_ways.map(|d| below(d, farthest(&corners, d)));
        let walls = self.walls.iter().map(|wall| {
            below(
                turn(wall.normal),
                wall.offset - wall.normal.dot(frame.origin.to_vec()),
            )
        });
        let parts = self.parts.iter().map(|part| {
            let corners: Vec<Vec3> = part
                .corners
                .iter()
                .map(|&p| frame.frame_from_world(p).to_vec())
                .collect();
            let mut directions: Vec<Vec3> = Vec::new();
            let mut add = |d: Vec3| {
                if let Some(d) = d.unit()
                    && !directions
                        .iter()
                        .any(|e| (*e - d).length() < SAME_DIRECTION)
                {
                    directions.push(d);
                }
            };
            axes.iter().flat_map(|&a| [a, -a]).for_each(&mut add);
            part.normals.iter().for_each(|&n| add(-turn(n)));
            for edge in &part.edges {
                for axis in axes {
                    let d = axis.cross(turn(*edge));
                    if d.length() > SAME_DIRECTION {
                        add(d);
                        add(-d);
                    }
                }
            }
            directions
                .into_iter()
                .map(|d| below(d, -farthest(&corners, -d)))
                .collect()
        });
        Conditions {
            always: outer.chain(walls).collect(),
            one_each: parts.collect(),
        }
    }
}

impl Part {
    fn of(cell: &Cell) -> Self {
        let mut edges: Vec<Vec3> = Vec::new();
        for along in cell.edges() {
            if !edges
                .iter()
                .any(|e| e.cross(along).length() < SAME_DIRECTION)
            {
                edges.push(along);
            }
        }
        Self {
            corners: cell.points().collect(),
            normals: cell.sides.iter().map(|(plane, _)| plane.normal).collect(),
            edges,
        }
    }
}

fn farthest(points: &[Vec3], way: Vec3) -> f64 {
    points
        .iter()
        .map(|p| p.dot(way))
        .fold(f64::NEG_INFINITY, f64::max)
}

/// All of the box lies below `limit` along `way`.
fn below(way: Vec3, limit: f64) -> Condition {
    let [x, y, z] = way.to_array();
    let low = [x, y, z].map(|c| c.min(0.0));
    let high = [x, y, z].map(|c| c.max(0.0));
    Condition {
        row: [low[0], low[1], low[2], high[0], high[1], high[2]],
        limit,
    }
}

/// What a box must meet: all of `always`, and of each list in `one_each` at least one.
pub struct Conditions {
    always: Vec<Condition>,
    one_each: Vec<Vec<Condition>>,
}

impl Conditions {
    /// The largest box under the conditions `chosen`, if there is one.
    fn node(&self, chosen: Vec<(usize, usize)>, number: usize) -> Option<Node> {
        let own = chosen.iter().map(|&(part, way)| self.one_each[part][way]);
        let all: Vec<Condition> = self.always.iter().copied().chain(own).collect();
        let best = convex::largest(&all)?;
        Some(Node {
            chosen,
            best,
            number,
        })
    }

    /// The part that the box reaches deepest into, if any.
    fn met(&self, bounds: &Bounds) -> Option<usize> {
        let depth = |part: &Vec<Condition>| {
            part.iter()
                .map(|c| -c.slack(bounds))
                .fold(f64::INFINITY, f64::min)
        };
        let depths = self.one_each.iter().map(depth).enumerate();
        depths
            .filter(|&(_, depth)| depth > TOUCH)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(part, _)| part)
    }
}

/// A choice of directions for some parts, and the largest box under them.
struct Node {
    chosen: Vec<(usize, usize)>,
    best: Best,
    number: usize,
}

impl PartialEq for Node {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Node {}
impl PartialOrd for Node {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Node {
    fn cmp(&self, other: &Self) -> Ordering {
        let by_limit = self.best.limit.total_cmp(&other.best.limit);
        by_limit.then(other.number.cmp(&self.number))
    }
}

/// The largest box (low and high corner) if one of more volume than `cutoff` was found; the bound
/// holds either way.
pub fn largest(
    conditions: &Conditions,
    cutoff: f64,
    search: &Search,
) -> Inscribed<Option<(Point3, Point3)>> {
    let mut evaluated = 0;
    let mut node = |chosen| {
        evaluated += 1;
        conditions.node(chosen, evaluated)
    };
    let mut open = BinaryHeap::from_iter(node(Vec::new()));
    let mut found: Option<(f64, Bounds)> = None;
    let mut dive: Option<Node> = None;
    let mut number = 0;
    let mut bound = cutoff;
    loop {
        let diving = dive.is_some();
        let Some(top) = dive.take().or_else(|| open.pop()) else {
            break;
        };
        let incumbent = found.map_or(cutoff, |(size, _)| size);
        let highest = open
            .peek()
            .map_or(top.best.limit, |n| n.best.limit.max(top.best.limit));
        // A dive goes no deeper than there are parts, and ends in a box: it runs to its end.
        let spent = number >= search.boxes && !diving;
        if spent || highest <= incumbent * (1.0 + search.gap) {
            bound = bound.max(highest);
            break;
        }
        if top.best.limit <= incumbent {
            continue;
        }
        let Some(part) = conditions.met(&top.best.bounds) else {
            found = Some(drawn_in(&top.best.bounds))
                .filter(|&(size, _)| size > incumbent)
                .or(found);
            bound = bound.max(top.best.limit);
            continue;
        };
        let mut children: Vec<Node> = (0..conditions.one_each[part].len())
            .filter_map(|way| node([top.chosen.as_slice(), &[(part, way)]].concat()))
            .filter(|child| child.best.limit > incumbent)
            .collect();
        number += conditions.one_each[part].len();
        children.sort();
        // Until a box is found, the search dives into the best child at once.
        if found.is_none() {
            dive = children.pop();
        }
        open.extend(children);
    }
    let size = found.map_or(cutoff, |(size, _)| size);
    let corners = |b: Bounds| (Point3::new(b[0], b[1], b[2]), Point3::new(b[3], b[4], b[5]));
    Inscribed {
        best: found.map(|(_, bounds)| corners(bounds)),
        size,
        bound: bound.max(size),
    }
}

/// The box without the depth by which it may reach into what it touches.
fn drawn_in(bounds: &Bounds) -> (f64, Bounds) {
    let mut b = *bounds;
    for i in 0..3 {
        b[i] += TOUCH;
        b[i + 3] -= TOUCH;
    }
    ((0..3).map(|i| b[i + 3] - b[i]).product(), b)
}
