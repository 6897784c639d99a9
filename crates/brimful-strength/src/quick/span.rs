//! Spans: the rectangles of a panel between the lines that hold it.

use crate::load::{Heads, LoadCase, LoadKind};
use brimful_geom::plate::PlateFace;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Point3, Vec2, Vec3};
use brimful_job::{Axis, Job, Support};
use brimful_mech::plate;
use brimful_panels::finding::kind::Uncovered;
use brimful_panels::name::HoleName;
use brimful_panels::panel::{Panel, PanelOpening, Role};
use brimful_panels::seam::{Joint, Seam};
use brimful_units::{Density, Length};

/// Corners of a rectangle may be this far from square (sine, half a degree): the plate tables are
/// known no better than this changes them.
const SQUARE: f64 = 0.01;

/// Lines this near are one line: a tenth of a millimetre, below what a tape shows.
const SAME_LINE: f64 = 1e-4;

/// An inner panel counts as a support where its foot runs along at least this share of the span,
/// the rest being its gaps at floor and lid. Two bays with a foot of 70 % bulge within 2 % of two
/// bays with a whole one (Ritz, bays of 0.6 to 1.5 heights, `tests/outside/plates.py --feet`).
const SUPPORTING_SHARE: f64 = 0.70;

/// Two feet in line are one where they leave no more than this share of the span between them: the
/// thickness of a panel that crosses there.
const CROSSING_SHARE: f64 = 0.05;

/// Panels whose outward normals are this far apart (cosine, 120 degrees) face each other.
const FACING: f64 = -0.5;

/// A floor that leans less than this stands flat on what carries it (sine, half a degree).
const LEVEL: f64 = 0.01;

/// One rectangle held along its four edges.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// Number of the panel.
    pub panel: usize,
    /// Its number, from 1; none where the panel is one span.
    pub number: Option<usize>,
    /// Across, metres.
    pub width: f64,
    /// Up, metres.
    pub height: f64,
    /// Thickness of the sheet, metres.
    pub thickness: f64,
    /// Lower left, lower right, upper right, upper left, on the inside face, in the world.
    pub corners: [Point3; 4],
    /// Normal of the panel.
    pub normal: Vec3,
}

impl Span {
    /// What a load case puts on it, with the weight of the sheet itself, which is taken to act the
    /// same way.
    pub fn load(&self, case: &LoadCase, heads: &Heads, sheet: Density) -> plate::Load {
        let own_weight =
            sheet.kg_m3() * self.thickness * case.body_acceleration.dot(self.normal).abs();
        if case.id.kind == LoadKind::Suction {
            return plate::Load {
                uniform: case.air.pa().abs() + own_weight,
                falling_up: 0.0,
                falling_across: 0.0,
            };
        }
        let [low_left, low_right, high_right, high_left] =
            self.corners.map(|corner| heads.pressure(case, corner));
        plate::Load {
            uniform: low_left.min(low_right).min(high_left).min(high_right) + own_weight,
            falling_up: (high_left - low_left).abs(),
            falling_across: (low_right - low_left).abs(),
        }
    }
}

/// What there is to check on a panel.
pub enum Spans {
    /// The floor lies flat on what carries it.
    Carried,
    /// A baffle: liquid on both sides.
    Baffle,
    /// Rectangles.
    Free(Vec<Span>),
    /// Something plate tables do not know, and what.
    NotCovered(Uncovered),
}

