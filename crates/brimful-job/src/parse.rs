//! From text to job: every section in turn, then either the whole or all faults.

use super::Job;
use super::about::{About, Duty};
use super::body::BodySpec;
use super::checks::Checks;
use super::event::Event;
use super::fault::{FaultKind, JobFault};
use super::inner::Inner;
use super::liquid::Liquid;
use super::opening::Opening;
use super::place::Place;
use super::quote::Quote;
use super::reader::{Complaint, Reading, Section};
use super::rib::Rib;
use super::shop::Shop;
use super::space::Space;
use super::stock::Stock;
use super::support::Support;
use super::trim::Trim;
use super::vehicle::Vehicle;
use std::collections::BTreeSet;
use toml::de::{DeTable, Error};

/// No job written by hand comes near; it bounds the time and memory of a hostile one.
const LARGEST_TEXT: usize = 1_000_000;
/// Slips in the TOML beyond these are mostly echoes of the first.
const MOST_SLIPS: usize = 3;

pub(super) fn parse(text: &str) -> Result<Job, Vec<JobFault>> {
    let reading = Reading::new(text);
    if text.len() > LARGEST_TEXT {
        let complaint = Complaint::new(FaultKind::TooLarge, "the file is larger than 1 MB")
            .remedy("Give the file of one job.");
        reading.note(&(0..0), "", complaint);
        return Err(reading.finish().0);
    }
    let (tree, slips) = DeTable::parse_recoverable(text);
    for slip in slips.iter().take(MOST_SLIPS) {
        note_slip(&reading, slip);
    }
    let job = read_job(&reading.root(tree.get_ref()));
    let (faults, defaults) = reading.finish();
    match job {
        Some(job) if faults.is_empty() => Ok(Job { defaults, ..job }),
        _ => Err(without_echoes(faults)),
    }
}

fn note_slip(reading: &Reading<'_>, slip: &Error) {
    let message = slip.message();
    let complaint = if message.contains("recurs") {
        Complaint::new(FaultKind::TooDeep, "values lie within values too deep")
            .remedy("A job needs no more than five levels.")
    } else if message.contains("duplicate key") {
        Complaint::new(FaultKind::NotToml, "the same key stands here a second time")
            .remedy("Keep one of the two; a list of blocks has double brackets: [[opening]].")
    } else {
        Complaint::new(FaultKind::NotToml, format!("this is not TOML: {message}"))
            .remedy("Text stands in quotation marks, a section in brackets on a line of its own.")
    };
    reading.note(&slip.span().unwrap_or_default(), "", complaint);
}

/// What follows from a slip in the TOML is not listed beside it: what was lost with its line (a
/// key, the unit of lengths), or a fault on that same line.
fn without_echoes(faults: Vec<JobFault>) -> Vec<JobFault> {
    let is_slip = |fault: &JobFault| matches!(fault.kind, FaultKind::NotToml | FaultKind::TooDeep);
    let slipped: BTreeSet<usize> = faults
        .iter()
        .filter(|fault| is_slip(fault))
        .map(|fault| fault.line)
        .collect();
    if slipped.is_empty() {
        return faults;
    }
    let is_echo = |fault: &JobFault| {
        matches!(fault.kind, FaultKind::Missing | FaultKind::BareNumber)
            || slipped.contains(&fault.line)
    };
    faults
        .into_iter()
        .filter(|fault| is_slip(fault) || !is_echo(fault))
        .collect()
}

fn read_job(root: &Section<'_>) -> Option<Job> {
    let about = About::read(&root.section("job"));
    let space = read_if_there(&root.section("space"), Space::read);
    let body = read_if_there(&root.section("body"), BodySpec::read);
    let liquid = read_liquid(root);
    let trim = Trim::read(&root.section("trim"));
    let stock = Stock::read(&root.section("stock"));
    let shop = Shop::read(&root.section("shop"));
    let inner = root.each("inner", Inner::read);
    let ribs = root.each("rib", Rib::read);
    let openings = root.each("opening", Opening::read);
    let support = Support::read(&root.section("support"));
    let vehicle = read_if_there(&root.section("vehicle"), Vehicle::read);
    let events = read_events(root, about.as_ref());
    let checks = Checks::read(&root.section("checks"));
    let quote = Quote::read(&root.section("quote"));
    root.refuse_unknown_keys();
    refuse_no_shape(root);
    refuse_names_twice(
        root,
        "inner",
        inner
            .iter()
            .flatten()
            .map(|inner| (&inner.name, &inner.place)),
    );
    refuse_names_twice(
        root,
        "rib",
        ribs.iter().flatten().map(|rib| (&rib.name, &rib.place)),
    );
    refuse_names_twice(
        root,
        "opening",
        openings
            .iter()
            .flatten()
            .map(|opening| (&opening.name, &opening.place)),
    );
    Some(Job {
        about: about?,
        space: space?,
        body: body?,
        liquid: liquid?,
        trim: trim?,
        stock: stock?,
        shop: shop?,
        inner: inner?,
        ribs: ribs?,
        openings: openings?,
        support: support?,
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
    root.refuse(
        Complaint::new(FaultKind::Missing, "the section [liquid] is missing")
            .remedy("Add it, with the `kind` of liquid or its `density`."),
    )
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
        let complaint = Complaint::new(FaultKind::Missing, "there is neither [space] nor [body]")
            .remedy("Add the space the tank must go into, or the body wanted.");
        root.refuse::<()>(complaint);
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
            let says = format!("the name `{name}` is used twice");
            let complaint =
                Complaint::new(FaultKind::NameTwice, says).remedy("Give each a name of its own.");
            root.reading().note(&place.span, key, complaint);
        }
    }
}
