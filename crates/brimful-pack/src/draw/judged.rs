//! The section at which a seam is judged: where the middles of two sheets cross, and the face of the one that
//! the other stands against.

use super::canvas::{Canvas, Drawing, Line, Spot};
use super::scale::Scale;
use brimful_geom::vector::Point2;
use brimful_units::Length;

/// How much of each sheet is shown, in thicknesses of the thicker one.
const SHOWN: f64 = 2.5;
/// How far the judged section stands out of its sheet, in the same.
const OUT: f64 = 0.6;

/// Where a sheet that ends at another is judged, no larger than `room` millimetres.
pub fn judged_drawing(ends: Length, against: Length, room: (f64, f64)) -> Drawing {
    let (ends, against) = (ends.m(), against.m());
    let thicker = ends.max(against);
    let shown = SHOWN * thicker;
    let margin = 1.0;
    let (across, up) = (2.0 * shown, against + shown);
    let per_metre = ((room.0 - 2.0 * margin) / across).min((room.1 - 2.0 * margin) / up);
    let height = up * per_metre + 2.0 * margin;
    let left = (room.0 - across * per_metre) / 2.0;
    let low = Point2::new(-shown, 0.0);
    let scale = Scale::free(per_metre, low, (left, height - margin));
    let spot = |x: f64, y: f64| -> Spot { scale.spot(Point2::new(x, y)) };
    let sheet = |x: [f64; 2], y: [f64; 2]| {
        vec![
            spot(x[0], y[0]),
            spot(x[1], y[0]),
            spot(x[1], y[1]),
            spot(x[0], y[1]),
        ]
    };
    let mut canvas = Canvas::new(room.0, height);
    let through = sheet([-shown, shown], [0.0, against]);
    let standing = sheet([-ends / 2.0, ends / 2.0], [against, against + shown]);
    for sheet in [through, standing] {
        canvas.outlines(&[sheet], Some(0.9), Some(Line::Fine));
    }
    let middle = against / 2.0;
    canvas.line(spot(-shown, middle), spot(shown, middle), Line::Centre);
    canvas.line(spot(0.0, middle), spot(0.0, against + shown), Line::Centre);
    let reach = ends / 2.0 + OUT * thicker;
    canvas.line(spot(-reach, against), spot(reach, against), Line::Seen);
    canvas.finish()
}
