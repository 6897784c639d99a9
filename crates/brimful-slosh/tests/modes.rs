//! Laws that modes keep, and what has no table: holes, separate bodies, double modes, refusals.

use brimful_geom::frame::Frame;
use brimful_geom::polygon::Outline;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_slosh::grid::GridFault;
use brimful_slosh::modes::{Modes, ModesFault, estimated, modes, sweep};
use brimful_slosh::{Cavity, Hole, Plate};

fn cuboid(x: f64, y: f64, z: f64) -> Cavity {
    Cavity {
        solid: Solid::cuboid(Point3::ORIGIN, Point3::new(x, y, z)),
        plates: Vec::new(),
    }
}

/// A plate square to x over the whole section between two heights.
fn across(x: f64, [low, high]: [f64; 2], holes: Vec<Hole>) -> Plate {
    Plate {
        frame: Frame {
            origin: Point3::new(x, 0.0, 0.0),
            x: Vec3::Y,
            y: Vec3::Z,
            z: Vec3::X,
        },
        outline: Outline(
            [[-1.0, low], [2.0, low], [2.0, high], [-1.0, high]]
                .map(|[y, z]| Point2::new(y, z))
                .to_vec(),
        ),
        holes,
    }
}

fn round(y: f64, z: f64, radius: f64) -> Hole {
    Hole::Round {
        centre: Point2::new(y, z),
        radius,
    }
}

fn eigenvalues(modes: &Modes) -> Vec<f64> {
    modes.modes.iter().map(|it| it.eigenvalue).collect()
}

/// All modes of a grid together move all that is not frozen, at heights whose mean is the middle of the liquid.
#[test]
fn masses_and_their_moments_add_up() {
    let mut cavity = cuboid(1.0, 0.5, 0.4);
    cavity.plates = vec![across(0.4, [0.05, 0.2], vec![round(0.2, 0.12, 0.05)])];
    let found = modes(&cavity, 0.3, 0.1, 1000).unwrap();
    // Every surface piece is a mode but for the one that is level.
    assert_eq!(found.modes.len(), found.surface.len() - 1);
    for axis in [0, 1] {
        let (mut share, mut moment) = (found.rigid[axis].share, 0.0);
        moment += share * found.rigid[axis].height;
        for mode in &found.modes {
            let moved = mode.moved[axis];
            share += moved.share;
            moment += moved.share * moved.height.unwrap_or(0.0);
        }
        // Conjugate gradients stop at a residual of 1e-8; what has no height has next to no share.
        assert!((share - 1.0).abs() < 1e-7, "{axis}: {share}");
        assert!((moment - 0.15).abs() < 1e-6, "{axis}: {moment}");
    }
}

#[test]
fn the_double_modes_of_a_square_are_told_apart_by_direction() {
    let found = modes(&cuboid(0.6, 0.6, 0.3), 0.2, 0.05, 3).unwrap();
    let [first, second] = [&found.modes[0], &found.modes[1]];
    assert!((first.eigenvalue / second.eigenvalue - 1.0).abs() < 1e-9);
    assert!(first.moved[0].share > 0.5 && first.moved[1].share < 1e-12);
    assert!(second.moved[1].share > 0.5 && second.moved[0].share < 1e-12);
    assert!((first.moved[0].share / second.moved[1].share - 1.0).abs() < 1e-6);
}

/// A baffle through the surface without a hole makes two tanks of one.
#[test]
fn a_whole_plate_makes_two_bodies_with_the_modes_of_each() {
    let mut cavity = cuboid(1.0, 0.3, 0.4);
    cavity.plates = vec![across(0.4, [-1.0, 1.0], Vec::new())];
    let both = modes(&cavity, 0.2, 0.05, 4).unwrap();
    assert_eq!(both.bodies, 2);
    let mut apart = [0.6, 0.4]
        .map(|length| eigenvalues(&modes(&cuboid(length, 0.3, 0.4), 0.2, 0.05, 3).unwrap()))
        .concat();
    apart.sort_by(f64::total_cmp);
    for (ours, apart) in eigenvalues(&both).iter().zip(apart) {
        assert!((ours / apart - 1.0).abs() < 1e-9, "{ours} {apart}");
    }
}

