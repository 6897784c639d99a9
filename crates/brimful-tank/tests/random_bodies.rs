//! Laws that hold for every body, tried on a thousand random ones a run; `make soak` tries more.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_geom::boolean::{clip, difference};
use brimful_geom::frame::{Frame, Plane};
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_job::Job;
use brimful_panels::body::Body;
use brimful_panels::capacity::capacity;
use brimful_panels::finding::Grade;
use brimful_panels::finding::kind::PanelsKind;
use brimful_panels::gauge::gauges;
use brimful_panels::liquid::compartments;
use brimful_panels::panels::panels;
use brimful_panels::seam::Seam;
use brimful_units::{Angle, Length};
use common::soaked;

const BODIES: usize = 1000;
/// From so many sheets in one tip on, the panels may fail their proof.
const CROWDED_TIP: usize = 6;
/// Rounding in coordinates of a metre through a few intersections of planes, raised by the
/// flattest corners that the generator makes; the issue's own bound for volumes.
const RELATIVE: f64 = 1e-9;

fn job() -> Job {
    Job::parse(
        r#"
        [job]
        name = "random"
        lengths = "mm"
        duty = "standing"
        [body]
        box = [1000, 1000, 1000]
        [liquid]
        kind = "drinking water"
        [stock]
        material = "HDPE"
        [[stock.sheet]]
        size = [4000, 4000]
        thickness = 8
        "#,
    )
    .unwrap()
}

/// Solids of all the kinds a space can ask for: convex ones with slanted faces, prisms over
/// re-entrant outlines, boxes with bites out of them, tips where many faces meet.
fn random_solid(random: &mut fastrand::Rng) -> Solid {
    match random.u32(0..4) {
        0 => slanted_box(random),
        1 => star_prism(random),
        2 => bitten_box(random),
        _ => tip(random),
    }
}

fn between(random: &mut fastrand::Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * random.f64()
}

fn slanted_box(random: &mut fastrand::Rng) -> Solid {
    let size = [0; 3].map(|_| between(random, 0.3, 1.2));
    let mut solid = Solid::cuboid(Point3::ORIGIN, Point3::new(size[0], size[1], size[2]));
    for _ in 0..random.usize(1..4) {
        let way = Vec3::new(random.f64() - 0.5, random.f64() - 0.5, random.f64() - 0.5);
        let middle = Point3::new(size[0] / 2.0, size[1] / 2.0, size[2] / 2.0);
        let Some(plane) = Plane::through(middle, way) else {
            continue;
        };
        let far = solid
            .vertices
            .iter()
            .map(|&p| plane.distance(p))
            .fold(0.0, f64::max);
        solid = clip(&solid, &plane.moved(far * between(random, 0.5, 0.9))).unwrap();
    }
    solid
}

fn star_prism(random: &mut fastrand::Rng) -> Solid {
    let n = random.usize(4..9);
    let corner = |i: usize, random: &mut fastrand::Rng| {
        let angle = std::f64::consts::TAU * (i as f64 + between(random, -0.25, 0.25)) / n as f64;
        let radius = between(random, 0.25, 0.7);
        Point2::new(radius * angle.cos(), radius * angle.sin())
    };
    let outline = Outline((0..n).map(|i| corner(i, random)).collect());
    Solid::prism(&outline, &Frame::WORLD, 0.0, between(random, 0.2, 0.8))
}

fn bitten_box(random: &mut fastrand::Rng) -> Solid {
    let size = [0; 3].map(|_| between(random, 0.5, 1.2));
    let mut solid = Solid::cuboid(Point3::ORIGIN, Point3::new(size[0], size[1], size[2]));
    for _ in 0..random.usize(1..4) {
        let (mut low, mut high) = ([0.0; 3], [0.0; 3]);
        for axis in 0..3 {
            let (from, length) = (between(random, -0.2, 0.7), between(random, 0.2, 0.6));
            (low[axis], high[axis]) = (from * size[axis], (from + length) * size[axis]);
        }
        let p = |a: [f64; 3]| Point3::new(a[0], a[1], a[2]);
        solid = difference(&solid, &[&Solid::cuboid(p(low), p(high))]).unwrap();
    }
    solid
}

