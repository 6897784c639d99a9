//! A scanned surface made into flats.
//!
//! Whoever reads the file asks [`solid_inside`] once and leaves what it gives in the job; every look
//! at the space after that takes it from there.

use super::measured::Shell;
use super::told::Told;
use crate::finding::{Finding, Grade, Quantity};
use crate::shape::ShapeFault;
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
/// A spread is told from the stated one where it is over it by this: of a few hundred points it is
/// known to a few per cent.
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
        return Err(ShapeFault::new(
            &scan.place,
            format!(
                "The scan `{}` would be {} long with the unit that the job gives.",
                scan.file,
                plain(size)
            ),
            "Is `scan_unit` right? A scan in metres read as millimetres is a thousand times too small, and the other way about.",
        ));
    }
    let surface = Surface { points, triangles };
    inside(&surface, scan.noise.m() / DEVIATIONS).map_err(|fault| {
        ShapeFault::new(
            &scan.place,
            format!("The scan `{}` gives no space: {fault}.", scan.file),
            "Scan the sides that are missing, or measure by outlines or stations; where the scan is rough, state its noise in `scan_noise`.",
        )
    })
}

/// The longest side of the box round points; nought without any.
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

fn plain(metres: f64) -> String {
    match metres < 1.0 {
        true => format!("{:.2} mm", metres * 1e3),
        false => format!("{metres:.0} m"),
    }
}

/// The shell of a scan that has been read.
pub(super) fn shell(scan: &Scan) -> Result<Shell, ShapeFault> {
    let Some(found) = &scan.inside else {
        return Err(ShapeFault::new(
            &scan.place,
            format!("The scan `{}` has not been read.", scan.file),
            "Give the job file to the command, beside the scan.",
        ));
    };
    Ok(Shell {
        solid: found.solid.clone(),
        facing: None,
        kept_within: None,
        told: told(scan, &found.report),
    })
}

/// What a scan shows of itself.
fn told(scan: &Scan, report: &ScanReport) -> Vec<Told> {
    let source = format!("the scan `{}`", scan.file);
    let mut findings = vec![
        Finding::new(
            Grade::Note,
            "space",
            format!(
                "The space is {} flats found in the scan, each moved in until its points lie outside; {:.0} % of the surface is on none.",
                report.planes.len(),
                report.rough.abs() * 100.0
            ),
        )
        .source(&source)
        .cure("Measure two sizes by tape and compare them with the picture of the space."),
    ];
    let mut wrong = Vec::new();
    for (count, one, several) in [
        (report.holes.len(), "hole", "holes"),
        (
            report.flipped,
            "triangle that faced the wrong way",
            "triangles that faced the wrong way",
        ),
        (
            report.non_manifold,
            "edge of more than two triangles",
            "edges of more than two triangles",
        ),
        (
            report.loose,
            "loose piece left out",
            "loose pieces left out",
        ),
    ] {
        match count {
            0 => {}
            1 => wrong.push(format!("1 {one}")),
            _ => wrong.push(format!("{count} {several}")),
        }
    }
    if !wrong.is_empty() {
        findings.push(
            Finding::new(Grade::Mend, "space", format!("The scan has {}. What was not seen is taken as it follows from the flats beside it.", wrong.join(", ")))
                .source(&source)
                .cure("Scan again where it is open, or check by tape that nothing stands there."),
        );
    }
    let doubtful = Volume::from_m3(report.doubtful);
    if doubtful > DOUBTFUL {
        findings.push(
            Finding::new(Grade::Mend, "space", "Of part of the space the scan does not say whether it is inside; it is taken as outside.")
                .figures(Quantity::Volume(doubtful), Quantity::Volume(DOUBTFUL))
                .source(&source)
                .cure("Scan again where it is open."),
        );
    }
    let spread = report
        .planes
        .iter()
        .map(|plane| plane.spread)
        .fold(0.0, f64::max);
    let stated = scan.noise / DEVIATIONS;
    if Length::from_m(spread) > stated * SURELY_MORE {
        findings.push(
            Finding::new(
                Grade::Mend,
                "space",
                "Points of a flat scatter more than the noise that the job states for the scan.",
            )
            .figures(
                Quantity::Length(Length::from_m(spread)),
                Quantity::Length(stated),
            )
            .source(&source)
            .cure("State more noise of the scan, or scan again.")
            .entry("[space] scan_noise"),
        );
    }
    findings.into_iter().map(Told::Plain).collect()
}
