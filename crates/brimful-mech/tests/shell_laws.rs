//! Laws that hold whatever the mesh: balance, rotation of the whole, identities of loads, and
//! what is said of a shell that cannot stand.

#![allow(clippy::unwrap_used)] // A test's helper that fails fails the test.

mod shell_support;

use Dof::*;
use brimful_geom::vector::{Point3, Vec3};
use brimful_mech::shell::model::*;
use brimful_mech::shell::{Fault, State, System, Workspace, linear, nonlinear, recover};
use shell_support::*;

/// Forces that hold the shell, as forces on nodes.
fn supports(shell: &Shell, state: &State) -> Vec<(usize, [f64; 6])> {
    let mut out = Vec::new();
    for (constraint, force) in shell.constraints.iter().zip(&state.constraint_forces) {
        let mut six = [0.0; 6];
        six[constraint.dof as usize] = *force;
        out.push((constraint.node, six));
    }
    let along = |v: Vec3, f: f64| [v.x * f, v.y * f, v.z * f, 0.0, 0.0, 0.0];
    for (spring, force) in shell.springs.iter().zip(&state.spring_forces) {
        out.push((spring.node, along(spring.direction, *force)));
    }
    for (contact, force) in shell.contacts.iter().zip(&state.contact_forces) {
        out.push((contact.node, along(contact.push, *force)));
    }
    out
}

/// A full box on line contacts, springs against sliding, a tie across the top.
fn standing_box(n: usize) -> Shell {
    let mut shell = open_box(1.0, 0.6, 0.6, n, plate(0.015, 800e6, 0.45, Vec3::X), true);
    for node in 0..shell.nodes.len() {
        if shell.nodes[node].z < 1e-9 {
            shell.contacts.push(Contact {
                node,
                push: Vec3::Z,
                gap: 0.0,
                stiffness: 1e6,
            });
        }
    }
    for (x, y, direction) in [
        (0.0, 0.0, Vec3::X),
        (0.0, 0.0, Vec3::Y),
        (1.0, 0.0, Vec3::Y),
    ] {
        let node = nearest(&shell, x, y, 0.0);
        shell.springs.push(Spring {
            node,
            direction,
            stiffness: 1e6,
        });
    }
    let nodes = [
        nearest(&shell, 0.5, 0.0, 0.6),
        nearest(&shell, 0.5, 0.6, 0.6),
    ];
    shell.bars.push(Bar {
        nodes,
        area: 1e-4,
        modulus: 2e9,
        density: 950.0,
    });
    shell
}

/// In the linear case forces and moments balance on the unmoved shell.
#[test]
fn linear_reactions_balance_the_load() {
    let mut shell = standing_box(6);
    for p in &mut shell.plates {
        p.density = 950.0;
    }
    let mut load = full(&shell, 9810.0, 0.6);
    load.body_acceleration = Vec3::new(0.3, 0.2, -9.81);
    let state = solve(&shell, &load);
    let open = state.contact_forces.iter().filter(|f| **f == 0.0).count();
    assert!(open > 0 && open < shell.contacts.len());
    let area: f64 = 2.0 * 0.6 * (1.0 + 0.6) + 0.6;
    let mass = area * 0.015 * 950.0 + 1e-4 * 0.6 * 950.0;
    let sum = |k: usize| {
        supports(&shell, &state)
            .iter()
            .map(|(_, f)| f[k])
            .sum::<f64>()
    };
    let size = 9810.0 * 0.36 + mass * 9.81;
    for (k, expected) in [(0, -0.3 * mass), (1, -0.2 * mass), (2, size)] {
        assert!(
            (sum(k) - expected).abs() < 1e-8 * size,
            "{k}: {} {expected}",
            sum(k)
        );
    }
    // Moment about the x axis: liquid on the floor and weight act in the middle, y = 0.3; the
    // frame's pull along y acts at the height of the middle of mass.
    let moment: f64 = supports(&shell, &state)
        .iter()
        .map(|(n, f)| shell.nodes[*n].y * f[2] - shell.nodes[*n].z * f[1] + f[3])
        .sum();
    let walls = 2.0 * 0.6 * 1.6 * 0.015 * 950.0 * 0.3 + 1e-4 * 0.6 * 950.0 * 0.6;
    assert!(
        (moment - (0.3 * size + 0.2 * walls)).abs() < 1e-8 * size,
        "{moment}"
    );
}

