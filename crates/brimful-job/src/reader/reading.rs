//! The text being read: places in it, and what was noted on the way.

use super::super::default::{DefaultUsed, DefaultValue};
use super::super::fault::{FaultKind, JobFault};
use super::super::form::{KeyForm, Presence};
use super::super::keys;
use super::super::length_unit::LengthUnit;
use super::super::place::Place;
use super::complaint::Complaint;
use super::trace::Trace;
use std::cell::{Cell, RefCell};
use std::ops::Range;
use toml::de::DeValue;

/// After so many faults the rest are left for the next try.
const MOST_FAULTS: usize = 100;

/// The text being read, and what was found in it so far.
pub(crate) struct Reading<'t> {
    pub(super) text: &'t str,
    line_starts: Vec<usize>,
    /// The unit of bare lengths, once `[job]` has been read.
    pub(crate) lengths: Cell<BareLengths>,
    bare_lengths: RefCell<Vec<JobFault>>,
    faults: RefCell<Vec<JobFault>>,
    used: RefCell<Vec<DefaultUsed>>,
    /// The parts of the default that is being read, by their paths.
    default_parts: RefCell<Vec<(String, DefaultValue)>>,
    trace: Option<RefCell<Trace>>,
}

/// What a length without a unit is.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum BareLengths {
    /// A fault: the job names no unit.
    Refused,
    /// Unknown: the job names a unit that cannot be read, which is the fault.
    Unknown,
    /// In this unit.
    In(LengthUnit),
}

impl BareLengths {
    /// The unit, if it is known.
    pub(crate) fn unit(self) -> Option<LengthUnit> {
        match self {
            Self::In(unit) => Some(unit),
            Self::Refused | Self::Unknown => None,
        }
    }
}

impl<'t> Reading<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        let after_breaks = text.match_indices('\n').map(|(offset, _)| offset + 1);
        Self {
            text,
            line_starts: std::iter::once(0).chain(after_breaks).collect(),
            lengths: Cell::new(BareLengths::Refused),
            bare_lengths: RefCell::default(),
            faults: RefCell::default(),
            used: RefCell::default(),
            default_parts: RefCell::default(),
            trace: None,
        }
    }

    /// The same, remembering what the reader asks for.
    pub(crate) fn traced(self) -> Self {
        Self {
            trace: Some(RefCell::default()),
            ..self
        }
    }

    /// What the reader asked for.
    pub(crate) fn trace(&self) -> Trace {
        let trace = self.trace.as_ref();
        trace.map(RefCell::take).unwrap_or_default()
    }

    /// The faults in the order of the file, and the defaults in the order of their use.
    pub(crate) fn finish(self) -> (Vec<JobFault>, Vec<DefaultUsed>) {
        let mut faults = self.faults.into_inner();
        faults.extend(first_bare_length(self.bare_lengths.into_inner()));
        faults.sort_by_key(|fault| (fault.span.start, fault.span.end));
        (faults, self.used.into_inner())
    }

    pub(crate) fn place(&self, span: &Range<usize>) -> Place {
        let span = self.inside(span);
        let line = self
            .line_starts
            .partition_point(|start| *start <= span.start);
        let line_start = self.line_starts[line - 1];
        Place {
            line,
            column: self.text[line_start..span.start].chars().count() + 1,
            span,
        }
    }

    pub(crate) fn note(&self, span: &Range<usize>, path: &str, complaint: Complaint) {
        let mut faults = self.faults.borrow_mut();
        let complaint = match faults.len() {
            ..MOST_FAULTS => complaint,
            MOST_FAULTS => Complaint::new(FaultKind::TooManyFaults),
            _ => return,
        };
        faults.push(self.fault(span, path, complaint));
    }

    /// Notes a length without a unit: however many there are, the missing unit is one fault.
    pub(super) fn note_bare_length(&self, span: &Range<usize>, path: &str) {
        if self.lengths.get() == BareLengths::Refused {
            let complaint = Complaint::new(FaultKind::BareLength { more: 0 });
            let fault = self.fault(span, path, complaint);
            self.bare_lengths.borrow_mut().push(fault);
        }
    }

    fn fault(&self, span: &Range<usize>, path: &str, complaint: Complaint) -> JobFault {
        let place = self.place(span);
        let wants_example = matches!(
            complaint.kind,
            FaultKind::WrongForm { .. } | FaultKind::WrongCount { .. }
        );
        JobFault {
            kind: complaint.kind,
            line: place.line,
            column: place.column,
            span: place.span,
            path: path.to_owned(),
            allowed: complaint.allowed,
            nearest: complaint.nearest,
            example: keys::example(path).filter(|_| wants_example),
        }
    }

    /// Notes a part of the default that is being read.
    pub(super) fn note_default_part(&self, path: &str, value: DefaultValue) {
        let mut parts = self.default_parts.borrow_mut();
        parts.push((path.to_owned(), value));
    }

    /// The value of a default that was read, out of its parts.
    pub(super) fn default_value(&self, path: &str, written: &DeValue<'_>) -> DefaultValue {
        let value = self.part_of_default(path, written);
        self.default_parts.borrow_mut().clear();
        value
    }

    fn part_of_default(&self, path: &str, written: &DeValue<'_>) -> DefaultValue {
        match written {
            DeValue::Array(items) => {
                let items = items.iter().enumerate().map(|(index, item)| {
                    let path = format!("{path}[{}]", index + 1);
                    self.part_of_default(&path, item.get_ref())
                });
                DefaultValue::List(items.collect())
            }
            DeValue::Table(table) => {
                let entries = table.iter().map(|(key, value)| {
                    let path = format!("{path}.{}", key.get_ref());
                    let value = self.part_of_default(&path, value.get_ref());
                    (key.get_ref().to_string(), value)
                });
                DefaultValue::Table(entries.collect())
            }
            _ => {
                let parts = self.default_parts.borrow();
                let part = parts.iter().find(|(other, _)| other == path);
                part.map(|(_, value)| value.clone())
                    .expect("every value of a default is read; a test reads them all")
            }
        }
    }

    pub(super) fn use_default(&self, choice: &'static str, used: DefaultUsed) {
        if let Some(trace) = &self.trace {
            trace.borrow_mut().default(&used.key, choice, used.clone());
        }
        self.used.borrow_mut().push(used);
    }

    /// Notes a default that the table of defaults does not hold.
    pub(crate) fn use_other_default(&self, used: DefaultUsed) {
        self.use_default("", used);
    }

    pub(super) fn trace_key(&self, path: &str, presence: Option<Presence>) {
        if let Some(trace) = &self.trace {
            trace.borrow_mut().key(path, presence);
        }
    }

    pub(super) fn trace_form(&self, path: &str, form: impl FnOnce() -> KeyForm) {
        if let Some(trace) = &self.trace {
            trace.borrow_mut().form(path, form());
        }
    }

    /// The span moved inside the text and onto character borders.
    fn inside(&self, span: &Range<usize>) -> Range<usize> {
        let start = self.text.floor_char_boundary(span.start);
        let end = self.text.ceil_char_boundary(span.end).max(start);
        start..end
    }
}

/// The first length without a unit, and how many follow.
fn first_bare_length(mut faults: Vec<JobFault>) -> Option<JobFault> {
    let more = faults.len().saturating_sub(1);
    faults.sort_by_key(|fault| fault.span.start);
    let first = faults.into_iter().next()?;
    Some(JobFault {
        kind: FaultKind::BareLength { more },
        ..first
    })
}
