//! Shapes as written in the job, made into solids.

mod fault;

pub use fault::{
    BodyFault, ChockFault, DrawnFault, FloorHalf, InnerFault, OpeningFault, PanelFault, RibBand,
    RibFault, ScanUnusable, ShapeFault, ShapeFaultKind, SpaceFault, WholeFault,
};

use brimful_geom::boolean::{self, BooleanFault};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::offset::offset_inward;
use brimful_geom::polygon;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::{Axis, Obstacle, ObstacleShape, Outline, Place, ShapeSpec};
use brimful_units::Length;

/// How far a view's prism reaches past what the other views can limit, metres. Any length does,
/// as the views themselves cut it off; it only keeps their faces from falling together.
const BEYOND: f64 = 1.0;

/// The solid of a box or of what the views have in common.
pub fn solid_of(shape: &ShapeSpec) -> Result<Solid, ShapeFault> {
    match shape {
        ShapeSpec::Box { size, .. } => {
            let [x, y, z] = size.map(Length::m);
            Ok(Solid::cuboid(Point3::ORIGIN, Point3::new(x, y, z)))
        }
        ShapeSpec::Outlines {
            plan,
            side,
            front,
            height,
            length,
            width,
        } => {
            let views = Views {
                plan,
                side,
                front,
                limits: [*length, *width, *height],
            };
            views.common()
        }
    }
}

/// The solid of an obstacle or cut.
pub fn obstacle_solid(obstacle: &Obstacle) -> Result<Solid, ShapeFault> {
    match &obstacle.shape {
        ObstacleShape::Box { from, to } => {
            let point =
                |corner: &[Length; 3]| Point3::new(corner[0].m(), corner[1].m(), corner[2].m());
            Ok(Solid::cuboid(point(from), point(to)))
        }
        ObstacleShape::Prism {
            outline,
            along,
            from,
            to,
        } => Ok(drawn_out(&simple(outline)?, *along, from.m(), to.m())),
    }
}

/// The solid less others, with a fault that names the place where it goes wrong.
pub fn less(solid: &Solid, others: &[Solid], place: &Place) -> Result<Solid, ShapeFault> {
    let others: Vec<&Solid> = others.iter().collect();
    if others.is_empty() {
        return Ok(solid.clone());
    }
    let rest = boolean::difference(solid, &others).map_err(|fault| not_combined(place, fault))?;
    // Nothing may be left at all, which is no fault of the shapes.
    let proper = |solid: &Solid| solid.faces.is_empty() || solid.faults().is_empty();
    if proper(&rest) {
        return Ok(rest);
    }
    // Where a side of what is taken off is flush with the solid's, the boolean may leave a skin of
    // no thickness there. Drawn out past the solid it leaves none, and takes off no more.
    let past: Option<Vec<Solid>> = others
        .iter()
        .map(|other| past_flush(solid, other))
        .collect();
    let again = past.map(|past| boolean::difference(solid, &past.iter().collect::<Vec<_>>()));
    match again {
        Some(Ok(again)) if proper(&again) => Ok(again),
        // What is no proper solid measures wrong where it is put to others.
        Some(Err(fault)) => Err(not_combined(place, fault)),
        _ => Err(not_combined(place, BooleanFault::Result)),
    }
}

/// A solid with those of its sides drawn out that are flush with a side that all of another lies
/// behind; none where that cannot be.
fn past_flush(of: &Solid, solid: &Solid) -> Option<Solid> {
    const FLUSH: f64 = 1e-9;
    const PAST: f64 = 1e-3;
    let flush = |plane: &Plane| {
        of.vertices.iter().all(|&p| plane.distance(p) <= FLUSH)
            && of.faces.iter().any(|face| {
                let along = face.plane.normal.dot(plane.normal);
                along > 1.0 - FLUSH && (face.plane.offset - plane.offset).abs() <= FLUSH
            })
    };
    let moved = |face: &Face| if flush(&face.plane) { -PAST } else { 0.0 };
    let moved: Vec<f64> = solid.faces.iter().map(moved).collect();
    Some(offset_inward(solid, &moved).ok()?.solid)
}

