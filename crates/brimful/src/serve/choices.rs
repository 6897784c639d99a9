//! The words that a key of the job accepts, taken from the error messages of the job reader: it is given
//! a job in which each is wrong.

use brimful_job::Job;
use std::collections::BTreeMap;

const ALL_WRONG: &str = r#"
[job]
lengths = "?"
units = "?"
fraction = "?"
duty = "?"
[space]
box = [1, 1, 1]
way_in = { width = 1, height = 1, side = "?" }
[body]
box = [1, 1, 1]
[[body.joint]]
between = ["a", "b"]
kind = "?"
[liquid]
kind = "?"
[stock]
material = "?"
[[stock.rod]]
diameter = 4
form = "?"
[shop]
cutting = "?"
process = "?"
nozzle = "?"
[[inner]]
name = "a"
kind = "?"
across = "?"
at = 1
joint = "?"
[[opening]]
name = "a"
service = "?"
panel = "lid"
at = [1, 1]
diameter = 1
goes_on = "?"
faces = "?"
[support]
kind = "?"
[[event]]
name = "?"
[checks]
filled_to = "?"
"#;

/// The words by key, without the numbers of blocks: `opening.service`.
pub(super) fn choices() -> BTreeMap<String, Vec<String>> {
    let faults = Job::parse(ALL_WRONG).err().unwrap_or_default();
    let worded = faults.into_iter().filter(|it| !it.allowed.is_empty());
    worded
        .map(|fault| (without_numbers(&fault.path), fault.allowed))
        .collect()
}

fn without_numbers(path: &str) -> String {
    let parts = path.split('.');
    let plain: Vec<&str> = parts
        .map(|part| part.split('[').next().unwrap_or(part))
        .collect();
    plain.join(".")
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
}
