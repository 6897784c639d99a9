//! What of a tank the room is worked out from.

use brimful_job::Job;
use brimful_panels::body::Body;
use brimful_panels::finding::Grade;
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::site::Site;
use brimful_panels::weld::SeamWeld;
use brimful_strength::quick::Quick;
use brimful_strength::whole::Whole;

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

impl Tank<'_> {
    /// Whether only the quick check was run.
    pub(super) fn is_draft(&self) -> bool {
        self.whole.is_none()
    }

    /// How much it weighs that nothing is known of the room: a draft leaves it to the whole-tank check.
    pub(super) fn of_unknown(&self) -> Grade {
        match self.is_draft() {
            true => Grade::Mend,
            false => Grade::Stop,
        }
    }
}
