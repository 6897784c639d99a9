//! What a body comes to as a tank, by the stages that take no time: panels, seams, capacity, cut, weld.
//!
//! Every body is laid out bare, without inner panels, ribs and fittings, so that bodies compare;
//! what the outlet reaches is taken with the fittings of the job where they find their panels.

use super::left_out::LeftOut;
use crate::cut::cut;
use crate::hours::{Made, hours};
use crate::mass::{MassStateKind, mass};
use brimful_geom::basin::distance_to_face;
use brimful_geom::solid::Solid;
use brimful_job::{Job, Liquid};
use brimful_panels::body::Body;
use brimful_panels::capacity::capacity;
use brimful_panels::finding::kind::NotOffered;
use brimful_panels::finding::{Finding, Grade, Subject};
use brimful_panels::liquid::compartments;
use brimful_panels::panels::{LaidOut, NotLaidOut, laid_out, panels};
use brimful_panels::shape::WholeFault;
use brimful_panels::table::material::Material;
use brimful_panels::weld::fixture::hold::fixtures;
use brimful_panels::weld::welds;
use brimful_panels::weld::work::draft;
use brimful_strength::load::heaviest;
use brimful_units::{Length, Mass, Time, Volume};

/// What a body comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// To the inside of the lid.
    pub brim: Volume,
    /// Below the air space.
    pub rated: Volume,
    /// What the job's outlet takes; none where its fittings find no place on this body.
    pub usable: Option<Volume>,
    /// Panels to cut.
    pub panels: usize,
    /// Seams to weld.
    pub seams: Length,
    /// Sheets that are begun.
    pub sheets: usize,
    /// Panels that the stock does not yield.
    pub left_out: usize,
    /// Working time.
    pub hours: Time,
    /// The worst reach: with the outer panel off that leaves the nearest way to all other seams,
    /// the longest straight distance from that opening to a point of a seam.
    pub reach: Length,
    /// Empty, bare.
    pub empty: Mass,
    /// Filled to the rated surface.
    pub full: Mass,
    /// The sheet of its walls.
    pub thickness: Length,
}

impl Figures {
    /// Two tanks together.
    pub fn and(self, other: Self) -> Self {
        Self {
            brim: self.brim + other.brim,
            rated: self.rated + other.rated,
            usable: self.usable.zip(other.usable).map(|(a, b)| a + b),
            panels: self.panels + other.panels,
            seams: self.seams + other.seams,
            // Each is cut by itself here; together they may need a sheet fewer.
            sheets: self.sheets + other.sheets,
            left_out: self.left_out + other.left_out,
            hours: self.hours + other.hours,
            reach: self.reach.max(other.reach),
            empty: self.empty + other.empty,
            full: self.full + other.full,
            thickness: self.thickness.max(other.thickness),
        }
    }
}

/// The sheet a fitted body is laid out with: the job's, or the thickest of the stock.
pub fn sheet_of(job: &Job) -> Length {
    let given = job.body.as_ref().and_then(|body| body.thickness);
    given.unwrap_or_else(|| {
        let all = job.stock.sheets.iter().map(|sheet| sheet.thickness);
        all.fold(Length::ZERO, Length::max)
    })
}

/// The job without anything that stands in or on the body.
pub(super) fn bare(job: &Job) -> Job {
    Job {
        body: None,
        inner: Vec::new(),
        ribs: Vec::new(),
        openings: Vec::new(),
        // Without dividers there is one room: as if all of it held the heaviest of the liquids.
        compartments: Vec::new(),
        dry: Vec::new(),
        liquid: Liquid {
            density: heaviest(job),
            ..job.liquid.clone()
        },
        ..job.clone()
    }
}

