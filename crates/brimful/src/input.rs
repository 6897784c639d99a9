//! Reading the job file: bounded, and every reason why it cannot be read as a sentence.

use crate::fault::{Failure, Fault};
use crate::locale::Locale;
use crate::progress::Progress;
use crate::{interrupt, scan};
use brimful_job::Job;
use brimful_panels::site::Input;
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::plan::{Depth, NoPlan, Plan, plan_watched};
use brimful_text::{Language, Text, say};
use brimful_units::spelling::nearest;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// No job written by hand comes near, and no more than this is ever read.
const LARGEST_FILE: u64 = 1_000_000;

/// A job file that has been read and understood.
pub(crate) struct Source {
    /// The path as it was given, for messages.
    pub(crate) name: String,
    /// The text.
    pub(crate) text: String,
}

/// Reads a job file and works it out, checked as surely as `depth` says; shows how far it is, and may be
/// stopped by Ctrl-C.
pub(crate) fn planned(
    path: &Path,
    depth: Depth,
    locale: Locale,
) -> Result<(Source, Plan), Failure> {
    planned_shown(path, depth, locale, &Progress::new())
}

/// As [`planned`], for whoever has more to show.
pub(crate) fn planned_shown(
    path: &Path,
    depth: Depth,
    locale: Locale,
    progress: &Progress,
) -> Result<(Source, Plan), Failure> {
    interrupt::remember();
    let (source, input) = understood(path, locale)?;
    let job = input.job.clone();
    let plan = plan_watched(input, depth, &progress.of(locale.words(&job)))
        .map_err(|none| none_of(&none, &job, &source, locale))?;
    Ok((source, plan))
}

/// Reads a job file and works out what fits its space.
pub(crate) fn fitted(path: &Path, locale: Locale) -> Result<(Source, Fit), Failure> {
    let (source, input) = understood(path, locale)?;
    let job = input.job.clone();
    let progress = Progress::new();
    let fit = fit_watched(input, &progress.of(locale.words(&job)))
        .map_err(|none| none_of(&none, &job, &source, locale))?;
    Ok((source, fit))
}

fn none_of(none: &NoPlan, job: &Job, source: &Source, locale: Locale) -> Failure {
    let Source { name, text } = source;
    match none {
        NoPlan::Faults(faults) => {
            Failure::job(name, text, Fault::of_shapes(faults, &locale.words(job)))
        }
        NoPlan::Cancelled => interrupt::stopped(locale.language),
    }
}

/// Whether a text, were it the job file at a path, could be laid out.
///
/// # Errors
/// As for that file.
pub(crate) fn can_be_laid_out(path: &Path, source: Source, locale: Locale) -> Result<(), Failure> {
    let (source, input) = of_text(path, source, locale)?;
    let job = input.job.clone();
    plan_watched(input, Depth::Quick, &Progress::new().of(locale.words(&job)))
        .map(|_| ())
        .map_err(|none| none_of(&none, &job, &source, locale))
}

/// A job file and its scan, read and understood.
fn understood(path: &Path, locale: Locale) -> Result<(Source, Input), Failure> {
    of_text(path, read(path, locale.language)?, locale)
}

fn of_text(path: &Path, source: Source, locale: Locale) -> Result<(Source, Input), Failure> {
    let Source { name, text } = &source;
    let job = Job::parse(text).map_err(|faults| {
        let faults = faults.into_iter();
        let faults = faults.map(|it| Fault::of_job(it, locale.language));
        Failure::job(name, text, faults.collect())
    })?;
    let scan = scan::read(&job, path).map_err(|refused| {
        let fault = refused.into_fault(&locale.words(&job));
        Failure::job(name, text, vec![fault])
    })?;
    let input = Input {
        scan,
        ..Input::from(job)
    };
    Ok((source, input))
}

