//! What a scan comes to: a solid with what was found, or why there is none.

use crate::boolean::BooleanFault;
use crate::frame::Plane;
use crate::solid::Solid;
use crate::vector::Point3;
use std::fmt;

/// A solid inside a scanned room.
#[derive(Clone, Debug, PartialEq)]
pub struct Scanned {
    /// The solid.
    pub solid: Solid,
    /// What was found.
    pub report: ScanReport,
}

/// What was found in a scan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ScanReport {
    /// Where it is open.
    pub holes: Vec<Hole>,
    /// Triangles that faced the wrong way.
    pub flipped: usize,
    /// Edges of more than two triangles.
    pub non_manifold: usize,
    /// Small pieces that hang on nothing and were left out.
    pub loose: usize,
    /// The flats, largest first.
    pub planes: Vec<FoundPlane>,
    /// Share of the surface that belongs to no flat.
    pub rough: f64,
    /// Volume of which the scan does not say whether it is inside, m3; taken as outside.
    pub doubtful: f64,
}

/// A flat of the scan.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundPlane {
    /// As it bounds the solid: its normal points out of the room.
    pub plane: Plane,
    /// Area of the scan that it stands for, m2.
    pub area: f64,
    /// Standard deviation of its points, m: what the noise really was there.
    pub spread: f64,
    /// How far it was moved inward from the best fit, m.
    pub inward: f64,
}

/// An open place in a scan.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Its middle.
    pub centre: Point3,
    /// Length round it, m.
    pub perimeter: f64,
}

/// Why a scan gives no solid.
#[derive(Clone, Debug, PartialEq)]
pub enum ScanFault {
    /// There is no surface to speak of.
    NoSurface,
    /// No flat was found: the noise given is too small, or all is round.
    NoFlats,
    /// The flats enclose nothing: the scan is open on a whole side.
    NothingInside(ScanReport),
    /// Too much of the surface is on no flat.
    TooRough(ScanReport),
    /// The cells cannot be put together.
    Boolean(BooleanFault),
}

impl fmt::Display for ScanFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoSurface => f.write_str("there are too few triangles for a room"),
            Self::NoFlats => f.write_str("no flat side is found in the scan"),
            Self::NothingInside(report) => write!(
                f,
                "the {} flats found enclose nothing; the scan has {} holes",
                report.planes.len(),
                report.holes.len()
            ),
            Self::TooRough(report) => write!(
                f,
                "{:.0} % of the scanned surface lies on no flat",
                report.rough * 100.0
            ),
            Self::Boolean(fault) => write!(f, "the flats cannot be put together: {fault}"),
        }
    }
}

impl std::error::Error for ScanFault {}
