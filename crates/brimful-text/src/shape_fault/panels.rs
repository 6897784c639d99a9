//! Faults of panels and openings, in words.

use super::fault_text::FaultText;
use crate::text::Text;
use crate::words::Words;
use brimful_panels::name::{FaceName, PanelName};
use brimful_panels::shape::{ChockFault, InnerFault, OpeningFault, PanelFault, RibBand, RibFault};
use brimful_units::spelling::nearest;

/// The panel of a face.
pub(super) fn outer(words: &Words<'_>, panel: FaceName, fault: &PanelFault) -> FaultText {
    let why = match fault {
        PanelFault::Fold => say!(
            words,
            "two of its faces meet at too flat or too sharp an angle"
        ),
        PanelFault::FlatBevel => say!(words, "the bevel at one of its edges is too flat to cut"),
        PanelFault::Plate(fault) => words.plate_fault(fault),
    };
    FaultText::new(
        say!(
            words,
            "The {panel} panel cannot be cut: {why}.",
            panel = words.face(panel),
            why = why
        ),
        say!(
            words,
            "Use thinner sheet, another joint, or leave out the narrow facet."
        ),
    )
}

/// A chock.
pub(super) fn chock(words: &Words<'_>, panel: FaceName, why: &ChockFault) -> FaultText {
    let panel = words.face(panel);
    let lower = || {
        say!(
            words,
            "Make `chock_height` less, or move what it meets higher."
        )
    };
    match why {
        ChockFault::NotUpright => FaultText::new(
            say!(
                words,
                "A chock stands against the {panel} panel, which is no upright wall.",
                panel = panel
            ),
            say!(
                words,
                "Name upright walls in `chocks`; hold the tank by straps where it has none."
            ),
        ),
        ChockFault::Twice => FaultText::new(
            say!(
                words,
                "Two chocks stand against the {panel} panel.",
                panel = panel
            ),
            say!(
                words,
                "Name each wall in `chocks` once; a chock reaches over all of its width."
            ),
        ),
        ChockFault::MeetsOpening { opening, free } => FaultText::new(
            say!(
                words,
                "The chock at the {panel} panel meets `{opening}`, whose flange begins {free} over the wall's foot.",
                panel = panel,
                opening = words.given(opening),
                free = words.length(*free)
            ),
            lower(),
        ),
        ChockFault::MeetsBand { band, free } => FaultText::new(
            say!(
                words,
                "The chock at the {panel} panel meets the {band}, which begins {free} over the wall's foot.",
                panel = panel,
                band = words.panel(band),
                free = words.length(*free)
            ),
            lower(),
        ),
    }
}

/// A name in the maker's order of work.
pub(super) fn own_order(words: &Words<'_>, panel: &str, panels: &[PanelName]) -> FaultText {
    let says = say!(
        words,
        "The order of work names a panel `{panel}`, and there is none.",
        panel = words.given(panel)
    );
    let names: Vec<String> = panels.iter().map(ToString::to_string).collect();
    let all = Text::join(names.iter().map(|name| Text::verbatim(name.clone())), ", ");
    let remedy = match nearest(panel, names.iter().map(String::as_str)) {
        Some(meant) => say!(
            words,
            "Did you mean `{meant}`? The panels are: {panels}.",
            meant = words.given(meant),
            panels = all
        ),
        None => say!(words, "The panels are: {panels}.", panels = all),
    };
    FaultText::new(says, remedy)
}

/// An opening.
pub(super) fn opening(words: &Words<'_>, opening: &str, fault: &OpeningFault) -> FaultText {
    let opening = words.given(opening);
    let (says, remedy) = match fault {
        OpeningFault::NoSuchPanel { panel, panels } => (
            say!(
                words,
                "The opening `{opening}` is in a panel called `{panel}`, and there is none.",
                opening = opening,
                panel = words.given(panel)
            ),
            say!(
                words,
                "The panels are: {panels}.",
                panels = Text::join(
                    panels.iter().map(|name| Text::verbatim(name.to_string())),
                    ", "
                )
            ),
        ),
        OpeningFault::InInnerPanel(panel) => (
            say!(
                words,
                "The opening `{opening}` is in `{panel}`, which is an inner panel.",
                opening = opening,
                panel = words.panel(panel)
            ),
            say!(
                words,
                "Put fittings in outer panels; give a baffle its openings with [[inner.hole]]."
            ),
        ),
        OpeningFault::InRib(panel) => (
            say!(
                words,
                "The opening `{opening}` is in `{panel}`, which is a rib.",
                opening = opening,
                panel = words.panel(panel)
            ),
            say!(words, "Put fittings in outer panels."),
        ),
        OpeningFault::OffPanel(panel) => (
            say!(
                words,
                "The opening `{opening}` does not lie inside the {panel} panel.",
                opening = opening,
                panel = words.panel(panel)
            ),
            say!(
                words,
                "Its place is measured to its middle from the panel's lower-left corner, seen from outside."
            ),
        ),
        OpeningFault::AcrossSeam { seam, standing, on } => (
            say!(
                words,
                "The opening `{opening}` lies across seam {seam}, where the {standing} stands on the {on} panel.",
                opening = opening,
                seam = words.given(seam),
                standing = words.panel(standing),
                on = words.panel(on)
            ),
            say!(words, "Move the opening, or the panel that stands there."),
        ),
        OpeningFault::IntoHole(other) => (
            say!(
                words,
                "The opening `{opening}` runs into `{other}`.",
                opening = opening,
                other = words.hole(other)
            ),
            say!(words, "Move one of the two."),
        ),
    };
    FaultText::new(says, remedy)
}

