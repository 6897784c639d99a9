//! `[liquid]`: what goes in, how much, how warm and for how long.

use super::DefaultUsed;
use super::about::LengthUnit;
use super::fault::FaultKind;
use super::known_liquids::{self, Refusal};
use super::reader::{Bound, Complaint, Field, Section, shortened};
use brimful_units::{
    Density, Length, Temperature, Time, UnitFault, UnitSystem, Volume, density_text, show,
    temperature_text, time_text, volume_text,
};

/// What goes in, how much, how warm and for how long.
#[derive(Clone, Debug, PartialEq)]
pub struct Liquid {
    /// The kind as the table of liquids calls it; none: only a density was given.
    pub kind: Option<String>,
    /// The density to reckon with.
    pub density: Density,
    /// The capacity wanted.
    pub wanted: Option<Wanted>,
    /// Air left above the rated level, below the inside of the lid.
    pub air_space: Length,
    /// The coldest the liquid gets.
    pub coldest: Temperature,
    /// The warmest the liquid gets.
    pub warmest: Temperature,
    /// What is in it that may weaken the plastic, as the table of additives calls it.
    pub additives: Vec<String>,
    /// How long the tank must last.
    pub years: Time,
}

/// The capacity wanted, `100 L usable`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wanted {
    /// How much.
    pub volume: Volume,
    /// Which of the three capacities it is.
    pub of: Capacity,
}

/// The three capacities of a tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Capacity {
    /// To the inside of the lid.
    Brim,
    /// Below the air space.
    Rated,
    /// What the outlet can really reach.
    Usable,
}

const CAPACITIES: [(&str, Capacity); 3] = [
    ("brim", Capacity::Brim),
    ("rated", Capacity::Rated),
    ("usable", Capacity::Usable),
];

impl Liquid {
    /// Reads `[liquid]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let kind = section.optional("kind", read_kind);
        let density = section.optional("density", |field| field.quantity_above_zero(density_text));
        let wanted = section.optional("wanted", Wanted::read);
        let air_space = section.defaulted("air_space", |field| field.length(Bound::NotNegative));
        let temperatures = read_temperatures(section);
        let additives = section.optional("additives", read_additives);
        let years = section.defaulted("years", |field| field.quantity_above_zero(time_text));
        section.refuse_unknown_keys();
        let (kind, density) = (kind?, density?);
        let density = known_density(section, kind.as_deref(), density);
        let (coldest, warmest) = temperatures?;
        Some(Self {
            kind,
            density: density?,
            wanted: wanted?,
            air_space: air_space?,
            coldest,
            warmest,
            additives: additives?.unwrap_or_default(),
            years: years?,
        })
    }
}

/// The coldest and the warmest, in that order.
fn read_temperatures(section: &Section<'_>) -> Option<(Temperature, Temperature)> {
    let coldest = section.defaulted("coldest", |field| field.quantity(temperature_text));
    let warmest = section.defaulted("warmest", |field| field.quantity(temperature_text));
    let (coldest, warmest) = (coldest?, warmest?);
    if coldest <= warmest {
        return Some((coldest, warmest));
    }
    let written = section.reading().lengths.get();
    let system = written.map_or(UnitSystem::Metric, LengthUnit::system);
    section.refuse_key(
        "coldest",
        Complaint::new(
            FaultKind::OutOfRange,
            format!(
                "the coldest, {}, is warmer than the warmest, {}",
                show::temperature(coldest, system),
                show::temperature(warmest, system)
            ),
        )
        .remedy("Write the lower one as `coldest`, the higher one as `warmest`."),
    )
}

/// The density as written, or the table's for the kind, remembered as a default.
fn known_density(
    section: &Section<'_>,
    kind: Option<&str>,
    written: Option<Density>,
) -> Option<Density> {
    if written.is_some() {
        return written;
    }
    let Some(known) = kind.and_then(known_liquids::of_kind) else {
        return section.refuse(
            Complaint::new(FaultKind::Missing, "nothing says how heavy the liquid is")
                .allowed(known_liquids::kinds())
                .remedy("Write its `kind`, or its `density` such as \"1090 kg/m3\"."),
        );
    };
    section.reading().use_default(DefaultUsed::new(
        "liquid.density",
        known.density_text.clone(),
        &format!("The density of {}.", known.kind),
        &known.source,
    ));
    Some(known.density)
}

fn read_kind(field: &Field<'_>) -> Option<String> {
    let written = field.text()?;
    if let Some(Refusal { reason, remedy }) = known_liquids::refusal(&written) {
        let says = format!("no tank for `{}`: {reason}", shortened(&written));
        return field.refuse(Complaint::new(FaultKind::RefusedLiquid, says).remedy(remedy));
    }
    match known_liquids::of_kind(&written) {
        Some(known) => Some(known.kind.clone()),
        None => field.refuse(
            Complaint::new(
                FaultKind::UnknownWord,
                format!("`{}` is not a liquid known here", shortened(&written)),
            )
            .allowed(known_liquids::kinds())
            .nearest_to(&written)
            .remedy("Write one of the words taken, or leave `kind` out and write the `density`."),
        ),
    }
}

fn read_additives(field: &Field<'_>) -> Option<Vec<String>> {
    let items = field.list(0..=known_liquids::additives().len())?;
    let words: Vec<Option<String>> = items
        .iter()
        .map(|item| {
            let written = item.text()?;
            if known_liquids::additives().contains(&written) {
                Some(written)
            } else {
                let words = known_liquids::additives().iter().map(String::as_str);
                item.unknown_word(&written, words)
            }
        })
        .collect();
    words.into_iter().collect()
}

impl Wanted {
    fn read(field: &Field<'_>) -> Option<Self> {
        let remedy = "Write how much and of which capacity, such as \"100 L usable\".";
        field.text()?;
        let written = field.raw_text()?.trim_end();
        let whole = volume_text(written);
        // Which gallon is asked before which capacity.
        if matches!(&whole, Err(fault) if matches!(fault.fault, UnitFault::PlainGallon { .. })) {
            field.quantity_above_zero(|_| whole.clone());
            return None;
        }
        // Where the whole reads as a volume, the word was forgotten, not misspelt.
        let parts = written.rsplit_once(char::is_whitespace);
        let Some((amount, word)) = parts.filter(|_| whole.is_err()) else {
            let says = "this does not say which capacity is wanted";
            return field.refuse(
                Complaint::new(FaultKind::WrongForm, says)
                    .allowed(CAPACITIES.map(|(word, _)| word))
                    .remedy(remedy),
            );
        };
        let of = CAPACITIES.iter().find(|(known, _)| *known == word);
        let volume = field.quantity_above_zero(|_| volume_text(amount));
        let of = match of {
            Some((_, capacity)) => Some(*capacity),
            None => field.unknown_word(word, CAPACITIES.map(|(word, _)| word)),
        };
        Some(Self {
            volume: volume?,
            of: of?,
        })
    }
}
