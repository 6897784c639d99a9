//! Places of which anybody can see whether an arm gets there.

mod kit;

use brimful_geom::plate::{Cutout, Plate};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_reach::{Arm, Blocks, Capsule, Obstacle, Place, Plates, PosePart, Scene, Tool};
use kit::{CLEARANCE, PASSAGE, arm, box_of, gun, plate, sight};

const FLOOR: usize = 0;
const LID: usize = 1;
const FRONT: usize = 2;
const SHEET: f64 = 0.008;

fn blocks_of(plates: &[Plate], place: &Place, tool: &Tool, arm: &Arm) -> Blocks {
    let obstacles: Vec<Obstacle> = plates.iter().map(Obstacle::of).collect();
    let scene = Scene::new(&obstacles, PASSAGE, CLEARANCE);
    let reached = scene.blocks(place, tool, arm);
    reached.with(&scene.hidden_by(place, &sight()))
}

/// On the line between floor and front of a box, this far along.
fn at_the_front(x: f64) -> Place {
    Place {
        at: Point3::new(x, 0.0, 0.0),
        along: Vec3::X,
        out: Vec3::new(0.0, 1.0, 1.0).unit().expect("a direction"),
        own: [FLOOR, FRONT].into_iter().collect(),
    }
}

fn plates<const N: usize>(numbers: [usize; N]) -> Plates {
    numbers.into_iter().collect()
}

const OPEN: [usize; 5] = [0, 2, 3, 4, 5];
const CLOSED: [usize; 6] = [0, 1, 2, 3, 4, 5];

#[test]
fn an_open_box_is_reached_from_above_and_a_closed_one_is_not() {
    let shell = box_of([0.6, 0.4, 0.3], SHEET);
    for x in [0.01, 0.1, 0.3, 0.59] {
        let blocks = blocks_of(&shell, &at_the_front(x), &gun(), &arm());
        assert!(blocks.is_reached(plates([FLOOR, FRONT])), "{x}");
        assert!(blocks.is_reached(plates(OPEN)), "{x}");
        assert!(!blocks.is_reached(plates(CLOSED)), "{x}");
        let away = blocks
            .in_the_way(plates(CLOSED))
            .expect("one plate away is enough");
        assert_eq!(away.count(), 1, "{x}");
    }
}

/// A slot of 60 mm takes no hand of 100 mm, and its own walls are never away.
#[test]
fn nothing_is_reached_in_a_narrow_slot() {
    let slot = box_of([0.6, 0.06, 0.5], SHEET);
    let blocks = blocks_of(&slot, &at_the_front(0.3), &gun(), &arm());
    assert!(!blocks.is_reached(plates(OPEN)));
    assert!(blocks.is_reached(plates([FLOOR, FRONT, 4, 5])));
    assert_eq!(blocks.in_the_way(plates(OPEN)), Some(plates([3])));
}

/// The same hatch lets an arm in or keeps it out by its width, and by how far off it is.
#[test]
fn a_hatch_counts_by_its_width_and_by_its_place() {
    let reached = |radius: f64, at: f64, x: f64| {
        let mut shell = box_of([1.2, 0.4, 0.3], SHEET);
        // The frame of a plate across z has x and y as the world has.
        let centre = Point2::new(at, 0.2);
        shell[LID].cutouts.push(Cutout::Round { centre, radius });
        let blocks = blocks_of(&shell, &at_the_front(x), &gun(), &arm());
        blocks.is_reached(plates(CLOSED))
    };
    assert!(reached(0.15, 0.3, 0.3));
    assert!(!reached(0.05, 0.3, 0.3), "narrower than a forearm");
    assert!(!reached(0.15, 1.0, 0.1), "further off than an arm reaches");
}

/// Where a tank is deep, it matters how far an arm reaches past the edge, and whether head and shoulders
/// go in after it.
#[test]
fn a_deep_box_is_reached_where_somebody_leans_in() {
    let deep = |width: f64| {
        let shell = box_of([width, width, 0.9], SHEET);
        let blocks = blocks_of(&shell, &at_the_front(width / 2.0), &gun(), &arm());
        blocks.is_reached(plates(OPEN))
    };
    assert!(deep(0.8));
    assert!(!deep(0.3));
}