/// The spans of panel `number`.
pub fn spans(job: &Job, panels: &[Panel], seams: &[Seam], heads: &Heads, number: usize) -> Spans {
    let panel = &panels[number];
    if panel.role == Role::Baffle {
        return Spans::Baffle;
    }
    if matches!(panel.role, Role::Stay | Role::Rib) {
        return Spans::NotCovered(Uncovered::StripOfSheet);
    }
    let parted = |seam: &Seam| seam.joint == Joint::Butt && seam.panels.contains(&number);
    if seams.iter().any(parted) {
        return Spans::NotCovered(Uncovered::Parted);
    }
    let standing = stands_on_support(panel, heads);
    let bedded = panel.role == Role::Floor && job.support == Support::Bed;
    if bedded || (standing && job.support == Support::Floor) {
        return Spans::Carried;
    }
    let Some(rectangle) = Rectangle::of(&wetted(panel, seams)) else {
        return Spans::NotCovered(Uncovered::NotARectangle);
    };
    let mut lines = lands(panel, panels, seams, &rectangle);
    if standing {
        match rails(job, panel, &rectangle) {
            Ok(rails) => lines.push_all(rails),
            Err(reason) => return Spans::NotCovered(reason),
        }
    }
    let spans = cut_up(panel, number, &rectangle, &lines);
    match large_opening(panel, &spans) {
        Some(name) => Spans::NotCovered(Uncovered::LargeOpening(name.clone())),
        None => Spans::Free(spans),
    }
}

/// An opening wider than half the shorter side of the smallest span: no longer a hole in a plate.
fn large_opening<'a>(panel: &'a Panel, spans: &[Span]) -> Option<&'a HoleName> {
    let shorter = spans
        .iter()
        .map(|span| span.width.min(span.height))
        .fold(f64::INFINITY, f64::min);
    let across = |opening: &&PanelOpening| {
        let (low, high) = panel.finished.cutouts[opening.cutout].outline().bounds();
        (high.x - low.x).max(high.y - low.y)
    };
    let large = panel
        .openings
        .iter()
        .find(|opening| across(opening) > 0.5 * shorter)?;
    Some(&large.name)
}

fn stands_on_support(panel: &Panel, heads: &Heads) -> bool {
    let frame = &panel.finished.frame;
    let lowest = heads
        .corners
        .iter()
        .map(|corner| corner.z)
        .fold(f64::INFINITY, f64::min);
    let inside = frame.origin.z - panel.thickness.m() * frame.z.z;
    panel.role == Role::Floor
        && frame.z.x.hypot(frame.z.y) < LEVEL
        && (inside - lowest).abs() < SAME_LINE
}

/// The outline of the face that liquid presses on, in the panel's frame: the inner lines of its
/// seams in order. A panel that runs through is larger than that. An inner panel is as it is.
fn wetted(panel: &Panel, seams: &[Seam]) -> Outline {
    let inside = || {
        panel
            .finished
            .outlines(PlateFace::Inside)
            .into_iter()
            .next()
            .unwrap_or(Outline(Vec::new()))
    };
    if panel.role.is_inner() || panel.finished.loops.len() > 1 {
        // A face with a hole through the body is no rectangle; its own outline says so.
        return if panel.finished.loops.len() > 1 {
            Outline(Vec::new())
        } else {
            inside()
        };
    }
    let frame = &panel.finished.frame;
    let mut corners = Vec::new();
    for side in panel.finished.loops.iter().flatten() {
        let Some(seam) = side.mark.and_then(|mark| seams.get(mark)) else {
            continue;
        };
        let [a, b] = seam.inner_line.map(|point| frame.flat_from_world(point));
        let forward = (b - a).dot(side.along()) >= 0.0;
        corners.extend(if forward { [a, b] } else { [b, a] });
    }
    Outline(corners)
}

/// A rectangle in the panel's frame.
struct Rectangle {
    corner: Point2,
    across: Vec2,
    up: Vec2,
    width: f64,
    height: f64,
}

