//! Any bytes at all as a scan: refused, or read to triangles between points that are there. The
//! first byte says which format the rest is.
#![no_main]

// The file and not the crate, which would bring an instrumented document compiler with it.
#[allow(dead_code, reason = "the name of a file says nothing here")]
#[path = "../../crates/brimful-formats/src/mesh/mod.rs"]
mod mesh;

use libfuzzer_sys::fuzz_target;
use mesh::{MOST_TRIANGLES, MeshFormat, read_mesh};

fuzz_target!(|bytes: &[u8]| {
    let Some((format, bytes)) = bytes.split_first() else {
        return;
    };
    let format = match format {
        b'o' => MeshFormat::Obj,
        b'p' => MeshFormat::Ply,
        b's' => MeshFormat::Stl,
        b'g' => MeshFormat::Gltf,
        _ => return,
    };
    if let Ok(surface) = read_mesh(bytes, format) {
        assert!((1..=MOST_TRIANGLES).contains(&surface.triangles.len()));
        assert!(surface.points.iter().flatten().all(|value| value.is_finite()));
        let mut corners = surface.triangles.iter().flatten();
        assert!(corners.all(|corner| *corner < surface.points.len()));
    }
});
