//! The folder of jobs: each a text file of the user, read again for every request and written as a whole.
//! A file that has been changed by another program is never overwritten.

use super::error::ApiError;
use super::text::Text;
use super::versions::Versions;
use crate::file::{self, Fresh};
use std::fs::{self, Metadata};
use std::io;
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::UNIX_EPOCH;

/// The suffix of job files.
const SUFFIX: &str = ".job.toml";
/// Bytes of the largest job file; no job written by hand comes near.
pub(crate) const MAX_BYTES: usize = 1_000_000;
/// Letters in the longest name of a job.
const MAX_NAME: usize = 64;

/// One job in the list.
#[derive(Clone, Debug)]
pub(crate) struct Listed {
    pub(crate) name: String,
    pub(crate) changed_s: f64,
}

/// Which way to go among the kept versions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Step {
    Undo,
    Redo,
}

/// The folder.
#[derive(Debug)]
pub(crate) struct Jobs {
    folder: PathBuf,
    /// One change at a time.
    writing: Mutex<()>,
}

impl Jobs {
    /// The jobs in a folder that is there.
    pub(crate) fn new(folder: PathBuf) -> Self {
        Self {
            folder,
            writing: Mutex::new(()),
        }
    }

    /// Where versions, records and papers are kept.
    pub(crate) fn hidden(&self) -> PathBuf {
        self.folder.join(".brimful")
    }

    /// All jobs, by name.
    pub(crate) fn list(&self) -> Result<Vec<Listed>, ApiError> {
        let mut jobs = Vec::new();
        for (name, about) in self.files()? {
            if is_name(&name) {
                let changed = about.modified().ok();
                let since = changed.and_then(|time| time.duration_since(UNIX_EPOCH).ok());
                jobs.push(Listed {
                    name,
                    changed_s: since.map_or(0.0, |since| since.as_secs_f64()),
                });
            }
        }
        jobs.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(jobs)
    }

    /// Files that are job files by their ending, but whose names cannot be those of jobs here.
    pub(crate) fn left_out(&self) -> Result<Vec<String>, ApiError> {
        let names = self.files()?.into_iter().map(|(name, _)| name);
        let left_out = names.filter(|name| !is_name(name));
        let mut files: Vec<String> = left_out.map(|name| format!("{name}{SUFFIX}")).collect();
        files.sort();
        Ok(files)
    }

    /// The files with a job's ending, without it. A link could lead out of the folder and is none.
    fn files(&self) -> Result<Vec<(String, Metadata)>, ApiError> {
        let mut files = Vec::new();
        for entry in fs::read_dir(&self.folder).map_err(disk)? {
            let entry = entry.map_err(disk)?;
            let file = entry.file_name().to_string_lossy().into_owned();
            let Some(name) = file.strip_suffix(SUFFIX) else {
                continue;
            };
            if let Ok(about) = entry.metadata()
                && about.is_file()
            {
                files.push((name.to_owned(), about));
            }
        }
        Ok(files)
    }

    /// Takes away what servers that were killed were about to put in its place.
    pub(crate) fn sweep(&self) {
        file::sweep(&self.folder);
        file::sweep(&self.hidden().join("papers"));
        let versions = fs::read_dir(self.hidden().join("versions"));
        for job in versions.into_iter().flatten().flatten() {
            file::sweep(&job.path());
        }
    }

    /// The text of a job as it is on the disk now.
    pub(crate) fn read(&self, name: &str) -> Result<Text, ApiError> {
        let path = self.path(name)?;
        // A link could lead out of the folder.
        let about = fs::symlink_metadata(&path).map_err(|_| ApiError::no_job(name))?;
        if !about.is_file() {
            return Err(ApiError::no_job(name));
        }
        if about.len() > MAX_BYTES as u64 {
            return Err(ApiError::too_large("a job file", MAX_BYTES));
        }
        let bytes = fs::read(&path).map_err(disk)?;
        let text = String::from_utf8(bytes).map_err(|_| {
            ApiError::unprocessable(
                format!("The file of `{name}` is not UTF-8 text."),
                "Save it as UTF-8 in an editor.",
            )
        })?;
        Ok(Text::new(text))
    }

    /// A new job. Whatever else is kept by its name and was left there by an earlier job, `also`
    /// puts under the name it is given.
    pub(crate) fn create(
        &self,
        name: &str,
        text: &str,
        also: impl FnOnce(&str) -> Result<bool, ApiError>,
    ) -> Result<Text, ApiError> {
        let path = self.path(name)?;
        let taken = || {
            ApiError::conflict(
                format!("There is a job called `{name}` already."),
                "Give another name.",
            )
        };
        let _writing = self.lock();
        if fs::symlink_metadata(&path).is_ok() {
            return Err(taken());
        }
        self.set_aside(name, also)?;
        let fresh = Fresh::new(&path, &path, text).map_err(disk)?;
        self.with_version(name, text, || {
            fresh.put_new().map_err(|fault| match fault.kind() {
                io::ErrorKind::AlreadyExists => taken(),
                _ => disk(fault),
            })
        })
    }

