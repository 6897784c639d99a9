//! How far welds pull panels out of flat and corners out of their angle while they cool.
//!
//! Every bead wants to be shorter than it is laid, by a strain of its own (inherent strain: Ueda, Murakawa and Ma,
//! *Welding Deformation and Residual Stress Prevention*, 2012, ch. 3, from memory). Along the seam it
//! draws the sheets on both sides in; across it turns them about the root of its wedge, by `2 e tan(b / 2)` where the wedge
//! of angle `b` has the whole depth, and with the square of its share of the depth where it has not. Step by step of the order of
//! work the beads pull on what stands then (`bead`), as small displacements of the folded plates, and each panel keeps what it
//! has got since it was set, seen from the first (`displacement`). A panel that is set against edges that have been drawn out of line
//! does not fit them, or has to be sprung to them (`misfit`). All but that force is in proportion to the strain alone, and the modulus has no part in it.
//!
//! The order of work is held against the same panels with each seam welded inside as soon as both stand.
//!
//! Left out: what clamps hold while the bead is hot, weight, what draws in across the seam, that the second side of a
//! seam meets one that is stiff already, and that tacks are hinges: what stands is joined along all its seams. A panel that is set
//! is taken to press the edges that it meets back to where they belong, and the second of two the whole of what they meet. Angles are
//! those between the planes nearest to two panels: what bows closes its corners more than that.

mod bead;
mod bench;
mod displacement;
mod misfit;

pub use misfit::{Misfit, Sprung};

use super::tank::Tank;
use bead::StandingShell;
use bench::Bench;
use brimful_geom::vector::Vec3;
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::table::material::Material;
use brimful_panels::table::pull::{InherentStrain, inherent_strain};
use brimful_panels::weld::SeamWeld;
use brimful_panels::weld::order::{Step, Work, welded_as_set};
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_units::{Angle, Length};
use displacement::{PanelDisplacements, Plane};
use misfit::{SetPanel, misfits};
use std::collections::BTreeSet;

/// What so many panels meet that were set after it is straight again between them.
const HELD_BY: usize = 2;
/// A panel bows to one side where its middle lies off its plane by this share of the bow or more: evenly bowed it is a third
/// and more, twisted it is none.
const ONE_WAY: f64 = 0.25;

/// What the welds of a tank pull.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// The strain of a bead.
    pub inherent: InherentStrain,
    /// The strip that would settle it, of the thickest sheet; none where it has been measured.
    pub strip: Option<PullStrip>,
    /// A line a panel.
    pub panels: Vec<Bow>,
    /// A line a seam that was welded.
    pub seams: Vec<Lean>,
    /// The panels that do not fit what stands when they are set.
    pub misfits: Vec<Misfit>,
    /// The most that any panel and corner is off in the order of work.
    pub greatest: Greatest,
    /// The same if each seam were welded inside as soon as both its panels stand; none where that is the order of work, or has
    /// no answer.
    pub greatest_as_set: Option<Greatest>,
}

/// How far a panel leaves the plane that lies nearest to it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bow {
    /// Number of the panel.
    pub panel: usize,
    /// From the lowest place to the highest: the least, the likely and the greatest.
    pub bow: [Length; 3],
    /// Whether its middle goes out of the tank or into it; none of an inner panel, and where it twists.
    pub way: Option<Way>,
}

/// To which side an outer panel bows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Out of the tank.
    Out,
    /// Into the tank.
    In,
}

/// By how much the angle between two panels changes after both are set, where it is measured (`Meets`); of a panel
/// that stands on another, on the side of its first bead. It is that between the planes nearest to the two, for the least, the
/// likely and the greatest strain. What closes is positive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lean {
    /// Number of the seam.
    pub seam: usize,
    /// What it is between.
    pub at: LeanAt,
    /// Before a panel is set that meets both and holds them at their angle; none where the seam is not welded before.
    pub free: Option<[Angle; 3]>,
    /// In the end, counted from there.
    pub lean: [Angle; 3],
    /// In the end, but with only the first of its two sides laid; none of a seam that has one, or gets both in one step, or one
    /// of them before it is held.
    pub one_side: Option<[Angle; 3]>,
    /// Whether a panel meets both, so that they are held at their angle once it stands.
    pub gets_held: bool,
}

/// What the angle at a seam is between.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeanAt {
    /// Two panels at a corner.
    Corner,
    /// Two in one plane: closing is hollow inside.
    Flush,
    /// One that stands on another, and that other on the side of the first bead.
    Foot,
}

impl Way {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Out => "out",
            Self::In => "in",
        }
    }
}

impl LeanAt {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Corner => "corner",
            Self::Flush => "flush",
            Self::Foot => "foot",
        }
    }
}

impl Lean {
    /// By how much it turns while it can still be set against: what is held turns with all that holds it.
    pub fn set_against(&self) -> Option<[Angle; 3]> {
        match self.gets_held {
            true => self.free,
            false => Some(self.lean),
        }
    }
}

