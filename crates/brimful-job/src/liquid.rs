//! `[liquid]`: what goes in, how much, how warm and for how long.

use super::default::{DefaultReason, DefaultSource, DefaultUsed, DefaultValue};
use super::fault::{FaultKind, Form, Items, Missing, Named, OutOfRange};
use super::form::KeyForm;
use super::known_liquids::{self, Attacks, KnownLiquid, Refusal};
use super::reader::{Bound, Complaint, Field, Section, shortened};
use brimful_units::{Density, Length, Temperature, Time, UnitFault, Volume, volume_text};
use schemars::JsonSchema;
use serde::Serialize;

/// What goes in, how much, how warm and for how long.
#[derive(Clone, Debug, PartialEq)]
pub struct Liquid {
    /// The kind as the table of liquids calls it; none: only a density was given.
    pub kind: Option<String>,
    /// The density of the liquid.
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
    /// By what the liquid weakens the sheet, as the sheet's maker says; none: the tables'.
    pub medium_factor: Option<f64>,
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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
#[schemars(rename = "CapacityName")]
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
        let density = section.optional("density", |field| field.quantity_above_zero());
        let wanted = section.optional("wanted", Wanted::read);
        let air_space = section.defaulted("air_space", |field| field.length(Bound::NotNegative));
        let temperatures = read_temperatures(section);
        let additives = section.optional("additives", read_additives);
        let medium_factor = section.optional("medium_factor", read_medium_factor);
        let years = section.defaulted("years", |field| field.quantity_above_zero());
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
            medium_factor: medium_factor?,
            years: years?,
        })
    }

    /// Whether people drink it, by its kind; what is in it must not make it anything else.
    pub fn is_drinking_water(&self) -> bool {
        let potable = self.known().is_some_and(|known| known.potable);
        potable && self.additives.iter().all(|it| it == "disinfectant")
    }

    /// Whether the sheet's maker has to answer for it, by its kind or by what is in it; none where neither
    /// is known to attack.
    pub fn attacks(&self) -> Option<Attacks> {
        let oxidises = || self.additives.iter().any(|it| it == "oxidiser");
        let by_kind = self.known().and_then(|known| known.attacks);
        by_kind.or_else(|| oxidises().then_some(Attacks::Oxidiser))
    }

    /// The density that the table has for its kind.
    pub fn table_density(&self) -> Option<Density> {
        self.known().map(|known| known.density)
    }

    /// At which it begins to freeze, by its kind; none where the table does not know.
    pub fn freezes_at(&self) -> Option<Temperature> {
        self.known().and_then(|known| known.freezes_at)
    }

    fn known(&self) -> Option<&'static KnownLiquid> {
        self.kind.as_deref().and_then(known_liquids::of_kind)
    }
}

pub(super) fn read_medium_factor(field: &Field<'_>) -> Option<f64> {
    let (least, most) = (1.0, 20.0);
    field.number_within(least..=most, OutOfRange::Number { least, most })
}

/// The coldest and the warmest, in that order.
fn read_temperatures(section: &Section<'_>) -> Option<(Temperature, Temperature)> {
    let coldest = section.defaulted("coldest", |field| field.quantity());
    let warmest = section.defaulted("warmest", |field| field.quantity());
    let (coldest, warmest) = (coldest?, warmest?);
    if coldest <= warmest {
        return Some((coldest, warmest));
    }
    let lengths = section.reading().lengths.get().unit();
    section.refuse_key(
        "coldest",
        OutOfRange::ColdestAboveWarmest {
            coldest,
            warmest,
            lengths,
        },
    )
}

/// The density as written, or the table's for the kind, remembered as a default.
pub(super) fn known_density(
    section: &Section<'_>,
    kind: Option<&str>,
    written: Option<Density>,
) -> Option<Density> {
    if written.is_some() {
        return written;
    }
    let Some(known) = kind.and_then(known_liquids::of_kind) else {
        let complaint = Complaint::from(Missing::LiquidDensity);
        return section.refuse(complaint.allowed(known_liquids::kinds()));
    };
    section.reading().use_other_default(DefaultUsed::new(
        section.path_of("density"),
        DefaultValue::Density(known.density),
        DefaultReason::DensityOf(&known.kind),
        DefaultSource::Table(&known.source),
    ));
    Some(known.density)
}

pub(super) fn read_kind(field: &Field<'_>) -> Option<String> {
    let written = field.word(known_liquids::kinds())?;
    if let Some(Refusal { reason, remedy }) = known_liquids::refusal(&written) {
        let written = shortened(&written);
        return field.refuse(FaultKind::RefusedLiquid {
            written,
            reason,
            remedy,
        });
    }
    match known_liquids::of_kind(&written) {
        Some(known) => Some(known.kind.clone()),
        None => field.unknown_word(&written, Named::Liquid, known_liquids::kinds()),
    }
}

pub(super) fn read_additives(field: &Field<'_>) -> Option<Vec<String>> {
    let known = known_liquids::additives();
    let words = || known.iter().map(String::as_str);
    field.all(0..=known.len(), Items::Words, |item| {
        let written = item.word(words())?;
        match known.contains(&written) {
            true => Some(written),
            false => item.unknown_word(&written, Named::Choice, words()),
        }
    })
}

impl Wanted {
    pub(super) fn read(field: &Field<'_>) -> Option<Self> {
        let words = CAPACITIES.map(|(word, _)| word);
        field.takes(|| KeyForm::Capacity(words.map(str::to_owned).to_vec()));
        let written = match field.raw_text().map(str::trim_end) {
            Some("") => return field.refuse(FaultKind::EmptyText),
            Some(written) => written,
            None => return field.wrong_form(Form::Text),
        };
        let whole = volume_text(written);
        // Which gallon is asked before which capacity.
        if matches!(&whole, Err(fault) if matches!(fault.fault, UnitFault::PlainGallon { .. })) {
            return field.quantity_of::<Volume>(written).and(None);
        }
        // Where the whole reads as a volume, the word was forgotten, not misspelt.
        let parts = written.rsplit_once(char::is_whitespace);
        let Some((amount, word)) = parts.filter(|_| whole.is_err()) else {
            return field.refuse(Complaint::new(FaultKind::NoCapacity).allowed(words));
        };
        let volume = match field.quantity_of::<Volume>(amount) {
            Some(volume) if volume <= Volume::default() => field.refuse(OutOfRange::NotAboveZero),
            volume => volume,
        };
        let of = match CAPACITIES.iter().find(|(known, _)| *known == word) {
            Some((_, capacity)) => Some(*capacity),
            None => field.unknown_word(word, Named::Choice, words),
        };
        Some(Self {
            volume: volume?,
            of: of?,
        })
    }
}
