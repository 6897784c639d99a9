//! One joint or feature a test.

use crate::check::{meshed, side_counts};
use crate::shapes::{box_of, flat, moved, p, prism, round_hole, slot};
use brimful_geom::mesh::{Flat, LinePart, Mesh, MeshFault, MeshLine, Refine, Size};
use brimful_geom::polygon::Outline;
use brimful_geom::vector::{Point2, Vec3};

/// Ruppert (J. Algorithms 18 (1995) 548-585) guarantees 20.7 degrees where outlines may be cut
/// further; we ask as much without cutting them.
const RUPPERT: f64 = 20.7;

fn parts(line: &MeshLine) -> Vec<(usize, LinePart)> {
    line.flats.iter().map(|f| (f.flat, f.part)).collect()
}

fn length(mesh: &Mesh, line: &MeshLine) -> f64 {
    let [first, last] = [line.nodes[0], *line.nodes.last().unwrap()];
    mesh.nodes[first].distance(mesh.nodes[last])
}

#[test]
fn a_cube_is_closed() {
    let (mesh, worst) = meshed(&box_of(1.0, 1.0, 1.0, 0.1), &Size::default());
    assert!(side_counts(&mesh).values().all(|&count| count == 2));
    assert_eq!(mesh.lines.len(), 12);
    assert!(
        mesh.lines
            .iter()
            .all(|l| l.nodes.len() == 11 && l.flats.len() == 2)
    );
    // Euler: a closed surface without handles.
    let (v, e, f) = (
        mesh.nodes.len(),
        side_counts(&mesh).len(),
        mesh.triangles.len(),
    );
    assert_eq!(v + f, e + 2);
    // Chew's bound for outlines in equal parts.
    assert!(worst > 30.0, "{worst}");
    let quality = mesh.quality().unwrap();
    assert!(quality.mean_least_angle.to_degrees() > 50.0, "{quality:?}");
    assert!(
        quality.sides.1 < 0.15 && quality.sides.0 > 0.05,
        "{quality:?}"
    );
}

/// A box with a baffle that stops short of roof and floor at one corner each.
fn baffled(size: f64) -> Vec<Flat> {
    let mut flats = box_of(1.2, 0.8, 0.9, size);
    let (x, air, drain) = (0.5, 0.04, 0.03);
    flats.push(flat(
        &[
            p(x, drain, 0.0),
            p(x, 0.8, 0.0),
            p(x, 0.8, 0.9 - air),
            p(x, 0.0, 0.9 - air),
            p(x, 0.0, drain),
        ],
        size,
    ));
    flats
}

#[test]
fn a_baffle_with_gaps_is_a_tee_on_its_foot() {
    let (mesh, worst) = meshed(&baffled(0.08), &Size::default());
    assert!(worst > RUPPERT, "{worst}");
    let tees: Vec<_> = mesh
        .lines
        .iter()
        .filter(|l| l.flats.iter().any(|f| f.part == LinePart::Interior))
        .collect();
    // Foot on the floor, and an end on each of the two long walls.
    assert_eq!(tees.len(), 3);
    let counts = side_counts(&mesh);
    for tee in &tees {
        for pair in tee.nodes.windows(2) {
            let key = (pair[0].min(pair[1]), pair[0].max(pair[1]));
            assert_eq!(counts[&key], 3);
        }
    }
    let foot = tees
        .iter()
        .find(|l| parts(l)[0] == (0, LinePart::Interior))
        .unwrap();
    assert_eq!(parts(foot)[1], (6, LinePart::Edge));
    assert!((length(&mesh, foot) - 0.77).abs() < 1e-9);
}

#[test]
fn crossing_baffles_run_through_each_other() {
    let mut flats = box_of(1.0, 1.0, 0.6, 0.07);
    flats.push(flat(
        &[
            p(0.4, 0.0, 0.0),
            p(0.4, 1.0, 0.0),
            p(0.4, 1.0, 0.5),
            p(0.4, 0.0, 0.5),
        ],
        0.07,
    ));
    flats.push(flat(
        &[
            p(0.0, 0.3, 0.0),
            p(1.0, 0.3, 0.0),
            p(1.0, 0.3, 0.45),
            p(0.0, 0.3, 0.45),
        ],
        0.07,
    ));
    let (mesh, worst) = meshed(&flats, &Size::default());
    assert!(worst > RUPPERT, "{worst}");
    let both = [(6, LinePart::Interior), (7, LinePart::Interior)];
    let crossing: Vec<_> = mesh.lines.iter().filter(|l| parts(l) == both).collect();
    assert_eq!(crossing.len(), 1);
    assert!((length(&mesh, crossing[0]) - 0.45).abs() < 1e-9);
    let key = |w: &[usize]| (w[0].min(w[1]), w[0].max(w[1]));
    let counts = side_counts(&mesh);
    assert!(crossing[0].nodes.windows(2).all(|w| counts[&key(w)] == 4));
}

