//! What the reader asked for while it read: every key, the forms it takes, and the defaults.

use super::super::default::DefaultUsed;
use super::super::form::{KeyForm, Presence};
use super::super::path::without_numbers;
use std::collections::{BTreeMap, BTreeSet};

/// What the reader asked for; paths are without the numbers of tables, and `[]` stands for an item
/// of a list.
#[derive(Default)]
pub(crate) struct Trace {
    /// Every key that was asked for, with every way in which it was; none: it had no meaning.
    pub(crate) keys: BTreeMap<String, BTreeSet<Option<Presence>>>,
    /// The forms that were read, in the order of reading.
    pub(crate) forms: BTreeMap<String, Vec<KeyForm>>,
    /// The defaults that were used, by key and choice.
    pub(crate) defaults: BTreeMap<(String, &'static str), DefaultUsed>,
}

impl Trace {
    /// Takes in what was asked for in another reading.
    pub(crate) fn merge(&mut self, other: Self) {
        for (path, asked) in other.keys {
            self.keys.entry(path).or_default().extend(asked);
        }
        for (path, forms) in other.forms {
            forms.into_iter().for_each(|form| self.form(&path, form));
        }
        self.defaults.extend(other.defaults);
    }

    /// Whether a key must be written.
    pub(crate) fn presence(&self, path: &str) -> Presence {
        let asked = self.keys.get(path);
        let as_if = |presence| asked.is_some_and(|asked| asked.contains(&presence));
        let at_will = as_if(None) || as_if(Some(Presence::Optional));
        match (as_if(Some(Presence::Needed)), at_will) {
            (true, false) => Presence::Needed,
            (true, true) => Presence::Conditional,
            _ if as_if(Some(Presence::Defaulted)) => Presence::Defaulted,
            _ => Presence::Optional,
        }
    }

    pub(super) fn key(&mut self, path: &str, presence: Option<Presence>) {
        let asked = self.keys.entry(without_numbers(path)).or_default();
        asked.insert(presence);
    }

    pub(super) fn form(&mut self, path: &str, form: KeyForm) {
        let known = self.forms.entry(without_numbers(path)).or_default();
        if !known.contains(&form) {
            known.push(form);
        }
    }

    pub(super) fn default(&mut self, path: &str, choice: &'static str, used: DefaultUsed) {
        self.defaults.insert((without_numbers(path), choice), used);
    }
}