    /// Changes a job whose text still has the etag `expected`.
    pub(crate) fn change(
        &self,
        name: &str,
        expected: &str,
        change: impl FnOnce(&str) -> Result<String, ApiError>,
    ) -> Result<Text, ApiError> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        let text = change(&now.text)?;
        if text.len() > MAX_BYTES {
            return Err(ApiError::too_large("a job file", MAX_BYTES));
        }
        if text == now.text {
            return Ok(now);
        }
        let path = self.path(name)?;
        self.versions(name).stand_at(&now.text).map_err(disk)?;
        let fresh = Fresh::new(&path, &path, &text).map_err(disk)?;
        self.with_version(name, &text, || {
            // All this took a while, in which an editor may have saved the file.
            self.expect(name, expected)?;
            fresh.put().map_err(disk)
        })
    }

    /// Makes a text the newest version of a job, then the job's own by `put`; where that fails the
    /// version goes again. Those that had been undone are gone with it.
    fn with_version(
        &self,
        name: &str,
        text: &str,
        put: impl FnOnce() -> Result<(), ApiError>,
    ) -> Result<Text, ApiError> {
        let versions = self.versions(name);
        let number = versions.add(text).map_err(disk)?;
        if let Err(refusal) = put() {
            versions.take_back(number).map_err(disk)?;
            return Err(refusal);
        }
        Ok(Text::new(text.to_owned()))
    }

    /// Goes to the version before or after; the job as it is where there is none.
    pub(crate) fn step(&self, name: &str, expected: &str, step: Step) -> Result<Text, ApiError> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        let versions = self.versions(name);
        versions.stand_at(&now.text).map_err(disk)?;
        let Some((number, text)) = versions.beside(step == Step::Undo).map_err(disk)? else {
            return Ok(now);
        };
        let path = self.path(name)?;
        let fresh = Fresh::new(&path, &path, &text).map_err(disk)?;
        self.expect(name, expected)?;
        fresh.put().map_err(disk)?;
        versions.stand(number).map_err(disk)?;
        Ok(Text::new(text))
    }

    /// Whether there is a version before and one after.
    pub(crate) fn steps(&self, name: &str, text: &str) -> [bool; 2] {
        self.versions(name).steps(text)
    }

    /// Takes a job away. Its text stays among the versions, which are set aside; what else is kept
    /// by its name, `also` puts under the name it is given.
    pub(crate) fn remove(
        &self,
        name: &str,
        expected: &str,
        also: impl FnOnce(&str) -> Result<bool, ApiError>,
    ) -> Result<(), ApiError> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        self.versions(name).stand_at(&now.text).map_err(disk)?;
        self.expect(name, expected)?;
        fs::remove_file(self.path(name)?).map_err(disk)?;
        file::sync(&self.folder);
        self.set_aside(name, also)
    }

    /// Puts what a job that is gone has left under a name that no job can have, so that a new one
    /// begins clean. `also` answers whether it put anything under the name it is given.
    fn set_aside(
        &self,
        name: &str,
        also: impl FnOnce(&str) -> Result<bool, ApiError>,
    ) -> Result<(), ApiError> {
        let of = |name: &str| self.hidden().join("versions").join(name);
        // Papers may have been set aside alone, where they were made to the last.
        let papers = |name: &str| self.hidden().join("papers").join(name);
        let mut number = 1;
        let mut aside = format!("{name}.removed");
        while of(&aside).exists() || papers(&aside).exists() {
            number += 1;
            aside = format!("{name}.removed-{number}");
        }
        if of(name).exists() {
            fs::rename(of(name), of(&aside)).map_err(disk)?;
        }
        if also(&aside)? {
            // The folder takes the name where there were no versions.
            fs::create_dir_all(of(&aside)).map_err(disk)?;
        }
        Ok(())
    }

    fn expect(&self, name: &str, expected: &str) -> Result<Text, ApiError> {
        let now = self.read(name)?;
        if now.etag == expected {
            Ok(now)
        } else {
            Err(ApiError::precondition_failed(name, &now))
        }
    }

    fn path(&self, name: &str) -> Result<PathBuf, ApiError> {
        if is_name(name) {
            Ok(self.folder.join(format!("{name}{SUFFIX}")))
        } else {
            Err(ApiError::unprocessable(
                format!("`{name}` cannot be the name of a job."),
                "Use up to 64 letters (a to z), digits, spaces, hyphens and underscores, a letter or digit first.",
            ))
        }
    }

    fn versions(&self, name: &str) -> Versions {
        let job = self.folder.join(format!("{name}{SUFFIX}"));
        Versions::new(self.hidden().join("versions").join(name), job)
    }

    fn lock(&self) -> MutexGuard<'_, ()> {
        // A panic while writing leaves the old file or the new one, never half of one.
        self.writing.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn is_name(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, ' ' | '-' | '_');
    name.len() <= MAX_NAME
        && name.starts_with(|c: char| c.is_ascii_alphanumeric())
        && !name.ends_with(' ')
        && name.chars().all(plain)
}

