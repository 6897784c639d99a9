//! Bending of a single thin rectangular plate under pressure, from published coefficients.
//!
//! Plain SI: metres, pascals, newton metres a metre. Small deflection theory of a thin plate
//! (Kirchhoff), which holds up to a deflection of half the thickness; beyond it the answer is a
//! [`NotCovered`], since membrane forces then carry load that the tables know nothing of.
//!
//! The coefficients stand in `data/plates.csv`, a source on every row. Between rows they are
//! taken linear in `r / (1 + r)`, `r` being height over width; against exact series that is
//! within 1 %. Loads are superposed, and the largest values of each are added although they lie
//! at different places: never less than the true largest, and at most some percent more.
//!
//! Poisson's ratio: with all edges held the deflection in units of `p s^4 / D` does not depend on
//! it and the two field moments are turned exactly; the moment on a clamped edge does not depend
//! on it. With a free top the tables are given at 0.3 and 0.45 and taken linear in between.

mod table;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;
pub use table::Flag;

/// How the four edges of a plate are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Edges {
    /// All held in place, free to turn.
    Hinged,
    /// All held in place and kept from turning.
    Clamped,
    /// As hinged, but nothing holds the top.
    #[serde(rename = "hinged free top")]
    HingedFreeTop,
    /// As clamped, but nothing holds the top.
    #[serde(rename = "clamped free top")]
    ClampedFreeTop,
}

/// A rectangular plate of one thickness and one material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plate {
    /// Across, metres.
    pub width: f64,
    /// Up, metres.
    pub height: f64,
    /// Thickness, metres.
    pub thickness: f64,
    /// Modulus of elasticity, pascals.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Pressure on one face, the sum of three parts, none below zero, pascals.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// The same everywhere.
    pub uniform: f64,
    /// At the foot, falling in a straight line to zero at the top.
    pub falling_up: f64,
    /// At one side, falling in a straight line to zero at the other.
    pub falling_across: f64,
}

impl Load {
    /// The largest pressure anywhere.
    pub fn largest(&self) -> f64 {
        self.uniform + self.falling_up + self.falling_across
    }
}

/// What the pressure does to the plate, each the largest anywhere.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Bending {
    /// Deflection, metres.
    #[serde(rename = "deflection_m")]
    pub deflection: f64,
    /// Moment a metre in the field.
    #[serde(rename = "field_moment_n")]
    pub field_moment: f64,
    /// Moment a metre on the edges; zero where they are hinged.
    #[serde(rename = "edge_moment_n")]
    pub edge_moment: f64,
    /// Bending stress in the field, pascals.
    #[serde(rename = "field_stress_pa")]
    pub field_stress: f64,
    /// Bending stress on the edges, pascals.
    #[serde(rename = "edge_stress_pa")]
    pub edge_stress: f64,
    /// Where each coefficient comes from: flag and source, without repeats.
    #[serde(skip)]
    pub sources: Vec<(Flag, &'static str)>,
}

/// Why the tables do not answer.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "PlateNotCovered")]
pub enum NotCovered {
    /// A size, a stiffness or a load is not a number, or not above (for a load: below) zero.
    BadNumber(&'static str),
    /// The plate is flatter or slenderer than any row.
    Shape {
        /// Height over width.
        ratio: f64,
        /// The least ratio covered.
        from: f64,
        /// The greatest.
        to: f64,
    },
    /// No table for this Poisson's ratio.
    Poisson {
        /// The ratio asked for.
        ratio: f64,
    },
    /// No table for this load on these edges.
    Load,
    /// The plate bends by more than half its thickness; what the tables say all the same.
    TooDeep {
        /// The values, which are too large: membrane forces would hold the plate back.
        bending: Bending,
        /// Half the thickness, metres.
        #[serde(rename = "limit_m")]
        limit: f64,
    },
}

impl fmt::Display for NotCovered {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadNumber(what) => {
                write!(f, "the {what} of the plate is not a number above zero")
            }
            Self::Shape { ratio, from, to } => {
                write!(
                    f,
                    "height over width is {ratio:.3}, and the tables go from {from:.3} to {to:.3}"
                )
            }
            Self::Poisson { ratio } => {
                write!(f, "no table is given for a Poisson's ratio of {ratio:.3}")
            }
            Self::Load => write!(
                f,
                "no table is given for a pressure that changes sideways under a free top"
            ),
            Self::TooDeep { bending, limit } => write!(
                f,
                "the plate would bend by {:.2} mm, and plate theory ends at half the thickness, {:.2} mm",
                bending.deflection * 1e3,
                limit * 1e3
            ),
        }
    }
}

impl std::error::Error for NotCovered {}

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
    let short = plate.width.min(plate.height);
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
        bending.deflection += row.deflection * pressure * short.powi(4) / stiffness;
        bending.field_moment += row.field * pressure * short.powi(2);
        bending.edge_moment += row.edge * pressure * short.powi(2);
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
