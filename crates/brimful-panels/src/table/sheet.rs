//! Thicknesses of sheet that shops can buy, from the data file; each row has its source.

use super::row::rows;
use brimful_units::Length;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
struct Row {
    thickness_mm: f64,
}

static SHEET: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("data/sheet.csv")));

/// Common thicknesses, thin to thick.
pub fn common_thicknesses() -> impl Iterator<Item = Length> {
    SHEET.iter().map(|row| Length::from_mm(row.thickness_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn they_rise() {
        let all: Vec<Length> = common_thicknesses().collect();
        assert!(all.len() > 10 && all.windows(2).all(|pair| pair[0] < pair[1]));
    }
}
