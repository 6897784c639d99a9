//! The assembled tank as solids (STEP) and as triangles (glTF).

use crate::error::PackError;
use crate::file::{PackFile, file};
use crate::words::Words;
use brimful_formats::gltf::{GltfPart, to_glb};
use brimful_formats::step::{RoundHole, StepFace, StepSolid, to_step};
use brimful_geom::plate::{Cutout, Plate};
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::solid_triangles;
use brimful_geom::vector::Point3;
use brimful_panels::panel::{Panel, Role};
use brimful_tank::plan::Plan;

/// All finished panels in their places, round holes as true cylinders.
pub fn step(plan: &Plan, words: &Words<'_>) -> Result<PackFile, PackError> {
    let solids: Vec<StepSolid> = plan
        .panels
        .iter()
        .map(|panel| step_solid(panel, words))
        .collect();
    file("tank.step".into(), to_step(&plan.job.about.name, &solids))
}

/// All finished panels in their places, a colour a role.
pub fn glb(plan: &Plan, words: &Words<'_>) -> Result<PackFile, PackError> {
    let parts: Vec<GltfPart> = plan
        .panels
        .iter()
        .map(|panel| gltf_part(panel, words))
        .collect();
    file("tank.glb".into(), to_glb(&parts))
}

fn step_solid(panel: &Panel, words: &Words<'_>) -> StepSolid {
    let plate = &panel.finished;
    let straight = plate
        .cutouts
        .iter()
        .filter(|cutout| matches!(cutout, Cutout::Straight(_)));
    let plate_without_round = Plate {
        cutouts: straight.cloned().collect(),
        ..plate.clone()
    };
    // The solid's first two faces are the plate's outside and inside.
    let solid = plate_without_round.solid_with_cutouts();
    let faces = solid.faces.iter().map(|face| StepFace {
        normal: face.plane.normal,
        loops: face.loops.clone(),
    });
    let round_holes = plate.cutouts.iter().filter_map(|cutout| match cutout {
        Cutout::Round { centre, radius } => {
            let at = |depth: f64| {
                plate
                    .frame
                    .world_from_frame(Point3::new(centre.x, centre.y, depth))
            };
            Some(RoundHole {
                start: at(0.0),
                end: at(-plate.thickness),
                radius: *radius,
                start_face: 0,
                end_face: 1,
            })
        }
        Cutout::Straight(_) => None,
    });
    StepSolid {
        name: words.marked(panel).into(),
        faces: faces.collect(),
        round_holes: round_holes.collect(),
        vertices: solid.vertices,
    }
}

fn gltf_part(panel: &Panel, words: &Words<'_>) -> GltfPart {
    // Outer panels let the inner ones show through.
    let (colour, opacity) = match panel.role {
        Role::Floor => ([150, 165, 180], 0.6),
        Role::Lid => ([205, 215, 225], 0.35),
        Role::Wall => ([180, 195, 210], 0.45),
        Role::Baffle => ([225, 150, 70], 1.0),
        Role::Divider => ([190, 90, 60], 1.0),
        Role::Stay => ([235, 190, 90], 1.0),
        Role::Rib => ([95, 120, 140], 1.0),
    };
    GltfPart {
        name: words.marked(panel).into(),
        colour,
        opacity,
        triangles: triangles(&panel.finished.solid_with_cutouts()),
    }
}

fn triangles(solid: &Solid) -> Vec<[Point3; 3]> {
    let corners = |triangle: [usize; 3]| triangle.map(|corner| solid.vertices[corner]);
    solid_triangles(solid).into_iter().map(corners).collect()
}
