//! What the whole-tank check looks at.

use brimful_job::Job;
use brimful_panels::body::Body;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::Panel;
use brimful_panels::progress::Progress;
use brimful_panels::seam::Seam;

/// A tank that is laid out.
#[derive(Clone, Copy)]
pub struct Tank<'a> {
    /// The job.
    pub job: &'a Job,
    /// Outside and cavity.
    pub body: &'a Body,
    /// All panels.
    pub panels: &'a [Panel],
    /// All seams.
    pub seams: &'a [Seam],
    /// The rooms for liquid.
    pub compartments: &'a [Compartment],
    /// Who waits for the check.
    pub progress: &'a dyn Progress,
}
