//! The liquid in the tank: compartments between dividers, less the baffles and stays in them.

mod room;

pub use room::{room_between, touched_faces};

use crate::body::Body;
use crate::finding::{Part, Subject};
use crate::name::CompartmentId;
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use brimful_geom::boolean::{BooleanFault, common_volume, difference, intersection, pieces};
use brimful_geom::frame::Plane;
use brimful_geom::moments::Moments;
use brimful_geom::plate::Plate;
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{CompartmentSpec, Job, Liquid, Trim};
use brimful_units::{Angle, Density};

/// A room for liquid of its own, named by its id.
#[derive(Clone, Debug, PartialEq)]
pub struct Compartment {
    /// Which of the tank's rooms it is.
    pub id: CompartmentId,
    /// The room between outer panels and dividers.
    pub room: Solid,
    /// What stands in it: baffles with their holes, and stays.
    pub taken: Vec<Solid>,
    /// The room less what stands in it.
    pub liquid: Solid,
    /// Whether liquid goes into it.
    pub holds: Holds,
    /// What goes into it, where liquid does.
    pub contents: Liquid,
    /// What the job says of it alone.
    pub spec: Option<CompartmentSpec>,
    /// The panels that bound it or stand in it, by their numbers.
    pub wets: Vec<usize>,
}

/// What goes into a room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holds {
    /// Liquid.
    Liquid,
    /// Nothing: the job says that it stays dry.
    Nothing,
    /// Nothing that is known: no opening leads into it, while others have some, and the job does not
    /// say that it stays dry.
    Unknown,
}

impl Compartment {
    /// Whether it counts for what the tank holds.
    pub fn holds_liquid(&self) -> bool {
        self.holds == Holds::Liquid
    }

    /// Whether its liquid is that of the job in everything, so that what is said of that one holds for it.
    pub fn holds_liquid_of(&self, job: &Job) -> bool {
        let wanted = job.liquid.wanted;
        let as_of_job = Liquid {
            wanted,
            ..self.contents.clone()
        };
        as_of_job == job.liquid
    }

    /// Moments of the liquid below a surface whose normal points up.
    pub fn below(&self, surface: &Plane) -> Moments {
        let taken = self.taken.iter().map(|solid| solid.moments_below(surface));
        taken.fold(self.room.moments_below(surface), |sum, part| sum - part)
    }

    /// Moments of the liquid when brim-full.
    pub fn whole(&self) -> Moments {
        let taken = self.taken.iter().map(Solid::moments);
        taken.fold(self.room.moments(), |sum, part| sum - part)
    }

    /// Least and greatest height of the room along `up`, metres.
    pub fn heights(&self, up: Vec3) -> (f64, f64) {
        let along = self.room.vertices.iter().map(|p| up.dot(p.to_vec()));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| {
            (low.min(h), high.max(h))
        })
    }

    /// Whether a point on the inside of an outer panel belongs to this compartment: it is the one
    /// whose surface is nearest.
    pub fn distance(&self, point: Point3) -> f64 {
        brimful_geom::basin::distance(&self.room, point)
    }
}

/// The compartment whose surface is nearest to a point.
pub fn nearest(compartments: &[Compartment], point: Point3) -> Option<&Compartment> {
    let by_distance =
        |a: &&Compartment, b: &&Compartment| a.distance(point).total_cmp(&b.distance(point));
    compartments.iter().min_by(by_distance)
}

/// The compartments of a tank.
///
/// # Errors
/// A boolean that cannot be made.
pub fn compartments(
    job: &Job,
    body: &Body,
    panels: &[Panel],
    seams: &[Seam],
) -> Result<Vec<Compartment>, BooleanFault> {
    let dividers = panels.iter().filter(|panel| panel.role == Role::Divider);
    let dividers: Vec<Solid> = dividers
        .map(|panel| welded_in(panel, seams).solid())
        .collect();
    let standing = panels.iter().enumerate();
    let standing: Vec<(usize, Solid)> = standing
        .filter(|(_, panel)| panel.role.is_inner() && panel.role != Role::Divider)
        .map(|(number, panel)| (number, welded_in(panel, seams).solid_with_cutouts()))
        .collect();
    let rooms = if dividers.is_empty() {
        vec![body.cavity.clone()]
    } else {
        pieces(&difference(
            &body.cavity,
            &dividers.iter().collect::<Vec<_>>(),
        )?)?
    };
    let n = rooms.len();
    let mut compartments = Vec::new();
    for (i, room) in rooms.into_iter().enumerate() {
        let bounding = (0..panels.len()).filter(|&panel| room::bounds(&room, &panels[panel]));
        let mut wets: Vec<usize> = bounding.collect();
        let (mut taken, mut own) = (Vec::new(), Vec::new());
        for (number, panel) in &standing {
            let share = common_volume(panel, &room)?;
            if share > 0.5 * panel.moments().volume {
                taken.push(intersection(&[panel, &room])?);
                own.push(panel);
                wets.push(*number);
            }
        }
        // Less the panels with what of them is in the walls, so that no face lies in one of the room's.
        let liquid = match own.is_empty() {
            true => room.clone(),
            false => difference(&room, &own)?,
        };
        let id = match n {
            1 => CompartmentId::Only,
            _ => CompartmentId::Number(i + 1),
        };
        compartments.push(Compartment {
            id,
            room,
            taken,
            liquid,
            holds: Holds::Liquid,
            contents: job.liquid.clone(),
            spec: None,
            wets,
        });
    }
    let opened = opened(panels, &compartments);
    let rooms: Vec<&Solid> = compartments.iter().map(|it| &it.room).collect();
    let named = |between: &[String; 2]| room_between(between, panels, &rooms).ok();
    let dry = job.dry.iter().filter_map(|dry| named(&dry.between));
    let dry: Vec<usize> = dry.collect();
    let own = job.compartments.iter();
    let own: Vec<(usize, &CompartmentSpec)> = own
        .filter_map(|spec| Some((named(&spec.between)?, spec)))
        .collect();
    for (number, spec) in own {
        compartments[number].contents = spec.liquid(&job.liquid);
        compartments[number].spec = Some(spec.clone());
    }
    for (number, compartment) in compartments.iter_mut().enumerate() {
        compartment.holds = match compartment.id {
            _ if dry.contains(&number) => Holds::Nothing,
            id if opened.is_empty() || opened.contains(&id) => Holds::Liquid,
            _ => Holds::Unknown,
        };
    }
    Ok(compartments)
}

