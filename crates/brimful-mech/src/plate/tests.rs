use super::*;

/// A plate whose results are the coefficients themselves: D = 1, pressures of 1, side 1.
fn unit_plate(ratio: f64, poisson: f64) -> Plate {
    let thickness: f64 = 1e3;
    Plate {
        width: 1.0,
        height: ratio,
        thickness,
        modulus: 12.0 * (1.0 - poisson * poisson) / thickness.powi(3),
        poisson,
    }
}

fn coefficients(ratio: f64, poisson: f64, edges: Edges, load: Load) -> [f64; 3] {
    let bent = bend(&unit_plate(ratio, poisson), edges, &load).expect("covered");
    [bent.deflection, bent.field_moment, bent.edge_moment]
}

fn near(found: f64, wanted: f64, tolerance: f64) {
    assert!(
        (found - wanted).abs() <= tolerance * wanted.abs(),
        "found {found}, wanted {wanted}"
    );
}

const UNIFORM: Load = Load {
    uniform: 1.0,
    falling_up: 0.0,
    falling_across: 0.0,
};
const FALLING: Load = Load {
    uniform: 0.0,
    falling_up: 1.0,
    falling_across: 0.0,
};

/// Roark's Formulas for Stress and Strain, 7th ed., Table 11.4 case 1a (seen): deflection
/// `alpha q b^4 / (E t^3)`, stress `beta q b^2 / t^2`, nu = 0.3.
#[test]
fn hinged_plates_are_roarks() {
    let rows = [
        (1.0, 0.0444, 0.2874),
        (1.2, 0.0616, 0.3762),
        (1.4, 0.0770, 0.4530),
        (1.6, 0.0906, 0.5172),
        (1.8, 0.1017, 0.5688),
        (2.0, 0.1110, 0.6102),
        (3.0, 0.1335, 0.7134),
        (4.0, 0.1400, 0.7410),
        (5.0, 0.1417, 0.7476),
        (1e6, 0.1421, 0.7500),
    ];
    for (ratio, alpha, beta) in rows {
        for turned in [ratio, 1.0 / ratio] {
            let plate = Plate {
                width: 1.0,
                height: turned,
                thickness: 0.1,
                modulus: 1e9,
                poisson: 0.3,
            };
            let short = turned.min(1.0);
            let bent = bend(
                &plate,
                Edges::Hinged,
                &Load {
                    uniform: 1.0,
                    ..Load::default()
                },
            )
            .expect("covered");
            near(bent.deflection, alpha * short.powi(4) / (1e9 * 1e-3), 0.006);
            near(bent.field_stress, beta * short.powi(2) / 0.01, 0.002);
        }
    }
}

/// The same book's case 8a (from memory), nu = 0.3.
#[test]
fn clamped_plates_are_roarks() {
    let rows = [
        (1.0, 0.0138, 0.1386, 0.3078),
        (1.2, 0.0188, 0.1794, 0.3834),
        (1.4, 0.0226, 0.2094, 0.4356),
        (1.6, 0.0251, 0.2286, 0.4680),
        (1.8, 0.0267, 0.2406, 0.4872),
        (2.0, 0.0277, 0.2472, 0.4974),
        (1e6, 0.0284, 0.2500, 0.5000),
    ];
    for (ratio, alpha, field, edge) in rows {
        let [deflection, field_moment, edge_moment] =
            coefficients(ratio, 0.3, Edges::Clamped, UNIFORM);
        near(deflection, alpha / (12.0 * 0.91), 0.008);
        near(field_moment, field / 6.0, 0.01);
        near(edge_moment, edge / 6.0, 0.003);
    }
}

