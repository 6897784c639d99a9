//! The shell of one load case and what acts on it: as stiff as it is then, held as the load lets it be held.

use super::chock::slide;
use super::filled::Filled;
use super::holding::Holding;
use super::model::Model;
use super::support::sliding_share;
use crate::load::Heads;
use brimful_geom::vector::Vec3;
use brimful_mech::shell::Fault;
use brimful_mech::shell::model::{Load, Shell};

/// The shell of a load case and what acts on it.
pub struct LoadedShell {
    pub shell: Shell,
    pub load: Load,
    /// Number of the support that each contact of the shell is part of.
    pub borne_by: Vec<usize>,
    pub holding: Holding,
}

impl LoadedShell {
    /// The shell of a case; `weight` is that of the brim-full liquid, N.
    ///
    /// # Errors
    /// As [`Model::load`].
    pub fn of(model: &Model, filled: &Filled, heads: &[Heads], weight: f64) -> Result<Self, Fault> {
        let limits = filled.limits.strictest();
        let load = model.load(filled, heads)?;
        let mut shell = with_modulus(
            &model.shell,
            limits.modulus.pa(),
            limits.poisson,
            limits.sheet_density.kg_m3(),
        );
        let normals: Vec<Vec3> = model.chocks.iter().map(|chock| chock.normal).collect();
        let holding = Holding::of(&shell, &load, &normals, model.bearers.have_friction());
        let mut borne_by = model.borne_by.clone();
        if holding.is_by_chocks() {
            let chocks = model.chocks.iter().enumerate();
            let pushed: Vec<_> = chocks.filter(|(_, it)| it.is_pushed(&holding)).collect();
            let normals: Vec<Vec3> = pushed.iter().map(|(_, chock)| chock.normal).collect();
            slide(&mut shell, &holding, &normals);
            for (number, chock) in pushed {
                let contacts = chock.contacts(&model.mesh);
                borne_by.extend(contacts.iter().map(|_| model.bearers.count() + number));
                shell.contacts.extend(contacts);
            }
        }
        if limits.growth != 0.0 {
            let share = sliding_share(&shell, limits.growth, weight);
            for spring in &mut shell.springs {
                spring.stiffness *= share;
            }
        }
        Ok(Self {
            shell,
            load,
            borne_by,
            holding,
        })
    }
}

/// The shell with the properties of its sheet.
pub fn with_modulus(shell: &Shell, modulus: f64, poisson: f64, density: f64) -> Shell {
    let mut shell = shell.clone();
    for plate in &mut shell.plates {
        plate.modulus = modulus;
        plate.poisson = poisson;
        plate.density = density;
    }
    shell
}
