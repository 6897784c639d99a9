//! The tank as the whole-tank check sees it: bulged, and shaded by how far it moves or how much of
//! its strength is used. Shades have steps, each with its figure beside it, so that they can be
//! read without colour.

use super::canvas::{Anchor, Canvas, Drawing, Spot, TEXT};
use super::projection::View;
use brimful_geom::vector::{Point3, Vec3};
use brimful_strength::whole::Picture;
use brimful_tank::plan::Plan;
use brimful_text::Text;

/// Steps of shade.
const STEPS: usize = 6;
/// The largest bulge is drawn as this share of the tank's size.
const DRAWN_BULGE: f64 = 0.06;
/// Slices of depth that hide what is behind them: each thinner than any rib stands out.
const SLICES: f64 = 64.0;
/// Width kept for the scale beside the picture, millimetres.
const SCALE: f64 = 34.0;

/// What the shades tell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shade {
    /// How far each place moves.
    Moved,
    /// Stress over what is allowed in the sheet.
    Used,
}

/// The tank from its front right, shaded. `label` writes a figure with its unit.
pub fn answer(
    plan: &Plan,
    picture: &Picture,
    shade: Shade,
    room: (f64, f64),
    label: impl Fn(f64) -> Text,
) -> Drawing {
    let values = values(picture, shade);
    let largest = values.iter().flatten().copied().fold(0.0, f64::max);
    let view = View::from(Vec3::new(1.0, -1.6, 1.0));
    let placed = placed(picture);
    let triangles = &picture.shell.triangles;
    let mut seen: Vec<(f64, usize)> = (0..triangles.len())
        .filter(|&number| {
            let panel = plan.panels.get(picture.panel[number]);
            panel.is_some_and(|panel| !panel.role.is_inner())
                && view.facing(normal(&placed, triangles[number].nodes)) > 0.0
        })
        .map(|number| (view.depth(middle(&placed, triangles[number].nodes)), number))
        .collect();
    let depths = seen.iter().map(|(depth, _)| *depth);
    let (nearest, furthest) = depths.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), d| {
        (low.min(d), high.max(d))
    });
    let flat = |node: usize| view.flat(placed[node]);
    let corners = seen
        .iter()
        .flat_map(|&(_, number)| triangles[number].nodes)
        .map(flat);
    let (low, high) = corners.fold(
        (
            (f64::INFINITY, f64::INFINITY),
            (f64::NEG_INFINITY, f64::NEG_INFINITY),
        ),
        |(low, high), p| {
            (
                (low.0.min(p.x), low.1.min(p.y)),
                (high.0.max(p.x), high.1.max(p.y)),
            )
        },
    );
    let across = (high.0 - low.0).max(f64::MIN_POSITIVE);
    let up = (high.1 - low.1).max(f64::MIN_POSITIVE);
    let scale = ((room.0 - SCALE) / across).min(room.1 / up);
    let mut canvas = Canvas::new(room.0, up * scale);
    let spot = |node: usize| -> Spot {
        let p = flat(node);
        ((p.x - low.0) * scale, (high.1 - p.y) * scale)
    };
    let step = |number: usize| step_of(values[number].iter().sum::<f64>() / 3.0, largest);
    // Triangles of one panel do not hide each other: within a slice of depth those of one panel and
    // shade are put down together.
    let slice = |depth: f64| ((depth - nearest) / (furthest - nearest) * SLICES).floor() as i64;
    let together =
        |&(depth, number): &(f64, usize)| (slice(depth), picture.panel[number], step(number));
    seen.sort_by_key(|triangle| together(triangle));
    for group in seen.chunk_by(|a, b| together(a) == together(b)) {
        let shapes: Vec<[Spot; 3]> = group
            .iter()
            .map(|&(_, number)| triangles[number].nodes.map(spot))
            .collect();
        let tone = step(group[0].1) as f64 / (STEPS as f64 - 1.0);
        canvas.tint(shapes.iter().map(<[Spot; 3]>::as_slice), tone);
    }
    draw_scale(
        &mut canvas,
        room.0 - SCALE + 4.0,
        up * scale,
        largest,
        label,
    );
    canvas.finish()
}

fn values(picture: &Picture, shade: Shade) -> Vec<[f64; 3]> {
    match shade {
        Shade::Used => picture.used.clone(),
        Shade::Moved => {
            let moved = |node: usize| {
                let [x, y, z] = picture.moved[node];
                x.hypot(y).hypot(z)
            };
            let triangles = picture.shell.triangles.iter();
            triangles
                .map(|triangle| triangle.nodes.map(moved))
                .collect()
        }
    }
}

/// Nodes where they come to lie, the bulge drawn larger than it is.
fn placed(picture: &Picture) -> Vec<Point3> {
    let nodes = &picture.shell.nodes;
    let size = nodes
        .iter()
        .map(|p| p.distance(nodes[0]))
        .fold(0.0, f64::max);
    let far = picture
        .moved
        .iter()
        .map(|[x, y, z]| x.hypot(*y).hypot(*z))
        .fold(0.0, f64::max);
    let larger = if far > 0.0 {
        DRAWN_BULGE * size / far
    } else {
        0.0
    };
    let moved = |(&p, &[x, y, z]): (&Point3, &[f64; 3])| p + Vec3::new(x, y, z) * larger;
    nodes.iter().zip(&picture.moved).map(moved).collect()
}

fn normal(placed: &[Point3], [a, b, c]: [usize; 3]) -> Vec3 {
    (placed[b] - placed[a]).cross(placed[c] - placed[a])
}

fn middle(placed: &[Point3], [a, b, c]: [usize; 3]) -> Point3 {
    Point3::ORIGIN + (placed[a].to_vec() + placed[b].to_vec() + placed[c].to_vec()) / 3.0
}

fn step_of(value: f64, largest: f64) -> usize {
    let share = if largest > 0.0 { value / largest } else { 0.0 };
    ((share * STEPS as f64) as usize).min(STEPS - 1)
}

/// The steps of shade with their upper bounds, largest on top.
fn draw_scale(
    canvas: &mut Canvas,
    left: f64,
    height: f64,
    largest: f64,
    label: impl Fn(f64) -> Text,
) {
    let box_height = 6.0_f64.min(height / (STEPS as f64 + 1.0));
    for step in 0..STEPS {
        let top = (STEPS - 1 - step) as f64 * box_height;
        let share = step as f64 / (STEPS as f64 - 1.0);
        let corners = [
            (left, top),
            (left + 6.0, top),
            (left + 6.0, top + box_height),
            (left, top + box_height),
        ];
        canvas.tint([corners.as_slice()], share);
        let text = label(largest * (step + 1) as f64 / STEPS as f64);
        canvas.text(
            (left + 8.0, top + box_height / 2.0),
            Anchor::Start,
            0.0,
            TEXT,
            &text,
        );
    }
}
