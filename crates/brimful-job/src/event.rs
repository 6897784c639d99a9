//! `[[event]]`: what the road does to the tank.

use super::fault::{FaultKind, Named, OutOfRange};
use super::form::KeyForm;
use super::place::Place;
use super::reader::{Complaint, Field, Reading, Section, shortened};
use brimful_units::Acceleration;
use std::sync::LazyLock;
use toml::de::DeTable;

/// What the road does to the tank: how hard the tank is held back or thrown, each way.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// What it is called.
    pub name: String,
    /// The liquid pushes forward (braking).
    pub forward: Acceleration,
    /// The liquid pushes to the rear.
    pub rear: Acceleration,
    /// The liquid pushes to either side.
    pub side: Acceleration,
    /// The liquid pushes up, against gravity.
    pub up: Acceleration,
    /// The liquid pushes down, on top of gravity.
    pub down: Acceleration,
    /// All directions at once; otherwise one after the other, each with gravity.
    pub combined: bool,
    /// How often it comes on a day.
    pub per_day: f64,
    /// Where the figures come from.
    pub source: String,
    /// How sure they are.
    pub flag: EventFlag,
    /// Where it is written.
    pub place: Place,
}

/// How sure the figures of an event are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EventFlag {
    /// Of the standing table: read in the source named.
    Seen,
    /// Of the standing table: recalled from the source named.
    FromMemory,
    /// The job's own, whatever it says of them.
    Given,
}

const DIRECTIONS: [&str; 5] = ["forward", "rear", "side", "up", "down"];

impl Event {
    /// Reads one `[[event]]`: a standard one by its name alone, or the shop's own figures.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let name = section.needed("name", |field| {
            field.takes(|| KeyForm::Words(names().map(str::to_owned).collect()));
            field.text()
        });
        let has_figures = DIRECTIONS.iter().any(|direction| section.has(direction));
        if has_figures {
            return Self::read_figures(section, name);
        }
        section.expect_keys(&DIRECTIONS);
        section.expect_keys(&["combined", "per_day", "source"]);
        let name = name?;
        let standard = STANDARD.iter().find(|event| event.name == name);
        match standard {
            Some(event) => Some(Self {
                place: section.place(),
                ..event.clone()
            }),
            None => section.refuse_key(
                "name",
                Complaint::new(FaultKind::UnknownWord {
                    written: shortened(&name),
                    names: Named::Event,
                })
                .allowed(names())
                .nearest_to(&name),
            ),
        }
    }

    fn read_figures(section: &Section<'_>, name: Option<String>) -> Option<Self> {
        let direction = |key| {
            let read = section.optional(key, read_multiple_of_g)?;
            Some(read.unwrap_or(Acceleration::ZERO))
        };
        let [forward, rear, side, up, down] = DIRECTIONS.map(direction);
        let combined = section.optional("combined", |field| field.flag());
        let per_day = section.defaulted("per_day", read_per_day);
        let source = section.optional("source", |field| field.text());
        Some(Self {
            name: name?,
            forward: forward?,
            rear: rear?,
            side: side?,
            up: up?,
            down: down?,
            combined: combined?.unwrap_or(false),
            per_day: per_day?,
            source: source?.unwrap_or_else(|| "the job's own figures".to_owned()),
            flag: EventFlag::Given,
            place: section.place(),
        })
    }
}

/// The names of the standard events.
fn names() -> impl Iterator<Item = &'static str> {
    STANDARD.iter().map(|event| event.name.as_str())
}

/// The events of a tank on a road whose job names none.
const USUAL: [&str; 4] = ["braking", "reversing", "bend", "bump"];

impl Event {
    /// The events of a tank on a road whose job names none.
    pub fn usual() -> impl Iterator<Item = &'static Self> {
        STANDARD
            .iter()
            .filter(|event| USUAL.contains(&event.name.as_str()))
    }
}

/// The standard events, from the data file beside this.
static STANDARD: LazyLock<Vec<Event>> =
    LazyLock::new(|| read_standard().expect("the compiled-in table of events is whole"));

fn read_standard() -> Option<Vec<Event>> {
    let text = include_str!("data/events.toml");
    let tree = DeTable::parse(text).ok()?;
    let reading = Reading::new(text);
    let root = reading.root(tree.get_ref());
    root.each("event", |row, _| {
        let name = row.needed("name", |field| field.text());
        let flag = row.needed("flag", |field| field.choice(&FLAGS));
        Some(Event {
            flag: flag?,
            ..Event::read_figures(row, name)?
        })
    })
}

const FLAGS: [(&str, EventFlag); 2] = [
    ("seen", EventFlag::Seen),
    ("from memory", EventFlag::FromMemory),
];

/// Past this no tank on a road stays whole; it catches figures written in m/s2.
const MOST: Acceleration = Acceleration::from_g(5.0);

/// From once in three years to more than once a second all day.
fn read_per_day(field: &Field<'_>) -> Option<f64> {
    let (least, most) = (0.001, 100_000.0);
    field.number_within(least..=most, OutOfRange::Number { least, most })
}

fn read_multiple_of_g(field: &Field<'_>) -> Option<Acceleration> {
    let past = OutOfRange::TooHard { most: MOST };
    let multiple = field.number_within(0.0..=MOST.g(), past)?;
    Some(Acceleration::from_g(multiple))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_standard_event_pushes_somewhere_and_has_a_source() {
        let events = read_standard().expect("a whole table");
        assert!(events.len() >= 10);
        for event in events {
            let pushes = [event.forward, event.rear, event.side, event.up, event.down];
            assert!(
                pushes.iter().any(|push| *push > Acceleration::ZERO),
                "{}",
                event.name
            );
            assert!(!event.source.is_empty());
        }
    }

    #[test]
    fn a_job_cannot_make_its_own_figures_those_of_the_table() {
        let job = "[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n[[event]]\nname = \"our track\"\nforward = 0.3\nsource = \"seen in our own log\"\n";
        let read = crate::Job::parse(job).expect("a job");
        assert_eq!(read.events[0].flag, EventFlag::Given);
        let flagged = format!("{job}flag = \"seen\"\n");
        assert!(
            crate::Job::parse(&flagged).is_err(),
            "a key of the table alone"
        );
    }
}
