//! Everything that Brimful knows, in words: the only crate that knows a language or a display unit.
//!
//! Below it a finding, a fault, a load case or a step is a value. Here an exhaustive match says each in
//! a sentence, so that a variant without words does not compile. A sentence is an English template
//! with named places ([`say!`]); another language is a table from template to template ([`Language`]).

// Before all others: they say everything by its macro.
#[macro_use]
mod text;

mod candidate;
mod case;
pub mod cause;
mod caution;
mod change;
mod contents;
mod corner;
mod cutting;
mod default;
mod engine;
pub mod finding;
mod fixture;
mod groove;
mod heat;
mod hours;
mod job_fault;
mod key_form;
mod liquid;
pub mod names;
mod offer;
mod order;
mod print;
mod progress;
mod pull;
mod quantity;
mod reference;
mod room;
mod setting;
pub mod shape_fault;
mod shell;
mod slosh;
mod source;
mod step;
mod trade;
pub mod verdict;
mod way_in;
mod words;

pub use brimful_units::{InchFraction, UnitSystem};
pub use caution::CautionText;
pub use change::change_entry;
pub use default::DefaultText;
pub use job_fault::JobFaultText;
pub use reference::KeyText;
pub use text::{Language, Text};
pub use words::Words;
