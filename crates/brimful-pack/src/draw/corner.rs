//! How three runs pass a corner: the short run through it, the one against it, and where the long ones are taken up.

use super::canvas::{Anchor, Canvas, Drawing, Line, Spot, TEXT};
use crate::words::Words;
use brimful_panels::weld::corner::{Corner, Way};
use brimful_text::Text;
use brimful_units::Length;

/// Ways of the three runs on paper, as three edges of a box are seen from the inside (unit lengths, y down).
const WAYS: [Spot; 3] = [(0.94, 0.34), (-0.94, 0.34), (0.0, -1.0)];
/// Half the width of a run, millimetres of paper.
const HALF: f64 = 1.3;

/// The runs of a corner by the marks of their seams, not to scale; none where it has not three.
pub fn corner_drawing(
    corner: &Corner,
    marks: &[Text],
    words: &Words<'_>,
    room: (f64, f64),
) -> Option<Drawing> {
    let [_, _, _] = corner.passes.as_slice() else {
        return None;
    };
    let mut canvas = Canvas::new(room.0, room.1);
    let centre = (room.0 * 0.5, room.1 * 0.62);
    let arm = (room.0 * 0.44).min(room.1 * 0.52);
    let at = |way: Spot, far: f64| (centre.0 + way.0 * far, centre.1 + way.1 * far);
    let far = |taken_up: Option<Length>| {
        let most = corner.passes.iter().filter_map(|it| it.taken_up);
        let most = most.fold(Length::from_mm(1.0), Length::max);
        taken_up.map_or(arm, |it| arm * (0.15 + 0.4 * (it / most)))
    };
    // Laid last is drawn first, so that what goes through lies over it.
    let order = [Way::PastTheEdge, Way::Against, Way::Through];
    for way in order {
        let own = corner.passes.iter().zip(WAYS).zip(marks);
        for ((pass, toward), mark) in own.filter(|((pass, _), _)| pass.way == way) {
            let taken_up = far(pass.taken_up);
            let grey = if way == Way::Through { 0.35 } else { 0.6 };
            bead(&mut canvas, at(toward, arm), at(toward, taken_up), 0.92);
            bead(&mut canvas, centre, at(toward, taken_up), grey);
            canvas.label(at(toward, arm + 4.0), TEXT, mark);
            if let Some(length) = pass.taken_up {
                let side = (-toward.1 * 6.0, toward.0.abs() * 6.0 + 1.0);
                let (x, y) = at(toward, taken_up);
                let anchor = match side.0 < 0.0 {
                    true => Anchor::End,
                    false => Anchor::Start,
                };
                canvas.text(
                    (x + side.0 * 0.6, y + side.1),
                    anchor,
                    0.0,
                    TEXT,
                    &words.length(length),
                );
            }
        }
    }
    Some(canvas.finish())
}

/// A run from one place to another.
fn bead(canvas: &mut Canvas, from: Spot, to: Spot, grey: f64) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy).max(1e-9);
    let (nx, ny) = (-dy / length * HALF, dx / length * HALF);
    let ring = vec![
        (from.0 + nx, from.1 + ny),
        (to.0 + nx, to.1 + ny),
        (to.0 - nx, to.1 - ny),
        (from.0 - nx, from.1 - ny),
    ];
    canvas.outlines(&[ring], Some(grey), Some(Line::Fine));
}