/// The most that anything is off: the least, the likely and the greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Greatest {
    /// Out of flat.
    pub bow: [Length; 3],
    /// Of an angle, without its sign.
    pub lean: [Angle; 3],
}

/// What the welds pull in this order of work; none where nothing is known of the strain, the tank cannot be meshed, or a
/// step has no answer.
pub fn pull(tank: &Tank<'_>, welds: &[SeamWeld], steps: &[Step]) -> Option<Pull> {
    let material = Material::of(&tank.job.stock.material).ok()?;
    let inherent = inherent_strain(material, tank.job.shop.pull)?;
    let thicknesses = tank.panels.iter().map(|panel| panel.thickness);
    let thickest = thicknesses.fold(Length::ZERO, Length::max);
    let density = material.density().ok();
    let strip = density.map(|density| PullStrip::of(thickest, density.value));
    let bench = Bench::of(tank, welds)?;
    let built = bench.build(steps)?;
    let as_set = welded_as_set(steps, welds);
    let as_set = (!is_same_work(&as_set, steps)).then(|| bench.build(&as_set));
    Some(Pull {
        greatest: built.greatest(inherent.strain),
        greatest_as_set: as_set.flatten().map(|it| it.greatest(inherent.strain)),
        panels: built.bows(tank, inherent.strain),
        seams: built.leans(&bench, inherent.strain),
        misfits: misfits(&bench, &built.set, material, inherent.strain),
        strip: tank.job.shop.pull.is_none().then_some(strip).flatten(),
        inherent,
    })
}

fn is_same_work(one: &[Step], other: &[Step]) -> bool {
    let work = |step: &Step| (step.work, step.panels.clone(), step.seams.clone());
    one.iter().map(work).eq(other.iter().map(work))
}

/// The tank after its last step, for a strain of one.
struct Built {
    /// The panels as they stand in the end.
    planes: Vec<Plane>,
    /// Every seam.
    seams: Vec<Turned>,
    /// The panels as they were set.
    set: Vec<SetPanel>,
}

/// How far the angle at a seam has turned.
#[derive(Clone, Copy, Default)]
struct Turned {
    /// How it was closed when the second of its panels was set, or one that holds the two at their angle.
    from: f64,
    /// Whether a run has been laid on it since.
    is_laid: bool,
    /// Whether a panel stands that holds the two at their angle.
    is_held: bool,
    free: Option<f64>,
    one_side: Option<f64>,
    in_all: f64,
}

impl Bench<'_> {
    fn build(&self, steps: &[Step]) -> Option<Built> {
        let tank = self.tank;
        let mut standing = vec![false; tank.panels.len()];
        let mut moved = PanelDisplacements::new(&self.model, tank.panels.len());
        let mut pressed_back = moved.clone();
        let mut holds = vec![0; tank.panels.len()];
        let mut first = None;
        let mut set = Vec::new();
        let mut seams = vec![Turned::default(); tank.seams.len()];
        let mut laid_before: BTreeSet<usize> = BTreeSet::new();
        let ways: Vec<Vec3> = (0..tank.seams.len()).map(|it| self.closing(it)).collect();
        let closed = |seam: usize, planes: &[Plane]| closed(tank, seam, ways[seam], planes);
        for step in steps {
            match step.work {
                Work::Set => {
                    let planes = moved.planes(tank, &self.model);
                    for &panel in &step.panels {
                        set.push(SetPanel::of(self, panel, &standing, &moved, &pressed_back));
                        for (seam, other) in self.met_by(panel).filter(|it| standing[it.1]) {
                            holds[other] += 1;
                            let nodes = self.nodes_on(seam);
                            let at = (holds[other] < HELD_BY).then_some(nodes.as_slice());
                            pressed_back.take_over(&moved, other, at);
                        }
                        standing[panel] = true;
                        first.get_or_insert(panel);
                        let now = |seam: usize| closed(seam, &planes);
                        self.held_by(panel, &standing, &now, &mut seams);
                    }
                }
                Work::WeldInside | Work::WeldOutside => {
                    let laid: Vec<&SeamWeld> = self.laid(step).collect();
                    let shell = StandingShell::of(tank, &self.model, &self.shell, &standing)?;
                    moved.add(&shell, &shell.pulled(&self.lines, &laid)?, first?);
                    let planes = moved.planes(tank, &self.model);
                    for weld in laid {
                        let turned = &mut seams[weld.seam];
                        turned.is_laid = true;
                        let is_first = !laid_before.contains(&weld.seam);
                        turned.one_side = (is_first && self.has_two_sides(weld.seam))
                            .then(|| closed(weld.seam, &planes) - turned.from)
                            .or(turned.one_side);
                    }
                    laid_before.extend(&step.seams);
                }
                Work::Tack | Work::Turn => {}
            }
        }
        let planes = moved.planes(tank, &self.model);
        for (number, turned) in seams.iter_mut().enumerate() {
            turned.in_all = closed(number, &planes) - turned.from;
        }
        Some(Built { seams, planes, set })
    }

    /// Seams begin to turn when their second panel is set, and again when one is that holds both at their angle.
    /// `closed` is how far each is closed now.
    fn held_by(
        &self,
        panel: usize,
        standing: &[bool],
        closed: &dyn Fn(usize) -> f64,
        seams: &mut [Turned],
    ) {
        let met: BTreeSet<usize> = self.met_by(panel).map(|it| it.1).collect();
        for (number, turned) in seams.iter_mut().enumerate() {
            let both = self.tank.seams[number].panels;
            let is_second = both.contains(&panel) && both.iter().all(|&it| standing[it]);
            let holds_now = both.iter().all(|it| met.contains(it) && standing[*it]);
            // The second of the two may be set where one that meets both stands already.
            let is_held = holds_now || (is_second && self.is_held(number, standing));
            if !is_second && !is_held {
                continue;
            }
            let now = closed(number);
            let free = now - turned.from;
            let was_free = !turned.is_held;
            turned.is_held |= is_held;
            if is_held
                && was_free
                && turned.is_laid
                && free.abs() > turned.free.unwrap_or(0.0).abs()
            {
                turned.free = Some(free);
            }
            turned.one_side = None;
            turned.is_laid = false;
            turned.from = now;
        }
    }

    /// The way along a seam about which its first panel turns where it closes the angle, as this is measured.
    fn closing(&self, number: usize) -> Vec3 {
        let [from, to] = self.tank.seams[number].inner_line;
        let along = (to - from).unit().unwrap_or(Vec3::X);
        let [one, other] = self.arms(number, along);
        along * along.dot(one.cross(other)).signum()
    }

    /// The ways from a seam into its two panels, between which the angle is measured.
    fn arms(&self, number: usize, along: Vec3) -> [Vec3; 2] {
        let seam = &self.tank.seams[number];
        let into = |panel: usize| self.into(panel, number, along);
        let [one, other] = seam.panels;
        let normal = self.tank.panels[one].finished.frame.z;
        match lean_at(seam) {
            // On the face of the standing panel that the first bead is put on.
            LeanAt::Foot => [into(one), normal],
            LeanAt::Flush => [into(one), -normal],
            LeanAt::Corner => [into(one), into(other)],
        }
    }
}

