//! A file that is replaced as a whole: whoever reads it finds the old text or the new one, also
//! after a power cut, and who may read and write it stays as it was.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::Duration;
use tempfile::NamedTempFile;

/// What the names of files and folders begin with that are not in their place yet.
pub(crate) const UNFINISHED: &str = ".brimful-";
/// Random letters and digits after that.
const RANDOM: usize = 6;
/// After this long nobody is writing any more.
const LEFT_BEHIND: Duration = Duration::from_secs(600);

/// A text that is on the disk, but not in its place yet. Gone when dropped.
#[derive(Debug)]
pub(crate) struct Fresh {
    file: NamedTempFile,
    path: PathBuf,
}

impl Fresh {
    /// Writes what is to stand at `path` beside it. It may be read and written by those who may do
    /// so with the file `like`; as any new file where that is not there.
    pub(crate) fn new(path: &Path, like: &Path, text: &str) -> io::Result<Self> {
        let mut builder = tempfile::Builder::new();
        builder.prefix(UNFINISHED).rand_bytes(RANDOM);
        // A temporary file may be read by its owner alone; this one as the system has it of new ones.
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            builder.permissions(fs::Permissions::from_mode(0o666));
        }
        let mut file = builder.tempfile_in(folder_of(path))?;
        if let Ok(about) = fs::metadata(like) {
            file.as_file().set_permissions(about.permissions())?;
        }
        file.write_all(text.as_bytes())?;
        file.as_file().sync_all()?;
        Ok(Self {
            file,
            path: path.to_owned(),
        })
    }

    /// Puts it in the place of whatever is there, and waits until it is there to stay.
    pub(crate) fn put(self) -> io::Result<()> {
        self.file.persist(&self.path).map_err(|it| it.error)?;
        sync(folder_of(&self.path));
        Ok(())
    }

    /// The same where nothing is there.
    pub(crate) fn put_new(self) -> io::Result<()> {
        let put = self.file.persist_noclobber(&self.path);
        put.map_err(|it| it.error)?;
        sync(folder_of(&self.path));
        Ok(())
    }
}

/// Writes a file as a whole, and waits until it is there to stay.
pub(crate) fn put(path: &Path, text: &str) -> io::Result<()> {
    Fresh::new(path, path, text)?.put()
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// Waits until a renaming in a folder is there to stay. Where a system cannot do that for folders,
/// the renaming itself has still been whole.
pub(crate) fn sync(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

/// Takes away what runs that were cut off have left in a folder. Only what has such a name, and is so
/// old that no other run can be about to put it in its place.
pub(crate) fn sweep(folder: &Path) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    for entry in entries {
        let name = entry.file_name();
        let is_ours = name.to_str().is_some_and(is_unfinished);
        // Of the entry itself: a link is never followed.
        let about = entry.metadata().ok();
        let age = about
            .as_ref()
            .and_then(|about| about.modified().ok()?.elapsed().ok());
        if !is_ours || age.is_none_or(|age| age < LEFT_BEHIND) {
            continue;
        }
        // What cannot be taken away now is taken by a later run.
        let _ = if about.is_some_and(|about| about.is_dir()) {
            fs::remove_dir_all(entry.path())
        } else {
            fs::remove_file(entry.path())
        };
    }
}

fn is_unfinished(name: &str) -> bool {
    let random = name.strip_prefix(UNFINISHED);
    random.is_some_and(|random| {
        random.len() == RANDOM && random.bytes().all(|byte| byte.is_ascii_alphanumeric())
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use std::time::SystemTime;

    #[cfg(unix)]
    #[test]
    fn who_may_read_a_file_stays_as_it_was() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        let [own, plain, new] = ["own", "plain", "new"].map(|name| folder.path().join(name));
        fs::write(&own, "a").unwrap();
        fs::set_permissions(&own, fs::Permissions::from_mode(0o600)).unwrap();
        put(&own, "b").unwrap();
        assert_eq!(
            (mode(&own), fs::read_to_string(&own).unwrap().as_str()),
            (0o600, "b")
        );
        fs::write(&plain, "").unwrap();
        put(&new, "").unwrap();
        assert_eq!(mode(&new), mode(&plain), "as any new file");
    }

    #[test]
    fn only_what_was_left_behind_long_ago_is_swept() {
        let folder = tempfile::tempdir().unwrap();
        let long_ago = SystemTime::now() - 2 * LEFT_BEHIND;
        let at = |name: &str| folder.path().join(name);
        for name in [
            ".brimful-aB3xY9",
            ".brimful-notes",
            ".brimful-aB3xY9z",
            "box.job.toml",
        ] {
            fs::write(at(name), "").unwrap();
            File::options()
                .write(true)
                .open(at(name))
                .unwrap()
                .set_modified(long_ago)
                .unwrap();
        }
        fs::create_dir_all(at(".brimful-pack01/pack")).unwrap();
        File::open(at(".brimful-pack01"))
            .unwrap()
            .set_modified(long_ago)
            .unwrap();
        // One that is about to be put in its place.
        fs::write(at(".brimful-justIn"), "").unwrap();
        sweep(folder.path());
        let entries = fs::read_dir(folder.path()).unwrap();
        let mut left: Vec<_> = entries.map(|it| it.unwrap().file_name()).collect();
        left.sort();
        assert_eq!(
            left,
            [
                ".brimful-aB3xY9z",
                ".brimful-justIn",
                ".brimful-notes",
                "box.job.toml"
            ]
        );
    }
}
