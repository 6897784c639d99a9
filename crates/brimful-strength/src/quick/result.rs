//! What the quick check computed.

use brimful_panels::case::CaseId;
use brimful_panels::finding::Finding;
use brimful_panels::finding::kind::Governs;
use brimful_panels::table::Source;
use brimful_units::{Length, Pressure, Temperature, Time};

/// What the quick check computed, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Quick {
    /// Every span under every load case, in the order of the panels.
    pub rows: Vec<SpanCheck>,
    /// What it says.
    pub findings: Vec<Finding>,
    /// Load cases that no table covers: nothing was bent under them.
    pub(super) uncovered_cases: Vec<CaseId>,
    /// Numbers of panels that no plate coefficient covers, wholly or in part.
    pub(super) uncovered_panels: Vec<usize>,
}

impl Quick {
    /// The most that a panel moves under all its load cases, with clamped and with hinged edges, also
    /// where that is more than plate theory covers; none where a case or a part of the panel is
    /// not covered.
    pub fn moves(&self, panel: usize) -> Option<[Length; 2]> {
        let unknown = !self.uncovered_cases.is_empty() || self.uncovered_panels.contains(&panel);
        let rows = self.rows.iter().filter(|row| row.panel == panel);
        rows.map(|row| [row.deflection_clamped, row.deflection])
            .reduce(|[a, b], [c, d]| [a.max(c), b.max(d)])
            .filter(|_| !unknown)
    }
}

/// One span of one panel under one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct SpanCheck {
    /// Number of the panel.
    pub panel: usize,
    /// Number of the span, from 1; none where the panel is one span.
    pub span: Option<usize>,
    /// The load case.
    pub case: CaseId,
    /// Size across, in the panel's frame.
    pub width: Length,
    /// Size up, in the panel's frame.
    pub height: Length,
    /// Least pressure on it, own weight included.
    pub pressure_low: Pressure,
    /// Greatest pressure on it, own weight included.
    pub pressure_high: Pressure,
    /// How long the load acts.
    pub duration: Time,
    /// How warm it is in that time.
    pub temperature: Temperature,
    /// The apparent modulus.
    pub modulus: Pressure,
    /// Deflection with hinged edges; in an event on top of what has crept at rest.
    pub deflection: Length,
    /// The same with clamped edges.
    pub deflection_clamped: Length,
    /// Where the stress is nearer to its limit.
    pub governs: Governs,
    /// The stress there.
    pub stress: Pressure,
    /// What is allowed there.
    pub allowable: Pressure,
    /// Stress over allowable.
    pub utilisation: f64,
    /// Whether plate theory covers it: deflection up to half the thickness.
    pub covered: bool,
    /// Where every number comes from.
    pub sources: Vec<Source>,
}
