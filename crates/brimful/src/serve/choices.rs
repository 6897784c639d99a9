//! The words that a key of the job accepts, by the reference of the job file.

use brimful_job::{KeyForm, KeyReference, reference};
use std::collections::BTreeMap;

/// The words by key: `opening.service`. A key that takes text or a quantity too has
/// none.
pub(super) fn choices() -> BTreeMap<String, Vec<String>> {
    let keys = reference().iter().flat_map(|section| &section.keys);
    keys.filter_map(|key| Some((key.path.clone(), words(key)?)))
        .collect()
}

fn words(key: &KeyReference) -> Option<Vec<String>> {
    let of_form = |form: &KeyForm| match form {
        KeyForm::Words(words) => Some(words.clone()),
        _ => None,
    };
    let words: Vec<Vec<String>> = key.forms.iter().map(of_form).collect::<Option<_>>()?;
    let words = words.concat();
    (!words.is_empty()).then_some(words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_with_words_of_its_own_is_there() {
        let choices = choices();
        for key in [
            "job.duty",
            "job.lengths",
            "space.way_in.side",
            "stock.material",
            "shop.cutting",
            "shop.process",
            "shop.nozzle",
            "inner.kind",
            "inner.across",
            "opening.service",
            "opening.goes_on",
            "opening.faces",
            "support.kind",
            "checks.filled_to",
        ] {
            assert!(
                choices.get(key).is_some_and(|words| words.len() > 1),
                "{key}: {choices:#?}"
            );
        }
    }

    #[test]
    fn a_key_that_takes_a_quantity_too_is_no_choice() {
        assert!(!choices().contains_key("trim.heel"));
    }
}
