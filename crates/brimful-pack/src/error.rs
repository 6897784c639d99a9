//! Why a pack cannot be made.

use brimful_formats::error::FormatError;
use brimful_formats::pdf::PdfError;
use std::fmt;

/// Why a pack cannot be made.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum PackError {
    /// The pages cannot be set.
    Pages(PdfError),
    /// A file for other programs cannot be written.
    File {
        /// The name of the file.
        name: String,
        /// Why.
        fault: FormatError,
    },
}

impl fmt::Display for PackError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pages(fault) => fault.fmt(f),
            Self::File { name, fault } => write!(f, "{name} cannot be written. {fault}"),
        }
    }
}

impl std::error::Error for PackError {}

impl From<PdfError> for PackError {
    fn from(fault: PdfError) -> Self {
        Self::Pages(fault)
    }
}
