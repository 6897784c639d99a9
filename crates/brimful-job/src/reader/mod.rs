//! Walks the tree of a job file and gathers every fault on the way.
//!
//! A [`Section`] is a table, a [`Field`] one value. Reading gives `None` after a fault has been
//! noted, so that a caller reads all there is and only then puts the parts together with `?`.
//! A section learns which keys are known by being asked for them; what was never asked for is an
//! unknown key.

mod field;
mod section;

pub(super) use field::{Bound, Field, MOST_IN_A_LIST};
pub(super) use section::Section;

use super::DefaultUsed;
use super::about::LengthUnit;
use super::fault::{FaultKind, JobFault};
use super::place::Place;
use std::cell::{Cell, RefCell};
use std::ops::Range;
use toml::de::DeTable;

/// After so many faults the rest are left for the next try.
const MOST_FAULTS: usize = 100;

/// The text being read, and what was found in it so far.
pub(super) struct Reading<'t> {
    text: &'t str,
    line_starts: Vec<usize>,
    /// The unit of bare lengths, once `[job]` has been read.
    pub(super) lengths: Cell<Option<LengthUnit>>,
    faults: RefCell<Vec<JobFault>>,
    used: RefCell<Vec<DefaultUsed>>,
}

impl<'t> Reading<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        let after_breaks = text.match_indices('\n').map(|(offset, _)| offset + 1);
        Self {
            text,
            line_starts: std::iter::once(0).chain(after_breaks).collect(),
            lengths: Cell::new(None),
            faults: RefCell::default(),
            used: RefCell::default(),
        }
    }

    /// The whole file as one section.
    pub(super) fn root<'a>(&'a self, tree: &'a DeTable<'a>) -> Section<'a> {
        let end = self.text.len();
        Section::new(self, String::new(), Some(tree), end..end, true)
    }

    /// The faults in the order of the file, and the defaults in the order of their use.
    pub(super) fn finish(self) -> (Vec<JobFault>, Vec<DefaultUsed>) {
        let mut faults = self.faults.into_inner();
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
        if faults.len() > MOST_FAULTS {
            return;
        }
        let complaint = if faults.len() == MOST_FAULTS {
            Complaint::new(
                FaultKind::TooLarge,
                "there are more faults than can be listed",
            )
            .remedy("Mend the others first.")
        } else {
            complaint
        };
        let place = self.place(span);
        faults.push(JobFault {
            kind: complaint.kind,
            line: place.line,
            column: place.column,
            span: place.span,
            path: path.to_owned(),
            says: complaint.says,
            allowed: complaint.allowed,
            nearest: complaint.nearest,
            remedy: complaint.remedy,
        });
    }

    pub(super) fn use_default(&self, used: DefaultUsed) {
        self.used.borrow_mut().push(used);
    }

    /// The span moved inside the text and onto character borders.
    fn inside(&self, span: &Range<usize>) -> Range<usize> {
        let start = self.text.floor_char_boundary(span.start);
        let end = self.text.ceil_char_boundary(span.end).max(start);
        start..end
    }
}

/// A fault without its place.
pub(super) struct Complaint {
    kind: FaultKind,
    says: String,
    allowed: Vec<String>,
    nearest: Option<String>,
    remedy: String,
}

impl Complaint {
    pub(super) fn new(kind: FaultKind, says: impl Into<String>) -> Self {
        Self {
            kind,
            says: says.into(),
            allowed: Vec::new(),
            nearest: None,
            remedy: String::new(),
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

    pub(super) fn remedy(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = remedy.into();
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
