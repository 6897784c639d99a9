//! The section of a seam: the two sheets, light, and its runs, dark, each in its place, with the weld symbol.
//!
//! The sections come from the plan in the frames that `brimful_panels::weld::groove` names; here
//! the sheets are drawn round them in the same frames.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot};
use super::scale::Scale;
use super::weld_symbol::{self, weld_symbol};
use crate::words::Words;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Vec2};
use brimful_panels::panel::Panel;
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::weld::groove::GrooveKind;
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_text::Text;
use std::f64::consts::PI;

/// How much of each sheet is shown, in thicknesses of the thicker one.
const SHOWN: f64 = 1.7;
/// Greys of what rod fills: of runs by turns, so that each is seen.
const ROD: [f64; 2] = [0.55, 0.72];
/// Room beside the section for its sides in words, and above and below it, millimetres.
const BESIDE: (f64, f64) = (14.0, 4.5);
/// Height of letters, and of the numbers of runs.
const LETTERS: f64 = 3.2;
const NUMBERS: f64 = 3.2;
/// How far the reference line of the symbol begins beside the tip of its arrow.
const ASIDE: f64 = 4.0;
/// A run smaller than this on paper has no room for its number, square millimetres.
const ROOM_FOR_NUMBER: f64 = 6.0;

/// What of a seam is drawn.
pub struct Across<'a> {
    /// The seam.
    pub seam: &'a Seam,
    /// All panels.
    pub panels: &'a [Panel],
    /// Its welds.
    pub welds: &'a [&'a SeamWeld],
    /// For the tail of the symbol: how it is welded.
    pub process: Text,
}

/// The section of a seam with all its runs and its weld symbol, no larger than `room` millimetres.
pub fn groove_drawing(across: &Across<'_>, words: &Words<'_>, room: (f64, f64)) -> Drawing {
    let Across {
        seam,
        panels,
        welds,
        ..
    } = across;
    let thickness = seam
        .panels
        .map(|number| panels.get(number).map_or(0.0, |panel| panel.thickness.m()));
    let cross = Cross {
        seam,
        thickness,
        gap: seam.gap.m(),
        // At an inside corner of the body the two sides change places; the shape is the same.
        angle: if seam.is_re_entrant() {
            2.0 * PI - seam.angle.rad()
        } else {
            seam.angle.rad()
        },
        shown: SHOWN * thickness[0].max(thickness[1]),
        double: welds.iter().any(|weld| weld.kind == GrooveKind::DoubleV),
    };
    let fills = cross.fills(welds);
    let sheets = cross.sheets(welds, &fills);
    let all: Vec<Point2> = sheets.iter().chain(&fills).flatten().copied().collect();
    let (low, high) = Outline(all).bounds();
    let (wide, tall) = (high.x - low.x, high.y - low.y);
    let for_section = room.1 - weld_symbol::ROOM;
    let per_metre = ((room.0 - 2.0 * BESIDE.0) / wide).min((for_section - 2.0 * BESIDE.1) / tall);
    let height = tall * per_metre + 2.0 * BESIDE.1;
    let left = (room.0 - wide * per_metre) / 2.0;
    let surfaces: Vec<Surface> = welds
        .iter()
        .enumerate()
        .map(|(number, weld)| cross.surface(number, weld))
        .collect();
    // The arrow points to the outside; where both welds lie inside, to the left one.
    let arrow = (0..welds.len()).min_by(|&a, &b| {
        let inside = |at: usize| welds[at].side == WeldSide::Inside;
        let across = |at: usize| surfaces[at].middle.x;
        let by_side = inside(a).cmp(&inside(b));
        by_side.then(across(a).total_cmp(&across(b)))
    });
    let arrow = arrow.unwrap_or(0);
    // The symbol stands on the side that the weld is laid from, so that its arrow crosses no sheet.
    let is_below = surfaces
        .get(arrow)
        .is_some_and(|surface| surface.out.y < -0.3);
    let top = if is_below { 0.0 } else { weld_symbol::ROOM };
    let scale = Scale::free(per_metre, low, (left, top + height - BESIDE.1));
    let mut canvas = Canvas::new(room.0, height + weld_symbol::ROOM);
    let ring = |points: &[Point2]| -> Vec<Spot> { points.iter().map(|p| scale.spot(*p)).collect() };
    for sheet in &sheets {
        canvas.outlines(&[ring(sheet)], Some(0.9), Some(Line::Fine));
    }
    // A number that would stand on another is left out: runs are numbered in a row.
    let mut numbered: Vec<Spot> = Vec::new();
    for (number, weld) in welds.iter().enumerate() {
        for (run, part) in weld.run_sections().iter().enumerate() {
            let placed = part
                .0
                .iter()
                .map(|&point| cross.placed(number, weld, point));
            let placed = Outline(placed.collect());
            canvas.outlines(&[ring(&placed.0)], Some(ROD[run % 2]), Some(Line::Thin));
            let spot = scale.spot(placed.centroid());
            let is_apart = |other: &Spot| {
                let (x, y) = (spot.0 - other.0, spot.1 - other.1);
                x.abs() > NUMBERS * 1.4 || y.abs() > NUMBERS * 1.1
            };
            let has_room = placed.signed_area().abs() * per_metre * per_metre > ROOM_FOR_NUMBER;
            if has_room && numbered.iter().all(is_apart) {
                canvas.number(spot, NUMBERS, run + 1);
                numbered.push(spot);
            }
        }
    }
    for (weld, surface) in welds.iter().zip(&surfaces) {
        name_side(
            &mut canvas,
            scale.spot(surface.middle),
            surface.out,
            &words.weld_side(weld.side),
        );
    }
    if let (Some(weld), Some(surface)) = (welds.get(arrow), surfaces.get(arrow)) {
        let side = |weld: &'_ SeamWeld| {
            let throat = words.thickness(weld.throat);
            match weld.kind {
                GrooveKind::Fillet => words.symbol(&format!("a{}", throat.as_str())),
                _ => throat,
            }
        };
        let of = |weld| weld_symbol::Side {
            weld,
            throat: side(weld),
            side: words.weld_side(weld.side),
        };
        let other = welds
            .iter()
            .enumerate()
            .find(|(number, _)| *number != arrow);
        let other = other.map(|(_, weld)| of(*weld));
        let line = weld_symbol::ROOM / 2.0 - 0.5 + if is_below { height } else { 0.0 };
        let tip = scale.spot(surface.bevelled);
        // Steeply down to the weld, from the side that it opens to.
        let aside = if surface.out.x > 0.3 { ASIDE } else { -ASIDE };
        let furthest = room.0 - weld_symbol::LINE - weld_symbol::TAIL;
        let at = ((tip.0 + aside).clamp(2.0, furthest.max(2.0)), line);
        let process = &across.process;
        weld_symbol(&mut canvas, at, tip, &of(weld), other.as_ref(), process);
    }
    canvas.finish()
}

