//! The proof of panels, run on every job.
//!
//! Sheets and cavity must make up the body: the volume between body and cavity, less the panels,
//! is found once by subtracting volumes and once by a boolean of the solids. The two agree only
//! if no panel overlaps another, sticks out of the body or reaches into the cavity. The same
//! holds inside for cavity and inner panels. Ribs stand outside: none may reach into the body or
//! into another. Each seam's gap is then measured on the panels themselves.

use super::gap::gap_error;
use crate::body::Body;
use crate::finding::kind::PanelsKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use crate::panel::{Panel, Role};
use crate::seam::Seam;
use brimful_geom::boolean::{common_volume, remaining_volume};
use brimful_geom::plate::{Plate, PlateFace};
use brimful_geom::polygon::distance_to_segment;
use brimful_geom::solid::Solid;
use brimful_geom::vector::Point3;
use brimful_job::Job;
use brimful_units::{Length, Volume};

/// Relative to the body: rounding in volumes of a body of a few metres stays below 1e-12.
const VOLUME_TOLERANCE: f64 = 1e-9;

/// A gap may differ from the one asked for by a micrometre: a hundredth of what a caliper shows.
const GAP_TOLERANCE: f64 = 1e-6;

/// What the proof computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// Volume of the body.
    pub body: Volume,
    /// Volume of the cavity.
    pub cavity: Volume,
    /// Volume of all outer panels, before openings.
    pub outer_panels: Volume,
    /// Volume of all inner panels, before openings.
    pub inner_panels: Volume,
    /// Volume of all ribs.
    pub ribs: Volume,
    /// Volume of gaps and grooves between the outer panels, to be filled by rod.
    pub grooves: Volume,
    /// Body less cavity, panels and grooves; zero but for rounding where the panels are right.
    pub unaccounted: Volume,
    /// The largest difference between a gap and the gap asked for.
    pub worst_gap_error: Length,
    /// Whether everything held.
    pub holds: bool,
}

/// Proves the panels; every failure is a finding that stops the build.
pub fn prove(job: &Job, body: &Body, panels: &[Panel], seams: &[Seam]) -> (Proof, Vec<Finding>) {
    let solids: Vec<Solid> = panels.iter().map(|panel| panel.finished.solid()).collect();
    let mut findings = outline_findings(job, panels, &solids);
    let of = |belongs: fn(Role) -> bool| {
        panels
            .iter()
            .zip(&solids)
            .filter(move |(panel, _)| belongs(panel.role))
            .map(|(_, solid)| solid)
    };
    let volume =
        |belongs: fn(Role) -> bool| of(belongs).map(|solid| solid.moments().volume).sum::<f64>();
    let (outer, inner) = (volume(Role::is_outer), volume(Role::is_inner));
    let ribs = volume(|role| role == Role::Rib);
    let (whole, cavity) = (body.solid.moments().volume, body.cavity.moments().volume);

    let mut taken: Vec<&Solid> = vec![&body.cavity];
    taken.extend(of(Role::is_outer));
    let grooves = remaining_volume(&body.solid, &taken);
    let inner_solids: Vec<&Solid> = of(Role::is_inner).collect();
    let slots = tongue_volume(panels, seams);
    let liquid = remaining_volume(&body.cavity, &inner_solids);
    let all_panels = Subject::Part(Part::Panels);
    let (Ok(grooves), Ok(liquid)) = (grooves, liquid) else {
        findings.push(stop(all_panels, PanelsKind::NotCompared));
        return (Proof::failed(whole, cavity, [outer, inner, ribs]), findings);
    };
    let outer_error = whole - cavity - outer - grooves;
    let inner_error = cavity - (inner - slots) - liquid;
    let unaccounted = if outer_error.abs() > inner_error.abs() {
        outer_error
    } else {
        inner_error
    };
    if unaccounted.abs() > VOLUME_TOLERANCE * whole {
        findings.extend(blame(panels, &solids, body));
        findings.push(stop(all_panels, PanelsKind::NotTheBody).figures(
            Quantity::Volume(Volume::from_m3(unaccounted.abs())),
            Quantity::Volume(Volume::from_m3(VOLUME_TOLERANCE * whole)),
        ));
    }
    findings.extend(rib_findings(panels, &solids, body));
    let gaps: Vec<f64> = (0..seams.len())
        .map(|number| gap_error(panels, seams, number))
        .collect();
    let worst = gaps.iter().copied().fold(0.0, f64::max);
    for (seam, error) in seams
        .iter()
        .zip(&gaps)
        .filter(|(_, error)| **error > GAP_TOLERANCE || error.is_nan())
    {
        let joined = seam.panels.map(|panel| panels[panel].name.clone());
        let subject = Subject::Seam(seam.mark.clone(), joined);
        findings.push(stop(subject, PanelsKind::GapOff).figures(
            Quantity::Length(Length::from_m(*error)),
            Quantity::Length(Length::from_m(GAP_TOLERANCE)),
        ));
    }
    let proof = Proof {
        body: Volume::from_m3(whole),
        cavity: Volume::from_m3(cavity),
        outer_panels: Volume::from_m3(outer),
        inner_panels: Volume::from_m3(inner),
        ribs: Volume::from_m3(ribs),
        grooves: Volume::from_m3(grooves),
        unaccounted: Volume::from_m3(unaccounted),
        worst_gap_error: Length::from_m(worst),
        holds: findings.is_empty(),
    };
    (proof, findings)
}

