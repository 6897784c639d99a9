//! The room kept about a tank, against cases worked by hand.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_job::Job;
use brimful_panels::finding::kind::{PracticeKind, RoomKind};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Quantity, Subject};
use brimful_tank::fit::fit;
use brimful_tank::plan::{Depth, Plan, plan};
use brimful_tank::room::PanelRoom;

/// A box of 10 mm HDPE in a space, quick check: small enough that the plate tables cover it.
fn laid_out(space: [f64; 3], body: [f64; 3], at: [f64; 3], more: &str) -> Plan {
    let text = format!(
        "[job]\nlengths = \"mm\"\n[space]\nbox = {space:?}\nclearance = 0\n{more}\
         [body]\nbox = {body:?}\nat = {at:?}\nthickness = 10\n\
         [liquid]\nkind = \"water\"\ncoldest = \"5 degC\"\nwarmest = \"40 degC\"\n\
         [stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 10\ncount = 2\n"
    );
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
    plan(job, Depth::Quick).unwrap()
}

fn row<'a>(plan: &'a Plan, panel: &str) -> &'a PanelRoom {
    let of = |row: &&PanelRoom| plan.panels[row.panel].name == *panel;
    plan.room.rows.iter().find(of).unwrap()
}

/// What is found of a panel or of a fitting.
fn about<'a>(plan: &'a Plan, name: &str) -> Option<&'a Finding> {
    let mut found = plan.room.findings.iter();
    found.find(|finding| match &finding.subject {
        Subject::Panel(panel) => *panel == *name,
        Subject::Opening(opening) => opening == name,
        _ => false,
    })
}

/// What is found of all fittings.
fn about_fittings(plan: &Plan) -> Option<&Finding> {
    let mut found = plan.room.findings.iter();
    found.find(|finding| finding.subject == Subject::Part(Part::Fittings))
}

#[track_caller]
fn mm(length: brimful_units::Length, hand: f64) {
    // A tenth of a micrometre: rounding of a few sums.
    assert!(
        (length.mm() - hand).abs() < 1e-4,
        "{} mm, by hand {hand}",
        length.mm()
    );
}

#[test]
fn growth_is_from_the_middle_of_the_foot_over_the_whole_span() {
    // 300 by 200 by 150, 6 mm from the front, 9 from the rear, 20 from the lid. From 5 to 40 degC
    // is 35 K; HDPE 1.3e-4 to 2.0e-4 a kelvin (property.csv: "PE100 pipe data page"; "the upper
    // design value of the sources"): 4.55e-3 to 7.0e-3. The front is 150 from the middle:
    // 0.6825 to 1.05 mm. The lid is 150 over the foot: the same.
    let plan = laid_out(
        [315.0, 220.0, 170.0],
        [300.0, 200.0, 150.0],
        [9.0, 10.0, 0.0],
        "",
    );
    for (panel, gap) in [("front", 6.0), ("rear", 9.0), ("lid", 20.0), ("left", 10.0)] {
        mm(row(&plan, panel).gap.unwrap(), gap);
    }
    for (panel, reach) in [("front", 150.0), ("lid", 150.0), ("left", 100.0)] {
        let [least, greatest] = row(&plan, panel).growth.unwrap();
        mm(least, reach * 35.0 * 1.3e-4);
        mm(greatest, reach * 35.0 * 2.0e-4);
    }
    let front = row(&plan, "front");
    let left = front.gap.unwrap() - front.growth.unwrap()[1] - front.bulge.unwrap() - front.weld;
    assert_eq!(front.left, Some(left));
    assert!(row(&plan, "floor").carries);
    assert!(plan.room.findings.is_empty(), "{:?}", plan.room.findings);
}

