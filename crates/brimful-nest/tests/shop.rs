//! Orders as a shop has them: kerf, trim, crosscut, offcuts, parts too large.

#![allow(clippy::unwrap_used)] // helpers of tests: a panic is the wanted report

use brimful_nest::{Fate, NestError, Part, Plan, Runs, Settings, Sheet, Verdict, Why, check, nest};

fn parts(sizes: &[(f64, f64)]) -> Vec<Part> {
    let part = |(id, &(length, width)): (usize, &(f64, f64))| Part {
        id,
        length,
        width,
        may_turn: true,
    };
    sizes.iter().enumerate().map(part).collect()
}

fn sheet(length: f64, width: f64) -> Sheet {
    Sheet {
        id: 7,
        length,
        width,
        count: None,
        cost: 1.0,
    }
}

fn saw(kerf: f64, trim: f64) -> Settings {
    Settings {
        kerf,
        trim,
        largest_crosscut: None,
        effort: Settings::USUAL_EFFORT,
    }
}

fn lay(parts: &[Part], sheets: &[Sheet], settings: &Settings) -> Plan {
    let plan = nest(parts, sheets, settings).unwrap();
    assert_eq!(check(&plan, parts, sheets, settings), Ok(()));
    plan
}

/// A bench box: two long sides, lid and floor, two ends and a baffle on one sheet. With the long
/// panels along the sheet the ends do not fit; across it all do. Worked by hand: twice 374 and
/// twice 350 with four cuts of 3.2 make 1461 of 1990, leaving 529 x 990 for ends and baffle: twice 350
/// and 280 with two cuts make 986.4.
#[test]
fn bench_box_fits_one_sheet_laid_across() {
    let mut order = parts(&[
        (0.964, 0.374),
        (0.964, 0.374),
        (0.964, 0.350),
        (0.964, 0.350),
    ]);
    order.extend(
        parts(&[(0.374, 0.350), (0.374, 0.350), (0.358, 0.280)])
            .into_iter()
            .map(|p| Part { id: p.id + 4, ..p }),
    );
    let plan = lay(&order, &[sheet(2.0, 1.0)], &saw(0.0032, 0.005));
    assert_eq!(plan.layouts.len(), 1);
    assert_eq!(plan.verdict, Verdict::ProvenBest);
    assert!(plan.left_out.is_empty());
}

#[test]
fn kerf_is_paid_between_parts_and_not_at_the_edge() {
    let fixed = |sizes| {
        parts(sizes)
            .into_iter()
            .map(|part| Part {
                may_turn: false,
                ..part
            })
            .collect::<Vec<_>>()
    };
    let order = fixed(&[(0.4984, 1.0), (0.4984, 1.0)]);
    let plan = lay(&order, &[sheet(1.0, 1.0)], &saw(0.0032, 0.0));
    assert_eq!(plan.layouts.len(), 1);
    let cuts = plan.layouts[0].cuts();
    assert_eq!(cuts.len(), 1);
    assert_eq!(
        (cuts[0].1.runs, cuts[0].1.fence),
        (Runs::AlongWidth, 0.4984)
    );
    assert!(plan.layouts[0].offcuts().is_empty());
    // A micrometre more and they need two sheets.
    let order = fixed(&[(0.4984, 1.0), (0.498401, 1.0)]);
    assert_eq!(
        lay(&order, &[sheet(1.0, 1.0)], &saw(0.0032, 0.0))
            .layouts
            .len(),
        2
    );
}

#[test]
fn a_part_as_large_as_the_sheet_needs_no_cut() {
    let plan = lay(&parts(&[(1.0, 2.0)]), &[sheet(2.0, 1.0)], &saw(0.003, 0.0));
    assert_eq!(
        plan.layouts[0].root.fate,
        Fate::Part {
            id: 0,
            turned: true
        }
    );
}

#[test]
fn leftovers_thinner_than_the_blade_are_no_offcut() {
    let plan = lay(
        &parts(&[(0.998, 1.0)]),
        &[sheet(1.0, 1.0)],
        &saw(0.003, 0.0),
    );
    assert_eq!(plan.layouts[0].cuts().len(), 1);
    assert!(plan.layouts[0].cuts()[0].1.rest.is_none());
}

