//! Findings of one cause, in words: the worst of them in full, the others by name and figure.

use crate::finding::FindingText;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::cause::Cause;

/// Parts named before the rest are only counted.
const NAMED: usize = 2;

/// Findings of one cause, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CauseText {
    /// The parts that it is about: the worst by name, the others counted.
    pub about: Text,
    /// The worst of them, in full.
    pub worst: FindingText,
}

impl Words<'_> {
    /// Findings of one cause, in words.
    pub fn cause(&self, cause: &Cause<'_>) -> CauseText {
        let worst = self.finding(cause.worst);
        let others: Vec<FindingText> = cause.others.iter().map(|it| self.finding(it)).collect();
        CauseText {
            about: self.all_about(&worst, &others),
            worst,
        }
    }

    fn all_about(&self, worst: &FindingText, others: &[FindingText]) -> Text {
        let mut different: Vec<&Text> = vec![&worst.about];
        for other in others {
            if !different.contains(&&other.about) {
                different.push(&other.about);
            }
        }
        let named = different.iter().take(NAMED).map(|it| (*it).clone());
        let named = Text::join(named, ", ");
        match different.len().saturating_sub(NAMED) {
            0 => named,
            1 => say!(self, "{named} and one more", named = named),
            more => say!(self, "{named} and {more} more", named = named, more = more),
        }
    }
}