/// Two rooms joined by a hole alone level out at `lambda = c (1/A + 1/A)`, where `1/c` is that of the hole, `1/(2 a)`, and what the rooms add,
/// which hangs on the hole by the cube of its radius over theirs alone (Rayleigh, article 306; from memory): two radii
/// give the hole's own part, on grids on which it is narrower than a cell and on ones that resolve it.
#[test]
fn a_round_hole_has_the_conductance_of_its_diameter() {
    let resistance = |radius: f64, spacing: f64| {
        let mut cavity = cuboid(0.8, 0.4, 0.6);
        // Not on any line of the grid.
        let hole = round(0.213, 0.237, radius);
        cavity.plates = vec![across(0.4, [-1.0, 1.0], vec![hole])];
        let found = modes(&cavity, 0.45, spacing, 1).unwrap();
        assert_eq!(found.bodies, 1);
        2.0 / (0.4 * 0.4) / found.modes[0].eigenvalue
    };
    for (radii, spacing) in [
        ([0.005, 0.01], 0.05),
        ([0.01, 0.02], 0.05),
        ([0.01, 0.02], 0.03),
        ([0.01, 0.02], 0.02),
        ([0.02, 0.04], 0.02),
    ] {
        let [small, large] = radii.map(|it| resistance(it, spacing));
        let exact = 0.5 / radii[0] - 0.5 / radii[1];
        // The fit reaches 1.6 cells; beyond it the grid's own error of the far field is left.
        assert!(
            ((small - large) / exact - 1.0).abs() < 0.02,
            "{radii:?} {spacing}: {small} {large} {exact}"
        );
    }
}

/// A round hole of several cells: the change from grid to grid falls as that of a smooth problem.
#[test]
fn a_resolved_hole_converges() {
    let at = |spacing: f64| {
        let mut cavity = cuboid(0.8, 0.4, 0.4);
        let hole = round(0.2, 0.15, 0.09);
        cavity.plates = vec![across(0.4, [-1.0, 1.0], vec![hole])];
        modes(&cavity, 0.3, spacing, 1).unwrap().modes[0].eigenvalue
    };
    let [coarse, middle, fine] = [0.05, 0.025, 0.0125].map(at);
    assert!(
        (middle - coarse).abs() > 2.0 * (fine - middle).abs() && (fine / middle - 1.0).abs() < 0.01,
        "{coarse} {middle} {fine}"
    );
}

/// The same cavity turned about the vertical: nothing hangs on which axis is which.
#[test]
fn turning_the_cavity_turns_its_modes() {
    let mut cavity = cuboid(0.9, 0.4, 0.4);
    cavity.plates = vec![
        across(0.3, [-1.0, 0.12], Vec::new()),
        across(0.6, [-1.0, 1.0], vec![round(0.13, 0.11, 0.06)]),
    ];
    let quarter = Frame {
        origin: Point3::new(0.4, 0.0, 0.0),
        x: Vec3::Y,
        y: -Vec3::X,
        z: Vec3::Z,
    };
    let before = modes(&cavity, 0.25, 0.04, 4).unwrap();
    let after = modes(&cavity.moved(&quarter), 0.25, 0.04, 4).unwrap();
    for (before, after) in before.modes.iter().zip(&after.modes) {
        // Residuals of 1e-7 leave their square.
        assert!((before.eigenvalue / after.eigenvalue - 1.0).abs() < 1e-9);
        for axis in [0, 1] {
            let (before, after) = (before.moved[axis], after.moved[1 - axis]);
            assert!((before.share - after.share).abs() < 1e-6);
        }
    }
}