#[test]
fn large_reactions_balance_the_load_on_the_moved_shell() {
    let mut shell = open_box(1.0, 0.6, 0.6, 8, plate(0.015, 200e6, 0.45, Vec3::X), false);
    constrain_where(&mut shell, &ALL, |p| p.z < 1e-9);
    let mut load = point(nearest(&shell, 0.5, 0.0, 0.6), 1, -50.0);
    load.forces
        .extend(point(nearest(&shell, 0.0, 0.3, 0.6), 2, -30.0).forces);
    let (state, _) = large(&shell, &load);
    let mut total = [0.0; 6];
    for (node, f) in load.forces.iter().copied().chain(supports(&shell, &state)) {
        let d = state.displacements[node];
        let p = shell.nodes[node] + Vec3::new(d[0], d[1], d[2]);
        let m = p.to_vec().cross(Vec3::new(f[0], f[1], f[2]));
        for (t, v) in total
            .iter_mut()
            .zip([f[0], f[1], f[2], m.x + f[3], m.y + f[4], m.z + f[5]])
        {
            *t += v;
        }
    }
    assert!(total.iter().all(|t| t.abs() < 1e-8 * 50.0), "{total:?}");
}

/// Turning the whole problem turns the answer, small or large.
#[test]
fn rotation_of_the_whole_changes_nothing() {
    let turn = |v: Vec3| {
        // About (1, 2, 3) by some angle: any rotation will do.
        let (axis, angle) = (Vec3::new(1.0, 2.0, 3.0) / 14.0_f64.sqrt(), 0.8_f64);
        v * angle.cos() + axis.cross(v) * angle.sin() + axis * (axis.dot(v) * (1.0 - angle.cos()))
    };
    let shell = {
        // Springs in every direction hold the base, since constraints know the world's axes only.
        let mut shell = open_box(1.0, 0.6, 0.6, 6, plate(0.015, 200e6, 0.45, Vec3::X), true);
        for node in (0..shell.nodes.len())
            .filter(|n| shell.nodes[*n].z < 1e-9)
            .collect::<Vec<_>>()
        {
            for direction in [Vec3::X, Vec3::Y, Vec3::Z] {
                shell.springs.push(Spring {
                    node,
                    direction,
                    stiffness: 1e6,
                });
            }
        }
        shell
    };
    let load = full(&shell, 9810.0, 0.6);
    let mut turned = shell.clone();
    turned
        .nodes
        .iter_mut()
        .for_each(|p| *p = Point3::ORIGIN + turn(p.to_vec()));
    turned.plates.iter_mut().for_each(|p| p.axis = turn(p.axis));
    turned
        .springs
        .iter_mut()
        .for_each(|s| s.direction = turn(s.direction));
    for solve in [solve, |s: &Shell, l: &Load| large(s, l).0] {
        let (straight, other) = (solve(&shell, &load), solve(&turned, &load));
        let size = straight.largest_displacement();
        for (a, b) in straight.displacements.iter().zip(&other.displacements) {
            let a = turn(Vec3::new(a[0], a[1], a[2]));
            let difference = (a - Vec3::new(b[0], b[1], b[2])).length();
            assert!(difference < 1e-9 * size, "{difference} of {size}");
        }
    }
}

/// Numbering nodes, triangles and corners again changes nothing but rounding.
#[test]
fn numbering_changes_nothing() {
    let mut shell = open_box(1.0, 0.6, 0.6, 6, plate(0.015, 200e6, 0.45, Vec3::X), false);
    constrain_where(&mut shell, &ALL, |p| p.z < 1e-9);
    let count = shell.nodes.len();
    let renamed = |n: usize| (n * 37 + 11) % count;
    let mut other = shell.clone();
    for (n, p) in shell.nodes.iter().enumerate() {
        other.nodes[renamed(n)] = *p;
    }
    other.triangles = shell
        .triangles
        .iter()
        .rev()
        .map(|t| Triangle {
            nodes: [t.nodes[1], t.nodes[2], t.nodes[0]].map(renamed),
            ..*t
        })
        .collect();
    other
        .constraints
        .iter_mut()
        .for_each(|h| h.node = renamed(h.node));
    let (a, _) = large(&shell, &full(&shell, 9810.0, 0.6));
    let (b, _) = large(&other, &full(&other, 9810.0, 0.6));
    let size = a.largest_displacement();
    for n in 0..count {
        for k in 0..3 {
            let difference = a.displacements[n][k] - b.displacements[renamed(n)][k];
            assert!(difference.abs() < 1e-9 * size, "{difference}");
        }
    }
}

