//! From the body to its panels and seams.
//!
//! [`joint`] decides at every edge who runs through and where each panel's side lies; `outer`
//! lays out the sheet of every face; `inner` the baffles, dividers and stays; `rib` the bands round
//! the outside; `opening` puts in the holes; `chock` finds the walls that chocks stand against; `butt` parts what is larger than a sheet; [`proof`]
//! shows that the panels are the body: nothing overlaps, nothing sticks out, every gap is the gap
//! asked for.

mod butt;
mod chock;
mod foot;
mod gap;
mod inner;
pub mod joint;
mod nip;
mod not_laid_out;
mod opening;
mod outer;
pub mod proof;
mod rib;
mod tongue;

pub use chock::chocked_faces;
pub use inner::placed_by_rule;
pub use not_laid_out::NotLaidOut;
pub use proof::Proof;

use crate::body::Body;
use crate::finding::Finding;
use crate::panel::Panel;
use crate::seam::Seam;
use crate::shape::ShapeFault;
use crate::space::Room;
use brimful_job::Job;

/// All panels and seams of a tank.
#[derive(Clone, Debug, PartialEq)]
pub struct Panels {
    /// Outer panels in the order of the body's faces, then inner ones and ribs in the order of the
    /// job, then the upper pieces of those that were parted.
    pub panels: Vec<Panel>,
    /// Every line where two of them meet.
    pub seams: Vec<Seam>,
    /// What the proof of panels computed.
    pub proof: Proof,
}

/// Panels that lie where they are to lie, before anything is proven of them.
pub struct LaidOut {
    /// As [`Panels::panels`].
    pub panels: Vec<Panel>,
    /// Every line where two of them meet.
    pub seams: Vec<Seam>,
    /// What laying them out says.
    pub findings: Vec<Finding>,
}

/// Lays out the panels of a body and proves them; ribs must stay in the room where there is one.
///
/// # Errors
/// Every opening, inner panel, rib or joint of the job that cannot be made, with its place.
pub fn panels(
    job: &Job,
    body: &Body,
    room: Option<&Room>,
) -> Result<(Panels, Vec<Finding>), Vec<ShapeFault>> {
    let LaidOut {
        panels,
        seams,
        mut findings,
    } = laid_out(job, body, room)?;
    let (proof, found) = proof::prove(job, body, &panels, &seams);
    findings.extend(found);
    Ok((
        Panels {
            panels,
            seams,
            proof,
        },
        findings,
    ))
}

/// Lays out the panels of a body.
///
/// # Errors
/// As [`panels`].
pub fn laid_out(job: &Job, body: &Body, room: Option<&Room>) -> Result<LaidOut, Vec<ShapeFault>> {
    let (mut panels, mut seams) = outer::outer_panels(job, body)?;
    inner::add_inner_panels(job, body, &mut panels, &mut seams)?;
    rib::add_ribs(job, body, &mut panels, &mut seams)?;
    chocked_faces(job, body)?;
    for panel in &mut panels {
        panel.reliefs = outer::reliefs(&panel.finished, job.shop.relief_radius);
    }
    let mut findings = opening::add_openings(job, &mut panels, &seams)?;
    chock::clear_chocks(job, body, &panels, &seams)?;
    butt::part_large_panels(job, &mut panels, &mut seams)?;
    for panel in &mut panels {
        panel.cut = cut_size(job, panel);
    }
    findings.extend(inner::placement_findings(job, body));
    findings.extend(room.map_or_else(Vec::new, |room| rib::room_findings(room, &panels)));
    Ok(LaidOut {
        panels,
        seams,
        findings,
    })
}

/// The panel as it leaves the saw: welded sides keep the edge allowance for scraping and weld
/// shrinkage.
fn cut_size(job: &Job, panel: &Panel) -> brimful_geom::plate::Plate {
    let allowance = job.shop.edge_allowance.m();
    panel
        .finished
        .with_sides_moved(|side| if side.mark.is_some() { allowance } else { 0.0 })
}
