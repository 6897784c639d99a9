//! What of a tank the room is worked out from.

use crate::body::Body;
use crate::check::quick::Quick;
use crate::check::whole::Whole;
use crate::panel::Panel;
use crate::seam::Seam;
use crate::site::Site;
use crate::weld::SeamWeld;
use brimful_job::Job;

/// What of a tank the room is worked out from.
#[derive(Clone, Copy)]
pub struct Tank<'a> {
    /// The job.
    pub job: &'a Job,
    /// Where it goes; none where the job gives no space.
    pub site: Option<&'a Site>,
    /// The outside.
    pub body: &'a Body,
    /// All panels.
    pub panels: &'a [Panel],
    /// All seams.
    pub seams: &'a [Seam],
    /// What is laid into them.
    pub welds: &'a [SeamWeld],
    /// The quick check.
    pub quick: &'a Quick,
    /// The whole-tank check, if it was run.
    pub whole: Option<&'a Whole>,
}
