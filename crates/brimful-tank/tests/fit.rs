//! What fits the spaces of the scenario briefs S2 (under-bed arch), S3 (bilge wedge) and S5 (alcove).
//! The briefs' figures are hand geometry "exact to about 1 %"; that is the tolerance.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::boolean::{clip, remaining_volume};
use brimful_geom::frame::Plane;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Vec3;
use brimful_job::Job;
use brimful_panels::body::{Body, body};
use brimful_panels::candidate::GivenUp;
use brimful_panels::finding::kind::{FitKind, SpaceKind};
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_panels::progress::{Progress, Step};
use brimful_panels::shape::{BodyFault, FloorHalf, ShapeFault, ShapeFaultKind, SpaceFault};
use brimful_panels::site::Site;
use brimful_tank::fit::{Fit, fit, fit_watched};
use brimful_tank::offer::{Gain, GainChange, Interference, Offer, figures, kept_off};
use brimful_tank::plan::{Depth, NoPlan, plan};
use brimful_units::Length;
use std::sync::atomic::{AtomicUsize, Ordering};

const ARCH: &str = include_str!("../../../tests/jobs/under-bed-arch.job.toml");
const WEDGE: &str = include_str!("../../../examples/bilge-wedge.job.toml");
const ALCOVE: &str = include_str!("../../../examples/rain-alcove.job.toml");
const CAMPER: &str = include_str!("../../../tests/jobs/camper-bench.job.toml");
const SPRAYER: &str = include_str!("../../../examples/frame-rail-sprayer.job.toml");

fn fit_of(text: &str) -> Fit {
    fit(Job::parse(text).unwrap()).unwrap()
}

fn body_of(job: Job) -> Result<(Body, Vec<Finding>), Vec<ShapeFault>> {
    let input = job.into();
    let site = Site::of(&input)?;
    body(&input.job, site.as_deref())
}

#[track_caller]
fn about(ours: f64, brief: f64) {
    assert!(
        (ours - brief).abs() < 0.01 * brief,
        "{ours} against {brief}"
    );
}

fn offer<'a>(fit: &'a Fit, name: &str) -> &'a Offer {
    let mut offers = fit.offers.offers.iter();
    offers
        .find(|offer| offer.candidate.name == *name)
        .unwrap_or_else(|| panic!("no `{name}`"))
}

/// That what is wanted cannot be had in one tank.
fn too_little(fit: &Fit) -> &Finding {
    let mut findings = fit.findings.iter();
    let is_it = |it: &&Finding| matches!(it.kind, Kind::Fit(FitKind::TooLittle { .. }));
    findings.find(is_it).unwrap()
}

/// That a body may bear on what is beside it.
fn interferes(fit: &Fit) -> Option<&Finding> {
    let mut findings = fit.findings.iter();
    findings.find(|it| matches!(it.kind, Kind::Fit(FitKind::Interferes { .. })))
}

fn litres(solid: &Solid) -> f64 {
    solid.moments().volume * 1e3
}

#[test]
fn s2_says_the_true_maximum_through_the_slot() {
    let fit = fit_of(ARCH);
    // "free space (arch removed) 158.7 L".
    about(litres(&fit.site.room.free), 158.7);
    // "Through the slot: brim 110.6, 100.7 with 20 mm air".
    let every = offer(&fit, "every facet");
    about(every.figures.brim.litres(), 110.6);
    about(every.figures.rated.litres(), 100.7);
    assert!(every.candidate.entry.in_one());
    // Trap 1: 120 L cannot be had, and it is said.
    assert_eq!(too_little(&fit).grade, Grade::Stop);
    // "6 mm sheet gains only about 4 L".
    let gain = |is_it: &dyn Fn(&GainChange) -> bool| -> &Gain {
        let mut gains = fit.gains.iter();
        gains.find(|gain| is_it(&gain.change)).unwrap()
    };
    let thinner = GainChange::ThinnerSheet(Length::from_mm(6.0));
    assert!((gain(&|it| *it == thinner).gain.litres() - 4.0).abs() < 0.5);
    // "Even with full height: brim 120.3 (8 mm), 110.6 with 20 mm air".
    let higher = gain(&|it| match it {
        GainChange::HigherOpening { by } => (by.mm() - 20.0).abs() < 1e-6,
        _ => false,
    });
    about(higher.brim.litres(), 120.3);
    about(higher.rated.litres(), 110.6);
}

