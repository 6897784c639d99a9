//! The space as it was measured, and the bodies that fit it, each with its picture.

use super::document::{Document, figures, wide, words as column};
use crate::draw::room::{Scene, eye, numbered, picture};
use crate::words::Words;
use brimful_geom::solid::Solid;
use brimful_tank::fit::Fit;
use brimful_tank::offer::Offer;
use brimful_tank::plan::Plan;
use brimful_tank::space::Named;
use brimful_tank::way_in::Entry;
use brimful_units::show::decimal;
use brimful_units::{Length, Volume};

/// Width of the picture of a body offered, millimetres.
const SMALL: f64 = 78.0;

/// Nothing for a job without a space.
pub fn write(document: &mut Document, plan: &Plan, fit: Option<&Fit>, words: &Words<'_>) {
    let Some(fit) = fit else { return };
    space(document, plan, fit, words);
    bodies(document, fit, words);
}

fn space(document: &mut Document, plan: &Plan, fit: &Fit, words: &Words<'_>) {
    let room = &fit.room;
    let eye = eye(room, None);
    let (width, height) = document.room();
    document.page("The space");
    document.paragraph("x runs along (on a vehicle: forward), y to the left, z up. The near sides of the space are left away and drawn in dashes; what sticks into it is dark, and what is kept free has dash-dotted edges.");
    let empty = Scene {
        room: Some(room),
        marks: true,
        ..Scene::default()
    };
    document.drawing(picture(&empty, eye, (width * 0.8, height * 0.3)));
    document.heading("With the tank of this pack in it");
    let taken = Scene {
        room: Some(room),
        tanks: std::slice::from_ref(&plan.body.solid),
        ..Scene::default()
    };
    document.drawing(picture(&taken, eye, (width * 0.8, height * 0.3)));
    extents(document, fit, words);
}

/// From where to where everything in the space reaches.
fn extents(document: &mut Document, fit: &Fit, words: &Words<'_>) {
    let room = &fit.room;
    let litres = |solid: &Solid| words.volume(Volume::from_m3(solid.moments().volume));
    let row = |number: String, name: &str, solid: &Solid| {
        let (low, high) = solid.bounds();
        let from_to = |low: f64, high: f64| format!("{} to {}", words.bare(low), words.bare(high));
        vec![
            number,
            name.to_owned(),
            from_to(low.x, high.x),
            from_to(low.y, high.y),
            from_to(low.z, high.z),
            litres(solid),
        ]
    };
    let mut rows = vec![row("-".into(), "clear inside, as measured", &room.shell)];
    rows.extend(
        numbered(&room.obstacles).map(|(number, named)| row(number, &named.name, &named.solid)),
    );
    rows.extend(
        room.keep_free
            .iter()
            .map(|Named { name, solid }| row("-".into(), &format!("kept free: {name}"), solid)),
    );
    rows.push(row(
        "-".into(),
        "allowed for a tank, air kept all round",
        &room.allowed,
    ));
    let unit = words.length_unit();
    document.table(
        &[
            column("No."),
            wide("What"),
            figures(format!("x ({unit})")),
            figures(format!("y ({unit})")),
            figures(format!("z ({unit})")),
            figures("Holds"),
        ],
        &rows,
    );
}

fn bodies(document: &mut Document, fit: &Fit, words: &Words<'_>) {
    document.page("Bodies that fit");
    let sheet = fit.offers.offers.first();
    let thickness = sheet.map_or(Length::ZERO, |offer| offer.figures.thickness);
    document.paragraph(&format!("Bare, of sheet {} thick, without baffles, ribs and fittings. None is beaten by another in everything. A job takes one by its name: [body] fitted = \"...\".", words.thickness(thickness)));
    let eye = eye(&fit.room, None);
    for offer in &fit.offers.offers {
        let candidate = &offer.candidate;
        let tanks: Vec<Solid> = match &candidate.entry {
            Entry::Pieces(pieces) => pieces.iter().map(|piece| piece.solid.clone()).collect(),
            _ => vec![candidate.solid.clone()],
        };
        let scene = Scene {
            room: Some(&fit.room),
            tanks: &tanks,
            ..Scene::default()
        };
        document.heading(words.text.candidate(&candidate.name).as_str());
        document.beside(
            picture(&scene, eye, (SMALL, SMALL * 0.62)),
            &lines(offer, words),
        );
    }
    if !fit.gains.is_empty() {
        document.heading("Ways to more litres, each by itself and worked out");
        let gains = fit.gains.iter().map(|gain| {
            format!(
                "{} more: {} Then {} rated, {} to the brim.",
                words.volume(gain.gain),
                words.text.gain(&gain.change),
                words.volume(gain.rated),
                words.volume(gain.brim)
            )
        });
        document.bullets(&gains.collect::<Vec<_>>());
    }
}

fn lines(offer: &Offer, words: &Words<'_>) -> Vec<String> {
    let (candidate, figures) = (&offer.candidate, &offer.figures);
    let sheets = match figures.left_out {
        0 => figures.sheets.to_string(),
        _ => format!("more than {}", figures.sheets),
    };
    let shape = words.text.given_up_or_none(&candidate.given_up);
    let mut lines = vec![
        format!(
            "{} rated, {} to the brim.",
            words.volume(figures.rated),
            words.volume(figures.brim)
        ),
        format!(
            "{} panels, {} of seam, sheets: {sheets}, {} h of work without sawing, worst reach {}.",
            figures.panels,
            words.run(figures.seams),
            decimal(figures.hours.hours(), 1),
            words.length(figures.reach)
        ),
        format!("Its shape: {shape}."),
        format!("Gives up {}.", words.text.gives_up(offer.gives_up.as_ref())),
    ];
    if let Some(next) = &offer.next_gains {
        lines.push(format!("Next, {}.", words.text.next_gains(next)));
    }
    lines.push(format!(
        "Way in: {}.",
        words.text.way_in(&candidate.entry.summary())
    ));
    if let Some(full) = &offer.full_size {
        lines.push(format!("Full and warm it {}.", words.text.full_size(full)));
    }
    lines
}
