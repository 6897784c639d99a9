//! Dip against volume, as a table and as a stick at full size.

use super::document::{Document, figures};
use crate::draw::stick::{check_length, stick_pages};
use crate::words::Words;
use brimful_panels::gauge::{Gauge, GaugeRow};
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

/// Tables are set side by side in this many columns.
const BESIDE: usize = 3;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    for gauge in &plan.gauges {
        table_page(document, gauge, words);
        stick_page(document, gauge, words);
    }
}

fn table_page(document: &mut Document, gauge: &Gauge, words: &Words<'_>) {
    let room = words.compartment_and_liquid(gauge.compartment);
    document.page(&say!(words, "Gauge table: {room}", room = room));
    document.paragraph(&say!(
        words,
        "Depth of liquid on a stick set upright under the {under}, touching the floor at {foot}. Heel {heel}, pitch {pitch}: with the tank at another tilt the table does not hold. Computed from the panels as drawn; bulge, and what pipes or fittings take up, is not in it. Calibrate by pouring in a known volume.",
        under = words.dip_under(&gauge.under),
        foot = words.place(gauge.foot),
        heel = words.angle(gauge.heel),
        pitch = words.angle(gauge.pitch)
    ));
    document.heading(&say!(words, "At even depths"));
    side_by_side(document, &gauge.rows, words);
    document.heading(&say!(words, "At even volumes"));
    side_by_side(document, &gauge.marks, words);
}

fn side_by_side(document: &mut Document, rows: &[GaugeRow], words: &Words<'_>) {
    let high = rows.len().div_ceil(BESIDE);
    let mut columns = Vec::new();
    for _ in 0..BESIDE {
        columns.extend([figures(say!(words, "Dip")), figures(say!(words, "Volume"))]);
    }
    let lines: Vec<Vec<Text>> = (0..high)
        .map(|line| {
            let cells = (0..BESIDE).flat_map(|beside| match rows.get(beside * high + line) {
                Some(row) => [words.length(row.dip), words.volume(row.volume)],
                None => [Text::default(), Text::default()],
            });
            cells.collect()
        })
        .collect();
    document.table(&columns, &lines);
}

fn stick_page(document: &mut Document, gauge: &Gauge, words: &Words<'_>) {
    let (width, height) = document.room();
    let pages = stick_pages(gauge, words, (width, height - 42.0));
    let n = pages.len();
    for (number, drawing) in pages.into_iter().enumerate() {
        let room = words.compartment_and_liquid(gauge.compartment);
        document.page(&if n > 1 {
            say!(
                words,
                "Dipstick at full size: {room} ({number} of {n})",
                room = room,
                number = number + 1,
                n = n
            )
        } else {
            say!(words, "Dipstick at full size: {room}", room = room)
        });
        document.notice(&say!(
            words,
            "Print at 100 %, not \"fit to page\". Measure the check line: if it is not {length}, do not use this page.",
            length = words.length(check_length(words))
        ));
        document.paragraph(&say!(words, "Cut out the strip (strips are taped end to end, from the foot up) and lay it against the stick, its lower end at the foot."));
        document.drawing(drawing);
    }
}