#[test]
fn s2_offers_the_notch_and_says_what_the_shelf_is_worth() {
    let fit = fit_of(ARCH);
    let (notched, every) = (offer(&fit, "C"), offer(&fit, "every facet"));
    // "the shelf over the arch holds 2.2 L to the brim and 0.4 L below the air line": the brief's
    // two digits.
    let brim = (every.figures.brim - notched.figures.brim).litres();
    let rated = (every.figures.rated - notched.figures.rated).litres();
    assert!((brim - 2.2).abs() < 0.15, "{brim}");
    assert!((rated - 0.4).abs() < 0.1, "{rated}");
    // "Slab in front of the arch only, full height, 8 mm: 83.2 L brim".
    let room = ARCH.replace("height = 300", "height = 330");
    let slab = fit_of(&room);
    about(offer(&slab, "plain box").figures.brim.litres(), 83.2);
}

#[test]
fn what_bears_when_full_is_said_with_the_clearance_that_keeps_it_off() {
    let text = |clearance: f64| {
        format!(
            "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\ncoldest = \"5 degC\"\nwarmest = \"35 degC\"\n\
             [[stock.sheet]]\nsize = [2000, 1000]\nthickness = 10\n\
             [space]\nbox = [600, 400, 300]\nclearance = {clearance}\n"
        )
    };
    let near = fit_of(&text(2.0));
    let body = offer(&near, "every facet");
    let full = body.full_size.as_ref().unwrap();
    let worst = full.worst.as_ref().unwrap();
    assert_ne!(full.interference(), Interference::Clear, "{full:?}");
    // Growth by hand: HDPE, 120e-6 to 200e-6 /K over 30 K, from the middle of the foot, or from the foot
    // up: half of 596 mm by 0.006 at most.
    assert!(worst.growth.mm() <= 298.0 * 0.006 + 1e-9, "{full:?}");
    // The bulge is that of the plan with the same body.
    let job = text(2.0) + "[body]\nfitted = \"every facet\"\n";
    let plan = plan(Job::parse(&job).unwrap(), Depth::Quick).unwrap();
    let side = plan
        .panels
        .iter()
        .position(|panel| panel.name == worst.side);
    let rows = || plan.quick.rows.iter().filter(|row| Some(row.panel) == side);
    let hinged = rows().map(|row| row.deflection.m()).fold(0.0, f64::max);
    let clamped = rows()
        .map(|row| row.deflection_clamped.m())
        .fold(0.0, f64::max);
    assert!(
        (worst.bulge[0].m() - clamped).abs() < 1e-9 && (worst.bulge[1].m() - hinged).abs() < 1e-9
    );
    // It is said, with what is enough: with so much kept free a body is offered that keeps off.
    let said = interferes(&near).unwrap();
    assert_eq!(said.grade, Grade::Mend);
    let off = kept_off(&near.job, &near.site, full, true).unwrap();
    assert!(matches!(
        &said.kind,
        Kind::Fit(FitKind::Interferes { kept_off: Some(said), .. }) if *said == off
    ));
    let far = fit_of(&text(off.clearance.mm()));
    let most = offer(&far, "every facet");
    assert_eq!(most.figures.rated, off.rated);
    let full = most.full_size.as_ref().unwrap();
    assert_eq!(full.interference(), Interference::Clear);
    assert_eq!(interferes(&far), None);
}

#[test]
fn what_no_table_covers_is_not_said_to_keep_off() {
    // PP has no modulus over 60 degC in the tables: at 65 degC no case at rest is covered.
    let fit = fit_of(
        "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\nwarmest = \"65 degC\"\n\
         [stock]\nmaterial = \"PP\"\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 20\n\
         [space]\nbox = [400, 300, 300]\nclearance = 30\n",
    );
    let full = offer(&fit, "every facet").full_size.as_ref().unwrap();
    assert_eq!(full.interference(), Interference::Unknown, "{full:?}");
    assert!(full.unknown > 0 && kept_off(&fit.job, &fit.site, full, true).is_none());
    assert!(interferes(&fit).is_some());
}

