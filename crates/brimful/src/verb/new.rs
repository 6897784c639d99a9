//! `brimful new`: writes a commented starter job.

use crate::fault::{Failure, Fault};
use crate::outcome::Outcome;
use crate::{output, wire};
use brimful_job::starter;
use brimful_text::{Language, say};
use brimful_units::spelling::nearest;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

macro_rules! examples {
    ($($name:literal),+ $(,)?) => {
        [$(($name, include_str!(concat!("../../../../examples/", $name, ".job.toml")))),+]
    };
}

/// The examples, compiled in.
pub(crate) const EXAMPLES: [(&str, &str); 11] = examples![
    "alcove-tank",
    "bench-box",
    "bilge-wedge",
    "camper-bench",
    "frame-rail-sprayer",
    "l-shape",
    "rain-alcove",
    "shelf-box",
    "sloping-floor",
    "two-compartment",
    "under-bed-arch",
];

/// The text of an example, or the plain starter; none where there is no example of that name.
pub(crate) fn example_text(name: Option<&str>) -> Option<&'static str> {
    let Some(name) = name else {
        return Some(starter());
    };
    let found = EXAMPLES.iter().find(|(known, _)| *known == name);
    found.map(|(_, text)| *text)
}

/// Writes a job file that is not there yet.
pub(crate) fn new(
    file: &Path,
    like: Option<&str>,
    json: bool,
    words: Language,
) -> Result<Outcome, Failure> {
    let text = example_text(like).ok_or_else(|| no_example(like.unwrap_or_default(), words))?;
    write(file, text, words)?;
    if json {
        output::json(&wire::NewJob::new(file), words)?;
    } else {
        let file = file.display();
        let wrote = say!(
            words,
            "Wrote {file}. Fill in your own measures, then run: {command}",
            file = words.given(&file.to_string()),
            command = words.given(&format!("brimful check {file}"))
        );
        output::text(&format!("{wrote}\n"), words)?;
    }
    Ok(Outcome::Clear)
}

fn no_example(name: &str, words: Language) -> Failure {
    let names = EXAMPLES.map(|(name, _)| name);
    let mut fault = Fault::new(
        say!(
            words,
            "There is no example called `{name}`.",
            name = words.given(name)
        ),
        say!(
            words,
            "Give one of the names taken, or leave `{option}` out for the plain starter.",
            option = words.given("--like")
        ),
    );
    fault.nearest = nearest(name, names).map(str::to_owned);
    fault.allowed = names.map(str::to_owned).to_vec();
    Failure::of_call(fault)
}

/// Writes the file in one go; one that is there is left as it is, and one that could not be
/// written to its end is taken away again.
fn write(path: &Path, text: &str, words: Language) -> Result<(), Failure> {
    let name = &words.given(&path.display().to_string());
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut file = opened.map_err(|fault| match fault.kind() {
        ErrorKind::AlreadyExists => Failure::call(
            say!(
                words,
                "`{name}` is there already and is left as it is.",
                name = name
            ),
            say!(words, "Give another name, or move the old file away first."),
        ),
        ErrorKind::NotFound => Failure::call(
            say!(words, "The folder of `{name}` is not there.", name = name),
            say!(words, "Make the folder first."),
        ),
        _ => Failure::call(
            say!(
                words,
                "`{name}` cannot be written: {fault}.",
                name = name,
                fault = words.given(&fault.to_string())
            ),
            say!(words, "Give a path that may be written to."),
        ),
    })?;
    file.write_all(text.as_bytes()).map_err(|fault| {
        // Taking it away may fail like the writing did; the fault said is the first one.
        let _ = std::fs::remove_file(path);
        Failure::own(Fault::new(
            say!(
                words,
                "`{name}` could not be written to its end: {fault}.",
                name = name,
                fault = words.given(&fault.to_string())
            ),
            say!(words, "See whether there is room on the disk."),
        ))
    })
}
