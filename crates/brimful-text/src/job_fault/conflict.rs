//! Keys and words that exclude each other, in words.

use super::said::Said;
use crate::text::Language;
use brimful_job::{Conflict, InnerKind};

pub(super) fn said(words: Language, conflict: Conflict) -> Said {
    match conflict {
        Conflict::BothGiven { one, other } => (
            say!(
                words,
                "`{one}` and `{other}` are both given.",
                one = words.given(one),
                other = words.given(other)
            ),
            say!(words, "Keep one of them."),
        ),
        Conflict::FloorTwice => (
            say!(words, "the floor is given in more than one way."),
            say!(words, "Keep one of `box`, `sides` and `plan`."),
        ),
        Conflict::TapeAndViews { key } => (
            say!(
                words,
                "`{key}` and measures of a taped room are both given.",
                key = words.given(key)
            ),
            say!(
                words,
                "Give lean and heights by the outlines of the views, or by the tape."
            ),
        ),
        Conflict::DiagonalsOfPlan => (
            say!(
                words,
                "diagonals are taken for a floor of four sides alone."
            ),
            say!(words, "Give the four `sides` instead of `plan`."),
        ),
        Conflict::WallsOfPlan => (
            say!(
                words,
                "leaning walls are taken for a floor of four sides alone."
            ),
            say!(
                words,
                "Give `side` or `front` as outlines that lean, or [[space.station]] sections."
            ),
        ),
        Conflict::NothingRunsThrough
        | Conflict::NotAStrip
        | Conflict::NoOpenings { .. }
        | Conflict::StayByRule
        | Conflict::AcrossByRule
        | Conflict::RoundAndRectangular
        | Conflict::WholeSupport => of_panels(words, conflict),
    }
}

/// Conflicts about panels and what carries them; nothing for the rest.
fn of_panels(words: Language, conflict: Conflict) -> Said {
    match conflict {
        Conflict::NothingRunsThrough => (
            say!(
                words,
                "only a through-and-butt joint has a panel that runs through."
            ),
            say!(
                words,
                "Take `through` out, or make the joint `through and butt`."
            ),
        ),
        Conflict::NotAStrip => (
            say!(
                words,
                "only a stay is a strip; baffles and dividers go from floor to lid."
            ),
            say!(words, "Take it out, or write kind = \"stay\"."),
        ),
        Conflict::NoOpenings { kind } => (
            match kind {
                InnerKind::Baffle => say!(words, "this baffle has no openings."),
                InnerKind::Divider => say!(words, "a divider has no openings."),
                InnerKind::Stay => say!(words, "a stay has no openings."),
            },
            say!(words, "Take it out, or make the panel a baffle."),
        ),
        Conflict::StayByRule => (
            say!(words, "stays are not placed by rule."),
            say!(words, "Write the axis it stands `across` and `at` where."),
        ),
        Conflict::AcrossByRule => (
            say!(words, "`across` has no meaning with `auto`."),
            say!(words, "Take it out, or write a place `at`."),
        ),
        Conflict::RoundAndRectangular => (
            say!(words, "a round hole has no width or height."),
            say!(words, "Keep `diameter`, or `width` and `height`."),
        ),
        Conflict::WholeSupport => (
            say!(words, "a floor or bed has no places or sizes."),
            say!(
                words,
                "Take it out, or write the `kind` of support it belongs to."
            ),
        ),
        _ => Said::default(),
    }
}
