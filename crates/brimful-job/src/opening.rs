//! `[[opening]]`: fittings and hatches.

use super::fault::{Conflict, Missing, OutOfRange};
use super::place::Place;
use super::reader::{Bound, Field, Section};
use super::stock::MATERIALS;
use brimful_units::{Length, Mass};

/// A hole in a panel and what it is for.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// What the shop calls it.
    pub name: String,
    /// What it is for.
    pub service: Service,
    /// The name of the panel.
    pub panel: String,
    /// Its middle, from the panel's lower-left corner, seen from outside.
    pub at: [Length; 2],
    /// The hole.
    pub size: OpeningSize,
    /// The diameter of the flat the fitting covers; none: the hole's own size.
    pub flange: Option<Length>,
    /// How far what goes in it stands out of the tank, with its elbow, cap or hose; none: not said.
    pub stands_out: Option<Length>,
    /// How thick its cover is, where that is of sheet held all round; none: not said.
    pub cover: Option<Length>,
    /// What goes in it weighs so much, with what hangs on it; none: too little to matter.
    pub weighs: Option<Mass>,
    /// The plastic of what is welded in; none: nothing is, or it is that of the sheet.
    pub material: Option<String>,
    /// Whether it goes on when the tank is in its place.
    pub goes_on: GoesOn,
    /// What it has before it.
    pub faces: Faces,
    /// Where it is written.
    pub place: Place,
}

/// What an opening is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Service {
    /// Liquid in.
    Fill,
    /// Air in and out.
    Vent,
    /// Liquid out, in use.
    Draw,
    /// The last of the liquid out.
    Drain,
    /// A level sender.
    Sender,
    /// A hand in.
    Hatch,
    /// Liquid out when too full.
    Overflow,
}

/// When a fitting goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoesOn {
    /// On the bench: it passes the way in with the tank.
    Before,
    /// Where the tank stands.
    After,
}

/// What a fitting has before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Faces {
    /// The space: it needs room there.
    Space,
    /// A hole for it in what is beside the tank.
    Hole,
}

/// The hole of an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OpeningSize {
    /// A round hole.
    Round {
        /// Its diameter.
        diameter: Length,
    },
    /// A rectangular hole.
    Rectangle {
        /// Across, seen from outside.
        width: Length,
        /// Up, seen from outside.
        height: Length,
    },
}

pub(super) const GOES_ON: [(&str, GoesOn); 2] =
    [("before", GoesOn::Before), ("after", GoesOn::After)];

pub(super) const FACES: [(&str, Faces); 2] = [("space", Faces::Space), ("hole", Faces::Hole)];

const SERVICES: [(&str, Service); 7] = [
    ("fill", Service::Fill),
    ("vent", Service::Vent),
    ("draw", Service::Draw),
    ("drain", Service::Drain),
    ("sender", Service::Sender),
    ("hatch", Service::Hatch),
    ("overflow", Service::Overflow),
];

impl Opening {
    /// Reads one `[[opening]]`.
    pub(super) fn read(section: &Section<'_>, index: usize) -> Option<Self> {
        let service = section.needed("service", |field| field.choice(&SERVICES));
        let name = section.optional("name", |field| field.text());
        let panel = section.needed("panel", |field| field.text());
        let at = section.needed("at", |field| field.lengths(Bound::NotNegative));
        let size = OpeningSize::read(section);
        let flange = section.optional("flange", |field| field.length(Bound::AboveZero));
        let stands_out = section.optional("stands_out", |field| field.length(Bound::AboveZero));
        let cover = section.optional("cover", |field| field.length(Bound::AboveZero));
        let weighs = section.optional("weighs", |field| field.quantity_above_zero());
        let material = section.optional("material", |field| field.choice(&MATERIALS));
        let goes_on = section.optional("goes_on", |field| field.choice(&GOES_ON));
        let faces = section.optional("faces", |field| field.choice(&FACES));
        let (service, size, flange) = (service?, size?, flange?);
        if flange.is_some_and(|flange| flange < size.largest()) {
            return section.refuse_key("flange", OutOfRange::FlangeWithinHole);
        }
        Some(Self {
            name: name?.unwrap_or_else(|| format!("{} {}", service.word(), index + 1)),
            service,
            panel: panel?,
            at: at?,
            size,
            flange,
            stands_out: stands_out?,
            cover: cover?,
            weighs: weighs?,
            material: material?.map(str::to_owned),
            // On the bench, where both hands get to it.
            goes_on: goes_on?.unwrap_or(GoesOn::Before),
            faces: faces?.unwrap_or(Faces::Space),
            place: section.place(),
        })
    }
}

impl Service {
    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        let found = SERVICES.iter().find(|(_, service)| *service == self);
        found.map_or("", |(word, _)| word)
    }
}

impl GoesOn {
    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        let found = GOES_ON.iter().find(|(_, goes_on)| *goes_on == self);
        found.map_or("", |(word, _)| word)
    }
}

impl Faces {
    /// The word of the job file.
    #[must_use]
    pub fn word(self) -> &'static str {
        let found = FACES.iter().find(|(_, faces)| *faces == self);
        found.map_or("", |(word, _)| word)
    }
}

impl OpeningSize {
    /// The larger of its two sizes.
    #[must_use]
    pub fn largest(self) -> Length {
        match self {
            Self::Round { diameter } => diameter,
            Self::Rectangle { width, height } => width.max(height),
        }
    }

    /// The diameter of the round hole through which as much runs: four areas over the perimeter.
    #[must_use]
    pub fn hydraulic_diameter(self) -> Length {
        match self {
            Self::Round { diameter } => diameter,
            Self::Rectangle { width, height } => width * (2.0 * (height / (width + height))),
        }
    }

    /// Its narrowest width.
    pub fn smallest(self) -> Length {
        match self {
            Self::Round { diameter } => diameter,
            Self::Rectangle { width, height } => width.min(height),
        }
    }

    fn read(section: &Section<'_>) -> Option<Self> {
        let size = |field: &Field<'_>| field.length(Bound::AboveZero);
        let diameter = section.optional("diameter", size);
        let width = section.optional("width", size);
        let height = section.optional("height", size);
        match (diameter?, width?, height?) {
            (Some(diameter), None, None) => Some(Self::Round { diameter }),
            (None, Some(width), Some(height)) => Some(Self::Rectangle { width, height }),
            (Some(_), _, _) => section.refuse_key("diameter", Conflict::RoundAndRectangular),
            (None, _, _) => section.refuse(Missing::HoleSize),
        }
    }
}
