//! Values of another form than the one wanted, and lists of the wrong length, in words.

use super::said::Said;
use crate::text::{Language, Text};
use brimful_job::{FaultKind, Form, Items, JobFault};
use brimful_units::QuantityKind;

pub(super) fn wrong_form(words: Language, fault: &JobFault, found: Form, wanted: Form) -> Said {
    let wanted = match (found, wanted) {
        (Form::Table, Form::Tables) => {
            say!(words, "a list (double brackets round the heading)")
        }
        (Form::List, Form::Table) => {
            say!(words, "one table (single brackets round the heading)")
        }
        _ => form(words, wanted),
    };
    let says = say!(
        words,
        "{found} stands here, not {wanted}.",
        found = found_form(words, found),
        wanted = wanted
    );
    (
        says,
        as_in(words, fault, say!(words, "Write it in that form.")),
    )
}

/// What stands there, however it is written.
fn found_form(words: Language, found: Form) -> Text {
    match found {
        Form::Text => say!(words, "text"),
        Form::Number => say!(words, "a number"),
        Form::List => say!(words, "a list"),
        other => form(words, other),
    }
}

fn form(words: Language, form: Form) -> Text {
    match form {
        Form::Text => say!(words, "text in quotation marks"),
        Form::Word => say!(words, "a word in quotation marks"),
        Form::Flag => say!(words, "true or false"),
        Form::Number => say!(words, "a plain number"),
        Form::WholeNumber => say!(words, "a whole number"),
        Form::Date => say!(words, "a date"),
        Form::Quantity(QuantityKind::Length) => say!(words, "a length"),
        Form::Quantity(quantity) => say!(
            words,
            "a number with its unit ({quantity}), in quotation marks",
            quantity = words.data(quantity.word())
        ),
        Form::List => say!(words, "a list in brackets"),
        Form::Table => say!(words, "a table"),
        Form::Tables => say!(words, "a list of tables in double brackets"),
    }
}

pub(super) fn wrong_count(words: Language, fault: &JobFault) -> Said {
    let FaultKind::WrongCount {
        found,
        least,
        most,
        items,
    } = fault.kind
    else {
        return Said::default();
    };
    let wanted = if least == most {
        counted(words, least, items)
    } else if found < least {
        say!(
            words,
            "at least {items}",
            items = counted(words, least, items)
        )
    } else {
        say!(
            words,
            "at most {items}",
            items = counted(words, most, items)
        )
    };
    let says = say!(
        words,
        "`{key}` takes {wanted}; the list holds {found}.",
        key = words.given(fault.key()),
        wanted = wanted,
        found = found
    );
    let plain = say!(words, "Add what is missing, or take out what is too much.");
    (says, as_in(words, fault, plain))
}

/// A remedy with the example of the key, where there is one.
fn as_in(words: Language, fault: &JobFault, plain: Text) -> Text {
    match fault.example {
        Some(example) => say!(
            words,
            "Write it as in: {example}",
            example = words.given(example)
        ),
        None => plain,
    }
}

/// So many items of a list.
fn counted(words: Language, n: usize, items: Items) -> Text {
    match (items, n) {
        (Items::Lengths, 1) => say!(words, "1 length"),
        (Items::Lengths, n) => say!(words, "{n} lengths", n = n),
        (Items::Points, 1) => say!(words, "1 point of two lengths"),
        (Items::Points, n) => say!(words, "{n} points of two lengths each", n = n),
        (Items::Corners, 1) => say!(words, "1 corner of three lengths"),
        (Items::Corners, n) => say!(words, "{n} corners of three lengths each", n = n),
        (Items::Faces, 1) => say!(words, "1 face"),
        (Items::Faces, n) => say!(words, "{n} faces, each a list of corners", n = n),
        (Items::CornerNumbers, 1) => say!(words, "1 number of a corner"),
        (Items::CornerNumbers, n) => say!(words, "{n} numbers of corners", n = n),
        (Items::Angles, 1) => say!(words, "1 angle"),
        (Items::Angles, n) => say!(words, "{n} angles", n = n),
        (Items::Names, 1) => say!(words, "1 name"),
        (Items::Names, n) => say!(words, "{n} names", n = n),
        (Items::Words, 1) => say!(words, "1 word"),
        (Items::Words, n) => say!(words, "{n} words", n = n),
        (Items::Tables, 1) => say!(words, "1 block"),
        (Items::Tables, n) => say!(words, "{n} blocks", n = n),
    }
}
