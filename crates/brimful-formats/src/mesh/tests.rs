#![allow(clippy::unwrap_used, reason = "a test may panic")]

use super::*;

const OBJ: &str = "# a square\nv 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nvn 0 0 1\nf 1//1 2//1 3//1 -1\n";

#[test]
fn a_face_of_four_becomes_two_triangles() {
    let mesh = read_mesh(OBJ.as_bytes(), MeshFormat::Obj).unwrap();
    assert_eq!(mesh.points.len(), 4);
    assert_eq!(mesh.triangles, [[0, 1, 2], [0, 2, 3]]);
}

#[test]
fn a_fault_has_its_place() {
    let fault = |text: &str, format| read_mesh(text.as_bytes(), format).unwrap_err().to_string();
    assert_eq!(
        fault("v 0 0\n", MeshFormat::Obj),
        "At line 1 a point has no three numbers."
    );
    assert_eq!(
        fault("v 0 0 0\nf 1 2 3\n", MeshFormat::Obj),
        "At line 2 a face names a point that is not there."
    );
    assert_eq!(
        fault("v 0 0 nan\n", MeshFormat::Obj),
        "At line 1 a coordinate is no number."
    );
    assert_eq!(
        fault("ply\nformat ascii 1.0\nend_header\n", MeshFormat::Ply),
        MeshError::Empty.to_string()
    );
    assert!(fault("{\"buffers\":[{\"uri\":\"far.bin\"}]}", MeshFormat::Gltf).contains("far.bin"));
}

/// A triangle in base 64, moved and doubled by its node.
#[test]
fn a_node_puts_its_mesh_in_place() {
    let text = r#"{"nodes":[{"children":[1],"translation":[1,0,0]},{"mesh":0,"scale":[2,2,2]}],
        "meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
        "accessors":[{"bufferView":0,"componentType":5126,"count":3,"type":"VEC3"}],
        "bufferViews":[{"buffer":0}],
        "buffers":[{"uri":"data:;base64,AAAAAAAAAAAAAAAAAACAPwAAAAAAAAAAAAAAAAAAgD8AAAAA"}]}"#;
    let mesh = read_mesh(text.as_bytes(), MeshFormat::Gltf).unwrap();
    assert_eq!(
        mesh.points,
        [[1.0, 0.0, 0.0], [3.0, 0.0, 0.0], [1.0, 2.0, 0.0]]
    );
    assert_eq!(mesh.triangles, [[0, 1, 2]]);
}

/// Files that ask for more work than they have bytes for.
#[test]
fn a_small_file_is_small_work() {
    let refused = |text: &str| {
        let fault = read_mesh(text.as_bytes(), MeshFormat::Gltf).unwrap_err();
        fault.to_string()
    };
    let doubled: Vec<String> = (1..64)
        .map(|n| format!("{{\"children\":[{n},{n}]}}"))
        .collect();
    let doubled = format!("{{\"nodes\":[{},{{}}]}}", doubled.join(","));
    assert!(refused(&doubled).contains("not a tree"));
    let heaped = r#"{"nodes":[{"mesh":0}],"meshes":[{"primitives":[{"attributes":{"POSITION":0}}]}],
        "accessors":[{"bufferView":0,"componentType":5126,"count":9000000000,"type":"VEC3"}],
        "bufferViews":[{"buffer":0,"byteStride":0}],"buffers":[{"uri":"data:;base64,AAAAAAAAAAAAAAAA"}]}"#;
    assert!(refused(heaped).contains("one over the other"));
}

/// Whatever the bytes, there is an answer and no panic.
#[test]
fn garbage_is_refused() {
    let mut random = fastrand::Rng::with_seed(5);
    let heads: [&[u8]; 6] = [
        b"ply\nformat binary_little_endian 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\nelement face 9\nproperty list uchar int vertex_indices\nend_header\n",
        b"solid a\nfacet\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\n",
        b"glTF\x02\0\0\0\xff\0\0\0\x04\0\0\0JSON",
        OBJ.as_bytes(),
        &[0; 84],
        b"{\"scenes\":[{\"nodes\":[0]}],\"nodes\":[{\"children\":[0]}]}",
    ];
    for _ in 0..20_000 {
        let mut bytes = heads[random.usize(..heads.len())].to_vec();
        for _ in 0..random.usize(..6) {
            let at = random.usize(..bytes.len());
            bytes[at] = random.u8(..);
        }
        bytes.extend((0..random.usize(..80)).map(|_| random.u8(..)));
        bytes.truncate(random.usize(1..=bytes.len()));
        for format in [
            MeshFormat::Obj,
            MeshFormat::Ply,
            MeshFormat::Stl,
            MeshFormat::Gltf,
        ] {
            if let Ok(mesh) = read_mesh(&bytes, format) {
                let there = |corner: &usize| *corner < mesh.points.len();
                assert!(mesh.triangles.iter().flatten().all(there));
            }
        }
    }
}
