//! The coefficients of `data/plates.csv`: reading, and reading between the rows.

use super::answer::{Flag, NotCovered};
use super::input::Edges;
use serde::Deserialize;
use std::sync::LazyLock;

/// The compiled-in rows.
static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| {
    csv::Reader::from_reader(include_bytes!("data/plates.csv").as_slice())
        .into_deserialize()
        .collect::<Result<_, _>>()
        .expect("the compiled-in table is whole; a test reads it")
});

/// How the pressure lies on the plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// The same everywhere.
    Uniform,
    /// Falling from the foot to zero at the top.
    #[serde(rename = "hydrostatic")]
    Falling,
}

/// Coefficients for one shape, in units of `p s^4 / D` and `p s^2`, `s` the shorter side; the width
/// where the top is free.
pub struct Coefficients {
    pub deflection: f64,
    pub field: f64,
    pub edge: f64,
    pub sources: Vec<(Flag, &'static str)>,
}

#[derive(Deserialize)]
struct Row {
    edges: Edges,
    load: Kind,
    poisson: f64,
    height_over_width: f64,
    deflection: f64,
    /// The larger of the two field moments, and the other one at the same place.
    field_moment: f64,
    field_moment_across: f64,
    edge_moment: f64,
    flag: Flag,
    source: String,
}

/// The coefficients at height over width `ratio` and Poisson's ratio `poisson`.
pub fn look_up(
    edges: Edges,
    kind: Kind,
    ratio: f64,
    poisson: f64,
) -> Result<Coefficients, NotCovered> {
    let of = |wanted: f64| {
        ROWS.iter()
            .filter(move |row| row.edges == edges && row.load == kind && row.poisson == wanted)
    };
    match edges {
        Edges::Hinged | Edges::Clamped => {
            let (below, above, share) = neighbours(of(TABLE_POISSON), ratio)?;
            let turned = |row: &Row| field_moment(row, poisson);
            Ok(between(below, above, share, turned))
        }
        Edges::HingedFreeTop | Edges::ClampedFreeTop => {
            let mut pairs = FREE_TOP_POISSON.windows(2);
            let pair = pairs.find(|pair| (pair[0]..=pair[1]).contains(&poisson));
            let Some(&[low, high]) = pair else {
                return Err(NotCovered::Poisson { ratio: poisson });
            };
            let at = |wanted: f64| {
                let (below, above, share) = neighbours(of(wanted), ratio)?;
                Ok(between(below, above, share, |row| row.field_moment))
            };
            let (a, b): (Coefficients, Coefficients) = (at(low)?, at(high)?);
            let share = (poisson - low) / (high - low);
            let mix = |a: f64, b: f64| a + share * (b - a);
            Ok(Coefficients {
                deflection: mix(a.deflection, b.deflection),
                field: mix(a.field, b.field),
                edge: mix(a.edge, b.edge),
                sources: a.sources,
            })
        }
    }
}

/// The ratio at which the tables of plates held all round are given.
const TABLE_POISSON: f64 = 0.3;
/// The ratios at which those of plates with a free top are given.
const FREE_TOP_POISSON: [f64; 3] = [0.3, 0.375, 0.45];

/// The rows on either side, and how far along between them.
fn neighbours(
    rows: impl Iterator<Item = &'static Row>,
    ratio: f64,
) -> Result<(&'static Row, &'static Row, f64), NotCovered> {
    let rows: Vec<&Row> = rows.collect();
    let ends = rows.first().map_or(0.0, |row| row.height_over_width)
        ..=rows.last().map_or(0.0, |row| row.height_over_width);
    if !ends.contains(&ratio) {
        return Err(NotCovered::Shape {
            ratio,
            from: *ends.start(),
            to: *ends.end(),
        });
    }
    let pair = rows
        .windows(2)
        .find(|pair| ratio <= pair[1].height_over_width);
    let pair = pair.ok_or(NotCovered::Shape {
        ratio,
        from: *ends.start(),
        to: *ends.end(),
    })?;
    let (a, b) = (
        place(pair[0].height_over_width),
        place(pair[1].height_over_width),
    );
    Ok((pair[0], pair[1], (place(ratio) - a) / (b - a)))
}

/// Where a ratio lies between zero (0) and beyond all bounds (1), so that strips have a row too.
fn place(ratio: f64) -> f64 {
    if ratio.is_infinite() {
        1.0
    } else {
        ratio / (1.0 + ratio)
    }
}

/// A row that weighs less than this is not used at all but for rounding.
const ON_THE_OTHER_ROW: f64 = 1e-9;

fn between(
    below: &'static Row,
    above: &'static Row,
    share: f64,
    field: impl Fn(&Row) -> f64,
) -> Coefficients {
    let mix = |value: &dyn Fn(&Row) -> f64| value(below) + share * (value(above) - value(below));
    let mut sources: Vec<(Flag, &str)> = Vec::new();
    for (row, weight) in [(below, 1.0 - share), (above, share)] {
        let source = (row.flag, row.source.as_str());
        if weight > ON_THE_OTHER_ROW && !sources.contains(&source) {
            sources.push(source);
        }
    }
    Coefficients {
        deflection: mix(&|row| row.deflection),
        field: mix(&field),
        edge: mix(&|row| row.edge_moment),
        sources,
    }
}

/// The larger field moment at another Poisson's ratio: the curvatures stay, the moments follow.
fn field_moment(row: &Row, poisson: f64) -> f64 {
    let (larger, smaller) = (row.field_moment, row.field_moment_across);
    let scale = 1.0 - TABLE_POISSON * TABLE_POISSON;
    let curvature = [
        larger - TABLE_POISSON * smaller,
        smaller - TABLE_POISSON * larger,
    ]
    .map(|m| m / scale);
    (curvature[0] + poisson * curvature[1]).max(curvature[1] + poisson * curvature[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_whole_and_in_order() {
        assert!(ROWS.len() > 150);
        assert!(ROWS.iter().all(|row| !row.source.is_empty()));
        for pair in ROWS.windows(2) {
            let same = pair[0].edges == pair[1].edges
                && pair[0].load == pair[1].load
                && pair[0].poisson == pair[1].poisson;
            assert!(!same || pair[0].height_over_width < pair[1].height_over_width);
        }
    }
}
