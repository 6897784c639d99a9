//! Writing into a job file: entries as a person of the trade writes them, and which of them turn one
//! job into another. What is changed in the text itself, comments kept, is for whoever holds the file.

use super::about::About;
use super::axis::{AXES, Axis};
use super::body::BodySpec;
use super::checks::FILLED_TO;
use super::inner::{Inner, InnerJoint, InnerPlace, JOINTS, KINDS};
use super::inner_kind::InnerKind;
use super::job::Job;
use super::length_unit::LengthUnit;
use super::opening::{FACES, GOES_ON, Opening, OpeningSize};
use super::rib::Rib;
use super::shop::PROCESSES;
use super::support::Support;
use brimful_units::{Length, LengthStyle, Mass, UnitSystem, show};

/// One change to the text of a job file. Places are counted from 1, as `inner[2]`; writes are made one
/// after another.
#[derive(Clone, Debug, PartialEq)]
pub enum Write {
    /// The entry gets this value, written new where it is not there.
    Set(String, Written),
    /// A block is added to the list of blocks.
    Append(&'static str, Vec<Entry>),
    /// The entry or block goes.
    Remove(String),
}

/// A value as it is written.
#[derive(Clone, Debug, PartialEq)]
pub enum Written {
    /// A bare number.
    Number(f64),
    /// Text in quotation marks.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// A list.
    List(Vec<Written>),
    /// A block in braces.
    Block(Vec<Entry>),
}

/// A key and its value.
pub type Entry = (&'static str, Written);

/// Parts of a unit that are written at most: a millionth is far below what a tape shows and far above
/// the rounding of conversions.
const PARTS_WRITTEN: f64 = 1e6;

impl About {
    /// The nearest length in round figures of this job: whole millimetres, or its fraction of an inch.
    pub fn round(&self, length: Length) -> Length {
        match (self.writes_in(), self.lengths) {
            (UnitSystem::Metric, unit) => {
                let whole = Length::from_mm(length.mm().round());
                unit.map_or(whole, |unit| unit.length(rounded(whole / unit.length(1.0))))
            }
            (UnitSystem::Inch, _) => {
                let parts = f64::from(self.fraction.parts());
                Length::from_inches((length.inches() * parts).round() / parts)
            }
        }
    }

    /// A length as a person writes it in this job: a bare number or fraction where the job has a unit for
    /// it; with its unit where it has none, or where the length is round in the other system alone.
    pub fn written(&self, length: Length) -> Written {
        let inch = LengthStyle::of(UnitSystem::Inch, self.fraction);
        let parts = length.inches() * f64::from(self.fraction.parts());
        let by_fraction = (parts - parts.round()).abs() < 1.0 / PARTS_WRITTEN;
        match (self.lengths, self.writes_in()) {
            (Some(unit), UnitSystem::Metric) => Written::Number(rounded(length / unit.length(1.0))),
            (None, UnitSystem::Inch) if by_fraction => Written::Text(show::length(length, inch)),
            (Some(_), UnitSystem::Inch) if by_fraction => {
                let text = show::length(length, inch);
                // A bare number of feet is feet.
                let bare = text.strip_suffix(" in").filter(|_| self.counts_inches());
                Written::Text(bare.unwrap_or(&text).to_owned())
            }
            _ => Written::Text(format!("{} mm", rounded(length.mm()))),
        }
    }

    /// A place as part of a name: it goes by the units that lengths are written in, so that it stays the
    /// same whichever units are shown.
    pub fn place_word(&self, length: Length) -> String {
        show::length(length, LengthStyle::of(self.writes_in(), self.fraction))
    }

    fn counts_inches(&self) -> bool {
        self.lengths == Some(LengthUnit::Inch)
    }

    /// The system that lengths are written in.
    fn writes_in(&self) -> UnitSystem {
        self.lengths.map_or(self.units, |unit| unit.system())
    }

    fn all_written(&self, lengths: &[Length]) -> Written {
        Written::List(lengths.iter().map(|it| self.written(*it)).collect())
    }
}

/// Without the rounding of a conversion.
fn rounded(number: f64) -> f64 {
    (number * PARTS_WRITTEN).round() / PARTS_WRITTEN
}

/// What has to be written into the file of `from` to make it `to`, as far as the two differ in thickness,
/// inner panels, ribs, support, filling, process, clearance or an order of work that goes. Of openings only where there are new ones: a change that
/// has none leaves some out that the file keeps.
pub fn writes(from: &Job, to: &Job) -> Vec<Write> {
    let about = &from.about;
    let mut writes = Vec::new();
    if let (Some(before), Some(after)) = (&from.body, &to.body) {
        writes.extend(of_thickness(about, before, after));
    }
    let inner = |inner: &Inner| inner_entries(about, inner);
    writes.extend(of_list("inner", &from.inner, &to.inner, inner));
    let rib = |rib: &Rib| rib_entries(about, rib);
    writes.extend(of_list("rib", &from.ribs, &to.ribs, rib));
    if to.has_new_openings(from) {
        let opening = |opening: &Opening| opening_entries(about, opening);
        writes.extend(of_list("opening", &from.openings, &to.openings, opening));
    }
    writes.extend(of_support(about, &from.support, &to.support));
    writes.extend(of_filling(from, to));
    writes.extend(of_shop_and_space(from, to));
    writes.extend(of_order(from, to));
    writes
}

impl Job {
    /// Whether it has openings that another has not.
    pub fn has_new_openings(&self, from: &Self) -> bool {
        let mut own = self.openings.iter();
        own.any(|opening| !from.openings.contains(opening))
    }
}

/// What the shop leaves to a default goes with the process.
fn of_shop_and_space(from: &Job, to: &Job) -> Vec<Write> {
    let mut writes = Vec::new();
    if to.shop.process != from.shop.process {
        let value = text(word_of(&PROCESSES, to.shop.process));
        writes.push(Write::Set("shop.process".to_owned(), value));
    }
    if let (Some(before), Some(after)) = (&from.space, &to.space)
        && before.clearance != after.clearance
    {
        let value = from.about.written(after.clearance);
        writes.push(Write::Set("space.clearance".to_owned(), value));
    }
    writes
}

/// Panels that are gone leave the maker's own order, from the last on, so that the places of the others stay.
fn of_order(from: &Job, to: &Job) -> Vec<Write> {
    let Some(before) = &from.own_order else {
        return Vec::new();
    };
    let Some(after) = &to.own_order else {
        return vec![Write::Remove("weld.order".to_owned())];
    };
    let stays = |name: &str| after.panels.iter().any(|it| it.name == name);
    let panels = before.panels.iter().enumerate().rev();
    let gone = panels.filter(|(_, it)| !stays(&it.name));
    gone.map(|(place, _)| Write::Remove(format!("weld.order[{}]", place + 1)))
        .collect()
}

fn of_thickness(about: &About, from: &BodySpec, to: &BodySpec) -> Vec<Write> {
    let mut writes = Vec::new();
    if let Some(thickness) = to.thickness.filter(|it| Some(*it) != from.thickness) {
        let value = about.written(thickness);
        writes.push(Write::Set("body.thickness".to_owned(), value));
    }
    if to.thicknesses.is_empty() && !from.thicknesses.is_empty() {
        writes.push(Write::Remove("body.thicknesses".to_owned()));
    }
    writes
}

/// Blocks of the same names and kinds, in the same places, are changed entry by entry where they stand. Else those that are no
/// more go, from the last on, so that the places of the others stay, and new ones come.
fn of_list<T>(
    list: &'static str,
    from: &[T],
    to: &[T],
    entries: impl Fn(&T) -> Vec<Entry>,
) -> Vec<Write> {
    let before: Vec<Vec<Entry>> = from.iter().map(&entries).collect();
    let after: Vec<Vec<Entry>> = to.iter().map(&entries).collect();
    let named = |blocks: &[Vec<Entry>]| -> Vec<Vec<Entry>> {
        let is_name = |entry: &&Entry| matches!(entry.0, "name" | "kind" | "service");
        let names = blocks
            .iter()
            .map(|block| block.iter().filter(is_name).cloned());
        names.map(Iterator::collect).collect()
    };
    if named(&before) == named(&after) {
        let both = before.iter().zip(&after).enumerate();
        return both
            .flat_map(|(i, (before, after))| of_block(&format!("{list}[{}]", i + 1), before, after))
            .collect();
    }
    let gone = (0..before.len())
        .rev()
        .filter(|&i| !after.contains(&before[i]));
    let removes = gone.map(|i| Write::Remove(format!("{list}[{}]", i + 1)));
    let new = after.iter().filter(|block| !before.contains(block));
    let appends = new.map(|block| Write::Append(list, block.clone()));
    removes.chain(appends).collect()
}

fn of_support(about: &About, from: &Support, to: &Support) -> Vec<Write> {
    let before = support_entries(about, from);
    let after = support_entries(about, to);
    of_block("support", &before, &after)
}

/// Entries of a block that are no more go; new ones and new values come.
fn of_block(block: &str, before: &[Entry], after: &[Entry]) -> Vec<Write> {
    let place = |key: &str| format!("{block}.{key}");
    let stays = |key: &str| after.iter().any(|(other, _)| *other == key);
    let gone = before.iter().filter(|(key, _)| !stays(key));
    let removes = gone.map(|(key, _)| Write::Remove(place(key)));
    let new = after.iter().filter(|entry| !before.contains(entry));
    let sets = new.map(|(key, value)| Write::Set(place(key), value.clone()));
    removes.chain(sets).collect()
}

fn of_filling(from: &Job, to: &Job) -> Vec<Write> {
    let mut writes = Vec::new();
    if to.liquid.air_space != from.liquid.air_space {
        let value = from.about.written(to.liquid.air_space);
        writes.push(Write::Set("liquid.air_space".to_owned(), value));
    }
    if to.checks.filled_to != from.checks.filled_to {
        let value = text(word_of(&FILLED_TO, to.checks.filled_to));
        writes.push(Write::Set("checks.filled_to".to_owned(), value));
    }
    writes
}

fn text(text: &str) -> Written {
    Written::Text(text.to_owned())
}

/// The word that a value is read from.
fn word_of<T: PartialEq>(words: &[(&'static str, T)], value: T) -> &'static str {
    let found = words.iter().find(|(_, other)| *other == value);
    found.map_or("", |(word, _)| word)
}

fn axis(axis: Axis) -> Written {
    text(word_of(&AXES, axis))
}

fn inner_entries(about: &About, inner: &Inner) -> Vec<Entry> {
    let length = |length: Length| about.written(length);
    let mut entries = vec![
        ("name", text(&inner.name)),
        ("kind", text(word_of(&KINDS, inner.kind))),
    ];
    match inner.at {
        InnerPlace::At { across, at } => {
            entries.extend([("across", axis(across)), ("at", length(at))]);
        }
        InnerPlace::Auto => entries.push(("at", text("auto"))),
    }
    if let Some(strip) = inner.strip {
        entries.extend([
            ("height", length(strip.height)),
            ("width", length(strip.width)),
        ]);
        entries.extend(strip.lies.then_some(("lies", Written::Flag(true))));
    }
    entries.extend(inner.thickness.map(|it| ("thickness", length(it))));
    if inner.kind == InnerKind::Baffle {
        entries.extend([
            ("air_gap", length(inner.air_gap)),
            ("drain_gap", length(inner.drain_gap)),
        ]);
    }
    if !inner.holes.is_empty() {
        let holes = inner.holes.iter().map(|hole| {
            let at = hole.at.map(|at| ("at", about.all_written(&at)));
            let diameter = ("diameter", length(hole.diameter));
            Written::Block([diameter].into_iter().chain(at).collect())
        });
        entries.push(("hole", Written::List(holes.collect())));
    }
    if inner.joint == InnerJoint::SlotThrough {
        entries.push(("joint", text(word_of(&JOINTS, inner.joint))));
    }
    entries.extend(inner.span.map(|span| ("span", about.all_written(&span))));
    entries
}

fn opening_entries(about: &About, opening: &Opening) -> Vec<Entry> {
    let length = |length: Length| about.written(length);
    let mut entries = vec![
        ("name", text(&opening.name)),
        ("service", text(opening.service.word())),
        ("panel", text(&opening.panel)),
        ("at", about.all_written(&opening.at)),
    ];
    match opening.size {
        OpeningSize::Round { diameter } => entries.push(("diameter", length(diameter))),
        OpeningSize::Rectangle { width, height } => {
            entries.extend([("width", length(width)), ("height", length(height))]);
        }
    }
    let lengths = [
        ("flange", opening.flange),
        ("stands_out", opening.stands_out),
        ("cover", opening.cover),
    ];
    let said = lengths.map(|(key, it)| it.map(|it| (key, length(it))));
    entries.extend(said.into_iter().flatten());
    let mass = |mass: Mass| ("weighs", Written::Text(format!("{} kg", mass.kg())));
    entries.extend(opening.weighs.map(mass));
    entries.push(("goes_on", text(word_of(&GOES_ON, opening.goes_on))));
    entries.push(("faces", text(word_of(&FACES, opening.faces))));
    entries
}

fn rib_entries(about: &About, rib: &Rib) -> Vec<Entry> {
    let mut entries = vec![
        ("name", text(&rib.name)),
        ("heights", about.all_written(&rib.heights)),
        ("depth", about.written(rib.depth)),
    ];
    entries.extend(rib.thickness.map(|it| ("thickness", about.written(it))));
    entries.extend(rib.panels.as_ref().map(|panels| {
        let names = panels.iter().map(|name| text(name));
        ("panels", Written::List(names.collect()))
    }));
    entries
}

fn support_entries(about: &About, support: &Support) -> Vec<Entry> {
    let kind = ("kind", text(support.word()));
    match support {
        Support::Floor | Support::Bed => vec![kind],
        Support::Rails { along, at, width } => vec![
            kind,
            ("along", axis(*along)),
            ("at", about.all_written(at)),
            ("width", about.written(*width)),
        ],
        Support::Straps { across, at, width } => vec![
            kind,
            ("across", axis(*across)),
            ("at", about.all_written(at)),
            ("width", about.written(*width)),
        ],
        Support::Feet { at, size } => {
            let places = at.iter().map(|place| about.all_written(place));
            vec![
                kind,
                ("at", Written::List(places.collect())),
                ("size", about.all_written(size)),
            ]
        }
    }
}