impl Proof {
    fn failed(body: f64, cavity: f64, [outer, inner, ribs]: [f64; 3]) -> Self {
        Self {
            body: Volume::from_m3(body),
            cavity: Volume::from_m3(cavity),
            outer_panels: Volume::from_m3(outer),
            inner_panels: Volume::from_m3(inner),
            ribs: Volume::from_m3(ribs),
            grooves: Volume::ZERO,
            unaccounted: Volume::from_m3(body),
            worst_gap_error: Length::ZERO,
            holds: false,
        }
    }
}

fn stop(subject: Subject, kind: PanelsKind) -> Finding {
    Finding::of(Grade::Stop, subject, kind)
}

fn stop_of(panel: &Panel, kind: PanelsKind) -> Finding {
    stop(Subject::Panel(panel.name.clone()), kind)
}

/// So much where there should be none.
fn any(finding: Finding, volume: f64) -> Finding {
    finding.figures(
        Quantity::Volume(Volume::from_m3(volume)),
        Quantity::Volume(Volume::ZERO),
    )
}

/// Every panel is a proper solid with simple outlines, and no part of it is narrower than the kerf.
fn outline_findings(job: &Job, panels: &[Panel], solids: &[Solid]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (panel, solid) in panels.iter().zip(solids) {
        let plate = panel.finished.faults().into_iter().next();
        let fault = plate.map(PanelsKind::NotAPlate).or_else(|| {
            let fault = solid.faults().into_iter().next();
            fault.map(PanelsKind::NotASolid)
        });
        findings.extend(fault.map(|fault| stop_of(panel, fault)));
        let width = narrowest(&panel.finished);
        if width < job.shop.kerf.m() {
            findings.push(stop_of(panel, PanelsKind::Sliver).figures(
                Quantity::Length(Length::from_m(width)),
                Quantity::Length(job.shop.kerf),
            ));
        }
    }
    findings
}

/// The narrowest place of a panel: the least distance from a corner to a side that it is not on,
/// over both faces. Across a short unmarked side (a step, a tongue's flank, a nipped corner) the
/// sides on either end of it are near each other by design.
fn narrowest(plate: &Plate) -> f64 {
    let mut least = f64::INFINITY;
    for face in [PlateFace::Outside, PlateFace::Inside] {
        for (ring, outline) in plate.loops.iter().zip(plate.outlines(face)) {
            let n = ring.len();
            for (i, &corner) in outline.0.iter().enumerate() {
                let before = (i + n - 1) % n;
                let beyond_next = (i + 1) % n;
                let beyond_last = (i + n - 2) % n;
                for (j, (a, b)) in outline.sides().enumerate() {
                    let own = j == i || j == before;
                    let across = (j == beyond_next && ring[i].mark.is_none())
                        || (j == beyond_last && ring[before].mark.is_none());
                    if !own && !across {
                        least = least.min(distance_to_segment(corner, a, b));
                    }
                }
            }
        }
    }
    least
}

/// Names the pairs that overlap and the panels that leave the body.
fn blame(panels: &[Panel], solids: &[Solid], body: &Body) -> Vec<Finding> {
    let limit = VOLUME_TOLERANCE * body.solid.moments().volume;
    let of_body: Vec<usize> = (0..panels.len())
        .filter(|&number| panels[number].role != Role::Rib)
        .collect();
    let mut findings = Vec::new();
    for (place, &i) in of_body.iter().enumerate() {
        for &j in &of_body[place + 1..] {
            findings.extend(overlap(panels, solids, [i, j], limit));
        }
        let out = remaining_volume(&solids[i], &[&body.solid]).unwrap_or(f64::INFINITY);
        if out > limit {
            findings.push(any(stop_of(&panels[i], PanelsKind::SticksOut), out));
        }
    }
    findings
}

/// Ribs that reach into the body or into each other.
fn rib_findings(panels: &[Panel], solids: &[Solid], body: &Body) -> Vec<Finding> {
    let limit = VOLUME_TOLERANCE * body.solid.moments().volume;
    let ribs: Vec<usize> = (0..panels.len())
        .filter(|&number| panels[number].role == Role::Rib)
        .collect();
    let mut findings = Vec::new();
    for (place, &i) in ribs.iter().enumerate() {
        for &j in &ribs[place + 1..] {
            if boxes_touch(&solids[i], &solids[j]) {
                findings.extend(overlap(panels, solids, [i, j], limit));
            }
        }
        let within = common_volume(&solids[i], &body.solid).unwrap_or(f64::INFINITY);
        if within > limit {
            findings.push(any(stop_of(&panels[i], PanelsKind::RibInBody), within));
        }
    }
    findings
}

fn overlap(panels: &[Panel], solids: &[Solid], [i, j]: [usize; 2], limit: f64) -> Option<Finding> {
    let common = common_volume(&solids[i], &solids[j]).unwrap_or(f64::INFINITY);
    (common > limit).then(|| {
        let kind = PanelsKind::Overlap {
            other: panels[j].name.clone(),
        };
        any(stop_of(&panels[i], kind), common)
    })
}

fn boxes_touch(a: &Solid, b: &Solid) -> bool {
    let ((a_low, a_high), (b_low, b_high)) = (a.bounds(), b.bounds());
    let apart = |low: Point3, high: Point3| low.x > high.x || low.y > high.y || low.z > high.z;
    !apart(a_low, b_high) && !apart(b_low, a_high)
}

/// What the tongues of slot-through panels take outside the cavity.
fn tongue_volume(panels: &[Panel], seams: &[Seam]) -> f64 {
    let tongues = panels.iter().filter(|panel| panel.role.is_inner());
    tongues
        .map(|panel| super::tongue::tongue_volume(panel, seams))
        .sum()
}
