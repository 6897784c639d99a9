//! Laws of what is fitted into a space, over random spaces. That nothing leaves its space is judged
//! over a thousand of them by another library: `tests/outside/check_fitted.py`.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_job::Job;
use brimful_panels::candidate::candidates;
use brimful_panels::growth::Growth;
use brimful_panels::progress::Unwatched;
use brimful_panels::space::Room;
use brimful_tank::fit::fit;
use brimful_units::Length;
use common::{RandomSpace, soaked};
use fastrand::Rng;

/// What HDPE does over 35 K, by the coefficients of property.csv.
const GROWTH: Growth = Growth {
    strain: Some([4.55e-3, 7.0e-3]),
    kelvin: 35.0,
};

/// Faces and volumes of all bodies, in an order of their own; the largest of six faces apart, among
/// which is the largest box, searched to within 2 %.
fn families(space: &RandomSpace, leans: &str) -> (Vec<(usize, f64)>, f64) {
    let space = space.space(leans);
    let Ok(room) = Room::new(&space, None) else {
        return (Vec::new(), 0.0);
    };
    let mut all: Vec<(usize, f64)> = candidates(&space, &room, &GROWTH, &Unwatched)
        .candidates
        .iter()
        .map(|it| (it.solid.faces.len(), it.solid.moments().volume))
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let (boxes, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|(faces, _)| *faces <= 6);
    let largest = boxes.iter().map(|(_, volume)| *volume).fold(0.0, f64::max);
    (rest, largest)
}

#[test]
fn a_mirrored_space_gives_mirrored_bodies() {
    let mut rng = Rng::with_seed(7);
    let mut bodies = 0;
    for case in 0..soaked(40) {
        let space = RandomSpace::new(&mut rng);
        let (ours, our_box) = families(&space, "left");
        let (theirs, their_box) = families(&space.mirrored(), "right");
        assert_eq!(
            ours.len(),
            theirs.len(),
            "case {case}: {space:?}\n{ours:?}\n{theirs:?}"
        );
        for (a, b) in ours.iter().zip(&theirs) {
            // A cubic millimetre: what the search takes for the same.
            assert!(
                a.0 == b.0 && (a.1 - b.1).abs() < 1e-9,
                "case {case}: {a:?} {b:?} {space:?}"
            );
        }
        assert!(
            (our_box - their_box).abs() <= 0.02 * our_box.max(their_box),
            "case {case}"
        );
        bodies += ours.len();
    }
    assert!(bodies > 200, "{bodies}");
}

#[test]
fn more_clearance_never_gives_more_litres() {
    let mut rng = Rng::with_seed(8);
    let mut compared = 0;
    for case in 0..soaked(10) {
        let space = RandomSpace::new(&mut rng);
        let mut before = f64::INFINITY;
        for clearance in [2.0, 6.0, 15.0, 40.0] {
            let mut job = space.job("left");
            job.space.as_mut().unwrap().clearance = Length::from_mm(clearance);
            let Ok(fit) = fit(job) else { continue };
            let litres = fit
                .offers
                .offers
                .iter()
                .map(|offer| offer.figures.brim.litres())
                .fold(0.0, f64::max);
            // Rounding of a volume: a cubic millimetre.
            assert!(
                litres <= before + 1e-6,
                "case {case}: {litres} after {before} {space:?}"
            );
            before = litres;
            compared += 1;
        }
    }
    assert!(compared > 30, "{compared}");
}

#[test]
fn a_block_flush_with_an_end_and_through_a_leaning_wall_leaves_no_skin() {
    // By hand: the wall is at 401 less 118/416 of the height. What the block takes of the space is 304
    // times its section, 306 to 357 and 144 to 274, less the corner past the wall, which it meets at
    // 44 * 416 / 118 = 155.1186 up.
    let text = "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[space]\nbox = [1265, 401, 416]\nclearance = 14\n\
        [[space.wall]]\nname = \"left\"\nlean = 118\nat = 416\n\
        [[space.obstacle]]\nname = \"block\"\nfrom = [0, 306, 144]\nto = [304, 357, 274]\n";
    let job = Job::parse(text).unwrap();
    let room = Room::new(job.space.as_ref().unwrap(), None).unwrap();
    assert!(room.free.faults().is_empty(), "{:?}", room.free.faults());
    let past = 274.0 - 44.0 * 416.0 / 118.0;
    let block = 304.0 * (51.0 * 130.0 - past * past * 118.0 / 416.0 / 2.0);
    let hand = 1265.0 * 416.0 * (401.0 - 59.0) - block;
    let ours = room.free.moments().volume * 1e9;
    assert!((ours / hand - 1.0).abs() < 1e-12, "{ours} {hand}");
}
