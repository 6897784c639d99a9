//! Walks through a quantity as written, byte offsets in hand.

use super::error::{QuantityKind, UnitError, UnitFault};
use super::tables::{Spelled, UnitTable};
use crate::spelling;
use std::ops::Range;

/// Fractions that have a letter of their own.
const FRACTION_SIGNS: [(char, f64); 7] = [
    ('½', 1.0 / 2.0),
    ('¼', 1.0 / 4.0),
    ('¾', 3.0 / 4.0),
    ('⅛', 1.0 / 8.0),
    ('⅜', 3.0 / 8.0),
    ('⅝', 5.0 / 8.0),
    ('⅞', 7.0 / 8.0),
];

/// A place in the text, with what is needed to say what went wrong there.
pub(super) struct Scanner<'a> {
    text: &'a str,
    offset: usize,
    quantity: QuantityKind,
    /// Every spelling, each with the one that is offered for it.
    spellings: Vec<(&'static str, &'static str)>,
}

impl<'a> Scanner<'a> {
    pub(super) fn new<Q>(text: &'a str, table: &UnitTable<Q>) -> Self {
        let mut scanner = Self {
            text: text.trim_end(),
            offset: 0,
            quantity: table.quantity,
            spellings: table.units.iter().flat_map(Spelled::spellings).collect(),
        };
        scanner.skip_spaces();
        scanner
    }

    pub(super) fn offset(&self) -> usize {
        self.offset
    }

    pub(super) fn at_end(&self) -> bool {
        self.offset >= self.text.len()
    }

    /// A number: decimal, fraction, or whole and fraction; then any spaces.
    pub(super) fn number(&mut self) -> Result<f64, UnitError> {
        if self.at_end() {
            return Err(self.error_here(UnitFault::Empty));
        }
        let negative = self.take_sign();
        let start = self.offset;
        let size = match self.fraction()? {
            Some(fraction) => fraction,
            None => self.decimal()? + self.fraction_after_whole(start)?,
        };
        if !size.is_finite() {
            return Err(self.error_from(start, UnitFault::NotFinite));
        }
        self.skip_spaces();
        Ok(if negative { -size } else { size })
    }

    /// One unit: a run of letters, or a foot or inch mark; then any spaces.
    pub(super) fn unit_word(&mut self) -> Result<Range<usize>, UnitError> {
        let start = self.offset;
        let rest = &self.text[start..];
        let is_letter = |character: char| character.is_alphabetic() || character == '.';
        let length = match rest.chars().next() {
            Some(first) if is_letter(first) => rest
                .find(|character| !is_letter(character))
                .unwrap_or(rest.len()),
            Some(first) => {
                let doubled = rest.starts_with("''");
                if doubled { 2 } else { first.len_utf8() }
            }
            None => return Err(self.error_here(UnitFault::MissingUnit)),
        };
        self.offset += length;
        self.skip_spaces();
        Ok(start..start + length)
    }

    /// All that is left, as one unit.
    pub(super) fn rest(&mut self) -> Range<usize> {
        let start = self.offset;
        self.offset = self.text.len();
        start..self.offset
    }

    /// The words in a range, with single spaces between.
    pub(super) fn words(&self, range: Range<usize>) -> String {
        let words: Vec<&str> = self.text[range].split_whitespace().collect();
        words.join(" ")
    }

    /// The dash some draughtsmen put between feet and inches.
    pub(super) fn skip_dash(&mut self) {
        if self.peek() == Some('-') {
            self.offset += 1;
            self.skip_spaces();
        }
    }

    pub(super) fn error_here(&self, fault: UnitFault) -> UnitError {
        self.error_at(self.offset..self.text.len(), fault)
    }

    pub(super) fn error_from(&self, start: usize, fault: UnitFault) -> UnitError {
        self.error_at(start..self.offset.max(self.text.len()), fault)
    }

    pub(super) fn error_at(&self, span: Range<usize>, fault: UnitFault) -> UnitError {
        let nearest = match &fault {
            UnitFault::UnknownUnit { found } => self.nearest(found),
            _ => None,
        };
        let offered =
            |(spelling, word): &(&'static str, &'static str)| (spelling == word).then_some(*word);
        UnitError {
            fault,
            span,
            quantity: self.quantity,
            allowed: self.spellings.iter().filter_map(offered).collect(),
            nearest,
        }
    }

