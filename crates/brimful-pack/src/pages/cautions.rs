//! What can hurt, and what this pack does not know.

use super::document::{Document, wide, words as column};
use crate::words::Words;
use brimful_job::Duty;
use brimful_tank::plan::Plan;
use brimful_tank::weld::cautions::Caution;

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page("Cautions");
    document.notice("This pack is no certificate. It says what was assumed and worked out. Local codes, the vehicle's or boat's own rules, and people licensed to judge come before it.");
    document.heading("At the bench");
    let rows: Vec<Vec<String>> = Caution::ALL
        .iter()
        .map(|&caution| {
            let caution = words.text.caution(caution);
            vec![
                caution.about.into(),
                format!("{}\nSource: {}", caution.text, caution.source),
            ]
        })
        .collect();
    document.table(
        &[
            column("About"),
            wide("What to do, what not, and the source"),
        ],
        &rows,
    );
    document.heading("In use");
    let mut uses = vec![
        "No fuel. Fuel tanks are under other laws.",
        "Liquids with detergents or surfactants can crack stressed polyethylene at far lower stress than water does. Ask the maker of the liquid.",
        "Frost: drain it, or leave room for ice to grow by a tenth.",
        "Pipes hang on their own brackets, never on the wall of the tank.",
    ];
    match plan.job.about.duty {
        Duty::Road => uses.push("On the road: the weight and where it sits load axles and coupling; compare with the plated limits at a weighbridge. Fixings, floor and straps are not worked out here unless a page says so."),
        Duty::Afloat => uses.push("Afloat: weight and free liquid move the boat's trim and stability; somebody who may judge that must."),
        Duty::Standing => {}
    }
    document.bullets(&uses);
}