/// Lays a body out as a tank. What is offered is to be proven too.
///
/// # Errors
/// Why it cannot be built of this sheet.
pub fn figures(job: &Job, solid: &Solid, thickness: Length) -> Result<Figures, LeftOut> {
    let bare = bare(job);
    let body = body_of(solid, thickness)?;
    let laid_out = laid_out(&bare, &body, None).map_err(NotLaidOut::from)?;
    NotLaidOut::stopped(&laid_out.findings)?;
    let whole = NotLaidOut::of_whole;
    let rooms = compartments(&bare, &body, &laid_out.panels, &laid_out.seams)
        .map_err(|fault| whole(WholeFault::NotDivided(fault)))?;
    let (holds, _) = capacity(&bare, &laid_out.panels, &rooms);
    let welded = welds(&bare, &laid_out.panels, &laid_out.seams);
    let (sawn, _) =
        cut(&bare, &laid_out.panels).map_err(|fault| whole(WholeFault::NotLaidOut(fault)))?;
    let density = Material::of(&job.stock.material)
        .and_then(Material::density)
        .map_err(|fault| whole(WholeFault::NotWeighed(fault)))?;
    let rod = welded.rod_mass_by_seam(laid_out.seams.len());
    let weighs = mass(
        &bare,
        &laid_out.panels,
        &laid_out.seams,
        &rod,
        density.value,
        &rooms,
    );
    let (panels, seams) = (&laid_out.panels, &laid_out.seams);
    let order = draft(&bare, panels, seams, &welded.welds);
    let fixtures = fixtures(panels, seams, &welded.welds, &order.steps, None);
    let hours = hours(&Made {
        job: &bare,
        panels,
        seams,
        welds: &welded.welds,
        steps: &order.steps,
        fixtures: &fixtures,
        heat: None,
        cut: &sawn,
        empty: weighs.empty(),
        rooms: &holds.brims(),
    });
    let state = |kind| weighs.state(kind).map_or(Mass::ZERO, |state| state.mass);
    Ok(Figures {
        brim: holds.brim(),
        rated: holds.rated(),
        usable: usable(job, &body),
        panels: laid_out.panels.len(),
        seams: laid_out
            .seams
            .iter()
            .map(brimful_panels::seam::Seam::length)
            .sum(),
        sheets: sawn.sheets(),
        left_out: sawn
            .groups
            .iter()
            .map(|group| group.plan.left_out.len())
            .sum(),
        hours: hours.work(),
        reach: Length::from_m(worst_reach(solid)),
        empty: weighs.empty(),
        full: state(MassStateKind::Rated),
        thickness,
    })
}

/// Proves that the panels make up the body: the slow part, for those bodies that are offered.
///
/// # Errors
/// What does not hold.
pub fn proven(job: &Job, solid: &Solid, thickness: Length) -> Result<(), LeftOut> {
    let body = body_of(solid, thickness)?;
    let (_, found) = panels(&bare(job), &body, None).map_err(NotLaidOut::from)?;
    Ok(NotLaidOut::stopped(&found)?)
}

fn body_of(solid: &Solid, thickness: Length) -> Result<Body, NotOffered> {
    Body::of_solid(solid.clone(), thickness)
        .map_err(|fault| NotOffered::SheetTooThick { thickness, fault })
}

/// What the outlet of the job takes from this body, where the job's fittings find their panels.
fn usable(job: &Job, body: &Body) -> Option<Volume> {
    if job.openings.is_empty() {
        return None;
    }
    let fitted = Job {
        openings: job.openings.clone(),
        ..bare(job)
    };
    let LaidOut {
        panels,
        seams,
        findings,
    } = laid_out(&fitted, body, None).ok()?;
    let misplaced = |finding: &Finding| {
        finding.grade == Grade::Stop
            && job
                .openings
                .iter()
                .any(|opening| finding.subject == Subject::Opening(opening.name.clone()))
    };
    if findings.iter().any(misplaced) {
        return None;
    }
    let rooms = compartments(&fitted, body, &panels, &seams).ok()?;
    capacity(&fitted, &panels, &rooms).0.usable()
}

/// The longest straight distance from the best panel to leave off to a seam that is not on it.
fn worst_reach(solid: &Solid) -> f64 {
    let edges = solid.edges();
    let through = |face: usize| {
        let away = |point: usize| distance_to_face(solid, face, solid.vertices[point]);
        edges
            .iter()
            .filter(|edge| edge.face != face && edge.twin != face)
            .flat_map(|edge| [edge.from, edge.to])
            .map(away)
            .fold(0.0, f64::max)
    };
    (0..solid.faces.len())
        .map(through)
        .fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bare_body_is_full_of_the_heaviest_liquid() {
        let job = Job::parse(
            "[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n[[compartment]]\nbetween = [\"wall\", \"front\"]\ndensity = \"1200 kg/m3\"\n",
        );
        let bare = bare(&job.expect("a job"));
        assert_eq!(bare.liquid.density.kg_m3(), 1200.0);
        assert!(bare.compartments.is_empty());
    }
}
