//! How far welds pull panels out of flat and corners out of their angle while they cool.
//!
//! Every bead wants to be shorter than it is laid, by a strain of its own (inherent strain: Ueda, Murakawa and Ma,
//! *Welding Deformation and Residual Stress Prevention*, 2012, ch. 3, from memory). Along the seam it
//! draws the sheets on both sides in; across it turns them about the root of its wedge, by `2 e tan(b / 2)` where the wedge
//! of angle `b` has the whole depth, and with the square of its share of the depth where it has not. Step by step of the order of
//! work the beads pull on what stands then (`bead`), as small displacements of the folded plates, and each panel keeps what it
//! has got since it was set (`moved`). A panel that is set against edges that have been drawn out of line has to be sprung to them
//! (`spring`). All but that force is in proportion to the strain alone, and the modulus has no part in it.
//!
//! The order of work is held against the same panels with each seam welded inside as soon as both stand.
//!
//! Left out: what clamps hold while the bead is hot, weight, what draws in across the seam, and that the second side of a
//! seam meets one that is stiff already.

mod bead;
mod bench;
mod moved;
mod spring;

pub use spring::{STANDS_OFF, Spring};

use super::tank::Tank;
use bead::Part;
use bench::Bench;
use brimful_geom::vector::Vec3;
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::table::material::Material;
use brimful_panels::table::pull::{InherentStrain, inherent_strain};
use brimful_panels::weld::SeamWeld;
use brimful_panels::weld::order::{Step, Work, welded_as_set};
use brimful_panels::weld::pull_strip::PullStrip;
use brimful_units::{Angle, Length};
use moved::{Moved, Plane};
use spring::{SetPanel, springs};
use std::collections::BTreeSet;

/// A panel bows to one side where its middle lies off its plane by this share of the bow or more; else it twists.
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
    /// The panels that have to be sprung to what stands.
    pub springs: Vec<Spring>,
    /// The most that any panel and corner is off in the order of work.
    pub most: Most,
    /// The same if each seam were welded inside as soon as both its panels stand; none where that is the order of work.
    pub most_as_set: Option<Most>,
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
    /// Before a panel is set that meets both and holds them at their angle; none where the seam is not welded before.
    pub free: Option<[Angle; 3]>,
    /// In the end, counted from there.
    pub lean: [Angle; 3],
    /// The same when only the first of its two sides has been laid; none of a seam that has one, or gets both in one step.
    pub one_side: Option<[Angle; 3]>,
}

impl Lean {
    /// What it is set against beforehand.
    pub fn most(&self) -> [Angle; 3] {
        match self.free {
            Some(free) if free[1].abs() > self.lean[1].abs() => free,
            _ => self.lean,
        }
    }
}

/// The most that anything is off: the least, the likely and the greatest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Most {
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
    let most_as_set = match as_set == steps {
        true => None,
        false => Some(bench.build(&as_set)?.most(inherent.strain)),
    };
    Some(Pull {
        most: built.most(inherent.strain),
        panels: built.bows(tank, inherent.strain),
        seams: built.leans(welds, inherent.strain),
        springs: springs(&bench, &built.set, material, inherent.strain),
        strip: tank.job.shop.pull.is_none().then_some(strip).flatten(),
        most_as_set,
        inherent,
    })
}

/// The tank after its last step, for a strain of one.
struct Built {
    /// The panels as they stand in the end.
    planes: Vec<Plane>,
    /// Every seam.
    seams: Vec<Turned>,
    /// The panels that were set against something.
    set: Vec<SetPanel>,
}

/// How far the angle at a seam has turned.
#[derive(Clone, Copy, Default)]
struct Turned {
    /// How it was closed when the second of its panels was set, or one that holds the two at their angle.
    from: f64,
    /// Whether a run has been laid on it since.
    is_laid: bool,
    free: Option<f64>,
    one_side: Option<f64>,
    in_all: f64,
}

