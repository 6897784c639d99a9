//! The room before each fitting: from the flat it covers to what is beside it, the tank's own walls
//! and ribs among it.

use super::bulge;
use super::panel::{LOOKED, PanelRoom};
use super::tank::Tank;
use brimful_geom::boolean::{BooleanFault, difference};
use brimful_geom::solid::Solid;
use brimful_geom::sweep::air_before;
use brimful_job::Faces;
use brimful_panels::finding::kind::RoomKind;
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::fitting::{Fitting, fittings, outside};
use brimful_panels::space::Room;
use brimful_units::Length;
use rayon::prelude::*;

/// The room before one fitting.
#[derive(Clone, Debug, PartialEq)]
pub struct FittingRoom {
    /// Its name in the job.
    pub name: String,
    /// Number of its panel.
    pub panel: usize,
    /// From the panel to what is beside it; none where nothing is within half a metre.
    pub gap: Option<Length>,
    /// How far it stands out; none where the job does not say.
    pub stands_out: Option<Length>,
    /// Whether what is beside it has a hole for it.
    pub goes_through: bool,
    /// What is left when the panel has grown and bulged; none where nothing is near or something not known.
    pub left: Option<Length>,
}

/// The room before every fitting, with what it says.
pub(super) fn beside_fittings(
    tank: &Tank<'_>,
    room: &Room,
    panels: &[PanelRoom],
) -> Result<(Vec<FittingRoom>, Vec<Finding>), BooleanFault> {
    let all = fittings(tank.job, tank.panels);
    if all.is_empty() {
        return Ok((Vec::new(), Vec::new()));
    }
    let own = outside(&tank.body.solid, tank.panels, &[]);
    let free = match own.as_slice() {
        // No fitting of it faces a wall of its own.
        [body] if body.is_convex() => room.free.clone(),
        _ => difference(&room.free, &own.iter().collect::<Vec<_>>())?,
    };
    let rows: Vec<FittingRoom> = all
        .par_iter()
        .map(|fitting| row(tank, fitting, &free, panels))
        .collect::<Result<_, _>>()?;
    let mut findings: Vec<Finding> = all
        .iter()
        .zip(&rows)
        .filter_map(|(fitting, row)| too_little(tank, fitting, row))
        .collect();
    findings.extend(unstated(&rows));
    Ok((rows, findings))
}

fn row(
    tank: &Tank<'_>,
    fitting: &Fitting<'_>,
    free: &Solid,
    panels: &[PanelRoom],
) -> Result<FittingRoom, BooleanFault> {
    let flat = fitting.prism(Length::ZERO);
    let way = fitting.outward();
    let top = flat
        .faces
        .iter()
        .max_by(|a, b| a.plane.normal.dot(way).total_cmp(&b.plane.normal.dot(way)));
    let gap = match top {
        Some(top) => air_before(&flat, top, way, LOOKED.m(), free)?.map(Length::from_m),
        None => None,
    };
    let panel = panels.iter().find(|row| row.panel == fitting.panel);
    // Its panel's greatest, wherever the fitting is.
    let bulge = bulge(tank, fitting.panel);
    let moves = panel.and_then(|panel| Some(panel.growth?[1] + bulge?));
    let stands_out = fitting.opening.stands_out;
    Ok(FittingRoom {
        name: fitting.opening.name.clone(),
        panel: fitting.panel,
        gap,
        stands_out,
        goes_through: fitting.opening.faces == Faces::Hole,
        left: gap
            .zip(stands_out.zip(moves))
            .map(|(gap, (high, moves))| gap - high - moves),
    })
}

fn too_little(tank: &Tank<'_>, fitting: &Fitting<'_>, row: &FittingRoom) -> Option<Finding> {
    let (gap, stands_out) = (row.gap?, row.stands_out.filter(|_| !row.goes_through)?);
    let of = |grade, kind| {
        Finding::of(grade, Subject::Opening(row.name.clone()), kind).at(&fitting.opening.place)
    };
    let Some(left) = row.left else {
        let quick = tank.is_draft();
        return Some(of(tank.of_unknown(), RoomKind::FittingNotKnown { quick }));
    };
    let interferes = || {
        let kind = RoomKind::FittingInterferes {
            panel: tank.panels[row.panel].name.clone(),
            stands_out,
        };
        of(Grade::Stop, kind).figures(Quantity::Length(gap - left), Quantity::Length(gap))
    };
    (left < Length::ZERO).then(interferes)
}

/// Fittings near something of which nobody has said how far they stand out.
fn unstated(rows: &[FittingRoom]) -> Option<Finding> {
    let unknown = rows
        .iter()
        .filter(|row| row.stands_out.is_none() && row.gap.is_some() && !row.goes_through);
    let names: Vec<String> = unknown.map(|row| row.name.clone()).collect();
    let mend = |names| {
        let subject = Subject::Part(Part::Fittings);
        Finding::of(Grade::Mend, subject, RoomKind::FittingsUnstated(names))
    };
    (!names.is_empty()).then(|| mend(names))
}