/// A published-row example worked by hand: hinged 250 x 350 x 12 mm, 3 kPa, 276 MPa, nu = 0.3
/// give 0.590 MPa and 1.892 mm by Roark's case 1a (row a/b = 1.4).
#[test]
fn worked_example_by_roarks_row() {
    let plate = Plate {
        width: 0.35,
        height: 0.25,
        thickness: 0.012,
        modulus: 276e6,
        poisson: 0.3,
    };
    let bent = bend(
        &plate,
        Edges::Hinged,
        &Load {
            uniform: 3000.0,
            ..Load::default()
        },
    )
    .expect("covered");
    near(bent.field_stress, 0.590e6, 0.003);
    near(bent.deflection, 1.892e-3, 0.006);
    assert_eq!(bent.sources.len(), 1);
    assert_eq!(bent.sources[0].0, Flag::Seen);
}

/// Timoshenko and Woinowsky-Krieger, square hinged plate under hydrostatic load: 0.00203 and
/// 0.0239 at the centre (from memory); the largest deflection lies a little lower, 0.00205.
#[test]
fn hydrostatic_hinged_square_is_timoshenkos() {
    let [deflection, ..] = coefficients(1.0, 0.3, Edges::Hinged, FALLING);
    near(deflection, 0.00205, 0.005);
}

/// Finite-element plate values for a wall under hydrostatic load at nu = 0.42, in units of the
/// height (computed for the reference by a 16-degree rectangular element, 40 x 40 mesh):
/// width over height, deflection, largest edge moment, largest field moment.
#[test]
fn another_poissons_ratio_agrees_with_finite_elements() {
    let clamped = [
        (0.5, 0.00009, 0.0125, 0.0062),
        (1.0, 0.00064, 0.0334, 0.0137),
        (1.5, 0.00111, 0.0461, 0.0197),
        (2.0, 0.00127, 0.0497, 0.0215),
        (3.0, 0.00132, 0.0502, 0.0216),
    ];
    let hinged = [
        (0.5, 0.00034, 0.0, 0.0145),
        (1.0, 0.00205, 0.0, 0.0291),
        (1.5, 0.00388, 0.0, 0.0446),
        (2.0, 0.00508, 0.0, 0.0539),
        (3.0, 0.00613, 0.0, 0.0615),
    ];
    for (edges, rows) in [(Edges::Clamped, clamped), (Edges::Hinged, hinged)] {
        for (width_over_height, w, edge, field) in rows {
            let found = coefficients(1.0 / width_over_height, 0.42, edges, FALLING);
            // Half of the last printed digit, and the mesh.
            let same = |found: f64, wanted: f64, digit: f64| {
                assert!(
                    (found - wanted).abs() < digit + 0.015 * wanted,
                    "{width_over_height}: {found} {wanted}"
                )
            };
            let height = f64::powi(1.0 / width_over_height, 4);
            same(found[0] / height, w, 6e-6);
            let height = f64::powi(1.0 / width_over_height, 2);
            same(found[2] / height, edge, 6e-5);
            same(found[1] / height, field, 6e-5);
        }
    }
}

/// Three held edges and a free top at nu = 0.3, and finite-element values at nu = 0.42 for sides
/// and foot clamped, as above; Roark's case 2 square (from memory): 0.140 uniform, 0.040 falling
/// in units of `q b^4 / (E t^3)`.
#[test]
fn a_free_top_agrees_with_published_and_computed_values() {
    near(
        coefficients(1.0, 0.3, Edges::HingedFreeTop, UNIFORM)[0] * 12.0 * 0.91,
        0.140,
        0.01,
    );
    near(
        coefficients(1.0, 0.3, Edges::HingedFreeTop, FALLING)[0] * 12.0 * 0.91,
        0.040,
        0.01,
    );
    near(
        coefficients(2.0, 0.3, Edges::HingedFreeTop, UNIFORM)[1],
        0.13161,
        0.001,
    );
    near(
        coefficients(1.0, 0.3, Edges::ClampedFreeTop, FALLING)[0],
        0.000804,
        0.002,
    );
    near(
        coefficients(1.0, 0.42, Edges::ClampedFreeTop, FALLING)[0],
        0.00080,
        0.01,
    );
    near(
        coefficients(1.0, 0.42, Edges::ClampedFreeTop, FALLING)[2],
        0.0348,
        0.01,
    );
    let [w, _, _] = coefficients(0.5, 0.42, Edges::ClampedFreeTop, FALLING);
    near(w, 0.00890 * 0.5_f64.powi(4), 0.01);
}