fn disk(fault: io::Error) -> ApiError {
    ApiError::internal(
        format!("The file system reported a fault: {fault}."),
        "Nothing was changed; see whether there is room, and whether the folder may be written to.",
    )
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use axum::http::StatusCode;
    use axum::response::IntoResponse;

    fn jobs() -> (tempfile::TempDir, Jobs, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let jobs = Jobs::new(folder.path().to_owned());
        fs::create_dir(jobs.hidden()).unwrap();
        let path = folder.path().join("box.job.toml");
        (folder, jobs, path)
    }

    fn made(jobs: &Jobs, text: &str) -> Text {
        jobs.create("box", text, |_| Ok(false)).unwrap()
    }

    /// An editor saves the file after it was read for a change and before the change is written.
    #[test]
    fn what_is_saved_during_a_change_is_not_overwritten() {
        let (_folder, jobs, path) = jobs();
        let first = made(&jobs, "first");
        let refused = jobs.change("box", &first.etag, |_| {
            fs::write(&path, "by hand").unwrap();
            Ok("by the page".to_owned())
        });
        assert_eq!(
            refused.unwrap_err().into_response().status(),
            StatusCode::PRECONDITION_FAILED
        );
        let now = jobs.read("box").unwrap();
        assert_eq!(now.text, "by hand");
        // What was not written is no version either.
        let back = jobs.step("box", &now.etag, Step::Undo).unwrap();
        assert_eq!(back.text, "first");
        assert_eq!(jobs.steps("box", &back.text), [false, true]);
        let on = jobs.step("box", &back.etag, Step::Redo).unwrap();
        assert_eq!(on.text, "by hand");
        assert_eq!(jobs.steps("box", &on.text), [true, false]);
    }

    #[test]
    fn a_new_job_of_an_old_name_begins_clean() {
        let (folder, jobs, path) = jobs();
        let mut asides = Vec::new();
        for text in ["one", "two"] {
            let job = made(&jobs, text);
            let also = |aside: &str| {
                asides.push(aside.to_owned());
                Ok(false)
            };
            jobs.remove("box", &job.etag, also).unwrap();
        }
        assert_eq!(asides, ["box.removed", "box.removed-2"]);
        let papers = folder.path().join(".brimful/papers/box.removed-3");
        fs::create_dir_all(papers).unwrap();
        jobs.set_aside("box", |aside| {
            assert_eq!(aside, "box.removed-4", "nothing is put over papers");
            Ok(true)
        })
        .unwrap();
        let kept = folder
            .path()
            .join(".brimful/versions/box.removed-2/000001.toml");
        assert_eq!(fs::read_to_string(kept).unwrap(), "two");
        let alone = folder.path().join(".brimful/versions/box.removed-4");
        assert!(alone.exists(), "records alone take their name too");
        made(&jobs, "three");
        assert_eq!(jobs.steps("box", "three"), [false, false]);
        // The same where the file was taken away by hand.
        fs::remove_file(path).unwrap();
        made(&jobs, "four");
        assert_eq!(jobs.steps("box", "four"), [false, false]);
    }

    #[cfg(unix)]
    #[test]
    fn a_private_job_stays_private() {
        use std::os::unix::fs::PermissionsExt;
        let (folder, jobs, path) = jobs();
        let job = made(&jobs, "first");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
        jobs.change("box", &job.etag, |_| Ok("second".to_owned()))
            .unwrap();
        let version = folder.path().join(".brimful/versions/box/000002.toml");
        for file in [path, version] {
            let mode = fs::metadata(file).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600);
        }
    }

    #[test]
    fn files_whose_names_cannot_be_those_of_jobs_are_told() {
        let (folder, jobs, _) = jobs();
        made(&jobs, "");
        for name in ["v1.2.job.toml", "Düse.job.toml", "notes.txt"] {
            fs::write(folder.path().join(name), "").unwrap();
        }
        assert_eq!(jobs.list().unwrap().len(), 1);
        assert_eq!(jobs.left_out().unwrap(), ["Düse.job.toml", "v1.2.job.toml"]);
    }
}
