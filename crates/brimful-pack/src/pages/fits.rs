//! The space as it was measured, and the bodies that fit it, each with its picture.

use super::document::{Document, figures, wide, words as column};
use crate::draw::room::{Scene, eye, numbered, picture};
use crate::words::Words;
use brimful_geom::solid::Solid;
use brimful_panels::space::Named;
use brimful_panels::way_in::Entry;
use brimful_tank::fit::Fit;
use brimful_tank::offer::Offer;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
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
    let room = &fit.site.room;
    let eye = eye(room, None);
    let (width, height) = document.room();
    document.page(&say!(words, "The space"));
    document.paragraph(&say!(words, "x runs along (on a vehicle: forward), y to the left, z up. The near sides of the space are left away and drawn in dashes; what sticks into it is dark, and what is kept free has dash-dotted edges."));
    let empty = Scene {
        room: Some(room),
        marks: true,
        ..Scene::default()
    };
    document.drawing(picture(&empty, eye, (width * 0.8, height * 0.3)));
    document.heading(&say!(words, "With the tank of this pack in it"));
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
    let room = &fit.site.room;
    let litres = |solid: &Solid| words.volume(Volume::from_m3(solid.moments().volume));
    let row = |number: Text, name: Text, solid: &Solid| {
        let (low, high) = solid.bounds();
        let from_to = |low: f64, high: f64| {
            say!(
                words,
                "{low} to {high}",
                low = words.bare(low),
                high = words.bare(high)
            )
        };
        vec![
            number,
            name,
            from_to(low.x, high.x),
            from_to(low.y, high.y),
            from_to(low.z, high.z),
            litres(solid),
        ]
    };
    let mut rows = vec![row(
        words.symbol("-"),
        say!(words, "clear inside, as measured"),
        &room.shell,
    )];
    rows.extend(
        numbered(&room.obstacles)
            .map(|(number, named)| row(Text::from(number), words.given(&named.name), &named.solid)),
    );
    rows.extend(room.keep_free.iter().map(|Named { name, solid }| {
        let name = say!(words, "kept free: {name}", name = words.given(name));
        row(words.symbol("-"), name, solid)
    }));
    rows.push(row(
        words.symbol("-"),
        say!(words, "allowed for a tank, air kept all round"),
        &room.allowed,
    ));
    let unit = words.length_unit();
    document.table(
        &[
            column(say!(words, "No.")),
            wide(say!(words, "What")),
            figures(say!(words, "x ({unit})", unit = &unit)),
            figures(say!(words, "y ({unit})", unit = &unit)),
            figures(say!(words, "z ({unit})", unit = &unit)),
            figures(say!(words, "Holds")),
        ],
        &rows,
    );
}

fn bodies(document: &mut Document, fit: &Fit, words: &Words<'_>) {
    document.page(&say!(words, "Bodies that fit"));
    let sheet = fit.offers.offers.first();
    let thickness = sheet.map_or(Length::ZERO, |offer| offer.figures.thickness);
    document.paragraph(&say!(
        words,
        "Bare, of sheet {thickness} thick, without baffles, ribs and fittings. None is beaten by another in everything. A job takes one by its name: {key}",
        thickness = words.thickness(thickness),
        key = words.symbol("[body] fitted = \"...\".")
    ));
    let eye = eye(&fit.site.room, None);
    for offer in &fit.offers.offers {
        let candidate = &offer.candidate;
        let tanks: Vec<Solid> = match &candidate.entry {
            Entry::Pieces(pieces) => pieces.iter().map(|piece| piece.solid.clone()).collect(),
            _ => vec![candidate.solid.clone()],
        };
        let scene = Scene {
            room: Some(&fit.site.room),
            tanks: &tanks,
            ..Scene::default()
        };
        document.heading(&words.candidate(&candidate.name));
        document.beside(
            picture(&scene, eye, (SMALL, SMALL * 0.62)),
            &lines(offer, words),
        );
    }
    if !fit.gains.is_empty() {
        document.heading(&say!(
            words,
            "Ways to more volume, each by itself and worked out"
        ));
        let gains = fit.gains.iter().map(|gain| {
            say!(
                words,
                "{more} more: {change} Then {rated} rated, {brim} to the brim.",
                more = words.volume(gain.gain),
                change = words.gain(&gain.change),
                rated = words.volume(gain.rated),
                brim = words.volume(gain.brim)
            )
        });
        document.bullets(&gains.collect::<Vec<_>>());
    }
}

fn lines(offer: &Offer, words: &Words<'_>) -> Vec<Text> {
    let (candidate, figures) = (&offer.candidate, &offer.figures);
    let sheets = match figures.left_out {
        0 => Text::from(figures.sheets),
        _ => say!(words, "more than {sheets}", sheets = figures.sheets),
    };
    let shape = words.given_up_or_none(&candidate.given_up);
    let mut lines = vec![
        say!(
            words,
            "{rated} rated, {brim} to the brim.",
            rated = words.volume(figures.rated),
            brim = words.volume(figures.brim)
        ),
        say!(
            words,
            "{panels} panels, {seam} of seam, sheets: {sheets}, {hours} h of work, worst reach {reach}.",
            panels = figures.panels,
            seam = words.long_length(figures.seams),
            sheets = sheets,
            hours = words.number(figures.hours.hours(), 1),
            reach = words.length(figures.reach)
        ),
        say!(words, "Its shape: {shape}.", shape = shape),
        say!(
            words,
            "Gives up {what}.",
            what = words.gives_up(offer.gives_up.as_ref())
        ),
    ];
    if let Some(next) = &offer.next_gains {
        let gains = words.next_gains(next);
        lines.push(say!(words, "Next, {gains}.", gains = gains));
    }
    let entry = words.way_in(&candidate.entry.summary());
    lines.push(say!(words, "Way in: {entry}.", entry = entry));
    if let Some(full) = &offer.full_size {
        let full = words.full_size(full);
        lines.push(say!(words, "Full and warm it {full}.", full = full));
    }
    lines
}