    fn nearest(&self, written: &str) -> Option<&'static str> {
        let spellings = self.spellings.iter().map(|(spelling, _)| *spelling);
        let nearest = spelling::nearest(written, spellings)?;
        let found = self
            .spellings
            .iter()
            .find(|(spelling, _)| *spelling == nearest);
        found.map(|(_, word)| *word)
    }

    fn peek(&self) -> Option<char> {
        self.text[self.offset..].chars().next()
    }

    fn skip_spaces(&mut self) {
        let rest = &self.text[self.offset..];
        self.offset += rest.len() - rest.trim_start().len();
    }

    fn take_sign(&mut self) -> bool {
        match self.peek() {
            Some(sign @ ('-' | '+' | '\u{2212}')) => {
                self.offset += sign.len_utf8();
                self.skip_spaces();
                sign != '+'
            }
            _ => false,
        }
    }

    fn digits(&mut self) -> &'a str {
        let rest = &self.text[self.offset..];
        let length = rest
            .find(|character: char| !character.is_ascii_digit())
            .unwrap_or(rest.len());
        self.offset += length;
        &rest[..length]
    }

    /// `3/4` or `¾`, if that is what stands here; the place is unchanged if not.
    fn fraction(&mut self) -> Result<Option<f64>, UnitError> {
        if let Some((sign, value)) = self.fraction_sign() {
            self.offset += sign.len_utf8();
            return Ok(Some(value));
        }
        let start = self.offset;
        let over = self.digits();
        if over.is_empty() || self.peek() != Some('/') {
            self.offset = start;
            return Ok(None);
        }
        self.offset += 1;
        let under_start = self.offset;
        let under = self.digits();
        if under.is_empty() {
            return Err(self.error_from(under_start, UnitFault::NotANumber));
        }
        let divisor = self.value(under, under_start)?;
        if divisor == 0.0 {
            return Err(self.error_at(under_start..self.offset, UnitFault::ZeroDenominator));
        }
        Ok(Some(self.value(over, start)? / divisor))
    }

    fn fraction_sign(&self) -> Option<(char, f64)> {
        let here = self.peek()?;
        FRACTION_SIGNS
            .iter()
            .copied()
            .find(|(sign, _)| *sign == here)
    }

    /// ` 3/4`, `-3/4` or `¾` after a whole number; nothing if there is none.
    fn fraction_after_whole(&mut self, start: usize) -> Result<f64, UnitError> {
        let end_of_whole = self.offset;
        let is_whole = self.text[start..end_of_whole]
            .chars()
            .all(|character| character.is_ascii_digit());
        if is_whole {
            self.skip_spaces();
            if self.peek() == Some('-') {
                self.offset += 1;
            }
            if (self.offset > end_of_whole || self.fraction_sign().is_some())
                && let Some(fraction) = self.fraction()?
            {
                return Ok(fraction);
            }
        }
        self.offset = end_of_whole;
        Ok(0.0)
    }

    fn decimal(&mut self) -> Result<f64, UnitError> {
        let start = self.offset;
        let whole = self.digits();
        let mut plain = whole.to_owned();
        if let Some(mark @ ('.' | ',')) = self.peek() {
            self.offset += 1;
            let decimals = self.digits();
            if decimals.is_empty() {
                return Err(self.error_from(start, UnitFault::NotANumber));
            }
            let may_be_thousands =
                (1..=3).contains(&whole.len()) && !whole.starts_with('0') && decimals.len() == 3;
            if mark == ',' && may_be_thousands {
                return Err(self.error_at(start..self.offset, UnitFault::ThousandsOrDecimal));
            }
            plain.push('.');
            plain.push_str(decimals);
        }
        if plain.is_empty() {
            return Err(self.error_from(start, UnitFault::NotANumber));
        }
        self.value(&plain, start)
    }

    fn value(&self, digits: &str, start: usize) -> Result<f64, UnitError> {
        digits
            .parse()
            .map_err(|_| self.error_at(start..self.offset, UnitFault::NotANumber))
    }
}
