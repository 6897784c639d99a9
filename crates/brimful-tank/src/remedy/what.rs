//! What a change is, in words and as it is written.

use crate::finding::Quantity;
use brimful_job::{About, Axis};
use brimful_units::Length;

/// What is changed in a job.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Thicker walls, floor and lid.
    OuterSheets(Length),
    /// Thicker baffles and dividers.
    InnerSheets(Length),
    /// Baffles, in place of those that stood across.
    Baffles {
        /// The axis they stand square to.
        across: Axis,
        /// Where, in the body's axes.
        at: Vec<Length>,
    },
    /// Bands round the walls.
    Bands {
        /// Whether the tank has ribs, which they replace.
        instead: bool,
        /// How far they stand out.
        depth: Length,
        /// Their heights.
        at: Vec<Length>,
    },
    /// Pairs of strips from wall to wall.
    Stays {
        /// How wide the strips are.
        width: Length,
        /// Their heights.
        at: Vec<Length>,
    },
    /// Rails in these places.
    Rails(Vec<Length>),
    /// A board under all of the floor.
    Board,
    /// Less liquid.
    LowerFill {
        /// Air over it.
        air_space: Length,
    },
    /// One and then the other.
    Both(Box<What>, Box<What>),
}

impl What {
    /// In a sentence, in the units of a job.
    pub fn text(&self, about: &About) -> String {
        let length = |length: &Length| Quantity::Length(*length).text(about);
        let thick = |thickness: &Length| Quantity::Thickness(*thickness).text(about);
        let list = |at: &[Length]| at.iter().map(length).collect::<Vec<_>>().join(", ");
        match self {
            Self::OuterSheets(thickness) => format!("Outer sheets of {}.", thick(thickness)),
            Self::InnerSheets(thickness) => {
                format!("Baffles and dividers of {}.", thick(thickness))
            }
            Self::Baffles { across, at } => {
                let baffles = if at.len() == 1 { "baffle" } else { "baffles" };
                let word = if *across == Axis::X { "x" } else { "y" };
                format!("{} {baffles} across {word}, at {}.", at.len(), list(at))
            }
            Self::Bands { instead, depth, at } => {
                let instead = if *instead {
                    " in place of the ribs it has"
                } else {
                    ""
                };
                format!(
                    "{} bands round the walls{instead}, {} deep, at {}.",
                    at.len(),
                    length(depth),
                    list(at)
                )
            }
            Self::Stays { width, at } => format!(
                "{} pairs of stays {} wide from wall to wall, in the middle both ways, at {}.",
                at.len(),
                length(width),
                list(at)
            ),
            Self::Rails(at) => format!("{} rails, at {}.", at.len(), list(at)),
            Self::Board => "A flat board under the whole floor.".to_owned(),
            Self::LowerFill { air_space } => format!(
                "Never filled into the topmost {}, which an overflow of full size has to see to.",
                length(air_space)
            ),
            Self::Both(one, other) => format!("{} {}", one.text(about), other.text(about)),
        }
    }

    /// Where in a job file it is written.
    pub fn entry(&self) -> &'static str {
        match self {
            Self::OuterSheets(_) => "[body] thickness",
            Self::InnerSheets(_) => "[[inner]] thickness",
            Self::Baffles { .. } => "[[inner]] kind = \"baffle\"",
            Self::Bands { .. } => "[[rib]]",
            Self::Stays { .. } => "[[inner]] kind = \"stay\"",
            Self::Rails(_) | Self::Board => "[support]",
            Self::LowerFill { .. } => "[liquid] air_space, [checks] filled_to = \"rated\"",
            Self::Both(_, other) => other.entry(),
        }
    }
}