#[test]
fn s3_names_the_twist_and_that_it_goes_in_in_pieces() {
    let fit = fit_of(WEDGE);
    // "gross to sole 150.8 L".
    about(litres(&fit.site.room.shell), 150.8);
    // "With flat sides 80.8 / 70.4 L", 10 mm wall.
    let whole = figures(&fit.job, &fit.site.room.allowed, Length::from_mm(10.0)).unwrap();
    about(whole.brim.litres(), 80.8);
    about(whole.rated.litres(), 70.4);
    // "Fourth corner is off the plane of the other three by 37 mm (port) and 41 mm (stbd)".
    let twist = fit.findings.iter().find_map(|it| match &it.kind {
        Kind::Space(SpaceKind::TwistedSides { sides, .. }) => Some(sides),
        _ => None,
    });
    let sides: Vec<(usize, f64)> = twist
        .unwrap()
        .iter()
        .map(|(corner, off)| (*corner, off.mm().round()))
        .collect();
    assert_eq!(sides, [(2, 37.0), (4, 41.0)]);
    // "It will not go through the hatch".
    assert!(
        !offer(&fit, "every facet, in pieces")
            .candidate
            .entry
            .in_one()
    );
}

#[test]
fn s5_fits_what_is_wanted_and_goes_through_the_gate() {
    let fit = fit_of(ALCOVE);
    let every = offer(&fit, "every facet");
    assert!(every.figures.rated.litres() > 500.0);
    assert!(every.candidate.entry.in_one());
    // "500 L needs an inside height of 2004, outside about 2128".
    let below = |normal, offset| {
        let plane = Plane { normal, offset };
        move |solid: &Solid| clip(solid, &plane).unwrap()
    };
    let cut = below(Vec3::Z, 2.128)(&every.candidate.solid);
    let rated = |solid: &Solid| {
        let figures = figures(&fit.job, solid, Length::from_mm(12.0)).unwrap();
        figures.rated.litres()
    };
    about(rated(&cut), 500.0);
    // "a tank kept left of it (only about 439 L at the same height)": a height of water of 2004.
    let left = below(Vec3::X, 0.545)(&cut);
    about(rated(&left), 439.0);
}

#[test]
fn s1_and_s4_have_a_plain_box_and_more() {
    // "8 mm wall: inside 948 x 358 x 334, brim 113.4 L, 104.9 L at 25 mm air".
    let camper = fit_of(CAMPER);
    let plain = offer(&camper, "plain box");
    about(plain.figures.brim.litres(), 113.4);
    about(plain.figures.rated.litres(), 104.9);
    assert_eq!(plain.figures.sheets, 1);
    assert!(
        offer(&fit_of(SPRAYER), "every facet")
            .candidate
            .entry
            .in_one()
    );
}

#[test]
fn no_body_leaves_the_room_it_is_allowed() {
    for text in [ARCH, WEDGE, ALCOVE, CAMPER, SPRAYER] {
        let fit = fit_of(text);
        for offer in &fit.offers.offers {
            let out = remaining_volume(&offer.candidate.solid, &[&fit.site.room.allowed]).unwrap();
            // Rounding of the corners: a face of a square metre moved by a nanometre.
            assert!(out < 1e-9, "{}: {out}", offer.candidate.name);
        }
    }
}

#[test]
fn a_body_is_chosen_by_name() {
    let chosen = format!("{ARCH}\n[body]\nfitted = \"C\"\n");
    let (body, _) = body_of(Job::parse(&chosen).unwrap()).unwrap();
    let fit = fit_of(ARCH);
    assert_eq!(body.solid, offer(&fit, "C").candidate.solid);
    let wrong = format!("{ARCH}\n[body]\nfitted = \"D\"\n");
    let faults = body_of(Job::parse(&wrong).unwrap()).unwrap_err();
    let ShapeFaultKind::Body(BodyFault::NotOffered { name, offered }) = &*faults[0].kind else {
        panic!("{faults:?}")
    };
    assert!(name == "D" && offered.iter().any(|name| name == "C"));
}

const SQUARE: &str = "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[space]\n";

fn room(space: &str) -> brimful_panels::space::Room {
    let job = Job::parse(&format!("{SQUARE}{space}")).unwrap();
    brimful_panels::space::Room::new(job.space.as_ref().unwrap(), None).unwrap()
}

