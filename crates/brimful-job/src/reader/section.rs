//! A table of the job file.

use super::super::default::{DefaultReason, DefaultSource, DefaultUsed};
use super::super::defaults;
use super::super::fault::{FaultKind, Items, Missing};
use super::super::form::{KeyForm, Presence};
use super::super::keys;
use super::super::place::Place;
use super::complaint::{Complaint, shortened};
use super::field::{Field, MOST_IN_A_LIST};
use super::reading::Reading;
use std::cell::RefCell;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// A table of the job file, or the lack of it.
pub(crate) struct Section<'a> {
    reading: &'a Reading<'a>,
    path: String,
    table: Option<&'a DeTable<'a>>,
    span: Range<usize>,
    /// Written in the file; not out of the table of defaults.
    written: bool,
    known: RefCell<Vec<&'static str>>,
}

impl<'a> Section<'a> {
    fn new(
        reading: &'a Reading<'a>,
        path: String,
        table: Option<&'a DeTable<'a>>,
        span: Range<usize>,
        written: bool,
    ) -> Self {
        Self {
            reading,
            path,
            table,
            span,
            written,
            known: RefCell::default(),
        }
    }

    pub(crate) fn reading(&self) -> &'a Reading<'a> {
        self.reading
    }

    pub(crate) fn place(&self) -> Place {
        if self.written {
            self.reading.place(&self.span)
        } else {
            Place::default()
        }
    }

    /// Whether the section stands in the file at all.
    pub(crate) fn is_there(&self) -> bool {
        self.table.is_some()
    }