fn tip(random: &mut fastrand::Rng) -> Solid {
    let n = random.usize(4..8);
    let base = Outline::round(Point2::new(0.0, 0.0), between(random, 0.3, 0.6), n);
    let mut solid = Solid::prism(&base, &Frame::WORLD, 0.0, 2.0);
    let top = Point3::new(
        between(random, -0.1, 0.1),
        between(random, -0.1, 0.1),
        between(random, 0.4, 0.9),
    );
    for (a, b) in base.sides() {
        let (a, b) = (Point3::new(a.x, a.y, 0.0), Point3::new(b.x, b.y, 0.0));
        solid = clip(&solid, &Plane::through(a, (b - a).cross(top - a)).unwrap()).unwrap();
    }
    solid
}

#[test]
fn cavity_and_material_make_up_the_body_and_panels_refold_to_it() {
    let job = job();
    let mut random = fastrand::Rng::with_seed(2611);
    let (mut made, mut refused, mut tried, mut unproven) = (0, 0, 0, 0);
    let bodies = soaked(BODIES);
    while made < bodies {
        tried += 1;
        assert!(
            tried < 3 * bodies,
            "too few of the random solids can be bodies: {made} of {tried}, {refused} refused"
        );
        let solid = random_solid(&mut random);
        if !solid.faults().is_empty() || solid.shells() != 1 {
            // The generator also makes what is no body: several pieces, hollows, pieces that
            // touch in an edge or a point.
            continue;
        }
        let Ok(body) = Body::of_solid(solid, Length::from_mm(8.0)) else {
            refused += 1;
            continue;
        };
        // A body that is too narrow somewhere for its joints is refused with its place.
        let Ok((laid_out, findings)) = panels(&job, &body, None) else {
            refused += 1;
            continue;
        };
        made += 1;
        assert_eq!(body.cavity.faults(), []);
        let proof = &laid_out.proof;
        let slivers = findings
            .iter()
            .any(|finding| finding.kind == PanelsKind::Sliver.into());
        let stopped = findings.iter().any(|finding| finding.grade == Grade::Stop);
        assert!(proof.holds || stopped);
        let adds_up = proof.unaccounted.m3().abs() < RELATIVE * proof.body.m3();
        if !adds_up && most_faces_at_a_vertex(&body.solid) >= CROWDED_TIP {
            // Six and more sheets that meet in one tip are beyond the nipping rule now and then;
            // the proof must then stop the build, and does.
            unproven += 1;
            continue;
        }
        assert!(proof.holds || slivers, "{tried}: {proof:#?}\n{findings:#?}");
        let whole = proof.body.m3();
        let sum = proof.cavity.m3() + proof.outer_panels.m3() + proof.grooves.m3();
        assert!((sum - whole).abs() < RELATIVE * whole);
        refold(&body, &laid_out.seams);
        let compartments = compartments(&job, &body, &laid_out.panels, &laid_out.seams).unwrap();
        gauge_is_monotone(&job, &laid_out.panels, &compartments, &mut random);
    }
    // The generator must not slide into making only bodies that are refused.
    assert!(refused < made / 2, "{refused} of {tried} refused");
    // A quarter of the bodies have a tip of four to seven sheets; seventeen of them were stopped
    // when this was written.
    assert!(
        unproven <= bodies / 40,
        "{unproven} bodies with crowded tips were not proven"
    );
}

fn most_faces_at_a_vertex(solid: &Solid) -> usize {
    let corners: Vec<usize> = solid
        .faces
        .iter()
        .flat_map(|face| face.loops.iter().flatten().copied())
        .collect();
    (0..solid.vertices.len())
        .map(|v| corners.iter().filter(|&&c| c == v).count())
        .max()
        .unwrap_or(0)
}

/// Lays each panel flat, then folds the flat panels up again at their seams, by the seams'
/// angles alone, and compares with where the body has them.
fn refold(body: &Body, seams: &[Seam]) {
    let n = body.faces.len();
    let flat: Vec<Frame> = (0..n).map(|face| body.solid.face_frame(face)).collect();
    let mut folded: Vec<Option<Frame>> = vec![None; n];
    folded[0] = Some(Frame::WORLD);
    let mut queue = vec![0];
    while let Some(at) = queue.pop() {
        for seam in seams.iter().filter(|seam| seam.panels.contains(&at)) {
            let next = if seam.panels[0] == at {
                seam.panels[1]
            } else {
                seam.panels[0]
            };
            let frame = fold_over(
                &flat[at],
                folded[at].unwrap(),
                &flat[next],
                seam,
                seam.panels[0] == at,
            );
            match folded[next] {
                None => {
                    folded[next] = Some(frame);
                    queue.push(next);
                }
                // Every other way round must lead to the same place.
                Some(known) => {
                    assert!(
                        known.origin.distance(frame.origin) < 1e-7,
                        "{:?}",
                        known.origin - frame.origin
                    );
                    assert!((known.z - frame.z).length() < 1e-7);
                }
            }
        }
    }
    for (face, frame) in folded.iter().enumerate() {
        let frame = frame.expect("every face is reached over its seams");
        for vertex in body.solid.faces[face].loops.iter().flatten() {
            let p = body.solid.vertices[*vertex];
            let in_first = flat[0].frame_from_world(p);
            let refolded = frame.world_from_flat(flat[face].flat_from_world(p));
            assert!(
                in_first.distance(refolded) < 1e-7,
                "corner {vertex} of face {face}"
            );
        }
    }
}

