//! Heat of the welds: how deep the faces melt, how long the next run waits, and when clamps may come off.
//!
//! Faces melt as a wall does under the hot gas ahead of the nozzle, for as long as the nozzle takes over its own length;
//! an extruder then presses its melt on them. What is least sure is how well the gas heats (film coefficient), so
//! depths are a range. A bead cools as a hot strip right through the sheet would, from its middle outwards and
//! through both faces of the sheet; a bead that lies in part of the thickness only is cold sooner.

use super::seam_weld::SeamWeld;
use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::panel::Panel;
use crate::seam::Seam;
use crate::table::Source;
use crate::table::heat::{Cooling, Heating, Melting, cooling, heating, melting};
use crate::table::material::Material;
use crate::table::welding::{SettingKind, SettingRange, Tool, settings};
use brimful_job::{Job, Process};
use brimful_mech::heat::{Face, Sides, Wall};
use brimful_units::{Length, Speed, Temperature, Time};

/// Of the shop, its sheet and its air.
pub const ROOM: Temperature = Temperature::from_degc(20.0);
/// Of the sheet below a face no more than this takes part in the seconds of heating.
const WARMED: Length = Length::from_mm(2.4);
/// Cells of that: a tenth of the depth that has to melt each.
const CELLS: usize = 80;
/// By then all of that has melted under any nozzle; a speed of next to nothing would warm it for hours.
const MOLTEN_BY: Time = Time::from_s(60.0);
/// Cells over half of a bead, and how many times as far the heat is followed.
const ACROSS: usize = 5;
const FOLLOWED: usize = 40;
/// Thicknesses nearer than this are one.
const SAME_SHEET: Length = Length::from_mm(0.01);
/// How often a cooling bead is looked at, and how long at most.
const LOOKED_AT: Time = Time::from_s(15.0);
const LONGEST: Time = Time::from_hours(6.0);

/// The heat of all welds.
#[derive(Clone, Debug, PartialEq)]
pub struct Heat {
    /// How deep the faces melt: the least, the likely and the greatest.
    pub melted: [Length; 3],
    /// How deep they have to.
    pub asked: Length,
    /// By what.
    pub process: Process,
    /// At which speed of the nozzle.
    pub speed: Speed,
    /// Where even the greatest depth is not enough: a speed at which the likely one is, as far as one of the published
    /// range is slow enough.
    pub slower: Option<Speed>,
    /// How long beads cool, by the thickness of the sheet.
    pub waits: Vec<Wait>,
    /// Where all of it is from.
    pub sources: Vec<Source>,
}

/// How long the beads of one thickness of sheet cool until they are hand-warm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wait {
    /// Of the thinner sheet at the seam.
    pub thickness: Length,
    /// Before the next run; none where a single run fills each groove.
    pub next_run: Option<Time>,
    /// Before clamps come off or the tank is turned.
    pub clamps: Time,
}

impl Heat {
    /// Until all beads of a step are hand-warm, the thickest among them.
    pub fn longest_wait(&self) -> Time {
        let waits = self.waits.iter().map(|wait| wait.clamps);
        waits.fold(Time::ZERO, Time::max)
    }

    /// Until clamps come off the beads of a seam whose thinner sheet is so thick; none where nothing of such sheet is
    /// welded.
    pub fn clamps_off(&self, thickness: Length) -> Option<Time> {
        let mut waits = self.waits.iter();
        let own = waits.find(|wait| is_alike(wait.thickness, thickness));
        own.map(|wait| wait.clamps)
    }

    /// What is to be said of it. What an extruder's shoe does to the faces by pressing and kneading is not in it: of an
    /// extruder it is good to know and no more.
    pub fn finding(&self) -> Option<Finding> {
        let [.., greatest] = self.melted;
        let grade = match self.process {
            Process::HotGas => Grade::Mend,
            Process::Extrusion => Grade::Note,
        };
        (greatest < self.asked).then(|| {
            let kind = WeldKind::MeltsTooLittle {
                speed: self.speed,
                slower: self.slower,
            };
            Finding::of(grade, Subject::Part(Part::WeldingSpeed), kind).figures(
                Quantity::Thickness(greatest),
                Quantity::Thickness(self.asked),
            )
        })
    }
}

