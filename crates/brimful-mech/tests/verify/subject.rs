//! A table of figures and how ours is computed; shared by the engines that have such tables.

use super::table::same;
use super::{Ask, Group, Values, compare};
use std::path::{Path, PathBuf};

/// A table of figures and how ours is computed.
pub struct Subject {
    pub name: &'static str,
    pub text: &'static str,
    pub run: fn(&Ask) -> Values,
}

impl Subject {
    /// Computes it on three meshes.
    pub fn group(&self) -> Group {
        compare(self.text, self.run)
    }
}

/// The subjects of a folder of `verify`, in the order of the page. It is called from `tests/verify/mod.rs` of a crate.
macro_rules! subjects {
    ($folder:literal: $($name:literal: $run:path,)*) => {
        /// In the order of the page.
        pub const SUBJECTS: &[Subject] = &[$(Subject {
            name: $name,
            text: include_str!(concat!("../../../../verify/", $folder, "/", $name, ".csv")),
            run: $run,
        }),*];
    };
}
pub(crate) use subjects;

fn of_root(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .join(path)
}

/// Every file of data in a folder is a subject.
pub fn assert_all_are_subjects(folder: &str, subjects: &[Subject]) {
    let files = std::fs::read_dir(of_root(folder)).expect("the data is there");
    let names = files.map(|file| file.expect("a file").path());
    let mut tables: Vec<String> = names
        .filter(|path| path.extension().is_some_and(|end| end == "csv"))
        .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
        .collect();
    tables.sort();
    let mut subjects: Vec<&str> = subjects.iter().map(|subject| subject.name).collect();
    subjects.sort_unstable();
    assert_eq!(tables, subjects);
}

/// The committed part of the page is what would be written now, figures to a unit of their last digit, or to two where rounding
/// falls the other way on another machine. Each engine's part has a heading of its own.
pub fn assert_is_up_to_date(written: &str) {
    let committed = std::fs::read_to_string(of_root("docs/verification.md"));
    let committed = committed.expect("the page is there");
    let heading = written.lines().next().expect("it has a heading");
    let of_part = committed.lines().skip_while(|line| *line != heading);
    let mut headings = 0;
    let own = of_part.take_while(|line| {
        headings += usize::from(line.starts_with("# "));
        headings < 2
    });
    let (mut old, new): (Vec<&str>, Vec<&str>) = (own.collect(), written.lines().collect());
    while old.last().is_some_and(|line| line.is_empty()) {
        old.pop();
    }
    for (old, new) in old.iter().zip(&new) {
        assert!(
            same(old, new),
            "write the page again\nold: {old}\nnew: {new}"
        );
    }
    assert_eq!(old.len(), new.len(), "write the page again");
}
