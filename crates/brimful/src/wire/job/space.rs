//! The measured hole as JSON.

use super::shape::{Obstacle, Shape, obstacle, outline, shape};
use brimful_job::{self, Base, Measured};
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// The measured hole.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Space {
    /// A box or views; null for one measured otherwise.
    shape: Option<Shape>,
    /// A floor with its walls and corner heights, as a tape gives them.
    taped: Option<Taped>,
    /// Sections at stations along x.
    stations: Option<Vec<Station>>,
    /// A scanned surface.
    scan: Option<Scan>,
    /// How a twisted side is faced: `flat` or `two triangles`.
    twisted: &'static str,
    clearance_m: f64,
    keep_above_m: f64,
    keep_below_m: f64,
    /// Width and height of the opening the tank must pass.
    way_in_m: Option<[f64; 2]>,
    /// That opening with its clearance and place.
    way_in: Option<WayIn>,
    obstacles: Vec<Obstacle>,
    /// Zones that nothing stands in, yet must stay free.
    keep_free: Vec<Obstacle>,
}

/// A floor with its walls and corner heights.
#[derive(Debug, Serialize, JsonSchema)]
struct Taped {
    /// Right, front, left and rear side of a four-sided floor.
    sides_m: Option<[f64; 4]>,
    /// From the origin, then the other one.
    diagonals_m: Vec<f64>,
    /// Of a floor given by its outline: (x, y).
    plan_m: Option<Vec<[f64; 2]>>,
    corner_heights_m: Vec<f64>,
    walls: Vec<Wall>,
}

/// A wall that leans.
#[derive(Debug, Serialize, JsonSchema)]
struct Wall {
    name: &'static str,
    /// Into the space, at the height `at_m`.
    lean_m: f64,
    at_m: f64,
}

/// A section across x.
#[derive(Debug, Serialize, JsonSchema)]
struct Station {
    at_m: f64,
    /// (y, z)
    outline_m: Vec<[f64; 2]>,
}

/// A scanned surface.
#[derive(Debug, Serialize, JsonSchema)]
struct Scan {
    file: String,
    /// Length of one unit of the file.
    unit_m: f64,
    noise_m: f64,
}

/// The opening the tank must pass.
#[derive(Debug, Serialize, JsonSchema)]
struct WayIn {
    width_m: f64,
    height_m: f64,
    clearance_m: f64,
    /// The side of the space that it lies in; null: somewhere before it.
    side: Option<&'static str>,
    /// Its lower corner in the plane of that side.
    at_m: Option<[f64; 2]>,
}

pub(super) fn space(space: &brimful_job::Space) -> Space {
    let (mut views, mut tape, mut stations, mut scanned) = (None, None, None, None);
    match &space.measured {
        Measured::Views(spec) => views = Some(shape(spec)),
        Measured::Taped(room) => tape = Some(taped(room)),
        Measured::Stations(all) => stations = Some(all.iter().map(station).collect()),
        Measured::Scan(scan) => scanned = Some(scan),
    }
    Space {
        shape: views,
        taped: tape,
        stations,
        scan: scanned.map(|scan| Scan {
            file: scan.file.clone(),
            unit_m: scan.unit.m(),
            noise_m: scan.noise.m(),
        }),
        twisted: space.twisted.word(),
        clearance_m: space.clearance.m(),
        keep_above_m: space.keep_above.m(),
        keep_below_m: space.keep_below.m(),
        way_in_m: space
            .way_in
            .as_ref()
            .map(|way_in| way_in.size.map(Length::m)),
        way_in: space.way_in.as_ref().map(way_in),
        obstacles: space.obstacles.iter().map(obstacle).collect(),
        keep_free: space.keep_free.iter().map(obstacle).collect(),
    }
}

fn taped(room: &brimful_job::TapedRoom) -> Taped {
    let (sides_m, diagonals_m, plan_m) = match &room.base {
        Base::Sides { sides, diagonals } => (
            Some(sides.map(Length::m)),
            diagonals.iter().map(|diagonal| diagonal.m()).collect(),
            None,
        ),
        Base::Plan(points) => (None, Vec::new(), Some(outline(points))),
    };
    Taped {
        sides_m,
        diagonals_m,
        plan_m,
        corner_heights_m: room.heights.iter().map(|height| height.m()).collect(),
        walls: room
            .walls
            .iter()
            .map(|wall| Wall {
                name: wall.wall.word(),
                lean_m: wall.lean.m(),
                at_m: wall.at.m(),
            })
            .collect(),
    }
}

fn station(station: &brimful_job::Station) -> Station {
    Station {
        at_m: station.at.m(),
        outline_m: outline(&station.outline),
    }
}

fn way_in(way_in: &brimful_job::WayIn) -> WayIn {
    let [width, height] = way_in.size.map(Length::m);
    WayIn {
        width_m: width,
        height_m: height,
        clearance_m: way_in.clearance.m(),
        side: way_in.side.map(brimful_job::Side::word),
        at_m: way_in.at.map(|at| at.map(Length::m)),
    }
}
