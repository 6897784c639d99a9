//! Whether solids stay in the room they are allowed.

use super::{NO_VOLUME, Room};
use crate::finding::{Finding, Grade, Quantity};
use crate::shape::ShapeFault;
use brimful_geom::boolean::{common_volume, remaining_volume};
use brimful_geom::solid::{Face, Solid};
use brimful_job::{About, Job};
use brimful_units::{Length, Volume};

/// Ribs, by name, that leave the space of the job or what it keeps free of it.
///
/// # Errors
/// A space that cannot be made.
pub fn ribs_in_room(job: &Job, ribs: &[(String, Solid)]) -> Result<Vec<Finding>, ShapeFault> {
    let (Some(space), false) = (&job.space, ribs.is_empty()) else {
        return Ok(Vec::new());
    };
    let room = Room::new(space)?;
    let leaves = |rib: &Solid| remaining_volume(rib, &[&room.allowed]).unwrap_or(f64::INFINITY);
    let out: Vec<&(String, Solid)> = ribs
        .iter()
        .filter(|(_, rib)| leaves(rib) > NO_VOLUME)
        .collect();
    let names: Vec<&str> = out.iter().map(|(name, _)| name.as_str()).collect();
    let solids: Vec<&Solid> = out.iter().map(|(_, rib)| rib).collect();
    Ok(room.check(
        &solids,
        &names.join(", "),
        "The body with its ribs",
        &job.about,
    ))
}

impl Room {
    /// What of `solids`, which a finding calls `about` and `what`, lies outside; told as `job` reads.
    pub fn check(&self, solids: &[&Solid], about: &str, what: &str, job: &About) -> Vec<Finding> {
        let outside = |room: &Solid| {
            let part = |solid: &&Solid| remaining_volume(solid, &[room]).unwrap_or(f64::INFINITY);
            solids.iter().map(part).sum::<f64>()
        };
        let (out_of_free, out_of_allowed) = (outside(&self.free), outside(&self.allowed));
        let stop = |says: String, out: f64| {
            Finding::new(Grade::Stop, about, says)
                .figures(
                    Quantity::Volume(Volume::from_m3(out)),
                    Quantity::Volume(Volume::ZERO),
                )
                .source("the space and clearance of the job")
        };
        if out_of_free > NO_VOLUME {
            let worst = self.furthest_out(solids);
            let by = worst.map_or(String::new(), |past| {
                let past = Quantity::Length(past).text(job);
                format!(" It reaches {past} past a side of the space.")
            });
            return vec![
                stop(format!("{what} does not fit the space: part of it lies outside, or in an obstacle.{by}"), out_of_free)
                    .cure("Make the body smaller, move it, or cut the obstacle out of it.")
                    .entry("[body] at, [[body.cut]]"),
            ];
        }
        let mut findings = self.in_zones(solids, &stop, what);
        if out_of_allowed > NO_VOLUME && findings.is_empty() {
            findings.push(
                stop(format!("{what} fits the space, but not with the clearance and the room above and below that the job asks for."), out_of_allowed)
                    .cure("Make the body smaller, move it, or ask for less clearance.")
                    .entry("[body] at, [space] clearance"),
            );
        }
        findings
    }

    /// The zones kept free that `solids` reach into.
    fn in_zones(
        &self,
        solids: &[&Solid],
        stop: &impl Fn(String, f64) -> Finding,
        what: &str,
    ) -> Vec<Finding> {
        let taken = |zone: &Solid| {
            let part = |solid: &&Solid| common_volume(solid, zone).unwrap_or(f64::INFINITY);
            solids.iter().map(part).sum::<f64>()
        };
        self.keep_free
            .iter()
            .map(|zone| (zone, taken(&zone.solid)))
            .filter(|(_, volume)| *volume > NO_VOLUME)
            .map(|(zone, volume)| {
                let says = format!("{what} reaches into `{}`, which is kept free.", zone.name);
                stop(says, volume)
                    .cure("Cut the zone out of the body, or move it.")
                    .entry("[[body.cut]], [[space.keep_free]]")
            })
            .collect()
    }

    /// How far they reach past a side of a convex space.
    fn furthest_out(&self, solids: &[&Solid]) -> Option<Length> {
        let convex = self
            .shell
            .edges()
            .iter()
            .all(|edge| edge.angle < std::f64::consts::PI);
        let past = |face: &Face| {
            let vertices = solids.iter().flat_map(|solid| &solid.vertices);
            vertices
                .map(|&p| face.plane.distance(p))
                .fold(f64::NEG_INFINITY, f64::max)
        };
        let furthest = self
            .shell
            .faces
            .iter()
            .map(past)
            .fold(f64::NEG_INFINITY, f64::max);
        (convex && furthest > 0.0).then_some(Length::from_m(furthest))
    }
}
