//! The section of a seam: the two sheets, hatched, and what rod fills, dark.
//!
//! The sections come from the plan in the frames that `brimful_panels::weld::groove` names; here
//! the sheets are drawn round them in the same frames.

use super::canvas::{Canvas, Drawing, Line, Spot};
use super::scale::Scale;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Vec2};
use brimful_panels::panel::Panel;
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::weld::SeamWeld;
use brimful_panels::weld::groove::GrooveKind;
use std::f64::consts::PI;

/// How much of each sheet is shown, in thicknesses of the thicker one.
const SHOWN: f64 = 2.4;
/// Grey of what rod fills.
const ROD: f64 = 0.35;

/// The section of a seam with all its welds, no larger than `room` millimetres.
pub fn groove_drawing(
    seam: &Seam,
    panels: &[Panel],
    welds: &[&SeamWeld],
    room: (f64, f64),
) -> Drawing {
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
    let (across, up) = (high.x - low.x, high.y - low.y);
    let margin = 1.0;
    let per_metre = ((room.0 - 2.0 * margin) / across).min((room.1 - 2.0 * margin) / up);
    let height = up * per_metre + 2.0 * margin;
    let left = (room.0 - across * per_metre) / 2.0;
    let scale = Scale::free(per_metre, low, (left, height - margin));
    let mut canvas = Canvas::new(room.0, height);
    let ring =
        |points: &Vec<Point2>| -> Vec<Spot> { points.iter().map(|p| scale.spot(*p)).collect() };
    for sheet in &sheets {
        canvas.outlines(&[ring(sheet)], Some(0.9), Some(Line::Fine));
    }
    for fill in &fills {
        canvas.outlines(&[ring(fill)], Some(ROD), Some(Line::Fine));
    }
    canvas.finish()
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
        let mut fills = Vec::new();
        for (number, weld) in welds.iter().enumerate() {
            let points = &weld.section.0;
            let second = number > 0;
            let placed: Vec<Point2> = match self.seam.joint {
                // The second fillet and the second side of a tongue are drawn from the other face.
                Joint::Tee if second => {
                    let foot = self.thickness[0] / self.angle.sin();
                    points
                        .iter()
                        .map(|p| Point2::new(foot - p.x, p.y))
                        .collect()
                }
                Joint::SlotThrough if second => points
                    .iter()
                    .map(|p| Point2::new(-self.thickness[0] - p.x, p.y))
                    .collect(),
                // The near groove of a double one is drawn turned over.
                Joint::Mitred | Joint::Butt if self.is_near(number, weld) => {
                    points.iter().map(|p| Point2::new(p.x, -p.y)).collect()
                }
                _ => points.clone(),
            };
            fills.push(placed);
        }
        fills
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