/// Reads a job file as text.
pub(crate) fn read(path: &Path, words: Language) -> Result<Source, Failure> {
    let name = path.display().to_string();
    let shown = &words.given(&name);
    let cannot = |fault: std::io::Error| cannot_read(path, &fault, words);
    let about = std::fs::metadata(path).map_err(cannot)?;
    if about.is_dir() {
        return Err(Failure::call(
            say!(words, "`{name}` is a folder, not a job file.", name = shown),
            jobs_in(path, words),
        ));
    }
    let file = File::open(path).map_err(cannot)?;
    let mut bytes = Vec::new();
    if about.len() <= LARGEST_FILE {
        file.take(LARGEST_FILE + 1)
            .read_to_end(&mut bytes)
            .map_err(cannot)?;
    }
    if about.len() > LARGEST_FILE || bytes.len() as u64 > LARGEST_FILE {
        return Err(Failure::call(
            say!(
                words,
                "The file `{name}` is larger than 1 MB, which no job file is.",
                name = shown
            ),
            say!(words, "Give the file of one job."),
        ));
    }
    let text = String::from_utf8(bytes).map_err(|fault| not_text(shown, &fault, words))?;
    let text = text
        .strip_prefix('\u{feff}')
        .map(str::to_owned)
        .unwrap_or(text);
    Ok(Source { name, text })
}

fn cannot_read(path: &Path, fault: &std::io::Error, words: Language) -> Failure {
    let name = words.given(&path.display().to_string());
    match fault.kind() {
        ErrorKind::NotFound => Failure::call(
            say!(words, "There is no file `{name}`.", name = name),
            like(path, words),
        ),
        ErrorKind::PermissionDenied => Failure::call(
            say!(words, "The file `{name}` may not be read.", name = name),
            say!(words, "Give yourself permission to read it."),
        ),
        _ => Failure::call(
            say!(
                words,
                "The file `{name}` cannot be read: {fault}.",
                name = name,
                fault = words.given(&fault.to_string())
            ),
            give_a_file(words),
        ),
    }
}

fn give_a_file(words: Language) -> Text {
    say!(words, "Give the path of a job file.")
}

fn not_text(name: &Text, fault: &std::string::FromUtf8Error, words: Language) -> Failure {
    let good = &fault.as_bytes()[..fault.utf8_error().valid_up_to()];
    let line = good.iter().filter(|byte| **byte == b'\n').count() + 1;
    let utf16 =
        fault.as_bytes().starts_with(&[0xff, 0xfe]) || fault.as_bytes().starts_with(&[0xfe, 0xff]);
    let says = if utf16 {
        say!(
            words,
            "The file `{name}` is written as UTF-16, not as UTF-8.",
            name = name
        )
    } else {
        say!(
            words,
            "The file `{name}` is not UTF-8 text: line {line} holds other bytes.",
            name = name,
            line = line
        )
    };
    let mut fault = Fault::new(
        says,
        say!(
            words,
            "Save it as UTF-8 in the editor, or give a job file if it is something else."
        ),
    );
    fault.line = Some(line).filter(|_| !utf16);
    Failure::of_call(fault)
}

/// What to do about a missing file: the nearest name in its folder, or a new one.
fn like(path: &Path, words: Language) -> Text {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let names = job_names(folder.unwrap_or(Path::new(".")));
    let wanted = path.file_name().unwrap_or_default().to_string_lossy();
    match nearest(&wanted, names.iter().map(String::as_str)) {
        Some(near) => say!(
            words,
            "Did you mean `{near}`?",
            near = words.given(&path.with_file_name(near).display().to_string())
        ),
        None => say!(
            words,
            "Check the spelling, or begin one with `{command}`.",
            command = words.given(&format!("brimful new {}", path.display()))
        ),
    }
}

fn jobs_in(folder: &Path, words: Language) -> Text {
    match job_names(folder).first() {
        Some(first) => say!(
            words,
            "Give the file in it, such as `{first}`.",
            first = words.given(&folder.join(first).display().to_string())
        ),
        None => give_a_file(words),
    }
}

/// The job files of a folder, in alphabetical order.
fn job_names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> = entries
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".job.toml"))
        .collect();
    names.sort();
    names
}
