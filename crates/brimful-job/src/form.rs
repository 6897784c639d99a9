//! The forms that the values of keys have, as the reader of jobs takes them.

use super::default::DefaultValue;
use brimful_units::QuantityKind;

/// A form that the value of a key may have.
#[derive(Clone, Debug, PartialEq)]
pub enum KeyForm {
    /// Text in quotation marks.
    Text,
    /// Yes or no.
    Flag,
    /// One of a few words in quotation marks.
    Words(Vec<String>),
    /// A plain number.
    Number(Limits),
    /// A whole number.
    WholeNumber {
        /// The least.
        least: u32,
        /// The most.
        most: u32,
    },
    /// A number with a unit; of a length, the unit may be the job's.
    Quantity {
        /// Of what.
        kind: QuantityKind,
        /// Between which limits.
        limits: Limits,
    },
    /// A volume and which capacity it is.
    Capacity(Vec<String>),
    /// A list.
    List {
        /// The fewest items.
        least: usize,
        /// The most items.
        most: usize,
        /// The forms of an item.
        items: Vec<Self>,
    },
    /// A table whose keys are listed for themselves.
    Table,
    /// A list of tables whose keys are listed for themselves.
    Tables,
    /// A table whose keys are names.
    Named {
        /// The forms of a value.
        items: Vec<Self>,
    },
}

/// The limits of a number or quantity.
#[derive(Clone, Debug, PartialEq)]
pub enum Limits {
    /// Any.
    Any,
    /// Zero or more.
    NotNegative,
    /// More than zero.
    AboveZero,
    /// So much or more.
    AtLeast(DefaultValue),
    /// From the one to the other.
    Within(DefaultValue, DefaultValue),
}

/// Whether a key must be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Presence {
    /// It must, wherever its section stands.
    Needed,
    /// It must where what stands beside it asks for it.
    Conditional,
    /// It may be left out, and nothing stands in for it.
    Optional,
    /// It may be left out, and a default stands in for it.
    Defaulted,
}
