//! What the tank weighs and where its weight sits: empty, rated, brim and worst.

use brimful_geom::frame::Plane;
use brimful_geom::moments::Moments;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::Job;
use brimful_panels::capacity::rated_surface;
use brimful_panels::fitting::fittings;
use brimful_panels::liquid::{Compartment, moments_of_mass, trims};
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_units::{Density, Mass, Volume};

/// Fills tried when the worst one is looked for: every tenth of the volume.
const FILLS: usize = 10;

/// The tank's weight in the states that matter.
#[derive(Clone, Debug, PartialEq)]
pub struct MassTable {
    /// All panels, holes taken out.
    pub panels: Mass,
    /// All rod laid.
    pub rod: Mass,
    /// Empty, rated, brim and worst.
    pub states: Vec<MassState>,
}

/// How full a tank is that is weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MassStateKind {
    /// Without liquid.
    Empty,
    /// To its rated surface.
    Rated,
    /// To the brim.
    Brim,
    /// As full as shifts most when it tilts.
    Worst,
}

impl MassStateKind {
    /// A word for it that is the same in every language.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::Rated => "rated",
            Self::Brim => "brim",
            Self::Worst => "worst",
        }
    }
}

/// The tank with some liquid in it.
#[derive(Clone, Debug, PartialEq)]
pub struct MassState {
    /// How full it is.
    pub kind: MassStateKind,
    /// Liquid in it.
    pub liquid: Volume,
    /// Tank and liquid.
    pub mass: Mass,
    /// Centre of mass, in the tank's axes.
    pub centre: Point3,
    /// Moments of inertia about the centre of mass, the liquid taken as frozen, kg m2:
    /// `[Ixx, Iyy, Izz, Iyz, Izx, Ixy]`.
    pub inertia: [f64; 6],
}

impl MassTable {
    /// What it weighs empty.
    pub fn empty(&self) -> Mass {
        self.state(MassStateKind::Empty)
            .map_or(Mass::ZERO, |state| state.mass)
    }

    /// The state of this kind.
    pub fn state(&self, kind: MassStateKind) -> Option<&MassState> {
        self.states.iter().find(|state| state.kind == kind)
    }
}

/// Weighs a tank whose seams take `rod` (one mass a seam), of sheet of density `sheet`.
///
/// The worst state is the fill and trim at which most load shifts; see `worst_fill`.
pub fn mass(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    rod: &[Mass],
    sheet: Density,
    compartments: &[Compartment],
) -> MassTable {
    let plastic = panels
        .iter()
        .map(|panel| panel.finished.solid_with_cutouts().moments());
    let plastic = plastic.fold(Moments::default(), |sum, part| sum + part) * sheet.kg_m3();
    let laid = seams
        .iter()
        .zip(rod)
        .map(|(seam, mass)| line_mass(seam, *mass));
    let laid = laid.fold(Moments::default(), |sum, part| sum + part);
    let fitted = fittings(job, panels)
        .iter()
        .flat_map(|fitting| [fitting.weight(), fitting.cover_weight(sheet)])
        .flatten()
        .map(|(mass, at)| point_mass(at, mass.kg()))
        .fold(Moments::default(), |sum, part| sum + part);
    let empty = plastic + laid + fitted;
    let state = |kind: MassStateKind, liquid: Contents| {
        let all = empty + liquid.mass;
        MassState {
            kind,
            liquid: liquid.volume,
            mass: Mass::from_kg(all.volume),
            centre: all.centroid(),
            inertia: all.inertia_about(all.centroid()),
        }
    };
    let holding = compartments.iter().filter(|it| it.holds_liquid());
    let holding: Vec<&Compartment> = holding.collect();
    let rated = Contents::of(&holding, |compartment| {
        compartment.below(&rated_surface(job, panels, compartments, compartment))
    });
    let brim = Contents::of(&holding, Compartment::whole);
    let states = vec![
        state(MassStateKind::Empty, Contents::default()),
        state(MassStateKind::Rated, rated),
        state(MassStateKind::Brim, brim),
        state(MassStateKind::Worst, worst_fill(job, brim, &holding)),
    ];
    MassTable {
        panels: Mass::from_kg(plastic.volume),
        rod: Mass::from_kg(laid.volume),
        states,
    }
}

/// What is in some compartments.
#[derive(Clone, Copy, Default)]
struct Contents {
    volume: Volume,
    /// Moments of mass.
    mass: Moments,
}

impl Contents {
    /// Where `part` is what there is in each.
    fn of(rooms: &[&Compartment], part: impl Fn(&Compartment) -> Moments) -> Self {
        Self {
            volume: rooms
                .iter()
                .map(|room| part(room).volume)
                .map(Volume::from_m3)
                .sum(),
            mass: moments_of_mass(rooms.iter().copied(), part),
        }
    }
}

/// A seam's rod as mass at its middle and ends (Simpson's points), which has the line's mass,
/// centre and moment of inertia.
fn line_mass(seam: &Seam, mass: Mass) -> Moments {
    let [a, b] = seam.inner_line;
    let point = |p: Point3, share: f64| point_mass(p, mass.kg() * share);
    point(a, 1.0 / 6.0) + point(a.midpoint(b), 4.0 / 6.0) + point(b, 1.0 / 6.0)
}

fn point_mass(at: Point3, kg: f64) -> Moments {
    let there = Moments {
        volume: kg,
        ..Moments::default()
    };
    there.moved(at.to_vec())
}

/// The fill and trim of the job's range at which most load has shifted sideways and lengthways
/// against the same fill in the level tank; brim-full where the tank only ever stands level.
fn worst_fill(job: &Job, brim: Contents, rooms: &[&Compartment]) -> Contents {
    let mut worst = (0.0, brim);
    for up in trims(job).into_iter().filter(|up| *up != Vec3::Z) {
        for fill in 1..FILLS {
            let share = fill as f64 / FILLS as f64;
            let shifted = moments_of_mass(rooms.iter().copied(), |room| {
                filled(room, up, share) - filled(room, Vec3::Z, share)
            });
            let load_shift = (shifted.first - Vec3::Z * shifted.first.z).length();
            if load_shift > worst.0 {
                worst = (
                    load_shift,
                    Contents::of(rooms, |room| filled(room, up, share)),
                );
            }
        }
    }
    worst.1
}

/// A compartment filled to a share of its volume, under a surface square to `up`.
fn filled(compartment: &Compartment, up: Vec3, share: f64) -> Moments {
    let wanted = compartment.whole().volume * share;
    let (mut low, mut high) = compartment.heights(up);
    let below = |offset: f64| compartment.below(&Plane { normal: up, offset });
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if below(middle).volume < wanted {
            low = middle;
        } else {
            high = middle;
        }
    }
    below(high)
}

/// Halvings of a depth of a metre or two down to a tenth of a micrometre.
const HALVINGS: usize = 24;
