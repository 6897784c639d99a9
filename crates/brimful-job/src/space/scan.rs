//! A scanned surface: the file is named in the job and read by whoever touches the disk.

use super::super::fault::Missing;
use super::super::place::Place;
use super::super::reader::{Bound, Complaint, Section};
use brimful_units::Length;

/// A scanned surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Scan {
    /// The file as the job names it: OBJ, PLY, STL or glTF.
    pub file: String,
    /// The length of one unit of the file; never guessed.
    pub unit: Length,
    /// How far a point may lie off the true surface.
    pub noise: Length,
    /// Where it is written.
    pub place: Place,
}

const UNITS: [(&str, Length); 5] = [
    ("mm", Length::from_mm(1.0)),
    ("cm", Length::from_cm(1.0)),
    ("m", Length::from_m(1.0)),
    ("in", Length::from_inches(1.0)),
    ("ft", Length::from_feet(1.0)),
];

impl Scan {
    /// Reads the keys of a scan.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let mut place = Place::default();
        let file = section.needed("scan", |field| {
            place = field.place();
            field.text()
        });
        let unit = if section.has("scan_unit") {
            section.needed("scan_unit", |field| field.choice(&UNITS))
        } else {
            let complaint = Complaint::from(Missing::ScanUnit);
            section.refuse_key("scan", complaint.allowed(UNITS.map(|(word, _)| word)))
        };
        let noise = section.defaulted("scan_noise", |field| field.length(Bound::NotNegative));
        Some(Self {
            file: file?,
            unit: unit?,
            noise: noise?,
            place,
        })
    }
}
