//! The table of keys is what the reader asks for, no more and no less, and every example can be read.

use super::{EXAMPLES, listed};
use crate::keys::TABLE;
use crate::parse::traced;
use crate::reader::Trace;
use crate::reference::{example_jobs, reference};
use crate::{Job, KeyForm, Presence};
use std::collections::BTreeSet;

/// Everything that the reader asks for in all jobs there are.
fn asked_for() -> Trace {
    let mut all = Trace::default();
    for (_, text) in EXAMPLES {
        all.merge(traced(text).1);
    }
    for (_, text) in example_jobs() {
        all.merge(traced(&text).1);
    }
    all
}

#[test]
fn every_key_that_is_read_has_a_row_and_every_row_a_key() {
    let rows: BTreeSet<String> = TABLE.keys.iter().flat_map(|row| row.paths()).collect();
    let sections: BTreeSet<String> = TABLE
        .sections
        .iter()
        .map(|row| row.path().to_owned())
        .collect();
    let asked: BTreeSet<String> = asked_for().keys.into_keys().collect();
    let told: BTreeSet<String> = rows.union(&sections).cloned().collect();
    let without_a_row: Vec<&String> = asked.difference(&told).collect();
    let without_a_key: Vec<&String> = told.difference(&asked).collect();
    assert!(without_a_row.is_empty(), "no row for {without_a_row:?}");
    assert!(without_a_key.is_empty(), "nobody reads {without_a_key:?}");
}

#[test]
fn every_example_of_a_key_is_read() {
    for (key, text) in example_jobs() {
        let faults = Job::parse(&text).err().unwrap_or_default();
        assert!(faults.is_empty(), "{key}:\n{text}\n{}", listed(&faults));
        assert!(
            traced(&text).1.forms.contains_key(&key),
            "{key} is not read in\n{text}"
        );
    }
}

#[test]
fn every_form_that_is_read_is_told() {
    let asked = asked_for();
    for key in reference().iter().flat_map(|section| &section.keys) {
        assert!(!key.forms.is_empty(), "{} has no form", key.path);
        let asked = asked.forms.get(&key.path).into_iter().flatten();
        for form in
            asked.filter(|form| !matches!(form, KeyForm::List { .. } | KeyForm::Named { .. }))
        {
            let is_named = key
                .forms
                .iter()
                .any(|it| matches!(it, KeyForm::Named { .. }));
            let told = key.forms.contains(form) || is_named;
            assert!(told, "{}: {form:?} is in no example", key.path);
        }
    }
}

#[test]
fn every_row_says_what_it_means_and_what_to_write() {
    for section in reference() {
        assert!(section.meaning.ends_with('.'), "{}", section.path);
        assert!(!section.keys.is_empty(), "{} has no key", section.path);
    }
    for row in &TABLE.keys {
        assert!(
            row.meaning.ends_with('.') && !row.examples.is_empty(),
            "{}",
            row.key
        );
        assert!(!row.meaning.contains(['{', '}']), "{}", row.key);
    }
    for key in reference().iter().flat_map(|section| &section.keys) {
        let write = crate::keys::what_to_write(&key.path);
        assert_eq!(
            matches!(key.presence, Presence::Needed | Presence::Conditional),
            !write.is_empty(),
            "{}",
            key.path
        );
        assert_eq!(
            key.presence == Presence::Defaulted,
            !key.defaults.is_empty(),
            "{}",
            key.path
        );
    }
}

#[test]
fn a_list_is_told_with_its_items() {
    let mut keys = reference().iter().flat_map(|section| &section.keys);
    let plan = keys
        .find(|key| key.path == "space.plan")
        .map(|key| &key.forms[..]);
    let Some(
        [
            KeyForm::List {
                least: 3, items, ..
            },
        ],
    ) = plan
    else {
        panic!("{plan:?}")
    };
    let [
        KeyForm::List {
            least: 2,
            most: 2,
            items,
        },
    ] = &items[..]
    else {
        panic!("{items:?}")
    };
    assert!(matches!(items[..], [KeyForm::Quantity { .. }]));
}
