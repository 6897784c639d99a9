//! Writes one sample of each kind of file into the directory given, for the outside readers of
//! `tests/outside`. The figures they must find are worked out here by hand formulas, not by the
//! writers.

use std::error::Error;
use std::f64::consts::PI;
use std::path::PathBuf;
use std::{env, fs};

use brimful_formats::csv::{CsvCell, CsvColumn, CsvStyle, CsvTable, DecimalMark, Separator};
use brimful_formats::dxf::{DxfColour, DxfDrawing, DxfUnit, DxfVertex};
use brimful_formats::gltf::{GltfPart, to_glb};
use brimful_formats::step::{RoundHole, StepFace, StepSolid, to_step};
use brimful_geom::vector::{Point2, Point3, Vec3};
use serde_json::json;

fn main() -> Result<(), Box<dyn Error>> {
    let place = PathBuf::from(
        env::args()
            .nth(1)
            .ok_or("Name the directory to write into.")?,
    );
    fs::create_dir_all(&place)?;
    fs::write(place.join("panel_mm.dxf"), drawing(DxfUnit::Millimetre)?)?;
    fs::write(place.join("panel_inch.dxf"), drawing(DxfUnit::Inch)?)?;
    fs::write(place.join("dxf_expected.json"), dxf_expected().to_string())?;
    let (solids, expected) = solids();
    fs::write(place.join("assembly.step"), to_step("Öltank 'A'", &solids)?)?;
    fs::write(place.join("assembly_expected.json"), expected.to_string())?;
    fs::write(place.join("parts.glb"), to_glb(&triangles(&solids))?)?;
    fs::write(place.join("list.csv"), table()?)?;
    Ok(())
}

fn drawing(unit: DxfUnit) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut drawing = DxfDrawing::new(unit);
    drawing
        .layer("OUTLINE", DxfColour::Ink)
        .layer("HOLES", DxfColour::Red)
        .layer("marks", DxfColour::Grey);
    let corners =
        [(0.0, 0.0), (0.374, 0.0), (0.374, 0.35), (0.0, 0.35)].map(|(x, y)| Point2::new(x, y));
    drawing.closed_polyline("OUTLINE", &corners);
    // A slot: two straight sides and two half circles.
    let quarter = 1.0;
    let slot = [
        (0.1, 0.1, 0.0),
        (0.2, 0.1, quarter),
        (0.2, 0.14, 0.0),
        (0.1, 0.14, quarter),
    ];
    drawing.closed_outline(
        "HOLES",
        &slot.map(|(x, y, bulge)| DxfVertex {
            point: Point2::new(x, y),
            bulge,
        }),
    );
    drawing.circle("HOLES", Point2::new(0.3, 0.3), 0.02);
    drawing.line("marks", Point2::new(0.0, 0.2), Point2::new(0.374, 0.2));
    drawing.text("marks", Point2::new(0.05, 0.25), 0.01, "Lid Ø 40 \"A\"");
    Ok(drawing.to_bytes()?)
}

fn dxf_expected() -> serde_json::Value {
    json!({
        "panel_mm.dxf": { "unit": "mm", "closed_area_m2": [0.374 * 0.35, 0.1 * 0.04 + PI * 0.02 * 0.02], "circles_radius_m": [0.02] },
        "panel_inch.dxf": { "unit": "inch", "closed_area_m2": [0.374 * 0.35, 0.1 * 0.04 + PI * 0.02 * 0.02], "circles_radius_m": [0.02] },
    })
}

/// A drilled and windowed plate, a wedge on its edge and a plate tilted in space.
fn solids() -> (Vec<StepSolid>, serde_json::Value) {
    let mut plate = prism(
        "Lid Ø",
        &[(0.0, 0.0), (0.4, 0.0), (0.4, 0.3), (0.0, 0.3)],
        Point3::ORIGIN,
        [Vec3::X, Vec3::Y, Vec3::Z * 0.008],
    );
    window(
        &mut plate,
        &[(0.05, 0.05), (0.15, 0.05), (0.1, 0.15)],
        Vec3::Z * 0.008,
    );
    plate.round_holes = vec![hole((0.3, 0.1), 0.03), hole((0.3, 0.2), 0.025)];
    let plate_volume = 0.008 * (0.4 * 0.3 - 0.1 * 0.1 / 2.0 - PI * (0.03 * 0.03 + 0.025 * 0.025));

    let wedge = prism(
        "Wedge",
        &[(0.0, 0.0), (0.4, 0.0), (0.3, 0.2), (0.0, 0.2)],
        Point3::new(0.0, 0.006, 0.008),
        [Vec3::X, Vec3::Z, Vec3::Y * -0.006],
    );
    // The outline is seen from -y, so that it runs counterclockwise about the way of extrusion.
    let wedge_volume = 0.006 * 0.2 * (0.4 + 0.3) / 2.0;

    let (cosine, sine) = (0.6, 0.8);
    let (x, y, z) = (
        Vec3::new(cosine, 0.0, sine),
        Vec3::Y,
        Vec3::new(-sine, 0.0, cosine),
    );
    let origin = Point3::new(1.0, 2.0, 0.5);
    let mut tilted = prism(
        "Tilted",
        &[(0.0, 0.0), (0.2, 0.0), (0.2, 0.1), (0.0, 0.1)],
        origin,
        [x, y, z * 0.01],
    );
    let centre = origin + x * 0.1 + y * 0.05;
    tilted.round_holes.push(RoundHole {
        start: centre,
        end: centre + z * 0.01,
        radius: 0.02,
        start_face: 0,
        end_face: 1,
    });
    let tilted_volume = 0.01 * (0.2 * 0.1 - PI * 0.02 * 0.02);

    let expected = json!({ "solids": [
        { "name": "Lid Ø", "volume_m3": plate_volume },
        { "name": "Wedge", "volume_m3": wedge_volume },
        { "name": "Tilted", "volume_m3": tilted_volume },
    ]});
    (vec![plate, wedge, tilted], expected)
}

