//! Kept versions of a job: a row of numbered files, and the number at which the job stands.
//!
//! A version is on the disk before the job's own file is, and the number is written last; a
//! process that ends in between finds its place again by the text.

use crate::file::Fresh;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Versions kept of a job at most; older ones go.
const MAX_VERSIONS: usize = 500;

/// The versions of one job.
pub(super) struct Versions {
    folder: PathBuf,
    /// The job's own file: who may read it may read its versions.
    job: PathBuf,
}

impl Versions {
    pub(super) fn new(folder: PathBuf, job: PathBuf) -> Self {
        Self { folder, job }
    }

    /// Adds a text after the version at which the job stands, and answers its number; later versions
    /// are deleted.
    pub(super) fn add(&self, text: &str) -> io::Result<u64> {
        fs::create_dir_all(&self.folder)?;
        let numbers = self.numbers();
        let at = self.at(&numbers);
        for &later in numbers.iter().filter(|number| Some(**number) > at) {
            fs::remove_file(self.file(later))?;
        }
        let next = at.map_or(1, |at| at + 1);
        self.put(&self.file(next), text)?;
        for &old in self.numbers().iter().rev().skip(MAX_VERSIONS) {
            fs::remove_file(self.file(old))?;
        }
        self.stand(next)?;
        Ok(next)
    }

    /// Takes back the version that was just added: the job stands at the one before again.
    pub(super) fn take_back(&self, number: u64) -> io::Result<()> {
        fs::remove_file(self.file(number))?;
        match self.numbers().last() {
            Some(&before) => self.stand(before),
            None => Ok(()),
        }
    }

    /// Makes sure that the job stands at a version with this text: a text that came from elsewhere
    /// becomes a version of its own.
    pub(super) fn stand_at(&self, text: &str) -> io::Result<()> {
        match self.number_of(text) {
            Some(number) if self.at(&self.numbers()) == Some(number) => Ok(()),
            Some(number) => self.stand(number),
            None => self.add(text).map(drop),
        }
    }

    /// Says that the job stands at a version.
    pub(super) fn stand(&self, number: u64) -> io::Result<()> {
        self.put(&self.folder.join("at"), &number.to_string())
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

    fn put(&self, path: &Path, text: &str) -> io::Result<()> {
        Fresh::new(path, &self.job, text)?.put()
    }

    fn file(&self, number: u64) -> PathBuf {
        let folder: &Path = &self.folder;
        folder.join(format!("{number:06}.toml"))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    /// Versions `1..=count`, each with its number for a text, the job standing at `at`.
    fn versions(count: u64, at: u64) -> (tempfile::TempDir, Versions) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().to_owned();
        let versions = Versions::new(path.clone(), path.join("no job"));
        for number in 1..=count {
            fs::write(versions.file(number), number.to_string()).unwrap();
        }
        versions.stand(at).unwrap();
        (folder, versions)
    }

    #[test]
    fn the_oldest_go_when_there_are_too_many() {
        let most = u64::try_from(MAX_VERSIONS).unwrap();
        let (_folder, versions) = versions(most + 10, most + 10);
        versions.add("new").unwrap();
        let kept: Vec<u64> = (12..=most + 11).collect();
        assert_eq!(versions.numbers(), kept);
    }

    /// What was after the oldest is no longer there to be counted.
    #[test]
    fn a_change_to_the_oldest_of_many_keeps_it() {
        let most = u64::try_from(MAX_VERSIONS).unwrap();
        let (_folder, versions) = versions(most + 1, 1);
        versions.add("new").unwrap();
        assert_eq!(versions.numbers(), [1, 2]);
        assert_eq!(versions.beside(true).unwrap(), Some((1, "1".to_owned())));
    }

    #[test]
    fn what_was_taken_back_was_never_there() {
        let (_folder, versions) = versions(3, 3);
        let number = versions.add("new").unwrap();
        versions.take_back(number).unwrap();
        assert_eq!(versions.numbers(), [1, 2, 3]);
        assert_eq!(versions.at(&versions.numbers()), Some(3));
        assert_eq!(versions.steps("3"), [true, false]);
    }
}
