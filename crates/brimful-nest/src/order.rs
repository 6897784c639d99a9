//! What is asked for: parts, sheets and the saw; checked, and brought to the kerf-free form.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use crate::layout::Runs;

/// Inside the search a length is a whole number of nanometres: sums are exact, so "flush with
/// the edge" needs no tolerance. Whole 1/64 inch and whole micrometres lie on this grid.
pub(crate) type Nano = i64;

/// Nanometres in a metre.
const NANOS: f64 = 1e9;

/// The largest size taken, metres: products with the small factors of the bounds then stay far
/// inside the range of [`Nano`].
const LARGEST_SIZE: f64 = 1e4;

/// The smallest size taken, metres: a part must not vanish on the grid.
const SMALLEST_SIZE: f64 = 1e-6;

pub(crate) fn to_nano(metres: f64) -> Nano {
    (metres * NANOS).round() as Nano
}

pub(crate) fn to_metres(nano: Nano) -> f64 {
    nano as f64 / NANOS
}

/// A rectangle to be cut, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The caller's name for it; unique in one order.
    pub id: usize,
    /// Size along the sheet's length unless turned.
    pub length: f64,
    /// Size along the sheet's width unless turned.
    pub width: f64,
    /// Whether it may lie a quarter turned (no grain, no pattern).
    pub may_turn: bool,
}

/// A size of sheet (or an offcut) on hand, in metres.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The caller's name for it; unique in one order.
    pub id: usize,
    /// Size along the first axis.
    pub length: f64,
    /// Size along the second axis.
    pub width: f64,
    /// How many there are; `None` where more can be bought.
    pub count: Option<usize>,
    /// What taking one costs. An offcut already paid for costs little or nothing, and is
    /// then used first wherever that saves.
    pub cost: f64,
}

/// The saw and how much work to spend.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// Width of the blade's cut, metres.
    pub kerf: f64,
    /// Taken off each edge of each sheet before anything else, blade included, metres.
    pub trim: f64,
    /// The longest cut across a piece (along its shorter side), metres. A cut along the longer
    /// side is ripped against the fence and has no limit; nor have the trimming cuts, which a
    /// guide rail can make.
    pub largest_crosscut: Option<f64>,
    /// How many ways of placing one more part may be weighed in all. The first, greedy, pass
    /// always runs to its end.
    pub effort: usize,
}

impl Settings {
    /// Some milliseconds of work on any machine of today.
    pub const USUAL_EFFORT: usize = 30_000;
}

/// Why an order cannot be worked on.
#[derive(Clone, Debug, PartialEq)]
pub enum NestError {
    /// A number is not finite or not in its range.
    Number {
        /// Which number, with the id of its part or sheet.
        place: String,
        /// The number as given.
        value: f64,
        /// What it must be.
        must_be: &'static str,
    },
    /// Two parts or two sheets carry one id.
    SameId {
        /// "part" or "sheet".
        kind: &'static str,
        /// The id given twice.
        id: usize,
    },
}

impl fmt::Display for NestError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number {
                place,
                value,
                must_be,
            } => {
                write!(
                    f,
                    "The {place} is {value}; it must be {must_be}. Give it in metres (costs in one unit)."
                )
            }
            Self::SameId { kind, id } => {
                write!(
                    f,
                    "Two {kind}s have the id {id}, so the layouts could not tell them apart. Give each its own."
                )
            }
        }
    }
}

impl std::error::Error for NestError {}

/// Parts of one size, in kerf-free form.
pub(crate) struct Kind {
    /// Size along the sheet's length, grown by a kerf. Of parts that may turn, the longer size.
    pub length: Nano,
    /// Size along the sheet's width, grown by a kerf.
    pub width: Nano,
    pub may_turn: bool,
    /// Positions of its parts in the order's list.
    pub members: Vec<usize>,
}

impl Kind {
    pub fn area(&self) -> f64 {
        self.length as f64 * self.width as f64
    }
    /// The ways it may lie, as (along length, along width).
    pub fn poses(&self) -> impl Iterator<Item = (Nano, Nano)> + use<> {
        let turned = self.may_turn && self.length != self.width;
        let (length, width) = (self.length, self.width);
        std::iter::once((length, width)).chain(turned.then_some((width, length)))
    }
    pub fn fits(&self, length: Nano, width: Nano) -> bool {
        (self.length <= length && self.width <= width)
            || (self.may_turn && self.width <= length && self.length <= width)
    }
}

/// What is left of a sheet after trimming, in kerf-free form.
pub(crate) struct Blank {
    /// Usable length grown by a kerf.
    pub length: Nano,
    /// Usable width grown by a kerf.
    pub width: Nano,
    /// How many can be used at all.
    pub count: usize,
    pub cost: f64,
}

impl Blank {
    pub fn area(&self) -> f64 {
        self.length as f64 * self.width as f64
    }
}

/// A checked order in kerf-free form.
pub(crate) struct Problem<'a> {
    pub parts: &'a [Part],
    pub sheets: &'a [Sheet],
    pub kerf: Nano,
    pub trim: Nano,
    pub largest_crosscut: Option<Nano>,
    pub effort: usize,
    /// Parts that fit at least one sheet, by size.
    pub kinds: Vec<Kind>,
    /// Positions of the parts that fit no sheet.
    pub too_large: Vec<usize>,
    /// Positions of the parts that fit a sheet but that no allowed cut frees.
    pub not_freed: Vec<usize>,
    /// One a sheet, same order.
    pub blanks: Vec<Blank>,
}

