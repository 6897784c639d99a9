//! Writes random spaces with every body fitted into each, as JSON lines for an outside library to
//! judge: `cargo run --release -p brimful-tank --example fitted_bodies 1000`. A tenth as many bodies moved in by
//! half a sheet's thickness follow, for the judge of offsets.

#![allow(clippy::print_stdout, reason = "an example that prints")]
#![allow(clippy::unwrap_used, reason = "a tool for testing ends where it fails")]

#[path = "../tests/common/mod.rs"]
mod common;

use brimful_geom::inscribed::{Search, level_box};
use brimful_geom::offset::offset_inward;
use brimful_geom::solid::Solid;
use brimful_geom::triangulate::solid_triangles;
use brimful_panels::candidate::candidates;
use brimful_panels::growth::Growth;
use brimful_panels::progress::Unwatched;
use brimful_panels::space::Room;
use common::RandomSpace;
use rayon::prelude::*;

const SEARCH: Search = Search {
    gap: 0.02,
    boxes: 500,
    angles: 1,
};

/// By no half of whole millimetres, so that no strip is moved to nothing at all, metres.
const MOVED: f64 = 0.0037;

fn main() {
    let wanted = std::env::args()
        .nth(1)
        .and_then(|text| text.parse().ok())
        .unwrap_or(50);
    let mut rng = fastrand::Rng::with_seed(311);
    let spaces: Vec<RandomSpace> = (0..wanted).map(|_| RandomSpace::new(&mut rng)).collect();
    let lines: Vec<String> = spaces.par_iter().enumerate().filter_map(line).collect();
    println!("{}", lines.join("\n"));
}

/// What HDPE does over 35 K, by the coefficients of property.csv.
const GROWTH: Growth = Growth {
    strain: Some([4.55e-3, 7.0e-3]),
    kelvin: 35.0,
};

/// A space with what is fitted into it; none where nothing of it is left.
fn line((number, random): (usize, &RandomSpace)) -> Option<String> {
    let space = random.space("left");
    let room = Room::new(&space, None).ok()?;
    let fitted: Vec<String> = candidates(&space, &room, &GROWTH, &Unwatched)
        .candidates
        .iter()
        .map(|candidate| mesh(&candidate.solid))
        .collect();
    let boxed = level_box(&room.allowed, &SEARCH).ok()?;
    // Bodies with square corners alone, whose offset the judge knows another way.
    let offset = (number % 10 == 0 && random.lean == 0)
        .then(|| offset_inward(&room.allowed, &vec![MOVED; room.allowed.faces.len()]).ok())
        .flatten();
    Some(format!(
        "{{\"size\":{:?},\"clearance\":{},\"lean\":{},\"obstacles\":{:?},\"free\":{},\"allowed\":{},\"fitted\":[{}],\"box\":{:?},\"bound\":{:?},\"offset\":{}}}",
        random.size,
        random.clearance,
        random.lean,
        random.obstacles,
        mesh(&room.free),
        mesh(&room.allowed),
        fitted.join(","),
        boxed.size,
        boxed.bound,
        offset.map_or("null".to_owned(), |offset| mesh(&offset.solid)),
    ))
}

fn mesh(solid: &Solid) -> String {
    let points: Vec<_> = solid.vertices.iter().map(|p| p.to_array()).collect();
    format!(
        "{{\"vertices\":{points:?},\"triangles\":{:?},\"volume\":{:?}}}",
        solid_triangles(solid),
        solid.moments().volume
    )
}
