//! How runs are laid: how fast with which rod, what their ends take, and what bounds an extruder; and who lifts what.

use super::row::{RangeRow, rows};
use super::source::{Cited, Flag, Source, SourcedValue};
use brimful_job::{RodForm, RodStock};
use brimful_units::{Length, Mass, Speed};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct RodRow {
    form: String,
    size_mm: f64,
    pub low: f64,
    pub high: f64,
    #[allow(dead_code, reason = "every row says how sure it is")]
    flag: Flag,
    #[cfg_attr(
        not(test),
        allow(dead_code, reason = "every row says where it is from")
    )]
    pub source: String,
}

pub(super) static RUN: LazyLock<Vec<RangeRow>> =
    LazyLock::new(|| rows(include_str!("data/run.csv")));
pub(super) static ROD_SPEED: LazyLock<Vec<RodRow>> =
    LazyLock::new(|| rows(include_str!("data/rod_speed.csv")));

fn row(of: &str, quantity: &str, unit: &str) -> &'static RangeRow {
    RangeRow::find(&RUN, of, quantity, unit)
}

fn middle(of: &str, quantity: &str, unit: &str) -> f64 {
    let row = row(of, quantity, unit);
    0.5 * (row.low + row.high)
}

/// The middle of a range of lengths, by the words of its row.
pub fn length(of: &str, quantity: &str) -> Length {
    Length::from_mm(middle(of, quantity, "mm"))
}

/// Both ends of a range of lengths, by the words of its row.
pub fn lengths(of: &str, quantity: &str) -> [Length; 2] {
    let row = row(of, quantity, "mm");
    [row.low, row.high].map(Length::from_mm)
}

/// The middle of a range of masses, by the words of its row.
pub fn mass(of: &str, quantity: &str) -> Mass {
    Mass::from_kg(middle(of, quantity, "kg"))
}

/// The greatest of a range of counts, by the words of its row.
pub fn most(of: &str, quantity: &str) -> f64 {
    row(of, quantity, "1").high
}

/// The middle of a range of shares, by the words of its row.
pub fn share(of: &str, quantity: &str) -> f64 {
    middle(of, quantity, "%") / 100.0
}

/// Where a row is from.
pub fn source(of: &str, quantity: &str, unit: &'static str) -> Source {
    let row = row(of, quantity, unit);
    Source {
        value: SourcedValue::Heat {
            name: &row.quantity,
            range: [row.low, row.high],
            unit,
        },
        flag: row.flag,
        cited: Cited::Row(&row.source),
    }
}

impl RodRow {
    /// The size of the rod: its diameter, or its side.
    fn size(&self) -> Length {
        Length::from_mm(self.size_mm)
    }

    fn form(&self) -> RodForm {
        match self.form.as_str() {
            "triangular" => RodForm::Triangular,
            _ => RodForm::Round,
        }
    }
}

/// How fast a speed nozzle lays a rod, the least and the most; none of a rod that it is not known for.
pub fn rod_speed(rod: &RodStock) -> Option<[Speed; 2]> {
    let row = nearest(rod).filter(|row| is_size(rod.diameter, row.size()))?;
    Some([row.low, row.high].map(Speed::from_mm_min))
}

/// Sizes of the usual speed nozzles for rod of a form.
pub fn usual_sizes(form: RodForm) -> Vec<Length> {
    let of_form = ROD_SPEED.iter().filter(|row| row.form() == form);
    of_form.map(RodRow::size).collect()
}

/// Whether a rod runs through a nozzle that is made for a size.
pub fn is_size(rod: Length, nozzle: Length) -> bool {
    (rod - nozzle).abs() <= length("speed nozzle", "play")
}

fn nearest(rod: &RodStock) -> Option<&'static RodRow> {
    let of_form = ROD_SPEED.iter().filter(|row| row.form() == rod.form);
    of_form.min_by(|a, b| {
        let off = |row: &RodRow| (row.size() - rod.diameter).abs();
        off(a).total_cmp(&off(b))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_that_is_asked_for_is_there() {
        assert_eq!(length("hot gas", "trim"), Length::from_mm(75.0));
        assert!((mass("extrusion", "purge").g() - 75.0).abs() < 1e-9);
        assert_eq!(mass("lifting", "one person").kg(), 25.0);
        assert!((share("extrusion", "planned share of the output") - 0.65).abs() < 1e-12);
        assert!((share("hot gas", "stretch") - 0.1).abs() < 1e-12);
        assert_eq!(most("hot gas", "runs of one weld"), 6.0);
        assert_eq!(most("lifting", "fewest at a turn"), 2.0);
        assert!(length("sheet", "one nominal size") > Length::ZERO);
        assert_eq!(length("extrusion", "deepest run"), Length::from_mm(18.0));
        let [thin, thick] = lengths("extrusion", "sheet thickness");
        assert!(thin < thick);
        for extruder in ["small extruder", "medium extruder", "large extruder"] {
            assert!(lengths(extruder, "rod")[0] > Length::ZERO);
        }
    }
}