/// The frame of a flat panel laid against another along their seam and folded up by its angle.
fn fold_over(flat: &Frame, placed: Frame, next: &Frame, seam: &Seam, runs_forward: bool) -> Frame {
    let [a, b] = seam.outer_line.unwrap();
    let (a, b) = if runs_forward { (a, b) } else { (b, a) };
    let on = |frame: &Frame, p: Point3| frame.flat_from_world(p);
    let start = placed.world_from_flat(on(flat, a));
    let along = (placed.world_from_flat(on(flat, b)) - start)
        .unit()
        .unwrap();
    // Turning the normal about the edge by the fold gives the next panel's normal.
    let fold = std::f64::consts::PI - seam.angle.rad();
    let z = placed.z * fold.cos() + along.cross(placed.z) * fold.sin();
    // The edge in the next panel's own coordinates tells how that panel is turned about z.
    let edge = (on(next, b) - on(next, a)).unit().unwrap();
    let across = z.cross(along);
    let x = along * edge.x - across * edge.y;
    let y = z.cross(x);
    let frame = Frame {
        origin: start,
        x,
        y,
        z,
    };
    let shift = on(next, a);
    Frame {
        origin: frame.world_from_flat(Point2::new(-shift.x, -shift.y)),
        ..frame
    }
}

fn gauge_is_monotone(
    job: &Job,
    panels: &[brimful_panels::panel::Panel],
    compartments: &[brimful_panels::liquid::Compartment],
    random: &mut fastrand::Rng,
) {
    let tilt = |random: &mut fastrand::Rng| Angle::from_deg(between(random, -20.0, 20.0));
    let (heel, pitch) = (tilt(random), tilt(random));
    for (gauge, compartment) in gauges(job, panels, compartments, heel, pitch)
        .iter()
        .zip(compartments)
    {
        let brim = compartment.whole().volume;
        for pair in gauge.rows.windows(2) {
            assert!(pair[0].volume.m3() <= pair[1].volume.m3() + RELATIVE * brim);
        }
        let last = gauge.rows.last().unwrap().volume.m3();
        assert!((last - brim).abs() < RELATIVE * brim, "{last} {brim}");
    }
}

#[test]
fn mirrored_and_turned_bodies_give_the_same_figures() {
    let job = job();
    let mut random = fastrand::Rng::with_seed(1887);
    for _ in 0..soaked(200) {
        let solid = random_solid(&mut random);
        if !solid.faults().is_empty() || solid.shells() != 1 {
            continue;
        }
        let (sin, cos) = between(&mut random, 0.0, 6.0).sin_cos();
        let place = Frame {
            origin: Point3::new(0.3, -0.2, 0.1),
            x: Vec3::new(cos, sin, 0.0),
            y: Vec3::new(-sin, cos, 0.0),
            z: Vec3::Z,
        };
        let figures = |solid: Solid| {
            let body = Body::of_solid(solid, Length::from_mm(8.0)).ok()?;
            let (laid_out, _) = panels(&job, &body, None).ok()?;
            let compartments =
                compartments(&job, &body, &laid_out.panels, &laid_out.seams).unwrap();
            let (capacity, _) = capacity(&job, &laid_out.panels, &compartments);
            let seams: f64 = laid_out.seams.iter().map(|seam| seam.length().m()).sum();
            Some([
                capacity.brim().m3(),
                capacity.rated().m3(),
                laid_out.proof.outer_panels.m3(),
                seams,
            ])
        };
        let plain = figures(solid.clone());
        for other in [figures(solid.moved(&place)), figures(solid.mirrored())] {
            match (&plain, &other) {
                (Some(a), Some(b)) => {
                    for (a, b) in a.iter().zip(b) {
                        assert!((a - b).abs() < RELATIVE * a.abs(), "{plain:?} {other:?}");
                    }
                }
                (None, None) => {}
                _ => panic!("one way round it can be made, the other not: {plain:?} {other:?}"),
            }
        }
    }
}