/// Every liquid in the tank once, with what a finding on it is about: the job's, and those of the compartments
/// that hold another.
pub fn liquids_held<'a>(
    job: &'a Job,
    compartments: &'a [Compartment],
) -> Vec<(Subject, &'a Liquid)> {
    let rooms = compartments.iter();
    let (of_job, others): (Vec<&Compartment>, Vec<&Compartment>) = rooms
        .filter(|room| room.holds != Holds::Nothing)
        .partition(|room| room.holds_liquid_of(job));
    let of_job = (!of_job.is_empty()).then_some((Subject::Part(Part::Liquid), &job.liquid));
    let others = others.into_iter();
    let others = others.map(|room| (Subject::Compartment(room.id), &room.contents));
    of_job.into_iter().chain(others).collect()
}

/// What some rooms have in them, as moments of mass of which `part` gives those of volume: rooms of one
/// density are summed first.
pub fn moments_of_mass<'a>(
    rooms: impl Iterator<Item = &'a Compartment>,
    part: impl Fn(&Compartment) -> Moments,
) -> Moments {
    let mut by_density: Vec<(Density, Moments)> = Vec::new();
    for room in rooms {
        let (density, moments) = (room.contents.density, part(room));
        match by_density.iter_mut().find(|(own, _)| *own == density) {
            Some((_, sum)) => *sum += moments,
            None => by_density.push((density, moments)),
        }
    }
    let masses = by_density.into_iter();
    let masses = masses.map(|(density, moments)| moments * density.kg_m3());
    masses.fold(Moments::default(), |sum, mass| sum + mass)
}

/// The compartments that openings of the job lead into.
fn opened(panels: &[Panel], compartments: &[Compartment]) -> Vec<CompartmentId> {
    let holes = panels
        .iter()
        .flat_map(|panel| panel.openings.iter().map(move |hole| (panel, hole)));
    holes
        .filter(|(_, hole)| hole.opening.is_some())
        .filter_map(|(panel, hole)| nearest(compartments, panel.on_inside(hole.centre)))
        .map(|compartment| compartment.id)
        .collect()
}

/// An inner panel widened over its root gaps: once welded, rod fills them and no liquid does.
fn welded_in(panel: &Panel, seams: &[Seam]) -> Plate {
    /// Past the wall's face, so that no film of rounding is left between; far less than any sheet.
    const INTO_THE_WALL: f64 = 0.0005;
    let thickness = panel.finished.thickness;
    panel.finished.with_sides_moved(|side| {
        let gap = side
            .mark
            .and_then(|seam| seams.get(seam))
            .map(|seam| seam.gap.m());
        gap.map_or(0.0, |gap| gap / side.bevel(thickness).cos() + INTO_THE_WALL)
    })
}

/// The four corners of the range of trim (fewer where the range is a single angle), as the
/// world's up in the tank's axes.
pub fn trims(job: &Job) -> Vec<Vec3> {
    let Trim { heel, pitch } = job.trim;
    let mut ups: Vec<Vec3> = Vec::new();
    for heel in [heel.low, heel.high] {
        for pitch in [pitch.low, pitch.high] {
            let up = up_at(heel, pitch);
            if !ups.contains(&up) {
                ups.push(up);
            }
        }
    }
    ups
}

/// The world's up at the corners of the trim's range and at so many steps between them either way: what two
/// outlets leave behind together is not most at a corner.
pub fn trims_within(job: &Job) -> Vec<Vec3> {
    const STEPS: u32 = 4;
    let Trim { heel, pitch } = job.trim;
    let between = |low: Angle, high: Angle, step: u32| {
        low + (high - low) * (f64::from(step) / f64::from(STEPS))
    };
    let mut ups: Vec<Vec3> = Vec::new();
    for i in 0..=STEPS {
        for j in 0..=STEPS {
            let heel = between(heel.low, heel.high, i);
            let up = up_at(heel, between(pitch.low, pitch.high, j));
            if !ups.contains(&up) {
                ups.push(up);
            }
        }
    }
    ups
}

/// The world's up in the tank's axes, tilted by heel (left side up) and pitch (front down): the
/// liquid's surface is `z = h + x tan(pitch) - y tan(heel)`.
pub fn up_at(heel: Angle, pitch: Angle) -> Vec3 {
    Vec3::new(-pitch.rad().tan(), heel.rad().tan(), 1.0)
        .unit()
        .unwrap_or(Vec3::Z)
}