#[test]
fn an_l_shaped_prism_and_a_sloping_floor_are_closed() {
    let base = [
        (0.0, 0.0),
        (1.2, 0.0),
        (1.2, 0.4),
        (0.5, 0.4),
        (0.5, 0.9),
        (0.0, 0.9),
    ];
    let (mesh, worst) = meshed(&prism(&base, 0.7, 0.09), &Size::default());
    assert!(worst > 25.0, "{worst}");
    assert!(side_counts(&mesh).values().all(|&count| count == 2));

    let (a, b, c, d) = (
        p(0., 0., 0.),
        p(1., 0., 0.1),
        p(1., 0.6, 0.1),
        p(0., 0.6, 0.),
    );
    let up = |q: brimful_geom::vector::Point3| p(q.x, q.y, 0.8);
    let faces = [
        vec![a, b, c, d],
        vec![up(a), up(b), up(c), up(d)],
        vec![a, b, up(b), up(a)],
        vec![b, c, up(c), up(b)],
        vec![c, d, up(d), up(c)],
        vec![d, a, up(a), up(d)],
    ];
    let flats: Vec<_> = faces.iter().map(|f| flat(f, 0.1)).collect();
    let (mesh, worst) = meshed(&flats, &Size::default());
    assert!(worst > 25.0, "{worst}");
    assert!(side_counts(&mesh).values().all(|&count| count == 2));
}

#[test]
fn a_moved_tank_has_the_same_mesh() {
    let flats = baffled(0.06);
    let (still, _) = meshed(&flats, &Size::default());
    for (angle, shift) in [(0.4, Vec3::ZERO), (2.1, Vec3::new(30.0, -7.0, 11.0))] {
        let (turned, _) = meshed(&moved(&flats, angle, shift), &Size::default());
        assert_eq!(turned.lines.len(), still.lines.len());
        assert_eq!(turned.nodes.len(), still.nodes.len());
        assert_eq!(turned.triangles.len(), still.triangles.len());
    }
    assert_eq!(Mesh::of(&flats, &Size::default(), 1e-6).unwrap(), still);
}

#[test]
fn rounding_of_the_input_does_not_part_flats() {
    let mut random = fastrand::Rng::with_seed(5);
    let mut flats = baffled(0.06);
    for f in &mut flats {
        for q in &mut f.outlines[0].0 {
            q.x += (random.f64() - 0.5) * 2e-9;
            q.y += (random.f64() - 0.5) * 2e-9;
        }
        f.frame.origin = f.frame.origin + f.frame.z * ((random.f64() - 0.5) * 2e-9);
    }
    let mesh = Mesh::of(&flats, &Size::default(), 1e-6).unwrap();
    let (clean, _) = meshed(&baffled(0.06), &Size::default());
    assert_eq!(mesh.lines.len(), clean.lines.len());
    let counts = |mesh: &Mesh| side_counts(mesh).values().filter(|&&c| c == 3).count();
    assert_eq!(counts(&mesh), counts(&clean));
}

#[test]
fn holes_are_round_enough_and_grade_outwards() {
    let mut panel = flat(
        &[p(0., 0., 0.), p(1., 0., 0.), p(1., 0.6, 0.), p(0., 0.6, 0.)],
        0.12,
    );
    panel.outlines.push(round_hole(0.3, 0.3, 0.05, 12));
    panel.outlines.push(round_hole(0.6, 0.2, 0.02, 12));
    // A square opening has few corners of its own.
    panel
        .outlines
        .push(Outline::rectangle(0.06, 0.06).reversed());
    for q in &mut panel.outlines[3].0 {
        *q = *q + brimful_geom::vector::Vec2::new(0.8, 0.4);
    }
    panel.outlines.push(slot(0.6, 0.45, 0.1, 0.02, 12));
    let (mesh, worst) = meshed(&[panel], &Size::default());
    assert!(worst > RUPPERT, "{worst}");
    let round_square = mesh
        .lines
        .iter()
        .filter(|l| {
            l.nodes
                .iter()
                .all(|&n| (mesh.nodes[n] - p(0.83, 0.43, 0.0)).length() < 0.05)
        })
        .map(|l| l.nodes.len() - 1);
    assert_eq!(round_square.sum::<usize>(), 12);
    let quality = mesh.quality().unwrap();
    assert!(quality.sides.1 > 0.1, "{quality:?}");
}