impl Rectangle {
    fn of(outline: &Outline) -> Option<Self> {
        let corners = true_corners(outline);
        let [a, b, c, d] = <[Point2; 4]>::try_from(corners).ok()?;
        let sides = [b - a, c - b, d - c, a - d];
        let square = |i: usize| {
            let (one, next) = (sides[i].unit(), sides[(i + 1) % 4].unit());
            one.zip(next)
                .is_some_and(|(one, next)| one.dot(next).abs() < SQUARE && one.cross(next) > 0.0)
        };
        if !(0..4).all(square) {
            return None;
        }
        // The side that runs most to the right is the lower one.
        let lower = (0..4).max_by(|&i, &j| sides[i].x.total_cmp(&sides[j].x))?;
        let across = sides[lower].unit()?;
        let corner = [a, b, c, d][lower];
        Some(Self {
            corner,
            across,
            up: across.left(),
            // Where it is not quite square, the longer of two opposite sides.
            width: sides[lower].length().max(sides[(lower + 2) % 4].length()),
            height: sides[(lower + 1) % 4]
                .length()
                .max(sides[(lower + 3) % 4].length()),
        })
    }

    fn local(&self, point: Point2) -> [f64; 2] {
        let way = point - self.corner;
        [way.dot(self.across), way.dot(self.up)]
    }

    fn point(&self, [x, y]: [f64; 2]) -> Point2 {
        self.corner + self.across * x + self.up * y
    }

    fn size(&self, axis: usize) -> f64 {
        [self.width, self.height][axis]
    }
}

/// The corners at which the outline turns; points that repeat or lie on a straight side are none.
fn true_corners(outline: &Outline) -> Vec<Point2> {
    let mut points: Vec<Point2> = Vec::new();
    for &point in &outline.0 {
        if points
            .last()
            .is_none_or(|last| last.distance(point) > SAME_LINE)
        {
            points.push(point);
        }
    }
    while points.len() > 1 && points[0].distance(points[points.len() - 1]) <= SAME_LINE {
        points.pop();
    }
    let n = points.len();
    let turns = |i: &usize| {
        let before = (points[*i] - points[(i + n - 1) % n]).unit();
        let after = (points[(i + 1) % n] - points[*i]).unit();
        before
            .zip(after)
            .is_some_and(|(before, after)| before.cross(after).abs() > SQUARE)
    };
    (0..n).filter(turns).map(|i| points[i]).collect()
}

/// Bands that hold the rectangle: `[0]` across x (they split the width), `[1]` across y. Each is
/// where it starts and where it ends.
#[derive(Default)]
struct Lines([Vec<[f64; 2]>; 2]);

impl Lines {
    fn push_all(&mut self, more: Lines) {
        for (mine, more) in self.0.iter_mut().zip(more.0) {
            mine.extend(more);
        }
    }
}

/// A line along which inner panels stand: where it lies, from where to where, and how much of it.
struct Held {
    at: f64,
    low: f64,
    high: f64,
    length: f64,
}

/// The lines along which inner panels stand on this one for most of its size.
fn lands(panel: &Panel, panels: &[Panel], seams: &[Seam], rectangle: &Rectangle) -> Lines {
    let mut lines = Lines::default();
    for axis in 0..2 {
        let other = 1 - axis;
        // Pieces in line are added up.
        let mut held: Vec<Held> = Vec::new();
        for land in &panel.lands {
            // Only the tongues of a slotted panel are welded: a few points, not a held line.
            if seams
                .get(land.seam)
                .is_none_or(|seam| seam.joint == Joint::SlotThrough)
            {
                continue;
            }
            if !ties(panel, land.panel, panels, seams) {
                continue;
            }
            let [from, to] = [land.from, land.to].map(|end| rectangle.local(end));
            let length = (to[other] - from[other]).abs();
            let square = (to[axis] - from[axis]).abs() <= SQUARE * length;
            if !square || length <= SAME_LINE {
                continue;
            }
            let at = (from[axis] + to[axis]) / 2.0;
            let (low, high) = (from[other].min(to[other]), from[other].max(to[other]));
            match held
                .iter_mut()
                .find(|line| (line.at - at).abs() < SAME_LINE)
            {
                Some(line) => {
                    *line = Held {
                        at,
                        low: line.low.min(low),
                        high: line.high.max(high),
                        length: line.length + length,
                    }
                }
                None => held.push(Held {
                    at,
                    low,
                    high,
                    length,
                }),
            }
        }
        let size = rectangle.size(other);
        let supports = held.into_iter().filter(|line| {
            line.length >= SUPPORTING_SHARE * size
                && line.high - line.low - line.length <= CROSSING_SHARE * size
        });
        lines.0[axis] = supports.map(|line| [line.at, line.at]).collect();
    }
    lines
}