/// The heat of all welds; none where there are no welds, or the sheet has no melting point or no published settings.
pub fn heat(job: &Job, panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Option<Heat> {
    let material = Material::of(&job.stock.material).ok()?;
    let melting = melting(material)?;
    let (heating, cooling) = (heating(job.shop.process, job.shop.nozzle), cooling());
    let settings = settings(material, Tool::of(&job.shop));
    let set = |wanted: SettingKind| {
        let mut settings = settings.iter();
        settings.find(|it| it.quantity == wanted)
    };
    let ends = |wanted: SettingKind| match set(wanted)?.range {
        SettingRange::Temperature(ends) => Some(ends.map(Temperature::degc)),
        _ => None,
    };
    let middle = |[low, high]: [f64; 2]| 0.5 * (low + high);
    let (gas, bead, hottest) = match job.shop.process {
        Process::HotGas => {
            let [.., hottest] = heating.bead?.map(Temperature::degc);
            (middle(ends(SettingKind::GasTemperature)?), None, hottest)
        }
        Process::Extrusion => {
            let melt = ends(SettingKind::MeltTemperature)?;
            let gas = middle(ends(SettingKind::PreheatTemperature)?);
            (gas, Some(middle(melt)), melt[1])
        }
    };
    let groove = Groove {
        melting: &melting,
        heating: &heating,
        gas,
        bead,
        warmed: thinnest(panels, seams, welds)?.min(WARMED),
    };
    // What is laid fastest has the least time to melt.
    let speeds = welds.iter().map(|weld| weld.speed);
    let speed = speeds.reduce(Speed::max)?;
    let slowest = match set(SettingKind::Speed)?.range {
        SettingRange::Speed([slowest, _]) => slowest,
        _ => return None,
    };
    let melted = [0, 1, 2].map(|which| groove.melted(which, speed));
    let strip = Strip {
        melting: &melting,
        cooling: &cooling,
        hot: hottest,
    };
    let waits = waits(job, panels, seams, welds, melted[1], &strip);
    (!waits.is_empty()).then(|| Heat {
        melted,
        asked: heating.asked,
        process: job.shop.process,
        speed,
        slower: (melted[2] < heating.asked)
            .then(|| groove.slower(slowest, speed))
            .flatten(),
        waits,
        sources: [&melting.sources, &heating.sources, &cooling.sources]
            .into_iter()
            .flatten()
            .cloned()
            .collect(),
    })
}

/// A face of a groove under the gun.
struct Groove<'a> {
    melting: &'a Melting,
    heating: &'a Heating,
    /// Of the gas, degC.
    gas: f64,
    /// Of the melt that an extruder presses on it, degC.
    bead: Option<f64>,
    /// What takes part of the thinnest sheet.
    warmed: Length,
}

impl Groove<'_> {
    /// How deep it melts at a speed, with the least, likely or greatest of what heats it.
    fn melted(&self, which: usize, speed: Speed) -> Length {
        let material = self.melting.material;
        let gas = Face::Film {
            temperature: self.gas,
            coefficient: self.heating.film[which],
        };
        let mut wall = Wall::new(material, self.warmed.m(), CELLS, |_| ROOM.degc());
        let heated = (self.heating.along[which] / speed).min(MOLTEN_BY);
        wall.advance([gas, Face::Insulated], heated.s());
        Length::from_m(match self.bead {
            None => wall.melted(),
            Some(bead) => self.melted_by(bead, &wall),
        })
    }

    /// How deep a warmed face melts, m, once a bead as thick as what is looked at lies on it.
    fn melted_by(&self, bead: f64, face: &Wall) -> f64 {
        /// Long enough for the melt to come to its deepest: a fraction of the time in which the bead cools.
        const SECONDS: [f64; 6] = [0.5, 0.5, 1.0, 2.0, 4.0, 4.0];
        let warmed = face.temperatures();
        let (thickness, width) = (self.warmed.m(), self.warmed.m() / CELLS as f64);
        let temperature = |x: f64| match x < thickness {
            true => bead,
            false => warmed[(((x - thickness) / width) as usize).min(CELLS - 1)],
        };
        let material = self.melting.material;
        let mut both = Wall::new(material, 2.0 * thickness, 2 * CELLS, temperature);
        let depths = SECONDS.map(|seconds| {
            both.advance([Face::Insulated; 2], seconds);
            both.melted() - thickness
        });
        depths.into_iter().fold(face.melted(), f64::max)
    }

    /// The greatest speed between two at which the likely depth is what is asked for.
    fn slower(&self, slowest: Speed, speed: Speed) -> Option<Speed> {
        /// Halvings: to a hundredth of the range.
        const HALVINGS: usize = 7;
        let is_deep = |speed: Speed| self.melted(1, speed) >= self.heating.asked;
        if !is_deep(slowest) {
            return None;
        }
        let (mut deep, mut shallow) = (slowest, speed);
        for _ in 0..HALVINGS {
            let middle = (deep + shallow) * 0.5;
            match is_deep(middle) {
                true => deep = middle,
                false => shallow = middle,
            }
        }
        Some(deep)
    }
}

