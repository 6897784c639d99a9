//! Folded plates full of water.

use super::compare::{Ask, Values, values};
use super::read::Answer;
use super::shell_support::{ALL, Grid, constrain_where, full, large, nearest, plate, weld};
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::{Dof, Plate, Shell};

use Dof::{TurnX, TurnY, TurnZ, X, Y, Z};

/// Weight of a cubic metre of water, N.
const WEIGHT: f64 = 9810.0;
const HEIGHT: f64 = 0.6;
/// Elements over the height on the coarse mesh.
const COARSE: usize = 6;

/// Sheet 3 mm thick with the bending stiffness of one of 15 mm and 200 MPa: the semi-analytic
/// values are for plates that bend and do not stretch, which a thin sheet comes near.
fn thin(axis: Vec3) -> Plate {
    plate(0.003, 2.5e10, 0.45, axis)
}

/// Half of a strip of a long trough, floor 0.8 m, walls 0.6 m.
pub fn trough(ask: &Ask) -> Values {
    let (n, half) = (ask.doubled(COARSE), 0.4);
    let width = HEIGHT / n as f64;
    let floor = Grid::new(1, n, thin(Vec3::X), |s, t| {
        Point3::new(half * t, width * s, 0.0)
    });
    let wall = Grid::new(1, n, thin(Vec3::Z), |s, t| {
        Point3::new(half, width * s, HEIGHT * t)
    });
    let mut shell = weld(&[floor.shell, wall.shell]);
    constrain_where(&mut shell, &[Y, TurnX, TurnZ], |_| true);
    constrain_where(&mut shell, &[X, TurnY], |p| p.x < 1e-9);
    constrain_where(&mut shell, &[Z], |p| p.z < 1e-9 && p.x > half - 1e-9);
    let answer = Answer::linear(&shell, &full(&shell, WEIGHT, HEIGHT));
    let corner = nearest(&shell, half, 0.0, 0.0);
    values([
        ("corner moment", -answer.at(1, corner).moment[0]),
        ("corner rotation", answer.moved(corner, 4)),
        (
            "floor middle down",
            -answer.moved(nearest(&shell, 0.0, 0.0, 0.0), 2),
        ),
        (
            "wall top outward",
            answer.moved(nearest(&shell, half, 0.0, HEIGHT), 0),
        ),
    ])
}

/// A quarter of a tank 1.0 by 0.6 by 0.6: `walls`, clamped at the base, `walls large` or `whole`
/// with a floor, on line supports.
pub fn tank(ask: &Ask) -> Values {
    let n = ask.doubled(COARSE);
    let floor = ask.case == "whole";
    let sheet = match ask.case {
        "walls large" => |axis| plate(0.003, 1.25e11, 0.45, axis),
        "walls" | "whole" => thin,
        other => panic!("no tank is called {other}"),
    };
    let mut shell = quarter(n, sheet, floor);
    if floor {
        constrain_where(&mut shell, &[Z], |p| {
            p.z < 1e-9 && (p.x < 1e-9 || p.y < 1e-9)
        });
    } else {
        constrain_where(&mut shell, &ALL, |p| p.z < 1e-9);
    }
    let load = full(&shell, WEIGHT, HEIGHT);
    let (long, short) = (
        nearest(&shell, 0.5, 0.0, HEIGHT),
        nearest(&shell, 0.0, 0.3, HEIGHT),
    );
    if ask.case == "walls large" {
        let (state, _) = large(&shell, &load);
        return values([("long wall top w/t", -state.displacements[long][1] / 0.003)]);
    }
    let answer = Answer::linear(&shell, &load);
    let at = |x: f64, y: f64, z: f64| nearest(&shell, x, y, z);
    let mut out = values([
        ("long wall top mm", -1e3 * answer.moved(long, 1)),
        ("short wall top mm", -1e3 * answer.moved(short, 0)),
        (
            "My base mid long",
            answer.at(0, at(0.5, 0.0, 0.0)).moment[1],
        ),
        (
            "My base mid short",
            answer.at(1, at(0.0, 0.3, 0.0)).moment[1],
        ),
        (
            "corner moment mid height",
            answer.at(0, at(0.0, 0.0, HEIGHT / 2.0)).moment[0],
        ),
        ("Mx long wall top", answer.at(0, long).moment[0]),
        ("energy J", 4.0 * answer.state.energy),
    ]);
    if floor {
        let centre = at(0.5, 0.3, 0.0);
        let [along, across, _] = answer.at(2, centre).moment;
        out.extend(values([
            ("floor centre mm", -1e3 * answer.moved(centre, 2)),
            ("floor moment along", along),
            ("floor moment across", across),
        ]));
    }
    out
}

/// Long wall, short wall and, if asked, floor up to the planes of symmetry, normals outward.
fn quarter(n: usize, sheet: impl Fn(Vec3) -> Plate, floor: bool) -> Shell {
    let count = |length: f64| (n as f64 * length / HEIGHT).round() as usize;
    let (long, short) = (count(0.5), count(0.3));
    let mut parts = vec![
        Grid::new(long, n, sheet(Vec3::X), |s, t| {
            Point3::new(0.5 * s, 0.0, HEIGHT * t)
        })
        .shell,
        Grid::new(short, n, sheet(Vec3::Y), |s, t| {
            Point3::new(0.0, 0.3 * (1.0 - s), HEIGHT * t)
        })
        .shell,
    ];
    if floor {
        parts.push(
            Grid::new(short, long, sheet(Vec3::X), |s, t| {
                Point3::new(0.5 * t, 0.3 * s, 0.0)
            })
            .shell,
        );
    }
    let mut shell = weld(&parts);
    constrain_where(&mut shell, &[X, TurnY, TurnZ], |p| p.x > 0.5 - 1e-9);
    constrain_where(&mut shell, &[Y, TurnX, TurnZ], |p| p.y > 0.3 - 1e-9);
    shell
}
