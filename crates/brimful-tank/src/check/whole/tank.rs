//! What the whole-tank check looks at.

use crate::body::Body;
use crate::liquid::Compartment;
use crate::panel::Panel;
use crate::progress::Progress;
use crate::seam::Seam;
use brimful_job::Job;

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