impl Built {
    fn bows(&self, tank: &Tank<'_>, strain: [f64; 3]) -> Vec<Bow> {
        let planes = self.planes.iter().enumerate();
        let bow = |(panel, plane): (usize, &Plane)| {
            let goes_one_way = plane.middle.abs() > ONE_WAY * plane.bow;
            let is_outer = tank.panels[panel].role.is_outer();
            Bow {
                panel,
                bow: strain.map(|it| Length::from_m(it * plane.bow)),
                way: (is_outer && goes_one_way).then_some(match plane.middle > 0.0 {
                    true => Way::Out,
                    false => Way::In,
                }),
            }
        };
        planes.map(bow).collect()
    }

    fn leans(&self, bench: &Bench<'_>, strain: [f64; 3]) -> Vec<Lean> {
        let times = |closed: f64| strain.map(|it| Angle::from_rad(it * closed));
        let seams = self.seams.iter().enumerate();
        let welded = seams.filter(|(number, _)| bench.welds.iter().any(|it| it.seam == *number));
        let lean = |(seam, turned): (usize, &Turned)| Lean {
            seam,
            at: lean_at(&bench.tank.seams[seam]),
            gets_held: bench.gets_held(seam),
            free: turned.free.map(times),
            lean: times(turned.in_all),
            one_side: turned.one_side.map(times),
        };
        welded.map(lean).collect()
    }

    fn greatest(&self, strain: [f64; 3]) -> Greatest {
        let bow = self.planes.iter().map(|it| it.bow).fold(0.0, f64::max);
        let seams = self.seams.iter();
        let leans = seams.map(|it| it.in_all.abs().max(it.free.unwrap_or(0.0).abs()));
        let lean = leans.fold(0.0, f64::max);
        Greatest {
            bow: strain.map(|it| Length::from_m(it * bow)),
            lean: strain.map(|it| Angle::from_rad(it * lean)),
        }
    }
}

/// By how much the angle between the two panels of a seam is closed, for a strain of one; `way` is that about which the first turns
/// to close it.
fn closed(tank: &Tank<'_>, seam: usize, way: Vec3, planes: &[Plane]) -> f64 {
    let turned = tank.seams[seam]
        .panels
        .map(|panel| planes[panel].turn.dot(way));
    turned[0] - turned[1]
}

fn lean_at(seam: &Seam) -> LeanAt {
    match seam.joint {
        Joint::Tee | Joint::SlotThrough => LeanAt::Foot,
        Joint::Butt => LeanAt::Flush,
        Joint::OpenCorner | Joint::ThroughAndButt { .. } | Joint::Mitred => LeanAt::Corner,
    }
}
