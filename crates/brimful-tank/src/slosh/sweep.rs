//! How a room's liquid swings from nearly empty to nearly full.

use super::cavity::Room;
use super::motion::{Directed, FillMotion, NotComputed, RoomMotion, Swing, Swings, Without};
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::{Panel, Role};
use brimful_panels::seam::Seam;
use brimful_panels::table::motion::Direction;
use brimful_slosh::grid::GridFault;
use brimful_slosh::modes::{Estimated, ModesFault, sweep};
use brimful_slosh::{Cavity, modes::Mode};
use brimful_units::quantity::STANDARD_GRAVITY;
use brimful_units::{Frequency, Length, Volume};

/// Fills of a sweep: every twentieth between empty and brim.
const TWENTIETHS: u32 = 20;
/// Fills at which baffles are left out, in twentieths.
const COMPARED: [u32; 3] = [5, 10, 15];
/// Cells of a room that is full. A frequency is then right to about a hundredth, and its error is shown; twenty fills
/// take a second or two.
const CELLS: f64 = 8000.0;
/// Modes at each fill: with three baffles there are four bays, each of which swings both ways.
const MODES: usize = 10;
/// What moves less of the liquid than this is not listed: a twentieth of it is felt by nobody.
const LEAST_SHARE: f64 = 0.05;
/// A level is found to this share of the room's height: far below a tape's division.
const LEVEL_FOUND: f64 = 1e-12;

/// What the liquid of a room does.
pub(super) fn room(compartment: &Compartment, panels: &[Panel], seams: &[Seam]) -> RoomMotion {
    let room = Room::of(compartment, panels, seams);
    let brim = room.cavity.solid.moments().volume;
    let spacing = (brim / CELLS).cbrt();
    let every: Vec<u32> = (1..TWENTIETHS).collect();
    let baffles: Vec<usize> = room
        .panels
        .iter()
        .copied()
        .filter(|&panel| panels[panel].role == Role::Baffle)
        .collect();
    let mut left_out: Vec<Vec<usize>> = baffles.iter().map(|&it| vec![it]).collect();
    if baffles.len() > 1 {
        left_out.push(baffles);
    }
    RoomMotion {
        compartment: compartment.id,
        spacing: Length::from_m(spacing),
        fills: fills(&room.cavity, &every, spacing),
        without: left_out
            .into_iter()
            .map(|baffles| Without {
                fills: fills(&room.without(&baffles), &COMPARED, spacing),
                baffles,
            })
            .collect(),
    }
}

/// What the liquid does at some fills.
fn fills(cavity: &Cavity, twentieths: &[u32], spacing: f64) -> Vec<FillMotion> {
    let brim = cavity.solid.moments().volume;
    let floor = cavity.solid.bounds().0.z;
    let shares: Vec<f64> = twentieths
        .iter()
        .map(|&it| f64::from(it) / f64::from(TWENTIETHS))
        .collect();
    let levels: Vec<f64> = shares
        .iter()
        .map(|share| level(&cavity.solid, share * brim))
        .collect();
    let found = sweep(cavity, &levels, spacing, MODES);
    let each = shares.iter().zip(&levels).zip(found);
    each.map(|((&fill, &level), found)| FillMotion {
        fill,
        volume: Volume::from_m3(fill * brim),
        depth: Length::from_m(level - floor),
        swings: found
            .map(|it| swings(&it, floor))
            .map_err(NotComputed::from),
    })
    .collect()
}

/// The height of the level surface below which so much of a solid lies.
fn level(solid: &Solid, volume: f64) -> f64 {
    let (low, high) = solid.bounds();
    let (mut low, mut high) = (low.z, high.z);
    let near = (high - low) * LEVEL_FOUND;
    while high - low > near {
        let middle = (low + high) / 2.0;
        let surface = Plane {
            normal: Vec3::Z,
            offset: middle,
        };
        match solid.moments_below(&surface).volume < volume {
            true => low = middle,
            false => high = middle,
        }
    }
    (low + high) / 2.0
}

fn swings(found: &Estimated, floor: f64) -> Swings {
    let directions = Direction::BOTH.map(|direction| {
        let axis = direction as usize;
        let modes = found.modes.modes.iter().zip(&found.errors);
        Directed {
            direction,
            swings: modes
                .filter_map(|(mode, &error)| swing(mode, error, axis, floor))
                .collect(),
            frozen: found.modes.rigid[axis].share,
        }
    });
    Swings {
        bodies: found.modes.bodies,
        directions,
    }
}

fn swing(mode: &Mode, error: Option<f64>, axis: usize, floor: f64) -> Option<Swing> {
    let moved = mode.moved[axis];
    let height = moved.height.filter(|_| moved.share >= LEAST_SHARE)?;
    Some(Swing {
        frequency: Frequency::from_hz(mode.frequency(STANDARD_GRAVITY)),
        // A frequency goes with the root of its eigenvalue.
        error: error.map(|it| it / 2.0),
        moves: moved.share,
        height: Length::from_m(height - floor),
    })
}

impl From<ModesFault> for NotComputed {
    fn from(fault: ModesFault) -> Self {
        match fault {
            ModesFault::NoSurface => Self::NoSurface,
            ModesFault::Grid(GridFault::Oblique(_)) => Self::Oblique,
            ModesFault::Grid(GridFault::Nothing) => Self::Nothing,
            ModesFault::Grid(GridFault::NotFinite | GridFault::TooManyCells(_))
            | ModesFault::NotConverged(_)
            | ModesFault::Singular => Self::NotSettled,
        }
    }
}
