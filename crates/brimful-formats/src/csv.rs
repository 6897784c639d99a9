//! Tables as text (RFC 4180: CRLF line ends, quotes doubled inside quoted cells), UTF-8.

use crate::decimal::fixed;
use crate::error::FormatError;

/// What stands between cells.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Separator {
    /// `,`
    Comma,
    /// `;`, usual where the decimal mark is a comma.
    Semicolon,
    /// A tab.
    Tab,
}

/// What stands before the decimals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DecimalMark {
    /// `.`
    Point,
    /// `,`
    Comma,
}

/// How a table is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CsvStyle {
    /// Between cells.
    pub separator: Separator,
    /// Before decimals.
    pub decimal_mark: DecimalMark,
}

/// A column's heading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CsvColumn {
    /// What the column holds.
    pub name: String,
    /// The unit of all its numbers, if they have one.
    pub unit: Option<String>,
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum CsvCell {
    /// Any text.
    Text(String),
    /// A number in the column's unit.
    Number {
        /// The number.
        value: f64,
        /// How many decimals are written.
        decimals: usize,
    },
    /// Nothing.
    Empty,
}

/// A table with a heading.
#[derive(Clone, Debug, PartialEq)]
pub struct CsvTable {
    /// The headings.
    pub columns: Vec<CsvColumn>,
    /// One cell a column in each row.
    pub rows: Vec<Vec<CsvCell>>,
}

impl CsvTable {
    /// The table as a file.
    ///
    /// # Errors
    /// [`FormatError::RowLength`] for a row of the wrong length, [`FormatError::Number`] for a
    /// number that is not finite.
    pub fn to_bytes(&self, style: CsvStyle) -> Result<Vec<u8>, FormatError> {
        let mut writer = csv::WriterBuilder::new()
            .delimiter(match style.separator {
                Separator::Comma => b',',
                Separator::Semicolon => b';',
                Separator::Tab => b'\t',
            })
            .terminator(csv::Terminator::CRLF)
            .from_writer(Vec::new());
        writer
            .write_record(self.columns.iter().map(heading))
            .expect(IN_MEMORY);
        for (at, row) in self.rows.iter().enumerate() {
            if row.len() != self.columns.len() {
                return Err(FormatError::RowLength {
                    row: at + 1,
                    columns: self.columns.len(),
                    cells: row.len(),
                });
            }
            for (cell, column) in row.iter().zip(&self.columns) {
                let place = || format!("Row {}, column {:?}", at + 1, column.name);
                let text = written(cell, style.decimal_mark, place)?;
                writer.write_field(text).expect(IN_MEMORY);
            }
            writer.write_record(None::<&[u8]>).expect(IN_MEMORY);
        }
        Ok(writer.into_inner().expect(IN_MEMORY))
    }
}

/// Why the writer cannot fail: its rows are of one length, and a vector takes all bytes.
const IN_MEMORY: &str = "even rows are written into memory";

fn heading(column: &CsvColumn) -> String {
    match &column.unit {
        Some(unit) => format!("{} ({unit})", column.name),
        None => column.name.clone(),
    }
}

fn written(
    cell: &CsvCell,
    mark: DecimalMark,
    place: impl Fn() -> String,
) -> Result<String, FormatError> {
    match cell {
        CsvCell::Text(text) => Ok(text.clone()),
        CsvCell::Empty => Ok(String::new()),
        CsvCell::Number { value, decimals } => {
            let text = fixed(*value, *decimals, place)?;
            Ok(if mark == DecimalMark::Comma {
                text.replace('.', ",")
            } else {
                text
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn table() -> CsvTable {
        let column = |name: &str, unit: Option<&str>| CsvColumn {
            name: name.into(),
            unit: unit.map(Into::into),
        };
        CsvTable {
            columns: vec![
                column("panel", None),
                column("length", Some("mm")),
                column("note", None),
            ],
            rows: vec![
                vec![
                    CsvCell::Text("lid, left".into()),
                    CsvCell::Number {
                        value: 374.25,
                        decimals: 1,
                    },
                    CsvCell::Text("3/4\" port\nfirst".into()),
                ],
                vec![
                    CsvCell::Text("end".into()),
                    CsvCell::Empty,
                    CsvCell::Text(" ".into()),
                ],
            ],
        }
    }

    #[test]
    fn cells_are_quoted_where_needed() {
        let style = CsvStyle {
            separator: Separator::Comma,
            decimal_mark: DecimalMark::Point,
        };
        let text = String::from_utf8(table().to_bytes(style).unwrap()).unwrap();
        assert_eq!(
            text,
            "panel,length (mm),note\r\n\"lid, left\",374.2,\"3/4\"\" port\nfirst\"\r\nend,, \r\n"
        );
    }

    #[test]
    fn a_decimal_comma_is_quoted_only_beside_comma_separators() {
        let written = |separator| {
            let style = CsvStyle {
                separator,
                decimal_mark: DecimalMark::Comma,
            };
            String::from_utf8(table().to_bytes(style).unwrap()).unwrap()
        };
        assert!(written(Separator::Semicolon).contains("lid, left;374,2;"));
        assert!(written(Separator::Comma).contains(",\"374,2\","));
        assert!(written(Separator::Tab).contains("\t374,2\t"));
    }

    #[test]
    fn uneven_rows_are_refused() {
        let mut table = table();
        table.rows[1].pop();
        let style = CsvStyle {
            separator: Separator::Tab,
            decimal_mark: DecimalMark::Point,
        };
        assert_eq!(
            table.to_bytes(style),
            Err(FormatError::RowLength {
                row: 2,
                columns: 3,
                cells: 2
            })
        );
    }
}
