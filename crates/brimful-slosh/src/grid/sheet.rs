//! Plates as the grid sees them.

use super::fault::GridFault;
use crate::cavity::{Cavity, Hole, Plate};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3};

/// A plate square to an axis of the grid, in the grid's own coordinates.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The axis it is square to.
    pub axis: usize,
    /// Where on that axis.
    pub at: f64,
    /// Its outer outline in the coordinates of the next two axes, counter-clockwise.
    pub outline: Outline,
    /// Its openings in the same coordinates.
    pub holes: Vec<Hole>,
}

/// How far a plate's normal may lean from the axis it is called square to, as a sine: a tenth of a millimetre
/// in 10 m. What is farther off is oblique.
const SQUARE: f64 = 1e-5;

impl Sheet {
    /// The plates of a cavity as the grid sees them.
    ///
    /// # Errors
    /// [`GridFault::Oblique`].
    pub fn all(cavity: &Cavity) -> Result<Vec<Self>, GridFault> {
        let plates = cavity.plates.iter().enumerate();
        plates
            .map(|(number, plate)| Self::of(plate).ok_or(GridFault::Oblique(number)))
            .collect()
    }

    fn of(plate: &Plate) -> Option<Self> {
        let normal = plate.frame.z.to_array();
        let axis = (0..3).find(|&axis| 1.0 - normal[axis].abs() < SQUARE * SQUARE)?;
        let flat = |p: &Point2| {
            let place = plate.frame.world_from_flat(*p).to_vec().to_array();
            Point2::new(place[(axis + 1) % 3], place[(axis + 2) % 3])
        };
        let outline = |it: &Outline| Outline(it.0.iter().map(flat).collect()).counter_clockwise();
        let hole = |it: &Hole| match it {
            Hole::Round { centre, radius } => Hole::Round {
                centre: flat(centre),
                radius: *radius,
            },
            Hole::Outline(it) => Hole::Outline(outline(it)),
        };
        Some(Self {
            axis,
            at: plate.frame.origin.to_vec().to_array()[axis],
            outline: outline(&plate.outline),
            holes: plate.holes.iter().map(hole).collect(),
        })
    }

    /// A point's foot on the sheet's plane.
    pub fn flat(&self, place: Point3) -> Point2 {
        let place = place.to_vec().to_array();
        Point2::new(place[(self.axis + 1) % 3], place[(self.axis + 2) % 3])
    }

    /// A point of the sheet's plane in space.
    pub fn place(&self, flat: Point2) -> Point3 {
        let mut place = [self.at; 3];
        place[(self.axis + 1) % 3] = flat.x;
        place[(self.axis + 2) % 3] = flat.y;
        Point3::new(place[0], place[1], place[2])
    }
}