/// Whether inner panel `inner` stands on another panel that faces `panel`, and so ties the two
/// together; one that stands on this panel alone moves with it.
fn ties(panel: &Panel, inner: usize, panels: &[Panel], seams: &[Seam]) -> bool {
    let others = seams
        .iter()
        .filter(|seam| seam.panels[0] == inner)
        .filter_map(|seam| panels.get(seam.panels[1]));
    let mut facing = others.map(|other| other.finished.frame.z.dot(panel.finished.frame.z));
    panel.role.is_inner() || facing.any(|cosine| cosine < FACING)
}

/// The rails under the floor, as bands of the rectangle.
fn rails(job: &Job, panel: &Panel, rectangle: &Rectangle) -> Result<Lines, Uncovered> {
    let (along, at, width) = match &job.support {
        Support::Rails { along, at, width } => (*along, at, *width),
        Support::Feet { .. } => return Err(Uncovered::OnFeet),
        Support::Straps { .. } => return Err(Uncovered::InStraps),
        Support::Floor | Support::Bed => return Ok(Lines::default()),
    };
    let origin = job.body.as_ref().map_or([Length::ZERO; 3], |body| body.at);
    let frame = &panel.finished.frame;
    let (way, other, shift) = match along {
        Axis::Y => (Vec3::Y, Vec3::X, origin[0]),
        Axis::X | Axis::Z => (Vec3::X, Vec3::Y, origin[1]),
    };
    let way = frame.flat_from_world_vec(way);
    let axis = if way.dot(rectangle.up).abs() > 1.0 - SQUARE {
        0
    } else if way.dot(rectangle.across).abs() > 1.0 - SQUARE {
        1
    } else {
        return Err(Uncovered::SlantingRails);
    };
    let mut lines = Lines::default();
    for middle in at {
        let edges = [-0.5, 0.5].map(|half| {
            let place = Point3::ORIGIN + other * (*middle + shift + width * half).m();
            rectangle.local(frame.flat_from_world(place))[axis]
        });
        lines.0[axis].push([edges[0].min(edges[1]), edges[0].max(edges[1])]);
    }
    Ok(lines)
}

/// The rectangles between the bands.
fn cut_up(panel: &Panel, number: usize, rectangle: &Rectangle, lines: &Lines) -> Vec<Span> {
    let [columns, rows] = [0, 1].map(|axis| stretches(rectangle.size(axis), &lines.0[axis]));
    let frame = &panel.finished.frame;
    let several = columns.len() * rows.len() > 1;
    let mut spans = Vec::new();
    for row in &rows {
        for column in &columns {
            let corner = |x: f64, y: f64| {
                let flat = rectangle.point([x, y]);
                frame.world_from_frame(Point3::new(flat.x, flat.y, -panel.thickness.m()))
            };
            spans.push(Span {
                panel: number,
                number: several.then_some(spans.len() + 1),
                width: column[1] - column[0],
                height: row[1] - row[0],
                thickness: panel.thickness.m(),
                corners: [
                    corner(column[0], row[0]),
                    corner(column[1], row[0]),
                    corner(column[1], row[1]),
                    corner(column[0], row[1]),
                ],
                normal: frame.z,
            });
        }
    }
    spans
}

/// What is left free of a length between bands.
fn stretches(length: f64, bands: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let mut bands = bands.to_vec();
    bands.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut free = Vec::new();
    let mut from = 0.0;
    for [start, end] in bands {
        if start.min(length) - from > SAME_LINE {
            free.push([from, start.min(length)]);
        }
        from = from.max(end);
    }
    if length - from > SAME_LINE {
        free.push([from, length]);
    }
    free
}
