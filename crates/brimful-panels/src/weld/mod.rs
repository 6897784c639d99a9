//! Welds: what is laid into every seam, with how much rod, in what order and how long it takes.
//!
//! [`groove`] the section by plane geometry; [`rod`] runs, metres and kilograms; [`laying`] speeds; [`heat`] melt depth and
//! waits; `reach` from which sides it can be laid; [`work`] the order of work, [`order`] its steps, [`own_order`] the maker's
//! own and [`assembly`] the build step by step; [`fixture`] what holds it; [`corner`] how runs meet; [`cautions`] what can
//! hurt.

pub mod assembly;
pub mod bench;
pub mod cautions;
pub mod corner;
pub mod fixture;
pub mod groove;
pub mod heat;
mod kit;
mod kit_fit;
pub mod laying;
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

pub use seam_weld::{SeamWeld, ShortRuns};
pub use side::WeldSide;

use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::panel::Panel;
use crate::seam::{Joint, Seam};
use crate::table::Source;
use crate::table::factor::WeldFactor;
use crate::table::material::Material;
use crate::table::run::share;
use crate::table::welding::{Setting, SettingKind, SettingRange, Tool, settings};
use brimful_geom::plate::PlateFace;
use brimful_geom::vector::Point3;
use brimful_job::{Job, Process};
use brimful_units::{Area, Density, Length, Mass};
use corner::{Restart, ShortRun};
use groove::{Section, Sheets};
use laying::{Laying, laying};
use reach::SeamReach;
use rod::RodTotal;
use seam_weld::of_rib;
use work::OrderOfWork;

/// Rounding of a thickness that is the distance of two faces.
const ROUNDING: Length = Length::from_mm(1e-6);

/// All the welding of a tank.
#[derive(Clone, Debug, PartialEq)]
pub struct Welds {
    /// What is laid from either side, in the order of the seams.
    pub welds: Vec<SeamWeld>,
    /// Rod needed, a line a size of the stock that is used.
    pub rods: Vec<RodTotal>,
    /// Published settings for the material, process and nozzle.
    pub settings: Vec<Setting>,
    /// What is to be said about it.
    pub findings: Vec<Finding>,
}

impl Welds {
    /// Mass of the rod that ends up in each of `seams` seams.
    pub fn rod_mass_by_seam(&self, seams: usize) -> Vec<Mass> {
        let mut masses = vec![Mass::ZERO; seams];
        for weld in &self.welds {
            if let Some(mass) = masses.get_mut(weld.seam) {
                *mass += weld.laid_mass();
            }
        }
        masses
    }
}

/// Places on the insides of the lid's seams that hand and gun do not get to once everything stands.
pub fn out_of_reach(job: &Job, panels: &[Panel], seams: &[Seam]) -> Vec<Point3> {
    reach::out_of_reach(job, panels, seams)
}

/// Works out all welds of a draft: reach is looked at behind the lid alone.
pub fn welds(job: &Job, panels: &[Panel], seams: &[Seam]) -> Welds {
    welds_within_reach(job, panels, seams, &reach::draft(job, panels, seams))
}

/// Works out all welds and the order of work: what is out of reach in that order is planned from the other side alone.
pub fn welds_in_order(job: &Job, panels: &[Panel], seams: &[Seam]) -> (Welds, OrderOfWork) {
    let all = vec![SeamReach::default(); seams.len()];
    let from_all_sides = welds_within_reach(job, panels, seams, &all);
    let Some(order) = work::found(job, panels, seams, &from_all_sides.welds) else {
        let draft = welds(job, panels, seams);
        let order = work::not_found(job, panels, seams, &draft.welds);
        return (draft, order);
    };
    let welds = welds_within_reach(job, panels, seams, &order.reach(panels, seams));
    let order = order.of_work(panels, seams, &welds.welds);
    (welds, order)
}

fn welds_within_reach(job: &Job, panels: &[Panel], seams: &[Seam], reach: &[SeamReach]) -> Welds {
    let mut findings = Vec::new();
    let material = Material::of(&job.stock.material);
    let density = material.clone().and_then(Material::density);
    if let Err(reason) = &density {
        let kind = WeldKind::RodNotWeighed(reason.clone());
        findings.push(Finding::of(Grade::Stop, Subject::Part(Part::Stock), kind));
    }
    let density = density.map_or(Density::ZERO, |found| found.value);
    let chosen = kit_fit::chosen(job);
    let mut welds = Vec::new();
    for (number, (seam, reach)) in seams.iter().zip(reach).enumerate() {
        let sheets = sheets(job, panels, seam);
        match groove::sections(seam, &sheets, reach.access(panels, seam)) {
            Ok(sections) => {
                for section in sections {
                    let section = match of_rib(panels, seam) {
                        true => Section {
                            side: WeldSide::Outside,
                            ..section
                        },
                        false => section,
                    };
                    let process = match reach.is_by_hot_gas(section.side) {
                        true => Process::HotGas,
                        false => job.shop.process,
                    };
                    let left_out = match section.side {
                        WeldSide::Inside if seam.joint != Joint::Tee => reach.out_inside(),
                        _ => Vec::new(),
                    };
                    let missing: Length = left_out.iter().map(|[from, to]| *to - *from).sum();
                    let length = length_of(seam, number, panels, section.side) - missing;
                    let weld = seam_weld(job, number, section, process, length, chosen, density);
                    let weld = SeamWeld { left_out, ..weld };
                    welds.push(weld);
                }
            }
            Err(reason) => findings.push(Finding::of(
                Grade::Stop,
                subject(panels, seam),
                WeldKind::NoGroove(reason),
            )),
        }
    }
    let settings = material.map_or(Vec::new(), |material| published(job, material));
    let (rods, short) = rod::totals(job, &welds, density);
    findings.extend(short);
    findings.extend(thickness_findings(job, panels, &settings));
    findings.extend(thick_by_hand(job, panels, seams, &welds, &settings));
    findings.extend(speed_finding(job, &settings));
    findings.extend(kit_fit::findings(job, panels, seams, &welds));
    findings.extend(reach::findings(job, panels, seams, reach, &welds));
    Welds {
        welds,
        rods,
        settings,
        findings,
    }
}

