//! Welds: what is laid into every seam, with how much rod, in what order and how long it takes.
//!
//! [`groove`] the section by plane geometry; [`rod`] runs, metres and kilograms; [`hours`] a
//! visible sum; [`heat`] melt depth and waits; `reach` from which sides it can be laid; [`work`] the order of work,
//! [`order`] its steps, [`own_order`] the maker's own and [`assembly`] the build step by step; [`cautions`] what can hurt.

pub mod assembly;
pub mod bench;
pub mod cautions;
pub mod groove;
pub mod heat;
pub mod hours;
mod kit;
mod line;
pub mod order;
pub mod own_order;
pub mod pull_strip;
mod reach;
pub mod rod;
mod run;
mod seam_weld;
mod sequence;
mod side;
pub mod work;

pub use reach::ARM_HOLE;
pub use seam_weld::SeamWeld;
pub use side::WeldSide;

use crate::finding::kind::{HatchReach, WeldKind};
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::panel::Panel;
use crate::seam::{Joint, Seam};
use crate::table::Source;
use crate::table::factor::WeldFactor;
use crate::table::material::Material;
use crate::table::welding::{Setting, SettingKind, SettingRange, settings};
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Point3;
use brimful_job::{Job, Process};
use brimful_units::{Area, Density, Length, Mass};
use groove::{Access, Section, Sheets};
use hours::HoursLine;
use reach::Reach;
use rod::RodTotal;
use seam_weld::of_rib;

/// All the welding of a tank.
#[derive(Clone, Debug, PartialEq)]
pub struct Welds {
    /// What is laid from either side, in the order of the seams.
    pub welds: Vec<SeamWeld>,
    /// Rod needed, a line a size of the stock that is used.
    pub rods: Vec<RodTotal>,
    /// Working time, line by line.
    pub hours: Vec<HoursLine>,
    /// Published settings for the material, process and nozzle.
    pub settings: Vec<Setting>,
    /// What is to be said about it.
    pub findings: Vec<Finding>,
}

impl Welds {
    /// Mass of the rod used on each of `seams` seams, overfill and waste included: what stays on
    /// the tank is a little less.
    pub fn rod_mass_by_seam(&self, seams: usize) -> Vec<Mass> {
        let mut masses = vec![Mass::ZERO; seams];
        for weld in &self.welds {
            if let Some(mass) = masses.get_mut(weld.seam) {
                *mass += weld.rod_mass;
            }
        }
        masses
    }
}

/// Places on the insides of the lid's seams that no arm gets to through a hatch.
pub fn out_of_reach(job: &Job, panels: &[Panel], seams: &[Seam]) -> Vec<Point3> {
    let reach = Reach::of(job, panels);
    let places = seams.iter().flat_map(|seam| reach.out_of_reach(seam));
    places.collect()
}

/// Works out all welds.
pub fn welds(job: &Job, panels: &[Panel], seams: &[Seam]) -> Welds {
    let mut findings = Vec::new();
    let material = Material::of(&job.stock.material);
    let density = material.clone().and_then(Material::density);
    if let Err(reason) = &density {
        let kind = WeldKind::RodNotWeighed(reason.clone());
        findings.push(Finding::of(Grade::Stop, Subject::Part(Part::Stock), kind));
    }
    let density = density.map_or(Density::ZERO, |found| found.value);
    let chosen = rod::largest(&job.stock.rods);
    let reach = Reach::of(job, panels);
    let inside: Vec<Option<HatchReach>> = seams.iter().map(|seam| reach.inside(seam)).collect();
    let mut welds = Vec::new();
    for (number, seam) in seams.iter().enumerate() {
        let sheets = sheets(job, panels, seam);
        let access = match inside[number] {
            None | Some(HatchReach::Near) => Access::BothSides,
            Some(_) if reach.has_face_in_reach(seam) => Access::OneFace,
            Some(_) => Access::OutsideOnly,
        };
        match groove::sections(seam, &sheets, access) {
            Ok(sections) => {
                for section in sections {
                    let section = match of_rib(panels, seam) {
                        true => Section {
                            side: WeldSide::Outside,
                            ..section
                        },
                        false => section,
                    };
                    let length = length_of(seam, number, panels, section.side);
                    welds.push(seam_weld(job, number, section, length, chosen, density));
                }
            }
            Err(reason) => findings.push(Finding::of(
                Grade::Stop,
                subject(panels, seam),
                WeldKind::NoGroove(reason),
            )),
        }
    }
    let settings = material.map_or(Vec::new(), |material| {
        settings(material, job.shop.process, job.shop.nozzle)
    });
    let (rods, short) = rod::totals(job, &welds, density);
    findings.extend(short);
    findings.extend(thickness_findings(job, panels, &settings));
    findings.extend(speed_finding(job, &settings));
    let is_welded = |number| welds.iter().any(|weld| weld.seam == number);
    findings.extend(reach::findings(panels, seams, &inside, is_welded));
    let hours = hours::hours(job, panels, seams, &welds);
    Welds {
        welds,
        rods,
        hours,
        settings,
        findings,
    }
}

fn subject(panels: &[Panel], seam: &Seam) -> Subject {
    match seam.panels.map(|number| panels.get(number)) {
        [Some(one), Some(other)] => {
            Subject::Seam(seam.mark.clone(), [one.name.clone(), other.name.clone()])
        }
        _ => Subject::Seams(vec![seam.mark.clone()]),
    }
}

