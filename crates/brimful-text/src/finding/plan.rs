//! The plan as a whole, in words.

use super::said::Said;
use crate::words::Words;
use brimful_panels::finding::kind::PlanKind;

pub(super) fn said(words: &Words<'_>, kind: &PlanKind) -> Said {
    match kind {
        PlanKind::Draft => Said::new(say!(words, "This is a draft: strength is by the quick check alone, panel by panel. Corners, filling and seams of the whole tank have not been looked at."))
            .source(say!(words, "asked for with --quick"))
            .cure(say!(words, "Run the whole check before anything is cut.")),
    }
}
