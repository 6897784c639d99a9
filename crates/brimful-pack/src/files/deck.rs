//! The whole-tank check as a deck for a general finite-element program, so that anyone can
//! run it again.

use crate::error::PackError;
use crate::file::{PackFile, file};
use crate::words::Words;
use brimful_formats::deck::{self, Deck, DeckContact, DeckShell, DeckSpring};
use brimful_strength::whole::{CaseRun, Picture};
use brimful_tank::plan::Plan;
use brimful_text::say;

/// The deck of the lasting load that asks most of the tank; none for a draft.
pub fn deck(plan: &Plan, words: &Words<'_>) -> Result<Option<PackFile>, PackError> {
    let Some(whole) = &plan.whole else {
        return Ok(None);
    };
    let Some((picture, run)) = whole
        .picture
        .as_ref()
        .and_then(|picture| Some((picture, whole.case(picture.case)?)))
    else {
        return Ok(None);
    };
    let text = deck::write(&model(plan, picture, run, words));
    file("shell.inp".into(), text.map(String::into_bytes)).map(Some)
}

fn model(plan: &Plan, picture: &Picture, run: &CaseRun, words: &Words<'_>) -> Deck {
    let shell = &picture.shell;
    let freedoms = [1, 2, 3, 4, 5, 6];
    let forces = picture.load.forces.iter().flat_map(|(node, six)| {
        let own = freedoms.iter().zip(six).filter(|(_, value)| **value != 0.0);
        own.map(|(&freedom, &value)| (*node, freedom, value))
            .collect::<Vec<_>>()
    });
    Deck {
        title: vec![
            say!(
                words,
                "{tank}: {load}",
                tank = words.given(&plan.job.about.name),
                load = words.case(run.case.id)
            )
            .into(),
            say!(
                words,
                "Middle surfaces of the panels; the mesh of the last check."
            )
            .into(),
        ],
        nodes: shell.nodes.iter().map(|point| point.to_array()).collect(),
        shells: (0..shell.plates.len())
            .filter_map(|plate| sheet(plan, picture, plate))
            .collect(),
        constraints: Vec::new(),
        springs: shell
            .springs
            .iter()
            .map(|spring| DeckSpring {
                node: spring.node,
                direction: spring.direction.to_array(),
                stiffness: spring.stiffness,
            })
            .collect(),
        contacts: shell
            .contacts
            .iter()
            .map(|contact| DeckContact {
                node: contact.node,
                push: contact.push.to_array(),
                gap: contact.gap,
                stiffness: contact.stiffness,
            })
            .collect(),
        forces: forces.collect(),
        body_acceleration: picture.load.body_acceleration.to_array(),
        large: true,
    }
}

/// The triangles of one flat, with the mean pressure on each.
fn sheet(plan: &Plan, picture: &Picture, plate: usize) -> Option<DeckShell> {
    let shell = &picture.shell;
    let own: Vec<usize> = (0..shell.triangles.len())
        .filter(|&i| shell.triangles[i].plate == plate)
        .collect();
    let first = *own.first()?;
    let mark = plan
        .panels
        .get(picture.panel[first])
        .map_or("", |panel| panel.mark.as_str());
    let pressure = |&i: &usize| {
        let corners = picture.load.pressures.get(i);
        corners.map_or(0.0, |corners| corners.iter().sum::<f64>() / 3.0)
    };
    let section = &shell.plates[plate];
    Some(DeckShell {
        name: format!("{mark}-flat-{}", plate + 1),
        triangles: own.iter().map(|&i| shell.triangles[i].nodes).collect(),
        pressures: own.iter().map(pressure).collect(),
        thickness: section.thickness,
        modulus: section.modulus,
        poisson: section.poisson,
        density: section.density,
        // Warmth grows every sheet alike, every way in its plane.
        growth: picture
            .load
            .initial_strains
            .get(first)
            .map_or(0.0, |strain| strain.stretch[0]),
    })
}
