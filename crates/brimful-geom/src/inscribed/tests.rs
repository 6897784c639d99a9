use super::*;
use crate::boolean::clip;
use crate::boolean::difference;
use crate::frame::Plane;
use crate::polygon::Outline;
use crate::testing::cube;
use crate::vector::{Point2, Vec2};

/// The draw-in of a tenth of a micrometre a side and the barrier leave about this much, relative.
const CLOSE: f64 = 1e-4;

/// A rectangle in an outline is a box in a prism one metre high, whose cases are the published ones.
fn metre_high(outline: &Outline) -> Solid {
    Solid::prism(outline, &Frame::WORLD, 0.0, 1.0)
}

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
    let level = level_box(&metre_high(&triangle), &Search::default()).unwrap();
    assert_close(&level, 0.2, CLOSE);
    let turned = upright_box(&metre_high(&triangle), &Search::default()).unwrap();
    assert_close(&turned, 0.2, 1e-3);
}

#[test]
fn a_circle_holds_a_square() {
    let disc = Outline::round(Point2::new(0.0, 0.0), 0.5, 64);
    // The polygon has the circle's area, so its corners lie out a little: between the squares in
    // the inner and the outer circle (0.16 % apart).
    let found = level_box(&metre_high(&disc), &Search::default()).unwrap();
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
    let found = upright_box(
        &metre_high(&room),
        &Search {
            gap: 0.02,
            ..Search::default()
        },
    )
    .unwrap();
    assert_close(&found, 0.3, 1e-3);
    let side = found.best.frame.x;
    assert!((side.y.atan2(side.x).rem_euclid(FRAC_PI_2) - 0.3).abs() < 1e-6);
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

/// The convex solid of a base in the level plane and a tip above it.
fn pyramid(base: &Outline, tip: Point3) -> Solid {
    let (low, high) = base.bounds();
    let mut solid = Solid::prism(base, &Frame::WORLD, 0.0, tip.z);
    assert!(tip.x > low.x && tip.x < high.x);
    for (a, b) in base.sides() {
        let [a, b] = [a, b].map(|p| Point3::new(p.x, p.y, 0.0));
        let plane = Plane::through(a, (b - a).cross(tip - a)).unwrap();
        solid = clip(&solid, &plane).unwrap();
    }
    solid
}

#[test]
fn a_pyramid_holds_four_ninths_of_its_volume() {
    // A box of height t h on the base has the base's largest rectangle by (1 - t)^2: t (1 - t)^2 is largest at
    // t = 1/3, 4/27 of base by height (the textbook exercise by one derivative, from memory).
    let square = outline(&[(-0.4, -0.4), (0.4, -0.4), (0.4, 0.4), (-0.4, 0.4)]);
    let on_square = pyramid(&square, Point3::new(0.0, 0.0, 0.9));
    let want = 4.0 / 27.0 * 0.64 * 0.9;
    assert_close(
        &level_box(&on_square, &Search::default()).unwrap(),
        want,
        CLOSE,
    );
    // The regular tetrahedron of edge 1: a triangle's largest rectangle is half of it, so 2/9 of its volume.
    let triangle = outline(&[(0.0, 0.0), (1.0, 0.0), (0.5, 0.75f64.sqrt())]);
    let tip = Point3::new(0.5, 0.75f64.sqrt() / 3.0, (2.0f64 / 3.0).sqrt());
    let tetrahedron = pyramid(&triangle, tip);
    let found = upright_box(&tetrahedron, &Search::default()).unwrap();
    assert_close(&found, 2.0 / 9.0 / (6.0 * 2.0f64.sqrt()), 1e-3);
    // H. T. Croft, "On maximal regular polyhedra inscribed in a regular polyhedron", Proc. London Math. Soc.
    // (3) 41 (1980): the largest cube has the edge 0.29590 and lies on a face (from memory); no box is smaller.
    let cube_edge: f64 = 1.0 / (1.0 + 2.0 / 3.0f64.sqrt() + 1.5f64.sqrt());
    assert!((cube_edge - 0.29590).abs() < 1e-5 && found.size > cube_edge.powi(3));
}

#[test]
fn an_octahedron_holds_its_boxes_straight_and_turned() {
    // |x| + |y| + |z| <= 1 holds the cube of side 2/3 along its axes (means inequality). Turned by 45 degrees
    // it is |x|, |y| <= 1 - |z| over the root of 2, two pyramids on a square: 4/9 of 4/3.
    let mut solid = cube([-1.0; 3], [1.0; 3]);
    for signs in 0..8 {
        let sign = |bit: i32| if signs >> bit & 1 == 0 { 1.0 } else { -1.0 };
        let normal = Vec3::new(sign(0), sign(1), sign(2));
        let plane = Plane::through(Point3::new(sign(0), 0.0, 0.0), normal).unwrap();
        solid = clip(&solid, &plane).unwrap();
    }
    assert_eq!(solid.faces.len(), 8);
    let level = level_box(&solid, &Search::default()).unwrap();
    assert_close(&level, 8.0 / 27.0, CLOSE);
    let turned = upright_box(&solid, &Search::default()).unwrap();
    assert_close(&turned, 16.0 / 27.0, 1e-3);
    assert!((turned.best.frame.x.y.abs() - 0.5f64.sqrt()).abs() < 1e-3);
    // Croft (1980, from memory): the largest cube in that of edge 1 has the edge 2 - root 2, in this attitude.
    let cube_edge = (2.0 - 2.0f64.sqrt()) * 2.0f64.sqrt();
    assert!(turned.size > cube_edge.powi(3) && turned.size < 1.05 * cube_edge.powi(3));
}

#[test]
fn regular_polygons_hold_rectangles_on_their_corners() {
    // The largest rectangle of a regular hexagon of side 1 has four of its corners, root 3; that of a regular
    // octagon in the unit circle is the square of four corners, 2 (elementary, from memory).
    let regular = |n: u32, start: f64| {
        let turn = |k: u32| start + std::f64::consts::TAU * f64::from(k) / f64::from(n);
        Outline(
            (0..n)
                .map(|k| Point2::new(turn(k).cos(), turn(k).sin()))
                .collect(),
        )
    };
    for (n, want) in [(6, 3.0f64.sqrt()), (8, 2.0)] {
        let found = upright_box(&metre_high(&regular(n, 0.2)), &Search::default()).unwrap();
        assert_close(&found, want, 1e-3);
    }
}

/// Whether a rectangle, by its corners, lies in a simple outline: its corners do, and no side passes through
/// it. It is drawn in by a nanometre for sides that it touches.
fn lies_in(outline: &Outline, corners: [Point2; 4]) -> bool {
    let [o, a, _, b] = corners;
    let (u, v) = (a - o, b - o);
    let through = |(p, q): (Point2, Point2)| {
        // Liang and Barsky's clipping of a segment, in the rectangle's own two coordinates.
        let (mut from, mut to) = (0.0f64, 1.0f64);
        for axis in [u, v] {
            let length = axis.length();
            let (start, way) = ((p - o).dot(axis) / length, (q - p).dot(axis) / length);
            for (slope, room) in [(-way, start - 1e-9), (way, length - 1e-9 - start)] {
                if slope == 0.0 {
                    if room < 0.0 {
                        return false;
                    }
                } else if slope < 0.0 {
                    from = from.max(room / slope);
                } else {
                    to = to.min(room / slope);
                }
            }
        }
        from < to
    };
    corners.iter().all(|&c| outline.contains(c)) && !outline.sides().any(through)
}

/// The largest rectangle among those of a grid, over angles: brute force, so never more than the largest.
fn by_brute_force(outline: &Outline) -> f64 {
    const LINES: usize = 25;
    const ANGLES: usize = 30;
    let mut best = 0.0f64;
    for step in 0..ANGLES {
        let (sin, cos) = (FRAC_PI_2 * step as f64 / ANGLES as f64).sin_cos();
        let (x, y) = (Vec2::new(cos, sin), Vec2::new(-sin, cos));
        let along = |axis: Vec2| {
            let at: Vec<f64> = outline.0.iter().map(|p| p.to_vec().dot(axis)).collect();
            let low = at.iter().copied().fold(f64::INFINITY, f64::min);
            let high = at.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            (low, (high - low) / (LINES - 1) as f64)
        };
        let ((left, wide), (lower, high)) = (along(x), along(y));
        for i in 0..LINES {
            for j in i + 1..LINES {
                for k in 0..LINES {
                    for l in k + 1..LINES {
                        let area = (j - i) as f64 * wide * (l - k) as f64 * high;
                        let at = |m: usize, n: usize| {
                            let way = x * (left + m as f64 * wide) + y * (lower + n as f64 * high);
                            Point2::new(way.x, way.y)
                        };
                        if area > best && lies_in(outline, [at(i, k), at(j, k), at(j, l), at(i, l)])
                        {
                            best = area;
                        }
                    }
                }
            }
        }
    }
    best
}

#[test]
fn no_rectangle_of_a_grid_over_all_angles_is_larger() {
    let mut rng = fastrand::Rng::with_seed(44);
    let search = Search {
        gap: 0.01,
        boxes: 400,
        angles: 300,
    };
    for case in 0..12 {
        let mut between = |low: f64, high: f64| low + (high - low) * rng.f64();
        let shape = match case % 2 {
            0 => {
                let corner = |n: i32| {
                    let turn = std::f64::consts::TAU * (f64::from(n) + between(0.0, 0.7)) / 6.0;
                    Point2::new(0.6 * turn.cos(), 0.4 * turn.sin())
                };
                Outline((0..6).map(corner).collect())
            }
            _ => {
                // An L, turned.
                let (long, wide) = (between(0.6, 1.2), between(0.5, 0.9));
                let (x, y, lean) = (between(0.2, 0.5), between(0.2, 0.4), between(0.0, 0.2));
                let corners = [
                    (0.0, 0.0),
                    (long, lean),
                    (long, y + lean),
                    (x, y + lean),
                    (x, wide),
                    (0.0, wide),
                ];
                outline(&corners)
            }
        };
        let found = upright_box(&metre_high(&shape), &search).unwrap();
        let brute = by_brute_force(&shape);
        assert!(found.bound >= brute, "case {case}: {found:?} {brute}");
        assert!(
            found.size >= brute * (1.0 - search.gap),
            "case {case}: {found:?} {brute}"
        );
        // The grid is coarse, but not so coarse that it says nothing.
        assert!(brute > 0.8 * found.size, "case {case}: {found:?} {brute}");
    }
}
