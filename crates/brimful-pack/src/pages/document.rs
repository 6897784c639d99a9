//! The paper itself: headings, paragraphs, tables and drawings as typst source.

use crate::draw::canvas::Drawing;
use crate::paper::Paper;
use brimful_formats::pdf::{PdfError, SANS, compile};
use brimful_text::{Text, Words, say};
use std::fmt::Write;

/// Left and right margins, millimetres.
const SIDE: f64 = 15.0;
/// Upper and lower margins, millimetres; header and footer stand in them.
const END: f64 = 20.0;

/// A column of a table.
#[derive(Clone, Debug)]
pub struct Column {
    title: Text,
    width: &'static str,
    align: &'static str,
}

/// A column of words that is as wide as it needs.
pub fn words(title: Text) -> Column {
    Column {
        title,
        width: "auto",
        align: "left",
    }
}

/// A column of words that takes a share of the room left.
pub fn wide(title: Text) -> Column {
    Column {
        title,
        width: "1fr",
        align: "left",
    }
}

/// A column of sentences: five shares.
pub fn widest(title: Text) -> Column {
    Column {
        title,
        width: "5fr",
        align: "left",
    }
}

/// A column of figures.
pub fn figures(title: Text) -> Column {
    Column {
        title,
        width: "auto",
        align: "right",
    }
}

/// A document being written.
pub struct Document {
    paper: Paper,
    source: String,
    drawings: Vec<(String, Vec<u8>)>,
}

/// A box to tick.
const BOX: &str = "rect(width: 3.5mm, height: 3.5mm, stroke: 0.6pt)";

impl Document {
    /// An empty document whose pages carry the job's name, the page's number, and that they are
    /// no certificate.
    pub fn new(paper: Paper, words: &Words<'_>) -> Self {
        let sheet = match paper {
            Paper::A4 => "a4",
            Paper::Letter => "us-letter",
        };
        let name = quoted(&words.given(&words.job.about.name));
        let page = page_of_pages(words);
        let footer = quoted(&say!(
            words,
            "Brimful build pack. Worked out from the job file as written. It is no certificate: follow local codes, and take licensed advice where they ask for it."
        ));
        let source = format!(
            r##"#set document(title: {name}, author: "Brimful")
#set page(paper: "{sheet}", margin: (x: {SIDE}mm, y: {END}mm),
  header: context {{ set text(9pt); grid(columns: (1fr, auto), strong({name}), {page}); v(-2mm); line(length: 100%, stroke: 0.4pt) }},
  footer: {{ set text(9pt); line(length: 100%, stroke: 0.4pt); v(-2mm); {footer} }})
#set text(font: "{SANS}", size: 9.5pt, lang: "en", hyphenate: false)
#set par(leading: 0.55em, spacing: 0.9em)
#set table(stroke: 0.4pt, inset: (x: 4pt, y: 3pt))
#set list(spacing: 0.65em)
#set enum(spacing: 0.65em)
#show table.cell.where(y: 0): set text(weight: "bold")
#show heading.where(level: 1): set text(15pt)
#show heading.where(level: 2): set text(11.5pt)
#show heading: set block(above: 1.2em, below: 0.7em)
"##
        );
        Self {
            paper,
            source,
            drawings: Vec::new(),
        }
    }

    /// Room between the margins, millimetres: across and up.
    pub fn room(&self) -> (f64, f64) {
        let (width, height) = match self.paper {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        };
        (width - 2.0 * SIDE, height - 2.0 * END)
    }

    /// Begins a new page with a heading.
    pub fn page(&mut self, title: &Text) {
        self.put(format_args!(
            "#pagebreak(weak: true)\n#heading(level: 1, {})",
            quoted(title)
        ));
    }
    /// A heading within a page, kept with what follows.
    pub fn heading(&mut self, title: &Text) {
        self.put(format_args!("#heading(level: 2, {})", quoted(title)));
    }
    /// A paragraph.
    pub fn paragraph(&mut self, text: &Text) {
        self.put(format_args!("#par({})", quoted(text)));
    }
    /// A paragraph in a frame, in bold.
    pub fn notice(&mut self, text: &Text) {
        self.put(format_args!(
            "#block(stroke: 1pt, inset: 6pt, width: 100%, strong({}))",
            quoted(text)
        ));
    }
    /// A bulleted list.
    pub fn bullets(&mut self, items: &[Text]) {
        self.items("list", items);
    }
    /// A numbered list.
    pub fn steps(&mut self, items: &[Text]) {
        self.items("enum", items);
    }
    /// Lines with a box to tick.
    pub fn ticks(&mut self, items: &[Text]) {
        for item in items {
            self.put(format_args!(
                "#grid(columns: (7mm, 1fr), {BOX}, {})",
                quoted(item)
            ));
        }
    }

    /// A line with a box to tick, and a drawing on its right.
    pub fn tick_beside(&mut self, item: &Text, drawing: Drawing) {
        let name = self.keep(drawing.svg);
        self.put(format_args!(
            "#block(breakable: false, grid(columns: (7mm, 1fr, auto), {BOX}, {}, image(\"{name}\", width: {:.2}mm)))",
            quoted(item),
            drawing.width
        ));
    }

    /// A table; its head is repeated on each page that it runs over, and no row is torn apart.
    pub fn table(&mut self, columns: &[Column], rows: &[Vec<Text>]) {
        let list = |pick: fn(&Column) -> &'static str| {
            columns.iter().map(pick).collect::<Vec<_>>().join(", ")
        };
        self.put(format_args!(
            "#[#set table.cell(breakable: false)\n#table(columns: ({},), align: ({},),",
            list(|column| column.width),
            list(|column| column.align)
        ));
        let titles: Vec<String> = columns.iter().map(|column| quoted(&column.title)).collect();
        self.put(format_args!("  table.header({}),", titles.join(", ")));
        for row in rows {
            let cells: Vec<String> = row.iter().map(quoted).collect();
            self.put(format_args!("  {},", cells.join(", ")));
        }
        self.put(format_args!(")]"));
    }

    /// A table of two columns without a head: what, and how much.
    pub fn facts(&mut self, rows: &[(Text, Text)]) {
        self.put(format_args!(
            "#[#show table.cell.where(y: 0): set text(weight: \"regular\")\n#table(columns: (auto, 1fr),"
        ));
        for (what, how_much) in rows {
            self.put(format_args!(
                "  strong({}), {},",
                quoted(what),
                quoted(how_much)
            ));
        }
        self.put(format_args!(")]"));
    }

    /// A drawing at its own size, centred.
    pub fn drawing(&mut self, drawing: Drawing) {
        let name = self.keep(drawing.svg);
        self.put(format_args!(
            "#align(center, image(\"{name}\", width: {:.2}mm))",
            drawing.width
        ));
    }

    /// A drawing with lines of text on its right.
    pub fn beside(&mut self, drawing: Drawing, lines: &[Text]) {
        let name = self.keep(drawing.svg);
        let lines: Vec<String> = lines
            .iter()
            .map(|line| format!("par({})", quoted(line)))
            .collect();
        self.put(format_args!(
            "#block(breakable: false, grid(columns: (auto, 1fr), gutter: 5mm, align: horizon, image(\"{name}\", width: {:.2}mm), {{ {} }}))",
            drawing.width,
            lines.join("; ")
        ));
    }

    /// Room for one of two drawings side by side, millimetres: across and up.
    pub fn half(&self) -> (f64, f64) {
        let (width, height) = self.room();
        ((width - 5.0) / 2.0, height * 0.28)
    }

    /// Drawings two in a row, each over its words.
    pub fn pictures(&mut self, drawings: Vec<(Drawing, Text)>) {
        let cells: Vec<String> = drawings
            .into_iter()
            .map(|(drawing, words)| {
                let width = drawing.width;
                let name = self.keep(drawing.svg);
                format!(
                    "block(breakable: false, {{ align(center, image(\"{name}\", width: {width:.2}mm)); align(center, {}) }})",
                    quoted(&words)
                )
            })
            .collect();
        self.put(format_args!(
            "#grid(columns: (1fr, 1fr), gutter: 5mm, align: bottom, {})",
            cells.join(", ")
        ));
    }

    fn keep(&mut self, svg: Vec<u8>) -> String {
        let name = format!("drawing-{}.svg", self.drawings.len() + 1);
        self.drawings.push((name.clone(), svg));
        name
    }

    /// Ruled lines to write on, each after its own words.
    pub fn lines(&mut self, labels: &[Text]) {
        for label in labels {
            self.put(format_args!(
                "#block(above: 5mm, grid(columns: (auto, 1fr), gutter: 2mm, {}, align(bottom, line(length: 100%, stroke: 0.4pt))))",
                quoted(label)
            ));
        }
    }

    /// The document as PDF.
    pub fn pdf(&self) -> Result<Vec<u8>, PdfError> {
        compile(&self.source, &self.drawings)
    }

    /// A list; without items it is left out, since the page compiler takes none.
    fn items(&mut self, kind: &str, items: &[Text]) {
        if items.is_empty() {
            return;
        }
        let items: Vec<String> = items.iter().map(quoted).collect();
        self.put(format_args!("#{kind}({},)", items.join(", ")));
    }

    fn put(&mut self, source: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.source, "{source}\n");
    }
}

