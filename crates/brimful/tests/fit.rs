//! `brimful fit` at the command: what it says to a space that cannot be used, and what it writes.

#![allow(clippy::unwrap_used, reason = "a test ends where it fails")]

mod common;
use common::Bench;

const HEAD: &str = "[job]\nlengths = \"mm\"   # by tape\n[liquid]\nkind = \"water\"\nwanted = \"50 L rated\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\n[space]\n";

/// The exit code and all words, in one line, of `fit` on a space.
fn fit(space: &str) -> (i32, String) {
    let bench = Bench::new();
    bench.write("tank.job.toml", format!("{HEAD}{space}"));
    let ended = bench.run(&["fit", "tank.job.toml"]);
    let all = format!("{}{}", ended.out, ended.err);
    (
        ended.code,
        all.split_whitespace().collect::<Vec<_>>().join(" "),
    )
}

#[track_caller]
fn says(space: &str, code: i32, sentences: &[&str]) {
    let (ended, words) = fit(space);
    assert_eq!(ended, code, "{words}");
    for sentence in sentences {
        assert!(words.contains(sentence), "`{sentence}` is not in:\n{words}");
    }
}

#[test]
fn an_outline_that_is_open_crosses_or_doubles_back() {
    says(
        "plan = [[0, 0], [800, 0]]\nheight = 500\n",
        2,
        &["space.plan: `plan` takes at least 3 points of two lengths each; the list holds 2."],
    );
    says(
        "plan = [[0, 0], [800, 600], [800, 0], [0, 600]]\nheight = 500\n",
        2,
        &[
            "The outline cannot be used: the side that starts at point 1 meets the side that starts at point 3.",
            "Give the corners in order round the outline, each once.",
        ],
    );
    says(
        "plan = [[0, 0], [800, 0], [800, 600], [0, 600], [0, 0]]\nheight = 500\n",
        2,
        &["The outline cannot be used: point 5 is given twice in a row."],
    );
    says(
        "plan = [[0, 0], [800, 0], [800, 600], [0, 600]]\n",
        2,
        &[
            "space: nothing gives the height.",
            "Write `height`, or the outline of a second view.",
        ],
    );
}

#[test]
fn an_outline_the_other_way_round_is_the_same_space() {
    let (code, there) = fit("plan = [[0, 0], [800, 0], [800, 600], [0, 600]]\nheight = 500\n");
    let (_, back) = fit("plan = [[0, 0], [0, 600], [800, 600], [800, 0]]\nheight = 500\n");
    assert_eq!(code, 0);
    assert_eq!(there, back);
}

#[test]
fn obstacles_that_cut_the_space_in_two_leave_both_pieces_with_their_litres() {
    // Pieces of 370 and 470 by 580 by 490 mm inside a clearance of 10: 105.2 and 133.6 L.
    says(
        "box = [900, 600, 500]\n[[space.obstacle]]\nname = \"wall\"\nfrom = [390, 0, 0]\nto = [410, 600, 500]\n",
        0,
        &[
            "The obstacles cut the space into 2 separate pieces: 105.2 L at x 10 mm to 380 mm, y 10 mm to 590 mm, z 0 mm to 490 mm; 133.6 L at x 420 mm to 890 mm, y 10 mm to 590 mm, z 0 mm to 490 mm. Bodies are offered for each.",
            "every facet in piece 1",
            "every facet in piece 2",
        ],
    );
}

#[test]
fn an_opening_smaller_than_any_piece_stops() {
    for (space, about) in [
        (
            "box = [800, 600, 500]\nway_in = [40, 40]\n",
            "40 mm by 40 mm",
        ),
        (
            "box = [800, 600, 500]\nway_in = { width = 60, height = 50, side = \"above\" }\n",
            "60 mm by 50 mm",
        ),
    ] {
        let said = format!(
            "No body can be offered that passes the opening of {about}: `every facet, in pieces` does not get in: it passes the opening in no attitude, which is proven, nor in up to four pieces."
        );
        says(
            space,
            1,
            &[
                &said,
                "Find a larger opening, or build the tank in its place.",
            ],
        );
    }
}

#[test]
fn an_obstacle_outside_or_over_everything_is_named() {
    let wall = |from: &str, to: &str| {
        format!(
            "box = [900, 600, 500]\n[[space.obstacle]]\nname = \"wall\"\nfrom = {from}\nto = {to}\n"
        )
    };
    says(
        &wall("[1390, 0, 0]", "[1410, 600, 500]"),
        2,
        &["The obstacle `wall` lies outside the space."],
    );
    says(
        &wall("[0, 0, 0]", "[900, 600, 500]"),
        2,
        &[
            "Nothing of the space is left for a tank once obstacles, clearance and the room above are taken off.",
        ],
    );
}

#[test]
fn the_body_written_keeps_comments_and_checks_with_the_same_litres() {
    let space = "box = [900, 600, 500]   # the hole\n[[space.obstacle]]   # stays\nname = \"post\"\nfrom = [0, 0, 0]\nto = [200, 200, 500]\n";
    let bench = Bench::new();
    bench.write("tank.job.toml", format!("{HEAD}{space}"));
    let offered = bench.run(&["fit", "tank.job.toml", "--json"]).json();
    let offers = offered["fit"]["offers"].as_array().unwrap();
    assert!(offers.len() > 1);
    for offer in offers {
        let name = offer["name"].as_str().unwrap();
        bench.write("tank.job.toml", format!("{HEAD}{space}"));
        let ended = bench.run(&["fit", "tank.job.toml", "--write", name]);
        assert_eq!(ended.code, 0, "{ended:?}");
        let text = String::from_utf8(bench.read("tank.job.toml")).unwrap();
        for comment in ["# by tape", "# the hole", "# stays"] {
            assert!(text.contains(comment), "{text}");
        }
        let checked = bench.run(&["check", "tank.job.toml", "--quick", "--json"]);
        assert!(checked.code < 2, "{checked:?}");
        let capacity = &checked.json()["capacity"];
        for key in ["brim_m3", "rated_m3"] {
            let (a, b) = (
                offer[key].as_f64().unwrap(),
                capacity[key].as_f64().unwrap(),
            );
            // Corners are written to a thousandth of a nanometre.
            assert!(
                (a - b).abs() < 1e-9 * a,
                "{name} {key}: {a} offered, {b} checked"
            );
        }
    }
}

#[test]
fn slivers_beside_a_leaning_wall_do_not_hold_it_up() {
    // Obstacles that meet the leaning wall leave parts outside that no cut makes simpler.
    says(
        "box = [980, 596, 372]\nclearance = 13\n[[space.wall]]\nname = \"left\"\nlean = 37\nat = 372\n\
         [[space.obstacle]]\nname = \"a\"\nfrom = [155, 330, 0]\nto = [440, 547, 41]\n\
         [[space.obstacle]]\nname = \"b\"\nfrom = [470, 521, 56]\nto = [654, 596, 92]\n\
         [[space.obstacle]]\nname = \"c\"\nfrom = [492, 498, 95]\nto = [628, 596, 164]\n",
        0,
        &["every facet"],
    );
}

#[test]
fn a_box_is_found_beside_a_block_on_a_leaning_wall() {
    says(
        "box = [1400, 723, 309]\nclearance = 8\n[[space.wall]]\nname = \"left\"\nlean = 101\nat = 309\n\
         [[space.obstacle]]\nname = \"a\"\nfrom = [0, 631, 75]\nto = [264, 723, 196]\n",
        0,
        &["plain box"],
    );
}