fn not_combined(place: &Place, fault: BooleanFault) -> ShapeFault {
    ShapeFault::new(place, DrawnFault::NotCombined(fault))
}

/// The three views and, for each axis, the limit from zero that the job gives besides.
struct Views<'a> {
    plan: &'a Option<Outline>,
    side: &'a Option<Outline>,
    front: &'a Option<Outline>,
    limits: [Option<Length>; 3],
}

impl Views<'_> {
    fn common(&self) -> Result<Solid, ShapeFault> {
        let views = [
            (self.front, Axis::X),
            (self.side, Axis::Y),
            (self.plan, Axis::Z),
        ];
        let mut prisms = Vec::new();
        let mut place = Place::default();
        for (outline, along) in views {
            let Some(outline) = outline else { continue };
            let (low, high) = self.reach(along);
            if low >= high {
                return Err(ShapeFault::new(
                    &outline.place,
                    DrawnFault::Unlimited(along),
                ));
            }
            place = outline.place.clone();
            prisms.push(drawn_out(&simple(outline)?, along, low, high));
        }
        if prisms.len() == 1 {
            return Ok(prisms.remove(0));
        }
        let common = boolean::intersection(&prisms.iter().collect::<Vec<_>>())
            .map_err(|fault| not_combined(&place, fault))?;
        if common.faces.is_empty() {
            return Err(ShapeFault::new(&place, DrawnFault::NothingInCommon));
        }
        Ok(common)
    }

    /// How far the prism of a view reaches along its axis: the job's limit where it gives one,
    /// else past everything that the other views span on that axis.
    fn reach(&self, along: Axis) -> (f64, f64) {
        if let Some(limit) = self.limits[along as usize] {
            return (0.0, limit.m());
        }
        // The place of the axis among the two coordinates of each other view.
        let others = match along {
            Axis::X => [(self.plan, 0), (self.side, 0)],
            Axis::Y => [(self.plan, 1), (self.front, 0)],
            Axis::Z => [(self.side, 1), (self.front, 1)],
        };
        let mut range = (f64::INFINITY, f64::NEG_INFINITY);
        for (outline, coordinate) in others {
            for point in outline.iter().flat_map(|outline| &outline.points) {
                let v = point[coordinate].m();
                range = (range.0.min(v - BEYOND), range.1.max(v + BEYOND));
            }
        }
        range
    }
}

/// A simple outline in metres, or what is wrong with it.
pub(crate) fn simple(outline: &Outline) -> Result<polygon::Outline, ShapeFault> {
    let points = outline
        .points
        .iter()
        .map(|p| Point2::new(p[0].m(), p[1].m()))
        .collect();
    let flat = polygon::Outline(points);
    match flat.faults().into_iter().next() {
        None => Ok(flat),
        Some(fault) => Err(ShapeFault::new(&outline.place, DrawnFault::Outline(fault))),
    }
}

/// The prism of a view, from `low` to `high` along its axis. The side view shows (x, z), and x
/// cross z is minus y: its frame looks along minus y, so that it is right-handed like the others.
fn drawn_out(outline: &polygon::Outline, along: Axis, low: f64, high: f64) -> Solid {
    let origin = Point3::ORIGIN;
    match along {
        Axis::X => Solid::prism(
            outline,
            &Frame {
                origin,
                x: Vec3::Y,
                y: Vec3::Z,
                z: Vec3::X,
            },
            low,
            high,
        ),
        Axis::Y => Solid::prism(
            outline,
            &Frame {
                origin,
                x: Vec3::X,
                y: Vec3::Z,
                z: -Vec3::Y,
            },
            -high,
            -low,
        ),
        Axis::Z => Solid::prism(outline, &Frame::WORLD, low, high),
    }
}