/// A plate free to move takes its initial strain and bears nothing; one that is held bears it all.
#[test]
fn initial_strain() {
    let strain = InitialStrain {
        stretch: [2e-3, 1e-3, 0.0],
        curvature: [0.1, 0.0, 0.0],
    };
    let mut grid = Grid::new(4, 3, plate(0.01, 1e9, 0.3, Vec3::X), |s, t| {
        Point3::new(s, 0.7 * t, 0.0)
    });
    let corner = grid.node(0, 0);
    grid.constrain(&[corner], &ALL);
    let load = Load {
        initial_strains: vec![strain; grid.shell.triangles.len()],
        ..Load::default()
    };
    let state = solve(&grid.shell, &load);
    let far = state.displacements[grid.node(4, 3)];
    close("stretch", far[0], 2e-3, 1e-9);
    close("stretch", far[1], 0.7e-3, 1e-9);
    close("bow", far[2], -0.05, 1e-9);
    let system = System::new(&grid.shell).unwrap();
    let raw = recover::resultants(&grid.shell, &system, &load, &state).unwrap();
    assert!(
        raw.iter()
            .flatten()
            .all(|r| r.force.iter().all(|f| f.abs() < 1e-5)
                && r.moment.iter().all(|m| m.abs() < 1e-8))
    );

    let all: Vec<usize> = (0..grid.shell.nodes.len()).collect();
    grid.constrain(&all, &ALL);
    let system = System::new(&grid.shell).unwrap();
    let state = solve(&grid.shell, &load);
    let raw = recover::resultants(&grid.shell, &system, &load, &state).unwrap();
    let factor = 1e9 * 0.01 / 0.91;
    close(
        "force",
        raw[0][0].force[0],
        -factor * (2e-3 + 0.3 * 1e-3),
        1e-9,
    );
    close(
        "moment",
        raw[0][0].moment[0],
        -factor * 1e-4 / 12.0 * 0.1,
        1e-9,
    );
}

/// Half the modulus is twice the load for the shape, small or large, and an event on a crept
/// state: nothing moves when the load stays and only the stiffness changes; with the old
/// stiffness the way through the prior state ends where the straight way does.
#[test]
fn creep_and_events() {
    let shell = |e: f64| quarter_plate(6, 1.0, plate(0.01, e, 0.4, Vec3::X), true).shell;
    let (short, long) = (shell(1e9), shell(0.25e9));
    let load = |p: f64| Load {
        pressures: vec![[p; 3]; short.triangles.len()],
        ..Load::default()
    };
    let system = System::new(&short).unwrap();
    let mut work = Workspace::new(&system).unwrap();
    let steps = nonlinear::Steps::default();
    let crept = nonlinear::solve(&long, &system, &mut work, &load(500.0), None, &steps)
        .unwrap()
        .0;
    let stiff = nonlinear::solve(&short, &system, &mut work, &load(2000.0), None, &steps)
        .unwrap()
        .0;
    close(
        "shape",
        crept.largest_displacement(),
        stiff.largest_displacement(),
        1e-8,
    );

    let load_then = load(500.0);
    let prior = nonlinear::Prior {
        shell: &long,
        load: &load_then,
        state: &crept,
    };
    let same = nonlinear::solve(&short, &system, &mut work, &load_then, Some(&prior), &steps)
        .unwrap()
        .0;
    close(
        "stays",
        same.largest_displacement(),
        crept.largest_displacement(),
        1e-9,
    );
    let before = recover::resultants(&long, &system, &load_then, &crept).unwrap();
    let after = recover::resultants(&short, &system, &load_then, &same).unwrap();
    for (a, b) in before.iter().flatten().zip(after.iter().flatten()) {
        for k in 0..3 {
            assert!((a.moment[k] - b.moment[k]).abs() < 1e-7);
        }
    }
    let event = nonlinear::solve(
        &short,
        &system,
        &mut work,
        &load(900.0),
        Some(&prior),
        &steps,
    )
    .unwrap()
    .0;
    let slow = nonlinear::solve(&long, &system, &mut work, &load(900.0), None, &steps)
        .unwrap()
        .0;
    assert!(event.largest_displacement() > crept.largest_displacement());
    assert!(event.largest_displacement() < slow.largest_displacement());

    let again = nonlinear::solve(
        &long,
        &system,
        &mut work,
        &load(900.0),
        Some(&prior),
        &steps,
    )
    .unwrap()
    .0;
    close(
        "any way",
        again.largest_displacement(),
        slow.largest_displacement(),
        1e-8,
    );
}