/// Settings of what the long runs are laid with, and of the round nozzle where the short ones through corners are laid with that.
fn published(job: &Job, material: Material) -> Vec<Setting> {
    let long = settings(material, Tool::of(&job.shop));
    let short = match Restart::of(job).short_run {
        ShortRun::RoundNozzle => settings(material, Tool::RoundNozzle),
        ShortRun::SameNozzle | ShortRun::None => Vec::new(),
    };
    [long, short].concat()
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
    process: Process,
    length: Length,
    chosen: usize,
    density: Density,
) -> SeamWeld {
    let area = Area::from_m2(section.outline.signed_area().abs());
    let throat = Length::from_m(section.throat);
    let with =
        |rod: &brimful_job::RodStock| laying(job, process, rod, (area, throat), length, density);
    let by_rod: Vec<Laying> = job.stock.rods.iter().map(with).collect();
    // A job has one rod at least.
    let laid = by_rod[chosen];
    let rod_area = laying::section(&job.stock.rods[chosen]);
    SeamWeld {
        seam,
        side: section.side,
        process,
        kind: section.kind,
        preparation: section.preparation,
        area,
        section: section.outline,
        surface: section.surface,
        throat,
        length,
        left_out: Vec::new(),
        short_runs: None,
        rod: chosen,
        runs: laid.runs,
        runs_by_rod: by_rod.iter().map(|it| it.runs).collect(),
        laid_rod: laid.laid,
        rod_length: laid.rod,
        rod_mass: laid.rod * rod_area * density,
        run_rod: laid.run_rod,
        speed: laid.speed,
        bound: laid.bound,
    }
}

/// The thinnest and the thickest sheet that the shop's process is known to weld; none where it is known for
/// no such range.
pub fn welded_thickness(job: &Job) -> Option<[Length; 2]> {
    let material = Material::of(&job.stock.material).ok()?;
    let settings = settings(material, Tool::of(&job.shop));
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
            thickness if thickness > high + ROUNDING => {
                (WeldKind::SheetTooThick { by_extruder }, high)
            }
            thickness if thickness < low - ROUNDING => (WeldKind::SheetTooThin, low),
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

/// Seams of sheet that the gun beside an extruder is not known to weld: where it lays all of a run for want of reach, and where it
/// lays the short ones through their corners alone.
fn thick_by_hand(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
    settings: &[Setting],
) -> Vec<Finding> {
    let is_beside = job.shop.process == Process::Extrusion;
    let mut by_hand = settings
        .iter()
        .filter(|it| it.tool == Tool::RoundNozzle && is_beside);
    let known = by_hand.find_map(|setting| match setting.range {
        SettingRange::Length([_, most]) if setting.quantity == SettingKind::SheetThickness => {
            Some((most, &setting.source))
        }
        _ => None,
    });
    let Some((most, source)) = known else {
        return Vec::new();
    };
    let over_known = share("beside an extruder", "sheet over the known");
    let thinner = |seam: usize| {
        let [one, other] = seams[seam].panels.map(|it| panels[it].thickness);
        if one < other { one } else { other }
    };
    let of = |all_of_it: bool| {
        let mut thick: Vec<usize> = welds
            .iter()
            .filter(|weld| match all_of_it {
                true => weld.process == Process::HotGas,
                false => weld.process == Process::Extrusion,
            })
            .map(|weld| weld.seam)
            .filter(|&seam| thinner(seam) > most + ROUNDING)
            .collect();
        thick.dedup();
        let thickest = thick.iter().map(|&it| thinner(it)).reduce(Length::max)?;
        // A rib holds no liquid back.
        let is_beyond = |seam: &usize| {
            let is_wet = !of_rib(panels, &seams[*seam]);
            all_of_it && is_wet && thinner(*seam) > most * over_known + ROUNDING
        };
        let grade = match thick.iter().any(is_beyond) {
            true => Grade::Stop,
            false => Grade::Mend,
        };
        let marks = thick.iter().map(|&it| seams[it].mark.clone()).collect();
        let kind = WeldKind::TooThickByHand { all_of_it };
        let finding = Finding::of(grade, Subject::Seams(marks), kind);
        let [figure, limit] = [thickest, most].map(Quantity::Thickness);
        Some(finding.figures(figure, limit).table(source.clone()))
    };
    [true, false].into_iter().filter_map(of).collect()
}

/// A shop's speed outside the published range.
fn speed_finding(job: &Job, settings: &[Setting]) -> Option<Finding> {
    let mut own = settings.iter().filter(|it| it.tool == Tool::of(&job.shop));
    let (published, source) = own.find_map(|setting| match setting.range {
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
