//! What holds the liquid: a closed solid with plates in it.

use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};

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

    /// Whether a point is inside the walls, by the solid angle that the faces fill as seen from it (A. Van Oosterom,
    /// J. Strackee, *The solid angle of a plane triangle*, IEEE Trans. Biomed. Eng. 30 (1983) 125-126, equation 8;
    /// from memory).
    pub(crate) fn contains(&self, point: Point3) -> bool {
        let loops = self.solid.faces.iter().flat_map(|face| &face.loops);
        let angle: f64 = loops
            .map(|ring| {
                let corner = |number: usize| self.solid.vertices[number] - point;
                let fan = ring[1..].windows(2);
                fan.map(|pair| solid_angle(corner(ring[0]), corner(pair[0]), corner(pair[1])))
                    .sum::<f64>()
            })
            .sum();
        // All round inside, nothing outside.
        angle > 2.0 * std::f64::consts::PI
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

fn solid_angle(a: Vec3, b: Vec3, c: Vec3) -> f64 {
    let (la, lb, lc) = (a.length(), b.length(), c.length());
    let triple = a.dot(b.cross(c));
    let below = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
    2.0 * triple.atan2(below)
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