fn hole(centre: (f64, f64), radius: f64) -> RoundHole {
    let start = Point3::new(centre.0, centre.1, 0.0);
    RoundHole {
        start,
        end: start + Vec3::Z * 0.008,
        radius,
        start_face: 0,
        end_face: 1,
    }
}

/// An outline in the frame `[x, y]`, drawn along the third vector; face 0 is the outline itself,
/// face 1 its copy. The outline runs counterclockwise about the third vector.
fn prism(name: &str, outline: &[(f64, f64)], origin: Point3, [x, y, way]: [Vec3; 3]) -> StepSolid {
    let count = outline.len();
    let lower = outline.iter().map(|&(u, v)| origin + x * u + y * v);
    let vertices: Vec<Point3> = lower.clone().chain(lower.map(|p| p + way)).collect();
    let mut faces = vec![
        StepFace {
            normal: -way,
            loops: vec![(0..count).rev().collect()],
        },
        StepFace {
            normal: way,
            loops: vec![(count..2 * count).collect()],
        },
    ];
    for at in 0..count {
        let next = (at + 1) % count;
        let normal = (vertices[next] - vertices[at]).cross(way);
        faces.push(StepFace {
            normal,
            loops: vec![vec![at, next, next + count, at + count]],
        });
    }
    StepSolid {
        name: name.into(),
        vertices,
        faces,
        round_holes: Vec::new(),
    }
}

/// Cuts a window, counterclockwise seen from the end of `way`, through a prism along z.
fn window(solid: &mut StepSolid, outline: &[(f64, f64)], way: Vec3) {
    let (first, count) = (solid.vertices.len(), outline.len());
    let lower = outline.iter().map(|&(x, y)| Point3::new(x, y, 0.0));
    solid
        .vertices
        .extend(lower.clone().chain(lower.map(|p| p + way)));
    solid.faces[0].loops.push((first..first + count).collect());
    solid.faces[1]
        .loops
        .push((first + count..first + 2 * count).rev().collect());
    for at in 0..count {
        let (here, next) = (first + at, first + (at + 1) % count);
        let normal = way.cross(solid.vertices[next] - solid.vertices[here]);
        solid.faces.push(StepFace {
            normal,
            loops: vec![vec![next, here, here + count, next + count]],
        });
    }
}

/// The outer loops of the convex faces as fans.
fn triangles(solids: &[StepSolid]) -> Vec<GltfPart> {
    let fan = |solid: &StepSolid, corners: &[usize]| -> Vec<[Point3; 3]> {
        corners
            .windows(2)
            .skip(1)
            .map(|pair| [corners[0], pair[0], pair[1]].map(|at| solid.vertices[at]))
            .collect()
    };
    let part = |solid: &StepSolid| GltfPart {
        name: solid.name.clone(),
        colour: [200, 220, 235],
        opacity: if solid.name == "Wedge" { 1.0 } else { 0.5 },
        triangles: solid
            .faces
            .iter()
            .flat_map(|face| fan(solid, &face.loops[0]))
            .collect(),
    };
    solids.iter().map(part).collect()
}

fn table() -> Result<Vec<u8>, Box<dyn Error>> {
    let table = CsvTable {
        columns: vec![
            CsvColumn {
                name: "panel".into(),
                unit: None,
            },
            CsvColumn {
                name: "length".into(),
                unit: Some("mm".into()),
            },
        ],
        rows: vec![vec![
            CsvCell::Text("lid; \"left\"\nØ".into()),
            CsvCell::Number {
                value: 374.25,
                decimals: 2,
            },
        ]],
    };
    Ok(table.to_bytes(CsvStyle {
        separator: Separator::Semicolon,
        decimal_mark: DecimalMark::Comma,
    })?)
}
