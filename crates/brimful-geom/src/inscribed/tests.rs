use super::*;
use crate::boolean::clip;
use crate::boolean::difference;
use crate::frame::Plane;
use crate::testing::cube;
use crate::vector::Vec2;

/// The draw-in of a tenth of a micrometre a side and the barrier leave about this much, relative.
const CLOSE: f64 = 1e-4;

fn outline(points: &[(f64, f64)]) -> Outline {
    Outline(points.iter().map(|&(x, y)| Point2::new(x, y)).collect())
}

fn assert_close<T>(found: &Inscribed<T>, want: f64, gap: f64) {
    assert!(found.size <= want * (1.0 + 1e-9), "{} {want}", found.size);
    assert!(found.size >= want * (1.0 - gap), "{} {want}", found.size);
    assert!(found.bound >= want * (1.0 - 1e-9), "{} {want}", found.bound);
}

#[test]
fn a_triangle_holds_half_its_area() {
    // M. Gardner and others; the largest rectangle in a triangle stands on a side and has half
    // the area, on whichever side (classical, from memory).
    let triangle = outline(&[(0.0, 0.0), (1.0, 0.0), (0.35, 0.8)]);
    let level = level_rectangle(&triangle, &Search::default()).unwrap();
    assert_close(&level, 0.2, CLOSE);
    let turned = turned_rectangle(&triangle, &Search::default()).unwrap();
    assert_close(&turned, 0.2, 1e-3);
}

#[test]
fn a_circle_holds_a_square() {
    let disc = Outline::round(Point2::new(0.0, 0.0), 0.5, 64);
    // The polygon has the circle's area, so its corners lie out a little: between the squares in
    // the inner and the outer circle (0.16 % apart).
    let found = level_rectangle(&disc, &Search::default()).unwrap();
    assert!((found.size - 0.5).abs() < 2e-3, "{}", found.size);
}

#[test]
fn corner_pyramid_and_tetrahedron_have_closed_forms() {
    // Under x/a + y/b + z/c <= 1 the largest box has sides a/3, b/3, c/3 (means inequality).
    let plane = Plane::through(
        Point3::new(0.9, 0.0, 0.0),
        Vec3::new(1.0 / 0.9, 1.0 / 0.6, 1.0 / 0.3),
    );
    let corner = clip(&cube([0.0; 3], [0.9, 0.6, 0.3]), &plane.unwrap()).unwrap();
    let found = level_box(&corner, &Search::default()).unwrap();
    assert_close(&found, 0.9 * 0.6 * 0.3 / 27.0, CLOSE);
}

#[test]
fn a_notched_box_keeps_the_best_of_its_slabs() {
    let solid = difference(
        &cube([0.0; 3], [1.15, 0.52, 0.33]),
        &[
            &cube([0.26, 0.29, -1.0], [0.9, 1.0, 0.25]),
            &cube([-1.0, -1.0, -1.0], [0.05, 0.04, 1.0]),
        ],
    )
    .unwrap();
    let found = level_box(&solid, &Search::default()).unwrap();
    let want = on_a_grid(&solid);
    assert_close(&found, want, 2e-3);
}

/// All boxes whose sides lie in planes of the solid: where everything is square to the axes the
/// largest is among them.
fn on_a_grid(solid: &Solid) -> f64 {
    let ticks = |pick: fn(&Point3) -> f64| {
        let mut t: Vec<f64> = solid.vertices.iter().map(pick).collect();
        t.sort_by(f64::total_cmp);
        t.dedup();
        t
    };
    let (xs, ys, zs) = (ticks(|p| p.x), ticks(|p| p.y), ticks(|p| p.z));
    let mut best: f64 = 0.0;
    let spans = |t: &[f64]| -> Vec<(f64, f64)> {
        let pairs = |i| (i + 1..t.len()).map(move |j| (i, j));
        (0..t.len())
            .flat_map(pairs)
            .map(|(i, j)| (t[i], t[j]))
            .collect()
    };
    for &(x0, x1) in &spans(&xs) {
        for &(y0, y1) in &spans(&ys) {
            for &(z0, z1) in &spans(&zs) {
                let volume = (x1 - x0) * (y1 - y0) * (z1 - z0);
                if volume > best
                    && remaining_volume(&cube([x0, y0, z0], [x1, y1, z1]), &[solid]).unwrap()
                        < 1e-12
                {
                    best = volume;
                }
            }
        }
    }
    best
}

