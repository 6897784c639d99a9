//! Reading the job file: bounded, and every reason why it cannot be read as a sentence.

use crate::fault::{Failure, Fault};
use crate::locale::Locale;
use crate::progress::Progress;
use crate::{interrupt, scan};
use brimful_job::Job;
use brimful_panels::site::Input;
use brimful_tank::fit::{Fit, fit_watched};
use brimful_tank::plan::{Depth, NoPlan, Plan, plan_watched};
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
pub(crate) fn planned(path: &Path, depth: Depth) -> Result<(Source, Plan), Failure> {
    planned_shown(path, depth, &Progress::new())
}

/// As [`planned`], for whoever has more to show.
pub(crate) fn planned_shown(
    path: &Path,
    depth: Depth,
    progress: &Progress,
) -> Result<(Source, Plan), Failure> {
    interrupt::remember();
    let (source, input) = understood(path)?;
    let Source { name, text } = &source;
    let job = input.job.clone();
    let plan = plan_watched(input, depth, &progress.of(Locale::default().words(&job)))
        .map_err(|none| none_of(&none, &job, name, text))?;
    Ok((source, plan))
}

/// Reads a job file and works out what fits its space.
pub(crate) fn fitted(path: &Path) -> Result<(Source, Fit), Failure> {
    let (source, input) = understood(path)?;
    let Source { name, text } = &source;
    let job = input.job.clone();
    let progress = Progress::new();
    let fit = fit_watched(input, &progress.of(Locale::default().words(&job)))
        .map_err(|none| none_of(&none, &job, name, text))?;
    Ok((source, fit))
}

fn none_of(none: &NoPlan, job: &Job, name: &str, text: &str) -> Failure {
    match none {
        NoPlan::Faults(faults) => Failure::job(name, text, Fault::of_shapes(faults, job)),
        NoPlan::Cancelled => interrupt::stopped(),
    }
}

/// A job file and its scan, read and understood.
fn understood(path: &Path) -> Result<(Source, Input), Failure> {
    let source = read(path)?;
    let Source { name, text } = &source;
    let job = Job::parse(text).map_err(|faults| Failure::job(name, text, faults))?;
    let scan = scan::read(&job, path)
        .map_err(|refused| Failure::job(name, text, vec![refused.into_fault(&job)]))?;
    let input = Input {
        scan,
        ..Input::from(job)
    };
    Ok((source, input))
}

fn read(path: &Path) -> Result<Source, Failure> {
    let name = path.display().to_string();
    let refuse = |says: String, remedy: String| Failure::call(says, remedy);
    let cannot = |fault: std::io::Error| match fault.kind() {
        ErrorKind::NotFound => refuse(format!("There is no file `{name}`."), like(path)),
        ErrorKind::PermissionDenied => refuse(
            format!("The file `{name}` may not be read."),
            "Give yourself leave to read it.".to_owned(),
        ),
        _ => refuse(
            format!("The file `{name}` cannot be read: {fault}."),
            "Give the path of a job file.".to_owned(),
        ),
    };
    let about = std::fs::metadata(path).map_err(cannot)?;
    if about.is_dir() {
        return Err(refuse(
            format!("`{name}` is a folder, not a job file."),
            jobs_in(path),
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
        return Err(refuse(
            format!("The file `{name}` is larger than 1 MB, which no job file is."),
            "Give the file of one job.".to_owned(),
        ));
    }
    let text = String::from_utf8(bytes).map_err(|fault| not_text(&name, &fault))?;
    let text = text
        .strip_prefix('\u{feff}')
        .map(str::to_owned)
        .unwrap_or(text);
    Ok(Source { name, text })
}

fn not_text(name: &str, fault: &std::string::FromUtf8Error) -> Failure {
    let good = &fault.as_bytes()[..fault.utf8_error().valid_up_to()];
    let line = good.iter().filter(|byte| **byte == b'\n').count() + 1;
    let utf16 =
        fault.as_bytes().starts_with(&[0xff, 0xfe]) || fault.as_bytes().starts_with(&[0xfe, 0xff]);
    let says = if utf16 {
        format!("The file `{name}` is written as UTF-16, not as UTF-8.")
    } else {
        format!("The file `{name}` is not UTF-8 text: line {line} holds other bytes.")
    };
    let mut fault = Fault::new(
        says,
        "Save it as UTF-8 in the editor, or give a job file if it is something else.",
    );
    fault.line = Some(line).filter(|_| !utf16);
    Failure::of_call(fault)
}

/// What to do about a missing file: the nearest name in its folder, or a new one.
fn like(path: &Path) -> String {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let names = job_names(folder.unwrap_or(Path::new(".")));
    let wanted = path.file_name().unwrap_or_default().to_string_lossy();
    match nearest(&wanted, names.iter().map(String::as_str)) {
        Some(near) => format!("Did you mean `{}`?", path.with_file_name(near).display()),
        None => format!(
            "Check the spelling, or begin one with `brimful new {}`.",
            path.display()
        ),
    }
}

fn jobs_in(folder: &Path) -> String {
    match job_names(folder).first() {
        Some(first) => format!(
            "Give the file in it, such as `{}`.",
            folder.join(first).display()
        ),
        None => "Give the path of a job file.".to_owned(),
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
