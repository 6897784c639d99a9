//! Running dimensions from one corner (ISO 129-1, superimposed running dimensioning): one figure
//! a place, spread so that no two touch; and lines beside a single edge.

use super::canvas::{Anchor, Canvas, Line, Spot, TEXT};
use super::scale::Scale;
use brimful_geom::vector::Point2;
use brimful_text::Text;

/// Room between the middles of neighbouring figures.
const PITCH: f64 = TEXT * 1.3;
/// How far the straight part of an extension line reaches before it bends to its figure.
const STRAIGHT: f64 = 2.0;
/// Length of the bent part.
const BEND: f64 = 3.0;

/// The edge of a drawing along which figures stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Under it.
    Below,
    /// Left of it.
    Left,
    /// Over it.
    Above,
    /// Right of it.
    Right,
}

/// One dimensioned place.
pub struct Tick {
    /// Where its extension line begins.
    pub from: Spot,
    /// The figure.
    pub figure: Text,
}

/// A dimension line beside an edge on its right, with end strokes and its figure.
pub fn measure(
    canvas: &mut Canvas,
    scale: &Scale,
    [from, to]: [Point2; 2],
    off: f64,
    figure: &Text,
) {
    let Some(way) = (to - from).unit() else {
        return;
    };
    let right = way.right();
    let spot = |at: Point2, off: f64| scale.spot(at + right * scale.metres(off));
    for end in [from, to] {
        canvas.line(spot(end, 0.6), spot(end, off + 1.2), Line::Thin);
    }
    canvas.line(spot(from, off), spot(to, off), Line::Thin);
    let turn = way.y.atan2(way.x).to_degrees();
    // Read from below or from the right.
    let turn = match turn {
        turn if turn > 120.0 => turn - 180.0,
        turn if turn < -60.0 => turn + 180.0,
        turn => turn,
    };
    let middle = spot(from.midpoint(to), off + 2.3);
    canvas.text(middle, Anchor::Middle, turn, TEXT, figure);
}

/// Draws extension lines from each place to the line at `level` (y of paper for rows above or
/// below, x for those at the sides), and the figures beyond it.
pub fn running(canvas: &mut Canvas, edge: Edge, level: f64, line: Line, ticks: &[Tick]) {
    let upright = matches!(edge, Edge::Below | Edge::Above);
    let along = |spot: Spot| if upright { spot.0 } else { spot.1 };
    let at = |along: f64, across: f64| {
        if upright {
            (along, across)
        } else {
            (across, along)
        }
    };
    let away = match edge {
        Edge::Below | Edge::Right => 1.0,
        Edge::Above | Edge::Left => -1.0,
    };
    let mut ticks: Vec<&Tick> = ticks.iter().collect();
    ticks.sort_by(|a, b| along(a.from).total_cmp(&along(b.from)));
    let places: Vec<f64> = ticks.iter().map(|tick| along(tick.from)).collect();
    for (tick, place) in ticks.iter().zip(spread(&places, PITCH)) {
        let here = along(tick.from);
        let straight = level + away * STRAIGHT;
        let bent = straight + away * BEND;
        canvas.line(tick.from, at(here, straight), line);
        canvas.line(at(here, straight), at(place, bent), Line::Thin);
        let (anchor, turn) = match edge {
            Edge::Below => (Anchor::End, 90.0),
            Edge::Above => (Anchor::Start, 90.0),
            Edge::Left => (Anchor::End, 0.0),
            Edge::Right => (Anchor::Start, 0.0),
        };
        canvas.text(
            at(place, bent + away * 0.6),
            anchor,
            turn,
            TEXT,
            &tick.figure,
        );
    }
}

/// Room that a row of figures needs beyond its level.
pub fn depth<'a>(figures: impl IntoIterator<Item = &'a Text>) -> f64 {
    let longest = figures
        .into_iter()
        .map(|figure| super::canvas::text_width(figure.as_str(), TEXT))
        .fold(0.0, f64::max);
    STRAIGHT + BEND + 1.2 + longest
}

/// Places moved as little as needed to stand at least `pitch` apart, order kept. Neighbours that
/// would touch form a group that is centred on the mean of where its members wished to be.
pub fn spread(wished: &[f64], pitch: f64) -> Vec<f64> {
    struct Group {
        first: usize,
        count: usize,
        middle: f64,
    }
    let half = |count: usize| (count as f64 - 1.0) * pitch / 2.0;
    let mut groups: Vec<Group> = Vec::new();
    for (first, &place) in wished.iter().enumerate() {
        let mut group = Group {
            first,
            count: 1,
            middle: place,
        };
        while let Some(before) = groups.pop() {
            let room = (group.middle - half(group.count)) - (before.middle + half(before.count));
            if room >= pitch {
                groups.push(before);
                break;
            }
            let count = before.count + group.count;
            let members = &wished[before.first..before.first + count];
            group = Group {
                first: before.first,
                count,
                middle: members.iter().sum::<f64>() / count as f64,
            };
        }
        groups.push(group);
    }
    groups
        .iter()
        .flat_map(|group| {
            (0..group.count).map(|i| group.middle - half(group.count) + i as f64 * pitch)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_never_touch_and_stay_where_there_is_room() {
        assert_eq!(spread(&[0.0, 10.0, 20.0], 4.0), [0.0, 10.0, 20.0]);
        assert_eq!(spread(&[10.0, 10.0], 4.0), [8.0, 12.0]);
        let crowded = spread(&[0.0, 1.0, 2.0, 3.0, 30.0, 31.0], 4.0);
        assert!(
            crowded
                .windows(2)
                .all(|pair| pair[1] - pair[0] > 4.0 - 1e-9)
        );
        assert_eq!(crowded[0], -4.5);
    }
}
