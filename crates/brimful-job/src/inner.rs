//! `[[inner]]`: baffles, dividers and stays.

use super::axis::{AXES, Axis};
use super::fault::{Conflict, OutOfRange};
use super::inner_kind::InnerKind;
use super::place::Place;
use super::reader::{Bound, Field, Section};
use brimful_units::Length;

/// A baffle, divider or stay.
#[derive(Clone, Debug, PartialEq)]
pub struct Inner {
    /// What the shop calls it.
    pub name: String,
    /// Baffle, divider or stay.
    pub kind: InnerKind,
    /// Where it stands.
    pub at: InnerPlace,
    /// How much of the height (or of the width) a stay takes; none for the others, which go from
    /// floor to lid.
    pub strip: Option<Strip>,
    /// Its sheet thickness; none: chosen from the stock.
    pub thickness: Option<Length>,
    /// Left open under the lid; zero but for a baffle.
    pub air_gap: Length,
    /// Left open above the floor; zero but for a baffle.
    pub drain_gap: Length,
    /// Round holes; only in a baffle.
    pub holes: Vec<Hole>,
    /// How it is joined to the walls.
    pub joint: InnerJoint,
    /// From where to where along the wall it crosses (y for one that stands across x), in the
    /// body's axes; none: from wall to wall.
    pub span: Option<[Length; 2]>,
    /// Where it is written.
    pub place: Place,
}

/// The strip that a stay is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its middle, z in the body's axes.
    pub height: Length,
    /// Its size up and down; of one that lies, its size along the axis it is square to.
    pub width: Length,
    /// Whether it lies level between the walls instead of standing upright.
    pub lies: bool,
}

/// Where an inner panel stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InnerPlace {
    /// Square to an axis, its middle plane at a place in the body's own axes.
    At {
        /// The axis it is square to, or the long sides of a lying stay are: x or y.
        across: Axis,
        /// Where its middle lies on that axis.
        at: Length,
    },
    /// Where Brimful finds best.
    Auto,
}

/// A round hole in an inner panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Its diameter.
    pub diameter: Length,
    /// Its middle, in the body's axes (y, z) or (x, z); none: Brimful places it.
    pub at: Option<[Length; 2]>,
    /// Where it is written.
    pub place: Place,
}

/// How an inner panel is joined to the walls.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InnerJoint {
    /// Welded against the wall inside.
    Tee,
    /// Tongues through the wall, welded outside.
    SlotThrough,
}

pub(super) const KINDS: [(&str, InnerKind); 3] = [
    ("baffle", InnerKind::Baffle),
    ("divider", InnerKind::Divider),
    ("stay", InnerKind::Stay),
];
pub(super) const JOINTS: [(&str, InnerJoint); 2] = [
    ("tee", InnerJoint::Tee),
    ("slot through", InnerJoint::SlotThrough),
];

impl Inner {
    /// Reads one `[[inner]]`.
    pub(super) fn read(section: &Section<'_>, index: usize) -> Option<Self> {
        let kind = section.needed("kind", |field| field.choice(&KINDS));
        let name = section.optional("name", |field| field.text());
        let at = InnerPlace::read(section, kind);
        let strip = match kind {
            Some(InnerKind::Stay) => Strip::read(section).map(Some),
            _ => refuse_strip(section),
        };
        let thickness = section.optional("thickness", |field| field.length(Bound::AboveZero));
        let openings = match kind {
            Some(InnerKind::Divider) => refuse_openings(section, InnerKind::Divider),
            Some(InnerKind::Stay) => refuse_openings(section, InnerKind::Stay),
            _ => InnerOpenings::read(section),
        };
        let joint = section.defaulted("joint", |field| field.choice(&JOINTS));
        let span = section.optional("span", read_span);
        let (kind, openings) = (kind?, openings?);
        let called = match kind {
            InnerKind::Baffle => "baffle",
            InnerKind::Divider => "divider",
            InnerKind::Stay => "stay",
        };
        Some(Self {
            name: name?.unwrap_or_else(|| format!("{called} {}", index + 1)),
            kind,
            at: at?,
            strip: strip?,
            thickness: thickness?,
            air_gap: openings.air_gap,
            drain_gap: openings.drain_gap,
            holes: openings.holes,
            joint: joint?,
            span: span?,
            place: section.place(),
        })
    }
}

/// What lets liquid and air past an inner panel.
struct InnerOpenings {
    air_gap: Length,
    drain_gap: Length,
    holes: Vec<Hole>,
}

impl InnerOpenings {
    fn read(section: &Section<'_>) -> Option<Self> {
        let air_gap = section.defaulted("air_gap", |field| field.length(Bound::NotNegative));
        let drain_gap = section.defaulted("drain_gap", |field| field.length(Bound::NotNegative));
        let holes = section.each("hole", |item, _| Hole::read(item));
        Some(Self {
            air_gap: air_gap?,
            drain_gap: drain_gap?,
            holes: holes?,
        })
    }
}

impl Strip {
    fn read(section: &Section<'_>) -> Option<Self> {
        let height = section.needed("height", |field| field.length(Bound::Any));
        let width = section.needed("width", |field| field.length(Bound::AboveZero));
        let lies = section.defaulted("lies", |field| field.flag());
        Some(Self {
            height: height?,
            width: width?,
            lies: lies?,
        })
    }
}

fn refuse_strip(section: &Section<'_>) -> Option<Option<Strip>> {
    let keys = ["height", "width", "lies"];
    section.expect_keys(&keys);
    match keys.into_iter().find(|key| section.has(key)) {
        Some(key) => section.refuse_key(key, Conflict::NotAStrip),
        None => Some(None),
    }
}

fn refuse_openings(section: &Section<'_>, kind: InnerKind) -> Option<InnerOpenings> {
    let keys = ["air_gap", "drain_gap", "hole"];
    section.expect_keys(&keys);
    match keys.into_iter().find(|key| section.has(key)) {
        Some(key) => section.refuse_key(key, Conflict::NoOpenings { kind }),
        None => Some(InnerOpenings {
            air_gap: Length::ZERO,
            drain_gap: Length::ZERO,
            holes: Vec::new(),
        }),
    }
}

impl InnerPlace {
    fn read(section: &Section<'_>, kind: Option<InnerKind>) -> Option<Self> {
        let by_rule = section.needed("at", |field| Some(field.is_word("auto")))?;
        if !by_rule {
            let across = section.needed("across", |field| field.choice(&AXES[..2]));
            let at = section.needed("at", |field| field.length(Bound::Any));
            return Some(Self::At {
                across: across?,
                at: at?,
            });
        }
        section.expect_keys(&["across"]);
        if kind == Some(InnerKind::Stay) {
            return section.refuse_key("at", Conflict::StayByRule);
        }
        if section.has("across") {
            return section.refuse_key("across", Conflict::AcrossByRule);
        }
        Some(Self::Auto)
    }
}

impl Hole {
    fn read(section: &Section<'_>) -> Option<Self> {
        let diameter = section.needed("diameter", |field| field.length(Bound::AboveZero));
        let at = section.optional("at", |field| field.lengths(Bound::Any));
        Some(Self {
            diameter: diameter?,
            at: at?,
            place: section.place(),
        })
    }
}

fn read_span(field: &Field<'_>) -> Option<[Length; 2]> {
    let [from, to] = field.lengths(Bound::Any)?;
    if from < to {
        Some([from, to])
    } else {
        field.refuse(OutOfRange::Backwards)
    }
}
