//! The room before each fitting: from the flat it covers to what is beside it, the tank's own walls
//! and ribs among it.

use super::{LOOKED, PanelRoom, Tank};
use crate::finding::{Finding, Grade, Quantity};
use crate::fitting::{Fitting, fittings, outside};
use crate::space::Room;
use brimful_geom::boolean::{BooleanFault, difference};
use brimful_geom::solid::Solid;
use brimful_geom::sweep::air_before;
use brimful_job::Faces;
use brimful_units::Length;
use rayon::prelude::*;

/// The room before one fitting.
#[derive(Clone, Debug, PartialEq)]
pub struct FittingRoom {
    /// What the shop calls it.
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
        .map(|fitting| row(fitting, &free, panels))
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
    let moves = panel.and_then(|panel| Some(panel.growth?[1] + panel.bulge?));
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
    let (gap, high) = (row.gap?, row.stands_out.filter(|_| !row.goes_through)?);
    let Some(left) = row.left else {
        return Some(
            Finding::new(Grade::Stop, &row.name, "Whether it has the room it needs when the tank is full and warm is not known: no check covers bulge and growth of its panel.")
                .source("free inside before the flat it covers; growth and bulge of its panel")
                .cure("Cure what keeps the strength check from an answer, or let the whole tank be checked.")
                .at(&fitting.opening.place),
        );
    };
    (left < Length::ZERO).then(|| {
        Finding::new(
            Grade::Stop,
            &row.name,
            format!(
                "It stands out of the {} panel by {}, and there is less room before it when the tank is full and warm.",
                tank.panels[row.panel].name,
                Quantity::Length(high).text(&tank.job.about)
            ),
        )
        .figures(Quantity::Length(gap - left), Quantity::Length(gap))
        .source("free inside before the flat it covers; growth and bulge of its panel")
        .cure("Move it, take a lower one or an elbow, or make the body smaller there; or say that it faces a hole, if what is beside the tank has one for it.")
        .at(&fitting.opening.place)
    })
}

/// Fittings near something of which nobody has said how far they stand out.
fn unstated(rows: &[FittingRoom]) -> Option<Finding> {
    let unknown = rows
        .iter()
        .filter(|row| row.stands_out.is_none() && row.gap.is_some() && !row.goes_through);
    let names: Vec<&str> = unknown.map(|row| row.name.as_str()).collect();
    (!names.is_empty()).then(|| {
        Finding::new(
            Grade::Mend,
            "fittings",
            format!(
                "How far these stand out is not said, so whether they find room in the space is not checked: {}.",
                names.join(", ")
            ),
        )
        .source("free inside within half a metre before the flat each covers")
        .cure("Measure each with its elbow, cap or hose on, and say how far it stands out.")
    })
}
