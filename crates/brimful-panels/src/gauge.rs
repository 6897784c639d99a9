//! The gauge table: dip against litres, at any heel and pitch.

use crate::liquid::{Compartment, up_at};
use crate::name::CompartmentId;
use crate::panel::Panel;
use crate::port::{Port, ports};
use brimful_geom::frame::Plane;
use brimful_geom::vector::{Point3, Vec3};
use brimful_job::{Job, Service};
use brimful_units::{Angle, Length, UnitSystem, Volume};

/// A gauge table has at most this many rows; more do not fit a page or a stick.
const MOST_ROWS: f64 = 60.0;
/// An even-volume dipstick has at most this many marks.
const MOST_MARKS: f64 = 25.0;

/// Dip against volume for one compartment.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauge {
    /// Which compartment it is of.
    pub compartment: CompartmentId,
    /// What the dip is taken under.
    pub under: DipUnder,
    /// Where the stick touches the floor, in the tank's axes.
    pub foot: Point3,
    /// Heel the table holds for.
    pub heel: Angle,
    /// Pitch the table holds for.
    pub pitch: Angle,
    /// Rows at even dips, from empty to brim.
    pub rows: Vec<GaugeRow>,
    /// Marks at even volumes, for a dipstick.
    pub marks: Vec<GaugeRow>,
}

/// What a dip is taken under.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DipUnder {
    /// An opening, by its name in the job.
    Opening(String),
    /// The middle of the plan, where no opening is meant for it.
    MiddleOfPlan,
}

/// One line of a gauge table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GaugeRow {
    /// Depth of liquid along the stick.
    pub dip: Length,
    /// Volume of liquid.
    pub volume: Volume,
}

/// One table a compartment, for the given tilt.
pub fn gauges(
    job: &Job,
    panels: &[Panel],
    compartments: &[Compartment],
    heel: Angle,
    pitch: Angle,
) -> Vec<Gauge> {
    compartments
        .iter()
        .filter(|compartment| compartment.holds_liquid())
        .map(|compartment| gauge(job, panels, compartments, compartment, heel, pitch))
        .collect()
}

fn gauge(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
    heel: Angle,
    pitch: Angle,
) -> Gauge {
    let (under, place) = dip_place(job, panels, all, compartment);
    let (low, high) = vertical_reach(compartment, place);
    let foot = Point3::new(place.x, place.y, low);
    let stick = Stick {
        compartment,
        foot,
        up: up_at(heel, pitch),
    };
    let depth = stick.full_dip().max(high - low);
    let volume_unit = match job.about.units {
        UnitSystem::Metric => Volume::from_litres(1.0),
        UnitSystem::Inch => Volume::from_us_gal(1.0),
    };
    Gauge {
        compartment: compartment.id,
        under,
        foot,
        heel,
        pitch,
        rows: stick.rows(depth, dip_step(job.about.units, depth)),
        marks: stick.marks(volume_step(volume_unit.m3(), compartment.whole().volume)),
    }
}

impl Gauge {
    /// The dip at a volume, between the rows on a straight line; the last row where it holds no more.
    pub fn at(&self, volume: Volume) -> Option<GaugeRow> {
        let next = self.rows.iter().position(|row| row.volume >= volume);
        let Some(next) = next else {
            return self.rows.last().copied();
        };
        let (low, high) = (self.rows[next.saturating_sub(1)], self.rows[next]);
        let rise = high.volume - low.volume;
        let share = match rise > Volume::ZERO {
            true => (volume - low.volume) / rise,
            false => 1.0,
        };
        let dip = low.dip + (high.dip - low.dip) * share;
        Some(GaugeRow { dip, volume })
    }
}

/// A stick standing on the floor along the tank's z, in a tilted tank.
struct Stick<'a> {
    compartment: &'a Compartment,
    foot: Point3,
    up: Vec3,
}

