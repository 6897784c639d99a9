//! The place before a panel where least is left of the room.

use super::bulge::Bulge;
use super::convex::Convex;
use super::panel::LOOKED;
use brimful_geom::boolean::BooleanFault;
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::solid::{Face, Solid};
use brimful_geom::sweep::{Obstacles, obstacles_before};
use brimful_geom::vector::{Point2, Point3};
use brimful_units::Length;

/// A face that goes out with a panel: its own, or one of a rib that stands on it.
#[derive(Clone, Copy, Debug)]
pub struct Front<'a> {
    /// Whose face it is.
    pub solid: &'a Solid,
    /// The face.
    pub face: &'a Face,
}

/// A panel as it goes out.
#[derive(Clone, Debug)]
pub struct Outward<'a> {
    /// The axes of its plate, z out of the tank.
    pub frame: &'a Frame,
    /// Its face, and those of its ribs.
    pub fronts: Vec<Front<'a>>,
    /// How far it bulges.
    pub bulge: Bulge,
    /// Where welds stand out of it, and how far, m.
    pub welds: Vec<(Convex, f64)>,
}

/// What is before a panel at the place where least is left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// To what is beside the bare panel there.
    pub gap: Length,
    /// Taken by a rib there.
    pub ribs: Length,
    /// The bulge there.
    pub bulge: Length,
    /// How far welds stand out there.
    pub weld: Length,
}

impl Place {
    /// What is left, growth not counted.
    pub fn left(&self) -> Length {
        self.gap - self.ribs - self.bulge - self.weld
    }
}

impl Outward<'_> {
    /// The place where least is left of the free inside; none where nothing is near.
    ///
    /// # Errors
    /// A [`BooleanFault`].
    pub fn tightest(&self, free: &Solid) -> Result<Option<Place>, BooleanFault> {
        let mut least: Option<Place> = None;
        for front in &self.fronts {
            let way = self.frame.z;
            for place in match obstacles_before(front.solid, front.face, way, LOOKED.m(), free)? {
                // Where they belong together is not known: the nearest meets all there is.
                Obstacles::Corners(corners) => self.at_most(front, &corners),
                Obstacles::Faces(triangles) => self.before(front, &triangles),
            } {
                if least.is_none_or(|least| place.left() < least.left()) {
                    least = Some(place);
                }
            }
        }
        Ok(least)
    }

    /// Places before a front where least may be left: gap and bulge are straight over what a patch of
    /// the bulge and a triangle have in common, so that least is left at a corner of it.
    fn before(&self, front: &Front<'_>, triangles: &[[Point3; 3]]) -> Vec<Place> {
        let mut places = Vec::new();
        for triangle in triangles {
            let corners = triangle.map(|corner| self.frame.frame_from_world(corner));
            let flat = corners.map(|corner| Point2::new(corner.x, corner.y));
            for (corner, flat) in corners.iter().zip(flat) {
                places.push(self.place(
                    front,
                    flat,
                    corner.z,
                    self.bulge.at(flat),
                    self.weld(flat),
                ));
            }
            let [a, b, c] = *triangle;
            let Some(plane) = Plane::through(a, (b - a).cross(c - a)) else {
                continue;
            };
            let mut meets = |flat: &Point2, bulge: f64, weld: f64| {
                let high = height_at(&plane, self.frame, *flat);
                places.extend(high.map(|high| self.place(front, *flat, high, bulge, weld)));
            };
            for patch in &self.bulge.patches {
                let common = patch.outline.common(&flat);
                for flat in &common {
                    meets(flat, patch.at(*flat), 0.0);
                }
                for (along, weld) in &self.welds {
                    for flat in &along.common(&common) {
                        meets(flat, patch.at(*flat), *weld);
                    }
                }
            }
        }
        places
    }

    fn at_most(&self, front: &Front<'_>, corners: &[Point3]) -> Vec<Place> {
        let weld = self.welds.iter().map(|(_, weld)| *weld).fold(0.0, f64::max);
        let place = |corner: &Point3| {
            let at = self.frame.frame_from_world(*corner);
            self.place(front, Point2::new(at.x, at.y), at.z, self.bulge.most, weld)
        };
        corners.iter().map(place).collect()
    }

    fn place(&self, front: &Front<'_>, flat: Point2, high: f64, bulge: f64, weld: f64) -> Place {
        // Nothing is added, so that the panel's own face is at zero and not at less than that.
        let rib = height_at(&front.face.plane, self.frame, flat).unwrap_or(0.0) + 0.0;
        Place {
            gap: Length::from_m(high.max(rib)),
            ribs: Length::from_m(rib),
            bulge: Length::from_m(bulge),
            weld: Length::from_m(weld),
        }
    }

    /// How far welds stand out at a place, m.
    fn weld(&self, flat: Point2) -> f64 {
        let here = self.welds.iter().filter(|(along, _)| along.contains(flat));
        here.map(|(_, weld)| *weld).fold(0.0, f64::max)
    }
}

