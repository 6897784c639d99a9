//! The shop's gun, and the arm that holds it, as solids.

use crate::table::kit::{angle, length};
use brimful_job::{Job, Nozzle, Process, Shop};
use brimful_reach::{Arm, Part, Place, Scene, Sight, Tool};
use brimful_units::Length;

/// Angles of the gun to the seam that are tried, from the least to the most.
const LEANS: usize = 4;

/// What a run is laid with.
#[derive(Clone, Debug)]
pub(super) struct Kit {
    /// What runs are laid with wherever it gets.
    pub own: Option<Tool>,
    /// The round nozzle, for where that does not get.
    pub by_hand: Option<Tool>,
    /// How far from the end of a run the extruder begins, what is nearer being laid by hot gas; none where the shop has
    /// none.
    pub extruded_from: Option<Length>,
    pub arm: Arm,
    pub sight: Sight,
    pub clearance: Length,
    /// The narrowest hole that an arm is tried through.
    pub passage: Length,
}

impl Kit {
    pub fn of(job: &Job) -> Self {
        let shop = &job.shop;
        // Rod in one hand and gun in the other; an extruder is held by two.
        let round = (shop.hands >= 2).then(|| round(shop));
        let (own, by_hand) = match (shop.process, shop.nozzle) {
            (Process::Extrusion, _) => (round.is_some().then(|| extruder(shop)), round),
            (Process::HotGas, Nozzle::Speed) => (Some(speed(shop)), round),
            (Process::HotGas, Nozzle::Round) => (round, None),
        };
        let extruded_from = match shop.process {
            Process::Extrusion => Some(length("extruder", "end")),
            Process::HotGas => None,
        };
        Self {
            own,
            by_hand,
            extruded_from,
            arm: arm(shop),
            sight: Sight {
                radius: length("eye", "beam").m() / 2.0,
                least: length("eye", "nearest").m(),
                head: length("eye", "head").m() / 2.0,
            },
            clearance: length("work", "clearance"),
            passage: length("arm", "opening"),
        }
    }
}

impl Kit {
    /// Whether a pose of gun, hand and arm is clear of all that stands, and the place in sight.
    pub fn reaches(&self, scene: &Scene<'_>, place: &Place) -> bool {
        let mut tools = self.own.iter().chain(&self.by_hand);
        scene.is_seen(place, &self.sight)
            && tools.any(|tool| scene.is_reached(place, tool, &self.arm))
    }
}

fn arm(shop: &Shop) -> Arm {
    Arm {
        hand: shop.hand.m() / 2.0,
        forearm: length("arm", "grip to elbow").m(),
        forearm_radius: length("arm", "forearm diameter").m() / 2.0,
        upper_arm: length("arm", "elbow to shoulder").m(),
        upper_arm_radius: length("arm", "upper arm diameter").m() / 2.0,
        wrist: angle("arm", "most wrist").rad(),
        elbow: angle("arm", "most elbow").rad(),
        body_radius: length("body", "shoulder width").m() / 2.0,
        lean_in: length("body", "lean in").m(),
        reach: shop.reach.m(),
    }
}

/// A part along a line, all in metres but its width.
fn part(from: f64, to: f64, width: Length) -> Part {
    Part {
        from,
        to: to.max(from),
        radius: width.m() / 2.0,
    }
}

/// From the tip of the hot-gas gun to the hand on it, and how thick it is: the shop's, or that of one beside its extruder.
fn hot_gas_gun(shop: &Shop) -> [Length; 2] {
    match shop.process {
        Process::HotGas => [shop.gun_length, shop.gun_diameter],
        Process::Extrusion => ["tip to hand", "grip diameter"].map(|it| length("pencil gun", it)),
    }
}

/// Nozzle, tube, and the grip with what leaves it behind.
fn pencil_gun(shop: &Shop, nozzle: &str) -> Vec<Part> {
    let [to_hand, diameter] = hot_gas_gun(shop);
    let hand = to_hand.m();
    let tip = length(nozzle, "off the work").m();
    let tube = (hand - length("pencil gun", "tube from hand").m()).max(tip);
    let behind = hand + length("pencil gun", "behind hand").m();
    vec![
        part(tip, tube, length(nozzle, "diameter")),
        part(tube, hand, length("pencil gun", "tube diameter")),
        part((tube + hand) / 2.0, behind, diameter),
    ]
}