/// The number of a page among all, which only the page compiler knows.
fn page_of_pages(words: &Words<'_>) -> String {
    /// Characters of no writing, in whose place the numbers are put.
    const PLACES: [&str; 2] = ["\u{e000}", "\u{e001}"];
    let [page, pages] = PLACES.map(|place| words.symbol(place));
    let text = quoted(&say!(
        words,
        "page {page} of {pages}",
        page = page,
        pages = pages
    ));
    text.replace(PLACES[0], "\" + counter(page).display() + \"")
        .replace(PLACES[1], "\" + str(counter(page).final().first()) + \"")
}

/// Text as a string of the page compiler, in which nothing is markup.
fn quoted(text: &Text) -> String {
    let mut quoted = String::from("\"");
    for c in text.as_str().chars() {
        match c {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            '\n' => quoted.push_str("\\n"),
            '\t' => quoted.push(' '),
            c if c.is_control() => {}
            c => quoted.push(c),
        }
    }
    quoted + "\""
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_job::Job;
    use brimful_text::Language;

    #[test]
    fn nothing_written_in_a_job_is_markup() {
        let job = "[job]\nname = \"a #panic(1) $x$ *b*\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n";
        let job = Job::parse(job).expect("a job");
        let shown = Words::new(&job, Language::Pseudo);
        let text = |text: &str| shown.given(text);
        let mut document = Document::new(Paper::A4, &shown);
        document.paragraph(&text("#panic(\"no\")\nline two \\ \"quoted\""));
        document.table(
            &[words(text("a")), figures(text("b")), wide(text("c"))],
            &[vec![text("#x"), text("]"), text("@y")]],
        );
        document.facts(&[(text("k"), text("v"))]);
        document.bullets(&[text("-"), text("=")]);
        document.ticks(&[text("t")]);
        document.lines(&[text("name")]);
        assert!(document.pdf().is_ok());
    }
}
