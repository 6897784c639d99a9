//! One value of the job file.

use super::super::fault::FaultKind;
use super::super::place::Place;
use super::section::Section;
use super::{Complaint, Reading, shortened};
use brimful_units::{Length, Read, UnitError, UnitFault, length_text};
use std::ops::{Range, RangeInclusive};
use toml::de::{DeTable, DeValue};

/// No tank, space or vehicle is longer; it keeps every product of lengths far from overflow.
const LONGEST: Length = Length::from_m(100.0);
/// No size that can be cut or measured is smaller.
const SMALLEST_SIZE: Length = Length::from_mm(0.01);

/// A list longer than this is no tank; it only bounds the time a hostile file can take.
pub(crate) const MOST_IN_A_LIST: usize = 1000;

/// What sizes are taken.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Bound {
    /// Any place on an axis.
    Any,
    /// Nothing, or more.
    NotNegative,
    /// A size.
    AboveZero,
}

/// One value of the job file, or a default that stands in for it.
#[derive(Clone)]
pub(crate) struct Field<'a> {
    reading: &'a Reading<'a>,
    path: String,
    value: &'a DeValue<'a>,
    span: Range<usize>,
    written: bool,
}

impl<'a> Field<'a> {
    pub(super) fn new(
        reading: &'a Reading<'a>,
        path: String,
        value: &'a DeValue<'a>,
        span: Range<usize>,
        written: bool,
    ) -> Self {
        Self {
            reading,
            path,
            value,
            span,
            written,
        }
    }

    pub(crate) fn place(&self) -> Place {
        if self.written {
            self.reading.place(&self.span)
        } else {
            Place::default()
        }
    }

    pub(super) fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Notes a fault about this value.
    pub(crate) fn refuse<T>(&self, complaint: Complaint) -> Option<T> {
        self.reading.note(&self.span, &self.path, complaint);
        None
    }

    /// Text of one line or more, not empty.
    pub(crate) fn text(&self) -> Option<String> {
        match self.value {
            DeValue::String(text) if !text.trim().is_empty() => Some(text.trim().to_owned()),
            DeValue::String(_) => self.refuse(
                Complaint::new(FaultKind::WrongForm, "the text is empty")
                    .remedy("Write something, or take the key out."),
            ),
            _ => self.wrong_form("text in quotation marks"),
        }
    }