#[test]
fn a_turned_room_holds_its_own_rectangle_less_the_notch() {
    // A rectangle of 1 by 0.4 with a notch, turned by 0.3: the best lies along its sides.
    let (sin, cos) = 0.3f64.sin_cos();
    let straight = [
        (0.0, 0.0),
        (1.0, 0.0),
        (1.0, 0.4),
        (0.7, 0.4),
        (0.7, 0.3),
        (0.5, 0.3),
        (0.5, 0.4),
        (0.0, 0.4),
    ];
    let room = Outline(
        straight
            .iter()
            .map(|&(x, y)| Point2::new(2.0, 1.0) + Vec2::new(x * cos - y * sin, x * sin + y * cos))
            .collect(),
    );
    let found = turned_rectangle(
        &room,
        &Search {
            gap: 0.02,
            ..Search::default()
        },
    )
    .unwrap();
    assert_close(&found, 0.3, 1e-3);
    assert!((found.best.angle.rem_euclid(FRAC_PI_2) - 0.3).abs() < 1e-6);
    assert!(found.gap() < 0.05, "{}", found.gap());
}

/// A room with leaning walls, less a few obstacles at its sides; none where the boolean fails.
fn leaning_room(rng: &mut fastrand::Rng) -> Option<Solid> {
    // In whole millimetres, as people measure: faces then meet in lines and fall together.
    let mut between = |low: i32, high: i32| f64::from(rng.i32(low..=high)) / 1e3;
    let size = [between(500, 1500), between(400, 800), between(300, 600)];
    let mut room = cube([0.0; 3], size);
    for (axis, foot) in [(Vec3::X, size[0]), (Vec3::Y, size[1]), (-Vec3::X, 0.0)] {
        let lean = between(0, 120);
        let normal = axis * size[2] + Vec3::Z * lean;
        let at = if axis.x != 0.0 {
            Point3::new(foot, 0.0, 0.0)
        } else {
            Point3::new(0.0, foot, 0.0)
        };
        room = clip(&room, &Plane::through(at, normal)?).ok()?;
    }
    for number in 0..3 {
        let (mut low, mut high) = ([0.0; 3], [0.0; 3]);
        for i in 0..3 {
            low[i] = between(0, 300);
            high[i] = low[i] + between(10, 200);
        }
        low[number] = -0.01;
        room = difference(&room, &[&cube(low, high)]).ok()?;
    }
    room.faults().is_empty().then_some(room)
}

#[test]
fn a_box_is_found_in_every_leaning_room() {
    let mut rng = fastrand::Rng::with_seed(6);
    let mut looked = 0;
    for case in 0..400 {
        let Some(room) = leaning_room(&mut rng) else {
            continue;
        };
        // The box is checked against the room by a boolean, which the search knows nothing of.
        let found = level_box(
            &room,
            &Search {
                boxes: 100,
                gap: 0.02,
                angles: 1,
            },
        );
        assert!(found.is_ok(), "case {case}: {found:?} {room:?}");
        looked += 1;
    }
    assert!(looked > 350, "{looked}");
}

#[test]
fn rooms_in_pieces_and_with_hollows_are_parted_too() {
    // Two pieces apart, of which the larger is a box; a hollow in a block of one.
    let two = crate::boolean::union(&[
        &cube([0.0; 3], [0.5, 0.5, 0.5]),
        &cube([0.7, 0.0, 0.0], [1.0, 0.5, 0.5]),
    ])
    .unwrap();
    let found = level_box(&two, &Search::default()).unwrap();
    assert_close(&found, 0.125, CLOSE);
    let hollow = difference(
        &cube([0.0; 3], [1.0, 1.0, 1.0]),
        &[&cube([0.4, 0.5, 0.6], [0.5, 0.6, 0.7])],
    )
    .unwrap();
    let found = level_box(&hollow, &Search::default()).unwrap();
    // All that lies below the hollow is more than what lies beside it or above.
    assert_close(&found, 0.6, 2e-3);
}
