//! Where each run of a weld lies in its section: in layers from the root up, each layer of a run or more.
//!
//! Runs of one rod fill equal shares of the section. Layers are parallel to its surface; the wider ones above hold more
//! runs than those at the root, as published lay-ups have it (1 + 2, 1 + 2 + 3).

use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Vec2};

/// Halvings of a share: beyond a thousandth of a millimetre of any section.
const HALVINGS: usize = 32;

/// The parts of a section that its runs fill, in the order in which they are laid. `surface` is where the section is open.
pub fn run_sections(section: &Outline, surface: [Point2; 2], runs: usize) -> Vec<Outline> {
    let Some(along) = (surface[1] - surface[0]).unit() else {
        return vec![section.clone()];
    };
    let across = Vec2::new(-along.y, along.x);
    // Out of the section, whichever way its surface is given.
    let inward = section.centroid() - surface[0];
    let up = if across.dot(inward) > 0.0 {
        -across
    } else {
        across
    };
    let mut parts = Vec::with_capacity(runs);
    for layer in shares(&section.0, up, &layers(runs)) {
        let of_layer = layer.1;
        parts.extend(
            shares(&layer.0, along, &vec![1; of_layer])
                .into_iter()
                .map(|it| Outline(it.0)),
        );
    }
    parts
}

/// How many runs lie in each layer, from the root up.
fn layers(runs: usize) -> Vec<usize> {
    let most = (1..)
        .find(|most| most * (most + 1) / 2 >= runs)
        .unwrap_or(1);
    let below = |layer: usize| {
        let share = runs as f64 * (layer * (layer + 1)) as f64 / (most * (most + 1)) as f64;
        (share.round() as usize).max(layer)
    };
    let sizes = (1..=most).map(|layer| below(layer) - below(layer - 1));
    sizes.collect()
}

/// A figure cut square to a direction into parts whose areas are to one another as the numbers are, lowest first, each
/// with its number.
fn shares(figure: &[Point2], way: Vec2, numbers: &[usize]) -> Vec<(Vec<Point2>, usize)> {
    let all: usize = numbers.iter().sum();
    let whole = area(figure);
    let mut rest = figure.to_vec();
    let mut done = 0;
    let mut parts = Vec::with_capacity(numbers.len());
    for &number in numbers {
        done += number;
        if done == all {
            parts.push((std::mem::take(&mut rest), number));
            break;
        }
        let wanted = whole * number as f64 / all as f64;
        let heights = rest.iter().map(|point| point.to_vec().dot(way));
        let (mut low, mut high) = heights.fold((f64::MAX, f64::MIN), |(low, high), it| {
            (low.min(it), high.max(it))
        });
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            match area(&below(&rest, way, middle)) < wanted {
                true => low = middle,
                false => high = middle,
            }
        }
        parts.push((below(&rest, way, high), number));
        rest = below(&rest, -way, -high);
    }
    parts
}

fn area(figure: &[Point2]) -> f64 {
    Outline(figure.to_vec()).signed_area().abs()
}

/// What of a figure lies no further than `height` along a direction.
fn below(figure: &[Point2], way: Vec2, height: f64) -> Vec<Point2> {
    let over = |point: Point2| point.to_vec().dot(way) - height;
    let mut kept = Vec::with_capacity(figure.len() + 2);
    for (i, &here) in figure.iter().enumerate() {
        let next = figure[(i + 1) % figure.len()];
        let (a, b) = (over(here), over(next));
        if a <= 0.0 {
            kept.push(here);
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            kept.push(here + (next - here) * (a / (a - b)));
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lay-ups of 3 and of 6 rods are published as 1 + 2 and 1 + 2 + 3 (DVS 2207-3, from memory).
    #[test]
    fn layers_grow_from_the_root_up() {
        let all = [1, 2, 3, 4, 5, 6, 9, 10].map(layers);
        let wanted: [&[usize]; 8] = [
            &[1],
            &[1, 1],
            &[1, 2],
            &[1, 1, 2],
            &[1, 2, 2],
            &[1, 2, 3],
            &[1, 2, 2, 4],
            &[1, 2, 3, 4],
        ];
        assert_eq!(all.each_ref().map(Vec::as_slice), wanted);
    }

    #[test]
    fn runs_fill_equal_shares_of_their_section() {
        let v = Outline(
            [(0.5, 0.0), (6.0, 8.0), (-6.0, 8.0), (-0.5, 0.0)]
                .map(|(x, y)| Point2::new(x, y))
                .to_vec(),
        );
        let surface = [v.0[1], v.0[2]];
        for runs in 1..12 {
            let parts = run_sections(&v, surface, runs);
            assert_eq!(parts.len(), runs);
            let share = v.signed_area() / runs as f64;
            for part in &parts {
                // Halvings of the shares.
                assert!((part.signed_area() - share).abs() < 1e-6, "{runs}");
            }
            let heights = parts.iter().map(|part| part.centroid().y);
            let heights: Vec<f64> = heights.collect();
            // Of one layer runs of a quadrilateral lie at heights of their own; the root is the lowest all the same.
            assert!(heights.iter().all(|it| *it >= heights[0] - 1e-9), "{runs}");
        }
    }
}
