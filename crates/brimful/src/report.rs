//! Faults for a person: the line with a mark under what is wrong, what is taken, the remedy.

use crate::fault::{Failure, Fault, Faults};
use crate::output;
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use brimful_text::{Language, say};
use std::ops::Range;

/// More faults than this are more than anyone mends in one go.
const MOST_SHOWN: usize = 60;
/// Of a longer line only the part round the fault is shown, so many bytes to either side.
const MARGIN: usize = 90;

/// Shows every fault of a failure, on standard error; or as JSON on standard output.
pub(crate) fn report(failure: &Failure, json: bool, words: Language) {
    let shown = if json {
        let faults = Faults {
            faults: failure.faults.clone(),
        };
        output::json(&faults, words)
    } else {
        output::error(&text(&failure.faults, failure.file.as_ref(), words));
        Ok(())
    };
    if let Err(failure) = shown {
        output::error(&text(&failure.faults, None, words));
    }
}

/// All faults as text, with escape codes for colour. `file` is name and text of the job file.
fn text(faults: &[Fault], file: Option<&(String, String)>, words: Language) -> String {
    let mut text = String::new();
    for fault in faults.iter().take(MOST_SHOWN) {
        text.push_str(&one(fault, file, words));
        text.push_str("\n\n");
    }
    if faults.len() > MOST_SHOWN {
        let more = say!(
            words,
            "... and {more} more faults.",
            more = faults.len() - MOST_SHOWN
        );
        text.push_str(&format!("{more}\n"));
    } else {
        text.truncate(text.trim_end().len());
        text.push('\n');
    }
    text
}

fn one(fault: &Fault, file: Option<&(String, String)>, words: Language) -> String {
    let [error, help, note] = [
        say!(words, "error"),
        say!(words, "help"),
        say!(words, "note"),
    ]
    .map(String::from);
    let [error, help, note] = [
        Level::ERROR.with_name(error),
        Level::HELP.with_name(help),
        Level::NOTE.with_name(note),
    ];
    let title = match &fault.key {
        Some(key) => format!("{key}: {}", fault.says),
        None => fault.says.clone(),
    };
    let mut group = Group::with_title(error.primary_title(title));
    if let (Some((name, text)), Some(line)) = (file, fault.line) {
        let (shown, marked) = excerpt(text, &fault.span);
        let snippet = Snippet::source(shown)
            .line_start(line)
            .annotation(AnnotationKind::Primary.span(marked.clone()));
        let column = fault.column.unwrap_or(1);
        // The renderer counts the column in what is shown, which is right for a whole line.
        group = if shown[..marked.start].chars().count() + 1 == column {
            group.element(snippet.path(name))
        } else {
            let origin = Origin::path(name).line(line).char_column(column);
            group.element(origin).element(snippet)
        };
    } else if let Some((name, _)) = file {
        group = group.element(Origin::path(name));
    }
    if let Some(nearest) = &fault.nearest {
        let nearest = words.given(nearest);
        let meant = say!(words, "did you mean `{nearest}`?", nearest = nearest);
        group = group.element(help.clone().message(String::from(meant)));
    }
    if !fault.allowed.is_empty() {
        let taken = words.given(&fault.allowed.join(", "));
        let taken = say!(words, "taken here: {taken}", taken = taken);
        group = group.element(note.message(String::from(taken)));
    }
    if !fault.remedy.is_empty() {
        group = group.element(help.message(fault.remedy.clone()));
    }
    Renderer::styled().render(&[group])
}

/// The line on which the span begins, or the part of it round the span, and the span in it. A
/// span over several lines is marked on its first.
fn excerpt<'a>(text: &'a str, span: &Range<usize>) -> (&'a str, Range<usize>) {
    let start = border(text, span.start.min(text.len()));
    let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
    let end = border(text, span.end.clamp(start, line_end));
    let from = if start - line_start > MARGIN {
        border(text, start - MARGIN)
    } else {
        line_start
    };
    let to = border(text, line_end.min(start + MARGIN));
    let end = end.min(to);
    (&text[from..to], start - from..end - from)
}

/// The nearest border of a character at or before a byte.
fn border(text: &str, byte: usize) -> usize {
    (0..=byte)
        .rev()
        .find(|&at| text.is_char_boundary(at))
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn excerpts_stay_within_their_line_and_on_character_borders() {
        let text = "first\nsecönd line\nthird";
        assert_eq!(excerpt(text, &(6..9)), ("secönd line", 0..3));
        assert_eq!(excerpt(text, &(6..23)), ("secönd line", 0..12));
        assert_eq!(excerpt(text, &(0..999)), ("first", 0..5));
        assert_eq!(excerpt(text, &(999..999)), ("third", 5..5));
        let long = "ö".repeat(100_000);
        for start in [0, 1, 99, 100, 101, 50_001, 199_999] {
            let (shown, marked) = excerpt(&long, &(start..start + 7));
            assert!(shown.len() < 4 * MARGIN && marked.end <= shown.len());
            assert!(shown.is_char_boundary(marked.start) && shown.is_char_boundary(marked.end));
        }
    }

    #[test]
    fn many_faults_are_cut_short_and_counted() {
        let words = Language::English;
        let fault = Fault::new(words.given("Wrong."), words.given("Mend it."));
        let shown = text(&vec![fault; MOST_SHOWN + 5], None, words);
        assert!(shown.ends_with("... and 5 more faults.\n"));
    }
}