#[test]
fn a_racked_floor_is_kept_to_and_its_misfit_said() {
    // A parallelogram 800 by 600 pushed over by 60: diagonals by Pythagoras.
    let (first, second) = (860.0_f64.hypot(600.0), 740.0_f64.hypot(600.0));
    let rear = 60.0_f64.hypot(600.0);
    let racked = room(&format!(
        "sides = [800, {rear}, 800, {rear}]\ndiagonals = [{first}, {}]\nheight = 500\nclearance = 0\n",
        second + 8.0
    ));
    about(litres(&racked.shell), 800.0 * 600.0 * 500.0 * 1e-6);
    let [of_rack, of_misfit] = &racked.findings[..] else {
        panic!("{:?}", racked.findings)
    };
    let Kind::Space(SpaceKind::Racked { rear, front }) = of_rack.kind else {
        panic!("{of_rack:?}")
    };
    assert!((rear.mm() - 60.0).abs() < 1e-6 && (front.mm() - 60.0).abs() < 1e-6);
    let Kind::Space(SpaceKind::SecondDiagonal {
        measured, computed, ..
    }) = of_misfit.kind
    else {
        panic!("{of_misfit:?}")
    };
    assert!(((measured - computed).mm() - 8.0).abs() < 1e-6);
    assert_eq!(of_misfit.grade, Grade::Mend);
}

#[test]
fn a_twisted_lid_is_said_in_mm_and_leaning_walls_are_kept_to() {
    // One corner 40 lower: the fourth corner of a rectangle is off the plane of the other three by
    // 40 over the slope of that plane, 40/800 and 40/600 at most.
    let low = room("box = [800, 600, 500]\ncorner_heights = [500, 500, 460, 500]\nclearance = 0\n");
    let twist = low.findings.iter().find_map(|it| match it.kind {
        Kind::Space(SpaceKind::TwistedTop { by, .. }) => Some(by.mm()),
        _ => None,
    });
    let by = twist.unwrap();
    assert!((39.0..=40.0).contains(&by), "{by}");
    // A left wall that leans in by 50 at 500 takes a wedge of 800 by 50 by 500 over 2 off.
    let lean = "box = [800, 600, 500]\nclearance = 0\n[[space.wall]]\nname = \"left\"\nlean = 50\nat = 500\n";
    about(litres(&room(lean).shell), 240.0 - 10.0);
}

#[test]
fn measures_that_close_no_space_are_named() {
    let fault = |space: &str| {
        let job = Job::parse(&format!("{SQUARE}{space}")).unwrap();
        *brimful_panels::space::Room::new(job.space.as_ref().unwrap(), None)
            .unwrap_err()
            .kind
    };
    let triangle = "sides = [800, 600, 800, 600]\ndiagonals = [1500]\nheight = 500\n";
    let of_floor = SpaceFault::NoTriangle(FloorHalf::RightAndFront);
    assert_eq!(fault(triangle), of_floor.into());
    let open = "sides = [800, 600, 790, 600]\nheight = 500\n";
    assert_eq!(fault(open), SpaceFault::NoDiagonal.into());
    let halved = "box = [800, 600, 500]\n[[space.obstacle]]\nname = \"wall\"\nfrom = [390, 0, 0]\nto = [410, 600, 500]\n";
    let job = Job::parse(&format!("{SQUARE}{halved}")).unwrap();
    let faults = body_of(job.clone()).unwrap_err();
    let ShapeFaultKind::Space(SpaceFault::CutUp(pieces)) = &*faults[0].kind else {
        panic!("{faults:?}")
    };
    let volumes: Vec<f64> = pieces.iter().map(|piece| piece.volume.litres()).collect();
    assert!(volumes.len() == 2 && volumes.iter().all(|litres| *litres > 0.0));
    // Bodies are offered for the pieces.
    let fit = fit(job).unwrap();
    assert!(
        fit.offers
            .offers
            .iter()
            .any(|it| it.candidate.name.space_piece.is_some())
    );
    let one = "[[space.station]]\nat = 0\noutline = [[0, 0], [100, 0], [0, 100]]\n";
    let faults = Job::parse(&format!("{SQUARE}{one}")).unwrap_err();
    let second = brimful_job::FaultKind::Missing(brimful_job::Missing::SecondStation);
    assert_eq!(faults[0].kind, second);
}

