use super::*;
use crate::body::body;
use crate::panels::panels;
use crate::weld::welds_in_order;

struct Tank {
    seams: Vec<Seam>,
    welds: Vec<SeamWeld>,
    restart: Restart,
    corners: Vec<Corner>,
}

fn tank(text: &str) -> Tank {
    let text =
        format!("[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n{text}");
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (body, _) = body(&job, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (laid_out, _) = panels(&job, &body, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (panels, seams) = (laid_out.panels, laid_out.seams);
    let (welds, order) = welds_in_order(&job, &panels, &seams);
    let mut welds = welds.welds;
    let restart = Restart::of(&job);
    let corners = corners(&panels, &seams, &welds, &order.steps, &restart);
    mark_short_runs(&job, &mut welds, &corners, &seams, &restart);
    Tank {
        seams,
        welds,
        restart,
        corners,
    }
}

impl Tank {
    fn of(&self, side: WeldSide) -> impl Iterator<Item = &Corner> {
        self.corners.iter().filter(move |it| it.side == side)
    }
}

/// By hand: from each of a box's eight corners outside and of the four at the floor inside, the lid being welded from outside
/// alone, three seams run, no two of its starts at one distance, all of them away from the corner.
#[test]
fn every_corner_of_a_box_has_staggered_starts_and_no_crossing() {
    let tank = tank("[body]\nbox = [600, 400, 300]\nthickness = 8\n");
    let of = |side| tank.of(side).count();
    assert_eq!([WeldSide::Inside, WeldSide::Outside].map(of), [4, 8]);
    for corner in &tank.corners {
        assert_eq!(corner.passes.len(), 3, "{corner:?}");
        assert_eq!(corner.panels.len(), 3, "{corner:?}");
        assert!(!corner.is_crossing() && !corner.is_re_entrant);
        let ways = corner.passes.iter().map(|it| it.way);
        let through = ways.clone().filter(|it| *it == Way::Through);
        assert_eq!(through.count(), 2, "{corner:?}");
        // Each further from the corner than the one before; what went past an edge has no start here.
        let taken_up = corner.passes.iter().filter_map(|it| it.taken_up);
        let taken_up: Vec<f64> = taken_up.map(|it| it.mm().round()).collect();
        let past = corner.passes.iter().filter(|it| it.way == Way::PastTheEdge);
        let wanted = &[50.0, 75.0, 100.0][..3 - past.count()];
        assert_eq!(taken_up, wanted, "{corner:?}");
    }
    assert_eq!(finding(&tank.corners, &tank.seams), None);
}

/// A panel that stands on two others makes a corner on either of its faces.
#[test]
fn a_divider_has_its_corners_on_both_faces() {
    let tank = tank(
        "[body]\nbox = [800, 400, 300]\nthickness = 8\n[[inner]]\nname = \"d\"\nkind = \"divider\"\nacross = \"x\"\nat = 400\n",
    );
    // Two of each of its four ends: the lid is on before an end closes the tank.
    let inside: Vec<&Corner> = tank.of(WeldSide::Inside).collect();
    let at_divider = inside.iter().filter(|it| (it.at.x - 0.4).abs() < 0.02);
    assert_eq!(at_divider.count(), 8);
    assert!(tank.corners.iter().all(|it| !it.is_crossing()));
}

#[test]
fn an_inside_corner_of_the_body_is_known() {
    let tank = tank(
        "[body]\nplan = [[0, 0], [900, 0], [900, 300], [400, 300], [400, 700], [0, 700]]\nheight = 350\nthickness = 10\n",
    );
    let re_entrant = tank.of(WeldSide::Outside).filter(|it| it.is_re_entrant);
    assert_eq!(re_entrant.count(), 2);
    let at_stop_hole = tank.corners.iter().filter(|it| it.stop_hole.is_some());
    assert!(at_stop_hole.clone().all(|it| it.is_re_entrant));
    assert!(at_stop_hole.count() > 0);
}

/// An extruder's shoe and preheat take 110 mm of a seam before a cross wall, and its restarts lap by more.
#[test]
fn an_extruder_stays_further_from_corners() {
    let tank =
        tank("[body]\nbox = [600, 400, 300]\nthickness = 12\n[shop]\nprocess = \"extrusion\"\n");
    let [corner, wall] = [tank.restart.from_corner, tank.restart.from_wall];
    assert!((corner.mm() - 50.0).abs() < 1e-9 && (wall.mm() - 110.0).abs() < 1e-9);
    let nearest = |side| {
        let passes = tank.of(side).flat_map(|it| &it.passes);
        let far = passes.filter_map(|it| it.taken_up);
        far.fold(Length::from_m(9.0), Length::min).mm()
    };
    assert!((nearest(WeldSide::Inside) - 110.0).abs() < 1e-9);
    assert!((nearest(WeldSide::Outside) - 50.0).abs() < 1e-9);
    assert!((tank.restart.stagger.mm() - 50.0).abs() < 1e-9);
    assert_eq!(tank.restart.short_run, ShortRun::RoundNozzle);
    // Of a seam of less than twice 210 mm the third is laid whole by hand.
    let whole = tank.corners.iter().flat_map(|it| &it.passes);
    let whole: Vec<&Pass> = whole.filter(|it| it.taken_up.is_none()).collect();
    assert!(!whole.is_empty());
    for pass in whole {
        assert!(tank.seams[pass.seam].length().mm() < 420.0);
    }
}

/// The walls of a low box have no room for a long run between their corners: the short one is all of them, once.
#[test]
fn a_seam_without_room_is_one_short_run() {
    let tank =
        tank("[body]\nbox = [900, 700, 240]\nthickness = 12\n[shop]\nprocess = \"extrusion\"\n");
    let mut is_any_whole = false;
    for weld in &tank.welds {
        let Some(short) = &weld.short_runs else {
            continue;
        };
        let apart = short
            .stretches
            .windows(2)
            .all(|pair| pair[0][1] < pair[1][0]);
        assert!(apart && short.length() <= tank.seams[weld.seam].length());
        let mut of_side = tank.of(weld.side);
        let is_whole = short.length() == tank.seams[weld.seam].length();
        is_any_whole |= is_whole;
        let is_taken_up = of_side.any(|corner| {
            let mut passes = corner.passes.iter();
            passes.any(|it| it.seam == weld.seam && it.taken_up.is_some())
        });
        assert!(!(is_whole && is_taken_up), "both told of {}", weld.seam);
    }
    assert!(is_any_whole);
}

#[test]
fn one_hand_lays_no_short_run() {
    let tank = tank("[body]\nbox = [600, 400, 300]\nthickness = 8\n[shop]\nhands = 1\n");
    assert_eq!(tank.restart.short_run, ShortRun::None);
}

/// By hand: outside, where no wall stands ahead, the first run through a corner is taken up at 50 mm and the third at 150 mm, at either
/// end of its seam.
#[test]
fn short_runs_are_marked_where_the_long_ones_are_laid_with_another_tool() {
    let tank =
        tank("[body]\nbox = [900, 700, 600]\nthickness = 12\n[shop]\nprocess = \"extrusion\"\n");
    let outside = tank.welds.iter().filter(|it| it.side == WeldSide::Outside);
    for weld in outside {
        let length = tank.seams[weld.seam].length();
        let passes = |corner: &Corner| corner.passes.iter().any(|it| it.seam == weld.seam);
        let short = weld.short_runs.as_ref().expect("short runs");
        assert_eq!(
            short.stretches.len(),
            tank.of(WeldSide::Outside).filter(|it| passes(it)).count()
        );
        assert!(weld.long_length() < weld.length && short.runs > weld.runs);
        for [from, to] in &short.stretches {
            let is_at_end = *from == Length::ZERO || *to == length;
            let far = (*to - *from).mm();
            // The inner line ends a sheet short of the corner outside.
            assert!(is_at_end && far > 50.0 - 13.0 && far < 150.0 + 1.0, "{far}");
        }
    }
    let hot_gas =
        self::tank("[body]\nbox = [600, 400, 300]\nthickness = 8\n[shop]\nnozzle = \"round\"\n");
    assert_eq!(hot_gas.restart.short_run, ShortRun::SameNozzle);
    assert!(hot_gas.welds.iter().all(|it| it.short_runs.is_none()));
}
