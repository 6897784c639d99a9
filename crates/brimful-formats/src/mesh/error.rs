//! Why a surface cannot be read.

use super::limit::MOST_TRIANGLES;
use std::fmt;

/// Why a surface cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum MeshError {
    /// The file is not of the form it should have.
    Form {
        /// `line 12` or `byte 840`.
        place: String,
        /// What is wrong, as a clause.
        what: String,
    },
    /// The file ends before it should.
    Ended,
    /// There are no triangles in it.
    Empty,
    /// There are more triangles than anybody needs.
    TooLarge,
    /// The file refers to another file, which is not read.
    OtherFile {
        /// The name.
        name: String,
    },
}

impl MeshError {
    pub(super) fn form(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self::Form {
            place: place.into(),
            what: what.into(),
        }
    }
}

impl fmt::Display for MeshError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Form { place, what } => write!(f, "At {place} {what}."),
            Self::Ended => f.write_str("The file ends before it is complete."),
            Self::Empty => f.write_str("There is no triangle in the file."),
            Self::TooLarge => write!(
                f,
                "There are more than {MOST_TRIANGLES} triangles in the file."
            ),
            Self::OtherFile { name } => write!(
                f,
                "The file refers to another one, `{name}`, which is not read."
            ),
        }
    }
}

impl std::error::Error for MeshError {}
