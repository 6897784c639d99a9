//! How sheets are cut, in words.

use crate::text::Text;
use crate::words::Words;
use brimful_nest::{Fate, Piece, Runs, Verdict, Why};

impl Words<'_> {
    /// So many sheets.
    pub fn sheets(&self, count: usize) -> Text {
        match count {
            1 => say!(self, "1 sheet"),
            n => say!(self, "{n} sheets", n = n),
        }
    }

    /// Which way the blade runs.
    pub fn blade_runs(&self, runs: Runs) -> Text {
        match runs {
            Runs::AlongLength => say!(self, "along the sheet"),
            Runs::AlongWidth => say!(self, "across the sheet"),
        }
    }

    /// What becomes of a piece that a cut gives, if it gives one; a panel is called as `panel` says.
    pub fn piece_fate(&self, piece: Option<&Piece>, panel: impl Fn(usize) -> Text) -> Text {
        match piece.map(|piece| &piece.fate) {
            None => say!(self, "nothing"),
            Some(Fate::Part { id, .. }) => panel(*id),
            Some(Fate::Offcut) => say!(self, "offcut"),
            Some(Fate::Trimming) => say!(self, "trimming"),
            Some(Fate::Cut(next)) => say!(self, "piece for cut {number}", number = next.number),
        }
    }

    /// How good a layout is, in a sentence.
    pub fn layout_verdict(&self, verdict: Verdict) -> Text {
        match verdict {
            Verdict::ProvenBest => say!(self, "No layout uses less stock: proven."),
            Verdict::Gap { sheets: 0, .. } => say!(
                self,
                "No layout uses fewer sheets: proven; one of less cost is not excluded."
            ),
            Verdict::Gap { sheets, .. } => say!(
                self,
                "{sheets} above the proven least; fewer are not excluded.",
                sheets = self.sheets(sheets)
            ),
            Verdict::StockShort { proven: true } => {
                say!(self, "The sheets on hand are proven too few.")
            }
            Verdict::StockShort { proven: false } => {
                say!(self, "The sheets on hand were not found to be enough.")
            }
        }
    }

    /// Why a panel is on no sheet, after its name.
    pub fn left_out(&self, why: Why) -> Text {
        match why {
            Why::FitsNoSheet => say!(self, "fits no sheet of the stock"),
            Why::NoCutFreesIt => say!(self, "cannot be freed by the saw's largest crosscut"),
            Why::StockUsedUp => say!(self, "is left over: the sheets are used up"),
        }
    }
}
