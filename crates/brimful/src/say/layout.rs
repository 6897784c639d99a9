//! Headings, tables and broken lines. All take [`Text`], so that no words get past a language.

use anstyle::{AnsiColor, Style};
use brimful_text::{Text, Words};

/// Lines are broken here: narrow enough for any terminal and for a printed page.
const WIDTH: usize = 96;

pub(super) const PLAIN: Style = Style::new();
pub(super) const HEADING: Style = Style::new().bold();
pub(super) const STOP: Style = AnsiColor::Red.on_default().bold();
pub(super) const MEND: Style = AnsiColor::Yellow.on_default().bold();
pub(super) const NOTE: Style = AnsiColor::Cyan.on_default().bold();
pub(super) const GOOD: Style = AnsiColor::Green.on_default().bold();

/// A line of its own that is not broken and stands in by `indent`.
pub(super) fn line(style: Style, indent: usize, text: &Text) -> String {
    format!("{:indent$}{}\n", "", styled(style, text.as_str()))
}

/// A heading with an empty line above it.
pub(super) fn heading(text: &Text) -> String {
    format!("\n{}", line(HEADING, 0, text))
}

/// Text broken into lines: the first stands in by `first`, the others by `indent`.
pub(super) fn paragraph(first: usize, indent: usize, text: &Text) -> String {
    broken(" ".repeat(first), indent, text)
}

/// What stands before a paragraph.
#[derive(Clone, Copy)]
pub(super) struct Label<'a> {
    pub(super) style: Style,
    /// The column it begins in.
    pub(super) at: usize,
    pub(super) text: &'a Text,
}

impl<'a> Label<'a> {
    pub(super) fn new(at: usize, text: &'a Text) -> Self {
        Self {
            style: PLAIN,
            at,
            text,
        }
    }

    /// One that ends before the column `end`, so that numbers stand below each other.
    pub(super) fn ending(end: usize, text: &'a Text) -> Self {
        Self::new(end.saturating_sub(width(text.as_str())), text)
    }

    /// The column after it.
    pub(super) fn end(self) -> usize {
        self.at + width(self.text.as_str())
    }
}

/// A paragraph that stands in by `indent` behind its label.
pub(super) fn labelled(label: Label<'_>, indent: usize, text: &Text) -> String {
    let gap = indent.saturating_sub(label.end()).max(1);
    let lead = format!(
        "{:at$}{}{:gap$}",
        "",
        styled(label.style, label.text.as_str()),
        "",
        at = label.at
    );
    broken(lead, indent, text)
}

/// Text behind a lead that takes as much room as `indent`.
fn broken(lead: String, indent: usize, text: &Text) -> String {
    let mut lines = lead;
    let mut column = indent;
    for word in clean(text.as_str()).split_whitespace() {
        let length = width(word);
        if column > indent && column + 1 + length > WIDTH {
            lines.push('\n');
            lines.push_str(&" ".repeat(indent));
            column = indent;
        } else if column > indent {
            lines.push(' ');
            column += 1;
        }
        lines.push_str(word);
        column += length;
    }
    lines.push('\n');
    lines
}

fn styled(style: Style, text: &str) -> String {
    format!("{style}{}{style:#}", clean(text))
}

fn width(text: &str) -> usize {
    text.chars().count()
}

/// A table whose columns are as wide as their widest cell.
pub(super) struct Table {
    heads: Vec<String>,
    to_the_right: Vec<bool>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows. The headings are templates; one that begins with `>` sets its column to the
    /// right.
    pub(super) fn new(words: &Words<'_>, heads: &[&'static str]) -> Self {
        let head = |head: &&str| String::from(words.data(head.trim_start_matches('>')));
        Self {
            heads: heads.iter().map(head).collect(),
            to_the_right: heads.iter().map(|head| head.starts_with('>')).collect(),
            rows: Vec::new(),
        }
    }

    /// One more row.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = Text>) {
        self.rows
            .push(cells.into_iter().map(|cell| clean(cell.as_str())).collect());
    }

    /// The lines, headings in bold.
    pub(super) fn text(&self) -> String {
        let widths: Vec<usize> = (0..self.heads.len())
            .map(|column| {
                let rows = self.rows.iter().chain([&self.heads]);
                let cells = rows.filter_map(|row| row.get(column));
                cells.map(|cell| width(cell)).max().unwrap_or(0)
            })
            .collect();
        let line = |row: &Vec<String>| {
            let cells = row.iter().zip(&widths).zip(&self.to_the_right);
            let cells = cells.map(|((cell, &width), to_the_right)| {
                if *to_the_right {
                    format!("{cell:>width$}")
                } else {
                    format!("{cell:<width$}")
                }
            });
            let line = cells.collect::<Vec<_>>().join("  ");
            format!("  {}", line.trim_end())
        };
        let mut text = format!("{}\n", styled(HEADING, &line(&self.heads)));
        for row in &self.rows {
            text.push_str(&line(row));
            text.push('\n');
        }
        text
    }
}

/// Text without control characters, which could play tricks on a terminal.
fn clean(text: &str) -> String {
    let visible = |character: char| match character {
        '\n' | '\t' => ' ',
        other if other.is_control() => '\u{fffd}',
        other => other,
    };
    text.chars().map(visible).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_job::{Job, starter};
    use brimful_text::Language;

    fn given(text: &str) -> Text {
        Language::English.given(text)
    }

    #[test]
    fn lines_are_broken_between_words_and_stand_in() {
        let label = given("NOTE");
        let text = labelled(Label::new(0, &label), 6, &given(&"word ".repeat(40)));
        for (number, line) in text.lines().enumerate() {
            assert!(line.chars().count() <= WIDTH);
            assert!(line.starts_with(if number == 0 {
                "NOTE  word"
            } else {
                "      word"
            }));
        }
        assert_eq!(text.matches("word").count(), 40);
    }

    #[test]
    fn numbers_stand_below_each_other_before_their_paragraphs() {
        let numbered = |n: usize| labelled(Label::ending(4, &n.into()), 6, &given("weld"));
        assert_eq!(numbered(9), "   9  weld\n");
        assert_eq!(numbered(10), "  10  weld\n");
    }

    #[test]
    fn control_characters_do_not_reach_the_terminal() {
        assert_eq!(clean("a\u{1b}[31mb\nc"), "a\u{fffd}[31mb c");
    }

    #[test]
    fn columns_line_up() {
        let job = Job::parse(starter()).expect("the starter is a job");
        let words = Words::new(&job, Language::English);
        let mut table = Table::new(&words, &["name", ">size"]);
        table.row([given("floor"), given("1 mm")]);
        table.row([given("lid"), given("1000 mm")]);
        let plain = anstream::adapter::strip_str(&table.text()).to_string();
        assert_eq!(
            plain,
            "  name      size\n  floor     1 mm\n  lid    1000 mm\n"
        );
    }
}
