//! The ways in which a hole is measured.

use super::super::fault::{Conflict, FaultKind, Missing};
use super::super::place::Place;
use super::super::reader::{Bound, Field, Section};
use super::super::shape::{Outline, ShapeSpec};
use super::scan::Scan;
use super::taped::TapedRoom;
use brimful_units::Length;
use schemars::JsonSchema;
use serde::Serialize;

/// The clear inside as it was measured.
#[derive(Clone, Debug, PartialEq)]
pub enum Measured {
    /// A box, or the outlines of one to three views.
    Views(ShapeSpec),
    /// A floor with its walls and corner heights, as a tape gives them.
    Taped(TapedRoom),
    /// Cross-sections at stations along x, joined by straight lines from corner to corner.
    Stations(Vec<Station>),
    /// A scanned surface.
    Scan(Scan),
}

/// A cross-section at one place along x.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Where it lies along x.
    pub at: Length,
    /// Its outline (y, z).
    pub outline: Outline,
}

/// How a side whose corners lie in no one plane is faced with flat sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Twisted {
    /// One flat panel that leaves all corners outside it.
    Flat,
    /// Two panels with a seam along the diagonal that lies inside.
    TwoTriangles,
}

const TWISTED: [(&str, Twisted); 2] = [
    ("flat", Twisted::Flat),
    ("two triangles", Twisted::TwoTriangles),
];

impl Twisted {
    pub(super) fn read(field: &Field<'_>) -> Option<Self> {
        field.choice(&TWISTED)
    }

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::TwoTriangles => "two triangles",
        }
    }
}

/// The keys of a box and of views.
const VIEWS: [&str; 7] = ["box", "plan", "side", "front", "height", "length", "width"];
/// What belongs to a taped room alone.
const TAPED: [&str; 4] = ["sides", "diagonals", "corner_heights", "wall"];
/// What belongs to a scan alone.
const SCANNED: [&str; 2] = ["scan_unit", "scan_noise"];

impl Measured {
    /// Reads whichever way of measuring is written.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        for keys in [&VIEWS[..], &TAPED, &["station", "scan"], &SCANNED] {
            section.expect_keys(keys);
        }
        if section.has("scan") {
            refuse_beside(section, "scan", &[&["station"], &VIEWS[..], &TAPED])?;
            return Scan::read(section).map(Self::Scan);
        }
        if let Some(key) = SCANNED.into_iter().find(|key| section.has(key)) {
            return section.refuse_key(key, Missing::ScanFile { key });
        }
        if section.has("station") {
            refuse_beside(section, "station", &[&VIEWS[..], &TAPED])?;
            return read_stations(section).map(Self::Stations);
        }
        if TAPED.iter().any(|key| section.has(key)) {
            return TapedRoom::read(section).map(Self::Taped);
        }
        ShapeSpec::read(section).map(Self::Views)
    }

    /// Where it is written.
    #[must_use]
    pub fn place(&self) -> Place {
        match self {
            Self::Views(shape) => shape.place(),
            Self::Taped(room) => room.place.clone(),
            Self::Stations(stations) => stations
                .first()
                .map(|station| station.outline.place.clone())
                .unwrap_or_default(),
            Self::Scan(scan) => scan.place.clone(),
        }
    }
}

/// Notes the first key that cannot stand beside `way`.
fn refuse_beside(
    section: &Section<'_>,
    way: &'static str,
    others: &[&[&'static str]],
) -> Option<()> {
    let mut others = others.iter().copied().flatten();
    match others.find(|key| section.has(key)) {
        Some(&other) => section.refuse_key(other, Conflict::BothGiven { one: way, other }),
        None => Some(()),
    }
}

/// The stations in the order of x: at least two, with as many corners each.
fn read_stations(section: &Section<'_>) -> Option<Vec<Station>> {
    let stations = section.each("station", |item, _| {
        let at = item.needed("at", |field| field.length(Bound::Any));
        let outline = item.needed("outline", Outline::read);
        Some(Station {
            at: at?,
            outline: outline?,
        })
    });
    let mut stations = stations?;
    stations.sort_by(|a, b| a.at.total_cmp(&b.at));
    if stations.len() < 2 {
        return section.refuse_key("station", Missing::SecondStation);
    }
    match stations.windows(2).find_map(fault_between) {
        Some(fault) => section.refuse_key("station", fault),
        None => Some(stations),
    }
}

/// What keeps neighbouring stations from being joined corner to corner.
fn fault_between(pair: &[Station]) -> Option<FaultKind> {
    let [first, second] = pair else { return None };
    if first.at == second.at {
        return Some(FaultKind::StationTwice);
    }
    let [first, second] = [first, second].map(|station| station.outline.points.len());
    (first != second).then_some(FaultKind::StationCorners { first, second })
}
