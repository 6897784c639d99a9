//! The scans that jobs name: files within the folder of jobs and nowhere else, read once and kept until
//! they change.

use crate::scan::{self, ScanRefused};
use brimful_geom::scan::Scanned;
use brimful_job::{Job, Scan};
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

/// Bytes of the largest scan that is read for a page: the server shares this machine's memory with
/// other programs. The command itself takes more.
const MAX_BYTES: u64 = 100_000_000;
/// Scans whose solids are kept.
const CAPACITY: usize = 4;

/// The scans in a folder of jobs.
#[derive(Debug)]
pub(super) struct Scans {
    folder: PathBuf,
    /// The last ones that were read, oldest first.
    kept: Mutex<Vec<(Stamp, Arc<Scanned>)>>,
}

/// What a solid was made from: it holds as long as nothing of this changes.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stamp {
    file: String,
    bytes: u64,
    changed: Option<SystemTime>,
    unit_m: f64,
    noise_m: f64,
}

impl Scans {
    pub(super) fn new(folder: PathBuf) -> Self {
        Self {
            folder,
            kept: Mutex::default(),
        }
    }

    /// What the scan of a job holds, if it names one, and what that was made from.
    pub(super) fn read(&self, job: &Job) -> Result<(Option<Arc<Scanned>>, Stamp), ScanRefused> {
        let Some(scan) = scan::named(job) else {
            return Ok((None, Stamp::default()));
        };
        let file = self.open(&scan.file);
        let stamp = match &file {
            Ok((_, about)) => Stamp {
                file: scan.file.clone(),
                bytes: about.len(),
                changed: about.modified().ok(),
                unit_m: scan.unit.m(),
                noise_m: scan.noise.m(),
            },
            Err(_) => Stamp::default(),
        };
        let known = self
            .lock()
            .iter()
            .find(|(other, _)| *other == stamp)
            .cloned();
        if let Some((_, known)) = known {
            return Ok((Some(known), stamp));
        }
        // Read without the lock: other scans are not kept waiting.
        let found = Arc::new(scan::solid(scan, |_: &Scan| {
            let (file, _) = file?;
            let mut bytes = Vec::new();
            file.take(MAX_BYTES).read_to_end(&mut bytes)?;
            Ok(bytes)
        })?);
        self.keep(&stamp, &found);
        Ok((Some(found), stamp))
    }

    fn keep(&self, stamp: &Stamp, found: &Arc<Scanned>) {
        let mut kept = self.lock();
        // Another request may have read the same file by now.
        kept.retain(|(other, _)| other != stamp);
        if kept.len() >= CAPACITY {
            kept.remove(0);
        }
        kept.push((stamp.clone(), Arc::clone(found)));
    }

    fn lock(&self) -> MutexGuard<'_, Vec<(Stamp, Arc<Scanned>)>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Opens a file of the folder, or of a folder in it. What leads elsewhere, by `..` or by a link, is not
    /// opened.
    fn open(&self, name: &str) -> io::Result<(File, fs::Metadata)> {
        let refuse = |why: &str| Err(io::Error::other(why.to_owned()));
        let name = Path::new(name);
        let is_plain = name
            .components()
            .all(|part| matches!(part, Component::Normal(_)));
        if !is_plain {
            return refuse("only files in the folder of jobs are read for the page");
        }
        let folder = self.folder.canonicalize()?;
        let path = folder.join(name).canonicalize()?;
        if !path.starts_with(&folder) {
            return refuse("it leads out of the folder of jobs");
        }
        let about = fs::metadata(&path)?;
        if !about.is_file() {
            return refuse("it is no file");
        }
        if about.len() > MAX_BYTES {
            return refuse(
                "it is larger than 100 MB; thin it in the scanner's program, or use the command",
            );
        }
        Ok((File::open(path)?, about))
    }
}
