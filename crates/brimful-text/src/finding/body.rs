//! The tank's outside, in words.

use super::said::Said;
use crate::words::Words;
use brimful_panels::finding::kind::BodyKind;

pub(super) fn said(words: &Words<'_>, kind: &BodyKind) -> Said {
    match kind {
        BodyKind::WholeSpace => Said::new(say!(
            words,
            "No body is given, so it takes the whole space less the clearance, every facet of it. That it is the best body to build is not proven."
        ))
        .cure(say!(
            words,
            "Compare it with the simpler bodies among what fits."
        ))
        .entry("[body] fitted"),
    }
}
