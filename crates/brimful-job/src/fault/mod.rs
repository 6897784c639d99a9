//! What can be wrong with a job file: values alone. `brimful-text` puts them into words.

mod conflict;
mod missing;
mod out_of_range;

pub use conflict::Conflict;
pub use missing::Missing;
pub use out_of_range::OutOfRange;

use brimful_units::{QuantityKind, UnitFault};
use std::ops::Range;

/// One fault in a job file: where, what, and what is taken instead.
#[derive(Clone, Debug, PartialEq)]
pub struct JobFault {
    /// What is wrong.
    pub kind: FaultKind,
    /// The line, counted from 1.
    pub line: usize,
    /// The character in the line, counted from 1.
    pub column: usize,
    /// The bytes of the text it is about; always on character borders inside the text.
    pub span: Range<usize>,
    /// The key it is about, as `space.obstacle[2].from`; empty for the file as a whole.
    pub path: String,
    /// The words, units or keys that are taken here, as they are written.
    pub allowed: Vec<String>,
    /// The one of them that was probably meant.
    pub nearest: Option<String>,
    /// How the key is written, out of the reference of keys.
    pub example: Option<&'static str>,
}

impl JobFault {
    /// The last part of the path: the key, or the item of a list, as `plan[3]`.
    #[must_use]
    pub fn key(&self) -> &str {
        self.path.rsplit('.').next().unwrap_or_default()
    }
}

/// The kinds of fault in a job file.
#[derive(Clone, Debug, PartialEq)]
pub enum FaultKind {
    /// The file is larger than any job.
    TooLarge {
        /// The largest that is read, in bytes.
        most: usize,
    },
    /// There are more faults than are listed.
    TooManyFaults,
    /// Values within values, too deep.
    TooDeep,
    /// The text is not TOML.
    NotToml {
        /// What the reader of TOML says to it.
        message: String,
    },
    /// A key stands twice in its section.
    KeyTwice,
    /// A section that no job has.
    UnknownSection {
        /// As it is written.
        written: String,
    },
    /// A key that its section does not have.
    UnknownKey {
        /// As it is written.
        written: String,
        /// The path of the section.
        section: String,
    },
    /// Something must be there and is not.
    Missing(Missing),
    /// Keys or words that exclude each other.
    Conflict(Conflict),
    /// Text of no letters.
    EmptyText,
    /// Text where a number is wanted, a list where a table is wanted, and so on.
    WrongForm {
        /// What stands there.
        found: Form,
        /// What is taken there.
        wanted: Form,
    },
    /// A word that is not one of those taken.
    UnknownWord {
        /// As it is written.
        written: String,
        /// What it was to name.
        names: Named,
    },
    /// A volume that does not say which capacity it is.
    NoCapacity,
    /// A quantity that cannot be read.
    Unit {
        /// What was to be read.
        quantity: QuantityKind,
        /// What is wrong with it.
        fault: UnitFault,
    },
    /// A length without a unit, in a job that names no unit of lengths.
    BareLength {
        /// How many more follow in the file.
        more: usize,
    },
    /// A number or quantity past a limit.
    OutOfRange(OutOfRange),
    /// Too few or too many things in a list.
    WrongCount {
        /// How many there are.
        found: usize,
        /// How few there may be.
        least: usize,
        /// How many there may be.
        most: usize,
        /// What they are.
        items: Items,
    },
    /// Heights of corners, as many as there are not corners.
    HeightsForCorners {
        /// How many heights there are.
        heights: usize,
        /// How many corners the floor has.
        corners: usize,
    },
    /// Neighbouring stations that no sides join.
    StationCorners {
        /// How many corners the first has.
        first: usize,
        /// How many corners the next has.
        second: usize,
    },
    /// Two stations at one place.
    StationTwice,
    /// The order of work sets a panel twice.
    SetTwice {
        /// The name of the panel.
        name: String,
    },
    /// A name used twice.
    NameTwice {
        /// The name.
        name: String,
    },
    /// A liquid that Brimful does not make tanks for.
    RefusedLiquid {
        /// As it is written.
        written: String,
        /// Why, in a clause of the table of liquids.
        reason: &'static str,
        /// What to do, in a sentence of the table of liquids.
        remedy: &'static str,
    },
}

/// The form of a value, found or wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Text in quotation marks.
    Text,
    /// A word in quotation marks, one of a few.
    Word,
    /// Yes or no.
    Flag,
    /// A number.
    Number,
    /// A whole number.
    WholeNumber,
    /// A date.
    Date,
    /// A quantity, a number with its unit.
    Quantity(QuantityKind),
    /// A list.
    List,
    /// A table, as `[support]`.
    Table,
    /// A list of tables, as `[[opening]]`.
    Tables,
}

/// What the items of a list are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Items {
    /// Lengths.
    Lengths,
    /// Points of a drawing, each of two lengths.
    Points,
    /// Points in space, each of three lengths.
    Corners,
    /// Faces, each a list of corners.
    Faces,
    /// Numbers of corners.
    CornerNumbers,
    /// Angles.
    Angles,
    /// Names.
    Names,
    /// Words of a table.
    Words,
    /// Tables, as of `[[opening]]`.
    Tables,
}

/// What a word names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Named {
    /// One of a few choices.
    Choice,
    /// A liquid of the table.
    Liquid,
    /// A standard event.
    Event,
    /// One of the two faces of a joint.
    FaceOfJoint,
}
