//! Openings of outer panels as the liquid sees them: on the inside face, in a compartment.

use crate::liquid::{Compartment, nearest};
use crate::panel::Panel;
use brimful_geom::plate::Cutout;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Job, Opening, Service};

/// An opening on the inside face of an outer panel.
#[derive(Clone, Debug)]
pub struct Port<'a> {
    /// The opening of the job.
    pub opening: &'a Opening,
    /// Its middle on the inside face.
    pub centre: Point3,
    /// Unit normal of the panel, out of the tank.
    pub normal: Vec3,
    rim: Rim,
}

#[derive(Clone, Debug)]
enum Rim {
    Round(f64),
    Corners(Vec<Point3>),
}

impl Port<'_> {
    /// The point of the rim that lies furthest along `way`.
    pub fn rim(&self, way: Vec3) -> Point3 {
        match &self.rim {
            Rim::Round(radius) => {
                let flat = way - self.normal * way.dot(self.normal);
                // On a face square to `way` the whole rim is level; less than a thousandth is that.
                let steep = flat.length() > 1e-3;
                let along = flat.unit().filter(|_| steep);
                along.map_or(self.centre, |along| self.centre + along * *radius)
            }
            Rim::Corners(corners) => {
                let reach = |p: &Point3| way.dot(p.to_vec());
                let furthest = corners.iter().max_by(|a, b| reach(a).total_cmp(&reach(b)));
                furthest.copied().unwrap_or(self.centre)
            }
        }
    }
}

/// The openings of one service in one compartment, in the order of the panels.
pub fn ports<'a>(
    job: &'a Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
    service: Service,
) -> Vec<Port<'a>> {
    let mut ports = Vec::new();
    for panel in panels {
        for hole in &panel.openings {
            let Some(opening) = hole.opening.map(|number| &job.openings[number]) else {
                continue;
            };
            let plate = &panel.finished;
            let centre = panel.on_inside(hole.centre);
            let own = nearest(all, centre).is_some_and(|near| near.id == compartment.id);
            if opening.service != service || !own {
                continue;
            }
            let rim = match &plate.cutouts[hole.cutout] {
                Cutout::Round { radius, .. } => Rim::Round(*radius),
                Cutout::Straight(outline) => {
                    Rim::Corners(outline.0.iter().map(|p| panel.on_inside(*p)).collect())
                }
            };
            ports.push(Port {
                opening,
                centre,
                normal: plate.frame.z,
                rim,
            });
        }
    }
    ports
}
