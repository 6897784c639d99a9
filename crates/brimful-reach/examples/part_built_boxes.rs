//! Fifty part-built boxes at random, a place on a line of each, and what is said of it, as JSON lines for a judge that is not
//! ours (`tests/outside/check_reach.py`).

#![allow(clippy::print_stdout, reason = "an example that prints")]

#[path = "../tests/kit/mod.rs"]
mod kit;

use brimful_geom::plate::{Cutout, Plate};
use brimful_geom::vector::{Point2, Point3, Vec3};
use brimful_reach::{Obstacle, Part, Place, Plates, PoseSolid, Scene};
use kit::{CLEARANCE, PASSAGE, arm, box_of, gun, plate, sight};

/// Places of each box.
const PLACES: usize = 4;

struct Case {
    plates: Vec<Plate>,
    /// Lowest and highest corner of each plate.
    corners: Vec<[[f64; 3]; 2]>,
    standing: Vec<usize>,
    hatch: Option<(Point2, f64)>,
    places: Vec<Place>,
}

fn main() {
    let mut random = fastrand::Rng::with_seed(17);
    for _ in 0..50 {
        let case = case(&mut random);
        for place in &case.places {
            println!("{}", line(&case, place));
        }
    }
}

fn case(random: &mut fastrand::Rng) -> Case {
    let mut between = |low: f64, high: f64| low + (high - low) * random.f64();
    let [x, y, z] = [between(0.3, 1.2), between(0.25, 0.7), between(0.2, 0.6)];
    let t = between(0.005, 0.012);
    let mut plates = box_of([x, y, z], t);
    let at = x * between(0.3, 0.7);
    plates.push(plate([at, 0.0, 0.0], [at + t, y, z - between(0.0, 0.1)]));
    let hatch = (between(0.0, 1.0) < 0.5).then(|| {
        let radius = between(0.05, 0.2_f64.min(0.45 * y));
        let centre = Point2::new(between(radius, x - radius), y / 2.0);
        plates[1].cutouts.push(Cutout::Round { centre, radius });
        (centre, radius)
    });
    let corners = plates.iter().map(|it| {
        let [low, high] = Obstacle::of(it).bounds();
        [low.to_array(), high.to_array()]
    });
    let corners = corners.collect();
    // Floor and front stand always: the places are on the line between them.
    let stands = |number: &usize| [0, 2].contains(number);
    let mut standing: Vec<usize> = vec![0, 2];
    standing.extend(
        (0..plates.len())
            .filter(|it| !stands(it))
            .filter(|_| between(0.0, 1.0) < 0.6),
    );
    standing.sort_unstable();
    let places = (0..PLACES).map(|_| Place {
        at: Point3::new(between(0.005, x - 0.005), 0.0, 0.0),
        along: Vec3::X,
        out: Vec3::new(0.0, 1.0, 1.0).unit().unwrap_or(Vec3::Z),
        own: [0, 2].into_iter().collect(),
    });
    let places = places.collect();
    Case {
        plates,
        corners,
        standing,
        hatch,
        places,
    }
}

fn line(case: &Case, place: &Place) -> String {
    let obstacles: Vec<Obstacle> = case.plates.iter().map(Obstacle::of).collect();
    let all = Scene::new(&obstacles, PASSAGE, CLEARANCE);
    let blocks = all.blocks(place, &gun(), &arm());
    let blocks = blocks.with(&all.hidden_by(place, &sight()));
    let standing: Plates = case.standing.iter().copied().collect();
    let is_reached = blocks.is_reached(standing);
    // The pose by what stands alone, in the box of everything.
    let pose = all.pose(standing, place, &gun(), &arm());
    let both = [pose, all.line_of_sight(standing, place, &sight())];
    let both = both.map(|it| it.map_or(Vec::new(), |pose| vec![pose]));
    let solids = list(both.iter().flatten().flat_map(|it| &it.solids).map(capsule));
    let into: Vec<usize> = both
        .iter()
        .flatten()
        .fold(Plates::NONE, |all, it| all.and(it.runs_into))
        .numbers()
        .collect();
    let corners = list(case.corners.iter().map(|corners| format!("{corners:?}")));
    let hatch = case.hatch.map_or("null".to_owned(), |(centre, radius)| {
        format!("[{},{},{radius}]", centre.x, centre.y)
    });
    let (gun, arm, sight) = (gun(), arm(), sight());
    let hand = Part {
        from: gun.grip,
        to: gun.grip,
        radius: arm.hand,
    };
    format!(
        "{{\"plates\":{corners},\"standing\":{:?},\"hatch\":{hatch},\"at\":{:?},\"reached\":{is_reached},\"pose\":{solids},\"runs_into\":{into:?},\
         \"clearance\":{CLEARANCE},\"shaft\":{},\"foot\":{},\"foot_height\":{},\"feed\":{},\"feed_lean\":{},\"grip\":{},\"leans\":{:?},\"tilts\":{:?},\
         \"arm\":{{\"hand\":{},\"forearm\":{},\"forearm_radius\":{},\"upper_arm\":{},\"upper_arm_radius\":{},\"wrist\":{},\"elbow\":{},\
         \"body_radius\":{},\"lean_in\":{},\"reach\":{}}},\"sight\":{{\"radius\":{},\"least\":{},\"head\":{}}}}}",
        case.standing,
        place.at.to_array(),
        list(gun.shaft.iter().chain([&hand]).map(part)),
        list(gun.foot.iter().map(part)),
        gun.foot_height,
        list(gun.feed.iter().map(part)),
        gun.feed_lean,
        gun.grip,
        gun.leans,
        gun.tilts,
        arm.hand,
        arm.forearm,
        arm.forearm_radius,
        arm.upper_arm,
        arm.upper_arm_radius,
        arm.wrist,
        arm.elbow,
        arm.body_radius,
        arm.lean_in,
        arm.reach,
        sight.radius,
        sight.least,
        sight.head,
    )
}

fn capsule(PoseSolid { capsule, .. }: &PoseSolid) -> String {
    format!(
        "[{:?},{:?},{}]",
        capsule.from.to_array(),
        capsule.to.to_array(),
        capsule.radius
    )
}

fn part(part: &Part) -> String {
    format!("[{},{},{}]", part.from, part.to, part.radius)
}

fn list(items: impl Iterator<Item = String>) -> String {
    format!("[{}]", items.collect::<Vec<_>>().join(","))
}
