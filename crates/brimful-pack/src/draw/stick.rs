//! The dipstick at full size: marks at even volumes, in strips that fit the page.

use super::canvas::{Anchor, Canvas, Drawing, Line, TEXT};
use crate::words::Words;
use brimful_panels::gauge::Gauge;
use brimful_text::say;
use brimful_units::{Length, UnitSystem};

/// Marks closer than this on paper get no figure of their own, millimetres.
const FIGURE_PITCH: f64 = TEXT * 1.15;

/// Width of a strip with its figures, millimetres.
const STRIP_PITCH: f64 = 34.0;
/// Kept at the right for the check line, millimetres.
const CHECK_ROOM: f64 = 24.0;

/// The stick from foot to brim at 1 : 1, a drawing a page of `room` millimetres; cut into strips
/// that are taped together where it is longer. A check line stands on every page.
pub fn stick_pages(gauge: &Gauge, words: &Words<'_>, room: (f64, f64)) -> Vec<Drawing> {
    let strip_height = room.1 - 16.0;
    let depth = gauge.rows.last().map_or(0.0, |row| row.dip.mm());
    let strips = (depth / strip_height).ceil().max(1.0) as usize;
    let on_a_page = (((room.0 - CHECK_ROOM) / STRIP_PITCH).floor() as usize).max(1);
    let numbers: Vec<usize> = (0..strips).collect();
    numbers
        .chunks(on_a_page)
        .map(|page| stick(gauge, words, room, page, strips))
        .collect()
}

/// The strips of one page.
fn stick(
    gauge: &Gauge,
    words: &Words<'_>,
    room: (f64, f64),
    page: &[usize],
    strips: usize,
) -> Drawing {
    let check = check_length(words);
    let strip_height = room.1 - 16.0;
    let depth = gauge.rows.last().map_or(0.0, |row| row.dip.mm());
    let mut canvas = Canvas::new(room.0, room.1);
    let foot = room.1 - 8.0;
    for (place, &strip) in page.iter().enumerate() {
        let left = 4.0 + place as f64 * STRIP_PITCH;
        let low = strip as f64 * strip_height;
        let high = (low + strip_height).min(depth);
        let y = |dip: f64| foot - (dip - low);
        let rail = [
            (left, y(low)),
            (left + 12.0, y(low)),
            (left + 12.0, y(high)),
            (left, y(high)),
        ];
        canvas.outlines(&[rail.to_vec()], None, Some(Line::Seen));
        let caption = if strips == 1 {
            say!(words, "foot")
        } else {
            say!(words, "strip {number}", number = strip + 1)
        };
        canvas.text(
            (left + 6.0, foot + 4.0),
            Anchor::Middle,
            0.0,
            TEXT,
            &caption,
        );
        let mut last_figure = f64::NEG_INFINITY;
        for mark in &gauge.marks {
            let dip = mark.dip.mm();
            if dip < low || dip > high {
                continue;
            }
            let roomy = dip - last_figure >= FIGURE_PITCH;
            canvas.line(
                (left, y(dip)),
                (left + if roomy { 8.0 } else { 4.0 }, y(dip)),
                Line::Thin,
            );
            if roomy {
                canvas.text(
                    (left + 13.5, y(dip)),
                    Anchor::Start,
                    0.0,
                    TEXT,
                    &words.volume(mark.volume),
                );
                last_figure = dip;
            }
        }
    }
    let x = room.0 - 12.0;
    canvas.line((x, foot), (x, foot - check.mm()), Line::Seen);
    for end in [foot, foot - check.mm()] {
        canvas.line((x - 3.0, end), (x + 3.0, end), Line::Seen);
    }
    let text = say!(
        words,
        "This line must measure {length}",
        length = words.length(check)
    );
    canvas.text(
        (x - 3.5, foot - check.mm() / 2.0),
        Anchor::Middle,
        90.0,
        TEXT,
        &text,
    );
    canvas.finish()
}

/// The length that proves a print to be at full size: 100 mm, or 4 in.
pub fn check_length(words: &Words<'_>) -> Length {
    if words.system == UnitSystem::Inch {
        Length::from_inches(4.0)
    } else {
        Length::from_mm(100.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use brimful_job::Job;
    use brimful_tank::plan::plan;
    use brimful_text::Language;

    #[test]
    fn a_tall_tank_has_all_its_marks_on_some_page() {
        let job = include_str!("../../../../examples/shelf-box.job.toml").replace("260]", "1900]");
        let job = Job::parse(&job).expect("the job is sound");
        let plan = plan(job, brimful_tank::plan::Depth::Quick).expect("the tank can be laid out");
        let words = Words::of(&plan, Language::English);
        let pages = stick_pages(&plan.gauges[0], &words, (180.0, 200.0));
        assert!(pages.len() > 1);
        let svg: Vec<u8> = pages.into_iter().flat_map(|page| page.svg).collect();
        let svg = String::from_utf8(svg).expect("drawings are text");
        let last = plan.gauges[0].marks.last().expect("a mark");
        assert!(svg.contains(words.volume(last.volume).as_str()));
    }
}
