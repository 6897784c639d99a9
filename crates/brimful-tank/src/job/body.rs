//! `[body]`: the outside of the tank, where the job gives it.

use super::fault::FaultKind;
use super::place::Place;
use super::reader::{Bound, Complaint, Field, Section};
use super::shape::{Obstacle, ShapeSpec};
use brimful_units::Length;
use std::collections::BTreeMap;

/// The outside of the tank as the job gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct BodySpec {
    /// The outside before the cuts.
    pub shape: ShapeSpec,
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
        let shape = ShapeSpec::read(section);
        let at = section.defaulted("at", |field| field.lengths(Bound::Any));
        let cuts = Obstacle::read_all(section, "cut", "cut");
        let thickness = section.optional("thickness", |field| {
            if field.raw_text() == Some("auto") {
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
        let between = section.needed("between", "Name the two faces that meet.", |field| {
            let faces: Vec<Option<String>> = field.list(2..=2)?.iter().map(Field::text).collect();
            let faces: Vec<String> = faces.into_iter().collect::<Option<_>>()?;
            <[String; 2]>::try_from(faces).ok()
        });
        let kind = section.needed("kind", "Name the joint.", |field| field.choice(&JOINTS));
        let through = section.optional("through", |field| field.text());
        let (between, kind, through) = (between?, kind?, through?);
        if let Some(face) = &through {
            if kind != JointKind::ThroughAndButt {
                return section.refuse_key(
                    "through",
                    Complaint::new(
                        FaultKind::NotTogether,
                        "only a through-and-butt joint has a panel that runs through",
                    )
                    .remedy("Take `through` out, or make the joint `through and butt`."),
                );
            }
            if !between.contains(face) {
                return section.refuse_key(
                    "through",
                    Complaint::new(FaultKind::UnknownWord, "this is neither of the two faces")
                        .allowed(between.iter().map(String::as_str))
                        .nearest_to(face),
                );
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
