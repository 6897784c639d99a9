//! What an answer opens with: whether it can be built, what stops it by cause, worst first, and what
//! cures each.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::cause::{Cause, causes};
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Grade, Kind};
use brimful_tank::plan::Plan;

/// Causes shown before the rest are counted: what fits a screen with their cures.
const SHOWN: usize = 6;

/// The opening of an answer, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// Whether it can be built.
    pub headline: Text,
    /// Whether it is fully checked and nothing stops it.
    pub clear: bool,
    /// What stops it, worst first.
    pub causes: Vec<CauseOfStop>,
    /// How much more there is; empty where there is nothing.
    pub more: Text,
}

/// One cause of a stop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CauseOfStop {
    /// What is found: the parts, the sentence of the worst, and its figure.
    pub found: Text,
    /// What cures it: the change that was worked out, with what it costs, or else what the finding
    /// says.
    pub cure: Option<Text>,
}

impl Words<'_> {
    /// Whether a plan can be built, what stops it, and what cures that.
    pub fn verdict(&self, plan: &Plan) -> Verdict {
        let causes = causes(&plan.findings);
        let of = |grade: Grade| causes.iter().filter(move |cause| cause.grade == grade);
        let stops = of(Grade::Stop).count();
        let is_draft = plan.whole.is_none();
        let at_limit = |cause: &&Cause<'_>| {
            let kind = &cause.worst.kind;
            let is_narrow = matches!(
                kind,
                Kind::Strength(
                    StrengthKind::AtLimit { .. }
                        | StrengthKind::RootAtLimit { .. }
                        | StrengthKind::AddUp { .. }
                )
            );
            stops == 0 && cause.grade == Grade::Mend && is_narrow
        };
        let limits = causes.iter().filter(at_limit).count();
        let headline = match stops {
            0 if !plan.is_checked() => say!(
                self,
                "No verdict yet: this draft leaves parts of the tank unchecked. The whole-tank check has them all."
            ),
            0 if is_draft => say!(
                self,
                "Nothing found so far stops the build. This is a draft: the whole tank has not been checked."
            ),
            0 if limits > 0 => say!(
                self,
                "Nothing is over its limit by more than the limit is known to, but this is at it. Settle it before you build:"
            ),
            0 => self.nothing_stops(),
            1 => say!(self, "Do not build yet: one cause stops it."),
            n => say!(self, "Do not build yet: {n} causes stop it.", n = n),
        };
        let shown = of(Grade::Stop).chain(causes.iter().filter(at_limit));
        Verdict {
            headline,
            clear: stops == 0 && limits == 0 && !is_draft,
            causes: shown
                .take(SHOWN)
                .map(|cause| self.cause_of_stop(cause, plan))
                .collect(),
            more: self.more(
                stops.saturating_sub(SHOWN),
                of(Grade::Mend).count() - limits,
                of(Grade::Note).count(),
            ),
        }
    }

    fn more(&self, stops: usize, mends: usize, notes: usize) -> Text {
        let counts = [
            (stops > 0).then(|| say!(self, "{more} more that stop it.", more = stops)),
            match mends {
                0 => None,
                1 => Some(say!(self, "One thing to mend first.")),
                mend => Some(say!(self, "{mend} things to mend first.", mend = mend)),
            },
            match notes {
                0 => None,
                1 => Some(say!(self, "One note.")),
                notes => Some(say!(self, "{notes} notes.", notes = notes)),
            },
        ];
        let counts = Text::join(counts.into_iter().flatten(), " ");
        match counts.is_empty() {
            true => counts,
            false => say!(self, "{counts} All of it under Findings.", counts = counts),
        }
    }

    fn cause_of_stop(&self, cause: &Cause<'_>, plan: &Plan) -> CauseOfStop {
        let told = self.cause(cause);
        let (about, says) = (&told.about, &told.worst.says);
        let found = match (&told.worst.figure, &told.worst.limit) {
            (Some(figure), Some(limit)) => say!(
                self,
                "{about}: {says} {figure}, limit {limit}.",
                about = about,
                says = says,
                figure = figure,
                limit = limit,
            ),
            _ => say!(self, "{about}: {says}", about = about, says = says),
        };
        let cure = self.worked_out(cause, plan).or_else(|| {
            let cure = &told.worst.cure;
            (!cure.is_empty()).then(|| say!(self, "Cure: {cure}", cure = cure))
        });
        CauseOfStop { found, cure }
    }

    /// The change that was worked out and cures a cause, with what it costs.
    fn worked_out(&self, cause: &Cause<'_>, plan: &Plan) -> Option<Text> {
        let remedy = plan.remedies.cure_of(cause)?;
        let change = self.change(&remedy.change.what);
        let adds = remedy.adds.as_ref().map(|adds| self.adds(adds));
        let cure = match adds.filter(|adds| !adds.is_empty()) {
            Some(adds) => say!(
                self,
                "Cure, worked out: {change} It {adds}.",
                change = change,
                adds = adds,
            ),
            None => say!(self, "Cure, worked out: {change}", change = change),
        };
        let Some(broken) = remedy.breaks.first() else {
            return Some(cure);
        };
        let broken = self.finding(broken).says;
        Some(say!(
            self,
            "{cure} But then: {broken}",
            cure = cure,
            broken = broken
        ))
    }
}
