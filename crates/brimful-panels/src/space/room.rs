//! The room of a space: the shell, the free inside and what of it is allowed.

use super::kept::kept_at;
use super::measured;
use super::shell::Shell;
use super::tolerance::NO_VOLUME;
use crate::finding::Finding;
use crate::finding::kind::SpacePiece;
use crate::panel::Role;
use crate::shape::{ShapeFault, SpaceFault, less, obstacle_solid};
use brimful_geom::boolean::{common_volume, pieces};
use brimful_geom::offset::offset_inward;
use brimful_geom::scan::Scanned;
use brimful_geom::solid::{Face, Solid};
use brimful_job::{Measured, Obstacle, Space};
use brimful_units::{Length, Volume};

/// A solid with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// What the job calls it.
    pub name: String,
    /// The solid, in the axes of the space.
    pub solid: Solid,
}

/// The measured hole with what is kept free of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// The clear inside before obstacles are taken off.
    pub shell: Solid,
    /// What sticks into it.
    pub obstacles: Vec<Named>,
    /// What is kept free in it.
    pub keep_free: Vec<Named>,
    /// The clear inside less obstacles.
    pub free: Solid,
    /// The free inside less the clearance all round and what is kept free.
    pub allowed: Solid,
    /// Air kept round the tank, and between tanks that stand side by side.
    pub clearance: Length,
    /// What was found in measuring: rack, twist, holes of a scan.
    pub findings: Vec<Finding>,
}

impl Room {
    /// The room of a space, and of what its scan holds where it names one.
    ///
    /// # Errors
    /// Measures that close no solid, a scan not read, an obstacle outside it, or nothing left.
    pub fn new(space: &Space, scan: Option<&Scanned>) -> Result<Self, ShapeFault> {
        let Shell {
            solid: shell,
            facing,
            kept_within,
            findings,
        } = measured::shell(space, scan)?;
        let place = space.measured.place();
        let refused = |fault: SpaceFault| ShapeFault::new(&place, fault);
        let mut obstacles = Vec::new();
        let mut taken = Vec::new();
        for obstacle in &space.obstacles {
            let solid = within(obstacle, &shell, SpaceFault::ObstacleOutside)?;
            taken.push(grown(space, obstacle, &solid)?);
            obstacles.push(named(obstacle, solid));
        }
        let mut keep_free = Vec::new();
        for zone in &space.keep_free {
            let solid = within(zone, &shell, SpaceFault::ZoneOutside)?;
            taken.push(solid.clone());
            keep_free.push(named(zone, solid));
        }
        let solids: Vec<Solid> = obstacles.iter().map(|named| named.solid.clone()).collect();
        let free = less(&shell, &solids, &place)?;
        let inner = match kept_within {
            Some(inner) => inner,
            None => {
                let facing = facing.as_ref().unwrap_or(&shell);
                offset_inward(facing, &kept_off(space, facing))
                    .map_err(|_| match &space.measured {
                        Measured::Scan(_) => refused(SpaceFault::TooRough),
                        _ => refused(SpaceFault::NothingLeft),
                    })?
                    .solid
            }
        };
        let allowed = less(&inner, &taken, &place)?;
        if free.faces.is_empty() || allowed.faces.is_empty() {
            return Err(refused(SpaceFault::NothingLeft));
        }
        Ok(Self {
            shell,
            obstacles,
            keep_free,
            free,
            allowed,
            clearance: space.clearance,
            findings,
        })
    }

    /// The body that takes all the room there is.
    ///
    /// # Errors
    /// A space in several pieces, or nothing of it left.
    pub fn whole_body(&self, space: &Space) -> Result<Solid, ShapeFault> {
        let refused = |fault: SpaceFault| Err(ShapeFault::new(&space.measured.place(), fault));
        if self.allowed.faces.is_empty() {
            return refused(SpaceFault::NothingLeft);
        }
        match self.cut_up() {
            None => Ok(self.allowed.clone()),
            Some(pieces) => refused(SpaceFault::CutUp(pieces)),
        }
    }

    /// The pieces that the obstacles cut the room that is allowed into; none where it is in one.
    pub fn cut_up(&self) -> Option<Vec<SpacePiece>> {
        let parts = pieces(&self.allowed).unwrap_or_default();
        (parts.len() > 1).then(|| parts.iter().map(piece).collect())
    }
}

fn piece(part: &Solid) -> SpacePiece {
    let (low, high) = part.bounds();
    SpacePiece {
        volume: Volume::from_m3(part.moments().volume),
        low,
        high,
    }
}

fn named(obstacle: &Obstacle, solid: Solid) -> Named {
    Named {
        name: obstacle.name.clone(),
        solid,
    }
}

/// The solid of an obstacle or zone, which must meet the space.
fn within(
    obstacle: &Obstacle,
    shell: &Solid,
    outside: fn(String) -> SpaceFault,
) -> Result<Solid, ShapeFault> {
    let solid = obstacle_solid(obstacle)?;
    if common_volume(&solid, shell).unwrap_or(0.0) < NO_VOLUME {
        return Err(ShapeFault::new(
            &obstacle.place,
            outside(obstacle.name.clone()),
        ));
    }
    Ok(solid)
}

/// An obstacle with the clearance round it.
fn grown(space: &Space, obstacle: &Obstacle, solid: &Solid) -> Result<Solid, ShapeFault> {
    let kept = |face: &Face| match Role::of(face.plane.normal) {
        // What hangs over the tank leaves the room above it, as the top of the space does.
        Role::Floor => -space.clearance.max(space.keep_above).m(),
        _ => -space.clearance.m(),
    };
    let all_round: Vec<f64> = solid.faces.iter().map(kept).collect();
    let fat = offset_inward(solid, &all_round).map_err(|fault| {
        let fault = SpaceFault::NoClearance {
            obstacle: obstacle.name.clone(),
            fault,
        };
        ShapeFault::new(&obstacle.place, fault)
    })?;
    Ok(fat.solid)
}

/// What is kept free at each face of the space: the clearance at the sides, the larger of
/// clearance and room above under the top, the room below at the bottom, where the tank stands.
fn kept_off(space: &Space, shell: &Solid) -> Vec<f64> {
    shell
        .faces
        .iter()
        .map(|face| kept_at(space, face.plane.normal).m())
        .collect()
}