/// As above with a chock at the rear: the front moves by the whole 300 mm, the rear not at all, the sides as before. With
/// one at the front too it grows between them, 300 mm x 7.0e-3 = 2.1 mm, which is said.
#[test]
fn a_tank_grows_from_the_wall_that_is_held() {
    let held = |chocks: &str| {
        let support = format!("[support]\nchocks = {chocks}\n");
        laid_out(
            [315.0, 220.0, 170.0],
            [300.0, 200.0, 150.0],
            [9.0, 10.0, 0.0],
            &support,
        )
    };
    let rear = held("[\"rear\"]");
    for (panel, reach) in [("front", 300.0), ("rear", 0.0), ("left", 100.0)] {
        mm(row(&rear, panel).growth.unwrap()[1], reach * 35.0 * 2.0e-4);
    }
    let growth = |plan: &Plan| {
        plan.findings.iter().find_map(|it| match &it.kind {
            Kind::Practice(PracticeKind::GrowsBetweenChocks { growth, .. }) => Some(*growth),
            _ => None,
        })
    };
    assert_eq!(growth(&rear), None);
    mm(growth(&held("[\"rear\", \"front\"]")).unwrap(), 2.1);
}

#[test]
fn s5_grows_in_height_by_what_the_brief_says() {
    // Scenario S5: "Growth in height over 45 C: 14-19 mm" at 2128 outside. Ours is 12.4 to 19.2: the
    // least published coefficient is lower than the brief's 1.5e-4.
    let job = include_str!("../../../examples/rain-alcove.job.toml");
    let text = format!("{job}\n[body]\nbox = [610, 370, 2128]\nat = [15, 15, 0]\nthickness = 12\n");
    let plan = plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap();
    let [least, greatest] = row(&plan, "lid").growth.unwrap();
    mm(least, 2128.0 * 45.0 * 1.3e-4);
    mm(greatest, 2128.0 * 45.0 * 2.0e-4);
    // A wall that no table covers: what is left is not known, and a draft has no verdict on it.
    let front = about(&plan, "front").or(about(&plan, "left")).unwrap();
    assert!(front.grade == Grade::Mend && !plan.is_checked());
    assert!(
        matches!(
            front.kind,
            Kind::Room(RoomKind::PanelNotKnown { quick: true })
        ),
        "{front:?}"
    );
}

#[test]
fn an_obstacle_before_part_of_a_panel_is_the_nearest() {
    let post = "[[space.obstacle]]\nname = \"post\"\nfrom = [311, 50, 40]\nto = [315, 80, 60]\n";
    let plan = laid_out(
        [315.0, 220.0, 170.0],
        [300.0, 200.0, 150.0],
        [9.0, 10.0, 0.0],
        post,
    );
    mm(row(&plan, "front").gap.unwrap(), 2.0);
}

#[test]
fn more_bulge_and_growth_than_gap_stops_with_both_figures() {
    let plan = laid_out(
        [300.5, 220.0, 170.0],
        [300.0, 200.0, 150.0],
        [0.25, 10.0, 0.0],
        "",
    );
    let stop = about(&plan, "front").unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    let row = row(&plan, "front");
    let figures = stop.figures.unwrap();
    assert_eq!(figures.limit, Quantity::Length(row.gap.unwrap()));
    mm(row.gap.unwrap(), 0.25);
    let need = row.growth.unwrap()[1] + row.bulge.unwrap() + row.weld;
    assert!(
        matches!(figures.figure, Quantity::Length(figure) if (figure - need).abs().m() < 1e-12)
    );
    let Kind::Room(RoomKind::PanelInterferes { growth, .. }) = stop.kind else {
        panic!("{stop:?}");
    };
    mm(growth, 150.0 * 35.0 * 2.0e-4);
}

/// A box of 600 x 400 x 500 in 10 mm sheet that neither warms nor cools, with a strip 20 mm high 3 mm
/// before its front and 60 mm to the wall otherwise, checked whole.
fn before_a_strip(low: f64) -> Plan {
    let high = low + 20.0;
    let text = format!(
        "[job]\nlengths = \"mm\"\nduty = \"standing\"\n[space]\nbox = [720, 520, 600]\nclearance = 0\n\
         [[space.obstacle]]\nname = \"strip\"\nfrom = [663, 0, {low}]\nto = [720, 520, {high}]\n\
         [body]\nbox = [600, 400, 500]\nat = [60, 60, 0]\nthickness = 10\n\
         [liquid]\nkind = \"water\"\ncoldest = \"20 degC\"\nwarmest = \"20 degC\"\n\
         [stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 10\ncount = 2\n"
    );
    let job = Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"));
    plan(job, Depth::Whole).unwrap()
}