fn rod(held: bool) -> Vec<Part> {
    let (from, to) = (
        length("round nozzle", "off the work").m(),
        length("rod", "straight").m(),
    );
    let mut feed = vec![part(from, to, length("rod", "diameter"))];
    if held {
        let hand = length("hand", "thickness");
        feed.push(part(to + hand.m() / 2.0, to + hand.m() / 2.0, hand));
    }
    feed
}

fn tool(grip: Length, name: &str, shaft: Vec<Part>, feed: Vec<Part>) -> Tool {
    let [least, most] = ["least lean", "most lean"].map(|end| angle(name, end).rad());
    let lean = |i: usize| least + (most - least) * i as f64 / (LEANS - 1) as f64;
    let tilt = angle("work", "most tilt").rad();
    Tool {
        shaft,
        foot: Vec::new(),
        foot_height: 0.0,
        feed,
        feed_lean: angle("rod", "lean").rad(),
        grip: grip.m(),
        leans: (0..LEANS).map(lean).collect(),
        tilts: [0.0, 0.5, -0.5, 1.0, -1.0]
            .map(|share| share * tilt)
            .to_vec(),
    }
}

fn round(shop: &Shop) -> Tool {
    let [to_hand, _] = hot_gas_gun(shop);
    tool(
        to_hand,
        "round nozzle",
        pencil_gun(shop, "round nozzle"),
        rod(true),
    )
}

fn speed(shop: &Shop) -> Tool {
    let width = length("speed nozzle", "toe width");
    Tool {
        foot: vec![part(
            0.0,
            length("speed nozzle", "toe").m() - width.m() / 2.0,
            width,
        )],
        foot_height: width.m() / 2.0,
        ..tool(
            shop.gun_length,
            "speed nozzle",
            pencil_gun(shop, "speed nozzle"),
            rod(false),
        )
    }
}

/// Shoe, barrel in its guard, and drive.
fn extruder(shop: &Shop) -> Tool {
    let hand = shop.gun_length.m();
    let tip = length("extruder", "off the work").m();
    let body = (hand - length("extruder", "body from hand").m()).max(tip);
    let behind = hand + length("extruder", "behind hand").m();
    let shaft = vec![
        part(tip, body, length("extruder", "barrel diameter")),
        part(body, behind, shop.gun_diameter),
    ];
    let width = length("extruder", "shoe width");
    let [behind, ahead] = ["shoe behind", "shoe ahead"].map(|end| length("extruder", end).m());
    let radius = width.m() / 2.0;
    Tool {
        foot: vec![part(radius - behind, ahead - radius, width)],
        foot_height: radius,
        ..tool(shop.gun_length, "extruder", shaft, Vec::new())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn kit(shop: &str) -> Kit {
        let text = format!(
            "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\n[shop]\n{shop}"
        );
        Kit::of(&Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}")))
    }

    #[test]
    fn every_kit_has_its_tools() {
        let speed = kit("");
        assert!(speed.own.is_some_and(|tool| !tool.foot.is_empty()) && speed.by_hand.is_some());
        let round = kit("nozzle = \"round\"\n");
        assert!(round.own.is_some_and(|tool| tool.foot.is_empty()) && round.by_hand.is_none());
        let extruder = kit("process = \"extrusion\"\n");
        assert!(extruder.own.is_some_and(|tool| tool.grip > 0.3));
        assert!(extruder.by_hand.is_some_and(|tool| tool.grip < 0.3));
        assert!(extruder.extruded_from.is_some());
    }

    /// One hand feeds no rod and holds no extruder.
    #[test]
    fn one_hand_has_the_speed_nozzle_alone() {
        let speed = kit("hands = 1\n");
        assert!(speed.own.is_some() && speed.by_hand.is_none());
        assert!(kit("hands = 1\nnozzle = \"round\"\n").own.is_none());
        assert!(kit("hands = 1\nprocess = \"extrusion\"\n").own.is_none());
    }

    #[test]
    fn a_shop_measures_its_own_gun() {
        let shaft = |shop: &str| kit(shop).own.expect("a gun").shaft;
        let longest = |shop: &str| shaft(shop).iter().map(|it| it.to).fold(0.0, f64::max);
        assert!((longest("gun_length = 370\n") - longest("") - 0.1).abs() < 1e-12);
        let thickest = |shop: &str| shaft(shop).iter().map(|it| it.radius).fold(0.0, f64::max);
        assert!((kit("hand = 140\n").arm.hand - 0.07).abs() < 1e-12);
        assert!((thickest("gun_diameter = 160\n") - 0.08).abs() < 1e-12);
        // One that is shorter than a nozzle still has its parts in order.
        assert!(shaft("gun_length = 80\n").iter().all(|it| it.from <= it.to));
    }
}
