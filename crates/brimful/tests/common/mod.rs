//! Runs the built command in an empty folder of its own.
#![allow(dead_code, reason = "each test file uses its share")]
#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

pub mod said;
pub mod scan;
pub mod schema;

use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// An empty folder that is gone afterwards.
pub struct Bench(tempfile::TempDir);

/// How a run ended.
#[derive(Debug)]
pub struct Ended {
    /// The exit code.
    pub code: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Ended {
    /// Standard output as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap_or_else(|fault| panic!("{fault}: {self:?}"))
    }
}

impl Bench {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }

    pub fn read(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.path(name)).unwrap()
    }

    /// Names of what lies in the folder, hidden ones too.
    pub fn names(&self) -> Vec<String> {
        names(self.0.path())
    }

    /// Every file below a folder with its bytes, in order of names.
    pub fn all(&self, folder: &str) -> Vec<(String, Vec<u8>)> {
        let mut found = Vec::new();
        let mut waiting = vec![self.path(folder)];
        while let Some(folder) = waiting.pop() {
            for name in names(&folder) {
                let path = folder.join(name);
                if path.is_dir() {
                    waiting.push(path);
                } else {
                    let name = path.strip_prefix(self.0.path()).unwrap();
                    found.push((name.display().to_string(), std::fs::read(&path).unwrap()));
                }
            }
        }
        found.sort();
        found
    }

    pub fn command(&self, call: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_brimful"));
        command
            .args(call)
            .current_dir(self.0.path())
            .stdin(Stdio::null());
        command
    }

    pub fn run(&self, call: &[&str]) -> Ended {
        let output = self.command(call).output().unwrap();
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
        Ended {
            code: output.status.code().expect("it ended by itself"),
            out: text(output.stdout),
            err: text(output.stderr),
        }
    }

    /// Copies an example in as `NAME.job.toml`.
    pub fn example(&self, name: &str) -> String {
        let file = format!("{name}.job.toml");
        self.write(&file, std::fs::read(examples_folder().join(&file)).unwrap());
        file
    }

    /// A job that is kept for the tests as it is (`tests/jobs`): one that some check stops.
    pub fn stopped_job(&self, name: &str) -> String {
        let file = format!("{name}.job.toml");
        let jobs = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/jobs");
        self.write(&file, std::fs::read(jobs.join(&file)).unwrap());
        file
    }
}

/// Presses Ctrl-C in a process that handles it and has reached a moment. False where it ended before.
#[cfg(target_os = "linux")]
pub fn interrupt_when(child: &mut Child, moment: impl Fn() -> bool) -> bool {
    let status = format!("/proc/{}/status", child.id());
    let handles_it = || {
        let status = std::fs::read_to_string(&status).unwrap_or_default();
        let caught = status.lines().find_map(|line| line.strip_prefix("SigCgt:"));
        let mask = caught.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
        // Bit 1 is that of signal 2, the interrupt.
        mask.is_some_and(|mask| mask & 0b10 != 0)
    };
    while !(handles_it() && moment()) {
        if child.try_wait().unwrap().is_some() {
            return false;
        }
        std::thread::sleep(Duration::from_millis(1));
    }
    let kill = Command::new("kill")
        .args(["-INT", &child.id().to_string()])
        .status();
    kill.unwrap().success()
}

fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

fn examples_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples")
}

/// The names of all examples.
pub fn examples() -> Vec<String> {
    let names = names(&examples_folder()).into_iter();
    let names: Vec<String> = names
        .filter_map(|name| Some(name.strip_suffix(".job.toml")?.to_owned()))
        .collect();
    assert!(names.len() >= 6);
    names
}
