//! One sheet as a tree of full-width cuts.

/// A rectangle on its sheet, metres; `x` along the sheet's length, `y` along its width, from
/// the sheet's own corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Nearest x.
    pub x: f64,
    /// Nearest y.
    pub y: f64,
    /// Size along x.
    pub length: f64,
    /// Size along y.
    pub width: f64,
}

impl Rect {
    /// Square metres.
    pub fn area(&self) -> f64 {
        self.length * self.width
    }
}

/// One sheet and how to saw it.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Id of the sheet.
    pub sheet: usize,
    /// The whole sheet; its tree of cuts leads to every part and offcut.
    pub root: Piece,
}

/// A rectangle of material on the way from sheet to part.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Where it lies on the sheet.
    pub rect: Rect,
    /// What becomes of it.
    pub fate: Fate,
}

/// What becomes of a piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Fate {
    /// It is a part.
    Part {
        /// The part's id.
        id: usize,
        /// True when the part's length lies along the sheet's width.
        turned: bool,
    },
    /// It is left over.
    Offcut,
    /// It is a strip trimmed off the sheet's edge.
    Trimming,
    /// It is cut from edge to edge.
    Cut(Box<Cut>),
}

/// One cut from edge to edge of its piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// Place in the order of cuts on this sheet, from 1.
    pub number: usize,
    /// Which way the blade runs.
    pub runs: Runs,
    /// Which edge of the piece lies against the fence.
    pub reference: Reference,
    /// Distance from the fence to the near side of the blade, metres.
    pub fence: f64,
    /// The piece between fence and blade.
    pub kept: Piece,
    /// The piece beyond the blade; `None` when the blade takes all of it.
    pub rest: Option<Piece>,
}

/// Which way a blade runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Runs {
    /// Along the sheet's length: the fence sets a width.
    AlongLength,
    /// Along the sheet's width: the fence sets a length.
    AlongWidth,
}

/// Which edge of a piece lies against the fence.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reference {
    /// The edge nearer the sheet's corner.
    Near,
    /// The edge away from it.
    Far,
}

/// Where a part lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// The part's id.
    pub part: usize,
    /// Its place on the sheet.
    pub rect: Rect,
    /// True when the part's length lies along the sheet's width.
    pub turned: bool,
}

impl Layout {
    /// Every part on this sheet, in the order the saw frees them.
    pub fn placements(&self) -> Vec<Placement> {
        let mut found = Vec::new();
        self.root.visit(&mut |piece| {
            if let Fate::Part { id, turned } = piece.fate {
                found.push(Placement {
                    part: id,
                    rect: piece.rect,
                    turned,
                });
            }
        });
        found
    }
    /// Every leftover, largest first, without the strips trimmed off the sheet's edges.
    pub fn offcuts(&self) -> Vec<Rect> {
        let mut found = Vec::new();
        self.root.visit(&mut |piece| {
            if piece.fate == Fate::Offcut {
                found.push(piece.rect);
            }
        });
        found.sort_by(|a, b| b.area().total_cmp(&a.area()));
        found
    }
    /// Every cut with the piece that it cuts, in order.
    pub fn cuts(&self) -> Vec<(Rect, &Cut)> {
        let mut found = Vec::new();
        self.root.visit(&mut |piece| {
            if let Fate::Cut(cut) = &piece.fate {
                found.push((piece.rect, cut.as_ref()));
            }
        });
        found
    }
}

impl Piece {
    /// Calls `see` with this piece and all that come from it, a cut before its pieces.
    fn visit<'a>(&'a self, see: &mut impl FnMut(&'a Self)) {
        let mut waiting = vec![self];
        while let Some(piece) = waiting.pop() {
            see(piece);
            if let Fate::Cut(cut) = &piece.fate {
                waiting.extend(&cut.rest);
                waiting.push(&cut.kept);
            }
        }
    }
}