    /// The text as written, empty or not; for values that are recognised by their text.
    pub(crate) fn raw_text(&self) -> Option<&'a str> {
        match self.value {
            DeValue::String(text) => Some(text.as_ref()),
            _ => None,
        }
    }

    /// Yes or no.
    pub(crate) fn flag(&self) -> Option<bool> {
        match self.value {
            DeValue::Boolean(flag) => Some(*flag),
            _ => self.wrong_form("true or false"),
        }
    }

    /// One of a few words.
    pub(crate) fn choice<T: Copy>(&self, words: &[(&str, T)]) -> Option<T> {
        let Some(written) = self.raw_text() else {
            return self.wrong_form("a word in quotation marks");
        };
        let found = words.iter().find(|(word, _)| *word == written);
        match found {
            Some((_, meaning)) => Some(*meaning),
            None => self.unknown_word(written, words.iter().map(|(word, _)| *word)),
        }
    }

    /// Notes a word that is none of those taken.
    pub(crate) fn unknown_word<'w, T>(
        &self,
        written: &str,
        words: impl IntoIterator<Item = &'w str>,
    ) -> Option<T> {
        let says = format!("`{}` is not a word taken here", shortened(written));
        self.refuse(
            Complaint::new(FaultKind::UnknownWord, says)
                .allowed(words)
                .nearest_to(written)
                .remedy("Write one of the words taken."),
        )
    }

    /// A plain number, finite.
    pub(crate) fn number(&self, bound: Bound) -> Option<f64> {
        match self.bare_number() {
            Some(number) => self.within(number, bound, 0.0),
            None => self.wrong_form("a plain number"),
        }
    }

    /// A whole number within a range.
    pub(crate) fn whole(&self, range: RangeInclusive<u32>) -> Option<u32> {
        let whole = match self.value {
            DeValue::Integer(integer) => {
                i64::from_str_radix(integer.as_str(), integer.radix()).unwrap_or(i64::MAX)
            }
            _ => return self.wrong_form("a whole number"),
        };
        match u32::try_from(whole) {
            Ok(number) if range.contains(&number) => Some(number),
            _ => self.refuse(Complaint::new(
                FaultKind::OutOfRange,
                format!(
                    "the number must be from {} to {}",
                    range.start(),
                    range.end()
                ),
            )),
        }
    }

    /// A length; a bare number takes the job's unit.
    pub(crate) fn length(&self, bound: Bound) -> Option<Length> {
        let read = match self.value {
            DeValue::String(text) => match length_text(text) {
                Ok(read) => read,
                Err(error) => return self.unreadable(text, error),
            },
            _ => match self.bare_number() {
                Some(number) => Read::Bare(number),
                None => return self.wrong_form("a length such as \"450 mm\""),
            },
        };
        let length = match read {
            Read::Quantity(length) => length,
            Read::Bare(number) => self.bare_length(number)?,
        };
        let metres = self.within(length.m(), bound, SMALLEST_SIZE.m())?;
        if metres.abs() > LONGEST.m() {
            return self.refuse(Complaint::new(
                FaultKind::OutOfRange,
                "this is longer than 100 m",
            ));
        }
        Some(length)
    }

    /// So many lengths in a list.
    pub(crate) fn lengths<const N: usize>(&self, bound: Bound) -> Option<[Length; N]> {
        let items = self.list(N..=N)?;
        let lengths: Vec<Option<Length>> = items.iter().map(|item| item.length(bound)).collect();
        let lengths: Vec<Length> = lengths.into_iter().collect::<Option<_>>()?;
        lengths.try_into().ok()
    }

    /// A quantity in text, by its own reader.
    pub(crate) fn quantity<Q>(&self, read: impl FnOnce(&str) -> Result<Q, UnitError>) -> Option<Q> {
        match self.value {
            DeValue::String(text) => match read(text) {
                Ok(quantity) => Some(quantity),
                Err(error) => self.unreadable(text, error),
            },
            DeValue::Integer(_) | DeValue::Float(_) => {
                // The reader knows its own units best, so it is asked what a bare number lacks.
                match read("1") {
                    Ok(_) => self.wrong_form("a quantity in quotation marks"),
                    Err(error) => self.unreadable("", error),
                }
            }
            _ => self.wrong_form("a quantity with its unit, in quotation marks"),
        }
    }

    /// A quantity above zero, by its own reader.
    pub(crate) fn quantity_above_zero<Q: PartialOrd + Default>(
        &self,
        read: impl FnOnce(&str) -> Result<Q, UnitError>,
    ) -> Option<Q> {
        let quantity = self.quantity(read)?;
        if quantity > Q::default() {
            Some(quantity)
        } else {
            self.refuse(not_above_zero())
        }
    }

    /// The values of a list, if there are as many as asked for.
    pub(crate) fn list(&self, count: RangeInclusive<usize>) -> Option<Vec<Field<'a>>> {
        let DeValue::Array(items) = self.value else {
            let is_table = matches!(self.value, DeValue::Table(_));
            return self.wrong_form(if is_table {
                "a list (double brackets round the heading)"
            } else {
                "a list in brackets"
            });
        };
        if !count.contains(&items.len()) {
            let (least, most, found) = (*count.start(), *count.end(), items.len());
            let wanted = if least == most {
                format!("{least}")
            } else if found < least {
                format!("at least {least}")
            } else {
                format!("at most {most}")
            };
            let says = format!("the list holds {found} where {wanted} must stand");
            return self.refuse(Complaint::new(FaultKind::WrongCount, says));
        }
        let fields = items.iter().enumerate().map(|(index, item)| {
            let path = format!("{}[{}]", self.path, index + 1);
            Field::new(
                self.reading,
                path,
                item.get_ref(),
                item.span(),
                self.written,
            )
        });
        Some(fields.collect())
    }

    /// The value again, if it is a list of at least one.
    pub(crate) fn filled_list(&self) -> Option<&Self> {
        self.list(1..=MOST_IN_A_LIST).map(|_| self)
    }

    /// The tables of a list such as `[[opening]]`, each read and searched for unknown keys.
    pub(crate) fn each<T>(
        &self,
        mut read: impl FnMut(&Section<'a>, usize) -> Option<T>,
    ) -> Option<Vec<T>> {
        let items = self.list(0..=MOST_IN_A_LIST)?;
        let one_by_one = items.iter().enumerate().map(|(index, item)| {
            let section = item.section()?;
            let one = read(&section, index);
            section.refuse_unknown_keys();
            one
        });
        // All are read before the first that failed counts, so that the faults of all are noted.
        let all: Vec<Option<T>> = one_by_one.collect();
        all.into_iter().collect()
    }

    /// Whether the value is a list.
    pub(crate) fn is_list(&self) -> bool {
        matches!(self.value, DeValue::Array(_))
    }

    /// The value as a table.
    pub(super) fn table(&self) -> Option<&'a DeTable<'a>> {
        match self.value {
            DeValue::Table(table) => Some(table),
            DeValue::Array(_) => self.wrong_form("one table (single brackets round the heading)"),
            _ => self.wrong_form("a table"),
        }
    }

    /// The value as a section.
    pub(crate) fn section(&self) -> Option<Section<'a>> {
        let table = self.table()?;
        Some(Section::new(
            self.reading,
            self.path.clone(),
            Some(table),
            self.span.clone(),
            self.written,
        ))
    }

    fn bare_number(&self) -> Option<f64> {
        match self.value {
            #[expect(
                clippy::cast_precision_loss,
                reason = "sizes past 2^53 are refused as too large anyway"
            )]
            DeValue::Integer(integer) => i64::from_str_radix(integer.as_str(), integer.radix())
                .map(|whole| whole as f64)
                .ok(),
            DeValue::Float(float) => float.as_str().parse().ok(),
            _ => None,
        }
    }

    fn bare_length(&self, number: f64) -> Option<Length> {
        match self.reading.lengths.get() {
            Some(unit) => Some(unit.length(number)),
            // Nought is nought in any unit.
            None if number == 0.0 => Some(Length::ZERO),
            None => self.refuse(
                Complaint::new(FaultKind::BareNumber, "this length has no unit")
                    .allowed(["\"450 mm\"", "\"17 3/4 in\""])
                    .remedy("Write the unit, or set `lengths = \"mm\"` in [job]."),
            ),
        }
    }

    fn within(&self, number: f64, bound: Bound, smallest: f64) -> Option<f64> {
        if !number.is_finite() {
            let says = "this is not a finite number";
            return self.refuse(Complaint::new(FaultKind::OutOfRange, says));
        }
        match bound {
            Bound::AboveZero if number <= 0.0 => self.refuse(not_above_zero()),
            Bound::AboveZero if number < smallest => self.refuse(Complaint::new(
                FaultKind::OutOfRange,
                "this is smaller than anything that can be measured",
            )),
            Bound::NotNegative if number < 0.0 => self.refuse(Complaint::new(
                FaultKind::OutOfRange,
                "this must not be negative",
            )),
            _ => Some(number),
        }
    }

    fn unreadable<T>(&self, text: &str, error: UnitError) -> Option<T> {
        let span = self.span_within_text(text, &error.span);
        let remedy = match &error.fault {
            UnitFault::MissingUnit => "Write the unit after the number, in quotation marks.",
            UnitFault::PlainGallon { .. } => "Write which gallon it is.",
            UnitFault::UnknownUnit { .. } => "Write one of the units taken.",
            _ => "",
        };
        let allowed = match &error.fault {
            UnitFault::PlainGallon { taken } => taken.to_vec(),
            _ => error.allowed.clone(),
        };
        let complaint = Complaint::new(FaultKind::Unit(error.fault.clone()), error.to_string())
            .allowed(allowed)
            .nearest(error.nearest)
            .remedy(remedy);
        self.reading.note(&span, &self.path, complaint);
        None
    }

    /// The place inside the quotation marks, where the text stands in the file as it reads.
    fn span_within_text(&self, text: &str, part: &Range<usize>) -> Range<usize> {
        let inner = self.span.start + 1..self.span.end.saturating_sub(1);
        let as_it_reads = self.reading.text.get(inner.clone()) == Some(text);
        if as_it_reads && !text.is_empty() {
            inner.start + part.start..inner.start + part.end
        } else {
            self.span.clone()
        }
    }

    fn wrong_form<T>(&self, wanted: &str) -> Option<T> {
        let found = match self.value {
            DeValue::String(_) => "text",
            DeValue::Integer(_) | DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        let says = format!("{found} stands here, not {wanted}");
        self.refuse(Complaint::new(FaultKind::WrongForm, says))
    }
}

fn not_above_zero() -> Complaint {
    Complaint::new(FaultKind::OutOfRange, "this must be above zero")
}
