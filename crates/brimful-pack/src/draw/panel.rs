//! One panel as it leaves the saw, seen from outside, with running dimensions from its
//! lower-left corner.

use super::canvas::{Canvas, Drawing, Line, TEXT, text_width};
use super::dimension::{Edge, Tick, depth, running};
use super::scale::Scale;
use crate::words::Words;
use brimful_geom::plate::{Cutout, Plate, PlateFace, Side};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point2;
use brimful_panels::panel::{Land, Panel, Role};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::Angle;

/// Places nearer than this share one dimension, metres: what no tape shows.
const ONE_PLACE: f64 = 2e-5;
/// From the outline to the first figure line, and from an edge to its seam's mark.
const MARK_ROOM: f64 = 7.0;

/// The lower-left corner that a panel's places are measured from: of the rectangle round the
/// panel as cut.
pub fn corner(panel: &Panel) -> Point2 {
    panel.cut.bounds().0
}

/// The mark of hole number `number` of a panel: a, b, c, and after z the number.
pub fn hole_mark(number: usize) -> String {
    match u8::try_from(number) {
        Ok(n) if n < 26 => char::from(b'a' + n).to_string(),
        _ => format!("h{}", number + 1),
    }
}

/// The drawing, no larger than `room` millimetres, and its scale in words.
pub fn panel_drawing(
    plan: &Plan,
    panel: &Panel,
    words: &Words<'_>,
    room: (f64, f64),
) -> (Drawing, Text) {
    let plate = &panel.cut;
    let origin = corner(panel);
    let (low, high) = plate.bounds();
    let size = (high.x - low.x, high.y - low.y);
    let runs = Runs::of(plate, origin, words);
    let [left, right, below, above] = [&runs.y, &runs.hole_y, &runs.x, &runs.hole_x].map(Run::room);
    let inner = (room.0 - left - right, room.1 - below - above);
    let scale = Scale::fitting(size, inner, origin, (0.0, 0.0));
    let paper = (scale.paper(size.0), scale.paper(size.1));
    let height = above + paper.1 + below;
    let place = (left + (inner.0 - paper.0) / 2.0, above + paper.1);
    let scale = scale.at(place);
    let mut canvas = Canvas::new(room.0, height);
    runs.draw(&mut canvas, plate, &scale, place, paper);

    outline(&mut canvas, plate, &scale);
    for land in &panel.lands {
        draw_land(&mut canvas, plan, land, words, &scale);
    }
    for (number, cutout) in plate.cutouts.iter().enumerate() {
        hole(
            &mut canvas,
            cutout,
            &words.symbol(&hole_mark(number)),
            &scale,
        );
    }
    for relief in &panel.reliefs {
        let radius = scale.paper(relief.radius.m());
        canvas.circle(scale.spot(relief.centre), radius.max(0.6), None, Line::Seen);
    }
    for ring in 0..plate.loops.len() {
        side_marks(&mut canvas, plan, panel, ring, words, &scale);
    }
    let text = scale.text(words);
    (canvas.finish(), text)
}

/// Running dimensions along one edge: places, and the figure at each.
struct Run {
    places: Vec<f64>,
    figures: Vec<Text>,
}

impl Run {
    fn of(all: impl Iterator<Item = f64>, from: f64, words: &Words<'_>) -> Self {
        let places = places(all);
        Self {
            figures: places
                .iter()
                .map(|place| words.bare(place - from))
                .collect(),
            places,
        }
    }

    /// What it takes beside the panel.
    fn room(&self) -> f64 {
        match self.figures.is_empty() {
            true => MARK_ROOM,
            false => MARK_ROOM + depth(self.figures.iter()),
        }
    }

    /// Its ticks, each from the point of its place.
    fn ticks(&self, scale: &Scale, point: impl Fn(f64) -> Point2) -> Vec<Tick> {
        let both = self.places.iter().zip(&self.figures);
        both.map(|(&place, figure)| Tick {
            from: scale.spot(point(place)),
            figure: figure.clone(),
        })
        .collect()
    }
}

/// The running dimensions of a panel: of its corners below and on the left, of its holes above and on
/// the right.
struct Runs {
    x: Run,
    y: Run,
    hole_x: Run,
    hole_y: Run,
    /// Centres of the holes.
    centres: Vec<Point2>,
}

