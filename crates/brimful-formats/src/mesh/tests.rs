use super::*;
use crate::gltf::{GltfPart, to_glb};
use brimful_geom::vector::Point3;

/// A corner cut off a box: enough to tell inside from outside.
const OBJ: &str = "# tetrahedron\nv 0 0 0\nv 3 0 0\nv 0 2 0\nv 0 0 1\nf 1 3 2\nf 1/1 2/2 4/3\nf 1//1 4//2 3//3\nf -3 -2 -1\n";

fn volume(mesh: &TriangleMesh) -> f64 {
    let det = |[a, b, c]: [[f64; 3]; 3]| {
        a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
            + a[2] * (b[0] * c[1] - b[1] * c[0])
    };
    mesh.triangles
        .iter()
        .map(|t| det(t.map(|v| mesh.points[v])) / 6.0)
        .sum()
}

#[test]
fn obj_ply_and_stl_text_say_the_same() {
    let obj = read_mesh(OBJ.as_bytes(), MeshFormat::Obj).unwrap();
    assert_eq!((obj.points.len(), obj.triangles.len()), (4, 4));
    assert!((volume(&obj) - 1.0).abs() < 1e-15);
    let ply = "ply\nformat ascii 1.0\ncomment a\nelement vertex 4\nproperty float x\nproperty float y\nproperty float z\nproperty uchar red\nelement face 4\nproperty list uchar int vertex_indices\nend_header\n0 0 0 1\n3 0 0 1\n0 2 0 1\n0 0 1 1\n3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n";
    let ply = read_mesh(ply.as_bytes(), MeshFormat::Ply).unwrap();
    assert_eq!(ply, obj);
    let mut stl = String::from("solid t\n");
    for t in &obj.triangles {
        stl += "facet normal 0 0 0\nouter loop\n";
        for v in t {
            let [x, y, z] = obj.points[*v];
            stl += &format!("vertex {x} {y} {z}\n");
        }
        stl += "endloop\nendfacet\n";
    }
    let stl = read_mesh(stl.as_bytes(), MeshFormat::Stl).unwrap();
    assert_eq!((stl.points.len(), stl.triangles.len()), (12, 4));
    assert!((volume(&stl) - 1.0).abs() < 1e-15);
}

#[test]
fn what_our_own_writer_makes_comes_back() {
    let p = Point3::new;
    let corners = [
        p(0.0, 0.0, 0.0),
        p(3.0, 0.0, 0.0),
        p(0.0, 2.0, 0.0),
        p(0.0, 0.0, 1.0),
    ];
    let triangles =
        [[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]].map(|t| t.map(|i: usize| corners[i]));
    let part = GltfPart {
        name: "part".into(),
        colour: [1, 2, 3],
        opacity: 1.0,
        triangles: triangles.to_vec(),
    };
    let bytes = to_glb(&[part]).unwrap();
    let mesh = read_mesh(&bytes, MeshFormat::Gltf).unwrap();
    assert_eq!(mesh.triangles.len(), 4);
    assert!((volume(&mesh) - 1.0).abs() < 1e-12);
}

#[test]
fn faults_say_where() {
    let fault = |text: &str, format| read_mesh(text.as_bytes(), format).unwrap_err();
    assert_eq!(
        fault("v 0 0 0\nv 1 x 0\n", MeshFormat::Obj).place,
        Place::Line(2)
    );
    assert!(
        fault("v 0 0 0\nf 1 1 9\n", MeshFormat::Obj)
            .what
            .contains("point 8")
    );
    assert!(fault("", MeshFormat::Obj).what.contains("no triangle"));
    assert_eq!(fault("plx\n", MeshFormat::Ply).place, Place::Line(1));
    assert!(fault("{}", MeshFormat::Gltf).what.contains("no triangle"));
    assert!(fault("short", MeshFormat::Stl).what.contains("head"));
    let far = "ply\nformat ascii 1.0\nelement vertex 99999999999\nproperty float x\nproperty float y\nproperty float z\nend_header\n1 2 3\n";
    assert!(fault(far, MeshFormat::Ply).what.contains("too early"));
}

#[test]
fn garbage_never_panics() {
    let p = Point3::new;
    let part = GltfPart {
        name: "part".into(),
        colour: [1, 2, 3],
        opacity: 1.0,
        triangles: vec![[p(0.0, 0.0, 0.0), p(3.0, 0.0, 0.0), p(0.0, 2.0, 0.0)]],
    };
    let binary_ply = b"ply\nformat binary_big_endian 1.0\nelement vertex 2\nproperty float x\nproperty float y\nproperty float z\nelement face 1\nproperty list uchar int vertex_index\nend_header\n012345678901234567890123456789012345678".to_vec();
    let stl = [vec![b's'; 80], vec![1, 0, 0, 0], vec![0; 50]].concat();
    let seeds = [
        (OBJ.as_bytes().to_vec(), MeshFormat::Obj),
        (binary_ply, MeshFormat::Ply),
        (stl, MeshFormat::Stl),
        (to_glb(&[part]).unwrap(), MeshFormat::Gltf),
    ];
    let mut rng = fastrand::Rng::with_seed(7);
    for (bytes, format) in seeds {
        for _ in 0..5000 {
            let mut bad = bytes.clone();
            for _ in 0..rng.usize(1..6) {
                let at = rng.usize(..bad.len());
                bad[at] = rng.u8(..);
            }
            bad.truncate(rng.usize(..=bad.len()));
            let _ = read_mesh(&bad, format);
        }
    }
}
