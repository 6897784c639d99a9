//! `check --take`: a change that was worked out, written into the job file.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use common::Bench;

/// Its walls are too thin; 20 mm holds, as the check works out.
const JOB: &str = r#"# for the cellar
[job]
lengths = "mm"
duty = "standing"
[body]
box = [1500, 700, 600]
thickness = 12 # what was on hand
[liquid]
kind = "water"
warmest = "25 degC"
years = "10 years"
[shop]
process = "extrusion"
[[stock.sheet]]
size = [3000, 1500]
thickness = 12
[[stock.sheet]]
size = [3000, 1500]
thickness = 20
[[opening]]
name = "vent"
service = "vent"
panel = "lid"
at = [750, 60]
diameter = 60
[[opening]]
name = "near hatch"
service = "hatch"
panel = "lid"
at = [375, 350]
diameter = 300
[[opening]]
name = "far hatch"
service = "hatch"
panel = "lid"
at = [1125, 350]
diameter = 300
"#;

#[test]
fn a_change_is_taken_by_its_number() {
    let bench = Bench::new();
    bench.write("tank.job.toml", JOB);
    let listed = bench.run(&["check", "tank.job.toml"]);
    assert_eq!(listed.code, 1, "{listed:?}");
    assert!(
        listed.out.contains("  1: Outer sheets of 20 mm."),
        "{}",
        listed.out
    );
    for wrong in ["0", "9"] {
        let refused = bench.run(&["check", "tank.job.toml", "--take", wrong]);
        assert_eq!(refused.code, 2, "{refused:?}");
        assert!(
            refused.err.contains("Give a number from 1 to"),
            "{refused:?}"
        );
    }
    assert_eq!(bench.read("tank.job.toml"), JOB.as_bytes());
    assert_eq!(bench.names(), ["tank.job.toml"]);

    let taken = bench.run(&["check", "tank.job.toml", "--take", "1"]);
    assert_eq!(taken.code, 0, "{taken:?}");
    assert!(
        taken
            .out
            .starts_with("Took change 1: Outer sheets of 20 mm. It is in tank.job.toml;"),
        "{}",
        taken.out
    );
    let kept = "tank.job.toml.before-change";
    assert_eq!(bench.read(kept), JOB.as_bytes());
    let text = String::from_utf8(bench.read("tank.job.toml")).unwrap();
    assert_eq!(
        text,
        JOB.replace("thickness = 12 # what", "thickness = 20 # what")
    );

    let none = bench.run(&["check", "tank.job.toml", "--take", "1"]);
    assert_eq!(none.code, 2, "{none:?}");
    assert!(none.err.contains("no change 1 to take"), "{none:?}");
}

#[test]
fn a_draft_has_no_change_to_take() {
    let bench = Bench::new();
    bench.write("tank.job.toml", JOB);
    let refused = bench.run(&["check", "tank.job.toml", "--quick", "--take", "1"]);
    assert_eq!(refused.code, 2, "{refused:?}");
    assert_eq!(bench.read("tank.job.toml"), JOB.as_bytes());
}

/// Its walls hold; a baffle of 4 mm, left over from another job, does not.
const WITH_ORDER: &str = r#"[job]
lengths = "mm"
duty = "standing"
[liquid]
kind = "brine 10 %"
warmest = "25 degC"
years = "10 years"
[shop]
process = "extrusion"
[[opening]]
name = "vent"
service = "vent"
panel = "lid"
at = [750, 60]
diameter = 40
[[opening]]
name = "near hatch"
service = "hatch"
panel = "lid"
at = [375, 350]
diameter = 300
[[opening]]
name = "far hatch"
service = "hatch"
panel = "lid"
at = [1125, 350]
diameter = 300
[body]
box = [1500, 700, 600]
thickness = 20
[[inner]]
name = "middle"
kind = "baffle"
across = "x"
at = 750
thickness = 4
air_gap = 400
drain_gap = 25
[weld]
order = ["floor", "front", "middle", "right", "rear", "left", "lid"] # as the bench stands
"#;

#[test]
fn a_change_that_leaves_a_panel_out_keeps_the_order_of_the_others() {
    let bench = Bench::new();
    bench.write("tank.job.toml", WITH_ORDER);
    let taken = bench.run(&["check", "tank.job.toml", "--take", "1"]);
    assert!(
        taken
            .out
            .starts_with("Took change 1: Without the baffle middle."),
        "{taken:?}"
    );
    let baffle = WITH_ORDER
        .split_once("[[inner]]")
        .and_then(|(_, rest)| rest.split_once("[weld]"))
        .map(|(baffle, _)| format!("[[inner]]{baffle}"))
        .unwrap();
    assert_eq!(
        String::from_utf8(bench.read("tank.job.toml")).unwrap(),
        WITH_ORDER.replace(&baffle, "").replace(r#""middle", "#, "")
    );
}

/// So deep and narrow that no gun gets to the feet of its baffles.
const DEEP: &str = r#"[job]
lengths = "mm"
duty = "standing"
[liquid]
kind = "water"
[stock]
material = "HDPE"
[[stock.sheet]]
size = [3000, 1500]
thickness = 12
[shop]
process = "extrusion"
[body]
box = [420, 160, 820]
thickness = 12
[[opening]]
name = "vent"
service = "vent"
panel = "lid"
at = [60, 80]
diameter = 40
[[inner]]
name = "one"
kind = "baffle"
across = "x"
at = 140 # near
thickness = 12
[[inner]]
name = "two"
kind = "baffle"
across = "x"
at = 280
thickness = 12
"#;

const DEEP_AT: &str = "at = AT\nthickness = 12\n";

#[test]
fn what_no_gun_gets_to_inside_is_offered_with_tongues_through_slots() {
    let bench = Bench::new();
    bench.write("tank.job.toml", DEEP);
    let listed = bench.run(&["check", "tank.job.toml"]);
    assert_eq!(listed.code, 1, "{listed:?}");
    assert!(listed.out.contains("Nothing can be laid"), "{}", listed.out);
    let taken = bench.run(&["check", "tank.job.toml", "--take", "1"]);
    assert_eq!(taken.code, 0, "{taken:?}");
    assert!(
        taken.out.starts_with(
            "Took change 1: one, two joined by tongues through slots, welded outside."
        ),
        "{}",
        taken.out
    );
    // A line in each block, and all else where it was.
    let text = String::from_utf8(bench.read("tank.job.toml")).unwrap();
    let wanted = |at: &str| DEEP_AT.replace("AT", at);
    let by_hand = ["140 # near", "280"]
        .iter()
        .fold(DEEP.to_owned(), |text, at| {
            let before = wanted(at);
            text.replace(&before, &format!("{before}joint = \"slot through\"\n"))
        });
    assert_eq!(text, by_hand);
}
