//! The folder of jobs: each a text file that is the person's own, read anew every time and written
//! as a whole. A file that somebody else has changed is never overwritten.

use super::refusal::Refusal;
use super::versions::Versions;
use sha2::{Digest, Sha256};
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::UNIX_EPOCH;

/// What a job's file ends in.
const ENDING: &str = ".job.toml";
/// No job written by hand comes near.
pub(crate) const LARGEST: usize = 1_000_000;
/// Letters in the longest name of a job.
const LONGEST_NAME: usize = 64;

/// The text of a job, and what tells it from any other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Text {
    pub(crate) text: String,
    pub(crate) etag: String,
}

impl Text {
    pub(crate) fn new(text: String) -> Self {
        let sum = Sha256::digest(text.as_bytes());
        let etag = sum[..12].iter().map(|byte| format!("{byte:02x}")).collect();
        Self { text, etag }
    }
}

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

    /// Where what is not the person's own is kept.
    pub(crate) fn hidden(&self) -> PathBuf {
        self.folder.join(".brimful")
    }

    /// All jobs, by name.
    pub(crate) fn list(&self) -> Result<Vec<Listed>, Refusal> {
        let mut jobs = Vec::new();
        for entry in fs::read_dir(&self.folder).map_err(disk)? {
            let entry = entry.map_err(disk)?;
            let file = entry.file_name().to_string_lossy().into_owned();
            let Some(name) = file.strip_suffix(ENDING) else {
                continue;
            };
            let Ok(about) = entry.metadata() else {
                continue;
            };
            if about.is_file() && is_name(name) {
                let changed = about.modified().ok();
                let since = changed.and_then(|time| time.duration_since(UNIX_EPOCH).ok());
                jobs.push(Listed {
                    name: name.to_owned(),
                    changed_s: since.map_or(0.0, |since| since.as_secs_f64()),
                });
            }
        }
        jobs.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(jobs)
    }

    /// The text of a job as it is on the disk now.
    pub(crate) fn read(&self, name: &str) -> Result<Text, Refusal> {
        let path = self.path(name)?;
        // A link could lead out of the folder.
        let about = fs::symlink_metadata(&path).map_err(|_| Refusal::no_job(name))?;
        if !about.is_file() {
            return Err(Refusal::no_job(name));
        }
        if about.len() > LARGEST as u64 {
            return Err(Refusal::too_large("a job file", LARGEST));
        }
        let bytes = fs::read(&path).map_err(disk)?;
        let text = String::from_utf8(bytes).map_err(|_| {
            Refusal::unusable(
                format!("The file of `{name}` is not UTF-8 text."),
                "Save it as UTF-8 in an editor.",
            )
        })?;
        Ok(Text::new(text))
    }

    /// A new job.
    pub(crate) fn create(&self, name: &str, text: &str) -> Result<Text, Refusal> {
        let path = self.path(name)?;
        let _writing = self.lock();
        if fs::symlink_metadata(&path).is_ok() {
            return Err(Refusal::conflict(
                format!("There is a job called `{name}` already."),
                "Give another name.",
            ));
        }
        self.versions(name).add(text).map_err(disk)?;
        self.put(&path, text)?;
        Ok(Text::new(text.to_owned()))
    }

    /// Changes a job whose text is still the one that `expected` tells.
    pub(crate) fn change(
        &self,
        name: &str,
        expected: &str,
        change: impl FnOnce(&str) -> Result<String, Refusal>,
    ) -> Result<Text, Refusal> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        let text = change(&now.text)?;
        if text.len() > LARGEST {
            return Err(Refusal::too_large("a job file", LARGEST));
        }
        if text == now.text {
            return Ok(now);
        }
        let versions = self.versions(name);
        versions.stand_at(&now.text).map_err(disk)?;
        versions.add(&text).map_err(disk)?;
        self.put(&self.path(name)?, &text)?;
        Ok(Text::new(text))
    }

    /// Goes to the version before or after; the job as it is where there is none.
    pub(crate) fn step(&self, name: &str, expected: &str, step: Step) -> Result<Text, Refusal> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        let versions = self.versions(name);
        versions.stand_at(&now.text).map_err(disk)?;
        let Some((number, text)) = versions.beside(step == Step::Undo).map_err(disk)? else {
            return Ok(now);
        };
        self.put(&self.path(name)?, &text)?;
        versions.stand(number).map_err(disk)?;
        Ok(Text::new(text))
    }

    /// Whether there is a version before and one after.
    pub(crate) fn steps(&self, name: &str, text: &str) -> [bool; 2] {
        self.versions(name).steps(text)
    }

    /// Takes a job away; its text stays among the versions.
    pub(crate) fn remove(&self, name: &str, expected: &str) -> Result<(), Refusal> {
        let _writing = self.lock();
        let now = self.expect(name, expected)?;
        let versions = self.versions(name);
        versions.stand_at(&now.text).map_err(disk)?;
        fs::remove_file(self.path(name)?).map_err(disk)?;
        sync(&self.folder);
        Ok(())
    }

    fn expect(&self, name: &str, expected: &str) -> Result<Text, Refusal> {
        let now = self.read(name)?;
        if now.etag == expected {
            Ok(now)
        } else {
            Err(Refusal::changed_meanwhile(name, &now))
        }
    }

    fn path(&self, name: &str) -> Result<PathBuf, Refusal> {
        if is_name(name) {
            Ok(self.folder.join(format!("{name}{ENDING}")))
        } else {
            Err(Refusal::unusable(
                format!("`{name}` cannot be the name of a job."),
                "Use up to 64 letters (a to z), digits, spaces, hyphens and underscores, a letter or digit first.",
            ))
        }
    }

    fn versions(&self, name: &str) -> Versions {
        Versions::new(self.hidden().join("versions").join(name))
    }

    fn lock(&self) -> MutexGuard<'_, ()> {
        // A panic while writing leaves the old file or the new one, never half of one.
        self.writing.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Writes beside the file, then renames: whoever reads finds the old text or the new one.
    fn put(&self, path: &Path, text: &str) -> Result<(), Refusal> {
        put(&self.folder, path, text).map_err(disk)
    }
}

/// Writes a file as a whole, in a folder on the same disk, and waits until it is there to stay.
pub(super) fn put(folder: &Path, path: &Path, text: &str) -> io::Result<()> {
    let mut file = tempfile::Builder::new()
        .prefix(".brimful-")
        .tempfile_in(folder)?;
    file.write_all(text.as_bytes())?;
    file.as_file().sync_all()?;
    let kept = file.persist(path).map_err(|fault| fault.error)?;
    // A temporary file may be read by its owner alone; a job is like any other file.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        kept.set_permissions(fs::Permissions::from_mode(0o644))?;
    }
    drop(kept);
    sync(folder);
    Ok(())
}

/// Waits until a renaming in a folder is there to stay. Where a system cannot do that for folders,
/// the renaming itself has still been whole.
fn sync(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

fn is_name(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, ' ' | '-' | '_');
    name.len() <= LONGEST_NAME
        && name.starts_with(|c: char| c.is_ascii_alphanumeric())
        && !name.ends_with(' ')
        && name.chars().all(plain)
}

fn disk(fault: io::Error) -> Refusal {
    Refusal::own(
        format!("The disk did not do as it was asked: {fault}."),
        "Nothing was changed; see whether there is room, and whether the folder may be written to.",
    )
}
