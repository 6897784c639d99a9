//! Fittings and hatches: holes in outer panels.

use crate::finding::kind::PanelsKind;
use crate::finding::{Finding, Grade, Quantity, Subject};
use crate::name::{HoleName, PanelName};
use crate::panel::{Panel, PanelOpening, Role};
use crate::seam::Seam;
use crate::shape::{OpeningFault, ShapeFault, ShapeFaultKind};
use brimful_geom::plate::{Cutout, PlateFace};
use brimful_geom::polygon::{Outline, distance_to_segment};
use brimful_geom::predicate::segments_touch;
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
        let covers = if ribs[land.panel] {
            &hole.flat
        } else {
            &hole.cutout
        };
        if clear_of(covers, land.from, land.to) < thicknesses[land.panel] / 2.0 {
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
    let strips = welded_strips(panel, index, seams);
    let finding = flat_finding(opening, &hole, panel, &thicknesses, &strips);
    panel.openings.push(PanelOpening {
        name: HoleName::Opening(opening.name.clone()),
        opening: Some(number),
        centre,
        cutout: panel.finished.cutouts.len(),
    });
    panel.finished.cutouts.push(hole.cutout);
    Ok(finding)
}

/// A hole with the flat that what goes in it covers outside.
struct Hole {
    centre: Point2,
    outline: Outline,
    cutout: Cutout,
    /// The flange where there is one, and no less than the hole; a square round a rectangular one.
    flat: Cutout,
}

impl Hole {
    fn new(opening: &Opening, centre: Point2) -> Self {
        let flange = opening.flange.unwrap_or(Length::ZERO);
        let (cutout, flat) = match opening.size {
            OpeningSize::Round { diameter } => {
                let round = |diameter: Length| Cutout::Round {
                    centre,
                    radius: diameter.m() / 2.0,
                };
                (round(diameter), round(diameter.max(flange)))
            }
            OpeningSize::Rectangle { width, height } => (
                rectangle(centre, width, height),
                rectangle(centre, width.max(flange), height.max(flange)),
            ),
        };
        Self {
            centre,
            outline: cutout.outline(),
            cutout,
            flat,
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

    fn overlaps(&self, other: &Cutout) -> bool {
        let other = other.outline();
        let touches = self
            .outline
            .sides()
            .any(|a| other.sides().any(|b| segments_touch(a, b)));
        touches || other.contains(self.centre) || self.outline.contains(other.centroid())
    }
}

fn rectangle(centre: Point2, width: Length, height: Length) -> Cutout {
    let half = Vec2::new(width.m() / 2.0, height.m() / 2.0);
    let corners = Outline::rectangle(width.m(), height.m()).0;
    let about = corners
        .into_iter()
        .map(|corner| corner + (centre - half).to_vec());
    Cutout::Straight(Outline(about.collect()))
}

/// How far a line is from the edge of an area; zero where it reaches into it.
fn clear_of(area: &Cutout, from: Point2, to: Point2) -> f64 {
    match area {
        Cutout::Round { centre, radius } => {
            (distance_to_segment(*centre, from, to) - radius).max(0.0)
        }
        Cutout::Straight(outline) => {
            let crosses = |side| segments_touch(side, (from, to));
            if outline.contains(from) || outline.sides().any(crosses) {
                return 0.0;
            }
            let ends = outline.distance(from).min(outline.distance(to));
            let corners = outline.0.iter();
            corners
                .map(|&corner| distance_to_segment(corner, from, to))
                .fold(ends, f64::min)
        }
    }
}

/// The strips of a panel in which others stand edge on, each between the two lines of its seam, in the panel's
/// axes: the outline of a lid that runs through goes round the walls, and not round its welds.
fn welded_strips(panel: &Panel, number: usize, seams: &[Seam]) -> Vec<Outline> {
    let own = seams.iter().filter(|seam| seam.panels.contains(&number));
    let place = |point| panel.finished.frame.flat_from_world(point);
    own.filter_map(|seam| {
        let ([a, b], [c, d]) = (seam.inner_line, seam.outer_line?);
        Some(Outline([a, b, d, c].map(place).to_vec()))
    })
    .collect()
}

/// What is less than a limit by so little is at it, metres: rounding of a few sums.
const ROUNDING: f64 = 1e-9;

/// A fitting needs a flat clear of welds: a weld leg of one sheet thickness beside its flange. The hole
/// itself keeps half of that off.
fn flat_finding(
    opening: &Opening,
    hole: &Hole,
    panel: &Panel,
    thicknesses: &[f64],
    strips: &[Outline],
) -> Option<Finding> {
    let outlines = panel.finished.outlines(PlateFace::Inside);
    let clear = |area: &Cutout| {
        if strips.iter().any(|strip| strip.contains(hole.centre)) {
            return 0.0;
        }
        let edges = outlines.iter().chain(strips).flat_map(Outline::sides);
        let to_edges = edges.map(|(a, b)| clear_of(area, a, b));
        let lands = panel.lands.iter();
        let to_lands =
            lands.map(|land| clear_of(area, land.from, land.to) - thicknesses[land.panel] / 2.0);
        to_edges
            .chain(to_lands)
            .fold(f64::INFINITY, f64::min)
            .max(0.0)
    };
    let (of_hole, of_flat) = (clear(&hole.cutout), clear(&hole.flat));
    let leg = panel.thickness.m();
    let on = panel.name.clone();
    let is_less = |clear: f64, needed: f64| needed - clear > ROUNDING;
    let (grade, kind, clear, needed) = match is_less(of_hole, leg / 2.0) {
        true => (
            Grade::Stop,
            PanelsKind::HoleInWeld { panel: on },
            of_hole,
            leg / 2.0,
        ),
        false => (
            Grade::Mend,
            PanelsKind::FlangeNearWeld { panel: on },
            of_flat,
            leg,
        ),
    };
    is_less(clear, needed).then(|| {
        Finding::of(grade, Subject::Opening(opening.name.clone()), kind)
            .figures(
                Quantity::Length(Length::from_m(clear)),
                Quantity::Length(Length::from_m(needed)),
            )
            .at(&opening.place)
    })
}
