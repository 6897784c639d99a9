//! Kept versions of a job: a row of numbered files, and the number at which the job stands.
//!
//! A version is on the disk before the job's own file is, and the number is written last; a
//! process that ends in between finds its place again by the text.

use super::jobs::put;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Versions kept of a job at most; older ones go.
const MOST: usize = 500;

/// The versions of one job.
pub(super) struct Versions {
    folder: PathBuf,
}

impl Versions {
    pub(super) fn new(folder: PathBuf) -> Self {
        Self { folder }
    }

    /// Puts a text after the version at which the job stands; what was after it goes.
    pub(super) fn add(&self, text: &str) -> io::Result<()> {
        fs::create_dir_all(&self.folder)?;
        let numbers = self.numbers();
        let at = self.at(&numbers);
        for &later in numbers.iter().filter(|number| Some(**number) > at) {
            fs::remove_file(self.file(later))?;
        }
        let next = at.map_or(1, |at| at + 1);
        put(&self.folder, &self.file(next), text)?;
        for &old in numbers.iter().rev().skip(MOST) {
            fs::remove_file(self.file(old))?;
        }
        self.stand(next)
    }

    /// Makes sure that the job stands at a version with this text: a text that came from elsewhere
    /// becomes a version of its own.
    pub(super) fn stand_at(&self, text: &str) -> io::Result<()> {
        match self.number_of(text) {
            Some(number) if self.at(&self.numbers()) == Some(number) => Ok(()),
            Some(number) => self.stand(number),
            None => self.add(text),
        }
    }

    /// Says that the job stands at a version.
    pub(super) fn stand(&self, number: u64) -> io::Result<()> {
        put(&self.folder, &self.folder.join("at"), &number.to_string())
    }

    /// The version before the one the job stands at, or after it.
    pub(super) fn beside(&self, before: bool) -> io::Result<Option<(u64, String)>> {
        let numbers = self.numbers();
        let at = self.at(&numbers);
        let number = if before {
            numbers.iter().rev().find(|number| Some(**number) < at)
        } else {
            numbers.iter().find(|number| Some(**number) > at)
        };
        let Some(&number) = number else {
            return Ok(None);
        };
        Ok(Some((number, fs::read_to_string(self.file(number))?)))
    }

    /// Whether there is one before and one after the version with this text.
    pub(super) fn steps(&self, text: &str) -> [bool; 2] {
        let numbers = self.numbers();
        let own = self.number_of(text);
        match own {
            Some(own) => [
                numbers.iter().any(|number| *number < own),
                numbers.iter().any(|number| *number > own),
            ],
            // A text from elsewhere becomes the newest version.
            None => [!numbers.is_empty(), false],
        }
    }

    /// The version with this text: the one the job stands at if it has it, else the newest.
    fn number_of(&self, text: &str) -> Option<u64> {
        let numbers = self.numbers();
        let at = self.at(&numbers);
        let has = |number: &u64| fs::read_to_string(self.file(*number)).is_ok_and(|it| it == text);
        at.filter(has)
            .or_else(|| numbers.iter().rev().copied().find(has))
    }

    /// Where the job was said to stand; the newest version where nothing was said.
    fn at(&self, numbers: &[u64]) -> Option<u64> {
        let said = fs::read_to_string(self.folder.join("at")).ok();
        let said = said.and_then(|text| text.trim().parse().ok());
        said.filter(|number| numbers.contains(number))
            .or(numbers.last().copied())
    }

    fn numbers(&self) -> Vec<u64> {
        let Ok(entries) = fs::read_dir(&self.folder) else {
            return Vec::new();
        };
        let number = |entry: io::Result<fs::DirEntry>| {
            let name = entry.ok()?.file_name();
            name.to_str()?.strip_suffix(".toml")?.parse().ok()
        };
        let mut numbers: Vec<u64> = entries.filter_map(number).collect();
        numbers.sort_unstable();
        numbers
    }

    fn file(&self, number: u64) -> PathBuf {
        let folder: &Path = &self.folder;
        folder.join(format!("{number:06}.toml"))
    }
}