#[test]
fn trimming_is_four_cuts_and_takes_its_width() {
    let order = parts(&[(1.98, 0.98)]);
    let plan = lay(&order, &[sheet(2.0, 1.0)], &saw(0.003, 0.01));
    assert_eq!(plan.layouts[0].cuts().len(), 4);
    assert!(plan.layouts[0].offcuts().is_empty());
    let refused = lay(&order, &[sheet(2.0, 1.0)], &saw(0.003, 0.0101));
    assert_eq!(refused.left_out[0].why, Why::FitsNoSheet);
}

#[test]
fn largest_crosscut_turns_the_work_into_rips() {
    let order = parts(&[(0.9, 1.2); 4]);
    let settings = Settings {
        largest_crosscut: Some(1.25),
        ..saw(0.003, 0.0)
    };
    let plan = lay(&order, &[sheet(3.0, 1.5)], &settings);
    // The first cut may not run across the 1.5 m.
    assert_eq!(plan.layouts[0].cuts()[0].1.runs, Runs::AlongLength);
    let never = lay(&parts(&[(1.3, 1.3)]), &[sheet(3.0, 1.5)], &settings);
    assert_eq!(never.left_out[0].why, Why::NoCutFreesIt);
}

#[test]
fn parts_that_fit_nothing_or_find_no_sheet_are_reported() {
    let order = parts(&[(2.5, 0.4), (0.9, 0.9), (0.9, 0.9), (0.9, 0.9)]);
    let few = Sheet {
        count: Some(1),
        ..sheet(2.0, 1.0)
    };
    let plan = lay(&order, &[few], &saw(0.003, 0.0));
    let why: Vec<_> = plan.left_out.iter().map(|left| left.why).collect();
    assert_eq!(why, [Why::FitsNoSheet, Why::StockUsedUp]);
    assert_eq!(plan.verdict, Verdict::StockShort { proven: true });
    let none = lay(&order[..1], &[], &saw(0.003, 0.0));
    assert_eq!(none.left_out[0].why, Why::FitsNoSheet);
}

#[test]
fn an_offcut_on_hand_saves_a_sheet() {
    let order = parts(&[(0.9, 0.9), (0.9, 0.9), (0.5, 0.5)]);
    let offcut = Sheet {
        id: 1,
        length: 0.6,
        width: 0.6,
        count: Some(1),
        cost: 0.0,
    };
    let plan = lay(&order, &[sheet(2.0, 1.0), offcut], &saw(0.003, 0.0));
    assert_eq!(plan.cost, 1.0);
    assert!(plan.layouts.iter().any(|layout| layout.sheet == 1));
    // Where all fits the sheet anyway, the offcut stays on the rack.
    let offcut = Sheet {
        id: 1,
        length: 0.6,
        width: 0.6,
        count: Some(1),
        cost: 0.0,
    };
    let plan = lay(&order[1..], &[sheet(2.0, 1.0), offcut], &saw(0.003, 0.0));
    assert_eq!((plan.cost, plan.layouts.len()), (1.0, 1));
}

#[test]
fn the_cheaper_mixture_of_sizes_is_found() {
    let order = parts(&[(1.9, 0.9), (0.8, 0.8)]);
    let big = Sheet {
        id: 0,
        length: 3.0,
        width: 1.5,
        count: None,
        cost: 225.0,
    };
    let half = Sheet {
        id: 2,
        length: 1.0,
        width: 1.0,
        count: None,
        cost: 55.0,
    };
    let sheets = [
        big,
        Sheet {
            cost: 105.0,
            ..sheet(2.0, 1.0)
        },
        half,
    ];
    let plan = lay(&order, &sheets, &saw(0.003, 0.0));
    assert_eq!(plan.cost, 160.0);
}

#[test]
fn unusable_numbers_are_refused() {
    let bad = |part: Part| nest(&[part], &[sheet(2.0, 1.0)], &saw(0.003, 0.0));
    for length in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e5] {
        let refused = bad(Part {
            id: 3,
            length,
            width: 0.1,
            may_turn: true,
        });
        assert!(
            matches!(&refused, Err(NestError::Number { place, .. }) if place == "length of part 3"),
            "{refused:?}"
        );
    }
    let twice = [
        Part {
            id: 1,
            length: 0.1,
            width: 0.1,
            may_turn: true,
        },
        Part {
            id: 1,
            length: 0.2,
            width: 0.1,
            may_turn: true,
        },
    ];
    assert_eq!(
        nest(&twice, &[sheet(2.0, 1.0)], &saw(0.003, 0.0)),
        Err(NestError::SameId {
            kind: "part",
            id: 1
        })
    );
}