impl Runs {
    fn of(plate: &Plate, origin: Point2, words: &Words<'_>) -> Self {
        let outlines = plate.outlines(PlateFace::Outside);
        let corners = || outlines.iter().flat_map(|ring| &ring.0);
        let centres: Vec<Point2> = plate.cutouts.iter().map(centre).collect();
        Self {
            x: Run::of(corners().map(|p| p.x), origin.x, words),
            y: Run::of(corners().map(|p| p.y), origin.y, words),
            hole_x: Run::of(centres.iter().map(|p| p.x), origin.x, words),
            hole_y: Run::of(centres.iter().map(|p| p.y), origin.y, words),
            centres,
        }
    }

    /// Draws them round a panel whose lower left corner is at `place` and that is `paper` large.
    fn draw(
        &self,
        canvas: &mut Canvas,
        plate: &Plate,
        scale: &Scale,
        place: (f64, f64),
        paper: (f64, f64),
    ) {
        let nearest = |along: fn(&Point2) -> f64, across: fn(&Point2) -> f64, at: f64| {
            let on = self
                .centres
                .iter()
                .filter(|c| (along(c) - at).abs() < ONE_PLACE);
            on.map(across).fold(f64::INFINITY, f64::min)
        };
        let bottom = self.x.ticks(scale, |x| Point2::new(x, lowest_at(plate, x)));
        let side = self
            .y
            .ticks(scale, |y| Point2::new(leftmost_at(plate, y), y));
        let top = self
            .hole_x
            .ticks(scale, |x| Point2::new(x, nearest(|c| c.x, |c| c.y, x)));
        let far = self
            .hole_y
            .ticks(scale, |y| Point2::new(nearest(|c| c.y, |c| c.x, y), y));
        let above = place.1 - paper.1 - MARK_ROOM;
        let right = place.0 + paper.0 + MARK_ROOM;
        running(
            canvas,
            Edge::Below,
            place.1 + MARK_ROOM,
            Line::Thin,
            &bottom,
        );
        running(canvas, Edge::Left, place.0 - MARK_ROOM, Line::Thin, &side);
        running(canvas, Edge::Above, above, Line::Centre, &top);
        running(canvas, Edge::Right, right, Line::Centre, &far);
    }
}

/// Sorted places, those that fall together taken once.
fn places(all: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut places: Vec<f64> = all.collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < ONE_PLACE);
    places
}

fn lowest_at(plate: &Plate, x: f64) -> f64 {
    let rings = plate.outlines(PlateFace::Outside);
    let here = rings
        .iter()
        .flat_map(|ring| &ring.0)
        .filter(|p| (p.x - x).abs() < ONE_PLACE);
    here.map(|p| p.y).fold(f64::INFINITY, f64::min)
}

fn leftmost_at(plate: &Plate, y: f64) -> f64 {
    let rings = plate.outlines(PlateFace::Outside);
    let here = rings
        .iter()
        .flat_map(|ring| &ring.0)
        .filter(|p| (p.y - y).abs() < ONE_PLACE);
    here.map(|p| p.x).fold(f64::INFINITY, f64::min)
}

/// The middle of a hole.
pub fn centre(cutout: &Cutout) -> Point2 {
    match cutout {
        Cutout::Round { centre, .. } => *centre,
        Cutout::Straight(outline) => outline.centroid(),
    }
}

/// The outside face drawn wide; the inside face, where a bevel sets it off, seen or hidden.
fn outline(canvas: &mut Canvas, plate: &Plate, scale: &Scale) {
    let rings = |face: PlateFace| -> Vec<Vec<_>> {
        let outlines = plate.outlines(face);
        outlines
            .iter()
            .map(|ring| ring.0.iter().map(|p| scale.spot(*p)).collect())
            .collect()
    };
    canvas.outlines(&rings(PlateFace::Outside), None, Some(Line::Seen));
    let inner = plate.outlines(PlateFace::Inside);
    for (sides, ring) in plate.loops.iter().zip(&inner) {
        for (side, (a, b)) in sides.iter().zip(ring.sides()) {
            if (side.outer - side.inner).abs() > ONE_PLACE {
                let line = if side.outer > side.inner {
                    Line::Hidden
                } else {
                    Line::Thin
                };
                canvas.line(scale.spot(a), scale.spot(b), line);
            }
        }
    }
}

/// The two faces of the panel that stands here, dashed where it stands inside, and its mark.
fn draw_land(canvas: &mut Canvas, plan: &Plan, land: &Land, words: &Words<'_>, scale: &Scale) {
    let Some(standing) = plan.panels.get(land.panel) else {
        return;
    };
    let Some(along) = (land.to - land.from).unit() else {
        return;
    };
    let half = along.left() * (standing.thickness.m() / 2.0);
    let line = match standing.role {
        Role::Rib => Line::Thin,
        _ => Line::Hidden,
    };
    for way in [half, -half] {
        canvas.line(scale.spot(land.from + way), scale.spot(land.to + way), line);
    }
    let at = land.from + (land.to - land.from) * 0.3;
    canvas.label(scale.spot(at), TEXT, &words.symbol(&standing.mark));
}

