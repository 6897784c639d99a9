//! Paths in a job's text, written as its faults write them, counted from 1: `opening[3].at[1]`.

/// Steps in the longest path.
const MAX_DEPTH: usize = 12;
/// Entries of the longest list.
const MAX_ENTRIES: usize = 10_000;

/// A step of a path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    Key(String),
    /// From 0.
    Number(usize),
}

/// The steps of a path; none where it cannot be one in a job file.
pub(super) fn steps(path: &str) -> Option<Vec<Step>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, numbers) = part.split_once('[').map_or((part, None), |(key, rest)| {
            (key, Some(rest.strip_suffix(']').unwrap_or("")))
        });
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | ' ');
        if key.is_empty() || !key.chars().all(plain) {
            return None;
        }
        steps.push(Step::Key(key.to_owned()));
        for number in numbers.into_iter().flat_map(|all| all.split("][")) {
            let number: usize = number.parse().ok()?;
            if !(1..=MAX_ENTRIES).contains(&number) {
                return None;
            }
            steps.push(Step::Number(number - 1));
        }
    }
    (steps.len() <= MAX_DEPTH).then_some(steps)
}
