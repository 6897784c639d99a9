//! Whether solids stay in the room they are allowed.

use super::room::Room;
use super::tolerance::NO_VOLUME;
use crate::finding::kind::{SpaceKind, TankPart};
use crate::finding::{Finding, Grade, Quantity, Subject};
use crate::name::PanelName;
use brimful_geom::boolean::{common_volume, remaining_volume};
use brimful_geom::solid::{Face, Solid};
use brimful_units::{Length, Volume};

impl Room {
    /// Ribs that leave the space or what is kept free of it.
    pub fn check_ribs(&self, ribs: &[(PanelName, Solid)]) -> Vec<Finding> {
        let leaves = |rib: &Solid| remaining_volume(rib, &[&self.allowed]).unwrap_or(f64::INFINITY);
        let out: Vec<&(PanelName, Solid)> = ribs
            .iter()
            .filter(|(_, rib)| leaves(rib) > NO_VOLUME)
            .collect();
        let names: Vec<PanelName> = out.iter().map(|(name, _)| name.clone()).collect();
        let solids: Vec<&Solid> = out.iter().map(|(_, rib)| rib).collect();
        self.check(&solids, &Subject::Panels(names), TankPart::BodyWithRibs)
    }

    /// What of `solids`, which are this part of a tank, lies outside.
    pub fn check(&self, solids: &[&Solid], subject: &Subject, tank: TankPart) -> Vec<Finding> {
        let outside = |room: &Solid| {
            let part = |solid: &&Solid| remaining_volume(solid, &[room]).unwrap_or(f64::INFINITY);
            solids.iter().map(part).sum::<f64>()
        };
        let (out_of_free, out_of_allowed) = (outside(&self.free), outside(&self.allowed));
        let stop = |kind: SpaceKind, out: f64| {
            Finding::of(Grade::Stop, subject.clone(), kind).figures(
                Quantity::Volume(Volume::from_m3(out)),
                Quantity::Volume(Volume::ZERO),
            )
        };
        if out_of_free > NO_VOLUME {
            let past = self.furthest_out(solids);
            return vec![stop(SpaceKind::OutOfSpace { tank, past }, out_of_free)];
        }
        let in_zones = self.in_zones(solids).into_iter();
        let mut findings: Vec<Finding> = in_zones
            .map(|(zone, volume)| stop(SpaceKind::InKeptFree { tank, zone }, volume))
            .collect();
        if out_of_allowed > NO_VOLUME && findings.is_empty() {
            findings.push(stop(SpaceKind::TooLittleKept { tank }, out_of_allowed));
        }
        findings
    }

    /// The zones kept free that `solids` reach into, by name, and how much of each they take, m3.
    fn in_zones(&self, solids: &[&Solid]) -> Vec<(String, f64)> {
        let taken = |zone: &Solid| {
            let part = |solid: &&Solid| common_volume(solid, zone).unwrap_or(f64::INFINITY);
            solids.iter().map(part).sum::<f64>()
        };
        let zones = self.keep_free.iter();
        zones
            .map(|zone| (zone.name.clone(), taken(&zone.solid)))
            .filter(|(_, volume)| *volume > NO_VOLUME)
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
