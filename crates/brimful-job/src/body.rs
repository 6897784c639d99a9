//! `[body]`: the outside of the tank, where the job gives it.

use super::fault::{Conflict, FaultKind, Items, Named};
use super::place::Place;
use super::reader::{Bound, Complaint, Field, MOST_IN_A_LIST, Section, shortened};
use super::shape::{Obstacle, ShapeSpec};
use brimful_units::Length;
use std::collections::BTreeMap;

/// The outside of the tank as the job gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct BodySpec {
    /// The outside before the cuts.
    pub shape: BodyShape,
    /// Where the body's own origin lies in the space.
    pub at: [Length; 3],
    /// What is taken off the body, in the body's own axes.
    pub cuts: Vec<Obstacle>,
    /// The sheet thickness of every panel that is not named in `thicknesses`.
    pub thickness: Option<Length>,
    /// Whether that is to be chosen among the sheets of the stock, by the whole-tank check.
    pub any_thickness: bool,
    /// Sheet thickness by the name of the face.
    pub thicknesses: BTreeMap<String, Length>,
    /// Joints chosen by hand.
    pub joints: Vec<JointChoice>,
}

/// The outside of the tank before the cuts.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyShape {
    /// A box, or what three views have in common.
    Given(ShapeSpec),
    /// Corners, and faces that join them.
    Faceted(Faceted),
    /// One of the bodies that are offered for the space, by its name.
    Fitted {
        /// Its name.
        name: String,
        /// Where it is written.
        place: Place,
    },
}

/// A shape by its corners and faces.
#[derive(Clone, Debug, PartialEq)]
pub struct Faceted {
    /// Its corners.
    pub corners: Vec<[Length; 3]>,
    /// Its faces: numbers of corners from 0, counter-clockwise seen from outside, in the file from 1.
    pub faces: Vec<Vec<usize>>,
    /// Where it is written.
    pub place: Place,
}

/// A joint chosen by hand for the edge between two faces.
#[derive(Clone, Debug, PartialEq)]
pub struct JointChoice {
    /// The names of the two faces.
    pub between: [String; 2],
    /// How they meet.
    pub kind: JointKind,
    /// Which of the two runs through; only for [`JointKind::ThroughAndButt`].
    pub through: Option<String>,
    /// Where it is written.
    pub place: Place,
}

/// How two outer panels meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JointKind {
    /// Inner edges meet; the rod fills the outside groove.
    OpenCorner,
    /// One panel runs through, the other butts against it.
    ThroughAndButt,
    /// Both are cut to half the angle.
    Mitred,
}

const JOINTS: [(&str, JointKind); 3] = [
    ("open corner", JointKind::OpenCorner),
    ("through and butt", JointKind::ThroughAndButt),
    ("mitred", JointKind::Mitred),
];

impl BodySpec {
    /// Reads `[body]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let shape = BodyShape::read(section);
        let at = section.defaulted("at", |field| field.lengths(Bound::Any));
        let cuts = Obstacle::read_all(section, "cut", "cut");
        let thickness = section.optional("thickness", |field| {
            if field.is_word("auto") {
                return Some(None);
            }
            field.length(Bound::AboveZero).map(Some)
        });
        let thicknesses = read_thicknesses(&section.section("thicknesses"));
        let joints = section.each("joint", |item, _| JointChoice::read(item));
        section.refuse_unknown_keys();
        Some(Self {
            shape: shape?,
            at: at?,
            cuts: cuts?,
            thickness: thickness?.flatten(),
            any_thickness: thickness? == Some(None),
            thicknesses: thicknesses?,
            joints: joints?,
        })
    }
}

impl BodyShape {
    fn read(section: &Section<'_>) -> Option<Self> {
        section.expect_keys(&["fitted", "corners", "faces"]);
        if section.has("fitted") {
            return Self::read_fitted(section);
        }
        if section.has("corners") || section.has("faces") {
            refuse_beside(section, "corners", &GIVEN)?;
            return Faceted::read(section).map(Self::Faceted);
        }
        ShapeSpec::read(section).map(Self::Given)
    }

    fn read_fitted(section: &Section<'_>) -> Option<Self> {
        section.expect_keys(&GIVEN);
        refuse_beside(section, "fitted", &["corners", "faces", "at", "cut"])?;
        refuse_beside(section, "fitted", &GIVEN)?;
        let mut place = Place::default();
        let name = section.needed("fitted", |field| {
            place = field.place();
            field.text()
        })?;
        Some(Self::Fitted { name, place })
    }

    /// Where it is written.
    #[must_use]
    pub fn place(&self) -> Place {
        match self {
            Self::Given(shape) => shape.place(),
            Self::Faceted(faceted) => faceted.place.clone(),
            Self::Fitted { place, .. } => place.clone(),
        }
    }
}

/// The keys of a box and of views.
const GIVEN: [&str; 7] = ["box", "plan", "side", "front", "height", "length", "width"];

/// Notes the first key that cannot stand beside `way`.
fn refuse_beside(section: &Section<'_>, way: &'static str, others: &[&'static str]) -> Option<()> {
    match others.iter().find(|key| section.has(key)) {
        Some(&other) => section.refuse_key(other, Conflict::BothGiven { one: way, other }),
        None => Some(()),
    }
}

impl Faceted {
    fn read(section: &Section<'_>) -> Option<Self> {
        let mut place = Place::default();
        let corners = section.needed("corners", |field| {
            place = field.place();
            field.all(4..=MOST_IN_A_LIST, Items::Corners, |item| {
                item.lengths::<3>(Bound::Any)
            })
        });
        let corners = corners?;
        let last = u32::try_from(corners.len()).ok()?;
        let faces = section.needed("faces", |field| {
            field.all(4..=MOST_IN_A_LIST, Items::Faces, |item| {
                read_face(item, last)
            })
        });
        Some(Self {
            corners,
            faces: faces?,
            place,
        })
    }
}

fn read_face(field: &Field<'_>, last: u32) -> Option<Vec<usize>> {
    field.all(3..=MOST_IN_A_LIST, Items::CornerNumbers, |number| {
        Some(number.whole(1..=last)? as usize - 1)
    })
}

fn read_thicknesses(section: &Section<'_>) -> Option<BTreeMap<String, Length>> {
    let read: Vec<Option<(String, Length)>> = section
        .fields()
        .into_iter()
        .map(|(face, field)| Some((face, field.length(Bound::AboveZero)?)))
        .collect();
    read.into_iter().collect()
}

impl JointChoice {
    fn read(section: &Section<'_>) -> Option<Self> {
        let between = section.needed("between", |field| {
            let faces = field.all(2..=2, Items::Names, Field::text)?;
            <[String; 2]>::try_from(faces).ok()
        });
        let kind = section.needed("kind", |field| field.choice(&JOINTS));
        let through = section.optional("through", |field| field.text());
        let (between, kind, through) = (between?, kind?, through?);
        if let Some(face) = &through {
            if kind != JointKind::ThroughAndButt {
                return section.refuse_key("through", Conflict::NothingRunsThrough);
            }
            if !between.contains(face) {
                let kind = FaultKind::UnknownWord {
                    written: shortened(face),
                    names: Named::FaceOfJoint,
                };
                let faces = between.iter().map(String::as_str);
                let complaint = Complaint::new(kind).allowed(faces).nearest_to(face);
                return section.refuse_key("through", complaint);
            }
        }
        Some(Self {
            between,
            kind,
            through,
            place: section.place(),
        })
    }
}
