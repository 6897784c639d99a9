//! Fittings and hatches: holes in outer panels.

use crate::finding::kind::PanelsKind;
use crate::finding::{Finding, Grade, Quantity, Subject};
use crate::name::{HoleName, PanelName};
use crate::panel::{Panel, PanelOpening, Role};
use crate::seam::Seam;
use crate::shape::{OpeningFault, ShapeFault, ShapeFaultKind};
use brimful_geom::plate::{Cutout, PlateFace};
use brimful_geom::polygon::{Outline, distance_to_segment};
use brimful_geom::vector::{Point2, Vec2};
use brimful_job::{Job, Opening, OpeningSize};
use brimful_units::Length;

/// Cuts the openings of the job into their panels.
///
/// # Errors
/// Every opening that names no panel, lies off its panel, across a seam or over another hole.
pub fn add_openings(
    job: &Job,
    panels: &mut [Panel],
    seams: &[Seam],
) -> Result<Vec<Finding>, Vec<ShapeFault>> {
    let mut faults = Vec::new();
    let mut findings = Vec::new();
    for (number, opening) in job.openings.iter().enumerate() {
        match add_opening(number, opening, panels, seams) {
            Ok(found) => findings.extend(found),
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() {
        Ok(findings)
    } else {
        Err(faults)
    }
}

fn add_opening(
    number: usize,
    opening: &Opening,
    panels: &mut [Panel],
    seams: &[Seam],
) -> Result<Option<Finding>, ShapeFault> {
    let fault = |why: OpeningFault| {
        let kind = ShapeFaultKind::Opening {
            opening: opening.name.clone(),
            why,
        };
        ShapeFault::new(&opening.place, kind)
    };
    let names: Vec<PanelName> = panels.iter().map(|panel| panel.name.clone()).collect();
    let index = names.iter().position(|name| *name == *opening.panel);
    let Some(index) = index else {
        return Err(fault(OpeningFault::NoSuchPanel {
            panel: opening.panel.clone(),
            panels: names,
        }));
    };
    if panels[index].role.is_inner() {
        return Err(fault(OpeningFault::InInnerPanel(names[index].clone())));
    }
    if panels[index].role == Role::Rib {
        return Err(fault(OpeningFault::InRib(names[index].clone())));
    }
    let thicknesses: Vec<f64> = panels.iter().map(|panel| panel.thickness.m()).collect();
    let ribs: Vec<bool> = panels.iter().map(|panel| panel.role == Role::Rib).collect();
    let panel = &mut panels[index];
    let (low, _) = panel.finished.bounds();
    let centre = low + Vec2::new(opening.at[0].m(), opening.at[1].m());
    let hole = Hole::new(opening, centre);
    if !hole.inside(panel, 0.0) {
        return Err(fault(OpeningFault::OffPanel(panel.name.clone())));
    }
    for land in &panel.lands {
        // A rib stands where the flange lies, on the outside.
        let reach = if ribs[land.panel] {
            flange_radius(opening, &hole)
        } else {
            hole.radius
        };
        if hole.distance(land.from, land.to) < reach + thicknesses[land.panel] / 2.0 {
            return Err(fault(OpeningFault::AcrossSeam {
                seam: seams[land.seam].mark.clone(),
                standing: names[land.panel].clone(),
                on: panel.name.clone(),
            }));
        }
    }
    if let Some(other) = panel
        .openings
        .iter()
        .find(|other| hole.overlaps(&panel.finished.cutouts[other.cutout]))
    {
        return Err(fault(OpeningFault::IntoHole(other.name.clone())));
    }
    let finding = flat_finding(opening, &hole, panel, &thicknesses);
    panel.openings.push(PanelOpening {
        name: HoleName::Opening(opening.name.clone()),
        opening: Some(number),
        centre,
        cutout: panel.finished.cutouts.len(),
    });
    panel.finished.cutouts.push(hole.cutout);
    Ok(finding)
}

/// A hole with the circle that covers it.
struct Hole {
    centre: Point2,
    radius: f64,
    outline: Outline,
    cutout: Cutout,
}

impl Hole {
    fn new(opening: &Opening, centre: Point2) -> Self {
        match opening.size {
            OpeningSize::Round { diameter } => {
                let radius = diameter.m() / 2.0;
                let cutout = Cutout::Round { centre, radius };
                Self {
                    centre,
                    radius,
                    outline: cutout.outline(),
                    cutout,
                }
            }
            OpeningSize::Rectangle { width, height } => {
                let (a, b) = (width.m() / 2.0, height.m() / 2.0);
                let corner = |x: f64, y: f64| centre + Vec2::new(x, y);
                let outline = Outline(vec![
                    corner(-a, -b),
                    corner(a, -b),
                    corner(a, b),
                    corner(-a, b),
                ]);
                Self {
                    centre,
                    radius: a.hypot(b),
                    outline: outline.clone(),
                    cutout: Cutout::Straight(outline),
                }
            }
        }
    }

    /// Whether the hole and `margin` round it lie inside both faces of a panel.
    fn inside(&self, panel: &Panel, margin: f64) -> bool {
        [PlateFace::Outside, PlateFace::Inside]
            .into_iter()
            .all(|face| {
                let outlines = panel.finished.outlines(face);
                let within = |p: &Point2| {
                    outlines[0].contains(*p)
                        && outlines[1..].iter().all(|hole| !hole.contains(*p))
                        && outlines.iter().all(|outline| outline.distance(*p) > margin)
                };
                self.outline.0.iter().all(within)
            })
    }

    fn distance(&self, from: Point2, to: Point2) -> f64 {
        distance_to_segment(self.centre, from, to)
    }

    fn overlaps(&self, other: &Cutout) -> bool {
        let other = other.outline();
        let touches = self.outline.sides().any(|a| {
            other
                .sides()
                .any(|b| brimful_geom::predicate::segments_touch(a, b))
        });
        touches || other.contains(self.centre) || self.outline.contains(other.centroid())
    }
}

/// The radius of what covers a hole outside: the flange where there is one.
fn flange_radius(opening: &Opening, hole: &Hole) -> f64 {
    let flange = opening.flange.map(|flange| flange.m() / 2.0);
    flange.map_or(hole.radius, |flange| flange.max(hole.radius))
}

/// A fitting needs a flat clear of welds: its flange and a weld leg of one sheet thickness.
fn flat_finding(
    opening: &Opening,
    hole: &Hole,
    panel: &Panel,
    thicknesses: &[f64],
) -> Option<Finding> {
    let needed = flange_radius(opening, hole) + panel.thickness.m();
    let outlines = panel.finished.outlines(PlateFace::Inside);
    let to_edge = outlines
        .iter()
        .map(|outline| outline.distance(hole.centre))
        .fold(f64::INFINITY, f64::min);
    let to_land = panel
        .lands
        .iter()
        .map(|land| hole.distance(land.from, land.to) - thicknesses[land.panel] / 2.0);
    let clear = to_land.fold(to_edge, f64::min);
    let in_weld = clear < hole.radius + panel.thickness.m() / 2.0;
    let on = panel.name.clone();
    let (grade, kind) = match in_weld {
        true => (Grade::Stop, PanelsKind::HoleInWeld { panel: on }),
        false => (Grade::Mend, PanelsKind::FlangeNearWeld { panel: on }),
    };
    (clear < needed).then(|| {
        Finding::of(grade, Subject::Opening(opening.name.clone()), kind)
            .figures(
                Quantity::Length(Length::from_m(clear)),
                Quantity::Length(Length::from_m(needed)),
            )
            .at(&opening.place)
    })
}