/// A baffle, divider or stay.
pub(super) fn inner(words: &Words<'_>, inner: &str, fault: &InnerFault) -> FaultText {
    let inner = words.given(inner);
    let why = match fault {
        InnerFault::DividerWithSpan => say!(
            words,
            "a divider must reach from wall to wall, and this one has a span"
        ),
        InnerFault::NotCut(fault) => say!(
            words,
            "it cannot be cut out of the cavity: {fault}",
            fault = words.boolean_fault(fault)
        ),
        InnerFault::Outside => say!(words, "it stands outside the cavity"),
        InnerFault::OutsideOrInPanel => {
            say!(words, "it stands outside the cavity, or in an outer panel")
        }
        InnerFault::CavityChanges => say!(
            words,
            "the cavity changes shape within its thickness; move it a little"
        ),
        InnerFault::FreeStay => say!(
            words,
            "a stay must reach from wall to wall, and an end of this one is free"
        ),
        InnerFault::NoRoom(fault) => say!(
            words,
            "no room is left for it between its gaps: {fault}",
            fault = words.plate_fault(fault)
        ),
        InnerFault::SlantedTongues(panel) => say!(
            words,
            "its tongues would pass the {panel} at a slant, which is not covered; use `tee`",
            panel = words.panel(panel)
        ),
        InnerFault::HoleOutside => {
            return FaultText::new(
                say!(
                    words,
                    "A hole of the inner panel `{inner}` does not lie inside the panel.",
                    inner = inner
                ),
                say!(words, "Move it, or make it smaller."),
            );
        }
    };
    FaultText::new(
        say!(
            words,
            "The inner panel `{inner}` cannot be made: {why}.",
            inner = inner,
            why = why
        ),
        say!(
            words,
            "Check its place, span and gaps against the inside of the tank."
        ),
    )
}

/// A rib.
pub(super) fn rib(words: &Words<'_>, rib: &RibBand, fault: &RibFault) -> FaultText {
    let (why, remedy) = why_no_rib(words, fault);
    let says = say!(
        words,
        "The rib `{rib}` cannot be made: {why}.",
        rib = band(words, rib),
        why = why
    );
    FaultText::new(says, remedy)
}

fn band(words: &Words<'_>, rib: &RibBand) -> Text {
    let name = words.given(&rib.name);
    match rib.band {
        None => name,
        Some(band) => say!(words, "{name} band {band}", name = name, band = band),
    }
}

fn why_no_rib(words: &Words<'_>, fault: &RibFault) -> (Text, Text) {
    let face = |face: &FaceName| words.face(*face);
    match fault {
        RibFault::NoWall => (
            say!(words, "no upright wall reaches its height"),
            say!(
                words,
                "Check `heights`, which count from the body's own origin."
            ),
        ),
        RibFault::NotUpright(panel) => (
            say!(
                words,
                "the {panel} panel does not stand upright, and ribs on leaning or level panels are not covered",
                panel = face(panel)
            ),
            say!(
                words,
                "Take it out of `panels`; stiffen it with stays, a baffle or thicker sheet."
            ),
        ),
        RibFault::NotReached(panel) => (
            say!(
                words,
                "the {panel} panel does not reach its height",
                panel = face(panel)
            ),
            say!(
                words,
                "Check `heights`, which count from the body's own origin, or take the panel out of `panels`."
            ),
        ),
        RibFault::AcrossCorner(panel) => (
            say!(
                words,
                "it would stand across a corner or past the end of the {panel} panel",
                panel = face(panel)
            ),
            say!(
                words,
                "Move it up or down until it lies on the wall with its whole thickness."
            ),
        ),
        RibFault::FoldsBack([one, other]) => (
            say!(
                words,
                "the {one} and {other} panels fold back on each other",
                one = face(one),
                other = face(other)
            ),
            say!(words, "Take one of the two out of `panels`."),
        ),
        RibFault::IntoRib { rib, on } => (
            say!(
                words,
                "it runs into `{rib}` on the {on} panel",
                rib = band(words, rib),
                on = face(on)
            ),
            say!(words, "Move one of the two up or down."),
        ),
        RibFault::FlatEnd(panel) => (
            say!(
                words,
                "its end on the {panel} panel is too flat to cut",
                panel = face(panel)
            ),
            say!(
                words,
                "Take the panel beyond that end into `panels`, or this one out."
            ),
        ),
        RibFault::NoRoom(panel) => (
            say!(
                words,
                "no room is left for its strip on the {panel} panel",
                panel = face(panel)
            ),
            say!(
                words,
                "Make it less deep, or take the panel out of `panels`."
            ),
        ),
        RibFault::PastPanel(panel) => (
            say!(
                words,
                "its end would reach past the {panel} panel that it stands against",
                panel = face(panel)
            ),
            say!(
                words,
                "Make it less deep, or take that panel into `panels` too."
            ),
        ),
    }
}
