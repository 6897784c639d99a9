//! Whether rod, nozzle and process go with one another and with the sheet.

use super::laying::section;
use super::seam_weld::SeamWeld;
use crate::finding::kind::WeldKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::panel::Panel;
use crate::seam::Seam;
use crate::table::run::{is_size, length, lengths, most, source, usual_sizes};
use brimful_job::{Extruder, Job, Nozzle, Process, RodStock};
use brimful_units::Length;

/// Number of the rod that is laid: of those that can be, the one with the largest section, which needs the fewest runs
/// (a training text on hot gas asks for the size with the fewest passes, seen); the first of equals, 0 of none.
pub fn chosen(job: &Job) -> usize {
    let rods = &job.stock.rods;
    let can_be = |rod: &RodStock| is_alike(job, rod) && fits(job, rod);
    let any_can = rods.iter().any(can_be);
    let mut best: Option<usize> = None;
    for (number, rod) in rods.iter().enumerate() {
        let is_larger = best.is_none_or(|best| section(rod) > section(&rods[best]));
        if is_larger && (!any_can || can_be(rod)) {
            best = Some(number);
        }
    }
    best.unwrap_or(0)
}

/// Whether it is of the plastic of the sheet: only the same plastic can be welded.
fn is_alike(job: &Job, rod: &RodStock) -> bool {
    let own = rod.material.as_ref();
    own.is_none_or(|material| *material == job.stock.material)
}

/// Whether a nozzle or the extruder takes it.
fn fits(job: &Job, rod: &RodStock) -> bool {
    match (job.shop.process, job.shop.nozzle) {
        (Process::HotGas, Nozzle::Round) => true,
        (Process::HotGas, Nozzle::Speed) => {
            let sizes = nozzle_sizes(job, rod);
            sizes.iter().any(|&nozzle| is_size(rod.diameter, nozzle))
        }
        (Process::Extrusion, _) => {
            let (play, [least, most]) = (length("speed nozzle", "play"), extruder_rod(job));
            (least - play..=most + play).contains(&rod.diameter)
        }
    }
}

/// Sizes of rod that the shop's nozzles take: its own, or the usual ones for the form of the rod.
fn nozzle_sizes(job: &Job, rod: &RodStock) -> Vec<Length> {
    match job.shop.nozzle_sizes.is_empty() {
        true => usual_sizes(rod.form),
        false => job.shop.nozzle_sizes.clone(),
    }
}

fn extruder_rod(job: &Job) -> [Length; 2] {
    let extruder = match job.shop.extruder {
        Extruder::Small => "small extruder",
        Extruder::Medium => "medium extruder",
        Extruder::Large => "large extruder",
    };
    lengths(extruder, "rod")
}

/// What does not go together.
pub(super) fn findings(
    job: &Job,
    panels: &[Panel],
    seams: &[Seam],
    welds: &[SeamWeld],
) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(unlike_rod(job));
    findings.extend(unlike_fittings(job));
    findings.extend(fits_nothing(job));
    findings.extend(one_nominal_size(job));
    findings.extend(thin_for_an_extruder(job, panels));
    findings.extend(many_runs(job, seams, welds));
    findings
}

fn about_rod(grade: Grade, kind: WeldKind) -> Finding {
    Finding::of(grade, Subject::Part(Part::Rod), kind)
}

/// No rod is of the plastic of the sheet.
fn unlike_rod(job: &Job) -> Option<Finding> {
    let rods = &job.stock.rods;
    if rods.iter().any(|rod| is_alike(job, rod)) {
        return None;
    }
    let rod = rods.first()?;
    let kind = WeldKind::UnlikeRod {
        rod: rod.material.clone()?,
        sheet: job.stock.material.clone(),
    };
    Some(about_rod(Grade::Stop, kind).at(&rod.place))
}

