//! The leak test: with water, in stages, by hand and eye.

use super::document::{Document, figures, wide, words as column};
use crate::words::Words;
use brimful_tank::mass::MassStateKind;
use brimful_tank::panel::Role;
use brimful_tank::plan::Plan;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Leak test");
    document.notice("Water only. Never compressed air: it stores enough energy to burst a flat-sided tank, and a pressure that is small in a hose (35 kPa, 5 psi) is 3.5 m (11.5 ft) of water on these walls.");
    document.steps(&[
        "Let all welds cool to room temperature, at best overnight. Wipe them dry. Chalk or paper along the seams shows damp.",
        "Set the tank on the support it will have in use, level, with room to see every seam and under the floor. The floor below must carry the weight given in the table.",
        "Close the outlets. Leave vent and filler open and free.",
        "Before filling, lay a straightedge across the middle of each wall and of the lid and note the reading.",
        "Fill with water in the stages of the table. At each stage wait, look at every seam, and note the bulge at the middle of each wall.",
        "Hold the last stage for 24 hours. Then look again and take the readings a last time.",
        "It passes when no seam or fitting is damp, the level has not fallen (beyond a mark made at the start, at like temperature), and no wall bulges more than the job allows.",
        "A leak: drain, dry, cut the bad length of weld out to sound material, weld again and repeat from the first stage. Never weld over it, never seal it with glue.",
        "Empty, and measure again: note what bulge stays.",
    ]);
    stages(document, plan, words);
    readings(document, plan, words);
    document.heading("Sources");
    document.bullets(&[
        "Water fill, 24 hours, deflection before and after: DVS 2205/2206 and shop practice (from memory; 24 h for plastic not seen in a source). A rotomoulded tank maker's test page, citing an ASTM guideline, holds 1 hour (seen).",
        "35 kPa or a 3.5 m standpipe is the marine rule for metal tanks: 46 CFR 182.440(c), 58.50-10(c) (seen); it is far too high for flat plastic walls.",
        "No compressed gas on plastic: plastic pipe trade bulletin on air and compressed gas tests (seen).",
    ]);
}

/// A quarter, half, rated and brim, from the plan's own gauge table.
fn stages(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Stages");
    let mut rows = Vec::new();
    for (gauge, capacity) in plan.gauges.iter().zip(&plan.capacity.compartments) {
        let mut stage = |name: &str, share_of: brimful_units::Volume, wait: &str| {
            let above = gauge
                .rows
                .iter()
                .find(|row| row.volume >= share_of)
                .or(gauge.rows.last());
            if let Some(row) = above {
                rows.push(vec![
                    words.text.compartment(gauge.compartment).into(),
                    name.to_string(),
                    words.length(row.dip),
                    words.volume(row.volume),
                    wait.to_string(),
                    String::new(),
                ]);
            }
        };
        stage("about a quarter", capacity.rated * 0.25, "15 min");
        stage("about half", capacity.rated * 0.5, "15 min");
        stage("rated", capacity.rated, "1 h");
        stage("brim", capacity.brim, "24 h");
    }
    document.table(
        &[
            column("Room"),
            wide("Fill to"),
            figures("Dip"),
            figures("Water in it"),
            column("Wait"),
            wide("Damp places, time, initials"),
        ],
        &rows,
    );
    if plan.gauges.len() > 1 {
        document.paragraph("With several rooms fill one alone first: a divider must hold one side full and the other empty.");
    }
    if let Some(full) = plan.mass.state(MassStateKind::Brim) {
        document.paragraph(&format!(
            "Brim-full of the job's own liquid the tank weighs {}.",
            words.mass(full.mass)
        ));
    }
}

fn readings(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.heading("Bulge at the middle, readings");
    let outer = plan
        .panels
        .iter()
        .filter(|panel| matches!(panel.role, Role::Wall | Role::Lid));
    let rows: Vec<Vec<String>> = outer
        .map(|panel| {
            let mut row = vec![format!("{} {}", panel.mark, words.text.panel(&panel.name))];
            row.extend((0..6).map(|_| String::new()));
            row
        })
        .collect();
    let blank = |title: &str| wide(title);
    document.table(
        &[
            column("Panel"),
            blank("empty"),
            blank("quarter"),
            blank("half"),
            blank("rated"),
            blank("brim, 24 h"),
            blank("emptied"),
        ],
        &rows,
    );
}
