//! A scanned surface made into flats.
//!
//! Whoever reads the file asks [`solid_inside`] once and gives what it answers beside the job.

use super::measurement::of_space;
use super::shell::Shell;
use crate::finding::kind::{ScanDefects, SpaceKind};
use crate::finding::{Finding, Grade, Quantity};
use crate::shape::{ScanUnusable, ShapeFault, ShapeFaultKind};
use brimful_geom::scan::{ScanReport, Scanned, Surface, inside};
use brimful_geom::vector::Point3;
use brimful_job::Scan;
use brimful_units::{Length, Volume};

/// A hole that a tank goes into is no smaller and no larger than this, metres; a scan past it was
/// most likely read in the wrong unit.
const ROOMS: [f64; 2] = [0.05, 20.0];
/// Noise is given as the most that a point lies off; two standard deviations of it, so that one point
/// in twenty lies further off.
const DEVIATIONS: f64 = 2.0;
/// A spread counts as more than the stated one where it is over it by this: of a few hundred points
/// it is known to a few per cent.
const SURELY_MORE: f64 = 1.1;
/// Doubtful litres below this are rounding of the cells.
const DOUBTFUL: Volume = Volume::from_litres(0.1);

/// The solid inside a scan's triangles, given in the units of its file.
///
/// # Errors
/// A size that no such hole has, or a surface that no flats enclose.
pub fn solid_inside(
    scan: &Scan,
    points: &[[f64; 3]],
    triangles: Vec<[usize; 3]>,
) -> Result<Scanned, ShapeFault> {
    let unit = scan.unit.m();
    let points: Vec<Point3> = points
        .iter()
        .map(|[x, y, z]| Point3::new(x * unit, y * unit, z * unit))
        .collect();
    let size = longest(&points);
    if !(ROOMS[0]..=ROOMS[1]).contains(&size) {
        return Err(unusable(scan, ScanUnusable::Size(Length::from_m(size))));
    }
    let surface = Surface { points, triangles };
    inside(&surface, scan.noise.m() / DEVIATIONS)
        .map_err(|fault| unusable(scan, ScanUnusable::NoSolid(fault)))
}

fn unusable(scan: &Scan, why: ScanUnusable) -> ShapeFault {
    let kind = ShapeFaultKind::Scan {
        file: scan.file.clone(),
        why,
    };
    ShapeFault::new(&scan.place, kind)
}

/// The longest side of the box round points; zero without any.
fn longest(points: &[Point3]) -> f64 {
    let reach = |along: fn(&Point3) -> f64| {
        let all = points.iter().map(along);
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
        high - low
    };
    [reach(|p| p.x), reach(|p| p.y), reach(|p| p.z)]
        .into_iter()
        .fold(0.0, f64::max)
}

/// The shell of a scan that has been read.
pub(super) fn shell(scan: &Scan, found: Option<&Scanned>) -> Result<Shell, ShapeFault> {
    let Some(found) = found else {
        return Err(unusable(scan, ScanUnusable::NotRead));
    };
    Ok(Shell {
        solid: found.solid.clone(),
        facing: None,
        kept_within: None,
        findings: findings(scan, &found.report),
    })
}

/// What a scan shows of itself.
fn findings(scan: &Scan, report: &ScanReport) -> Vec<Finding> {
    let file = || scan.file.clone();
    let flats = SpaceKind::ScanFlats {
        file: file(),
        flats: report.planes.len(),
        rough: report.rough.abs(),
    };
    let mut findings = vec![of_space(Grade::Note, flats)];
    let defects = ScanDefects {
        holes: report.holes.len(),
        flipped: report.flipped,
        non_manifold: report.non_manifold,
        loose: report.loose,
    };
    if defects != ScanDefects::default() {
        let kind = SpaceKind::ScanDefects {
            file: file(),
            defects,
        };
        findings.push(of_space(Grade::Mend, kind));
    }
    let doubtful = Volume::from_m3(report.doubtful);
    if doubtful > DOUBTFUL {
        let kind = SpaceKind::ScanDoubtful { file: file() };
        findings.push(
            of_space(Grade::Mend, kind)
                .figures(Quantity::Volume(doubtful), Quantity::Volume(DOUBTFUL)),
        );
    }
    let planes = report.planes.iter();
    let spread = Length::from_m(planes.map(|plane| plane.spread).fold(0.0, f64::max));
    let stated = scan.noise / DEVIATIONS;
    if spread > stated * SURELY_MORE {
        let kind = SpaceKind::ScanScatter { file: file() };
        findings.push(
            of_space(Grade::Mend, kind).figures(Quantity::Length(spread), Quantity::Length(stated)),
        );
    }
    findings
}
