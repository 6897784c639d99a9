//! The grid against exact volumes and areas, and against leaks.

use brimful_geom::frame::{Frame, Plane};
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_slosh::grid::{Grid, GridFault};
use brimful_slosh::{Cavity, Hole, Plate};
use std::collections::BTreeSet;

/// What rounding of a few thousand sums may come to, as a share of the whole.
const ROUNDING: f64 = 1e-12;

fn bare(solid: Solid) -> Cavity {
    Cavity {
        solid,
        plates: Vec::new(),
    }
}

fn cuboid() -> Solid {
    Solid::cuboid(Point3::new(0.0, 0.0, 0.0), Point3::new(1.2, 0.4, 0.35))
}

/// A prism along y over an outline in the x-z plane.
fn along_y(corners: &[[f64; 2]], length: f64) -> Solid {
    let frame = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::X,
        y: Vec3::Z,
        z: -Vec3::Y,
    };
    let corners = corners.iter().map(|&[x, z]| Point2::new(x, z));
    Solid::prism(&Outline(corners.collect()), &frame, -length, 0.0)
}

fn shapes() -> Vec<Solid> {
    let lean = Frame {
        origin: Point3::new(0.1, 0.2, 0.3),
        x: Vec3::new(0.8, 0.36, 0.48),
        y: Vec3::new(-0.6, 0.48, 0.64),
        z: Vec3::new(0.0, -0.8, 0.6),
    };
    vec![
        cuboid(),
        along_y(&[[-0.5, 0.5], [0.0, 0.0], [0.5, 0.5]], 0.7),
        along_y(
            &[
                [0.0, 0.0],
                [0.9, 0.0],
                [0.9, 0.31],
                [0.37, 0.31],
                [0.37, 0.62],
                [0.0, 0.62],
            ],
            0.3,
        ),
        cuboid().moved(&lean),
        Solid::prism(
            &Outline::round(Point2::new(0.3, 0.1), 0.25, 24),
            &Frame::WORLD,
            0.0,
            0.4,
        ),
    ]
}

/// Square to x, wider and higher than any of the shapes.
fn across(x: f64, holes: Vec<Hole>) -> Plate {
    Plate {
        frame: Frame {
            origin: Point3::new(x, 0.0, 0.0),
            x: Vec3::Y,
            y: Vec3::Z,
            z: Vec3::X,
        },
        outline: Outline(vec![
            Point2::new(-2.0, -2.0),
            Point2::new(2.0, -2.0),
            Point2::new(2.0, 2.0),
            Point2::new(-2.0, 2.0),
        ]),
        holes,
    }
}

fn cells(grid: &Grid) -> usize {
    grid.size().iter().product()
}

#[test]
fn cells_add_up_to_the_solid_below_any_level() {
    for (number, solid) in shapes().into_iter().enumerate() {
        let (low, high) = solid.bounds();
        for share in [0.13, 0.5, 0.777, 1.0] {
            let level = low.z + share * (high.z - low.z);
            let surface = Plane::through(Point3::new(0.0, 0.0, level), Vec3::Z).unwrap();
            let exact = solid.moments_below(&surface).volume;
            let grid = Grid::up_to(&bare(solid.clone()), level, 0.037).unwrap();
            let sum: f64 = (0..cells(&grid)).map(|it| grid.volume(it)).sum();
            assert!(
                (sum / exact - 1.0).abs() < ROUNDING,
                "{number} {share}: {sum} {exact}"
            );
        }
    }
}

/// The open faces of a cell and the walls in it enclose its liquid: their areas cancel along every axis, and it
/// has the volume that they enclose.
#[test]
fn every_cell_is_closed_by_its_faces_and_walls() {
    for (number, solid) in shapes().into_iter().enumerate() {
        let grid = Grid::whole(&bare(solid), 0.041).unwrap();
        let mut off = vec![[0.0; 3]; cells(&grid)];
        let mut volume = vec![0.0; cells(&grid)];
        for wall in grid.walls() {
            let area = wall.area.to_array();
            (0..3).for_each(|axis| off[wall.cell][axis] += area[axis]);
            volume[wall.cell] += wall.area.dot(wall.centre.to_vec()) / 3.0;
        }
        for (cell, off) in off.iter_mut().enumerate() {
            let place = grid.place_of_cell(cell);
            for axis in 0..3 {
                for (side, sign) in [(0, -1.0), (1, 1.0)] {
                    let mut beside = place;
                    beside[axis] += side;
                    let area = sign * grid.aperture(axis, grid.face(axis, beside));
                    off[axis] += area;
                    volume[cell] += area * grid.lines()[axis][beside[axis]] / 3.0;
                }
            }
            let face = 0.041 * 0.041;
            assert!(
                off.iter().all(|it| it.abs() < 1e-8 * face),
                "{number} {place:?}: {off:?}"
            );
            // A billionth of a face or a cell counts as nothing.
            assert!((volume[cell] - grid.volume(cell)).abs() < 1e-8 * face * 0.041);
        }
    }
}

