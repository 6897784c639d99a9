//! Every figure of `verify/slosh` against ours, and the part of the page that shows them.

#[path = "verify/mod.rs"]
mod verify;

use std::path::Path;
use std::sync::OnceLock;
use verify::table::same;
use verify::{Group, SUBJECTS, page};

/// The subjects' answers, each computed once for all tests here.
static GROUPS: [OnceLock<Group>; SUBJECTS.len()] = [const { OnceLock::new() }; SUBJECTS.len()];

fn group(number: usize) -> &'static Group {
    GROUPS[number].get_or_init(|| SUBJECTS[number].group())
}

#[test]
fn published_figures() {
    let misses: Vec<String> = (0..SUBJECTS.len())
        .flat_map(|number| group(number).misses())
        .collect();
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

/// Every file of data is a subject.
#[test]
fn no_table_is_left_out() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../verify/slosh");
    let files = std::fs::read_dir(folder).expect("the data is there");
    let names = files.map(|file| file.expect("a file").path());
    let mut tables: Vec<String> = names
        .filter(|path| path.extension().is_some_and(|end| end == "csv"))
        .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
        .collect();
    tables.sort();
    let mut subjects: Vec<&str> = SUBJECTS.iter().map(|s| s.name).collect();
    subjects.sort_unstable();
    assert_eq!(tables, subjects);
}

/// The committed part of the page is what would be written now, figures to their last digits.
#[test]
fn the_page_is_up_to_date() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/verification.md");
    let committed = std::fs::read_to_string(path).expect("the page is there");
    let written = page((0..SUBJECTS.len()).map(group));
    let heading = written.lines().next().expect("it has a heading");
    let old: Vec<&str> = committed
        .lines()
        .skip_while(|line| *line != heading)
        .collect();
    let new: Vec<&str> = written.lines().collect();
    for (old, new) in old.iter().zip(&new) {
        assert!(
            same(old, new),
            "write the page again\nold: {old}\nnew: {new}"
        );
    }
    assert_eq!(old.len(), new.len(), "write the page again");
}
