//! The way in, pose by pose.

use super::document::Document;
use crate::draw::canvas::Drawing;
use crate::draw::room::{Scene, eye, picture};
use crate::words::Words;
use brimful_geom::frame::Frame;
use brimful_geom::passage::Opening;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_panels::way_in::{Entry, Passage};
use brimful_tank::fit::Fit;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};

/// Poses drawn of one way at most; of more those between are left out evenly.
const MOST: usize = 8;
/// An opening by itself stood up for the eye: its height upright, its way in away from the eye.
const STOOD_UP: Frame = Frame {
    origin: Point3::ORIGIN,
    x: Vec3::new(-1.0, 0.0, 0.0),
    y: Vec3::Z,
    z: Vec3::Y,
};

/// Nothing where no opening is stated.
pub fn write(document: &mut Document, plan: &Plan, fit: Option<&Fit>, words: &Words<'_>) {
    let (Some(fit), Some(tank)) = (fit, &plan.way_in) else {
        return;
    };
    document.page(&say!(words, "The way in"));
    document.paragraph(&say!(
        words,
        "This tank: {entry}. {fittings} The opening is drawn heavy, less the clearance kept in it.",
        entry = words.way_in(&tank.entry.summary()),
        fittings = words.fittings_on_way(&tank.fittings)
    ));
    if !tank.must_come_off.is_empty() {
        let names = tank.must_come_off.iter().map(|name| words.given(name));
        document.paragraph(&say!(
            words,
            "It is drawn with these fittings off, since it does not get in with them on: {names}.",
            names = Text::join(names, ", ")
        ));
    }
    match &tank.entry {
        Entry::Free | Entry::NotFound(_) => {}
        Entry::Straight(passage) => straight(document, &tank.moved, passage, words),
        Entry::Pushed(passage) | Entry::Turned(passage) => {
            document.paragraph(&say!(
                words,
                "The least air on the way is {air}.",
                air = words.length(passage.margin)
            ));
            in_room(document, fit, &tank.moved, &[], passage, words);
        }
        Entry::Pieces(pieces) => {
            let mut before: Vec<Solid> = Vec::new();
            for (number, piece) in pieces.iter().enumerate() {
                document.heading(&say!(words, "Piece {number}", number = number + 1));
                document.paragraph(&words.piece(piece));
                if let Some(fittings) = tank.pieces.get(number) {
                    let fittings = words.piece_fittings(fittings);
                    document.paragraph(&say!(words, "This piece {fittings}.", fittings = fittings));
                }
                match &piece.passage {
                    Some(passage) => in_room(document, fit, &piece.solid, &before, passage, words),
                    None => in_place(document, fit, &piece.solid, &before, words),
                }
                before.push(piece.solid.clone());
            }
        }
    }
}

/// Through an opening that lies somewhere before the space.
fn straight(document: &mut Document, tank: &Solid, passage: &Passage, words: &Words<'_>) {
    let stood = |solid: &Solid| solid.moved(&STOOD_UP);
    let poses = shown(passage).into_iter();
    let poses: Vec<Solid> = poses.map(|pose| stood(&tank.moved(pose))).collect();
    let corners = corners(&passage.opening).map(|corner| STOOD_UP.world_from_frame(corner));
    let of = |number: usize| Scene {
        tanks: &poses[number..=number],
        elsewhere: &poses,
        opening: Some(corners),
        ..Scene::default()
    };
    let eye = Vec3::new(0.8, -1.0, 0.6);
    let captions = [say!(words, "Before the opening"), say!(words, "Behind it")];
    let pictures = captions.into_iter().enumerate().take(poses.len());
    let pictures =
        pictures.map(|(number, says)| (picture(&of(number), eye, document.half()), says));
    let pictures: Vec<(Drawing, Text)> = pictures.collect();
    document.pictures(pictures);
}

/// Through an opening in a side of the space, to its place among those that are in already.
fn in_room(
    document: &mut Document,
    fit: &Fit,
    tank: &Solid,
    before: &[Solid],
    passage: &Passage,
    words: &Words<'_>,
) {
    let poses = shown(passage).into_iter();
    let poses: Vec<Solid> = poses.map(|pose| tank.moved(pose)).collect();
    let eye = eye(&fit.site.room, Some(passage.opening.frame.z));
    let last = poses.len().saturating_sub(1);
    let drawn = |number: usize| {
        let tanks = [before, &poses[number..=number]].concat();
        let scene = Scene {
            room: Some(&fit.site.room),
            tanks: &tanks,
            elsewhere: &poses,
            opening: Some(corners(&passage.opening)),
            marks: false,
        };
        let says = match number {
            0 => say!(words, "1. Before the opening"),
            _ if number == last => say!(words, "{number}. In its place", number = number + 1),
            _ => say!(words, "{number}. On the way", number = number + 1),
        };
        (picture(&scene, eye, document.half()), says)
    };
    let pictures: Vec<(Drawing, Text)> = (0..poses.len()).map(drawn).collect();
    document.pictures(pictures);
}

/// In its place among those that are in already.
fn in_place(document: &mut Document, fit: &Fit, tank: &Solid, before: &[Solid], words: &Words<'_>) {
    let tanks = [before, std::slice::from_ref(tank)].concat();
    let scene = Scene {
        room: Some(&fit.site.room),
        tanks: &tanks,
        ..Scene::default()
    };
    let drawing = picture(&scene, eye(&fit.site.room, None), document.half());
    document.pictures(vec![(drawing, say!(words, "Where it is to stand"))]);
}

/// The poses that are drawn: those between which it moves straight, the first and the last among
/// them.
fn shown(passage: &Passage) -> Vec<&Frame> {
    let last = passage.stations.len().saturating_sub(1);
    let count = passage.stations.len().min(MOST);
    let spread = |i: usize| i * last / count.saturating_sub(1).max(1);
    let numbers = (0..count).map(|i| passage.stations[spread(i)]);
    numbers
        .filter_map(|number| passage.poses.get(number))
        .collect()
}

fn corners(opening: &Opening) -> [Point3; 4] {
    let (w, h) = (opening.width / 2.0, opening.height / 2.0);
    [(-w, -h), (w, -h), (w, h), (-w, h)]
        .map(|(x, y)| opening.frame.world_from_frame(Point3::new(x, y, 0.0)))
}
