//! `[body]`: the outside of the tank, where the job gives it.

use super::place::Place;
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