fn hole(canvas: &mut Canvas, cutout: &Cutout, mark: &Text, scale: &Scale) {
    let middle = scale.spot(centre(cutout));
    let reach = match cutout {
        Cutout::Round { radius, .. } => {
            let radius = scale.paper(*radius);
            canvas.circle(middle, radius, None, Line::Seen);
            (radius, radius)
        }
        Cutout::Straight(outline) => {
            let ring: Vec<_> = outline.0.iter().map(|p| scale.spot(*p)).collect();
            canvas.outlines(&[ring], None, Some(Line::Seen));
            let (low, high) = outline.bounds();
            (
                scale.paper(high.x - low.x) / 2.0,
                scale.paper(high.y - low.y) / 2.0,
            )
        }
    };
    let (x, y) = middle;
    canvas.line((x - reach.0 - 1.5, y), (x + reach.0 + 1.5, y), Line::Centre);
    canvas.line((x, y - reach.1 - 1.5), (x, y + reach.1 + 1.5), Line::Centre);
    // Beside the hole, off its centre lines.
    let beside = (x - reach.0 * 0.72 - 2.2, y + reach.1 * 0.72 + 2.2);
    canvas.label(beside, TEXT, mark);
}

/// The marks of the seams along the sides of a loop, outside the panel, with the bevel.
fn side_marks(
    canvas: &mut Canvas,
    plan: &Plan,
    panel: &Panel,
    ring: usize,
    words: &Words<'_>,
    scale: &Scale,
) {
    let plate = &panel.cut;
    let corners = plate.outlines(PlateFace::Outside).swap_remove(ring);
    let sides: Vec<(&Side, _)> = plate.loops[ring].iter().zip(corners.sides()).collect();
    // Middle and half width of the marks so far.
    let mut taken = Vec::new();
    for (side, (a, b)) in sides {
        let Some(seam) = side.mark.and_then(|mark| plan.seams.get(mark)) else {
            continue;
        };
        let bevel = side.bevel(plate.thickness);
        let text = if bevel.abs() < BEVEL_SHOWN {
            words.symbol(&seam.mark)
        } else {
            say!(
                words,
                "{mark} {tilt}",
                mark = words.symbol(&seam.mark),
                tilt = words.angle(Angle::from_rad(bevel.abs()))
            )
        };
        let half_text = text_width(text.as_str(), TEXT) / 2.0;
        let away = 1.0 + side.normal.x.abs() * half_text + side.normal.y.abs() * TEXT * 0.6;
        // Where the text would not fit outside (narrow margins left and right) it stands inside.
        let wide = side.normal.x.abs() * half_text * 2.0 > MARK_ROOM - 1.0;
        let out = if wide || ring > 0 { -1.0 } else { 1.0 };
        let spot = |(share, out): (f64, f64)| {
            let (x, y) = scale.spot(a + (b - a) * share);
            (
                x + out * away * side.normal.x,
                y - out * away * side.normal.y,
            )
        };
        // Marks of short sides make way for each other: along the side, then to its other hand.
        let free = |at: &(f64, f64)| {
            taken.iter().all(|&(x, y, half): &(f64, f64, f64)| {
                (at.0 - x).abs() > half + half_text || (at.1 - y).abs() > TEXT * 1.2
            })
        };
        let shares = [0.5, 0.3, 0.7, 0.1, 0.9];
        let outside = shares.map(|share| (share, out));
        let inside = shares.map(|share| (share, -out));
        let mut spots = outside.into_iter().chain(inside).map(spot);
        let at = spots.find(|at| free(at)).unwrap_or(spot((0.5, out)));
        taken.push((at.0, at.1, half_text));
        canvas.label(at, TEXT, &text);
    }
}

/// A twentieth of a degree.
const BEVEL_SHOWN: f64 = 9e-4;

/// The bounding size of a hole.
pub fn hole_size(outline: &Outline) -> (f64, f64) {
    let (low, high) = outline.bounds();
    (high.x - low.x, high.y - low.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_have_marks_of_their_own() {
        assert_eq!(hole_mark(0), "a");
        assert_eq!(hole_mark(25), "z");
        assert_eq!(hole_mark(26), "h27");
    }

    #[test]
    fn a_place_is_dimensioned_once() {
        assert_eq!(places([0.1, 0.0, 0.100001, 0.3].into_iter()).len(), 3);
    }
}
