//! From text to job: every section in turn, then either the whole or all faults.

use super::about::{About, Duty};
use super::body::BodySpec;
use super::cascade::without_cascade;
use super::checks::Checks;
use super::chocks::Chocks;
use super::compartment::CompartmentSpec;
use super::dry::DryRoom;
use super::event::Event;
use super::fault::{FaultKind, JobFault, Missing};
use super::inner::Inner;
use super::job::Job;
use super::liquid::Liquid;
use super::opening::Opening;
use super::place::Place;
use super::quote::Quote;
use super::reader::{Reading, Section, Trace};
use super::rib::Rib;
use super::shop::Shop;
use super::space::Space;
use super::stock::Stock;
use super::support::Support;
use super::trim::Trim;
use super::vehicle::Vehicle;
use super::weld::OwnOrder;
use std::collections::BTreeSet;
use toml::de::{DeTable, Error};

/// No job written by hand comes near; it bounds the time and memory of a hostile one.
const LARGEST_TEXT: usize = 1_000_000;
/// Syntax errors beyond these mostly cascade from the first.
const MOST_SYNTAX_ERRORS: usize = 3;

impl Job {
    /// Reads the text of a job file. Touches no disk.
    ///
    /// # Errors
    /// Every fault of the text, in the order of their places; never an empty list. After a
    /// syntax error only the first few of them and what is sure in spite of them are listed.
    pub fn parse(text: &str) -> Result<Self, Vec<JobFault>> {
        read(Reading::new(text), text).0
    }
}

/// Reads a text, and gives what the reader asked for while it read.
pub(super) fn traced(text: &str) -> (Result<Job, Vec<JobFault>>, Trace) {
    read(Reading::new(text).traced(), text)
}

fn read(reading: Reading<'_>, text: &str) -> (Result<Job, Vec<JobFault>>, Trace) {
    if text.len() > LARGEST_TEXT {
        let kind = FaultKind::TooLarge { most: LARGEST_TEXT };
        reading.note(&(0..0), "", kind.into());
        return (Err(reading.finish().0), Trace::default());
    }
    let (tree, errors) = DeTable::parse_recoverable(text);
    let mut told: Vec<String> = Vec::new();
    for error in errors.iter().take(MOST_SYNTAX_ERRORS) {
        // One bracket that is left open may be met again at every level.
        let message = error.to_string();
        if !told.contains(&message) {
            note_syntax_error(&reading, error);
            told.push(message);
        }
    }
    let job = read_job(&reading.root(tree.get_ref()));
    let trace = reading.trace();
    let (faults, defaults) = reading.finish();
    let job = match job {
        Some(job) if faults.is_empty() => Ok(Job { defaults, ..job }),
        _ => Err(without_cascade(faults)),
    };
    (job, trace)
}

fn note_syntax_error(reading: &Reading<'_>, error: &Error) {
    let message = error.message();
    let kind = if message.contains("recurs") {
        FaultKind::TooDeep
    } else if message.contains("duplicate key") {
        FaultKind::KeyTwice
    } else {
        FaultKind::NotToml {
            message: message.to_owned(),
        }
    };
    reading.note(&error.span().unwrap_or_default(), "", kind.into());
}

fn read_job(root: &Section<'_>) -> Option<Job> {
    let about = About::read(&root.section("job"));
    let space = read_if_there(&root.section("space"), Space::read);
    let body = read_if_there(&root.section("body"), BodySpec::read);
    let liquid = read_liquid(root);
    let trim = Trim::read(&root.section("trim"));
    let stock = Stock::read(&root.section("stock"));
    let shop = Shop::read(&root.section("shop"));
    let own_order = OwnOrder::read(&root.section("weld"));
    let inner = root.each("inner", Inner::read);
    let compartments = root.each("compartment", |item, _| CompartmentSpec::read(item));
    let dry = root.each("dry", |item, _| DryRoom::read(item));
    let ribs = root.each("rib", Rib::read);
    let openings = root.each("opening", Opening::read);
    let support_section = root.section("support");
    let chocks = Chocks::read(&support_section);
    let support = Support::read(&support_section);
    let vehicle = read_if_there(&root.section("vehicle"), Vehicle::read);
    let events = read_events(root, about.as_ref());
    let checks = Checks::read(&root.section("checks"));
    let quote = Quote::read(&root.section("quote"));
    root.refuse_unknown_keys();
    refuse_no_shape(root);
    let of_inner = inner.iter().flatten();
    refuse_names_twice(root, "inner", of_inner.map(|it| (&it.name, &it.place)));
    let of_compartments = compartments.iter().flatten();
    let named = of_compartments.filter_map(|it| Some((it.name.as_ref()?, &it.place)));
    refuse_names_twice(root, "compartment", named);
    let of_ribs = ribs.iter().flatten();
    refuse_names_twice(root, "rib", of_ribs.map(|it| (&it.name, &it.place)));
    let of_openings = openings.iter().flatten();
    refuse_names_twice(root, "opening", of_openings.map(|it| (&it.name, &it.place)));
    Some(Job {
        about: about?,
        space: space?,
        body: body?,
        liquid: liquid?,
        trim: trim?,
        stock: stock?,
        shop: shop?,
        own_order: own_order?,
        inner: inner?,
        compartments: compartments?,
        dry: dry?,
        ribs: ribs?,
        openings: openings?,
        support: support?,
        chocks: chocks?,
        vehicle: vehicle?,
        events: events?,
        checks: checks?,
        quote: quote?,
        defaults: Vec::new(),
    })
}

fn read_if_there<'a, T>(
    section: &Section<'a>,
    read: impl FnOnce(&Section<'a>) -> Option<T>,
) -> Option<Option<T>> {
    if section.is_there() {
        read(section).map(Some)
    } else {
        Some(None)
    }
}

fn read_liquid(root: &Section<'_>) -> Option<Liquid> {
    let section = root.section("liquid");
    if section.is_there() {
        return Liquid::read(&section);
    }
    if root.has("liquid") {
        // It is something other than a section, which has been noted.
        return None;
    }
    root.refuse(Missing::LiquidSection)
}

/// On the road a job that names no event gets the standard ones.
fn read_events(root: &Section<'_>, about: Option<&About>) -> Option<Vec<Event>> {
    let on_the_road = about.is_some_and(|about| about.duty == Duty::Road);
    if on_the_road {
        root.defaulted_for("event", "road", |field| {
            field.each(|item, _| Event::read(item))
        })
    } else {
        root.each("event", |item, _| Event::read(item))
    }
}

fn refuse_no_shape(root: &Section<'_>) {
    if !root.has("space") && !root.has("body") {
        root.refuse::<()>(Missing::SpaceAndBody);
    }
}

fn refuse_names_twice<'n>(
    root: &Section<'_>,
    key: &str,
    named: impl Iterator<Item = (&'n String, &'n Place)>,
) {
    let mut names = BTreeSet::new();
    for (name, place) in named {
        if !names.insert(name) {
            let kind = FaultKind::NameTwice { name: name.clone() };
            root.reading().note(&place.span, key, kind.into());
        }
    }
}
