//! `slosh`: how the liquid swings, at every fill, with its baffles and without.

use super::findings;
use super::layout::{Table, heading, paragraph};
use super::title::title;
use brimful_panels::table::motion::{Direction, Motion};
use brimful_tank::plan::Plan;
use brimful_tank::slosh::{FillMotion, RoomMotion, Swing};
use brimful_text::{Text, Words, say};

/// The swings of every room, the motions of a vehicle, and where the two meet.
pub(crate) fn slosh(plan: &Plan, words: &Words<'_>) -> String {
    let found = plan.slosh();
    let mut text = title(plan, words);
    text.push_str(&heading(&say!(words, "How the liquid swings")));
    text.push_str(&paragraph(2, 2, &words.slosh_model()));
    text.push_str(&paragraph(2, 2, &words.slosh_columns()));
    for room in &found.rooms {
        text.push_str(&heading(&say!(
            words,
            "{room}, on cells of {spacing}",
            room = words.compartment_and_liquid(room.compartment).capitalised(),
            spacing = words.length(room.spacing)
        )));
        for direction in Direction::BOTH {
            text.push_str(&swings(room, direction, words));
        }
        if !room.without.is_empty() {
            text.push_str(&without(plan, room, words));
        }
    }
    if !found.motions.is_empty() {
        text.push_str(&bands(&found.motions, words));
    }
    text.push('\n');
    text.push_str(&findings::each(&found.findings, words));
    text.push_str(&findings::stops(plan, words));
    text.push_str(&findings::verdict(plan, words));
    text
}

/// Every second fill of the sweep is enough to read; JSON has all.
const EVERY: usize = 2;

fn swings(room: &RoomMotion, direction: Direction, words: &Words<'_>) -> String {
    let mut table = Table::new(
        words,
        &[
            ">full",
            ">depth",
            "way",
            ">once in",
            ">frequency",
            ">give or take",
            ">moves",
            ">height",
        ],
    );
    for fill in room.fills.iter().skip(1).step_by(EVERY) {
        let start = [
            words.percent(fill.fill),
            words.length(fill.depth),
            words.level_direction(direction),
        ];
        match (&fill.swings, fill.along(direction)) {
            (Ok(_), Some(directed)) if !directed.swings.is_empty() => {
                let mut start = start;
                for swing in &directed.swings {
                    table.row(start.into_iter().chain(figures(swing, words)));
                    start = [Text::default(), Text::default(), Text::default()];
                }
            }
            (Err(why), _) => table.row(start.into_iter().chain([words.no_swings(*why)])),
            _ => table.row(start),
        }
    }
    format!("\n{}", table.text())
}

fn figures(swing: &Swing, words: &Words<'_>) -> [Text; 5] {
    [
        words.swing_period(swing.frequency),
        words.frequency(swing.frequency),
        swing
            .error
            .map_or_else(|| words.not_stated(), |it| words.number_percent(it)),
        words.percent(swing.moves),
        words.height_of_push(swing.height),
    ]
}

/// What each baffle does to the swing that most of the liquid takes part in.
fn without(plan: &Plan, room: &RoomMotion, words: &Words<'_>) -> String {
    let mut table = Table::new(words, &["left out", ">full", "along", "across"]);
    let mut add = |left_out: Text, fill: &FillMotion| {
        table.row([
            left_out,
            words.percent(fill.fill),
            main(fill, Direction::Along, words),
            main(fill, Direction::Across, words),
        ]);
    };
    let compared = room.without.iter().flat_map(|it| &it.fills);
    let compared: Vec<f64> = compared.map(|it| it.fill).collect();
    for fill in room.fills.iter().filter(|it| compared.contains(&it.fill)) {
        add(say!(words, "nothing"), fill);
    }
    for without in &room.without {
        let names = without.baffles.iter();
        let names = names.map(|&it| words.panel(&plan.panels[it].name));
        let names = Text::join(names, ", ");
        for fill in &without.fills {
            add(names.clone(), fill);
        }
    }
    [
        heading(&say!(
            words,
            "What the baffles do: the swing that most of the liquid takes part in, how much does, and how much moves in all"
        )),
        format!("\n{}", table.text()),
    ]
    .concat()
}

fn main(fill: &FillMotion, direction: Direction, words: &Words<'_>) -> Text {
    match (&fill.swings, fill.along(direction)) {
        (Err(why), _) => words.no_swings(*why),
        (_, Some(directed)) => match directed.main() {
            Some(swing) => say!(
                words,
                "{frequency}, {share} of {all}",
                frequency = words.frequency(swing.frequency),
                share = words.percent(swing.moves),
                all = words.percent(1.0 - directed.frozen)
            ),
            None => say!(words, "still"),
        },
        _ => Text::default(),
    }
}

fn bands(motions: &[Motion], words: &Words<'_>) -> String {
    let mut text = heading(&say!(words, "What a vehicle's motions feed"));
    for motion in motions {
        for source in &motion.band().sources {
            let direction = words.level_direction(motion.direction());
            let line = say!(
                words,
                "{direction}: {source}",
                direction = direction,
                source = words.source(source)
            );
            text.push_str(&paragraph(2, 4, &line));
        }
    }
    text
}
