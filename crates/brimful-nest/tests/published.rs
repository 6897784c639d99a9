//! Layouts and bounds against open instances with published best values; sources and licences
//! in `verify/nesting/README.md`.

#![allow(clippy::unwrap_used)] // helpers of tests: a panic is the wanted report

use std::fs;
use std::path::PathBuf;

use brimful_nest::{Part, Plan, Settings, Sheet, check, nest};

/// More than usual: up to a hundred parts, and the values to compare with come from long
/// searches. Set the variable `NEST_EFFORT` for a longer run.
const EFFORT: usize = 100_000;

/// All 350 instances of the ten classes, each with fixed parts and with parts that may turn.
///
/// The published values are the best of all that has been tried, with three-stage layouts, and
/// took minutes an instance; ours has some tens of milliseconds. What is asked: turned (how a
/// shop without grain works) within 2.5 % of the published total, fixed within 2 %; a class of
/// its own within 6 %, as one sheet more weighs heavily in the classes of few sheets. The bound
/// must never pass a published layout, and must reach 98 % of the published totals.
#[test]
fn bin_packing() {
    let effort = std::env::var("NEST_EFFORT").map_or(EFFORT, |effort| effort.parse().unwrap());
    let mut all = Class::default();
    for class in 1..=10 {
        let totals = run_class(class, effort);
        println!("class {class}: {totals:?}");
        assert!(
            totals.turned as f64 <= 1.06 * totals.best_turned as f64,
            "class {class}"
        );
        assert!(
            totals.fixed as f64 <= 1.06 * totals.best_fixed as f64,
            "class {class}"
        );
        all.add(&totals);
    }
    println!("all: {all:?}");
    assert_eq!((all.best_fixed, all.best_turned), (5008, 4814));
    assert!(all.turned as f64 <= 1.025 * all.best_turned as f64);
    assert!(all.fixed as f64 <= 1.02 * all.best_fixed as f64);
    assert!(all.bound_turned as f64 >= 0.98 * all.best_turned as f64);
    assert!(all.bound_fixed as f64 >= 0.98 * all.best_fixed as f64);
}

/// One sheet, one copy of each part, most area: Beasley's gcut1 to gcut4. The published values
/// for fixed parts are not all of guillotine layouts, so reaching them is not always possible;
/// none may be passed, and 98 % is asked. The ten parts of gcut1 must be laid as well as is
/// possible both ways.
#[test]
fn one_sheet_most_area() {
    let published = [
        ("gcut1.txt", false, 48368.0),
        ("gcut2.txt", false, 59798.0),
        ("gcut3.txt", false, 61275.0),
        ("gcut4.txt", false, 61380.0),
        ("gcut1.txt", true, 58136.0),
        ("gcut2.txt", true, 60656.0),
    ];
    for (name, may_turn, best) in published {
        let (parts, sheet) = one_of_each(name, may_turn);
        let plan = solve(&parts, &sheet, 300_000);
        let used: f64 = plan
            .layouts
            .iter()
            .flat_map(|l| l.placements())
            .map(|p| p.rect.area())
            .sum();
        println!(
            "{name} turned {may_turn}: {used} of {best}, {:.2} %",
            100.0 * used / best
        );
        let least = if name == "gcut1.txt" {
            best
        } else {
            0.98 * best
        };
        assert!((least..=best).contains(&used), "{name}: {used} of {best}");
    }
}

fn one_of_each(name: &str, may_turn: bool) -> (Vec<Part>, Sheet) {
    let text = read(name);
    let mut numbers = text
        .split_whitespace()
        .map(|number| number.parse::<f64>().unwrap());
    let mut next = || numbers.next().unwrap();
    let count = next() as usize;
    let sheet = Sheet {
        id: 0,
        length: next(),
        width: next(),
        count: Some(1),
        cost: 1.0,
    };
    let mut part = |id| {
        let (length, width, _value) = (next(), next(), next());
        Part {
            id,
            length,
            width,
            may_turn,
        }
    };
    ((0..count).map(&mut part).collect(), sheet)
}

#[derive(Debug, Default)]
struct Class {
    fixed: usize,
    best_fixed: usize,
    turned: usize,
    best_turned: usize,
    bound_fixed: usize,
    bound_turned: usize,
}

impl Class {
    fn add(&mut self, other: &Self) {
        self.fixed += other.fixed;
        self.best_fixed += other.best_fixed;
        self.turned += other.turned;
        self.best_turned += other.best_turned;
        self.bound_fixed += other.bound_fixed;
        self.bound_turned += other.bound_turned;
    }
}

fn run_class(class: usize, effort: usize) -> Class {
    let mut totals = Class::default();
    for line in read("bp2d_shared.csv").lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<usize>().unwrap();
        if number(0) != class {
            continue;
        }
        let sheet = Sheet {
            id: 0,
            length: number(3) as f64,
            width: number(4) as f64,
            count: None,
            cost: 1.0,
        };
        let solve = |may_turn: bool| {
            let parts = csv_parts(cells[10], may_turn);
            assert!(parts.len() == number(1));
            solve(&parts, &sheet, effort)
        };
        let (fixed, turned) = (solve(false), solve(true));
        // A lower bound must not pass any published layout, guillotine or not.
        assert!(
            fixed.bound.sheets <= number(6) && turned.bound.sheets <= number(7),
            "bound of {line}"
        );
        assert!(
            fixed.bound.sheets_by_area == number(5),
            "area bound of {line}"
        );
        totals.fixed += fixed.layouts.len();
        totals.turned += turned.layouts.len();
        totals.best_fixed += number(8);
        totals.best_turned += number(9);
        totals.bound_fixed += fixed.bound.sheets;
        totals.bound_turned += turned.bound.sheets;
    }
    totals
}

fn csv_parts(text: &str, may_turn: bool) -> Vec<Part> {
    let mut parts = Vec::new();
    for item in text.split_whitespace() {
        let (size, copies) = item.split_once('*').unwrap_or((item, "1"));
        let (length, width) = size.split_once('x').unwrap();
        for _ in 0..copies.parse().unwrap() {
            parts.push(Part {
                id: parts.len(),
                length: length.parse().unwrap(),
                width: width.parse().unwrap(),
                may_turn,
            });
        }
    }
    parts
}

fn solve(parts: &[Part], sheet: &Sheet, effort: usize) -> Plan {
    let settings = Settings {
        kerf: 0.0,
        trim: 0.0,
        largest_crosscut: None,
        effort,
    };
    let sheets = [sheet.clone()];
    let plan = nest(parts, &sheets, &settings).unwrap();
    assert_eq!(check(&plan, parts, &sheets, &settings), Ok(()));
    plan
}

fn read(name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("../../verify/nesting")
        .join(name);
    fs::read_to_string(path).unwrap()
}