/// How high a plane lies over a place of a frame, m; none where it stands upright on it.
fn height_at(plane: &Plane, frame: &Frame, flat: Point2) -> Option<f64> {
    let foot = frame.world_from_flat(flat);
    let high = -plane.distance(foot) / plane.normal.dot(frame.z);
    high.is_finite().then_some(high)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::room::bulge::Patch;
    use brimful_geom::boolean::difference;
    use brimful_geom::polygon::Outline;

    fn block(low: [f64; 2], high: [f64; 2], [from, to]: [f64; 2]) -> Solid {
        let at = |x: f64, y: f64| Point2::new(x, y);
        let corners = vec![
            at(low[0], low[1]),
            at(high[0], low[1]),
            at(high[0], high[1]),
            at(low[0], high[1]),
        ];
        Solid::prism(&Outline(corners), &Frame::WORLD, from, to)
    }

    /// A plate of 1 x 1 m under a room 100 mm high, with a sill 3 mm over it along its foot (y up to 20 mm).
    /// It bulges by 8 mm along its middle line, y 0.5, and not at its edges.
    #[test]
    fn a_sill_is_charged_the_bulge_over_its_own_height() {
        let plate = block([0.0, 0.0], [1.0, 1.0], [-0.01, 0.0]);
        let top = plate
            .faces
            .iter()
            .find(|face| face.plane.normal.z > 0.5)
            .unwrap();
        let sill = block([-1.0, -1.0], [2.0, 0.02], [0.003, 1.0]);
        let free = difference(&block([0.0, 0.0], [1.0, 1.0], [-0.01, 0.1]), &[&sill]).unwrap();
        let patch = |from: f64, to: f64, straight: [f64; 3]| {
            let [a, b] = [Point2::new(0.0, from), Point2::new(1.0, to)];
            let corners = vec![a, Point2::new(1.0, from), b, Point2::new(0.0, to)];
            Patch::new(Convex::of(corners).unwrap(), straight)
        };
        let bulge = Bulge {
            most: 0.008,
            patches: vec![
                patch(0.0, 0.5, [0.0, 0.0, 0.016]),
                patch(0.5, 1.0, [0.016, 0.0, -0.016]),
            ],
        };
        let front = Front {
            solid: &plate,
            face: top,
        };
        let mut outward = Outward {
            frame: &Frame::WORLD,
            fronts: vec![front],
            bulge,
            welds: Vec::new(),
        };
        let place = outward.tightest(&free).unwrap().unwrap();
        // By hand: 0.02 of 0.5 of 8 mm at the head of the sill, 0.32 mm.
        assert!((place.gap.mm() - 3.0).abs() < 1e-9, "{place:?}");
        assert!((place.bulge.mm() - 0.32).abs() < 1e-9, "{place:?}");
        // A weld along the other edge takes nothing of it; one along this edge does.
        let far = Convex::about(Point2::new(0.0, 1.0), Point2::new(1.0, 1.0), 0.02).unwrap();
        outward.welds = vec![(far, 0.002)];
        assert_eq!(outward.tightest(&free).unwrap().unwrap(), place);
        let near = Convex::about(Point2::new(0.0, 0.0), Point2::new(1.0, 0.0), 0.02).unwrap();
        outward.welds.push((near, 0.002));
        let welded = outward.tightest(&free).unwrap().unwrap();
        assert!((place.left() - welded.left()).mm() > 1.999, "{welded:?}");
    }
}