impl Bench<'_> {
    fn build(&self, steps: &[Step]) -> Option<Built> {
        let tank = self.tank;
        let mut standing = vec![false; tank.panels.len()];
        let mut moved = Moved::new(&self.model, tank.panels.len());
        let mut pressed_back = moved.clone();
        let mut set = Vec::new();
        let mut seams = vec![Turned::default(); tank.seams.len()];
        for step in steps {
            match step.work {
                Work::Set => {
                    let planes = moved.planes(tank, &self.model);
                    for &panel in &step.panels {
                        set.extend(SetPanel::of(self, panel, &standing, &moved, &pressed_back));
                        for other in self.met_by(panel).filter(|it| standing[*it]) {
                            pressed_back.take_over(&moved, other);
                        }
                        standing[panel] = true;
                        self.held_by(panel, &standing, &planes, &mut seams);
                    }
                }
                Work::WeldInside | Work::WeldOutside => {
                    let laid: Vec<&SeamWeld> = self.laid(step).collect();
                    let part = Part::of(tank, &self.model, &self.shell, &standing)?;
                    moved.add(&part, &part.pulled(&self.lines, &laid)?);
                    let planes = moved.planes(tank, &self.model);
                    for weld in laid {
                        let turned = &mut seams[weld.seam];
                        turned.is_laid = true;
                        if self.has_two_sides(weld.seam) {
                            let now = self.closed(weld.seam, &planes) - turned.from;
                            turned.one_side.get_or_insert(now);
                        }
                    }
                }
                Work::Tack | Work::Turn => {}
            }
        }
        let planes = moved.planes(tank, &self.model);
        for (number, turned) in seams.iter_mut().enumerate() {
            turned.in_all = self.closed(number, &planes) - turned.from;
        }
        Some(Built { seams, planes, set })
    }

    /// Seams begin to turn when their second panel is set, and anew when one is that holds both at their angle.
    fn held_by(&self, panel: usize, standing: &[bool], planes: &[Plane], seams: &mut [Turned]) {
        let met: BTreeSet<usize> = self.met_by(panel).collect();
        for (number, turned) in seams.iter_mut().enumerate() {
            let both = self.tank.seams[number].panels;
            let is_second = both.contains(&panel) && both.iter().all(|&it| standing[it]);
            let is_held = both.iter().all(|it| met.contains(it) && standing[*it]);
            if !is_second && !is_held {
                continue;
            }
            let now = self.closed(number, planes);
            let free = now - turned.from;
            if is_held && turned.is_laid && free.abs() > turned.free.unwrap_or(0.0).abs() {
                turned.free = Some(free);
            }
            turned.one_side = None;
            turned.is_laid = false;
            turned.from = now;
        }
    }

    /// By how much the angle between the two panels of a seam is closed where it is measured, for a strain of one.
    fn closed(&self, number: usize, planes: &[Plane]) -> f64 {
        let seam = &self.tank.seams[number];
        let [from, to] = seam.inner_line;
        let along = (to - from).unit().unwrap_or(Vec3::X);
        let [one, other] = self.arms(seam, along);
        let way = along.dot(one.cross(other)).signum();
        let [turned, other_turned] = seam.panels.map(|panel| planes[panel].turn.dot(along));
        way * (turned - other_turned)
    }

    /// The ways from a seam into its two panels, between which the angle is measured.
    fn arms(&self, seam: &Seam, along: Vec3) -> [Vec3; 2] {
        let into = |panel: usize| {
            let middle = self.middle(panel) - seam.inner_line[0];
            middle - along * middle.dot(along)
        };
        let [one, other] = seam.panels;
        match seam.joint {
            // On the face of the standing panel that the first bead is put on.
            Joint::Tee | Joint::SlotThrough => [into(one), self.tank.panels[one].finished.frame.z],
            _ => [into(one), into(other)],
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

    fn leans(&self, welds: &[SeamWeld], strain: [f64; 3]) -> Vec<Lean> {
        let times = |closed: f64| strain.map(|it| Angle::from_rad(it * closed));
        let seams = self.seams.iter().enumerate();
        let welded = seams.filter(|(number, _)| welds.iter().any(|it| it.seam == *number));
        let lean = |(seam, turned): (usize, &Turned)| Lean {
            seam,
            free: turned.free.map(times),
            lean: times(turned.in_all),
            one_side: turned.one_side.map(times),
        };
        welded.map(lean).collect()
    }

    fn most(&self, strain: [f64; 3]) -> Most {
        let bow = self.planes.iter().map(|it| it.bow).fold(0.0, f64::max);
        let seams = self.seams.iter();
        let leans = seams.map(|it| it.in_all.abs().max(it.free.unwrap_or(0.0).abs()));
        let lean = leans.fold(0.0, f64::max);
        Most {
            bow: strain.map(|it| Length::from_m(it * bow)),
            lean: strain.map(|it| Angle::from_rad(it * lean)),
        }
    }
}
