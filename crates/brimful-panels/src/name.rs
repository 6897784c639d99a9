//! What panels, and bodies that fit a space, are called.
//!
//! A name is an id: the job file refers to a face by it (`front`, `floor 3`). How it is said in a
//! language is for `brimful-text`.

mod candidate;
mod json;

pub use candidate::{CandidateName, CandidateShape, Letter, View};

use brimful_geom::vector::Vec3;
pub(crate) use json::text_in_json;
use std::fmt;

text_in_json!(PanelName, HoleName, CompartmentId, CandidateName);

/// The side of a tank that a face looks to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Down.
    Floor,
    /// Up.
    Lid,
    /// Along x.
    Front,
    /// Against x.
    Rear,
    /// Along y.
    Left,
    /// Against y.
    Right,
}

impl Side {
    /// Every side.
    pub const ALL: [Self; 6] = [
        Self::Floor,
        Self::Lid,
        Self::Front,
        Self::Rear,
        Self::Left,
        Self::Right,
    ];

    /// How the job file writes it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Floor => "floor",
            Self::Lid => "lid",
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// The way it looks.
    pub fn outward(self) -> Vec3 {
        match self {
            Self::Floor => -Vec3::Z,
            Self::Lid => Vec3::Z,
            Self::Front => Vec3::X,
            Self::Rear => -Vec3::X,
            Self::Left => Vec3::Y,
            Self::Right => -Vec3::Y,
        }
    }
}

/// A face of the body: its side, and its number among those of that side from outside in, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FaceName {
    /// The side that it looks to.
    pub side: Side,
    /// Its number; the first is called by its side alone.
    pub number: usize,
}

impl fmt::Display for FaceName {
    /// As the job file writes it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.number {
            1 => f.write_str(self.side.key()),
            number => write!(f, "{} {number}", self.side.key()),
        }
    }
}

impl PartialEq<str> for FaceName {
    fn eq(&self, key: &str) -> bool {
        let own = self.to_string();
        own == key
    }
}

/// What a panel is called.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PanelName {
    /// By the face of the body that it is the sheet of.
    Face(FaceName),
    /// An inner panel, by its name in the job.
    Inner {
        /// The name in the job.
        name: String,
        /// Its number among the panels of that name, from 1; none where there is only one.
        number: Option<usize>,
    },
    /// A strip of a rib.
    Rib {
        /// The name in the job.
        name: String,
        /// The number of its band among those of the rib, from 1; none where there is only one.
        band: Option<usize>,
        /// The wall that it runs along.
        wall: FaceName,
        /// Its number among the strips of that band on that wall, from 1.
        stretch: usize,
    },
    /// The upper piece of a panel parted by a butt seam.
    Upper(Box<PanelName>),
}

impl PanelName {
    /// The name in the job of the inner panel that it is, or is a piece of.
    pub fn inner(&self) -> Option<&str> {
        match self {
            Self::Inner { name, .. } => Some(name),
            Self::Upper(whole) => whole.inner(),
            Self::Face(_) | Self::Rib { .. } => None,
        }
    }
}

impl fmt::Display for PanelName {
    /// As the job file writes it: an id, the same in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Face(face) => face.fmt(f),
            Self::Inner { name, number: None } => f.write_str(name),
            Self::Inner {
                name,
                number: Some(number),
            } => write!(f, "{name} {number}"),
            Self::Rib {
                name,
                band,
                wall,
                stretch,
            } => {
                f.write_str(name)?;
                if let Some(band) = band {
                    write!(f, " band {band}")?;
                }
                write!(f, " {wall}")?;
                if *stretch > 1 {
                    write!(f, ", stretch {stretch}")?;
                }
                Ok(())
            }
            Self::Upper(whole) => write!(f, "{whole} upper"),
        }
    }
}

impl PartialEq<str> for PanelName {
    fn eq(&self, key: &str) -> bool {
        let own = self.to_string();
        own == key
    }
}

/// What a hole in a panel is called.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HoleName {
    /// An opening, by its name in the job.
    Opening(String),
    /// A hole of an inner panel, by its number from 1.
    Inner(usize),
}

impl fmt::Display for HoleName {
    /// As JSON writes it: an id, the same in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opening(name) => f.write_str(name),
            Self::Inner(number) => write!(f, "hole {number}"),
        }
    }
}

/// Which of a tank's rooms for liquid it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CompartmentId {
    /// The only one.
    Only,
    /// One of several, from 1 on, from the rear right.
    Number(usize),
}

impl fmt::Display for CompartmentId {
    /// As JSON and the command's options write it: an id, the same in every language.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Only => f.write_str("tank"),
            Self::Number(number) => write!(f, "compartment {number}"),
        }
    }
}
