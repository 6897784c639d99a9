//! Ways in at the job: what was proven leg by leg is judged here pose by pose, by a boolean.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::boolean::common_volume;
use brimful_geom::frame::Frame;
use brimful_geom::solid::Solid;
use brimful_job::Job;
use brimful_panels::finding::kind::WayInKind;
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::space::Room;
use brimful_panels::way_in::{Entry, EntrySummary, NoWayWhole, Passage, PieceNeed};
use brimful_tank::fit::fit;
use brimful_tank::plan::{Depth, Plan, plan};

/// A box of 200 deep at the far side of a space of 1000 by 600 by 500, brought in where y is least.
fn stands_behind(obstacle: &str, way_in: &str) -> Plan {
    let text = format!(
        "[job]\nlengths = \"mm\"\n[space]\nbox = [1000, 600, 500]\nclearance = 10\nway_in = {way_in}\n{obstacle}\
         [body]\nbox = [600, 200, 300]\nat = [200, 380, 0]\nthickness = 8\n[liquid]\nkind = \"water\"\n\
         [[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\ncount = 2\n"
    );
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
    plan(job, Depth::Quick).unwrap()
}

/// Nothing that stands is touched in any pose, and the last leaves the body where it is.
fn judge(passage: &Passage, body: &Solid, room: &Room) {
    for pose in &passage.poses {
        let there = body.moved(pose);
        for obstacle in &room.obstacles {
            let met = common_volume(&there, &obstacle.solid).unwrap();
            // A cubic millimetre: rounding.
            assert!(met < 1e-9, "{met} m3 in `{}`", obstacle.name);
        }
    }
    let last = passage.poses.last().unwrap();
    let still = |p: &brimful_geom::vector::Point3| last.world_from_frame(*p).distance(*p) < 1e-9;
    assert!(body.vertices.iter().all(still));
    assert_eq!(passage.stations.first(), Some(&0));
    assert_eq!(passage.stations.last(), Some(&(passage.poses.len() - 1)));
}

fn room(plan: &Plan) -> Room {
    Room::new(plan.job.space.as_ref().unwrap(), None).unwrap()
}

fn entry(plan: &Plan) -> &Entry {
    &plan.way_in.as_ref().unwrap().entry
}

fn says(plan: &Plan) -> &Finding {
    let mut findings = plan.findings.iter();
    let is_it = |it: &&Finding| it.subject == Subject::Part(Part::WayIn);
    findings.find(is_it).unwrap()
}

const WIDE: &str = "{ width = 980, height = 480, side = \"right\" }";

#[test]
fn a_free_way_is_straight_in() {
    let plan = stands_behind("", WIDE);
    let Entry::Pushed(passage) = entry(&plan) else {
        panic!("{:?}", entry(&plan));
    };
    assert_eq!(passage.poses.last(), Some(&Frame::WORLD));
    judge(passage, &plan.body.solid, &room(&plan));
}

#[test]
fn a_thin_rail_across_the_way_is_never_jumped() {
    // A millimetre thick, 100 high: steps of any length that pass it over would be no way.
    for y in [101.3, 207.77, 333.33] {
        let rail = format!(
            "[[space.obstacle]]\nname = \"rail\"\nfrom = [0, {y}, 0]\nto = [1000, {}, 100]\n",
            y + 1.0
        );
        let plan = stands_behind(&rail, WIDE);
        match entry(&plan) {
            // Over it.
            Entry::Turned(passage) => judge(passage, &plan.body.solid, &room(&plan)),
            Entry::NotFound(_) | Entry::Pieces(_) => {}
            other => panic!("through the rail: {other:?}"),
        }
    }
}

#[test]
fn what_is_too_tall_for_the_opening_is_turned_in() {
    // The opening is 250 high, the body 300 high and 200 deep: it passes lying on its side, and must
    // be stood up in the space.
    let plan = stands_behind("", "{ width = 980, height = 250, side = \"right\" }");
    let Entry::Turned(passage) = entry(&plan) else {
        panic!("{:?}", entry(&plan));
    };
    judge(passage, &plan.body.solid, &room(&plan));
    let found = says(&plan);
    let Kind::WayIn(WayInKind::GoesIn { entry, .. }) = &found.kind else {
        panic!("{found:?}");
    };
    assert!(matches!(entry, EntrySummary::Turned { .. }), "{entry:?}");
}

#[test]
fn what_passes_in_no_attitude_is_proven_not_to() {
    let plan = stands_behind("", "{ width = 980, height = 150, side = \"right\" }");
    match entry(&plan) {
        Entry::NotFound(why) => {
            assert_eq!(why.why, NoWayWhole::NoAttitude { proven: true });
        }
        // In pieces thin enough it may go.
        Entry::Pieces(pieces) => assert!(pieces.len() > 1),
        other => panic!("{other:?}"),
    }
}