impl Stick<'_> {
    fn surface(&self, dip: f64) -> Plane {
        let wet = self.foot + Vec3::Z * dip;
        Plane {
            normal: self.up,
            offset: self.up.dot(wet.to_vec()),
        }
    }

    fn volume(&self, dip: f64) -> f64 {
        self.compartment.below(&self.surface(dip)).volume
    }

    /// The dip at which the surface passes the highest place of the compartment.
    fn full_dip(&self) -> f64 {
        (self.compartment.heights(self.up).1 - self.up.dot(self.foot.to_vec())) / self.up.z
    }

    /// The dip at which the surface leaves the lowest place of the compartment.
    fn empty_dip(&self) -> f64 {
        (self.compartment.heights(self.up).0 - self.up.dot(self.foot.to_vec())) / self.up.z
    }

    fn row(&self, dip: f64) -> GaugeRow {
        GaugeRow {
            dip: Length::from_m(dip),
            volume: Volume::from_m3(self.volume(dip)),
        }
    }

    fn rows(&self, depth: f64, step: f64) -> Vec<GaugeRow> {
        // A last step of under a twentieth is not worth a row of its own.
        let n = ((depth / step) - 0.05).floor().max(0.0) as usize;
        let mut rows: Vec<_> = (0..=n).map(|i| self.row(i as f64 * step)).collect();
        rows.push(self.row(depth));
        rows
    }

    fn marks(&self, step: f64) -> Vec<GaugeRow> {
        let brim = self.compartment.whole().volume;
        let n = (brim / step).floor() as usize;
        let mark = |i: usize| GaugeRow {
            dip: Length::from_m(self.dip_for(i as f64 * step)),
            volume: Volume::from_m3(i as f64 * step),
        };
        // What lies below the foot of the stick does not wet it.
        (1..=n)
            .map(mark)
            .filter(|row| row.dip > Length::ZERO)
            .collect()
    }

    /// Volume never falls as the dip grows, so halving finds the dip: sixty halvings of a few
    /// metres end below a picometre.
    fn dip_for(&self, volume: f64) -> f64 {
        let (mut low, mut high) = (self.empty_dip(), self.full_dip());
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if self.volume(middle) < volume {
                low = middle;
            } else {
                high = middle;
            }
        }
        (low + high) / 2.0
    }
}

/// Where the stick goes in: under the sender, the fill or the hatch of the compartment, whichever
/// is there first; else the middle of the plan.
fn dip_place(
    job: &Job,
    panels: &[Panel],
    all: &[Compartment],
    compartment: &Compartment,
) -> (DipUnder, Point3) {
    for service in [Service::Sender, Service::Fill, Service::Hatch] {
        // A stick goes straight down only through an opening that looks up.
        let upward = |port: &Port<'_>| port.normal.z > 0.5;
        if let Some(port) = ports(job, panels, all, compartment, service)
            .into_iter()
            .find(upward)
        {
            return (DipUnder::Opening(port.opening.name.clone()), port.centre);
        }
    }
    let whole = compartment.whole();
    (DipUnder::MiddleOfPlan, whole.centroid())
}

/// The lowest and highest point of the compartment on the upright through a place; the whole
/// height where the upright misses it.
fn vertical_reach(compartment: &Compartment, place: Point3) -> (f64, f64) {
    let room = &compartment.room;
    let mut crossings = Vec::new();
    for (index, face) in room.faces.iter().enumerate() {
        let plane = &face.plane;
        // A face along the upright has no crossing of its own.
        if plane.normal.z.abs() < 1e-9 {
            continue;
        }
        let z =
            (plane.offset - plane.normal.x * place.x - plane.normal.y * place.y) / plane.normal.z;
        let frame = room.face_frame(index);
        let outlines = room.face_outlines(index, &frame);
        let flat = frame.flat_from_world(Point3::new(place.x, place.y, z));
        if outlines[0].contains(flat) && !outlines[1..].iter().any(|hole| hole.contains(flat)) {
            crossings.push(z);
        }
    }
    // The upright is inside between every second pair of crossings; the stick stands in the stretch
    // whose top is nearest to where it goes in.
    crossings.sort_by(f64::total_cmp);
    let stretches = crossings.chunks_exact(2).map(|pair| (pair[0], pair[1]));
    let off = |stretch: &(f64, f64)| (stretch.1 - place.z).abs();
    let nearest = stretches
        .filter(|(low, high)| low < high)
        .min_by(|a, b| off(a).total_cmp(&off(b)));
    nearest.unwrap_or_else(|| compartment.heights(Vec3::Z))
}

fn dip_step(units: UnitSystem, depth: f64) -> f64 {
    let steps: &[f64] = match units {
        UnitSystem::Metric => &[0.005, 0.010, 0.020, 0.050, 0.100],
        UnitSystem::Inch => &[0.0254 / 4.0, 0.0254 / 2.0, 0.0254, 0.0508, 0.1016],
    };
    steps
        .iter()
        .copied()
        .find(|step| depth / step <= MOST_ROWS)
        .unwrap_or(depth / MOST_ROWS)
}

fn volume_step(unit: f64, brim: f64) -> f64 {
    let steps = [
        0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0,
    ];
    steps
        .into_iter()
        .map(|step| step * unit)
        .find(|step| brim / step <= MOST_MARKS)
        .unwrap_or(brim / MOST_MARKS)
}
