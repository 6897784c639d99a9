//! One value of the job file.

use super::super::default::DefaultValue;
use super::super::fault::{FaultKind, Form, Items, Named, OutOfRange};
use super::super::form::{KeyForm, Limits};
use super::super::place::Place;
use super::complaint::{Complaint, shortened};
use super::measure::Measure;
use super::reading::{BareLengths, Reading};
use brimful_units::{Angle, Length, QuantityKind, Read, UnitError, UnitFault, length_text};
use std::ops::{Range, RangeInclusive};
use toml::de::{DeTable, DeValue};

/// No tank, space or vehicle is longer; it keeps every product of lengths far from overflow.
pub const LONGEST: Length = Length::from_m(100.0);
/// No size that can be cut or measured is smaller.
const SMALLEST_SIZE: Length = Length::from_mm(0.01);

/// A list longer than this is no tank; it only bounds the time a hostile file can take.
pub const MOST_IN_A_LIST: usize = 1000;

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

impl Bound {
    fn limits(self) -> Limits {
        match self {
            Self::Any => Limits::Any,
            Self::NotNegative => Limits::NotNegative,
            Self::AboveZero => Limits::AboveZero,
        }
    }
}

/// One value of the job file, or a default that stands in for it.
#[derive(Clone)]
pub(crate) struct Field<'a> {
    pub(super) reading: &'a Reading<'a>,
    pub(super) path: String,
    value: &'a DeValue<'a>,
    pub(super) span: Range<usize>,
    pub(super) written: bool,
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
    pub(crate) fn refuse<T>(&self, complaint: impl Into<Complaint>) -> Option<T> {
        self.reading.note(&self.span, &self.path, complaint.into());
        None
    }

    /// Notes a form that is taken here.
    pub(crate) fn takes(&self, form: impl FnOnce() -> KeyForm) {
        self.reading.trace_form(&self.path, form);
    }

    /// Remembers what was read, where it is a part of a default.
    fn has_read(&self, value: DefaultValue) {
        if !self.written {
            self.reading.note_default_part(&self.path, value);
        }
    }

    /// Text of one line or more, not empty.
    pub(crate) fn text(&self) -> Option<String> {
        self.takes(|| KeyForm::Text);
        self.any_text()
    }

    /// One of the words of a table, or of names known elsewhere.
    pub(crate) fn word<'w>(&self, words: impl IntoIterator<Item = &'w str>) -> Option<String> {
        let words = words.into_iter().map(str::to_owned);
        self.takes(|| KeyForm::Words(words.collect()));
        self.any_text()
    }

    fn any_text(&self) -> Option<String> {
        match self.value {
            DeValue::String(text) if !text.trim().is_empty() => {
                let text = text.trim().to_owned();
                self.has_read(DefaultValue::Word(text.clone()));
                Some(text)
            }
            DeValue::String(_) => self.refuse(FaultKind::EmptyText),
            _ => self.wrong_form(Form::Text),
        }
    }

    /// Whether this very word stands here, in place of a value of another form.
    pub(crate) fn is_word(&self, word: &'static str) -> bool {
        self.takes(|| KeyForm::Words(vec![word.to_owned()]));
        let is_word = self.raw_text() == Some(word);
        if is_word {
            self.has_read(DefaultValue::Word(word.to_owned()));
        }
        is_word
    }

    /// The text as written, empty or not.
    pub(crate) fn raw_text(&self) -> Option<&'a str> {
        match self.value {
            DeValue::String(text) => Some(text.as_ref()),
            _ => None,
        }
    }

    /// Yes or no.
    pub(crate) fn flag(&self) -> Option<bool> {
        self.takes(|| KeyForm::Flag);
        match self.value {
            DeValue::Boolean(flag) => {
                self.has_read(DefaultValue::Flag(*flag));
                Some(*flag)
            }
            _ => self.wrong_form(Form::Flag),
        }
    }

    /// One of a few words.
    pub(crate) fn choice<T: Copy>(&self, words: &[(&str, T)]) -> Option<T> {
        let all = || words.iter().map(|(word, _)| *word);
        self.takes(|| KeyForm::Words(all().map(str::to_owned).collect()));
        let Some(written) = self.raw_text() else {
            return self.wrong_form(Form::Word);
        };
        match words.iter().find(|(word, _)| *word == written) {
            Some((word, meaning)) => {
                self.has_read(DefaultValue::Word((*word).to_owned()));
                Some(*meaning)
            }
            None => self.unknown_word(written, Named::Choice, all()),
        }
    }

    /// Notes a word that is none of those taken.
    pub(crate) fn unknown_word<'w, T>(
        &self,
        written: &str,
        names: Named,
        words: impl IntoIterator<Item = &'w str>,
    ) -> Option<T> {
        let kind = FaultKind::UnknownWord {
            written: shortened(written),
            names,
        };
        self.refuse(Complaint::new(kind).allowed(words).nearest_to(written))
    }

    /// A plain number, finite.
    pub(crate) fn number(&self, bound: Bound) -> Option<f64> {
        self.takes(|| KeyForm::Number(bound.limits()));
        self.any_number(bound)
    }

    /// A plain number between two limits; `past` is the fault of one above the upper one.
    pub(crate) fn number_within(
        &self,
        range: RangeInclusive<f64>,
        past: OutOfRange,
    ) -> Option<f64> {
        let (least, most) = (*range.start(), *range.end());
        self.takes(|| {
            let [least, most] = [least, most].map(DefaultValue::Number);
            KeyForm::Number(Limits::Within(least, most))
        });
        let bound = match least > 0.0 {
            true => Bound::AboveZero,
            false => Bound::NotNegative,
        };
        let number = self.any_number(bound)?;
        match number {
            _ if range.contains(&number) => Some(number),
            _ => self.refuse(past),
        }
    }

    fn any_number(&self, bound: Bound) -> Option<f64> {
        let Some(number) = self.bare_number() else {
            return self.wrong_form(Form::Number);
        };
        self.has_read(DefaultValue::Number(number));
        self.within(number, bound, 0.0)
    }

    /// A whole number within a range.
    pub(crate) fn whole(&self, range: RangeInclusive<u32>) -> Option<u32> {
        let (least, most) = (*range.start(), *range.end());
        self.takes(|| KeyForm::WholeNumber { least, most });
        let whole = match self.value {
            DeValue::Integer(integer) => {
                i64::from_str_radix(integer.as_str(), integer.radix()).unwrap_or(i64::MAX)
            }
            _ => return self.wrong_form(Form::WholeNumber),
        };
        match u32::try_from(whole) {
            Ok(number) if range.contains(&number) => {
                self.has_read(DefaultValue::Number(f64::from(number)));
                Some(number)
            }
            _ => self.refuse(OutOfRange::Whole { least, most }),
        }
    }

    /// A length; a bare number takes the job's unit.
    pub(crate) fn length(&self, bound: Bound) -> Option<Length> {
        self.takes(|| KeyForm::Quantity {
            kind: QuantityKind::Length,
            limits: bound.limits(),
        });
        self.any_length(bound)
    }

    /// A length between two others.
    pub(crate) fn length_within(&self, range: RangeInclusive<Length>) -> Option<Length> {
        let (least, most) = (*range.start(), *range.end());
        self.takes(|| KeyForm::Quantity {
            kind: QuantityKind::Length,
            limits: Limits::Within(DefaultValue::Length(least), DefaultValue::Length(most)),
        });
        let length = self.any_length(Bound::AboveZero)?;
        match range.contains(&length) {
            true => Some(length),
            false => self.refuse(OutOfRange::Length { least, most }),
        }
    }

    /// The radius of a corner, no sharper than `least`.
    pub(crate) fn radius(&self, least: Length) -> Option<Length> {
        self.takes(|| KeyForm::Quantity {
            kind: QuantityKind::Length,
            limits: Limits::AtLeast(DefaultValue::Length(least)),
        });
        let radius = self.any_length(Bound::AboveZero)?;
        if radius < least {
            return self.refuse(OutOfRange::TooSharp { least });
        }
        Some(radius)
    }

    fn any_length(&self, bound: Bound) -> Option<Length> {
        let read = match self.value {
            DeValue::String(text) => match length_text(text) {
                Ok(read) => read,
                Err(error) => return self.unreadable(text, error),
            },
            _ => match self.bare_number() {
                Some(number) => Read::Bare(number),
                None => return self.wrong_form(Form::Quantity(QuantityKind::Length)),
            },
        };
        let length = match read {
            Read::Quantity(length) => length,
            Read::Bare(number) => self.bare_length(number)?,
        };
        let metres = self.within(length.m(), bound, SMALLEST_SIZE.m())?;
        if metres.abs() > LONGEST.m() {
            return self.refuse(OutOfRange::TooLong { most: LONGEST });
        }
        self.has_read(DefaultValue::Length(length));
        Some(length)
    }

    /// So many lengths in a list.
    pub(crate) fn lengths<const N: usize>(&self, bound: Bound) -> Option<[Length; N]> {
        let lengths = self.all(N..=N, Items::Lengths, |item| item.length(bound))?;
        lengths.try_into().ok()
    }

    /// A quantity in text.
    pub(crate) fn quantity<Q: Measure>(&self) -> Option<Q> {
        self.takes(|| KeyForm::Quantity {
            kind: Q::KIND,
            limits: Limits::Any,
        });
        self.any_quantity()
    }

    /// A quantity in text, above zero.
    pub(crate) fn quantity_above_zero<Q: Measure + Default>(&self) -> Option<Q> {
        self.takes(|| KeyForm::Quantity {
            kind: Q::KIND,
            limits: Limits::AboveZero,
        });
        let quantity: Q = self.any_quantity()?;
        match quantity > Q::default() {
            true => Some(quantity),
            false => self.refuse(OutOfRange::NotAboveZero),
        }
    }

    /// An angle between two limits.
    pub(crate) fn angle_within(&self, range: RangeInclusive<Angle>) -> Option<Angle> {
        let (least, most) = (*range.start(), *range.end());
        self.takes(|| KeyForm::Quantity {
            kind: QuantityKind::Angle,
            limits: Limits::Within(DefaultValue::Angle(least), DefaultValue::Angle(most)),
        });
        let angle = self.any_quantity()?;
        match range.contains(&angle) {
            true => Some(angle),
            false => self.refuse(OutOfRange::Angle { least, most }),
        }
    }

    fn any_quantity<Q: Measure>(&self) -> Option<Q> {
        match self.value {
            DeValue::String(text) => self.quantity_of(text),
            // The reader knows its own units best, so it is asked what a bare number lacks.
            DeValue::Integer(_) | DeValue::Float(_) => match Q::read("1") {
                Ok(_) => self.wrong_form(Form::Quantity(Q::KIND)),
                Err(error) => self.unreadable("", error),
            },
            _ => self.wrong_form(Form::Quantity(Q::KIND)),
        }
    }

    /// A quantity in a part of the text that stands here.
    pub(crate) fn quantity_of<Q: Measure>(&self, text: &str) -> Option<Q> {
        match Q::read(text) {
            Ok(quantity) => {
                self.has_read(quantity.as_default());
                Some(quantity)
            }
            Err(error) => self.unreadable(text, error),
        }
    }

    /// The values of a list, if there are as many as asked for.
    pub(crate) fn list(&self, count: RangeInclusive<usize>, of: Items) -> Option<Vec<Field<'a>>> {
        let (least, most) = (*count.start(), *count.end());
        self.takes(|| match of {
            Items::Tables => KeyForm::Tables,
            _ => KeyForm::List {
                least,
                most,
                items: Vec::new(),
            },
        });
        let DeValue::Array(items) = self.value else {
            let is_table = matches!(self.value, DeValue::Table(_));
            return self.wrong_form(if is_table { Form::Tables } else { Form::List });
        };
        if !count.contains(&items.len()) {
            return self.refuse(FaultKind::WrongCount {
                found: items.len(),
                least,
                most,
                items: of,
            });
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

    /// All values of a list, or none after the faults of all have been noted.
    pub(crate) fn all<T>(
        &self,
        count: RangeInclusive<usize>,
        of: Items,
        read: impl Fn(&Self) -> Option<T>,
    ) -> Option<Vec<T>> {
        let read: Vec<Option<T>> = self.list(count, of)?.iter().map(read).collect();
        read.into_iter().collect()
    }

    /// The value again, if it is a list of at least one table.
    pub(crate) fn filled_list(&self) -> Option<&Self> {
        self.list(1..=MOST_IN_A_LIST, Items::Tables).map(|_| self)
    }

    /// Whether the value is a list.
    pub(crate) fn is_list(&self) -> bool {
        matches!(self.value, DeValue::Array(_))
    }

    /// The value as a table.
    pub(super) fn table(&self) -> Option<&'a DeTable<'a>> {
        self.takes(|| KeyForm::Table);
        match self.value {
            DeValue::Table(table) => Some(table),
            _ => self.wrong_form(Form::Table),
        }
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
            BareLengths::In(unit) => Some(unit.length(number)),
            // Zero is zero in any unit.
            _ if number == 0.0 => Some(Length::ZERO),
            _ => {
                self.reading.note_bare_length(&self.span, &self.path);
                None
            }
        }
    }

    fn within(&self, number: f64, bound: Bound, smallest: f64) -> Option<f64> {
        let fault = match bound {
            _ if !number.is_finite() => OutOfRange::NotFinite,
            Bound::AboveZero if number <= 0.0 => OutOfRange::NotAboveZero,
            Bound::AboveZero if number < smallest => OutOfRange::TooSmall,
            Bound::NotNegative if number < 0.0 => OutOfRange::Negative,
            _ => return Some(number),
        };
        self.refuse(fault)
    }

    fn unreadable<T>(&self, text: &str, error: UnitError) -> Option<T> {
        let span = self.span_within_text(text, &error.span);
        let allowed = match &error.fault {
            UnitFault::PlainGallon { taken } => taken.to_vec(),
            _ => error.allowed,
        };
        let kind = FaultKind::Unit {
            quantity: error.quantity,
            fault: error.fault,
        };
        let complaint = Complaint::new(kind).allowed(allowed).nearest(error.nearest);
        self.reading.note(&span, &self.path, complaint);
        None
    }

    /// The place inside the quotation marks, where the text stands in the file as it reads.
    fn span_within_text(&self, text: &str, part: &Range<usize>) -> Range<usize> {
        let inner = self.span.start + 1..self.span.end.saturating_sub(1);
        let written = self.reading.text.get(inner.clone());
        let as_it_reads = written.is_some_and(|written| written.starts_with(text));
        if as_it_reads && !text.is_empty() {
            inner.start + part.start..inner.start + part.end
        } else {
            self.span.clone()
        }
    }

    /// Notes a value of another form than the one wanted.
    pub(crate) fn wrong_form<T>(&self, wanted: Form) -> Option<T> {
        let found = match self.value {
            DeValue::String(_) => Form::Text,
            DeValue::Integer(_) | DeValue::Float(_) => Form::Number,
            DeValue::Boolean(_) => Form::Flag,
            DeValue::Datetime(_) => Form::Date,
            DeValue::Array(_) => Form::List,
            DeValue::Table(_) => Form::Table,
        };
        self.refuse(FaultKind::WrongForm { found, wanted })
    }
}