/// Writes from which side a weld is laid, beside its surface.
fn name_side(canvas: &mut Canvas, (x, y): Spot, out: Vec2, side: &Text) {
    let aside = out.x.abs() > 0.3;
    let (off_x, off_y) = match aside {
        true => (out.x.signum() * 3.5, -1.0),
        false => (0.0, -out.y.signum() * 2.5),
    };
    let anchor = match out.x {
        right if right > 0.3 => Anchor::Start,
        left if left < -0.3 => Anchor::End,
        _ => Anchor::Middle,
    };
    canvas.text((x + off_x, y + off_y), anchor, 0.0, LETTERS, side);
}

/// Where what rod fills is open.
struct Surface {
    middle: Point2,
    /// Where an arrow to it points: rather at the edge that is bevelled.
    bevelled: Point2,
    /// Square to it, out of the work.
    out: Vec2,
}

struct Cross<'a> {
    seam: &'a Seam,
    thickness: [f64; 2],
    gap: f64,
    angle: f64,
    shown: f64,
    double: bool,
}

impl Cross<'_> {
    fn sheets(&self, welds: &[&SeamWeld], fills: &[Vec<Point2>]) -> Vec<Vec<Point2>> {
        match self.seam.joint {
            Joint::OpenCorner => {
                let run = self.angle / 2.0;
                vec![
                    self.edge(0.0, self.thickness[1], run, self.gap / 2.0),
                    mirrored(&self.edge(0.0, self.thickness[0], run, self.gap / 2.0)),
                ]
            }
            Joint::Mitred | Joint::Butt => {
                let of_side = |near: bool| {
                    let mut numbered = welds.iter().enumerate();
                    let found = numbered.find(|&(at, weld)| self.is_near(at, weld) == near);
                    found.and_then(|(at, _)| fills.get(at))
                };
                self.mitre(of_side(true), of_side(false))
            }
            Joint::ThroughAndButt { through } => {
                let butting = usize::from(through == self.seam.panels[0]);
                self.standing(self.thickness[butting], self.thickness[1 - butting], 0.0)
            }
            Joint::Tee => self.standing(self.thickness[0], self.thickness[1], self.shown),
            Joint::SlotThrough => self.slot(),
        }
    }

    /// What rod fills, turned into the frame of the sheets.
    fn fills(&self, welds: &[&SeamWeld]) -> Vec<Vec<Point2>> {
        let each = welds.iter().enumerate();
        let fill = each.map(|(number, weld)| {
            let points = weld.section.0.iter();
            points
                .map(|&point| self.placed(number, weld, point))
                .collect()
        });
        fill.collect()
    }

    /// A point of the section of a weld, by its place among those of its seam, in the frame of the sheets.
    fn placed(&self, number: usize, weld: &SeamWeld, p: Point2) -> Point2 {
        let second = number > 0;
        match self.seam.joint {
            // The second fillet and the second side of a tongue are drawn from the other face.
            Joint::Tee if second => {
                let foot = self.thickness[0] / self.angle.sin();
                Point2::new(foot - p.x, p.y)
            }
            Joint::SlotThrough if second => Point2::new(-self.thickness[0] - p.x, p.y),
            // The near groove of a double one is drawn turned over.
            Joint::Mitred | Joint::Butt if self.is_near(number, weld) => Point2::new(p.x, -p.y),
            _ => p,
        }
    }

    fn surface(&self, number: usize, weld: &SeamWeld) -> Surface {
        let [a, b] = weld.surface.map(|end| self.placed(number, weld, end));
        let section = Outline(weld.section.0.clone());
        let inside = self.placed(number, weld, section.centroid());
        let along = b - a;
        let across = Vec2::new(-along.y, along.x)
            .unit()
            .unwrap_or(Vec2::new(0.0, 1.0));
        let out = match across.dot(inside - a) > 0.0 {
            true => -across,
            false => across,
        };
        Surface {
            middle: a + along * 0.5,
            // Its surface is given from the edge that is bevelled, where one is.
            bevelled: a + along * 0.25,
            out,
        }
    }

    /// Whether a weld of a double groove, by its place among those of its seam, lies on the side of
    /// the smaller angle. The plan names the inside first; of a rib, where both sides are dry, the
    /// near one.
    fn is_near(&self, place: usize, weld: &SeamWeld) -> bool {
        weld.kind == GrooveKind::DoubleV && (place == 0) != self.seam.is_re_entrant()
    }

    /// A sheet with a square edge at `along` from the root, running away at `run` from straight
    /// down, its near face through `(0, near)`.
    fn edge(&self, near: f64, thickness: f64, run: f64, along: f64) -> Vec<Point2> {
        let way = Vec2::new(run.sin(), -run.cos());
        let across = Vec2::new(run.cos(), run.sin()) * thickness;
        let start = Point2::new(0.0, near) + way * along;
        let end = start + way * self.shown;
        vec![start, end, end + across, start + across]
    }

    /// Both sheets of a mitre or butt (the y axis is the plane they meet in), chamfered as their
    /// welds have it.
    fn mitre(
        &self,
        near_fill: Option<&Vec<Point2>>,
        far_fill: Option<&Vec<Point2>>,
    ) -> Vec<Vec<Point2>> {
        let [t, u] = self.thickness;
        let flat = (self.angle - PI).abs() < 1e-9;
        let first = if flat {
            PI / 2.0
        } else {
            (t * self.angle.sin()).atan2(u + t * self.angle.cos())
        };
        let depth = if flat { t.min(u) } else { t / first.sin() };
        let near = if self.double { -depth / 2.0 } else { 0.0 };
        let half = |run: f64, sign: f64| {
            let way = Vec2::new(run.sin(), -run.cos());
            let start = self.gap / 2.0 / run.sin();
            let at = |y: f64, along: f64| Point2::new(0.0, y) + way * along;
            let far = near + depth;
            // Where a groove opens on a face the sheet ends; without one it ends at the gap.
            let opens = |fill: Option<&Vec<Point2>>, or: Point2| {
                let here = fill.into_iter().flatten();
                here.map(|p| Point2::new(p.x * sign, p.y))
                    .max_by(|a, b| a.x.total_cmp(&b.x))
                    .unwrap_or(or)
            };
            let sheet = [
                opens(near_fill, at(near, start)),
                at(near, start + self.shown),
                at(far, start + self.shown),
                opens(far_fill, at(far, start)),
                Point2::new(self.gap / 2.0, 0.0),
            ];
            sheet.map(|p| Point2::new(p.x * sign, p.y)).to_vec()
        };
        vec![half(first, 1.0), half(self.angle - first, -1.0)]
    }

    /// A sheet standing on another that goes on for `beyond` past the standing one's far face.
    fn standing(&self, standing: f64, lying: f64, beyond: f64) -> Vec<Vec<Point2>> {
        let (sin, cos) = self.angle.sin_cos();
        let foot = Point2::new(self.gap * cos / sin, self.gap);
        let up = Vec2::new(cos, sin) * self.shown;
        let across = Vec2::new(standing / sin, 0.0);
        let reach = standing / sin + self.shown;
        vec![
            vec![
                Point2::new(-beyond, 0.0),
                Point2::new(-beyond, -lying),
                Point2::new(reach, -lying),
                Point2::new(reach, 0.0),
            ],
            vec![foot, foot + across, foot + across + up, foot + up],
        ]
    }

    /// A tongue through a sheet.
    fn slot(&self) -> Vec<Vec<Point2>> {
        let [tongue, sheet] = self.thickness;
        let side = |x: f64, way: f64| {
            vec![
                Point2::new(x, 0.0),
                Point2::new(x + way * self.shown, 0.0),
                Point2::new(x + way * self.shown, sheet),
                Point2::new(x, sheet),
            ]
        };
        vec![
            side(self.gap, 1.0),
            side(-tongue - self.gap, -1.0),
            vec![
                Point2::new(-tongue, -self.shown),
                Point2::new(0.0, -self.shown),
                Point2::new(0.0, sheet),
                Point2::new(-tongue, sheet),
            ],
        ]
    }
}

fn mirrored(points: &[Point2]) -> Vec<Point2> {
    points.iter().map(|p| Point2::new(-p.x, p.y)).collect()
}
