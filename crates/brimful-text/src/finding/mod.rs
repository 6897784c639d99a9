//! Findings in words: a file a stage, a match arm a finding, with what it says, what would cure it,
//! what the cure is called in the job file, and the rule behind it.

mod body;
mod capacity;
mod cut;
mod fit;
mod panels;
mod plan;
mod practice;
mod quick;
mod remedy;
mod room;
mod said;
mod slosh;
mod space;
mod strength;
mod way_in;
mod weld;

use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::{Finding, Grade, Kind, Origin};
use said::Said;

/// A finding in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FindingText {
    /// The part that it is about.
    pub about: Text,
    /// What is found, in a sentence or two.
    pub says: Text,
    /// What was computed.
    pub figure: Option<Text>,
    /// What it is held against.
    pub limit: Option<Text>,
    /// The rule or table behind it; may be empty.
    pub source: Text,
    /// What would cure it; empty for a note that needs nothing.
    pub cure: Text,
    /// What the cure is called in the job file; may be empty.
    pub entry: &'static str,
}

impl Words<'_> {
    /// A finding in words.
    pub fn finding(&self, finding: &Finding) -> FindingText {
        let said = said(self, &finding.kind);
        let (figure, limit) = match finding.figures {
            Some(figures) => {
                let [figure, limit] = self.against(figures.figure, figures.limit);
                (Some(figure), Some(limit))
            }
            None => (None, None),
        };
        FindingText {
            about: self.subject(&finding.subject),
            says: said.says,
            figure,
            limit,
            source: match &finding.source {
                Some(Origin::Table(source)) => self.source(source),
                Some(Origin::Given(source)) => self.given(source),
                None => said.source,
            },
            cure: said.cure,
            entry: said.entry,
        }
    }

    /// No finding stops the build.
    pub fn nothing_stops(&self) -> Text {
        say!(self, "Nothing stops the build.")
    }

    /// A grade, by its word in the JSON.
    pub fn grade(&self, grade: Grade) -> Text {
        self.data(match grade {
            Grade::Stop => "stop",
            Grade::Mend => "mend",
            Grade::Note => "note",
        })
    }
}

fn said(words: &Words<'_>, kind: &Kind) -> Said {
    match kind {
        Kind::Space(kind) => space::said(words, kind),
        Kind::Body(kind) => body::said(words, kind),
        Kind::Panels(kind) => panels::said(words, kind),
        Kind::Capacity(kind) => capacity::said(words, kind),
        Kind::Weld(kind) => weld::said(words, kind),
        Kind::Quick(kind) => quick::said(words, kind),
        Kind::Strength(kind) => strength::said(words, kind),
        Kind::Room(kind) => room::said(words, kind),
        Kind::WayIn(kind) => way_in::said(words, kind),
        Kind::Cut(kind) => cut::said(words, kind),
        Kind::Slosh(kind) => slosh::said(words, kind),
        Kind::Practice(kind) => practice::said(words, kind),
        Kind::Remedy(kind) => remedy::said(words, kind),
        Kind::Fit(kind) => fit::said(words, kind),
        Kind::Plan(kind) => plan::said(words, kind),
    }
}