/// How many separate rooms there are, as seen through open faces.
fn rooms(grid: &Grid) -> usize {
    let mut unseen: BTreeSet<usize> = (0..cells(grid))
        .filter(|&it| grid.volume(it) > 0.0)
        .collect();
    let mut rooms = 0;
    while let Some(first) = unseen.pop_first() {
        rooms += 1;
        let mut stack = vec![first];
        while let Some(cell) = stack.pop() {
            let place = grid.place_of_cell(cell);
            for axis in 0..3 {
                for side in [0, 1] {
                    let mut beside = place;
                    beside[axis] += side;
                    let is_open = grid.aperture(axis, grid.face(axis, beside)) > 0.0;
                    let mut next = place;
                    match side {
                        0 if place[axis] > 0 => next[axis] -= 1,
                        1 if place[axis] + 1 < grid.size()[axis] => next[axis] += 1,
                        _ => continue,
                    }
                    let next = grid.cell(next);
                    if is_open && unseen.remove(&next) {
                        stack.push(next);
                    }
                }
            }
        }
    }
    rooms
}

#[test]
fn nothing_leaks_through_a_plate_or_past_it() {
    for (number, solid) in shapes().into_iter().enumerate() {
        let (low, high) = solid.bounds();
        let x = low.x + 0.4321 * (high.x - low.x);
        let cavity = Cavity {
            solid,
            plates: vec![across(x, Vec::new())],
        };
        for spacing in [0.02, 0.043, 0.09] {
            let without = rooms(&Grid::whole(&cavity.without(0), spacing).unwrap());
            let with = rooms(&Grid::whole(&cavity, spacing).unwrap());
            assert_eq!(with, 2 * without, "{number} at {spacing}");
        }
    }
}

#[test]
fn a_hole_joins_what_its_plate_parts_and_has_its_area() {
    let centre = Point2::new(0.13, 0.171);
    for radius in [0.002, 0.03, 0.09] {
        let cavity = Cavity {
            solid: cuboid(),
            plates: vec![across(0.47, vec![Hole::Round { centre, radius }])],
        };
        let grid = Grid::whole(&cavity, 0.02).unwrap();
        assert_eq!(rooms(&grid), 1);
        let exact = std::f64::consts::PI * radius * radius;
        let of_pieces: f64 = grid.holes().iter().map(|it| it.area).sum();
        assert!((of_pieces / exact - 1.0).abs() < ROUNDING);
        let line = grid.lines()[0]
            .iter()
            .position(|&it| it == 0.47)
            .expect("the plate has a line");
        let [_, ny, nz] = grid.size();
        let faces = (0..ny).flat_map(|j| (0..nz).map(move |k| [line, j, k]));
        let open: f64 = faces
            .map(|place| grid.aperture(0, grid.face(0, place)))
            .sum();
        // What is left of the section when the plate's own area is taken off.
        assert!((open - exact).abs() < ROUNDING, "{radius}: {open} {exact}");
        let closed: f64 = grid.plates().iter().map(|it| it.area).sum();
        assert!((closed - (0.4 * 0.35 - exact)).abs() < ROUNDING);
    }
}

/// A wall of a quarter of the spacing parts what lies on its two sides.
#[test]
fn a_narrow_slot_in_the_solid_does_not_leak() {
    let legs = along_y(
        &[
            [0.0, 0.0],
            [0.3, 0.0],
            [0.3, 0.4],
            [0.305, 0.4],
            [0.305, 0.0],
            [0.6, 0.0],
            [0.6, 0.5],
            [0.0, 0.5],
        ],
        0.2,
    );
    assert_eq!(
        rooms(&Grid::up_to(&bare(legs.clone()), 0.39, 0.02).unwrap()),
        2
    );
    assert_eq!(rooms(&Grid::whole(&bare(legs), 0.02).unwrap()), 1);
}

#[test]
fn lines_run_through_plates_and_the_surface() {
    let cavity = Cavity {
        solid: cuboid(),
        plates: vec![across(0.31, Vec::new()), across(0.777, Vec::new())],
    };
    let grid = Grid::up_to(&cavity, 0.2222, 0.03).unwrap();
    assert!([0.31, 0.777].iter().all(|it| grid.lines()[0].contains(it)));
    assert_eq!(grid.lines()[2].last(), Some(&0.2222));
    let surface: f64 = (0..grid.size()[0])
        .flat_map(|i| (0..grid.size()[1]).map(move |j| [i, j]))
        .map(|[i, j]| grid.aperture(2, grid.face(2, [i, j, grid.size()[2]])))
        .sum();
    assert!((surface / (1.2 * 0.4) - 1.0).abs() < ROUNDING);
}

#[test]
fn what_cannot_be_laid_is_refused() {
    let oblique = Plate {
        frame: Frame {
            origin: Point3::new(0.5, 0.0, 0.0),
            x: Vec3::Y,
            y: Vec3::new(-0.6, 0.0, 0.8),
            z: Vec3::new(0.8, 0.0, 0.6),
        },
        ..across(0.0, Vec::new())
    };
    let leaning = Cavity {
        solid: cuboid(),
        plates: vec![across(0.3, Vec::new()), oblique],
    };
    assert_eq!(Grid::whole(&leaning, 0.05), Err(GridFault::Oblique(1)));
    let cavity = bare(cuboid());
    for level in [0.0, -1.0] {
        assert_eq!(Grid::up_to(&cavity, level, 0.05), Err(GridFault::Nothing));
    }
    assert_eq!(Grid::whole(&cavity, 0.0), Err(GridFault::Nothing));
    assert_eq!(Grid::whole(&cavity, f64::NAN), Err(GridFault::NotFinite));
    assert_eq!(
        Grid::whole(&bare(Solid::default()), 0.05),
        Err(GridFault::Nothing)
    );
    assert!(matches!(
        Grid::whole(&cavity, 1e-4),
        Err(GridFault::TooManyCells(_))
    ));
}
