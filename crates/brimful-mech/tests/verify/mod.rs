//! Ours beside published figures: what the test asserts and the page shows.
// The test and the generator of the page each use their own part.
#![allow(dead_code)]

mod buckling;
mod compare;
mod folds;
mod large;
mod obstacles;
mod page;
mod patch;
mod plates;
mod read;
#[path = "../shell_support/mod.rs"]
mod shell_support;
pub mod table;
mod turning;
mod vibration;

pub use compare::{Ask, Group, Values, compare};
pub use page::page;

/// A published table and how ours is computed.
pub struct Subject {
    pub name: &'static str,
    text: &'static str,
    run: fn(&Ask) -> Values,
}

impl Subject {
    /// Computes it on three meshes.
    pub fn group(&self) -> Group {
        compare(self.text, self.run)
    }
}

macro_rules! subjects {
    ($($name:literal: $run:path,)*) => {
        /// In the order of the page.
        pub const SUBJECTS: &[Subject] = &[$(Subject {
            name: $name,
            text: include_str!(concat!("../../../../verify/shell/", $name, ".csv")),
            run: $run,
        }),*];
    };
}

subjects! {
    "patch": patch::run,
    "plate_ssss_uniform": plates::run,
    "plate_cccc_uniform": plates::run,
    "plate_ssss_hydrostatic": plates::run,
    "plate_cccc_hydrostatic": plates::run,
    "plate_sssf": plates::run,
    "plate_cccf": plates::run,
    "large_table": large::run,
    "large_levy": large::run,
    "large_pica": large::run,
    "large_roark": large::run,
    "vibration_square": vibration::square,
    "vibration_fv12": vibration::free_plate,
    "buckling": buckling::run,
    "cantilever": obstacles::cantilever,
    "twisted_beam": obstacles::twisted_beam,
    "scordelis_lo": obstacles::roof,
    "pinched_cylinder": obstacles::pinched_cylinder,
    "hemisphere": obstacles::hemisphere,
    "cook": obstacles::membrane,
    "le6": obstacles::skew_plate,
    "trough": folds::trough,
    "four_walls": folds::tank,
    "whole_tank": folds::tank,
    "double_cell": vibration::double_cell,
    "sze_cantilever": turning::cantilever,
    "sze_annulus": turning::slit_annulus,
}
