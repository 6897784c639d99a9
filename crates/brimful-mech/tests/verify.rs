//! Every published figure of `verify/shell` against ours, and the page that shows them.

#[path = "verify/mod.rs"]
mod verify;

use std::sync::OnceLock;
use verify::subject::{assert_all_are_subjects, assert_is_up_to_date};
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
    assert_all_are_subjects("verify/shell", SUBJECTS);
}

#[test]
fn the_page_is_up_to_date() {
    assert_is_up_to_date(&page((0..SUBJECTS.len()).map(group)));
}