#[test]
fn a_gun_that_is_longer_than_the_box_does_not_go_in() {
    let shell = box_of([0.3, 0.3, 0.3], SHEET);
    let place = at_the_front(0.15);
    let mut long = gun();
    long.shaft.push(brimful_reach::Part {
        from: 0.38,
        to: 0.8,
        radius: 0.15,
    });
    let blocks = blocks_of(&shell, &place, &long, &arm());
    assert!(!blocks.is_reached(plates(OPEN)));
    let short = Arm {
        reach: 0.01,
        ..arm()
    };
    let blocks = blocks_of(&shell, &place, &gun(), &short);
    assert!(!blocks.is_reached(plates(OPEN)));
}

/// A plate that is nowhere near changes nothing, and one that stands in front of the only way out does.
#[test]
fn more_plates_never_help() {
    let mut shell = box_of([0.6, 0.4, 0.3], SHEET);
    let without = blocks_of(&shell, &at_the_front(0.3), &gun(), &arm());
    shell.push(plate([0.2, -SHEET, 0.31], [0.4, 0.4 + SHEET, 0.32]));
    let with = blocks_of(&shell, &at_the_front(0.3), &gun(), &arm());
    for standing in 0..64_usize {
        let standing: Plates = (0..6).filter(|bit| standing >> bit & 1 == 1).collect();
        if with.is_reached(standing.and(Plates::one(6))) {
            assert!(with.is_reached(standing));
        }
        let own = standing.contains(FLOOR) && standing.contains(FRONT);
        assert!(!own || with.is_reached(standing) == without.is_reached(standing));
    }
}

/// What is called reached by bit sets is reached by a pose among what stands alone.
#[test]
fn a_set_that_is_reached_has_a_pose() {
    let shell = box_of([0.6, 0.4, 0.3], SHEET);
    let place = at_the_front(0.2);
    let blocks = blocks_of(&shell, &place, &gun(), &arm());
    let obstacles: Vec<Obstacle> = shell.iter().map(Obstacle::of).collect();
    let scene = Scene::new(&obstacles, PASSAGE, CLEARANCE);
    let pose = scene.pose(plates(OPEN), &place, &gun(), &arm());
    let sight = scene.line_of_sight(plates(OPEN), &place, &sight());
    let both = [pose.expect("a pose"), sight.expect("a line of sight")];
    let is_free = both.iter().all(|pose| pose.runs_into == Plates::NONE);
    assert_eq!(is_free, blocks.is_reached(plates(OPEN)));
    for solid in both.iter().flat_map(|pose| &pose.solids) {
        assert!(OPEN.iter().all(|&it| !obstacles[it].is_hit(&solid.capsule)));
    }
    let parts: Vec<PosePart> = both[0].solids.iter().map(|solid| solid.part).collect();
    assert!(parts.contains(&PosePart::Tool) && parts.contains(&PosePart::Hand));
}

/// Where no pose is free the one is given that runs into the fewest, and just those plates are touched by it.
#[test]
fn a_place_out_of_reach_has_a_pose_with_what_is_in_its_way() {
    let own_too = |width: f64, standing: &[usize]| {
        let slot = box_of([0.6, width, 0.5], SHEET);
        let place = at_the_front(0.3);
        let obstacles: Vec<Obstacle> = slot.iter().map(Obstacle::of).collect();
        let scene = Scene::new(&obstacles, PASSAGE, CLEARANCE);
        let standing: Plates = standing.iter().copied().collect();
        let pose = scene.pose(standing, &place, &gun(), &arm());
        let pose = pose.expect("a pose that runs into something");
        let blocks = scene.blocks(&place, &gun(), &arm());
        assert_eq!(
            blocks
                .in_the_way(standing)
                .map_or(0, |plates| plates.count()),
            pose.runs_into.count()
        );
        let hit = |number: usize| {
            let mut solids = pose.solids.iter().map(|solid| solid.capsule);
            solids.any(|it| {
                let radius = it.radius + CLEARANCE;
                obstacles[number].is_hit(&Capsule { radius, ..it })
            })
        };
        let touched: Plates = standing.numbers().filter(|&number| hit(number)).collect();
        // The foot runs in the groove of its own two plates.
        let own = plates([FLOOR, FRONT]);
        assert_eq!(touched.and(own), pose.runs_into.and(own));
        pose.runs_into
    };
    assert_eq!(own_too(0.06, &OPEN), plates([3]));
    assert_eq!(own_too(0.4, &OPEN), Plates::NONE);
    assert_eq!(own_too(0.4, &CLOSED).count(), 1);
}
