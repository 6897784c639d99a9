//! `brimful new --explain`: tells of a key of the job file.

use crate::fault::{Failure, Fault};
use crate::outcome::Outcome;
use crate::{output, say};
use brimful_job::{KeyReference, SectionReference, nearest_key, reference};
use brimful_text::{Language, say};

/// Tells of a key, the keys of a section, or where nothing is asked for, the sections.
pub(crate) fn explain(asked: &str, words: Language) -> Result<Outcome, Failure> {
    let name = plain(asked);
    let keys = || reference().iter().flat_map(|section| &section.keys);
    let section = reference().iter().find(|it| it.path == name);
    let exact: Vec<&KeyReference> = keys().filter(|key| key.path == name).collect();
    let named = || keys().filter(|key| key.name() == name).collect();
    let found: Vec<&KeyReference> = if exact.is_empty() { named() } else { exact };
    if name.is_empty() {
        output::text(&say::explain::sections(reference(), words), words)?;
    } else if let Some(section) = section {
        output::text(&told(section, &found, words), words)?;
    } else if found.is_empty() {
        return Err(unknown(&name, words));
    } else {
        output::text(&say::explain::keys(&found, words), words)?;
    }
    Ok(Outcome::Clear)
}

/// A section, after the key of the same path where there is one.
fn told(section: &SectionReference, found: &[&KeyReference], words: Language) -> String {
    let key = found.iter().copied().filter(|key| key.path == section.path);
    let key: Vec<&KeyReference> = key.collect();
    say::explain::keys(&key, words) + &say::explain::section(section, words)
}

/// `opening[2].at` as `opening.at`, `[[opening]]` as `opening`.
fn plain(asked: &str) -> String {
    let parts = asked.trim_matches(['[', ']', ' ']).split('.');
    let parts = parts.map(|part| part.split('[').next().unwrap_or_default());
    parts.collect::<Vec<&str>>().join(".")
}

fn unknown(name: &str, words: Language) -> Failure {
    let mut fault = Fault::new(
        say!(
            words,
            "`{name}` is neither a key nor a section of the job file.",
            name = words.given(name)
        ),
        say!(
            words,
            "Correct the spelling, or run `{command}` for the list of sections.",
            command = words.given("brimful new --explain")
        ),
    );
    fault.nearest = nearest_key(name).map(str::to_owned);
    Failure::of_call(fault)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_found_as_a_person_writes_them() {
        assert_eq!(plain("opening[2].at"), "opening.at");
        assert_eq!(plain("[[space.wall]]"), "space.wall");
        assert_eq!(nearest_key("clearence"), Some("clearance"));
        assert_eq!(nearest_key("space.clearence"), Some("space.clearance"));
        for asked in ["", "space", "space.way_in", "clearance", "opening[1].at"] {
            assert!(explain(asked, Language::English).is_ok(), "{asked}");
        }
        assert!(explain("clearence", Language::English).is_err());
    }
}