    /// Whether a key is there, without reading it.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.table.is_some_and(|table| table.contains_key(key))
    }

    /// The keys as written, for tables whose keys are names.
    pub(crate) fn fields(&self) -> Vec<(String, Field<'a>)> {
        self.reading
            .trace_form(&self.path, || KeyForm::Named { items: Vec::new() });
        let entries = self.table.into_iter().flat_map(|table| table.iter());
        entries
            .map(|(key, value)| {
                let field = self.field_of(key.get_ref(), value.get_ref(), value.span());
                (key.get_ref().to_string(), field)
            })
            .collect()
    }

    /// A value that may be missing: `Some(None)` if it is, `None` after a fault.
    pub(crate) fn optional<T>(
        &self,
        key: &'static str,
        read: impl FnOnce(&Field<'a>) -> Option<T>,
    ) -> Option<Option<T>> {
        match self.get(key, Presence::Optional) {
            Some(field) => read(&field).map(Some),
            None => Some(None),
        }
    }

    /// A value that must be there.
    pub(crate) fn needed<T>(
        &self,
        key: &'static str,
        read: impl FnOnce(&Field<'a>) -> Option<T>,
    ) -> Option<T> {
        match self.get(key, Presence::Needed) {
            Some(field) => read(&field),
            None => {
                let write = keys::what_to_write(&self.path_of(key));
                self.refuse(Missing::Key { key, write })
            }
        }
    }

    /// A value that has a default.
    pub(crate) fn defaulted<T>(
        &self,
        key: &'static str,
        read: impl FnOnce(&Field<'a>) -> Option<T>,
    ) -> Option<T> {
        self.defaulted_for(key, "", read)
    }

    /// A value whose default depends on a choice made elsewhere, such as the process.
    pub(crate) fn defaulted_for<T>(
        &self,
        key: &'static str,
        choice: &'static str,
        read: impl FnOnce(&Field<'a>) -> Option<T>,
    ) -> Option<T> {
        if let Some(field) = self.get(key, Presence::Defaulted) {
            return read(&field);
        }
        let path = self.path_of(key);
        let row = defaults::row(&path, choice);
        let field = Field::new(self.reading, path.clone(), row.value, 0..0, false);
        let value = read(&field);
        let used = DefaultUsed {
            value: self.reading.default_value(&path, row.value),
            key: path,
            reason: DefaultReason::Table(&row.reason),
            source: DefaultSource::Table(&row.source),
        };
        self.reading.use_default(choice, used);
        value
    }

    /// A table within; a section that is not there if it is missing.
    pub(crate) fn section(&self, key: &'static str) -> Section<'a> {
        let path = self.path_of(key);
        match self.get(key, Presence::Optional) {
            Some(field) => {
                let span = field.span();
                let table = field.table();
                Section::new(self.reading, path, table, span, self.written)
            }
            None => Section::new(self.reading, path, None, self.span.clone(), self.written),
        }
    }

    /// The tables of a list such as `[[opening]]`; none if it is missing, `None` after a fault.
    pub(crate) fn each<T>(
        &self,
        key: &'static str,
        read: impl FnMut(&Section<'a>, usize) -> Option<T>,
    ) -> Option<Vec<T>> {
        match self.get(key, Presence::Optional) {
            Some(field) => field.each(read),
            None => Some(Vec::new()),
        }
    }

    /// Notes a fault about one key, or about the section if the key is not there.
    pub(crate) fn refuse_key<T>(
        &self,
        key: &'static str,
        complaint: impl Into<Complaint>,
    ) -> Option<T> {
        match self.written(key) {
            Some(field) => field.refuse(complaint),
            None => self.refuse(complaint),
        }
    }

    /// Notes a fault about the section as a whole.
    pub(crate) fn refuse<T>(&self, complaint: impl Into<Complaint>) -> Option<T> {
        self.reading.note(&self.span, &self.path, complaint.into());
        None
    }

    /// Names keys that are known but not read in this case.
    pub(crate) fn expect_keys(&self, keys: &[&'static str]) {
        for key in keys {
            self.expect(key, None);
        }
    }

    fn expect(&self, key: &'static str, presence: Option<Presence>) {
        self.reading.trace_key(&self.path_of(key), presence);
        let mut known = self.known.borrow_mut();
        if !known.contains(&key) {
            known.push(key);
        }
    }

    /// Notes every key that no one has asked for. To be called when all is read.
    pub(crate) fn refuse_unknown_keys(&self) {
        let known = self.known.borrow();
        let unknown = self
            .table
            .into_iter()
            .flat_map(|table| table.keys())
            .filter(|key| !known.iter().any(|word| *word == key.get_ref().as_ref()));
        for key in unknown {
            let written = key.get_ref().as_ref();
            let kind = if self.path.is_empty() {
                FaultKind::UnknownSection {
                    written: shortened(written),
                }
            } else {
                FaultKind::UnknownKey {
                    written: shortened(written),
                    section: self.path.clone(),
                }
            };
            let complaint = Complaint::new(kind)
                .allowed(known.iter().copied())
                .nearest_to(written);
            let path = self.path_of(&shortened(written));
            self.reading.note(&key.span(), &path, complaint);
        }
    }

    fn get(&self, key: &'static str, presence: Presence) -> Option<Field<'a>> {
        self.expect(key, Some(presence));
        self.written(key)
    }

    fn written(&self, key: &'static str) -> Option<Field<'a>> {
        let value = self.table?.get(key)?;
        Some(self.field_of(key, value.get_ref(), value.span()))
    }

    fn field_of(&self, key: &str, value: &'a DeValue<'a>, span: Range<usize>) -> Field<'a> {
        let path = self.path_of(key);
        Field::new(self.reading, path, value, span, self.written)
    }

    pub(crate) fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() {
            key.to_owned()
        } else {
            format!("{}.{key}", self.path)
        }
    }
}

impl<'t> Reading<'t> {
    /// The whole file as one section.
    pub(crate) fn root<'a>(&'a self, tree: &'a DeTable<'a>) -> Section<'a> {
        let end = self.text.len();
        Section::new(self, String::new(), Some(tree), end..end, true)
    }
}

/// What holds tables.
impl<'a> Field<'a> {
    /// The tables of a list such as `[[opening]]`, each read and searched for unknown keys.
    pub(crate) fn each<T>(
        &self,
        mut read: impl FnMut(&Section<'a>, usize) -> Option<T>,
    ) -> Option<Vec<T>> {
        let items = self.list(0..=MOST_IN_A_LIST, Items::Tables)?;
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
}
