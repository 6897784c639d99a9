//! Bending of a single thin rectangular plate under pressure, from published coefficients.
//!
//! Plain SI: metres, pascals, newton metres a metre. Small deflection theory of a thin plate
//! (Kirchhoff), which holds up to a deflection of half the thickness; beyond it the answer is a
//! [`NotCovered`], since membrane forces then carry load that the tables know nothing of.
//!
//! The coefficients stand in `data/plates.csv`, a source on every row. Between rows they are
//! taken linear in `r / (1 + r)`, `r` being height over width. Halfway between any two rows they are
//! within 1 % of the shell (`tests/plate_between_rows.rs`), but for the deflection of a plate with a
//! free top and hinged edges under a falling load where `r` is 1.25 to 1.35: the largest changes
//! there from the free edge into the field, and the table has up to 1.5 % more. Loads are superposed,
//! and the largest values of each are added although they lie at different places: never less than
//! the true largest, and at most some percent more.
//!
//! Poisson's ratio: with all edges held the deflection in units of `p s^4 / D` does not depend on
//! it and the moment on a clamped edge does not either; the field moments are turned where they are
//! largest at 0.3, which is up to 0.7 % less than the largest at zero and up to 0.25 % less between 0.2
//! and a half. With a free top the tables are given at 0.3, 0.375 and 0.45 and taken linear in between.
//! A clamped side that ends free has a moment without bound at its end: its last tenth is left out.

mod answer;
mod input;
mod table;

pub use answer::{Bending, Flag, NotCovered};
pub use input::{Edges, Load, Plate};

/// Deflection at which plate theory without membrane forces ends, over the thickness.
/// DVS 2205-5 and plate theory, from memory. On square plates with held edges the true deflection
/// at that load is 10 to 20 % smaller and the true stress 2 to 5 % smaller (von Karman, computed).
pub const DEEPEST: f64 = 0.5;

/// What `load` does to `plate` with its edges held as `edges` says.
///
/// # Errors
/// Whatever lies outside the tables or outside the theory.
pub fn bend(plate: &Plate, edges: Edges, load: &Load) -> Result<Bending, NotCovered> {
    check(plate, load)?;
    let free_top = matches!(edges, Edges::HingedFreeTop | Edges::ClampedFreeTop);
    if free_top && load.falling_across > 0.0 {
        return Err(NotCovered::Load);
    }
    let upright = plate.height / plate.width;
    let parts = [
        (
            load.uniform,
            table::Kind::Uniform,
            if free_top {
                upright
            } else {
                upright.max(1.0 / upright)
            },
        ),
        (load.falling_up, table::Kind::Falling, upright),
        (load.falling_across, table::Kind::Falling, 1.0 / upright),
    ];
    let side = if free_top {
        plate.width
    } else {
        plate.width.min(plate.height)
    };
    let stiffness =
        plate.modulus * plate.thickness.powi(3) / (12.0 * (1.0 - plate.poisson.powi(2)));
    let mut bending = Bending {
        deflection: 0.0,
        field_moment: 0.0,
        edge_moment: 0.0,
        field_stress: 0.0,
        edge_stress: 0.0,
        sources: Vec::new(),
    };
    for (pressure, kind, ratio) in parts.into_iter().filter(|part| part.0 > 0.0) {
        let row = table::look_up(edges, kind, ratio, plate.poisson)?;
        bending.deflection += row.deflection * pressure * side.powi(4) / stiffness;
        bending.field_moment += row.field * pressure * side.powi(2);
        bending.edge_moment += row.edge * pressure * side.powi(2);
        for source in row.sources {
            if !bending.sources.contains(&source) {
                bending.sources.push(source);
            }
        }
    }
    let modulus_of_section = plate.thickness.powi(2) / 6.0;
    bending.field_stress = bending.field_moment / modulus_of_section;
    bending.edge_stress = bending.edge_moment / modulus_of_section;
    let limit = DEEPEST * plate.thickness;
    if bending.deflection > limit {
        return Err(NotCovered::TooDeep { bending, limit });
    }
    Ok(bending)
}

fn check(plate: &Plate, load: &Load) -> Result<(), NotCovered> {
    let sizes = [
        ("width", plate.width),
        ("height", plate.height),
        ("thickness", plate.thickness),
        ("modulus", plate.modulus),
    ];
    for (what, size) in sizes {
        if !(size.is_finite() && size > 0.0) {
            return Err(NotCovered::BadNumber(what));
        }
    }
    // At a half the material keeps its volume; a thin plate of a material beyond it does not exist.
    if !(0.0..0.5).contains(&plate.poisson) {
        return Err(NotCovered::Poisson {
            ratio: plate.poisson,
        });
    }
    for part in [load.uniform, load.falling_up, load.falling_across] {
        if !(part.is_finite() && part >= 0.0) {
            return Err(NotCovered::BadNumber("load"));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests;