#[test]
fn a_box_may_stand_turned_in_a_hole_that_runs_slantwise() {
    // A rectangle of 1000 by 500 turned by atan(3/4), its corners off by 50 both ways. A box that
    // leaves a at each end and b at each side, a + b = 50, is largest with all of it at the ends:
    // 900 by 500. (Along the axes one of far less fits.)
    let octagon = [
        (50.0, 0.0),
        (950.0, 0.0),
        (1000.0, 50.0),
        (1000.0, 450.0),
        (950.0, 500.0),
        (50.0, 500.0),
        (0.0, 450.0),
        (0.0, 50.0),
    ];
    let turned = octagon.map(|(u, v)| [0.8 * u - 0.6 * v, 0.6 * u + 0.8 * v]);
    let space = format!(
        "plan = {turned:?}\nheight = 400\nclearance = 0\n[[stock.sheet]]\nsize = [2000, 1000]\nthickness = 8\n"
    );
    let fit = fit(Job::parse(&format!("{SQUARE}{space}")).unwrap()).unwrap();
    let found = &offer(&fit, "turned box").candidate;
    let most = 0.9 * 0.5 * 0.4;
    let volume = found.solid.moments().volume;
    // The search leaves 2 %.
    assert!(
        volume <= most * (1.0 + 1e-9) && volume > 0.98 * most,
        "{volume}"
    );
    // atan(3/4), to a tenth of a degree.
    let turned = |it: &GivenUp| match it {
        GivenUp::LargestTurnedBox { angle, .. } => (angle.deg() - 36.87).abs() < 0.1,
        _ => false,
    };
    assert!(found.given_up.iter().any(turned), "{:?}", found.given_up);
}

#[test]
fn what_pieces_hold_that_are_not_shown_to_get_in_is_not_promised() {
    // S2 in two pieces: each passes the slot lying down, and neither can be stood up behind it.
    let fit = fit_of(ARCH);
    let pieces = offer(&fit, "every facet, in pieces");
    assert!(!pieces.candidate.entry.is_shown());
    let wanted = ARCH.replace("120 L brim", "115 L brim");
    let fit = fit_of(&wanted);
    let holds = offer(&fit, "every facet, in pieces").figures.brim;
    let said = too_little(&fit);
    let Kind::Fit(FitKind::TooLittle { in_pieces, .. }) = &said.kind else {
        panic!("{said:?}");
    };
    let pieces = in_pieces.as_ref().unwrap();
    assert!(pieces.volume == holds && !pieces.shown, "{pieces:?}");
    assert_eq!(said.grade, Grade::Stop);
}

/// Wants the work until it has been asked so many times.
struct Until {
    asked: AtomicUsize,
    most: usize,
}

impl Until {
    fn new(most: usize) -> Self {
        let asked = AtomicUsize::new(0);
        Self { asked, most }
    }

    /// How often it has been asked since it answered no.
    fn asked_in_vain(&self) -> usize {
        self.asked.load(Ordering::SeqCst).saturating_sub(self.most)
    }
}

impl Progress for Until {
    fn is_cancelled(&self) -> bool {
        self.asked.fetch_add(1, Ordering::SeqCst) >= self.most
    }

    fn step(&self, _step: Step) {}
}

/// Ten blocks along the edges of a room, and a way in: more than half a minute's search.
fn cluttered() -> Job {
    let block = |number: u32| {
        let (x, y) = (60 + 110 * number, 520 * (number % 2));
        let z = 370 * (number / 2 % 2);
        format!(
            "[[space.obstacle]]\nname = \"{number}\"\nfrom = [{x}, {y}, {z}]\nto = [{}, {}, {}]\n",
            x + 50,
            y + 80,
            z + 80
        )
    };
    let blocks: String = (0..10).map(block).collect();
    let room = "box = [1200, 600, 450]\nclearance = 5\nway_in = { width = 600, height = 450, side = \"front\" }\n";
    Job::parse(&format!("{SQUARE}{room}{blocks}")).unwrap()
}

/// Wherever it is when nobody wants it any more, it ends: a look at one body is finished first, and each
/// of those left is asked about once.
#[test]
fn what_is_no_longer_wanted_ends_soon() {
    const BODIES: usize = 200;
    for most in [0, 1, 10] {
        let progress = Until::new(most);
        let found = fit_watched(cluttered(), &progress);
        assert_eq!(found.err(), Some(NoPlan::Cancelled), "after {most}");
        let asked = progress.asked_in_vain();
        assert!(asked <= BODIES, "{asked} after {most}");
    }
}
