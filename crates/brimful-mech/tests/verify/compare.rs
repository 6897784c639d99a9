//! Ours beside the published figures.

use super::table::{Row, Standing, Table};
use std::collections::BTreeMap;

/// What is asked of a computation: the quantities of one case on one of three meshes.
pub struct Ask<'a> {
    pub case: &'a str,
    pub quantities: &'a [&'a str],
    /// 0 coarse, 1 middle, 2 fine.
    pub mesh: usize,
}

impl Ask<'_> {
    /// `coarse`, twice that or four times that.
    pub fn doubled(&self, coarse: usize) -> usize {
        coarse << self.mesh
    }

    /// The words of the case.
    pub fn words(&self) -> Vec<&str> {
        self.case.split_whitespace().collect()
    }

    /// A word of the case as a number.
    pub fn number(&self, word: usize) -> f64 {
        match self.words().get(word).map(|w| w.parse()) {
            Some(Ok(value)) => value,
            _ => panic!("{}: word {word} is not a number", self.case),
        }
    }
}

/// Quantities by name.
pub type Values = BTreeMap<String, f64>;

/// Collects quantities.
pub fn values<const N: usize>(pairs: [(&str, f64); N]) -> Values {
    pairs.map(|(name, value)| (name.to_owned(), value)).into()
}

/// A table and ours beside each of its figures.
pub struct Group {
    pub table: Table,
    pub ours: Vec<Ours>,
}

/// Ours beside a figure.
pub struct Ours {
    /// On three meshes, each finer than the one before.
    pub values: [f64; 3],
    pub order: Order,
}

/// How fast the figures of three meshes settle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Order {
    /// Richardson's: the last change is the change before over the ratio to this power.
    Observed(f64),
    /// The last change is too small to tell, against the figure as it is printed.
    Settled,
    /// The changes do not shrink steadily.
    Unsteady,
}

/// A change below this share of the figure is taken for settled: rounding of published figures
/// is larger, and powers of the size beyond the first mix in.
const SETTLED: f64 = 2e-4;
/// Below this share of the figure three meshes are the same but for the rounding of the solver.
const SAME: f64 = 1e-9;

/// Computes a table's figures on three meshes.
pub fn compare(text: &str, run: fn(&Ask) -> Values) -> Group {
    let table = Table::read(text);
    let mut cases: Vec<&str> = Vec::new();
    for row in &table.rows {
        if !cases.contains(&row.case.as_str()) {
            cases.push(&row.case);
        }
    }
    let mut found: BTreeMap<(&str, &str), Vec<f64>> = BTreeMap::new();
    for case in cases {
        let rows = table.rows.iter().filter(|r| r.case == case);
        let quantities: Vec<&str> = rows.map(|r| r.quantity.as_str()).collect();
        for mesh in 0..3 {
            let ask = Ask {
                case,
                quantities: &quantities,
                mesh,
            };
            let values = run(&ask);
            for &quantity in &quantities {
                let value = values.get(quantity);
                let value = *value.unwrap_or_else(|| panic!("{case}: no {quantity}"));
                found.entry((case, quantity)).or_default().push(value);
            }
        }
    }
    let ours = table
        .rows
        .iter()
        .map(|row| {
            let found = &found[&(row.case.as_str(), row.quantity.as_str())];
            let values = [found[0], found[1], found[2]];
            Ours {
                values,
                order: order(values, table.ratio, row),
            }
        })
        .collect();
    Group { table, ours }
}

fn order(values: [f64; 3], ratio: f64, row: &Row) -> Order {
    let (first, last) = (values[1] - values[0], values[2] - values[1]);
    let settled = (SETTLED * values[2].abs()).max(row.rounding);
    let share = first / last;
    if last.abs() <= SAME * values[2].abs() || (share <= 1.0 && last.abs() <= settled) {
        Order::Settled
    } else if share > 1.0 {
        Order::Observed(share.ln() / ratio.ln())
    } else if last.abs() <= settled {
        Order::Settled
    } else {
        Order::Unsteady
    }
}

impl Group {
    /// Every figure with ours.
    pub fn rows(&self) -> impl Iterator<Item = (&Row, &Ours)> {
        self.table.rows.iter().zip(&self.ours)
    }

    /// A sentence for each figure that is not as the table says.
    pub fn misses(&self) -> Vec<String> {
        self.rows()
            .filter_map(|(row, ours)| {
                let what = miss(row, ours)?;
                Some(format!(
                    "{} | {} | {}: ours {:?}, {:?}, off {:.3} %: {what}",
                    self.table.title,
                    row.case,
                    row.quantity,
                    ours.values,
                    ours.order,
                    100.0 * off(row, ours)
                ))
            })
            .collect()
    }
}

/// How far ours on the finest mesh is from the published figure, as a share of it.
pub fn off(row: &Row, ours: &Ours) -> f64 {
    ours.values[2] / row.reference - 1.0
}

/// The same beyond the rounding of the published figure, without sign.
pub fn beyond(row: &Row, ours: &Ours) -> f64 {
    let far = (ours.values[2] - row.reference).abs() - row.rounding;
    far.max(0.0) / row.reference.abs()
}

fn miss(row: &Row, ours: &Ours) -> Option<String> {
    let near =
        |target: f64| (ours.values[2] - target).abs() <= row.share * target.abs() + row.rounding;
    match row.standing {
        Standing::Agrees if !near(row.reference) => {
            return Some(format!("{} wanted", row.printed));
        }
        Standing::Outside(stated) if !near(stated) => {
            return Some(format!("{stated} stated"));
        }
        Standing::Outside(_) if near(row.reference) => {
            return Some("agrees now; say so in the table".into());
        }
        _ => {}
    }
    match (row.order, ours.order) {
        (Some(least), Order::Observed(order)) if order < least => {
            Some(format!("order {least} wanted"))
        }
        (Some(least), Order::Unsteady) => Some(format!("order {least} wanted, unsteady")),
        _ => None,
    }
}