#[test]
fn a_rib_on_a_panel_has_well_shaped_elements() {
    let panel = flat(
        &[
            p(0., 0., 0.),
            p(0.6, 0., 0.),
            p(0.6, 0.6, 0.),
            p(0., 0.6, 0.),
        ],
        0.15,
    );
    let rib = flat(
        &[
            p(0.05, 0.3, 0.),
            p(0.55, 0.3, 0.),
            p(0.55, 0.3, 0.05),
            p(0.05, 0.3, 0.05),
        ],
        0.15,
    );
    let (mesh, worst) = meshed(&[panel, rib], &Size::default());
    assert!(worst > RUPPERT, "{worst}");
    let tee = mesh.lines.iter().find(|l| l.flats.len() == 2).unwrap();
    assert!((length(&mesh, tee) - 0.5).abs() < 1e-9);
    assert_eq!(mesh.lines.iter().filter(|l| l.flats.len() == 2).count(), 1);
}

#[test]
fn pieces_of_one_panel_share_their_seam() {
    let left = flat(
        &[
            p(0., 0., 0.),
            p(0.5, 0., 0.),
            p(0.5, 0.8, 0.),
            p(0., 0.8, 0.),
        ],
        0.1,
    );
    let right = flat(
        &[
            p(0.5, 0.2, 0.),
            p(1.1, 0.2, 0.),
            p(1.1, 1., 0.),
            p(0.5, 1., 0.),
        ],
        0.05,
    );
    let (mesh, worst) = meshed(&[left.clone(), right], &Size::default());
    assert!(worst > RUPPERT, "{worst}");
    let seam: Vec<_> = mesh.lines.iter().filter(|l| l.flats.len() == 2).collect();
    assert_eq!(seam.len(), 1);
    assert!((length(&mesh, seam[0]) - 0.6).abs() < 1e-9);

    let lapped = flat(
        &[
            p(0.4, 0., 0.),
            p(0.9, 0., 0.),
            p(0.9, 0.8, 0.),
            p(0.4, 0.8, 0.),
        ],
        0.1,
    );
    for other in [lapped, left.clone()] {
        let fault = Mesh::of(&[left.clone(), other], &Size::default(), 1e-6);
        assert!(
            matches!(fault, Err(MeshFault::Overlap(0, 1, _))),
            "{fault:?}"
        );
    }
}

#[test]
fn supports_become_lines_and_nodes() {
    let mut floor = flat(
        &[p(0., 0., 0.), p(1., 0., 0.), p(1., 1., 0.), p(0., 1., 0.)],
        0.1,
    );
    floor.segments = vec![
        (Point2::new(-0.2, 0.31), Point2::new(1.2, 0.31)),
        (Point2::new(0.5, 0.1), Point2::new(0.7, 0.9)),
    ];
    floor.points = vec![
        Point2::new(0.25, 0.77),
        Point2::new(0.5, 0.31),
        Point2::new(0.0, 0.0),
    ];
    let size = Size {
        refine: vec![Refine {
            point: p(0.9, 0.9, 0.0),
            size: 0.01,
        }],
        ..Size::default()
    };
    let (mesh, worst) = meshed(&[floor.clone()], &size);
    assert!(worst > RUPPERT, "{worst}");
    let of = |segment: usize| {
        let mine = mesh
            .lines
            .iter()
            .filter(|l| l.extras.iter().any(|e| e.segment == segment));
        mine.map(|l| length(&mesh, l)).sum::<f64>()
    };
    assert!((of(0) - 1.0).abs() < 1e-9);
    assert!((of(1) - 0.2_f64.hypot(0.8)).abs() < 1e-9);
    for (&node, wanted) in mesh.points[0].iter().zip(&floor.points) {
        assert!(mesh.nodes[node].distance(p(wanted.x, wanted.y, 0.0)) < 1e-9);
    }
    let near = mesh
        .nodes
        .iter()
        .filter(|n| n.distance(p(0.9, 0.9, 0.0)) < 0.02)
        .count();
    assert!(near > 4, "{near}");
}

#[test]
fn what_cannot_be_meshed_is_named() {
    let panel = || {
        flat(
            &[p(0., 0., 0.), p(1., 0., 0.), p(1., 1., 0.), p(0., 1., 0.)],
            0.1,
        )
    };
    let of = |flats: &[Flat]| Mesh::of(flats, &Size::default(), 1e-6);
    let mut outside = panel();
    outside.points = vec![Point2::new(2.0, 0.5)];
    assert_eq!(of(&[outside]), Err(MeshFault::PointOutside(0, 0)));
    let mut crossing = panel();
    crossing.outlines.push(round_hole(1.0, 0.5, 0.1, 12));
    assert!(of(&[crossing]).is_err());
    let mut huge = panel();
    huge.size = 1e-5;
    assert!(matches!(of(&[huge]), Err(MeshFault::TooManyNodes(0, _))));
    let mut nan = panel();
    nan.outlines[0].0[1].x = f64::NAN;
    assert!(matches!(of(&[nan]), Err(MeshFault::Outline(0, 0, _))));
    let mut backward = panel();
    backward.outlines[0] = backward.outlines[0].reversed();
    assert_eq!(of(&[backward]), Err(MeshFault::WrongWay(0, 0)));
    assert_eq!(of(&[]).unwrap().nodes.len(), 0);
}
