//! A folder that is replaced as a whole: either the new one is there complete, or the old one is
//! left as it was.
//!
//! All files are first written into a hidden folder beside the target. The old one is then
//! renamed to a hidden name, the new one to its own; two renames within one folder. A run that
//! is cut off between the two leaves the old pack whole under its hidden name, and the next run
//! puts it back before anything else.

use crate::fault::{Failure, Fault};
use crate::file::UNFINISHED;
use crate::named_bytes::NamedBytes;
use crate::{interrupt, pack_list};
use brimful_text::{Language, Text, say};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// A folder for a pack: not there yet, empty, or holding an earlier pack and nothing else.
pub(crate) struct Folder {
    /// What its faults are said in.
    words: Language,
    /// As it was given, for messages.
    shown: String,
    /// The folder it is in, which is there.
    parent: PathBuf,
    /// The whole path.
    path: PathBuf,
    /// Where the old one waits while the new one is put in.
    aside: PathBuf,
}

impl Folder {
    /// The folder at `given`, if a pack may be put there. An earlier pack that a cut-off run left
    /// aside is put back.
    pub(crate) fn new(given: &Path, words: Language) -> Result<Self, Failure> {
        let shown = given.display().to_string();
        let path = match fs::canonicalize(given) {
            Ok(path) => path,
            Err(_) => not_there_yet(given, words)?,
        };
        let (Some(parent), Some(name)) = (path.parent(), path.file_name()) else {
            return Err(Failure::call(
                say!(
                    words,
                    "`{shown}` cannot be a pack's folder.",
                    shown = words.given(&shown)
                ),
                say!(words, "Give a new folder."),
            ));
        };
        let mut hidden = std::ffi::OsString::from(".");
        hidden.push(name);
        hidden.push(".earlier-pack");
        let folder = Self {
            words,
            shown,
            parent: parent.to_owned(),
            aside: parent.join(hidden),
            path: path.clone(),
        };
        folder.put_back()?;
        folder.refuse_what_is_no_pack()?;
        Ok(folder)
    }

    /// As it was given.
    pub(crate) fn shown(&self) -> &str {
        &self.shown
    }

    /// The same in a sentence.
    fn said(&self) -> Text {
        self.words.given(&self.shown)
    }

    /// Puts the files in place of whatever was there.
    pub(crate) fn replace(&self, files: &[NamedBytes]) -> Result<(), Failure> {
        let words = self.words;
        let failed = |fault: io::Error| {
            Failure::own(Fault::new(
                say!(
                    words,
                    "The pack could not be written to `{shown}`: {fault}.",
                    shown = self.said(),
                    fault = words.given(&fault.to_string())
                ),
                say!(
                    words,
                    "What was there before is left as it was; see whether there is room on the disk."
                ),
            ))
        };
        // Gone with everything in it when dropped.
        let scratch = tempfile::Builder::new()
            .prefix(UNFINISHED)
            .tempdir_in(&self.parent)
            .map_err(failed)?;
        // A folder of its own inside, since a temporary one may be read by its owner alone.
        let fresh = scratch.path().join("pack");
        fs::create_dir(&fresh).map_err(failed)?;
        for file in files {
            interrupt::check(words)?;
            let path = fresh.join(&file.name);
            if let Some(parent) = path.parent() {
                fs::create_dir_all(parent).map_err(failed)?;
            }
            fs::write(path, &file.bytes).map_err(failed)?;
        }
        interrupt::check(words)?;
        let had_one = self.path.exists();
        if had_one {
            fs::rename(&self.path, &self.aside).map_err(failed)?;
        }
        if let Err(fault) = fs::rename(&fresh, &self.path) {
            self.put_back()?;
            return Err(failed(fault));
        }
        if had_one {
            // The new pack is in; an old one that cannot be taken away is taken by the next run.
            let _ = fs::remove_dir_all(&self.aside);
        }
        Ok(())
    }

    /// Ends what a cut-off run left: puts the old pack back, or takes it away where the new one
    /// is in.
    fn put_back(&self) -> Result<(), Failure> {
        if !self.aside.exists() {
            return Ok(());
        }
        let done = if self.path.exists() {
            fs::remove_dir_all(&self.aside)
        } else {
            fs::rename(&self.aside, &self.path)
        };
        let words = self.words;
        done.map_err(|fault| {
            Failure::own(Fault::new(
                say!(
                    words,
                    "An earlier pack lies in `{aside}` and cannot be put back: {fault}.",
                    aside = words.given(&self.aside.display().to_string()),
                    fault = words.given(&fault.to_string())
                ),
                say!(
                    words,
                    "Rename it to `{shown}` by hand.",
                    shown = self.said()
                ),
            ))
        })
    }

    fn refuse_what_is_no_pack(&self) -> Result<(), Failure> {
        let (words, shown) = (self.words, &self.said());
        if !self.path.exists() {
            return Ok(());
        }
        if !self.path.is_dir() {
            return Err(Failure::call(
                say!(words, "`{shown}` is a file, not a folder.", shown = shown),
                say!(words, "Give the name of a folder for the pack."),
            ));
        }
        if std::env::current_dir().is_ok_and(|here| here.starts_with(&self.path)) {
            return Err(Failure::call(
                say!(
                    words,
                    "`{shown}` is the folder you are in, and cannot be replaced.",
                    shown = shown
                ),
                say!(
                    words,
                    "Give a new folder, such as `{example}`.",
                    example = words.given("-o pack")
                ),
            ));
        }
        let found = files_in(&self.path).map_err(|fault| {
            Failure::call(
                say!(
                    words,
                    "`{shown}` cannot be looked into: {fault}.",
                    shown = shown,
                    fault = words.given(&fault.to_string())
                ),
                say!(words, "Give another folder."),
            )
        })?;
        let own = pack_list::files_of_pack(&self.path.join(pack_list::PACK_FILE));
        if own.is_empty() && !found.is_empty() {
            return Err(Failure::call(
                say!(
                    words,
                    "`{shown}` is there and holds no earlier pack.",
                    shown = shown
                ),
                say!(words, "Give a new folder, so that nobody's files are lost."),
            ));
        }
        match found.iter().find(|name| !own.contains(name)) {
            None => Ok(()),
            Some(strange) => Err(Failure::call(
                say!(
                    words,
                    "`{shown}` holds an earlier pack, but also `{strange}`, which no pack wrote.",
                    shown = shown,
                    strange = words.given(strange)
                ),
                say!(
                    words,
                    "Move it away, or give a new folder, so that nobody's files are lost."
                ),
            )),
        }
    }
}

/// The path of a folder that is not there, in a folder that is.
fn not_there_yet(given: &Path, words: Language) -> Result<PathBuf, Failure> {
    let parent = match given.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let name = given.file_name();
    let parent = fs::canonicalize(parent)
        .ok()
        .filter(|parent| parent.is_dir());
    match (parent, name) {
        (Some(parent), Some(name)) => Ok(parent.join(name)),
        _ => Err(Failure::call(
            say!(
                words,
                "`{given}` cannot be made: the folder it should be in is not there.",
                given = words.given(&given.display().to_string())
            ),
            say!(words, "Make that folder first, or give another."),
        )),
    }
}

/// The names of all files in a folder and the folders in it, with `/` between, in order.
fn files_in(folder: &Path) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    let mut waiting = vec![(folder.to_owned(), String::new())];
    while let Some((folder, prefix)) = waiting.pop() {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.file_type()?.is_dir() {
                waiting.push((entry.path(), format!("{name}/")));
            } else {
                names.push(name);
            }
        }
    }
    names.sort();
    Ok(names)
}