#[test]
fn a_gap_at_the_foot_is_charged_the_bulge_at_the_foot() {
    let most = |plan: &Plan| {
        let panel = plan.panels.iter().position(|it| it.name == *"front");
        let cases = plan.whole.as_ref().unwrap().cases.iter();
        let outward = cases.map(|run| run.figures.panels[panel.unwrap()].outward * 1e3);
        outward.fold(0.0, f64::max)
    };
    let foot = before_a_strip(0.0);
    let (front, most_at_foot) = (row(&foot, "front"), most(&foot));
    mm(front.gap.unwrap(), 3.0);
    // A rod of 4 mm stands out by half of that over the seam at the foot, and nothing in the middle.
    mm(front.weld, 2.0);
    assert!(most_at_foot > 3.0, "{most_at_foot}");
    assert!(
        front.bulge.unwrap().mm() < 0.3 * most_at_foot,
        "{front:?} of {most_at_foot}"
    );
    assert!(about(&foot, "front").is_none(), "{front:?}");
    // Before the middle of the wall it is charged nearly all there is: the greatest bulge of a wall under
    // liquid is a little below it.
    let middle = before_a_strip(230.0);
    let stop = about(&middle, "front").unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    let front = row(&middle, "front");
    mm(front.gap.unwrap(), 3.0);
    mm(front.weld, 0.0);
    assert!(front.bulge.unwrap().mm() > 0.9 * most(&middle), "{front:?}");
}

/// The 300 by 200 by 150 box with 20 over its lid and 10 at its left, and a vent in the lid.
fn with_vent(stands_out: &str) -> Plan {
    let vent = format!(
        "[[opening]]\nname = \"vent\"\nservice = \"vent\"\npanel = \"lid\"\nat = [150, 100]\ndiameter = 20\nflange = 40\n{stands_out}\n"
    );
    laid_out(
        [315.0, 220.0, 170.0],
        [300.0, 200.0, 150.0],
        [9.0, 10.0, 0.0],
        &vent,
    )
}

#[test]
fn a_fitting_takes_of_the_room_before_its_panel() {
    let plan = with_vent("stands_out = 15");
    let lid = row(&plan, "lid");
    let fitting = &plan.room.fittings[0];
    mm(fitting.gap.unwrap(), 20.0);
    // By hand: 20 less 15 less the lid's growth, 150 * 35 * 2.0e-4, and its bulge.
    mm(
        fitting.left.unwrap(),
        20.0 - 15.0 - 150.0 * 35.0 * 2.0e-4 - lid.bulge.unwrap().mm(),
    );
    assert!(about(&plan, "vent").is_none() && about_fittings(&plan).is_none());
}

#[test]
fn a_fitting_that_finds_no_room_stops_and_one_of_unknown_height_is_named() {
    let plan = with_vent("stands_out = 19.5");
    let stop = about(&plan, "vent").unwrap();
    assert_eq!(stop.grade, Grade::Stop);
    let needed = 19.5 + 150.0 * 35.0 * 2.0e-4 + row(&plan, "lid").bulge.unwrap().mm();
    let Some(Quantity::Length(figure)) = stop.figures.map(|both| both.figure) else {
        panic!("{stop:?}");
    };
    mm(figure, needed);
    let unsaid = with_vent("");
    let mend = about_fittings(&unsaid).unwrap();
    assert_eq!(mend.grade, Grade::Mend);
    let kind = RoomKind::FittingsUnstated(vec!["vent".to_owned()]);
    assert_eq!(mend.kind, Kind::Room(kind));
}

