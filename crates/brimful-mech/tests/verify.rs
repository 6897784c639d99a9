//! Every published figure of `verify/shell` against ours, and the page that shows them.

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

/// Half of the subjects, so that two threads share the work.
fn no_misses(half: usize) {
    let numbers = (0..SUBJECTS.len()).filter(|number| number % 2 == half);
    let misses: Vec<String> = numbers.flat_map(|number| group(number).misses()).collect();
    assert!(misses.is_empty(), "\n{}", misses.join("\n"));
}

#[test]
fn published_figures_of_even_subjects() {
    no_misses(0);
}

#[test]
fn published_figures_of_odd_subjects() {
    no_misses(1);
}

/// Every file of data is a subject.
#[test]
fn no_table_is_left_out() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../verify/shell");
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

/// The committed page is what would be written now, figures to a unit of their last digit, or to
/// two where rounding falls the other way on another machine.
#[test]
fn the_page_is_up_to_date() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/verification.md");
    let committed = std::fs::read_to_string(path).expect("the page is there");
    let written = page((0..SUBJECTS.len()).map(group));
    // Another engine's part follows under a heading of its own.
    let mut parts = 0;
    let own = committed.lines().take_while(|line| {
        parts += usize::from(line.starts_with("# "));
        parts < 2
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
