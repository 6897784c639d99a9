//! Walks the tree of a job file and gathers every fault on the way.
//!
//! A [`Section`] is a table, a [`Field`] one value. Reading gives `None` after a fault has been
//! noted, so that a caller reads all there is and only then puts the parts together with `?`.
//! A section learns which keys are known by being asked for them; what was never asked for is an
//! unknown key.

mod field;
mod measure;
mod section;
mod trace;

pub(super) use field::{Bound, Field, LONGEST, MOST_IN_A_LIST};
pub(super) use section::Section;
pub(super) use trace::{Trace, without_items};

use super::about::LengthUnit;
use super::default::{DefaultUsed, DefaultValue};
use super::fault::{Conflict, FaultKind, JobFault, Missing, OutOfRange};
use super::form::{KeyForm, Presence};
use super::keys;
use super::place::Place;
use std::cell::{Cell, RefCell};
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// After so many faults the rest are left for the next try.
const MOST_FAULTS: usize = 100;

/// The text being read, and what was found in it so far.
pub(super) struct Reading<'t> {
    text: &'t str,
    line_starts: Vec<usize>,
    /// The unit of bare lengths, once `[job]` has been read.
    pub(super) lengths: Cell<BareLengths>,
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
    pub(super) fn unit(self) -> Option<LengthUnit> {
        match self {
            Self::In(unit) => Some(unit),
            Self::Refused | Self::Unknown => None,
        }
    }
}

impl<'t> Reading<'t> {
    pub(super) fn new(text: &'t str) -> Self {
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
    pub(super) fn traced(self) -> Self {
        Self {
            trace: Some(RefCell::default()),
            ..self
        }
    }

    /// What the reader asked for.
    pub(super) fn trace(&self) -> Trace {
        let trace = self.trace.as_ref();
        trace.map(RefCell::take).unwrap_or_default()
    }

    /// The whole file as one section.
    pub(super) fn root<'a>(&'a self, tree: &'a DeTable<'a>) -> Section<'a> {
        let end = self.text.len();
        Section::new(self, String::new(), Some(tree), end..end, true)
    }

    /// The faults in the order of the file, and the defaults in the order of their use.
    pub(super) fn finish(self) -> (Vec<JobFault>, Vec<DefaultUsed>) {
        let mut faults = self.faults.into_inner();
        faults.extend(first_bare_length(self.bare_lengths.into_inner()));
        faults.sort_by_key(|fault| (fault.span.start, fault.span.end));
        (faults, self.used.into_inner())
    }

    pub(super) fn place(&self, span: &Range<usize>) -> Place {
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

    pub(super) fn note(&self, span: &Range<usize>, path: &str, complaint: Complaint) {
        let mut faults = self.faults.borrow_mut();
        let complaint = match faults.len() {
            ..MOST_FAULTS => complaint,
            MOST_FAULTS => Complaint::new(FaultKind::TooManyFaults),
            _ => return,
        };
        faults.push(self.fault(span, path, complaint));
    }

    /// Notes a length without a unit: however many there are, the missing unit is one fault.
    fn note_bare_length(&self, span: &Range<usize>, path: &str) {
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
    fn note_default_part(&self, path: &str, value: DefaultValue) {
        let mut parts = self.default_parts.borrow_mut();
        parts.push((path.to_owned(), value));
    }

    /// The value of a default that was read, out of its parts.
    fn default_value(&self, path: &str, written: &DeValue<'_>) -> DefaultValue {
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

    fn use_default(&self, choice: &'static str, used: DefaultUsed) {
        if let Some(trace) = &self.trace {
            trace.borrow_mut().default(&used.key, choice, used.clone());
        }
        self.used.borrow_mut().push(used);
    }

    /// Notes a default that the table of defaults does not hold.
    pub(super) fn use_other_default(&self, used: DefaultUsed) {
        self.use_default("", used);
    }

    fn trace_key(&self, path: &str, presence: Option<Presence>) {
        if let Some(trace) = &self.trace {
            trace.borrow_mut().key(path, presence);
        }
    }

    fn trace_form(&self, path: &str, form: impl FnOnce() -> KeyForm) {
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

/// A fault without its place.
pub(super) struct Complaint {
    kind: FaultKind,
    allowed: Vec<String>,
    nearest: Option<String>,
}

impl From<FaultKind> for Complaint {
    fn from(kind: FaultKind) -> Self {
        Self::new(kind)
    }
}

impl From<Missing> for Complaint {
    fn from(missing: Missing) -> Self {
        Self::new(FaultKind::Missing(missing))
    }
}

impl From<Conflict> for Complaint {
    fn from(conflict: Conflict) -> Self {
        Self::new(FaultKind::Conflict(conflict))
    }
}

impl From<OutOfRange> for Complaint {
    fn from(out_of_range: OutOfRange) -> Self {
        Self::new(FaultKind::OutOfRange(out_of_range))
    }
}

impl Complaint {
    pub(super) fn new(kind: FaultKind) -> Self {
        Self {
            kind,
            allowed: Vec::new(),
            nearest: None,
        }
    }

    pub(super) fn allowed<'w>(mut self, words: impl IntoIterator<Item = &'w str>) -> Self {
        self.allowed = words.into_iter().map(str::to_owned).collect();
        self
    }

    /// Offers the allowed word nearest to `written`.
    pub(super) fn nearest_to(mut self, written: &str) -> Self {
        let words = self.allowed.iter().map(String::as_str);
        self.nearest = brimful_units::spelling::nearest(written, words).map(str::to_owned);
        self
    }

    pub(super) fn nearest(mut self, word: Option<&str>) -> Self {
        self.nearest = word.map(str::to_owned);
        self
    }
}

/// What was written, cut short where nobody would read on.
pub(super) fn shortened(written: &str) -> String {
    const LONGEST: usize = 40;
    if written.chars().count() <= LONGEST {
        return written.escape_debug().to_string();
    }
    let start: String = written.chars().take(LONGEST).collect();
    format!("{}...", start.escape_debug())
}
