//! Room kept: for each outside panel the gap to what is beside it, what takes from it, and what is
//! left over.
//!
//! The gap is free inside before the panel, along its outward normal, exact, ribs on it taken off.
//! From it go the growth by warmth, the bulge of the panel as the strength check has it there, and the
//! weld that stands out. What is reported is of the place where least is left. Clearance asked for is shown beside
//! it and not added: it is this room.
//! A tank grows from the middle of its foot; what holds it elsewhere puts more on one side.

mod bulge;
mod convex;
mod fittings;
mod panel;
mod place;
mod tank;

pub use fittings::FittingRoom;
pub use panel::PanelRoom;
pub use tank::Tank;

use brimful_geom::boolean::BooleanFault;
use brimful_geom::solid::{Face, Solid};
use brimful_geom::vector::Vec3;
use brimful_panels::finding::kind::RoomKind;
use brimful_panels::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_panels::growth::{Growth, held_at};
use brimful_panels::panel::Role;
use brimful_panels::panels::chocked_faces;
use brimful_panels::seam::Joint;
use brimful_panels::site::Site;
use brimful_panels::space::{self, is_stood_on, kept_at};
use brimful_panels::weld::WeldSide;
use brimful_units::Length;
use bulge::Bulge;
use convex::Convex;
use fittings::beside_fittings;
use place::{Front, Outward};
use rayon::prelude::*;

/// A face that looks down and lies no higher than this over the lowest place of the tank, or on
/// what is under it, carries the tank: what rounding leaves.
const CARRIED: Length = Length::from_mm(0.001);
/// How far the cap of a run stands out, over the size of its rod: a hot rod is pressed to half its
/// height (common practice).
const CAP: f64 = 0.5;

/// What stands out over a seam is no further off the line of its inside corner than so many sheets of the
/// thicker panel: the sheet that butts there, and a fillet as wide as that.
const BESIDE_SEAM: f64 = 2.0;

/// The room about a tank in its space.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RoomKept {
    /// One a panel of the outside, in their order; none where the job has no space.
    pub rows: Vec<PanelRoom>,
    /// One a fitting.
    pub fittings: Vec<FittingRoom>,
    /// What is taken for granted.
    pub assumptions: Vec<RoomAssumption>,
    /// What it says.
    pub findings: Vec<Finding>,
}

/// What the room about a tank takes for granted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoomAssumption {
    /// The tank grows from the middle of its foot.
    Growth {
        /// From the coldest to the warmest of the liquid and the workshop.
        kelvin: f64,
    },
    /// The sheet neither swells nor ages.
    NoSwelling,
    /// Each fitting is no wider than the flat it covers.
    FittingsWithinFlat,
}

/// Works out the room about a tank.
pub fn room_kept(tank: &Tank<'_>) -> RoomKept {
    let Some(Site { room, .. }) = tank.site else {
        return RoomKept::default();
    };
    let growth = Growth::of(tank.job);
    let mut kept = RoomKept {
        assumptions: assumptions(tank, &growth),
        ..RoomKept::default()
    };
    let rows: Vec<_> = tank
        .panels
        .par_iter()
        .enumerate()
        .filter(|(_, panel)| panel.role.is_outer())
        .filter_map(|(number, panel)| {
            let face = tank.body.solid.faces.get(panel.face?)?;
            Some((panel, row(tank, room, &growth, number, face)))
        })
        .collect();
    for (panel, row) in rows {
        match row {
            Ok(row) => {
                kept.findings.extend(verdict(tank, &row));
                kept.rows.push(row);
            }
            Err(fault) => kept
                .findings
                .push(unmeasured(Subject::Panel(panel.name.clone()), fault)),
        }
    }
    match beside_fittings(tank, room, &kept.rows) {
        Ok((rows, findings)) => {
            kept.fittings = rows;
            kept.findings.extend(findings);
        }
        Err(fault) => kept
            .findings
            .push(unmeasured(Subject::Part(Part::Fittings), fault)),
    }
    kept
}

fn unmeasured(subject: Subject, fault: BooleanFault) -> Finding {
    Finding::of(Grade::Stop, subject, RoomKind::NotMeasured(fault))
}

fn row(
    tank: &Tank<'_>,
    room: &space::Room,
    growth: &Growth,
    number: usize,
    face: &Face,
) -> Result<PanelRoom, BooleanFault> {
    let way = face.plane.normal;
    let solid = &tank.body.solid;
    let ribs: Vec<Solid> = ribs_on(tank, number).collect();
    let of_ribs = ribs.iter().flat_map(|rib| fronts(rib, way));
    let all: Vec<Front<'_>> = of_ribs.chain([Front { solid, face }]).collect();
    let most = bulge(tank, number);
    let outward = Outward {
        frame: &tank.panels[number].finished.frame,
        bulge: by_place(tank, number, &all, most),
        welds: welds(tank, number),
        fronts: all,
    };
    let place = outward.tightest(&room.free)?;
    // Panels are not laid out where a chock has no wall.
    let chocked = chocked_faces(tank.job, tank.body).unwrap_or_default();
    let growth = growth.outward(solid, face, way, held_at(solid, &chocked));
    let (low, _) = solid.bounds();
    let lowest = face.loops.iter().flatten().map(|&v| solid.vertices[v].z);
    let at_foot = lowest.fold(f64::INFINITY, f64::min) - low.z <= CARRIED.m();
    let down = is_stood_on(way);
    let of_welds = outward.welds.iter().map(|(_, weld)| Length::from_m(*weld));
    let of_welds = of_welds.fold(Length::ZERO, Length::max);
    let bulge = most.map(|most| place.map_or(most, |place| place.bulge));
    let left = place
        .zip(growth.zip(bulge))
        .map(|(place, (growth, _))| place.left() - growth[1]);
    Ok(PanelRoom {
        panel: number,
        gap: place.map(|place| place.gap),
        clearance: tank
            .job
            .space
            .as_ref()
            .map_or(Length::ZERO, |space| kept_at(space, way)),
        carries: down && (at_foot || place.is_some_and(|place| place.gap <= CARRIED)),
        ribs: place.map_or(Length::ZERO, |place| place.ribs),
        growth,
        bulge,
        weld: place.map_or(of_welds, |place| place.weld),
        left,
    })
}

