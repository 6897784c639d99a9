//! How each table's figures are computed.

use super::compare::{Ask, Values};
use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_slosh::modes::{Mode, modes};
use brimful_slosh::{Cavity, Hole, Plate};

const GRAVITY: f64 = 9.80665;
/// How far a slice stands across: one cell.
const SLICE: f64 = 0.01;

/// A box of length one, case: its depth.
pub fn long_box(ask: &Ask) -> Values {
    let depth = ask.number(0);
    let cavity = slice_of_box(depth, Vec::new());
    let found = modes(&cavity, depth, 1.0 / ask.doubled(40) as f64, 6).expect("there are modes");
    let mut values = numbered("f", found.modes.iter().map(|it| it.frequency(GRAVITY)));
    let sideways: Vec<&Mode> = moving(&found.modes);
    values.extend(numbered("m", sideways.iter().map(|it| it.moved[0].share)));
    values.extend(numbered(
        "h",
        sideways.iter().filter_map(|it| it.moved[0].height),
    ));
    values.insert("m 0".into(), found.rigid[0].share);
    values.insert("h 0".into(), found.rigid[0].height);
    values
}

/// A box 1.0 m by 0.6 m, case: half waves along and across.
pub fn wide_box(ask: &Ask) -> Values {
    let cavity = bare(Solid::cuboid(Point3::ORIGIN, Point3::new(1.0, 0.6, 0.4)));
    let found = modes(&cavity, 0.25, 1.0 / ask.doubled(12) as f64, 6).expect("there are modes");
    // The modes in the order of their closed form.
    let order = ["1 0", "0 1", "1 1", "2 0", "2 1"];
    let place = order.iter().position(|it| *it == ask.case);
    let place = place.unwrap_or_else(|| panic!("no mode is called {}", ask.case));
    [("lambda".to_owned(), found.modes[place].eigenvalue)].into()
}

/// A cylinder of radius one, case: its depth.
pub fn cylinder(ask: &Ask) -> Values {
    let depth = ask.number(0);
    let rim = Outline::round(Point2::new(0.0, 0.0), 1.0, 96);
    let cavity = bare(Solid::prism(&rim, &Frame::WORLD, 0.0, depth + 0.1));
    let spacing = 2.0 / ask.doubled(8) as f64;
    let found = modes(&cavity, depth, spacing, 12).expect("there are modes");
    let sideways = moving(&found.modes);
    let mut values = numbered("f", sideways.iter().map(|it| it.frequency(GRAVITY)));
    values.extend(numbered("m", sideways.iter().map(|it| it.moved[0].share)));
    values.insert("m 0".into(), found.rigid[0].share);
    values
}

/// A cylinder of radius and depth one with a ring in it, case: how far below the surface, and how wide.
pub fn ring(ask: &Ask) -> Values {
    let (below, width) = (ask.number(0), ask.number(1));
    let middle = Point2::new(0.0, 0.0);
    let rim = Outline::round(middle, 1.0, 96);
    let plate = Plate {
        frame: Frame {
            origin: Point3::new(0.0, 0.0, 1.0 - below),
            ..Frame::WORLD
        },
        outline: Outline::round(middle, 1.5, 96),
        holes: vec![Hole::Round {
            centre: middle,
            radius: 1.0 - width,
        }],
    };
    let cavity = Cavity {
        solid: Solid::prism(&rim, &Frame::WORLD, 0.0, 1.1),
        plates: vec![plate],
    };
    let found = modes(&cavity, 1.0, 2.0 / ask.doubled(8) as f64, 1).expect("there are modes");
    [("lambda".to_owned(), found.modes[0].eigenvalue)].into()
}

/// Canals, case: their section.
pub fn canal(ask: &Ask) -> Values {
    let spacing = 2.0 / ask.doubled(24) as f64;
    let (cavity, level) = match ask.case {
        "V" => (
            along_y(&[[-1.5, 1.5], [0.0, 0.0], [1.5, 1.5]].map(|[x, z]| Point2::new(x, z))),
            1.0,
        ),
        "square rolled" => {
            let half = std::f64::consts::FRAC_1_SQRT_2;
            let side = 2.0 * half;
            let upright = along_y(&Outline::rectangle(side, side).0);
            let rolled = Frame {
                origin: Point3::ORIGIN,
                x: Vec3::new(half, 0.0, half),
                y: Vec3::Y,
                z: Vec3::new(-half, 0.0, half),
            };
            (upright.moved(&rolled), 1.0)
        }
        "half circle" => (
            along_y(&Outline::round(Point2::new(0.0, 0.0), 1.0, 192).0),
            0.0,
        ),
        other => panic!("no canal is called {other}"),
    };
    let found = modes(&cavity, level, spacing, 5).expect("there are modes");
    numbered("lambda", found.modes.iter().map(|it| it.eigenvalue))
}

/// A baffle in the middle of a box of length one, case: depth, where the baffle hangs, up or down to which share of the depth.
pub fn baffle(ask: &Ask) -> Values {
    let (depth, edge) = (ask.number(0), ask.number(0) * ask.number(2));
    let plates = match ask.words()[1] {
        "bottom" => vec![across(0.5, -1.0, edge)],
        "top" => vec![across(0.5, edge, 2.0)],
        _ => Vec::new(),
    };
    let cavity = slice_of_box(depth, plates);
    let found = modes(&cavity, depth, 1.0 / ask.doubled(24) as f64, 3).expect("there are modes");
    numbered("lambda", found.modes.iter().map(|it| it.eigenvalue))
}

/// The modes that a push along x moves. What a grid that has not the symmetry of its cavity lends to others is less than the
/// least share of any table.
fn moving(modes: &[Mode]) -> Vec<&Mode> {
    modes.iter().filter(|it| it.moved[0].share > 1e-3).collect()
}

fn bare(solid: Solid) -> Cavity {
    Cavity {
        solid,
        plates: Vec::new(),
    }
}

/// A slice of a box of length one that is not full.
fn slice_of_box(depth: f64, plates: Vec<Plate>) -> Cavity {
    let high = Point3::new(1.0, SLICE, depth + 0.1);
    Cavity {
        solid: Solid::cuboid(Point3::ORIGIN, high),
        plates,
    }
}

/// A slice of a canal along y over an outline in the plane of x and z.
fn along_y(outline: &[Point2]) -> Cavity {
    let frame = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::X,
        y: Vec3::Z,
        z: -Vec3::Y,
    };
    bare(Solid::prism(
        &Outline(outline.to_vec()),
        &frame,
        -SLICE,
        0.0,
    ))
}

/// A plate across the length, wider than the slice.
fn across(x: f64, low: f64, high: f64) -> Plate {
    Plate {
        frame: Frame {
            origin: Point3::new(x, 0.0, 0.0),
            x: Vec3::Y,
            y: Vec3::Z,
            z: Vec3::X,
        },
        outline: Outline(
            [[-1.0, low], [1.0, low], [1.0, high], [-1.0, high]]
                .map(|[y, z]| Point2::new(y, z))
                .to_vec(),
        ),
        holes: Vec::new(),
    }
}

fn numbered(name: &str, found: impl Iterator<Item = f64>) -> Values {
    found
        .enumerate()
        .map(|(number, value)| (format!("{name} {}", number + 1), value))
        .collect()
}