#[test]
fn check_finds_what_is_wrong() {
    let order = parts(&[(0.9, 0.4), (0.8, 0.3)]);
    let sheets = [sheet(2.0, 1.0)];
    let settings = saw(0.003, 0.005);
    let plan = lay(&order, &sheets, &settings);
    let wider_blade = saw(0.004, 0.005);
    assert!(check(&plan, &order, &sheets, &wider_blade).is_err());
    let other_sizes = parts(&[(0.9, 0.4), (0.8, 0.31)]);
    assert!(check(&plan, &other_sizes, &sheets, &settings).is_err());
    let more = parts(&[(0.9, 0.4), (0.8, 0.3), (0.1, 0.1)]);
    assert!(check(&plan, &more, &sheets, &settings).is_err());
    let smaller = [sheet(1.9, 1.0)];
    assert!(check(&plan, &order, &smaller, &settings).is_err());
    let gone = [Sheet {
        count: Some(0),
        ..sheet(2.0, 1.0)
    }];
    assert!(check(&plan, &order, &gone, &settings).is_err());
}

/// Random orders, all checked; the same order twice gives the same plan.
#[test]
fn random_orders_hold() {
    let mut random = fastrand::Rng::with_seed(11);
    for round in 0..soaked(300) {
        let count = random.usize(1..=14);
        let order: Vec<Part> = (0..count)
            .map(|id| Part {
                id,
                length: 0.05 + random.f64(),
                width: 0.05 + random.f64(),
                may_turn: random.bool(),
            })
            .collect();
        let sheets = [
            Sheet {
                id: 0,
                length: 2.0,
                width: 1.0,
                count: [None, Some(2)][round % 2],
                cost: 100.0,
            },
            Sheet {
                id: 1,
                length: 3.0 * random.f64() + 0.1,
                width: 0.7,
                count: Some(1),
                cost: random.f64() * 60.0,
            },
        ];
        let settings = Settings {
            kerf: 0.005 * random.f64(),
            trim: [0.0, 0.001, 0.01][round % 3],
            largest_crosscut: [None, Some(0.9)][round / 2 % 2],
            effort: 5_000,
        };
        let plan = lay(&order, &sheets, &settings);
        assert_eq!(plan, lay(&order, &sheets, &settings));
    }
}

/// A thousand small parts: no deep recursion, no long wait.
#[test]
fn many_parts() {
    let mut random = fastrand::Rng::with_seed(5);
    let sizes: Vec<(f64, f64)> = (0..1000)
        .map(|_| (0.02 + 0.1 * random.f64(), 0.02 + 0.1 * random.f64()))
        .collect();
    let plan = lay(&parts(&sizes), &[sheet(2.0, 1.0)], &saw(0.003, 0.0));
    assert!(plan.left_out.is_empty());
}

/// The effort that the command leans on: fourteen parts are laid out within the usual count of nodes.
#[test]
fn fourteen_parts_take_the_usual_effort() {
    let mut random = fastrand::Rng::with_seed(3);
    for _ in 0..21 {
        let sizes: Vec<(f64, f64)> = (0..14)
            .map(|_| (0.1 + random.f64(), 0.1 + 0.5 * random.f64()))
            .collect();
        let plan = nest(&parts(&sizes), &[sheet(2.0, 1.0)], &saw(0.003, 0.005)).unwrap();
        // The step in which the count runs out is finished.
        let most = Settings::USUAL_EFFORT + 1_000;
        assert!(plan.nodes <= most, "{}", plan.nodes);
    }
}

/// So many cases, times what `make soak` asks for.
fn soaked(cases: usize) -> usize {
    let times = std::env::var("BRIMFUL_SOAK").ok();
    cases * times.and_then(|times| times.parse().ok()).unwrap_or(1)
}