#[test]
fn a_fitting_that_faces_a_wall_of_its_own_tank_has_the_room_between() {
    // A U in plan: two arms 120 apart.
    let text = "[job]\nlengths = \"mm\"\n[space]\nbox = [2000, 2000, 1000]\nclearance = 0\n\
        [body]\nplan = [[0, 0], [500, 0], [500, 100], [120, 100], [120, 220], [500, 220], [500, 320], [0, 320]]\nheight = 150\nat = [700, 700, 0]\nthickness = 10\n\
        [liquid]\nkind = \"water\"\n[stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 10\ncount = 2\n";
    let bare = plan(Job::parse(text).unwrap(), Depth::Quick).unwrap();
    // The wall at y = 100 looks to y: over the notch to the wall at y = 220.
    let wall = bare.panels.iter().find(|panel| {
        let frame = &panel.finished.frame;
        frame.z.y > 0.9 && (frame.origin.y - 0.8).abs() < 1e-6
    });
    let opening = format!(
        "[[opening]]\nname = \"tap\"\nservice = \"draw\"\npanel = \"{}\"\nat = [190, 70]\ndiameter = 20\nflange = 40\nstands_out = 130\n",
        wall.unwrap().name
    );
    let plan = plan(
        Job::parse(&format!("{text}{opening}")).unwrap(),
        Depth::Quick,
    )
    .unwrap();
    mm(plan.room.fittings[0].gap.unwrap(), 120.0);
    assert_eq!(about(&plan, "tap").unwrap().grade, Grade::Stop);
}

/// What is fitted into a box of 2000 by 600 by 700 less a post in one corner.
fn fitted(clearance: f64) -> Vec<(String, brimful_geom::solid::Solid)> {
    let text = format!(
        "[job]\nlengths = \"mm\"\n[space]\nbox = [2000, 600, 700]\nclearance = {clearance}\n\
         [[space.obstacle]]\nname = \"post\"\nfrom = [0, 0, 0]\nto = [100, 100, 700]\n\
         [liquid]\nkind = \"water\"\ncoldest = \"5 degC\"\nwarmest = \"40 degC\"\n\
         [stock]\nmaterial = \"HDPE\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 10\ncount = 4\n"
    );
    let fit = fit(Job::parse(&text).unwrap()).unwrap();
    let offers = fit.offers.offers.into_iter();
    offers
        .map(|offer| (offer.candidate.name.to_string(), offer.candidate.solid))
        .collect()
}

#[test]
fn a_body_is_offered_with_room_to_grow_where_the_clearance_is_less() {
    // 35 K at 2.0e-4 a kelvin is 7.0e-3. A body of every facet is as long as it may be: 2000 less
    // twice the growth of its half, L = 2000 / 1.007; wide 600 / 1.007; and 700 / 1.007 high, since
    // it stands. At the post it grows by 7.0e-3 of how far that side is off the middle.
    let bodies = fitted(0.0);
    let (_, every) = bodies
        .iter()
        .find(|(name, _)| name == "every facet")
        .unwrap();
    let (low, high) = every.bounds();
    let at = |ours: f64, hand: f64| assert!((ours * 1e3 - hand).abs() < 1e-3, "{ours} {hand}");
    at(high.x - low.x, 2000.0 / 1.007);
    at(high.y - low.y, 600.0 / 1.007);
    at(high.z - low.z, 700.0 / 1.007);
    at(low.z, 0.0);
    let beside_post = every.vertices.iter().filter(|p| p.x > 0.09 && p.x < 0.12);
    let x = beside_post.map(|p| p.x).fold(0.0, f64::max);
    at(x, 100.0 + 7.0e-3 * (1000.0 - x * 1e3));
    // Where the clearance is more than the growth nothing is taken of it.
    let (_, every) = fitted(10.0)
        .into_iter()
        .find(|(name, _)| name == "every facet")
        .unwrap();
    let (low, high) = every.bounds();
    at(high.x - low.x, 1980.0);
    at(high.z - low.z, 690.0);
}

#[test]
fn a_fitting_on_a_panel_of_unknown_bulge_is_not_passed() {
    // The wall of S5 that no table covers, 135 mm before it; the fitting alone would find its room.
    let job = include_str!("../../../examples/rain-alcove.job.toml");
    let text = format!(
        "{job}\n[body]\nbox = [610, 370, 2128]\nat = [15, 15, 0]\nthickness = 12\n\
         [[opening]]\nname = \"tap\"\nservice = \"draw\"\npanel = \"left\"\nat = [150, 100]\ndiameter = 33\nstands_out = 40\n"
    );
    let plan = plan(Job::parse(&text).unwrap(), Depth::Quick).unwrap();
    assert!(plan.room.fittings[0].left.is_none());
    let stop = about(&plan, "tap").unwrap();
    assert!(
        stop.grade == Grade::Mend
            && matches!(stop.kind, Kind::Room(RoomKind::FittingNotKnown { .. })),
        "{stop:?}"
    );
}
