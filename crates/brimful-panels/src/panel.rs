//! Panels: the flat pieces of sheet a tank is welded from.

use crate::name::{HoleName, PanelName};
use brimful_geom::plate::Plate;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_units::Length;

/// What a panel is in the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Faces down and bounds the liquid from below.
    Floor,
    /// Faces up and bounds the liquid from above.
    Lid,
    /// Stands up round the liquid, upright or leaning.
    Wall,
    /// An inner panel with openings.
    Baffle,
    /// An inner panel without any.
    Divider,
    /// A strip inside that ties two walls together.
    Stay,
    /// A strip that stands out from a wall.
    Rib,
}

/// Keeps a face at just 60 degrees from changing its name with the last bit of its normal.
const ROUNDING: f64 = 1e-9;

impl Role {
    /// What a face is, by where it looks: within 60 degrees of straight down it is a floor, of
    /// straight up a lid, else a wall.
    pub fn of(normal: Vec3) -> Self {
        const COSINE_OF_60: f64 = 0.5;
        if normal.z < -COSINE_OF_60 - ROUNDING {
            Self::Floor
        } else if normal.z > COSINE_OF_60 + ROUNDING {
            Self::Lid
        } else {
            Self::Wall
        }
    }
    /// Baffles, dividers and stays: what stands inside.
    pub fn is_inner(self) -> bool {
        matches!(self, Self::Baffle | Self::Divider | Self::Stay)
    }
    /// Floors, lids and walls: what the body is made of.
    pub fn is_outer(self) -> bool {
        matches!(self, Self::Floor | Self::Lid | Self::Wall)
    }
}

/// One flat piece of sheet, cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Its short mark on drawings and parts: P1, P2, ...
    pub mark: String,
    /// What it is called.
    pub name: PanelName,
    /// What it is.
    pub role: Role,
    /// Number of the body's face it is the sheet of; none for inner panels and ribs.
    pub face: Option<usize>,
    /// Sheet thickness.
    pub thickness: Length,
    /// The finished panel. Its frame's normal points out of the tank (for an inner panel along
    /// the axis it stands across; for a rib up, and its y away from the wall); a side's mark is the number of its seam, or none where it is free.
    pub finished: Plate,
    /// The panel as it leaves the saw: the finished one with the edge allowance on welded sides.
    pub cut: Plate,
    /// Holes for fittings, hatches and flow.
    pub openings: Vec<PanelOpening>,
    /// Stop holes drilled at inside corners before sawing into them.
    pub reliefs: Vec<Relief>,
    /// Where inner panels stand on the inside face, and ribs on the outside.
    pub lands: Vec<Land>,
}

impl Panel {
    /// A place on its inside face, from its own axes.
    pub fn on_inside(&self, at: Point2) -> Point3 {
        let plate = &self.finished;
        plate
            .frame
            .world_from_frame(Point3::new(at.x, at.y, -plate.thickness))
    }
}

/// A hole in a panel that the job asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelOpening {
    /// What it is called.
    pub name: HoleName,
    /// Number in the job's list of openings; none for holes of an inner panel.
    pub opening: Option<usize>,
    /// Centre in the panel's frame.
    pub centre: Point2,
    /// Number in the plate's list of cutouts.
    pub cutout: usize,
}

/// A round stop hole whose rim passes through an inside corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// Centre in the panel's frame.
    pub centre: Point2,
    /// Its radius.
    pub radius: Length,
}

/// The middle line along which another panel stands on a face of this one: a rib on the outside
/// face, any other on the inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Land {
    /// One end, in the panel's frame.
    pub from: Point2,
    /// The other end.
    pub to: Point2,
    /// Number of the panel that stands there.
    pub panel: usize,
    /// Number of the seam between the two.
    pub seam: usize,
}
