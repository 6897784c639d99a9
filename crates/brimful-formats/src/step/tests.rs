use super::*;

/// A box from the origin to `(1, 1, 1)`.
fn cube() -> StepSolid {
    let vertices = (0..8)
        .map(|at| Point3::new((at & 1) as f64, (at >> 1 & 1) as f64, (at >> 2) as f64))
        .collect();
    let face = |normal, corners: [usize; 4]| StepFace {
        normal,
        loops: vec![corners.to_vec()],
    };
    let faces = vec![
        face(-Vec3::Z, [0, 2, 3, 1]),
        face(Vec3::Z, [4, 5, 7, 6]),
        face(-Vec3::Y, [0, 1, 5, 4]),
        face(Vec3::Y, [2, 6, 7, 3]),
        face(-Vec3::X, [0, 4, 6, 2]),
        face(Vec3::X, [1, 3, 7, 5]),
    ];
    StepSolid {
        name: "cube".into(),
        vertices,
        faces,
        round_holes: Vec::new(),
    }
}

fn hole() -> RoundHole {
    RoundHole {
        start: Point3::new(0.5, 0.5, 0.0),
        end: Point3::new(0.5, 0.5, 1.0),
        radius: 0.1,
        start_face: 0,
        end_face: 1,
    }
}

fn count(text: &str, entity: &str) -> usize {
    text.matches(&format!("={entity}(")).count()
}

#[test]
fn edges_are_shared() {
    let text = String::from_utf8(to_step("assembly", &[cube()]).unwrap()).unwrap();
    assert_eq!(count(&text, "EDGE_CURVE"), 12);
    assert_eq!(count(&text, "ORIENTED_EDGE"), 24);
    let mut drilled = cube();
    drilled.round_holes.push(hole());
    let text = String::from_utf8(to_step("assembly", &[drilled]).unwrap()).unwrap();
    assert_eq!(count(&text, "EDGE_CURVE"), 12 + 3);
    assert_eq!(count(&text, "CYLINDRICAL_SURFACE"), 1);
    assert!(!text.contains("(0,") && text.contains("(0.,"));
}

#[test]
fn names_are_escaped() {
    assert_eq!(text("O'Neill \\ Öl"), "'O''Neill \\\\ \\X2\\00D6\\X0\\l'");
}

#[test]
fn open_solids_are_refused() {
    let mut open = cube();
    open.faces.pop();
    assert!(matches!(
        to_step("a", &[open]),
        Err(FormatError::NotClosed { .. })
    ));
    let mut turned = cube();
    turned.faces[0].loops[0].reverse();
    assert!(matches!(
        to_step("a", &[turned]),
        Err(FormatError::NotClosed { .. })
    ));
}

#[test]
fn bad_references_are_refused() {
    let mut solid = cube();
    solid.faces[0].loops[0][0] = 99;
    assert!(matches!(
        to_step("a", &[solid]),
        Err(FormatError::BadReference { .. })
    ));
    let mut solid = cube();
    solid.vertices[3].x = f64::NAN;
    assert!(to_step("a", &[solid]).is_err());
    for bad in [
        RoundHole {
            radius: 0.0,
            ..hole()
        },
        RoundHole {
            end_face: 9,
            ..hole()
        },
        RoundHole {
            end: Point3::new(0.6, 0.5, 1.0),
            ..hole()
        },
        RoundHole {
            end: Point3::new(0.5, 0.5, 0.9),
            ..hole()
        },
        RoundHole {
            start_face: 1,
            end_face: 0,
            ..hole()
        },
    ] {
        let mut solid = cube();
        solid.round_holes.push(bad);
        assert!(matches!(
            to_step("a", &[solid]),
            Err(FormatError::BadReference { .. })
        ));
    }
}
