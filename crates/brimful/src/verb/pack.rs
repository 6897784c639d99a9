//! `brimful pack`: the build pack as a folder, replaced as a whole or not at all.

use super::outcome;
use crate::call::Paper;
use crate::fault::{Failure, Fault};
use crate::folder::{Folder, NamedBytes};
use crate::input::{self, Source};
use crate::progress::Progress;
use crate::{Outcome, interrupt, output, say, wire};
use brimful_tank::plan::Depth;
use brimful_tank::plan::Plan;
use std::path::Path;

/// Works everything out in memory, then swaps the new pack in.
pub(crate) fn pack(
    job: &Path,
    json: bool,
    depth: Depth,
    folder: &Path,
    paper: Paper,
) -> Result<Outcome, Failure> {
    interrupt::remember();
    let progress = Progress::new();
    progress.step("working the job out");
    let (source, plan) = input::planned(job, depth)?;
    let folder = Folder::new(folder)?;
    interrupt::check()?;
    progress.step("drawing and printing the pack");
    let mut files = drawn(&plan, paper)?;
    files.push(job_copy(job, &source));
    interrupt::check()?;
    progress.step("writing the pack");
    let answer = wire::Document::pack(&plan, &files);
    files.push(NamedBytes {
        name: wire::PACK_FILE.to_owned(),
        bytes: output::json_text(&answer)?.into_bytes(),
    });
    folder.replace(&files)?;
    drop(progress);
    if json {
        output::json(&answer.written_to(folder.shown()))?;
    } else {
        output::text(&say::pack(&plan, folder.shown(), &files))?;
    }
    Ok(outcome(&plan))
}

fn drawn(plan: &Plan, paper: Paper) -> Result<Vec<NamedBytes>, Failure> {
    let paper = match paper {
        Paper::A4 => brimful_pack::Paper::A4,
        Paper::Letter => brimful_pack::Paper::Letter,
    };
    let files = brimful_pack::pack(plan, paper).map_err(|fault| {
        Failure::own(Fault::new(
            format!("The pack could not be drawn: {fault}."),
            "Nothing was written; please report it with the job file.",
        ))
    })?;
    let named = files.into_iter().map(|file| NamedBytes {
        name: file.name,
        bytes: file.bytes,
    });
    Ok(named.collect())
}

/// The job file as it was read, under its own name where that is a job's.
fn job_copy(path: &Path, source: &Source) -> NamedBytes {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = if name.ends_with(".toml") {
        name.into_owned()
    } else {
        format!("{name}.job.toml")
    };
    NamedBytes {
        name,
        bytes: source.text.clone().into_bytes(),
    }
}