/// Fittings that are to be welded into another plastic.
fn unlike_fittings(job: &Job) -> impl Iterator<Item = Finding> {
    job.openings.iter().filter_map(|opening| {
        let own = opening.material.clone();
        let fitting = own.filter(|own| *own != job.stock.material)?;
        let kind = WeldKind::UnlikeFitting {
            fitting,
            sheet: job.stock.material.clone(),
        };
        let subject = Subject::Opening(opening.name.clone());
        Some(Finding::of(Grade::Stop, subject, kind).at(&opening.place))
    })
}

/// No nozzle takes any of the rods, or the extruder takes none. The usual sizes are from memory: of those it is to be
/// looked after and no more.
fn fits_nothing(job: &Job) -> Option<Finding> {
    let rods = &job.stock.rods;
    let rod = rods.first()?;
    if rods.iter().any(|rod| fits(job, rod)) {
        return None;
    }
    let is_own = !job.shop.nozzle_sizes.is_empty();
    let (grade, kind) = match job.shop.process {
        Process::HotGas => (
            if is_own { Grade::Stop } else { Grade::Mend },
            WeldKind::RodFitsNoNozzle {
                rod: rod.diameter,
                nozzles: nozzle_sizes(job, rod),
                is_own,
            },
        ),
        Process::Extrusion => (
            Grade::Mend,
            WeldKind::RodFitsNoExtruder {
                rod: rod.diameter,
                takes: extruder_rod(job),
            },
        ),
    };
    Some(about_rod(grade, kind).at(&rod.place))
}

/// Two rods that are sold as one size: 4 mm and 5/32 in.
fn one_nominal_size(job: &Job) -> Option<Finding> {
    let rods = &job.stock.rods;
    let pairs = rods.iter().enumerate();
    let mut pairs = pairs.flat_map(|(i, a)| rods[i + 1..].iter().map(move |b| (a, b)));
    let is_one = |a: &RodStock, b: &RodStock| {
        let differ = (a.diameter - b.diameter).abs() > Length::ZERO;
        a.form == b.form && differ && is_size(a.diameter, b.diameter)
    };
    let (a, b) = pairs.find(|(a, b)| is_one(a, b))?;
    let kind = WeldKind::OneNominalSize {
        sizes: [a.diameter, b.diameter],
    };
    Some(about_rod(Grade::Note, kind).at(&b.place))
}

/// Sheet that is seldom welded by an extruder.
fn thin_for_an_extruder(job: &Job, panels: &[Panel]) -> Option<Finding> {
    if job.shop.process == Process::HotGas {
        return None;
    }
    let [thin, thick] = lengths("extrusion", "sheet thickness");
    let sheets = panels.iter().map(|panel| panel.thickness);
    let unusual = sheets
        .filter(|sheet| !(thin..=thick).contains(sheet))
        .reduce(Length::min)?;
    let limit = if unusual < thin { thin } else { thick };
    let kind = WeldKind::UnusualForExtruder;
    let finding = Finding::of(Grade::Mend, Subject::Part(Part::Stock), kind);
    let finding = finding.figures(Quantity::Thickness(unusual), Quantity::Thickness(limit));
    Some(finding.table(source("extrusion", "sheet thickness", "mm")))
}

