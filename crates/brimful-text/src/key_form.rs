//! The forms of a key of the job file in words.

use crate::default::Values;
use crate::text::{Language, Text};
use brimful_job::{KeyForm, LONGEST_LIST, Limits};
use brimful_units::QuantityKind;

impl Language {
    /// The forms that the value of a key may have.
    pub fn key_forms(self, forms: &[KeyForm]) -> Text {
        let forms = forms.iter().map(|form| key_form(self, form));
        let or = say!(self, "; or ");
        Text::join(forms, or.as_str())
    }
}

fn key_form(words: Language, form: &KeyForm) -> Text {
    match form {
        KeyForm::Text => say!(words, "text"),
        KeyForm::Flag => say!(words, "true or false"),
        KeyForm::Words(one) if one.len() == 1 => quoted(words, one),
        KeyForm::Words(all) => say!(words, "one of {taken}", taken = quoted(words, all)),
        KeyForm::Number(limits) => limited(words, say!(words, "a number"), limits),
        KeyForm::WholeNumber { least, most } => say!(
            words,
            "a whole number from {least} to {most}",
            least = *least as usize,
            most = *most as usize
        ),
        KeyForm::Quantity { kind, limits } => quantity(words, *kind, limits),
        KeyForm::Capacity(capacities) => say!(
            words,
            "a volume and which capacity it is: {taken}",
            taken = words.given(&capacities.join(", "))
        ),
        KeyForm::List { least, most, items } => say!(
            words,
            "a list of {count}, each {items}",
            count = count(words, *least, *most),
            items = words.key_forms(items)
        ),
        KeyForm::Table => say!(words, "a table"),
        KeyForm::Tables => say!(words, "a list of tables"),
        KeyForm::Named { items } => say!(
            words,
            "a table of names, each with {items}",
            items = words.key_forms(items)
        ),
    }
}

fn quantity(words: Language, kind: QuantityKind, limits: &Limits) -> Text {
    let name = words.data(match kind {
        QuantityKind::Angle => "an angle",
        QuantityKind::Area => "an area",
        QuantityKind::Length => "a length",
        QuantityKind::Volume => "a volume",
        QuantityKind::Mass => "a mass",
        QuantityKind::Pressure => "a pressure",
        QuantityKind::Temperature => "a temperature",
        QuantityKind::Density => "a density",
        QuantityKind::Time => "a time",
        QuantityKind::Speed => "a speed",
        QuantityKind::MassRate => "a mass in a time",
        QuantityKind::FlowRate => "a flow",
    });
    let limited = limited(words, name, limits);
    match kind {
        // Its units are those of every length, and are told once for all.
        QuantityKind::Length => limited,
        _ => say!(
            words,
            "{quantity} (in {units})",
            quantity = limited,
            units = words.given(&kind.units().join(", "))
        ),
    }
}

fn limited(words: Language, what: Text, limits: &Limits) -> Text {
    let values = Values::metric(words);
    match limits {
        Limits::Any => what,
        Limits::NotNegative => say!(words, "{what}, zero or more", what = what),
        Limits::AboveZero => say!(words, "{what} above zero", what = what),
        Limits::AtLeast(least) => say!(
            words,
            "{what} of at least {least}",
            what = what,
            least = values.value(least)
        ),
        Limits::Within(least, most) => say!(
            words,
            "{what} from {least} to {most}",
            what = what,
            least = values.value(least),
            most = values.value(most)
        ),
    }
}

fn count(words: Language, least: usize, most: usize) -> Text {
    match (least, most) {
        _ if least == most => Text::from(least),
        (0, LONGEST_LIST..) => say!(words, "any number"),
        (_, LONGEST_LIST..) => say!(words, "at least {n}", n = least),
        (0, _) => say!(words, "at most {n}", n = most),
        _ => say!(words, "{least} to {most}", least = least, most = most),
    }
}

fn quoted(words: Language, all: &[String]) -> Text {
    let quoted: Vec<String> = all.iter().map(|word| format!("\"{word}\"")).collect();
    words.given(&quoted.join(", "))
}
