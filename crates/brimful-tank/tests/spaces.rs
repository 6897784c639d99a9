//! Laws of what is fitted into a space, over random spaces. That nothing leaves its space is judged
//! over a thousand of them by another library: `tests/outside/check_fitted.py`.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

mod common;

use brimful_tank::candidate::candidates;
use brimful_tank::fit::fit;
use brimful_tank::space::Room;
use brimful_units::Length;
use common::RandomSpace;
use fastrand::Rng;

/// Faces and volumes of all bodies, in an order of their own; the largest of six faces apart, among
/// which is the largest box, searched to within 2 %.
fn families(space: &RandomSpace, leans: &str) -> (Vec<(usize, f64)>, f64) {
    let space = space.space(leans);
    let Ok(room) = Room::new(&space) else {
        return (Vec::new(), 0.0);
    };
    let mut all: Vec<(usize, f64)> = candidates(&space, &room, &brimful_tank::watch::Unwatched)
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
    for case in 0..40 {
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
    for case in 0..10 {
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