/// A hot strip right through a sheet.
struct Strip<'a> {
    melting: &'a Melting,
    cooling: &'a Cooling,
    /// Of the bead as it is laid, degC.
    hot: f64,
}

impl Strip<'_> {
    /// How long the middle of one takes until it is hand-warm.
    fn cools(&self, half_width: Length, sheet: Length) -> Time {
        let bead = half_width.m();
        let thickness = bead * FOLLOWED as f64;
        let sides = Sides {
            temperature: ROOM.degc(),
            per_volume: 2.0 * self.cooling.still_air / sheet.m(),
        };
        let temperature = |x: f64| if x < bead { self.hot } else { ROOM.degc() };
        let cells = ACROSS * FOLLOWED;
        let mut strip =
            Wall::new(self.melting.material, thickness, cells, temperature).between(sides);
        let mut passed = Time::ZERO;
        let is_warm = |strip: &Wall| {
            let middle = Temperature::from_degc(strip.surface(Face::Insulated));
            middle > self.cooling.hand_warm
        };
        while is_warm(&strip) && passed < LONGEST {
            strip.advance([Face::Insulated; 2], LOOKED_AT.s());
            passed += LOOKED_AT;
        }
        passed
    }
}

/// Whether two sheets are of one thickness, whichever way each came to it.
fn is_alike(a: Length, b: Length) -> bool {
    (a - b).abs() < SAME_SHEET
}

/// The thickness of the thinner sheet at a seam.
pub(super) fn thinner(panels: &[Panel], seam: &Seam) -> Length {
    let both = seam.panels.map(|it| panels[it].thickness);
    both[0].min(both[1])
}

/// The thinnest sheet that is welded; none where none is.
fn thinnest(panels: &[Panel], seams: &[Seam], welds: &[SeamWeld]) -> Option<Length> {
    let sheets = welds.iter().map(|weld| thinner(panels, &seams[weld.seam]));
    sheets.reduce(Length::min)
}

/// The longest waits of each thickness, thinnest first.
fn waits(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    rim: Length,
    strip: &Strip<'_>,
) -> Vec<Wait> {
    let thickness = |weld: &SeamWeld| thinner(panels, &seams[weld.seam]);
    let mut all: Vec<Length> = welds.iter().map(thickness).collect();
    all.sort_by(Length::total_cmp);
    all.dedup_by(|a, b| is_alike(*a, *b));
    let wait = |sheet: Length| {
        let own = welds.iter().filter(|weld| is_alike(thickness(weld), sheet));
        let widest = |half_width: &dyn Fn(&SeamWeld) -> Length| {
            let widths = own.clone().map(half_width);
            widths.fold(Length::ZERO, Length::max) + rim
        };
        // A rod lies in a groove as it is; all runs fill the groove's mean width.
        let rod = |weld: &SeamWeld| match job.stock.rods.get(weld.rod) {
            Some(rod) if job.shop.process == Process::HotGas => rod.diameter * 0.5,
            _ => Length::ZERO,
        };
        let groove = |weld: &SeamWeld| match weld.throat > Length::ZERO {
            true => rod(weld).max(Length::from_m(0.5 * weld.area.m2() / weld.throat.m())),
            false => rod(weld),
        };
        let is_in_runs = own.clone().any(|weld| weld.runs > 1);
        Wait {
            thickness: sheet,
            next_run: is_in_runs.then(|| strip.cools(widest(&rod), sheet)),
            clamps: strip.cools(widest(&groove), sheet),
        }
    };
    all.into_iter().map(wait).collect()
}