/// Navier's double series for a hinged plate, summed here: the reading between the rows is
/// within 1 % of it, and so is superposition at the centre.
#[test]
fn between_the_rows_hinged_plates_are_naviers() {
    for ratio in [1.05, 1.15, 1.27, 1.55, 2.2, 2.7, 3.5, 4.5] {
        let (w, m) = navier_centre(ratio, 0.3);
        let [deflection, field, _] = coefficients(ratio, 0.3, Edges::Hinged, UNIFORM);
        near(deflection, w, 0.01);
        near(field, m, 0.01);
    }
}

fn navier_centre(ratio: f64, poisson: f64) -> (f64, f64) {
    use std::f64::consts::PI;
    let (mut w, mut m) = (0.0, 0.0);
    for i in (1..200).step_by(2) {
        for j in (1..200).step_by(2) {
            let (k, l) = (f64::from(i), f64::from(j) / ratio);
            let sign = if (i + j) / 2 % 2 == 1 { 1.0 } else { -1.0 };
            let term = sign * 16.0 / (PI.powi(6) * f64::from(i * j) * (k * k + l * l).powi(2));
            w += term;
            m += term * PI * PI * (k * k + poisson * l * l);
        }
    }
    (w, m)
}

#[test]
fn superposed_loads_bound_the_uniform_one() {
    for ratio in [0.4, 1.0, 2.5] {
        let both = Load {
            uniform: 0.5,
            falling_up: 0.5,
            falling_across: 0.0,
        };
        let all = coefficients(ratio, 0.42, Edges::Clamped, UNIFORM);
        let some = coefficients(ratio, 0.42, Edges::Clamped, both);
        let turned = coefficients(
            1.0 / ratio,
            0.42,
            Edges::Clamped,
            Load {
                falling_across: 1.0,
                ..Load::default()
            },
        );
        let falling = coefficients(ratio, 0.42, Edges::Clamped, FALLING);
        for i in 0..3 {
            assert!(some[i] < all[i] && some[i] > 0.5 * all[i]);
            // Turned by a quarter, in the plate's own units of length.
            let scale = if i == 0 { ratio.powi(4) } else { ratio.powi(2) };
            near(turned[i] * scale, falling[i], 1e-9);
        }
    }
}

#[test]
fn what_is_not_covered_says_so() {
    let plate = Plate {
        width: 1.0,
        height: 1.0,
        thickness: 0.006,
        modulus: 200e6,
        poisson: 0.42,
    };
    let deep = bend(
        &plate,
        Edges::Hinged,
        &Load {
            uniform: 5000.0,
            ..Load::default()
        },
    );
    assert!(matches!(deep, Err(NotCovered::TooDeep { limit, .. }) if limit == 0.003));
    let slender = Plate {
        height: 9.0,
        thickness: 0.1,
        ..plate
    };
    let sideways = Load {
        falling_across: 1.0,
        ..Load::default()
    };
    assert!(matches!(
        bend(&slender, Edges::ClampedFreeTop, &FALLING),
        Err(NotCovered::Shape { .. })
    ));
    assert_eq!(
        bend(&plate, Edges::HingedFreeTop, &sideways),
        Err(NotCovered::Load)
    );
    let soft = Plate {
        poisson: 0.5,
        ..plate
    };
    assert!(matches!(
        bend(&soft, Edges::Hinged, &UNIFORM),
        Err(NotCovered::Poisson { .. })
    ));
    for bad in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
        let broken = Plate {
            thickness: bad,
            ..plate
        };
        assert_eq!(
            bend(&broken, Edges::Hinged, &UNIFORM),
            Err(NotCovered::BadNumber("thickness"))
        );
    }
    let pulled = Load {
        uniform: -1.0,
        ..Load::default()
    };
    assert_eq!(
        bend(&plate, Edges::Hinged, &pulled),
        Err(NotCovered::BadNumber("load"))
    );
}