/// Every face of a solid that looks along `way`.
fn fronts(solid: &Solid, way: Vec3) -> impl Iterator<Item = Front<'_>> {
    // Faces that look along it by less are edges, bevelled or square.
    const ALONG: f64 = 0.5;
    let faces = solid.faces.iter();
    faces
        .filter(move |face| face.plane.normal.dot(way) > ALONG)
        .map(move |face| Front { solid, face })
}

/// The bulge of a panel where its fronts are; the same everywhere where only the greatest is known.
fn by_place(tank: &Tank<'_>, panel: usize, fronts: &[Front<'_>], most: Option<Length>) -> Bulge {
    let most = most.unwrap_or(Length::ZERO);
    let corners = fronts.iter().flat_map(|front| {
        let corners = front.face.loops.iter().flatten();
        corners.map(|&corner| front.solid.vertices[corner])
    });
    match tank.whole {
        Some(whole) => Bulge::of(whole, panel, &tank.panels[panel], most, corners),
        None => Bulge::even(most),
    }
}

/// The ribs that stand on a panel.
fn ribs_on<'a>(tank: &'a Tank<'_>, panel: usize) -> impl Iterator<Item = Solid> + 'a {
    let lands = tank.panels[panel].lands.iter();
    lands
        .filter_map(|land| tank.panels.get(land.panel))
        .filter(|panel| panel.role == Role::Rib)
        .map(|panel| panel.finished.solid())
}

/// The furthest that a panel moves outward under any load: by the whole-tank check on any of its
/// meshes, else by the quick one where that covers all of the panel.
fn bulge(tank: &Tank<'_>, panel: usize) -> Option<Length> {
    if let Some(whole) = tank.whole {
        let known = whole.unanswered == 0 && !whole.cases.is_empty();
        let figures = whole
            .cases
            .iter()
            .flat_map(|run| run.earlier.iter().chain([&run.figures]));
        let outward = figures.map(|figures| figures.panels[panel].outward);
        return known.then(|| Length::from_m(outward.fold(0.0, f64::max)));
    }
    let mut rows = tank.quick.rows.iter().filter(|row| row.panel == panel);
    let [_, hinged] = tank.quick.moves(panel)?;
    rows.all(|row| row.covered).then_some(hinged)
}

/// Where welds laid from outside stand out of a panel's face, and how far, m: the cap over a groove in that
/// face, the whole fillet round a tongue. The groove of an open corner or a mitre is
/// filled inside the corner and stands out of neither face.
fn welds(tank: &Tank<'_>, panel: usize) -> Vec<(Convex, f64)> {
    let outside = tank
        .welds
        .iter()
        .filter(|weld| weld.side == WeldSide::Outside);
    let proud = outside.filter_map(|weld| {
        let seam = tank.seams.get(weld.seam)?;
        let cap = || {
            CAP * tank
                .job
                .stock
                .rods
                .get(weld.rod)
                .map_or(0.0, |rod| rod.diameter.m())
        };
        let leg = || weld.section.0.iter().map(|p| p.y).fold(0.0, f64::max);
        let proud = match seam.joint {
            Joint::Butt if seam.panels.contains(&panel) => cap(),
            Joint::ThroughAndButt { through }
                if seam.panels.contains(&panel) && through != panel =>
            {
                cap()
            }
            Joint::SlotThrough if seam.panels.contains(&panel) => leg(),
            _ => return None,
        };
        let sheets = seam
            .panels
            .iter()
            .map(|&panel| tank.panels[panel].thickness.m());
        let reach = BESIDE_SEAM * sheets.fold(0.0, f64::max) + proud;
        let frame = &tank.panels[panel].finished.frame;
        let [from, to] = seam.inner_line.map(|end| frame.flat_from_world(end));
        Some((Convex::about(from, to, reach)?, proud))
    });
    proud.collect()
}

/// Whether a panel has the room that it takes; none where it has.
fn verdict(tank: &Tank<'_>, row: &PanelRoom) -> Option<Finding> {
    if row.carries {
        return None;
    }
    let gap = row.gap?;
    let of = |grade, kind| {
        let panel = &tank.panels[row.panel];
        Finding::of(grade, Subject::Panel(panel.name.clone()), kind)
    };
    let (Some(bulge), Some(growth), Some(left)) = (row.bulge, row.growth, row.left) else {
        let quick = tank.is_draft();
        return Some(of(tank.of_unknown(), RoomKind::PanelNotKnown { quick }));
    };
    let interferes = || {
        let kind = RoomKind::PanelInterferes {
            growth: growth[1],
            bulge,
            ribs: row.ribs,
            weld: row.weld,
        };
        of(Grade::Stop, kind).figures(Quantity::Length(gap - left), Quantity::Length(gap))
    };
    (left < Length::ZERO).then(interferes)
}

fn assumptions(tank: &Tank<'_>, growth: &Growth) -> Vec<RoomAssumption> {
    let kelvin = growth.kelvin;
    let mut all = vec![
        RoomAssumption::Growth { kelvin },
        RoomAssumption::NoSwelling,
    ];
    if !tank.job.openings.is_empty() {
        all.push(RoomAssumption::FittingsWithinFlat);
    }
    all
}
