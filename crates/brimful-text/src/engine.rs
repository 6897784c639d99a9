//! Faults of the engines in words, each as a clause without a full stop. Corners, faces and sides are
//! counted from 1.

use crate::text::Text;
use crate::words::Words;
use brimful_geom::boolean::BooleanFault;
use brimful_geom::inscribed::InscribedFault;
use brimful_geom::offset::OffsetFault;
use brimful_geom::plate::PlateFault;
use brimful_geom::polygon::OutlineFault;
use brimful_geom::scan::ScanFault;
use brimful_geom::solid::SolidFault;
use brimful_nest::NestError;

impl Words<'_> {
    /// Why solids could not be combined.
    pub fn boolean_fault(&self, fault: &BooleanFault) -> Text {
        match *fault {
            BooleanFault::Face(solid, face) => say!(
                self,
                "face {face} of solid {solid} crosses itself",
                face = face + 1,
                solid = solid + 1
            ),
            BooleanFault::NotClosed(solid) => {
                say!(self, "solid {solid} is not closed", solid = solid + 1)
            }
            BooleanFault::Result => say!(self, "the combined solid is not a proper one"),
        }
    }

    /// Why a solid cannot be moved inward.
    pub fn offset_fault(&self, fault: &OffsetFault) -> Text {
        match *fault {
            OffsetFault::FaceVanishes { face } => {
                say!(
                    self,
                    "face {face} has no room for the distance",
                    face = face + 1
                )
            }
            OffsetFault::FacesCross { face, other } => say!(
                self,
                "faces {face} and {other} would meet",
                face = face + 1,
                other = other + 1
            ),
            OffsetFault::Corner { vertex } => say!(
                self,
                "the faces at corner {corner} cannot be moved apart",
                corner = vertex + 1
            ),
        }
    }

    /// Why a solid is not a proper one.
    pub fn solid_fault(&self, fault: &SolidFault) -> Text {
        match *fault {
            SolidFault::BadLoop { face } => say!(
                self,
                "face {face} has a loop of fewer than three different corners",
                face = face + 1
            ),
            SolidFault::SidesMeet {
                face,
                first: (a, b),
                second: (c, d),
            } => say!(
                self,
                "the sides of face {face} from corner {a} to {b} and from corner {c} to {d} meet",
                face = face + 1,
                a = a + 1,
                b = b + 1,
                c = c + 1,
                d = d + 1
            ),
            SolidFault::LoopTurnsWrongWay { face } => {
                say!(
                    self,
                    "a loop of face {face} turns the wrong way",
                    face = face + 1
                )
            }
            SolidFault::NotPlanar {
                face,
                vertex,
                distance,
            } => say!(
                self,
                "corner {corner} is {distance} off the plane of face {face}",
                corner = vertex + 1,
                distance = Text::verbatim(format!("{:.1e} m", distance.abs())),
                face = face + 1
            ),
            SolidFault::OpenEdge { from, to } => say!(
                self,
                "the edge from corner {from} to corner {to} does not have one face on each side",
                from = from + 1,
                to = to + 1
            ),
            SolidFault::FacesFold { face, other } => say!(
                self,
                "faces {face} and {other} lie on each other",
                face = face + 1,
                other = other + 1
            ),
            SolidFault::FacesCross { face, other } => say!(
                self,
                "face {other} passes through face {face}",
                other = other + 1,
                face = face + 1
            ),
            SolidFault::NoVolume => say!(self, "the faces enclose no volume"),
        }
    }

    /// Why an outline cannot be used.
    pub fn outline_fault(&self, fault: &OutlineFault) -> Text {
        match *fault {
            OutlineFault::TooFewPoints(count) => say!(
                self,
                "an outline needs at least 3 points, and this one has {count}",
                count = count
            ),
            OutlineFault::NotFinite(point) => {
                say!(
                    self,
                    "point {point} is not a finite number",
                    point = point + 1
                )
            }
            OutlineFault::RepeatedPoint(point) => {
                say!(
                    self,
                    "point {point} is given twice in a row",
                    point = point + 1
                )
            }
            OutlineFault::SidesMeet(one, other) => say!(
                self,
                "the side that starts at point {one} meets the side that starts at point {other}",
                one = one + 1,
                other = other + 1
            ),
            OutlineFault::NoArea => say!(self, "the outline encloses no area"),
        }
    }

    /// Why no largest box is given.
    pub fn inscribed_fault(&self, fault: &InscribedFault) -> Text {
        match fault {
            InscribedFault::Parts => say!(self, "the room round the solid cannot be parted"),
            InscribedFault::NoRoom => say!(self, "no box was found inside the solid"),
            InscribedFault::Outside => say!(self, "the box found is not inside the solid"),
            InscribedFault::Unchecked(fault) => say!(
                self,
                "whether the box found is inside the solid is not known: {fault}",
                fault = self.boolean_fault(fault)
            ),
        }
    }

    /// Why a plate cannot be cut.
    pub fn plate_fault(&self, fault: &PlateFault) -> Text {
        match fault {
            PlateFault::Outline(_, fault) => self.outline_fault(fault),
            PlateFault::SideVanishes { side, .. } => {
                say!(self, "side {side} has no length left", side = side + 1)
            }
        }
    }

    /// Why a scan gives no solid.
    pub fn scan_fault(&self, fault: &ScanFault) -> Text {
        match fault {
            ScanFault::NoSurface => say!(self, "there are too few triangles for a room"),
            ScanFault::NoFlats => say!(self, "no flat side is found in it"),
            ScanFault::NothingInside(report) => {
                let flats = match report.planes.len() {
                    1 => say!(self, "the one flat found encloses nothing"),
                    n => say!(self, "the {n} flats found enclose nothing", n = n),
                };
                match report.holes.len() {
                    0 => flats,
                    1 => say!(self, "{flats}; the scan has 1 hole", flats = flats),
                    n => say!(
                        self,
                        "{flats}; the scan has {n} holes",
                        flats = flats,
                        n = n
                    ),
                }
            }
            ScanFault::TooRough(report) => say!(
                self,
                "{share} of the scanned surface lies on no flat",
                share = self.percent(report.rough)
            ),
            ScanFault::Boolean(fault) => say!(
                self,
                "the flats cannot be put together: {fault}",
                fault = self.boolean_fault(fault)
            ),
        }
    }

    /// Why sheets cannot be laid out.
    pub fn nest_error(&self, error: &NestError) -> Text {
        match error {
            NestError::Number {
                place,
                value,
                must_be,
            } => say!(
                self,
                "the {place} is {value}, and it must be {must_be} (in metres)",
                place = self.data(place),
                value = Text::verbatim(value.to_string()),
                must_be = self.data(must_be)
            ),
            NestError::SameId { kind, id } => say!(
                self,
                "the number {id} is given to more than one {kind}",
                id = *id,
                kind = self.data(kind)
            ),
        }
    }
}
