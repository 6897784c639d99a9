//! What can be wrong with a job file.

use brimful_units::UnitFault;
use std::fmt;
use std::ops::Range;

/// One fault in a job file: where, what, what is taken instead, and the remedy.
#[derive(Clone, Debug, PartialEq)]
pub struct JobFault {
    /// What kind of fault it is.
    pub kind: FaultKind,
    /// The line, counted from 1.
    pub line: usize,
    /// The character in the line, counted from 1.
    pub column: usize,
    /// The bytes of the text it is about; always on character borders inside the text.
    pub span: Range<usize>,
    /// The key it is about, as `space.obstacle[2].from`; empty for the file as a whole.
    pub path: String,
    /// What is wrong, as a sentence.
    pub says: String,
    /// What is taken here.
    pub allowed: Vec<String>,
    /// What was probably meant.
    pub nearest: Option<String>,
    /// What to do, as a sentence.
    pub remedy: String,
}

/// The kinds of fault in a job file.
#[derive(Clone, Debug, PartialEq)]
pub enum FaultKind {
    /// The file is larger than any job.
    TooLarge,
    /// The text is not TOML.
    NotToml,
    /// Values within values, too deep.
    TooDeep,
    /// A key or table that is not known.
    UnknownKey,
    /// A key or table that must be there is not.
    Missing,
    /// Two keys that exclude each other.
    NotTogether,
    /// Text where a number is wanted, a list where a table is wanted, and so on.
    WrongForm,
    /// A word that is not one of those taken.
    UnknownWord,
    /// A quantity that cannot be read.
    Unit(UnitFault),
    /// A number without a unit, in a job that names no unit of lengths.
    BareNumber,
    /// Zero, negative, not a number, infinite, or past a stated limit.
    OutOfRange,
    /// Too few or too many things in a list.
    WrongCount,
    /// A name used twice.
    NameTwice,
    /// A liquid that Brimful does not make tanks for.
    RefusedLiquid,
}

impl fmt::Display for JobFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "line {}, column {}: ", self.line, self.column)?;
        if !self.path.is_empty() {
            write!(out, "{}: ", self.path)?;
        }
        write!(out, "{}.", self.says)?;
        if let Some(nearest) = &self.nearest {
            write!(out, " Did you mean `{nearest}`?")?;
        }
        if !self.allowed.is_empty() {
            write!(out, " Taken here: {}.", self.allowed.join(", "))?;
        }
        if !self.remedy.is_empty() {
            write!(out, " {}", self.remedy)?;
        }
        Ok(())
    }
}

impl std::error::Error for JobFault {}
