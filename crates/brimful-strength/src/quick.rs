//! The quick strength check: panel by panel, span by span, by published plate coefficients.
//!
//! Every outer panel and divider whose wetted face is a rectangle is split into spans at the inner
//! panels that stand across it (the floor also at its rails). Each span is bent under every load
//! case, once with its edges hinged and once clamped: a real corner lies between. The verdict takes
//! the hinged deflection, and the worse of the hinged field stress (in the sheet) and the clamped
//! edge stress (in the weld). What plate theory does not cover stops the verdict. Of several liquids the
//! heaviest is in every room, and the one that weakens the sheet most: a draft does not tell them apart.

mod result;
mod span;
mod verdict;

use crate::limit::{self, Limits};
use crate::load::{self, Heads, LoadCase, LoadKind};
use brimful_job::{Job, Liquid};
use brimful_mech::plate::{self, Bending, Edges, NotCovered, Plate};
pub use brimful_panels::finding::kind::Governs;
use brimful_panels::finding::kind::Uncovered;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::table::{Cited, Source, SourcedValue};
use brimful_units::{Length, Pressure};
pub use result::{Quick, SpanCheck};
use span::{Span, Spans};

/// Checks every outer panel and divider.
pub fn quick(job: &Job, panels: &[Panel], seams: &[Seam], heads: &Heads) -> Quick {
    let mut verdict = verdict::Verdict::new(job, panels);
    let cases = load::cases(job);
    let liquids: Vec<Liquid> = job.liquids().collect();
    let strictest = |case: &LoadCase| {
        let all = liquids.iter();
        let all = all.map(|liquid| limit::limits(job, case, liquid));
        let all = all.collect::<Result<Vec<Limits>, _>>()?;
        Ok(limit::strictest(all.iter()).cloned())
    };
    let limits: Vec<(LoadCase, Limits)> = cases
        .into_iter()
        .filter(|case| case.id.kind.is_for_plates())
        .filter_map(|case| match strictest(&case) {
            Ok(limits) => limits.map(|limits| (case, limits)),
            Err(reason) => {
                verdict.case_not_covered(&case, &reason);
                None
            }
        })
        .collect();
    for (number, panel) in panels.iter().enumerate() {
        match span::spans(job, panels, seams, heads, number) {
            Spans::Carried => verdict.carried(panel),
            Spans::NotCovered(reason) => verdict.panel_not_covered(number, panel, reason),
            Spans::Baffle => verdict.baffle(panel),
            Spans::Free(spans) => {
                for span in &spans {
                    check_span(&mut verdict, panel, span, heads, &limits);
                }
            }
        }
    }
    verdict.finish()
}

/// Bends one span under every load case.
fn check_span(
    verdict: &mut verdict::Verdict<'_>,
    panel: &Panel,
    span: &Span,
    heads: &Heads,
    limits: &[(LoadCase, Limits)],
) {
    let mut rest: Option<Rest> = None;
    for (case, limits) in limits {
        let load = span.load(case, heads, limits.sheet_density);
        let plate = Plate {
            width: span.width,
            height: span.height,
            thickness: panel.thickness.m(),
            modulus: limits.modulus.pa(),
            poisson: limits.poisson,
        };
        let bent = [Edges::Hinged, Edges::Clamped].map(|edges| bend(&plate, edges, &load));
        let [Ok(hinged), Ok(clamped)] = bent else {
            if let Some(reason) = bent.into_iter().find_map(Result::err) {
                let uncovered = Uncovered::Plate(span.number, reason);
                verdict.panel_not_covered(span.panel, panel, uncovered);
            }
            return;
        };
        // What has crept at rest stays when the event comes; only the rest of it is quick.
        let crept = match (&rest, case.id.kind) {
            (Some(rest), LoadKind::Event) => rest.beyond(limits.modulus),
            _ => [0.0; 2],
        };
        if case.id.kind == LoadKind::Rest
            && rest
                .as_ref()
                .is_none_or(|rest| rest.deflection[0] < hinged.deflection)
        {
            rest = Some(Rest {
                deflection: [hinged.deflection, clamped.deflection],
                modulus: limits.modulus,
            });
        }
        verdict.add(row(span, case, limits, &load, [&hinged, &clamped], crept));
    }
}

/// The deflection at rest, hinged and clamped, and the modulus it goes with.
struct Rest {
    deflection: [f64; 2],
    modulus: Pressure,
}

impl Rest {
    /// The part of it that is there beyond what a quick load of the same size would cause.
    fn beyond(&self, quick: Pressure) -> [f64; 2] {
        let share = (1.0 - self.modulus / quick).max(0.0);
        self.deflection.map(|deflection| deflection * share)
    }
}

/// Bends, with the values also where they are too large for the theory; the row says so.
fn bend(plate: &Plate, edges: Edges, load: &plate::Load) -> Result<Bending, NotCovered> {
    match plate::bend(plate, edges, load) {
        Err(NotCovered::TooDeep { bending, .. }) => Ok(bending),
        other => other,
    }
}

fn row(
    span: &Span,
    case: &LoadCase,
    limits: &Limits,
    load: &plate::Load,
    [hinged, clamped]: [&Bending; 2],
    crept: [f64; 2],
) -> SpanCheck {
    let sheet = (Pressure::from_pa(hinged.field_stress), limits.sheet);
    let weld = (Pressure::from_pa(clamped.edge_stress), limits.weld);
    let (governs, (stress, allowable)) = if weld.0 / weld.1 >= sheet.0 / sheet.1 {
        (Governs::Weld, weld)
    } else {
        (Governs::Sheet, sheet)
    };
    let deflection = hinged.deflection + crept[0];
    let mut sources = limits.sources.clone();
    sources.extend(
        hinged
            .sources
            .iter()
            .chain(&clamped.sources)
            .map(|&(flag, text)| Source {
                value: SourcedValue::PlateCoefficients,
                flag: flag.into(),
                cited: Cited::Row(text),
            }),
    );
    sources.push(Source {
        value: SourcedValue::Load(case.id),
        flag: case.flag,
        cited: Cited::Load(case.origin.clone()),
    });
    sources.dedup();
    SpanCheck {
        panel: span.panel,
        span: span.number,
        case: case.id,
        width: Length::from_m(span.width),
        height: Length::from_m(span.height),
        pressure_low: Pressure::from_pa(load.uniform),
        pressure_high: Pressure::from_pa(load.largest()),
        duration: case.duration,
        temperature: case.temperature,
        modulus: limits.modulus,
        deflection: Length::from_m(deflection),
        deflection_clamped: Length::from_m(clamped.deflection + crept[1]),
        governs,
        stress,
        allowable,
        utilisation: stress / allowable,
        covered: deflection <= plate::DEEPEST * span.thickness,
        sources,
    }
}

#[cfg(test)]
mod tests;
