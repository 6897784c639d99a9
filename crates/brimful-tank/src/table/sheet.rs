//! Thicknesses of sheet that shops can buy, from the data file; each row has its source.

use super::{number, rows};
use brimful_units::Length;

pub(super) const SHEET: &str = include_str!("data/sheet.csv");

/// Common thicknesses, thin to thick.
pub fn common_thicknesses() -> impl Iterator<Item = Length> {
    rows::<3>(SHEET).map(|[thickness, ..]| Length::from_mm(number(thickness)))
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
