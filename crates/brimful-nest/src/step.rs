//! One part put into the corner of a piece, and the cuts that free it.
//!
//! The first cut takes off a strip, the second a row of the strip, the third, where the row is
//! longer than the part, the part.

use crate::layout::Runs;
use crate::order::Nano;

/// A piece of a sheet in kerf-free form, from the corner of the usable sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Area {
    pub x: Nano,
    pub y: Nano,
    pub length: Nano,
    pub width: Nano,
}

impl Area {
    pub fn size(&self) -> f64 {
        self.length as f64 * self.width as f64
    }
}

/// One part put in the corner of one piece.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    /// The sheet size begun with this step, if one is.
    pub begins: Option<usize>,
    /// The piece in hand.
    pub piece: Area,
    pub kind: usize,
    /// Size of the part as it lies.
    pub length: Nano,
    pub width: Nano,
    /// Which way the blade runs first.
    pub first: Runs,
    /// How wide a strip that cut takes off: the part's own size, or more where another part
    /// is to lie beside it in one row.
    pub strip: Nano,
}

impl Step {
    /// The leftovers: beside the part in its row, beside the row in the strip, and beyond the
    /// strip. Any may be empty.
    pub fn leftovers(&self) -> [Area; 3] {
        let Area {
            x,
            y,
            length,
            width,
        } = self.piece;
        let (right, up) = (x + self.length, y + self.width);
        match self.first {
            Runs::AlongWidth => [
                Area {
                    x: right,
                    y,
                    length: self.strip - self.length,
                    width: self.width,
                },
                Area {
                    x,
                    y: up,
                    length: self.strip,
                    width: width - self.width,
                },
                Area {
                    x: x + self.strip,
                    length: length - self.strip,
                    ..self.piece
                },
            ],
            Runs::AlongLength => [
                Area {
                    x,
                    y: up,
                    length: self.length,
                    width: self.strip - self.width,
                },
                Area {
                    x: right,
                    y,
                    length: length - self.length,
                    width: self.strip,
                },
                Area {
                    y: y + self.strip,
                    width: width - self.strip,
                    ..self.piece
                },
            ],
        }
    }
}