#[test]
fn pieces_stand_apart_and_each_way_passes_those_before_it() {
    let text = include_str!("../../../examples/bilge-wedge.job.toml");
    let fit = fit(Job::parse(text).unwrap()).unwrap();
    let offers = &fit.offers.offers;
    let pieces = offers
        .iter()
        .find_map(|offer| match &offer.candidate.entry {
            Entry::Pieces(pieces) => Some(pieces),
            _ => None,
        });
    let pieces = pieces.unwrap();
    assert_eq!(pieces.len(), 2);
    for (number, piece) in pieces.iter().enumerate() {
        assert_eq!(piece.joints.len(), 1);
        let joint = &piece.joints[0];
        assert_eq!(joint.to, 1 - number);
        assert!(joint.liquid_at.z < joint.air_at.z);
        if let Some(passage) = &piece.passage {
            judge(passage, &piece.solid, &fit.site.room);
            for pose in &passage.poses {
                for other in &pieces[..number] {
                    let met = common_volume(&piece.solid.moved(pose), &other.solid).unwrap();
                    assert!(met < 1e-9, "{met}");
                }
            }
        }
    }
    // A clearance of 15 mm between them.
    assert_eq!(
        common_volume(&pieces[0].solid, &pieces[1].solid).unwrap(),
        0.0
    );
}

/// Lies on its side in an opening of 250 with its 200 of depth, and is stood up behind it.
const LOW: &str = "{ width = 980, height = 250, side = \"right\" }";

/// An outlet in the side that comes last.
fn outlet(more: &str) -> String {
    format!(
        "[[opening]]\nname = \"outlet\"\nservice = \"draw\"\npanel = \"right\"\nat = [300, 60]\ndiameter = 27\nflange = 60\n{more}\n"
    )
}

#[test]
fn a_fitting_that_stands_out_goes_through_the_opening_with_the_tank() {
    // 200 deep and 40: it still lies down in 250 less the hand's care. With 100 it does not.
    let low = stands_behind(&outlet("stands_out = 20"), LOW);
    assert!(matches!(entry(&low), Entry::Turned(_)), "{:?}", says(&low));
    let tank = low.way_in.as_ref().unwrap();
    assert_eq!(tank.fittings.on, ["outlet"]);
    let volume = |solid: &Solid| solid.moments().volume;
    // A prism about a circle of 60, 20 high, is at most 1.5 % more than the cylinder.
    let cylinder = std::f64::consts::PI * 0.03_f64.powi(2) * 0.02;
    let more = volume(&tank.moved) - volume(&low.body.solid);
    assert!(more >= cylinder && more < 1.015 * cylinder, "{more}");

    let high = stands_behind(&outlet("stands_out = 100"), LOW);
    let tank = high.way_in.as_ref().unwrap();
    assert_eq!(tank.must_come_off, ["outlet"]);
    let said = says(&high);
    assert_eq!(said.grade, Grade::Stop);
    assert!(
        matches!(&said.kind, Kind::WayIn(WayInKind::FittingsMustComeOff { fittings, .. }) if *fittings == ["outlet"]),
        "{said:?}"
    );
}

#[test]
fn what_goes_on_after_is_not_on_the_way_and_what_is_not_said_is_named() {
    let after = stands_behind(&outlet("stands_out = 100\ngoes_on = \"after\""), LOW);
    assert_eq!(says(&after).grade, Grade::Note);
    assert_eq!(after.way_in.as_ref().unwrap().fittings.after, ["outlet"]);
    let unstated = stands_behind(&outlet(""), LOW);
    assert_eq!(says(&unstated).grade, Grade::Mend);
    assert_eq!(
        unstated.way_in.as_ref().unwrap().fittings.unstated,
        ["outlet"]
    );
}

#[test]
fn pieces_have_the_fittings_that_are_in_them_and_lack_the_rest() {
    let text = "[job]\nlengths = \"mm\"\n[space]\nbox = [1000, 600, 500]\nclearance = 10\n\
         way_in = { width = 980, height = 130 }\n\
         [body]\nbox = [600, 200, 300]\nat = [200, 380, 0]\nthickness = 8\n[liquid]\nkind = \"water\"\n\
         [[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\ncount = 2\n\
         [[opening]]\nname = \"vent\"\nservice = \"vent\"\npanel = \"lid\"\nat = [100, 60]\ndiameter = 20\nstands_out = 30\n\
         [[opening]]\nname = \"tap\"\nservice = \"draw\"\npanel = \"right\"\nat = [300, 60]\ndiameter = 20\nstands_out = 30\n";
    let plan = plan(Job::parse(text).unwrap(), Depth::Quick).unwrap();
    let tank = plan.way_in.as_ref().unwrap();
    let Entry::Pieces(pieces) = &tank.entry else {
        panic!("{:?}", says(&plan));
    };
    assert_eq!(tank.pieces.len(), pieces.len());
    let names: Vec<&String> = tank.pieces.iter().flat_map(|piece| &piece.names).collect();
    assert_eq!(names.len(), 2, "{:?}", tank.pieces);
    for (piece, fittings) in pieces.iter().zip(&tank.pieces) {
        let (low, high) = piece.solid.bounds();
        // The tap is 60 up, the vent in the lid.
        let has = |name: &str| fittings.names.iter().any(|it| it == name);
        assert_eq!(has("tap"), low.z < 0.060 && low.y < 0.381, "{fittings:?}");
        assert_eq!(
            has("vent"),
            high.z > 0.299 && (low.y..high.y).contains(&0.440),
            "{fittings:?}"
        );
        assert_eq!(has("vent"), !fittings.lacks.contains(&PieceNeed::Vent));
        assert_eq!(has("tap"), !fittings.lacks.contains(&PieceNeed::Drain));
        assert!(fittings.lacks.contains(&PieceNeed::Hatch));
    }
    assert!(
        matches!(&says(&plan).kind, Kind::WayIn(WayInKind::InPieces { fittings, .. }) if *fittings == tank.pieces),
        "{:?}",
        says(&plan)
    );
}
