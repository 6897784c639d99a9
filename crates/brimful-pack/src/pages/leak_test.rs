//! The leak test: with water, in stages, by hand and eye.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_panels::gauge::GaugeRow;
use brimful_panels::panel::Role;
use brimful_tank::leak_test::Stage;
use brimful_tank::mass::MassStateKind;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Leak test"));
    document.notice(&say!(words, "Water only. Never compressed air: it stores enough energy to burst a flat-sided tank, and a pressure that is small in a hose (35 kPa, 5 psi) is 3.5 m (11.5 ft) of water on these walls."));
    document.steps(&[
        say!(words, "Let all welds cool to room temperature, at best overnight. Wipe them dry. Chalk or paper along the seams shows damp."),
        say!(words, "Set the tank on the support it will have in use, level, with room to see every seam and under the floor. The floor below must carry the weight given in the table."),
        say!(words, "Close the outlets. Leave vent and filler open and free."),
        say!(words, "Before filling, lay a straightedge across the middle of each wall and of the lid and note the reading."),
        say!(words, "Fill with water in the stages of the table. At each stage wait, look at every seam, and note the bulge at the middle of each wall."),
        say!(words, "Hold the last stage for 24 hours. Then look again and take the readings a last time."),
        say!(words, "It passes when no seam or fitting is damp, the level has not fallen (beyond a mark made at the start, at like temperature), and no wall bulges more than the job allows."),
        say!(words, "A leak: drain, dry, cut the bad length of weld out to sound material, weld again and repeat from the first stage. Never weld over it, never seal it with glue."),
        say!(words, "Empty, and measure again: note what bulge stays."),
    ]);
    stages(document, plan, words);
    readings(document, plan, words);
    document.heading(&say!(words, "Sources"));
    document.bullets(&[
        say!(words, "Water fill, 24 hours, deflection before and after: DVS 2205/2206 and shop practice (from memory; 24 h for plastic not seen in a source). A rotomoulded tank maker's test page, citing an ASTM guideline, holds 1 hour (seen)."),
        say!(words, "35 kPa or a 3.5 m standpipe is the marine rule for metal tanks: 46 CFR 182.440(c), 58.50-10(c) (seen); it is far too high for flat plastic walls."),
        say!(words, "No compressed gas on plastic: plastic pipe trade bulletin on air and compressed gas tests (seen)."),
    ]);
}

/// A quarter, half, rated and brim, from the plan's own gauge table.
fn stages(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Stages"));
    let wait = |stage: Stage| words.time(stage.wait());
    let mut rows = Vec::new();
    for (gauge, capacity) in plan.gauges.iter().zip(&plan.capacity.compartments) {
        let mut stage = |name: Text, row: Option<GaugeRow>, wait: Text| {
            rows.extend(row.map(|row| {
                vec![
                    words.compartment(gauge.compartment),
                    name,
                    words.length(row.dip),
                    words.volume(row.volume),
                    wait,
                    Text::default(),
                ]
            }));
        };
        // A part of it at the next even dip: the tape is read, not the litres.
        let about = |share: f64| {
            let enough = |row: &&GaugeRow| row.volume >= capacity.rated * share;
            gauge.rows.iter().find(enough).copied()
        };
        stage(
            say!(words, "about a quarter"),
            about(0.25),
            wait(Stage::Quarter),
        );
        stage(say!(words, "about half"), about(0.5), wait(Stage::Half));
        stage(
            say!(words, "rated"),
            gauge.at(capacity.rated),
            wait(Stage::Rated),
        );
        stage(
            say!(words, "brim"),
            gauge.at(capacity.brim),
            wait(Stage::Brim),
        );
    }
    document.table(
        &[
            column(say!(words, "Room")),
            wide(say!(words, "Fill to")),
            figures(say!(words, "Dip")),
            figures(say!(words, "Water in it")),
            column(say!(words, "Wait")),
            wide(say!(words, "Damp places, time, initials")),
        ],
        &rows,
    );
    if plan.gauges.len() > 1 {
        document.paragraph(&say!(words, "With several rooms fill one alone first: a divider must hold one side full and the other empty."));
    }
    if let Some(full) = plan.mass.state(MassStateKind::Brim) {
        document.paragraph(&say!(
            words,
            "Brim-full of the job's own liquid the tank weighs {mass}.",
            mass = words.mass(full.mass)
        ));
    }
}

fn readings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading(&say!(words, "Bulge at the middle, readings"));
    let outer = plan
        .panels
        .iter()
        .filter(|panel| matches!(panel.role, Role::Wall | Role::Lid));
    let rows: Vec<Vec<Text>> = outer
        .map(|panel| {
            let mut row = vec![words.marked(panel)];
            row.extend((0..6).map(|_| Text::default()));
            row
        })
        .collect();
    document.table(
        &[
            column(say!(words, "Panel")),
            wide(say!(words, "empty")),
            wide(say!(words, "quarter")),
            wide(say!(words, "half")),
            wide(say!(words, "rated")),
            wide(say!(words, "brim, 24 h")),
            wide(say!(words, "emptied")),
        ],
        &rows,
    );
}