/// The plate that lifts off at its corners: a simply supported square plate does when nothing
/// holds its corners down (Timoshenko and Woinowsky-Krieger, article 30: R = 0.0650 p a^2 each,
/// so that more than the load must be borne elsewhere).
#[test]
fn corners_lift_off() {
    let n = 16;
    let mut grid = Grid::new(n, n, plate(0.01, 1e9, 0.3, Vec3::X), |s, t| {
        Point3::new(s, t, 0.0)
    });
    for edge in 0..4 {
        for node in grid.edge(edge) {
            grid.shell.contacts.push(Contact {
                node,
                push: Vec3::Z,
                gap: 0.0,
                stiffness: 1e7,
            });
        }
    }
    let middle = grid.node(n / 2, n / 2);
    grid.constrain(&[middle], &[X, Y, TurnZ]);
    let load = grid.pressure(-100.0);
    for state in [solve(&grid.shell, &load), large(&grid.shell, &load).0] {
        let at = |node: usize| state.displacements[node][2];
        assert!(at(grid.node(0, 0)) > 0.0 && at(grid.node(n / 2, 0)) < 0.0);
        close("load", state.contact_forces.iter().sum(), 100.0, 1e-3);
    }
}

#[test]
fn what_cannot_stand_is_named() {
    let fault = |shell: &Shell, load: &Load| {
        let system = System::new(shell)?;
        let mut work = Workspace::new(&system)?;
        linear::solve(shell, &system, &mut work, std::slice::from_ref(load))
    };
    let sheet = plate(0.01, 1e9, 0.3, Vec3::X);
    let mut held = Grid::new(3, 3, sheet, |s, t| Point3::new(s, t, 0.0));
    held.constrain_edges(&[(0, &ALL)]);
    let loose = Grid::new(2, 2, sheet, |s, t| Point3::new(s + 2.0, t, 0.0));
    let both = weld(&[held.shell.clone(), loose.shell]);
    let first_loose = held.shell.nodes.len();
    match fault(&both, &Load::default()) {
        Err(Fault::Mechanism { node, .. }) => assert!(node >= first_loose),
        other => panic!("{other:?}"),
    }
    let mut pinned = Grid::new(8, 8, sheet, |s, t| Point3::new(s, t, 0.0));
    pinned.constrain_edges(&[(0, &[X, Y, Z])]);
    assert!(matches!(
        fault(&pinned.shell, &pinned.pressure(1.0)),
        Err(Fault::Mechanism { .. })
    ));
    let mut stray = held.shell.clone();
    stray.nodes.push(Point3::new(5.0, 5.0, 5.0));
    let node = stray.nodes.len() - 1;
    assert_eq!(
        fault(&stray, &point(node, 0, 1.0)),
        Err(Fault::LoadOnNothing { node, dof: X })
    );
    let mut flat = held.shell.clone();
    flat.nodes[5] = flat.nodes[6];
    assert!(matches!(
        fault(&flat, &Load::default()),
        Err(Fault::Input { .. })
    ));
    // Contact that never closes: pushed away from its only support.
    let mut away = pinned.shell.clone();
    away.constraints.clear();
    for node in pinned.edge(0).into_iter().chain(pinned.edge(1)) {
        away.contacts.push(Contact {
            node,
            push: Vec3::Z,
            gap: 0.0,
            stiffness: 1e6,
        });
    }
    away.constraints.extend([X, Y, TurnZ].map(|dof| Constraint {
        node: 0,
        dof,
        value: 0.0,
    }));
    let outcome = fault(&away, &pinned.pressure(1.0));
    assert!(
        matches!(
            outcome,
            Err(Fault::Mechanism { .. } | Fault::Chatter { .. })
        ),
        "{outcome:?}"
    );
}