/// Thicknesses and groove data of the two panels of a seam.
fn sheets(job: &Job, panels: &[Panel], seam: &Seam) -> Sheets {
    let thickness = seam
        .panels
        .map(|number| panels.get(number).map_or(0.0, |panel| panel.thickness.m()));
    Sheets {
        thickness,
        gap: seam.gap.m(),
        groove_angle: job.shop.groove_angle.rad(),
    }
}

/// The line that is really welded: of a slotted panel its tongues.
fn length_of(seam: &Seam, number: usize, panels: &[Panel], side: WeldSide) -> Length {
    let inner = panels.get(seam.panels[0]);
    match (seam.joint, inner, seam.outer_line) {
        (Joint::SlotThrough, Some(panel), _) => Length::from_m(tongues(panel, number)),
        (_, _, Some([a, b])) if side == WeldSide::Outside => Length::from_m(a.distance(b)),
        _ => seam.length(),
    }
}

/// Length of a panel's tongues at a seam, all together, metres.
fn tongues(panel: &Panel, seam: usize) -> f64 {
    let mut length = 0.0;
    for (ring, outline) in panel
        .finished
        .loops
        .iter()
        .zip(panel.finished.outlines(PlateFace::Outside))
    {
        let Some(foot) = ring.iter().find(|side| side.mark == Some(seam)) else {
            continue;
        };
        for (side, (a, b)) in ring.iter().zip(outline.sides()) {
            let is_tongue =
                side.mark.is_none() && side.normal == foot.normal && side.outer > foot.outer;
            length += if is_tongue { a.distance(b) } else { 0.0 };
        }
    }
    length
}

fn seam_weld(
    job: &Job,
    seam: usize,
    section: Section,
    length: Length,
    chosen: usize,
    density: Density,
) -> SeamWeld {
    let area = Area::from_m2(section.outline.signed_area().abs());
    let factor = job.shop.rates.rod_factor;
    let runs = |rod: &brimful_job::RodStock| rod::runs(job.shop.process, area, factor, rod);
    let runs_by_rod: Vec<usize> = job.stock.rods.iter().map(runs).collect();
    let rod_area = job.stock.rods.get(chosen).map_or(Area::ZERO, rod::section);
    let rod_length = if rod_area > Area::ZERO {
        length * (area * factor / rod_area)
    } else {
        Length::ZERO
    };
    SeamWeld {
        seam,
        side: section.side,
        kind: section.kind,
        preparation: section.preparation,
        area,
        section: section.outline,
        throat: Length::from_m(section.throat),
        length,
        rod: chosen,
        runs: runs_by_rod.get(chosen).copied().unwrap_or(0),
        runs_by_rod,
        rod_length,
        rod_mass: rod_length * rod_area * density,
    }
}

/// The thinnest and the thickest sheet that the shop's process is known to weld; none where it is known for
/// no such range.
pub fn welded_thickness(job: &Job) -> Option<[Length; 2]> {
    let material = Material::of(&job.stock.material).ok()?;
    let settings = settings(material, job.shop.process, job.shop.nozzle);
    thickness_range(job, &settings).map(|(range, _)| range)
}

fn thickness_range<'a>(job: &Job, settings: &'a [Setting]) -> Option<([Length; 2], &'a Source)> {
    let mut settings = settings
        .iter()
        .filter(|_| job.shop.process == Process::HotGas);
    settings.find_map(|setting| match setting.range {
        SettingRange::Length(range) if setting.quantity == SettingKind::SheetThickness => {
            Some((range, &setting.source))
        }
        _ => None,
    })
}

/// Sheets that the process is not known for.
fn thickness_findings(job: &Job, panels: &[Panel], settings: &[Setting]) -> Vec<Finding> {
    let Some(([low, high], source)) = thickness_range(job, settings) else {
        return Vec::new();
    };
    let by_extruder = Material::of(&job.stock.material)
        .is_ok_and(|material| WeldFactor::of(material, Process::Extrusion).is_ok());
    let of = |panel: &Panel| {
        let (kind, limit) = match panel.thickness {
            thickness if thickness > high => (WeldKind::SheetTooThick { by_extruder }, high),
            thickness if thickness < low => (WeldKind::SheetTooThin, low),
            _ => return None,
        };
        let finding = Finding::of(Grade::Stop, Subject::Panel(panel.name.clone()), kind);
        let figure = Quantity::Thickness(panel.thickness);
        Some(
            finding
                .figures(figure, Quantity::Thickness(limit))
                .table(source.clone()),
        )
    };
    panels.iter().filter_map(of).collect()
}

/// A shop's speed outside the published range.
fn speed_finding(job: &Job, settings: &[Setting]) -> Option<Finding> {
    let (published, source) = settings.iter().find_map(|setting| match setting.range {
        SettingRange::Speed(range) => Some((range, &setting.source)),
        _ => None,
    })?;
    let speed = job.shop.rates.weld_speed;
    let [low, high] = published;
    (speed < low || speed > high).then(|| {
        let kind = WeldKind::SpeedOutside { speed, published };
        Finding::of(Grade::Mend, Subject::Part(Part::WeldingSpeed), kind).table(source.clone())
    })
}

#[cfg(test)]
mod tests;
