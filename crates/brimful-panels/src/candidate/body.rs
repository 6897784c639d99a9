//! A body that lies in the allowed room.

use super::given_up::GivenUp;
use crate::name::CandidateName;
use crate::way_in::Entry;
use brimful_geom::solid::Solid;

/// A body that lies in the allowed room.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its name among its fellows.
    pub name: CandidateName,
    /// The body, in the axes of the space.
    pub solid: Solid,
    /// What was given up to make it plainer; empty where nothing was.
    pub given_up: Vec<GivenUp>,
    /// How it gets in.
    pub entry: Entry,
}
