//! Who is full in each load case.
//!
//! Everything, first. A divider has to bear its compartments full one at a time, at rest and in every event:
//! whichever way it pushes, it raises the head on it. Under suction the others stand full beside the one that
//! is emptied. Brim-full liquid presses on both sides of a baffle alike; what
//! asks most of it by a steady push is all liquid of its compartment thrown against it with none
//! ahead, so each event is run with that for each baffle it throws liquid against.

use super::tank::Tank;
use super::wetting::{CaseLimits, Wetting};
use crate::load::{self, LoadCase, LoadKind, STANDARD_GRAVITY};
use brimful_geom::vector::{Point3, Vec3};
use brimful_panels::case::Fill;
use brimful_panels::liquid::Holds;
use brimful_panels::panel::{Panel, Role};
use brimful_panels::table::NotCovered;
use std::sync::Arc;

/// An event throws liquid against a panel when the push square to it is more than this, m/s2: a
/// thousandth of gravity, far below any event of the table and far above rounding.
const THROWN: f64 = 1e-3 * STANDARD_GRAVITY;

/// A load case with what it may take and where its liquid is.
#[derive(Clone, Debug)]
pub struct Filled {
    pub case: LoadCase,
    pub limits: CaseLimits,
    /// Which compartments have liquid in them, or suction.
    pub compartments: Vec<bool>,
    /// Which stand full of liquid beside those under suction.
    pub full_beside: Vec<bool>,
    /// The baffle that all of its liquid is thrown against, if it is only on one side of one.
    pub against: Option<OneSided>,
    /// Number of the place on the lid where somebody stands, of those of the model.
    pub spot: usize,
}

/// A baffle with liquid on one side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OneSided {
    /// Number of the panel.
    pub panel: usize,
    /// A point in the middle of its sheet.
    at: Point3,
    /// Half of its thickness, m.
    half: f64,
    /// The way the liquid pushes, square to it.
    pub ahead: Vec3,
}

/// Planes whose normals agree to this cosine are parallel: rounding of a frame.
const PARALLEL: f64 = 1.0 - 1e-9;

impl OneSided {
    /// Whether a place on a flat of this normal is in its plane: it may be parted by a butt seam, and
    /// the liquid is thrown against all of it.
    pub fn is_in_plane(&self, place: Point3, normal: Vec3) -> bool {
        let along = self.ahead.dot(normal).abs();
        along > PARALLEL && self.ahead.dot(place - self.at).abs() <= self.half
    }

    /// Whether a place of its compartment is on the dry side.
    pub fn is_dry(&self, place: Point3) -> bool {
        self.ahead.dot(place - self.at) > 0.0
    }
}

/// All load cases; for one that no table covers, why.
pub fn filled_cases(tank: &Tank<'_>) -> Vec<Result<Filled, (LoadCase, NotCovered)>> {
    let mut cases = Vec::new();
    let wetting = Arc::new(Wetting::of(tank));
    for case in load::cases(tank.job) {
        match CaseLimits::new(tank, &wetting, &case) {
            Ok(limits) => cases.extend(fillings(tank, case, limits).into_iter().map(Ok)),
            Err(reason) => cases.push(Err((case, reason))),
        }
    }
    cases
}

/// A load case with everything full, and then with whatever asks more of an inner panel.
fn fillings(tank: &Tank<'_>, case: LoadCase, limits: CaseLimits) -> Vec<Filled> {
    // What stays dry is full in none of them.
    let wet: Vec<bool> = tank
        .compartments
        .iter()
        .map(|room| room.holds != Holds::Nothing)
        .collect();
    let n = wet.len();
    let parted: Vec<usize> = (0..n).filter(|&c| wet[c]).collect();
    let all = Filled {
        case,
        limits,
        full_beside: vec![false; n],
        compartments: wet,
        against: None,
        spot: 0,
    };
    let mut cases = vec![all.clone()];
    let filled = |fill: Fill| {
        let mut own = all.clone();
        own.case.id = own.case.id.filled(fill);
        own
    };
    if parted.len() > 1 && parts_compartments(all.case.id.kind) {
        let is_suction = all.case.id.kind == LoadKind::Suction;
        cases.extend(parted.into_iter().map(|alone| {
            Filled {
                compartments: (0..n).map(|c| c == alone).collect(),
                full_beside: (0..n)
                    .map(|c| is_suction && c != alone && all.compartments[c])
                    .collect(),
                ..filled(Fill::Alone(tank.compartments[alone].id))
            }
        }));
    }
    if all.case.id.kind == LoadKind::Event {
        let baffles = tank.panels.iter().enumerate();
        cases.extend(
            baffles
                .filter_map(|(number, panel)| against(number, panel, all.case.body_acceleration))
                .map(|against| Filled {
                    against: Some(against),
                    ..filled(Fill::Behind(against.panel))
                }),
        );
    }
    cases
}

/// Whether a load is worth running with each compartment full by itself.
fn parts_compartments(kind: LoadKind) -> bool {
    match kind {
        // A head stands in the filler of one compartment, and a vent is slow for one.
        LoadKind::Rest
        | LoadKind::Test
        | LoadKind::Filling
        | LoadKind::Suction
        | LoadKind::Event => true,
        LoadKind::Coldest | LoadKind::Warmest | LoadKind::OnLid => false,
    }
}

fn is_thrown(panel: &Panel, acceleration: Vec3) -> bool {
    let push = acceleration + Vec3::Z * STANDARD_GRAVITY;
    push.dot(panel.finished.frame.z).abs() > THROWN
}

/// The liquid that an acceleration throws against a panel, if that is a baffle in its way.
fn against(number: usize, panel: &Panel, acceleration: Vec3) -> Option<OneSided> {
    if panel.role != Role::Baffle || !is_thrown(panel, acceleration) {
        return None;
    }
    let frame = &panel.finished.frame;
    let along = acceleration.dot(frame.z) > 0.0;
    let half = panel.thickness.m() / 2.0;
    Some(OneSided {
        panel: number,
        // The frame is on one face, with the sheet behind it.
        at: frame.origin - frame.z * half,
        half,
        ahead: if along { frame.z } else { -frame.z },
    })
}