/// Welds of more runs than any published lay-up has.
fn many_runs(job: &Job, seams: &[Seam], welds: &[SeamWeld]) -> Option<Finding> {
    let usual = most("hot gas", "runs of one weld");
    let is_many = |weld: &&SeamWeld| weld.runs as f64 > usual;
    let many = || welds.iter().filter(is_many);
    let runs = many().map(|weld| weld.runs).max()?;
    if job.shop.process == Process::Extrusion {
        return None;
    }
    let mut marks: Vec<String> = many().map(|it| seams[it.seam].mark.clone()).collect();
    marks.dedup();
    let kind = WeldKind::ManyRuns { runs };
    let finding = Finding::of(Grade::Note, Subject::Seams(marks), kind);
    let finding = finding.figures(Quantity::Count(runs), Quantity::Count(usual as usize));
    Some(finding.table(source("hot gas", "runs of one weld", "1")))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn job(rest: &str) -> Job {
        let text = format!(
            "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [600, 400, 300]\n{rest}"
        );
        Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
    }

    fn found(rest: &str) -> Vec<(Grade, WeldKind)> {
        let findings = findings(&job(rest), &[], &[], &[]).into_iter();
        let kinds = findings.map(|it| match it.kind {
            crate::finding::Kind::Weld(kind) => (it.grade, kind),
            other => panic!("{other:?}"),
        });
        kinds.collect()
    }

    #[test]
    fn a_usual_rod_is_not_spoken_of() {
        for rest in [
            "",
            "[[stock.rod]]\ndiameter = \"5/32 in\"\n",
            "[[stock.rod]]\ndiameter = 3\nmaterial = \"HDPE\"\n",
            "[[stock.rod]]\ndiameter = 7\nform = \"triangular\"\n",
            "[shop]\nprocess = \"extrusion\"\n",
            "[shop]\nnozzle = \"round\"\n[[stock.rod]]\ndiameter = 2.5\n",
        ] {
            assert_eq!(found(rest), [], "{rest}");
        }
    }

    #[test]
    fn a_rod_that_no_nozzle_takes_is_found() {
        let nozzles = [3.0, 4.0, 5.0].map(Length::from_mm).to_vec();
        let kind = WeldKind::RodFitsNoNozzle {
            rod: Length::from_mm(6.0),
            nozzles,
            is_own: false,
        };
        assert_eq!(
            found("[[stock.rod]]\ndiameter = 6\n"),
            [(Grade::Mend, kind)]
        );
        let own = found("[shop]\nnozzle_sizes = [3]\n");
        assert!(matches!(
            own[..],
            [(Grade::Stop, WeldKind::RodFitsNoNozzle { is_own: true, .. })]
        ));
        let small = found("[shop]\nprocess = \"extrusion\"\nextruder = \"small\"\n");
        assert!(matches!(
            small[..],
            [(Grade::Mend, WeldKind::RodFitsNoExtruder { .. })]
        ));
    }

    #[test]
    fn the_largest_rod_that_can_be_laid_is_chosen() {
        let rods = "[[stock.rod]]\ndiameter = 3\n[[stock.rod]]\ndiameter = 4\n[[stock.rod]]\ndiameter = 6\n[[stock.rod]]\ndiameter = 5\nmaterial = \"PP\"\n";
        assert_eq!(chosen(&job(rods)), 1);
        assert_eq!(chosen(&job("[[stock.rod]]\ndiameter = 6\n")), 0);
    }

    #[test]
    fn only_the_same_plastic_is_welded() {
        let rod = found("[[stock.rod]]\ndiameter = 4\nmaterial = \"PP\"\n");
        assert!(matches!(
            rod[..],
            [(Grade::Stop, WeldKind::UnlikeRod { .. })]
        ));
        // One of the right plastic is enough.
        let rods = "[[stock.rod]]\ndiameter = 4\nmaterial = \"PP\"\n[[stock.rod]]\ndiameter = 3\n";
        assert_eq!(found(rods), []);
        let opening =
            "[[opening]]\nservice = \"vent\"\npanel = \"lid\"\nat = [100, 100]\ndiameter = 27\n";
        assert_eq!(found(opening), []);
        let fitting = found(&format!("{opening}material = \"PP\"\n"));
        assert!(matches!(
            fitting[..],
            [(Grade::Stop, WeldKind::UnlikeFitting { .. })]
        ));
    }

    /// 5/32 in is 3.97 mm, and sold as 4 mm.
    #[test]
    fn a_size_given_twice_is_asked_about() {
        let rods = "[[stock.rod]]\ndiameter = 4\n[[stock.rod]]\ndiameter = \"5/32 in\"\n";
        let sizes = [4.0, 25.4 * 5.0 / 32.0].map(Length::from_mm);
        let [(Grade::Note, WeldKind::OneNominalSize { sizes: told })] = &found(rods)[..] else {
            panic!("{:?}", found(rods))
        };
        let off = told.iter().zip(sizes).map(|(a, b)| (*a - b).abs().m());
        // Rounding of one conversion.
        assert!(off.fold(0.0, f64::max) < 1e-15);
    }
}