impl<'a> Problem<'a> {
    pub fn new(
        parts: &'a [Part],
        sheets: &'a [Sheet],
        settings: &Settings,
    ) -> Result<Self, NestError> {
        check_numbers(parts, sheets, settings)?;
        check_ids("part", parts.iter().map(|part| part.id))?;
        check_ids("sheet", sheets.iter().map(|sheet| sheet.id))?;
        let (kerf, trim) = (to_nano(settings.kerf), to_nano(settings.trim));
        let usable = |size: f64| (to_nano(size) - 2 * trim).max(0) + kerf;
        let blanks: Vec<Blank> = sheets
            .iter()
            .map(|sheet| Blank {
                length: usable(sheet.length),
                width: usable(sheet.width),
                count: sheet.count.unwrap_or(parts.len()).min(parts.len()),
                cost: sheet.cost,
            })
            .collect();
        let mut problem = Self {
            parts,
            sheets,
            kerf,
            trim,
            largest_crosscut: settings.largest_crosscut.map(to_nano),
            effort: settings.effort,
            kinds: Vec::new(),
            too_large: Vec::new(),
            not_freed: Vec::new(),
            blanks,
        };
        problem.sort_parts();
        Ok(problem)
    }

    /// Gathers parts of one size, and puts aside those that no sheet can give.
    fn sort_parts(&mut self) {
        for ((length, width, may_turn), members) in by_size(self.parts, self.kerf) {
            let kind = Kind {
                length,
                width,
                may_turn,
                members,
            };
            let on_hand = || self.blanks.iter().filter(|blank| blank.count > 0);
            if !on_hand().any(|blank| kind.fits(blank.length, blank.width)) {
                self.too_large.extend(kind.members);
            } else if !on_hand().any(|blank| kind.poses().any(|pose| self.can_free(blank, pose))) {
                self.not_freed.extend(kind.members);
            } else {
                self.kinds.push(kind);
            }
        }
    }

    fn can_free(&self, blank: &Blank, pose: (Nano, Nano)) -> bool {
        let piece = (blank.length, blank.width);
        self.can_saw(piece, pose, Runs::AlongWidth, pose.0)
            || self.can_saw(piece, pose, Runs::AlongLength, pose.1)
    }

    /// Whether the saw can free a part that lies as `pose` in the corner of `piece`: the blade
    /// runs `first` to take off a `strip`, then across the strip, then where the part is still
    /// too large the first way again.
    pub fn can_saw(
        &self,
        piece: (Nano, Nano),
        pose: (Nano, Nano),
        first: Runs,
        strip: Nano,
    ) -> bool {
        let ((along, deep), (part_along, part_deep)) = match first {
            Runs::AlongWidth => (piece, pose),
            Runs::AlongLength => ((piece.1, piece.0), (pose.1, pose.0)),
        };
        part_along <= strip
            && strip <= along
            && part_deep <= deep
            && (strip == along || self.can_cut(deep, along))
            && (part_deep == deep || self.can_cut(strip, deep))
            && (part_along == strip || self.can_cut(part_deep, strip))
    }

    /// Whether the saw can run along `along` of a piece that is `over` deep the other way, both
    /// in kerf-free form.
    fn can_cut(&self, along: Nano, over: Nano) -> bool {
        self.largest_crosscut
            .is_none_or(|limit| along - self.kerf <= limit || along >= over)
    }
}

fn by_size(parts: &[Part], kerf: Nano) -> BTreeMap<(Nano, Nano, bool), Vec<usize>> {
    let mut by_size: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (position, part) in parts.iter().enumerate() {
        let (mut length, mut width) = (to_nano(part.length) + kerf, to_nano(part.width) + kerf);
        if part.may_turn && length < width {
            (length, width) = (width, length);
        }
        by_size
            .entry((length, width, part.may_turn))
            .or_default()
            .push(position);
    }
    by_size
}

fn check_numbers(parts: &[Part], sheets: &[Sheet], settings: &Settings) -> Result<(), NestError> {
    let within = |place: String, value: f64, good: bool, must_be: &'static str| {
        if good && value.is_finite() {
            Ok(())
        } else {
            Err(NestError::Number {
                place,
                value,
                must_be,
            })
        }
    };
    let positive = |place: String, value: f64| {
        within(
            place,
            value,
            (SMALLEST_SIZE..=LARGEST_SIZE).contains(&value),
            "between 0.000001 and 10000",
        )
    };
    let not_negative = |place: String, value: f64| {
        within(
            place,
            value,
            (0.0..=LARGEST_SIZE).contains(&value),
            "between 0 and 10000",
        )
    };
    let cost = |place: String, value: f64| {
        within(place, value, value >= 0.0, "a finite number, zero or more")
    };
    for part in parts {
        positive(format!("length of part {}", part.id), part.length)?;
        positive(format!("width of part {}", part.id), part.width)?;
    }
    for sheet in sheets {
        positive(format!("length of sheet {}", sheet.id), sheet.length)?;
        positive(format!("width of sheet {}", sheet.id), sheet.width)?;
        cost(format!("cost of sheet {}", sheet.id), sheet.cost)?;
    }
    not_negative("kerf".into(), settings.kerf)?;
    not_negative("trim".into(), settings.trim)?;
    settings
        .largest_crosscut
        .map_or(Ok(()), |limit| positive("largest crosscut".into(), limit))
}

fn check_ids(kind: &'static str, ids: impl Iterator<Item = usize>) -> Result<(), NestError> {
    let mut seen = BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(NestError::SameId { kind, id });
        }
    }
    Ok(())
}
