//! What is missing, in words.

use super::said::Said;
use crate::text::Language;
use brimful_job::Missing;

pub(super) fn said(words: Language, missing: Missing) -> Said {
    match missing {
        Missing::Key { key, write } => (
            say!(words, "`{key}` is missing.", key = words.given(key)),
            words.data(write),
        ),
        Missing::LiquidSection => (
            say!(words, "the section [liquid] is missing."),
            say!(words, "Add it, with the `kind` of liquid or its `density`."),
        ),
        Missing::LiquidDensity => (
            say!(words, "nothing says how heavy the liquid is."),
            say!(
                words,
                "Write its `kind`, or its `density` such as \"1090 kg/m3\"."
            ),
        ),
        Missing::SpaceAndBody => (
            say!(words, "there is neither [space] nor [body]."),
            say!(
                words,
                "Add the space the tank must go into, or the body wanted."
            ),
        ),
        Missing::Shape => (
            say!(words, "no shape is given."),
            say!(
                words,
                "Give a `box`, or the outline of at least one view: `plan`, `side` or `front`."
            ),
        ),
        Missing::Extent { key } => (
            say!(words, "nothing gives the {key}.", key = words.data(key)),
            say!(
                words,
                "Write `{key}`, or the outline of a second view.",
                key = words.given(key)
            ),
        ),
        Missing::HoleSize => (
            say!(words, "the size of the hole is missing."),
            say!(words, "Write `diameter`, or `width` and `height`."),
        ),
        of_space => said_of_space(words, of_space),
    }
}

fn said_of_space(words: Language, missing: Missing) -> Said {
    match missing {
        Missing::Floor => (
            say!(words, "nothing gives the floor of the space."),
            say!(
                words,
                "Give a `box`, its four `sides` or its outline from above, `plan`."
            ),
        ),
        Missing::Height => (
            say!(
                words,
                "nothing closes the space above: its height is missing."
            ),
            say!(
                words,
                "Write the `height`, or one height a corner as `corner_heights`."
            ),
        ),
        Missing::SecondStation => (
            say!(
                words,
                "one station alone closes no space: what is missing is a second one at the other end."
            ),
            say!(
                words,
                "Measure a section at each end, and between them wherever a side bends."
            ),
        ),
        Missing::ScanFile { key } => (
            say!(
                words,
                "`{key}` is given without `scan`.",
                key = words.given(key)
            ),
            say!(
                words,
                "Name the file with `scan = \"file.ply\"`, or take it out."
            ),
        ),
        Missing::ScanUnit => (
            say!(
                words,
                "nothing says in which unit the scan is, and it is not guessed."
            ),
            say!(
                words,
                "Write `scan_unit = \"mm\"`, or whichever unit the scanner was set to."
            ),
        ),
        Missing::Key { .. }
        | Missing::LiquidSection
        | Missing::LiquidDensity
        | Missing::SpaceAndBody
        | Missing::Shape
        | Missing::Extent { .. }
        | Missing::HoleSize => Said::default(),
    }
}
