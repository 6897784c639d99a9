use super::*;
use crate::shell::element::{Element, Section};
use crate::shell::model::Plate;
use crate::shell::small::rotation;
use brimful_geom::vector::Vec3;

const CORNERS: [Row; 3] = [[0.1, -0.2, 0.3], [1.5, 0.1, 0.2], [0.4, 1.1, 0.5]];

fn still() -> Plane {
    let normal = cross(sub(CORNERS[1], CORNERS[0]), sub(CORNERS[2], CORNERS[0]));
    let normal = scale(normal, 1.0 / length(normal));
    let along = sub(CORNERS[2], CORNERS[0]);
    let first = scale(along, 1.0 / length(along));
    let axes = [first, cross(normal, first), normal];
    Plane {
        flat: flat_in(&axes, &CORNERS),
        axes,
    }
}

fn element() -> Element {
    let plate = Plate {
        thickness: 0.2,
        modulus: 1000.0,
        poisson: 0.3,
        density: 1.0,
        expansion: 0.0,
        twist: 1.0,
        axis: Vec3::X,
    };
    Element::new(still().flat, Section::of(&plate))
}

/// A large turn of the whole with a deformation of this size on top.
fn motion(size: f64) -> ([Row; 3], [Matrix; 3]) {
    let whole = rotation([0.7, -1.1, 0.5]);
    let places = std::array::from_fn(|i| {
        let own: Row = std::array::from_fn(|c| size * (((5 * i + 3 * c + 1) % 7) as f64 - 3.0));
        apply(&whole, add(CORNERS[i], own))
    });
    let rotations = std::array::from_fn(|i| {
        let own: Row = std::array::from_fn(|c| size * (((4 * i + 2 * c + 3) % 5) as f64 - 2.0));
        multiply(&whole, &rotation(own))
    });
    (places, rotations)
}

fn forces(places: &[Row; 3], rotations: &[Matrix; 3]) -> Column {
    let moved = Moved::new(
        &still(),
        places,
        [&rotations[0], &rotations[1], &rotations[2]],
    );
    moved.to_world(&moved.balanced(&element().forces(&moved.deformation)))
}

#[test]
fn a_turn_of_the_whole_takes_no_force() {
    let (places, rotations) = motion(0.0);
    let largest = forces(&places, &rotations)
        .iter()
        .fold(0.0_f64, |m, f| m.max(f.abs()));
    assert!(largest < 1e-10, "{largest}");
}

#[test]
fn forces_balance_on_the_moved_triangle() {
    let (places, rotations) = motion(0.02);
    let f = forces(&places, &rotations);
    let (mut sum, mut moment) = ([0.0; 3], [0.0; 3]);
    for i in 0..3 {
        sum = add(sum, part(&f, 6 * i));
        moment = add(
            moment,
            add(cross(places[i], part(&f, 6 * i)), part(&f, 6 * i + 3)),
        );
    }
    assert!(
        length(sum) < 1e-10 && length(moment) < 1e-10,
        "{sum:?} {moment:?}"
    );
}

#[test]
fn renumbering_the_corners_changes_nothing() {
    let (places, rotations) = motion(0.05);
    let straight = forces(&places, &rotations);
    let plane = Plane {
        flat: flat_in(&still().axes, &[CORNERS[1], CORNERS[2], CORNERS[0]]),
        ..still()
    };
    let moved = Moved::new(
        &plane,
        &[places[1], places[2], places[0]],
        [&rotations[1], &rotations[2], &rotations[0]],
    );
    let element = Element::new(
        plane.flat,
        Section::of(&Plate {
            thickness: 0.2,
            modulus: 1000.0,
            poisson: 0.3,
            density: 1.0,
            expansion: 0.0,
            twist: 1.0,
            axis: Vec3::X,
        }),
    );
    let turned = moved.to_world(&moved.balanced(&element.forces(&moved.deformation)));
    for i in 0..18 {
        assert!((turned[i] - straight[(i + 6) % 18]).abs() < 1e-10);
    }
}

#[test]
fn the_tangent_is_the_change_of_the_forces() {
    let (places, rotations) = motion(0.04);
    let moved = Moved::new(
        &still(),
        &places,
        [&rotations[0], &rotations[1], &rotations[2]],
    );
    let local = element().forces(&moved.deformation);
    let tangent = moved.tangent(&element().stiffness().square(), &local);
    let scale_of = tangent
        .iter()
        .flatten()
        .fold(0.0_f64, |m, v| m.max(v.abs()));
    for dof in 0..18 {
        let step = 1e-6;
        let change = |sign: f64| {
            let (mut p, mut r) = (places, rotations);
            let (corner, own) = (dof / 6, dof % 6);
            if own < 3 {
                p[corner][own] += sign * step;
            } else {
                let mut turn = [0.0; 3];
                turn[own - 3] = sign * step;
                r[corner] = multiply(&rotation(turn), &r[corner]);
            }
            forces(&p, &r)
        };
        let (plus, minus) = (change(1.0), change(-1.0));
        let mut unit = [0.0; 18];
        unit[dof] = 1.0;
        let unit = from_world(&moved.axes, &unit);
        let product: Column =
            std::array::from_fn(|i| tangent[i].iter().zip(&unit).map(|(k, u)| k * u).sum());
        let product = moved.to_world(&product);
        for i in 0..18 {
            let measured = (plus[i] - minus[i]) / (2.0 * step);
            assert!(
                (measured - product[i]).abs() < 1e-6 * scale_of,
                "{dof} {i}: {measured} {} of {scale_of}",
                product[i]
            );
        }
    }
}
