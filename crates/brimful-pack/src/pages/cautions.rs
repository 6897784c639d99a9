//! What can hurt, and what this pack does not know.

use super::document::{Document, wide, words as column};
use crate::words::Words;
use brimful_job::Duty;
use brimful_panels::weld::cautions::Caution;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

pub fn write(document: &mut Document, plan: &Plan, words: &Words<'_>) {
    document.page(&say!(words, "Cautions"));
    document.notice(&say!(words, "This pack is no certificate. It says what was assumed and worked out. Local codes, the vehicle's or boat's own rules, and people licensed to judge come before it."));
    document.heading(&say!(words, "At the bench"));
    let rows: Vec<Vec<Text>> = Caution::ALL
        .iter()
        .map(|&caution| {
            let caution = words.caution(caution);
            vec![
                caution.about,
                say!(
                    words,
                    "{text}\nSource: {source}",
                    text = caution.text,
                    source = caution.source
                ),
            ]
        })
        .collect();
    document.table(
        &[
            column(say!(words, "About")),
            wide(say!(words, "What to do, what not, and the source")),
        ],
        &rows,
    );
    document.heading(&say!(words, "In use"));
    let mut uses = vec![
        say!(words, "No fuel. Fuel tanks are under other laws."),
        say!(
            words,
            "Liquids with detergents or surfactants can crack stressed polyethylene at far lower stress than water does. Ask the maker of the liquid."
        ),
        say!(
            words,
            "Frost: drain it, or leave room for ice to grow by a tenth."
        ),
        say!(
            words,
            "Pipes hang on their own brackets, never on the wall of the tank."
        ),
    ];
    match plan.job.about.duty {
        Duty::Road => uses.push(say!(words, "On the road: the weight and where it sits load axles and coupling; compare with the plated limits at a weighbridge. Fixings, floor and straps are not worked out here unless a page says so.")),
        Duty::Afloat => uses.push(say!(words, "Afloat: weight and free liquid move the boat's trim and stability; somebody who may judge that must.")),
        Duty::Standing => {}
    }
    document.bullets(&uses);
}
