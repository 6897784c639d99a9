//! Headings, tables and wrapped lines.

use anstyle::{AnsiColor, Style};

/// Lines are broken here: narrow enough for any terminal and for a printed page.
const WIDTH: usize = 96;

pub(super) const HEADING: Style = Style::new().bold();
pub(super) const STOP: Style = AnsiColor::Red.on_default().bold();
pub(super) const MEND: Style = AnsiColor::Yellow.on_default().bold();
pub(super) const NOTE: Style = AnsiColor::Cyan.on_default().bold();
pub(super) const GOOD: Style = AnsiColor::Green.on_default().bold();

/// Text in a style.
pub(super) fn styled(style: Style, text: &str) -> String {
    format!("{style}{}{style:#}", clean(text))
}

/// A heading with an empty line above it.
pub(super) fn heading(text: &str) -> String {
    format!("\n{}\n", styled(HEADING, text))
}

/// Text broken into lines that all stand in by `indent`; the first line follows on `lead`, which
/// takes as much room.
pub(super) fn wrapped(lead: &str, indent: usize, text: &str) -> String {
    let mut lines = String::from(lead);
    let mut column = indent;
    for word in clean(text).split_whitespace() {
        let length = word.chars().count();
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

/// A table whose columns are as wide as their widest cell.
pub(super) struct Table {
    /// Headings; those that begin with `>` head a column that is set to the right.
    heads: Vec<&'static str>,
    rows: Vec<Vec<String>>,
}

impl Table {
    /// A table without rows. A heading that begins with `>` sets its column to the right.
    pub(super) fn new(heads: &[&'static str]) -> Self {
        Self {
            heads: heads.to_vec(),
            rows: Vec::new(),
        }
    }

    /// One more row.
    pub(super) fn row(&mut self, cells: impl IntoIterator<Item = String>) {
        self.rows
            .push(cells.into_iter().map(|cell| clean(&cell)).collect());
    }

    /// The lines, headings in bold.
    pub(super) fn text(&self) -> String {
        let heads: Vec<String> = self
            .heads
            .iter()
            .map(|head| head.trim_start_matches('>').to_owned())
            .collect();
        let widths: Vec<usize> = (0..heads.len())
            .map(|column| {
                let rows = self.rows.iter().chain([&heads]);
                rows.filter_map(|row| row.get(column))
                    .map(|cell| cell.chars().count())
                    .max()
                    .unwrap_or(0)
            })
            .collect();
        let line = |row: &Vec<String>| {
            let cells = row.iter().zip(&widths).zip(&self.heads);
            let cells = cells.map(|((cell, &width), head)| {
                if head.starts_with('>') {
                    format!("{cell:>width$}")
                } else {
                    format!("{cell:<width$}")
                }
            });
            let line = cells.collect::<Vec<_>>().join("  ");
            format!("  {}", line.trim_end())
        };
        let mut text = format!("{}\n", styled(HEADING, &line(&heads)));
        for row in &self.rows {
            text.push_str(&line(row));
            text.push('\n');
        }
        text
    }
}

/// Text without control characters, which could play tricks on a terminal.
pub(super) fn clean(text: &str) -> String {
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

    #[test]
    fn lines_are_broken_between_words_and_stand_in() {
        let text = wrapped("NOTE  ", 6, &"word ".repeat(40));
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
    fn control_characters_do_not_reach_the_terminal() {
        assert_eq!(clean("a\u{1b}[31mb\nc"), "a\u{fffd}[31mb c");
    }

    #[test]
    fn columns_line_up() {
        let mut table = Table::new(&["name", ">size"]);
        table.row(["floor".to_owned(), "1 mm".to_owned()]);
        table.row(["lid".to_owned(), "1000 mm".to_owned()]);
        let plain = anstream::adapter::strip_str(&table.text()).to_string();
        assert_eq!(
            plain,
            "  name      size\n  floor     1 mm\n  lid    1000 mm\n"
        );
    }
}
