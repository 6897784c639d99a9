//! `brimful pack`: the build pack as a folder, replaced as a whole or not at all.

use crate::fault::{Failure, Fault};
use crate::folder::Folder;
use crate::input;
use crate::locale::Locale;
use crate::named_bytes::NamedBytes;
use crate::outcome::Outcome;
use crate::progress::Progress;
use crate::{interrupt, output, say, wire};
use brimful_panels::progress::{self, Step};
use brimful_tank::fit::fit_watched;
use brimful_tank::plan::{Depth, NoPlan, Plan};
use brimful_text::{Language, Text, say};
use std::path::Path;

/// Works everything out in memory, then swaps the new pack in.
pub(crate) fn pack(
    job: &Path,
    json: bool,
    depth: Depth,
    folder: &Path,
    paper: brimful_pack::Paper,
    locale: Locale,
) -> Result<Outcome, Failure> {
    let language = locale.language;
    let progress = Progress::new();
    progress.step(say!(language, "working the job out"));
    let (source, plan) = input::planned_shown(job, depth, locale, &progress)?;
    let words = &locale.words_of_plan(&plan);
    let folder = Folder::new(folder, language)?;
    interrupt::check(language)?;
    let pages = Pages {
        job,
        text: &source.text,
        paper,
        locale,
    };
    let files = packed(&plan, &pages, &progress.of(*words))?;
    interrupt::check(language)?;
    progress.step(say!(language, "writing the pack"));
    folder.replace(&files)?;
    drop(progress);
    if json {
        let listed: Vec<_> = files
            .iter()
            .filter(|file| file.name != wire::PACK_FILE)
            .collect();
        let answer = wire::Document::pack(&plan, words, &listed);
        output::json(&answer.written_to(folder.shown()), language)?;
    } else {
        output::text(&say::pack(&plan, words, folder.shown(), &files), language)?;
    }
    Ok(Outcome::of_plan(&plan))
}

/// What a pack is made of beside the plan.
pub(crate) struct Pages<'a> {
    /// Path or name of the job file.
    pub(crate) job: &'a Path,
    /// Its text.
    pub(crate) text: &'a str,
    /// What it is printed on.
    pub(crate) paper: brimful_pack::Paper,
    /// What its words are in.
    pub(crate) locale: Locale,
}

/// All files of a pack: drawn and printed, the job's own, and everything as JSON, for whoever waits.
pub(crate) fn packed(
    plan: &Plan,
    pages: &Pages<'_>,
    progress: &dyn progress::Progress,
) -> Result<Vec<NamedBytes>, Failure> {
    let (locale, language) = (pages.locale, pages.locale.language);
    let mut files = drawn(plan, pages.paper, language, progress)?;
    files.push(job_copy(pages.job, pages.text));
    let answer = wire::Document::pack(
        plan,
        &locale.words_of_plan(plan),
        &files.iter().collect::<Vec<_>>(),
    );
    files.push(NamedBytes {
        name: wire::PACK_FILE.to_owned(),
        bytes: output::json_text(&answer, language)?.into_bytes(),
    });
    Ok(files)
}

fn drawn(
    plan: &Plan,
    paper: brimful_pack::Paper,
    words: Language,
    progress: &dyn progress::Progress,
) -> Result<Vec<NamedBytes>, Failure> {
    let own = |says: Text| {
        Failure::own(Fault::new(
            says,
            say!(
                words,
                "Nothing was written; please report it with the job file."
            ),
        ))
    };
    let has_space = plan.job.space.is_some();
    let fit = has_space
        .then(|| fit_watched(plan.input(), progress))
        .transpose()
        .map_err(|none| match none {
            NoPlan::Cancelled => interrupt::stopped(words),
            NoPlan::Faults(_) => own(say!(
                words,
                "What fits the space of the job could not be worked out."
            )),
        })?;
    progress.step(Step::Papers);
    let files = brimful_pack::pack(plan, fit.as_ref(), paper, words).map_err(|fault| {
        own(say!(
            words,
            "The pack could not be drawn: {fault}.",
            fault = words.given(&fault.to_string())
        ))
    })?;
    let named = files.into_iter().map(|file| NamedBytes {
        name: file.name,
        bytes: file.bytes,
    });
    Ok(named.collect())
}

/// The job file as it was read, under its own name where that is a job's.
fn job_copy(path: &Path, text: &str) -> NamedBytes {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = if name.ends_with(".toml") {
        name.into_owned()
    } else {
        format!("{name}.job.toml")
    };
    NamedBytes {
        name,
        bytes: text.as_bytes().to_vec(),
    }
}