/// A leaning tank is the tank turned: rolled about x, its cross baffles stay square to the grid.
#[test]
fn a_rolled_tank_keeps_its_cross_baffles() {
    let mut cavity = cuboid(1.0, 0.4, 0.4);
    cavity.plates = vec![across(0.5, [0.02, 0.38], Vec::new())];
    let (sin, cos) = 0.15_f64.sin_cos();
    let rolled = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::X,
        y: Vec3::new(0.0, cos, sin),
        z: Vec3::new(0.0, -sin, cos),
    };
    let found = modes(&cavity.moved(&rolled), 0.22, 0.04, 3).unwrap();
    assert_eq!(found.bodies, 1);
    // The plate's own edges under the lid and over the floor leave it open: the lowest mode is slower than that of half the length.
    let half = modes(&cuboid(0.5, 0.4, 0.4), 0.2, 0.04, 1).unwrap();
    assert!(found.modes[0].eigenvalue < 0.5 * half.modes[0].eigenvalue);
    let pitched = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::new(cos, 0.0, sin),
        y: Vec3::Y,
        z: Vec3::new(-sin, 0.0, cos),
    };
    assert_eq!(
        modes(&cavity.moved(&pitched), 0.22, 0.04, 3),
        Err(ModesFault::Grid(GridFault::Oblique(0)))
    );
}

#[test]
fn errors_from_two_grids_cover_what_the_figures_are_off_by() {
    // `verify/slosh/baffles.csv`: depth 0.5, the edge at 0.25, 0.5 and 0.75 of it.
    for (edge, exact) in [(0.125, 2.8014), (0.25, 2.5263), (0.375, 1.9530)] {
        let mut cavity = cuboid(1.0, 0.02, 0.6);
        cavity.plates = vec![across(0.5, [-1.0, edge], Vec::new())];
        for cells in [24.0, 36.0] {
            let found = estimated(&cavity, 0.5, 1.0 / cells, 1).unwrap();
            let error = found.errors[0].unwrap();
            let off = (found.modes.modes[0].eigenvalue / exact - 1.0).abs();
            assert!(off < error && error < 0.05, "{edge}: {off} {error}");
        }
    }
}

#[test]
fn the_same_liquid_gives_the_same_bytes() {
    let mut cavity = cuboid(0.9, 0.4, 0.35);
    cavity.plates = vec![across(0.45, [-1.0, 1.0], vec![round(0.2, 0.1, 0.06)])];
    let levels = [0.05, 0.12, 0.2, 0.3];
    let swept = sweep(&cavity, &levels, 0.05, 4);
    for (level, swept) in levels.into_iter().zip(swept) {
        assert_eq!(swept, estimated(&cavity, level, 0.05, 4), "{level}");
    }
}

#[test]
fn what_has_no_surface_is_refused() {
    let cavity = cuboid(0.6, 0.4, 0.3);
    for level in [0.0, -0.1] {
        assert_eq!(
            modes(&cavity, level, 0.05, 3),
            Err(ModesFault::Grid(GridFault::Nothing))
        );
    }
    for level in [0.3, 0.5] {
        assert_eq!(modes(&cavity, level, 0.05, 3), Err(ModesFault::NoSurface));
    }
    assert_eq!(
        modes(&cavity, f64::INFINITY, 0.05, 3),
        Err(ModesFault::Grid(GridFault::NotFinite))
    );
}

/// Water that stands higher in a riser than under a lid has a surface in the riser alone.
#[test]
fn liquid_under_a_lid_moves_with_the_surface_beside_it() {
    let outline = [
        [0.0, 0.0],
        [0.9, 0.0],
        [0.9, 0.2],
        [0.3, 0.2],
        [0.3, 0.5],
        [0.0, 0.5],
    ];
    let frame = Frame {
        origin: Point3::ORIGIN,
        x: Vec3::X,
        y: Vec3::Z,
        z: -Vec3::Y,
    };
    let outline = Outline(outline.map(|[x, z]| Point2::new(x, z)).to_vec());
    let cavity = Cavity {
        solid: Solid::prism(&outline, &frame, -0.3, 0.0),
        plates: Vec::new(),
    };
    let found = modes(&cavity, 0.35, 0.05, 2).unwrap();
    let surface: f64 = found.surface.iter().map(|it| it.area).sum();
    assert!((surface - 0.3 * 0.3).abs() < 1e-12);
    assert!((found.volume - (0.9 * 0.2 + 0.3 * 0.15) * 0.3).abs() < 1e-12);
    assert_eq!((found.bodies, found.shut_in), (1, 0.0));
    // Most of it is under the lid and cannot move.
    assert!(found.rigid[0].share > 0.7);
}
