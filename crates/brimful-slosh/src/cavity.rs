//! What holds the liquid: a closed solid with plates in it.

use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Vec3};

/// A closed room for liquid.
#[derive(Clone, Debug, PartialEq)]
pub struct Cavity {
    /// What its walls enclose, as if nothing stood in it.
    pub solid: Solid,
    /// The sheets that stand in it.
    pub plates: Vec<Plate>,
}

/// A sheet without thickness that liquid passes round and through its holes alone.
///
/// It may reach beyond the solid: only what lies within counts. Where it is to be tight against a wall it must
/// reach it, or a slot stays open.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// Where it is.
    pub frame: Frame,
    /// Its outer outline, in the frame.
    pub outline: Outline,
    /// Its openings; they lie within the outline and do not overlap.
    pub holes: Vec<Hole>,
}

/// An opening in a plate, in the plate's frame.
#[derive(Clone, Debug, PartialEq)]
pub enum Hole {
    /// A round one.
    Round {
        /// Its middle.
        centre: Point2,
        /// Its radius, m.
        radius: f64,
    },
    /// Any other.
    Outline(Outline),
}

impl Cavity {
    /// The same cavity moved rigidly: to look along gravity in a cavity that leans.
    pub fn moved(&self, place: &Frame) -> Self {
        let plates = self.plates.iter().map(|plate| plate.moved(place));
        Self {
            solid: self.solid.moved(place),
            plates: plates.collect(),
        }
    }

    /// The same cavity without one of its plates.
    pub fn without(&self, plate: usize) -> Self {
        let mut rest = self.clone();
        rest.plates.remove(plate);
        rest
    }
}

impl Plate {
    fn moved(&self, place: &Frame) -> Self {
        let turned = |way: Vec3| place.x * way.x + place.y * way.y + place.z * way.z;
        Self {
            frame: Frame {
                origin: place.world_from_frame(self.frame.origin),
                x: turned(self.frame.x),
                y: turned(self.frame.y),
                z: turned(self.frame.z),
            },
            ..self.clone()
        }
    }
}

/// Sides of the polygon that stands for a round hole: its rim is then within a tenth of a percent of the radius.
const SIDES: usize = 64;

impl Hole {
    /// The hole as an outline; a round one as a polygon of the same area.
    pub fn outline(&self) -> Outline {
        match self {
            Self::Outline(outline) => outline.clone(),
            Self::Round { centre, radius } => Outline::round(*centre, *radius, SIDES),
        }
    }
}
