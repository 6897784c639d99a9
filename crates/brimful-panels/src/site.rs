//! The space as a stage: the room that a job leaves, and the bodies that fit it, each worked out once.
//!
//! A later plan of the same space takes the site of the earlier one over ([`Site::of`]), so that a
//! draft of a job with `[body] fitted` searches for nothing again. Where the space is written counts as
//! part of it, since faults name their line: an edit above it that moves its lines measures it again.

use crate::candidate::{Looked, candidates};
use crate::growth::Growth;
use crate::progress::Progress;
use crate::shape::ShapeFault;
use crate::space::Room;
use brimful_geom::scan::Scanned;
use brimful_job::{Job, Space};
use std::sync::{Arc, OnceLock};

/// What a plan or a fit is worked out from: a job, and what is known beside it.
#[derive(Clone, Debug)]
pub struct Input {
    /// The job, defaults filled in.
    pub job: Job,
    /// What the scan that it names holds; none where it names none.
    pub scan: Option<Arc<Scanned>>,
    /// The site of an earlier plan, which is taken over where it is that of this job.
    pub earlier: Option<Arc<Site>>,
}

impl Input {
    /// A job on the site of an earlier one, which names the same scan if any.
    pub fn on(job: Job, site: Option<Arc<Site>>) -> Self {
        Self {
            job,
            scan: site.as_ref().and_then(|site| site.scan.clone()),
            earlier: site,
        }
    }
}

impl From<Job> for Input {
    fn from(job: Job) -> Self {
        Self {
            job,
            scan: None,
            earlier: None,
        }
    }
}

/// Where a tank goes: the space of a job, measured and made into solids.
#[derive(Clone, Debug)]
pub struct Site {
    /// The space as the job gives it.
    pub space: Space,
    /// What is left of it for a tank.
    pub room: Room,
    /// How a tank grows in it by warmth.
    growth: Growth,
    scan: Option<Arc<Scanned>>,
    bodies: OnceLock<Arc<Looked>>,
}

/// Whether the bodies have been searched for yet makes no other site of it.
impl PartialEq for Site {
    fn eq(&self, other: &Self) -> bool {
        self.space == other.space && self.growth == other.growth && self.scan == other.scan
    }
}

impl Site {
    /// The site of a job; none where the job gives no space.
    ///
    /// # Errors
    /// Measures that close no solid, a scan that has not been read, or nothing left.
    pub fn of(input: &Input) -> Result<Option<Arc<Self>>, ShapeFault> {
        let Input { job, scan, earlier } = input;
        match earlier {
            Some(site) if site.scan == *scan => site.changed(job),
            _ => Self::new(job, scan.clone()),
        }
    }

    /// The site of a job that was changed from one with this site, if it has any.
    ///
    /// # Errors
    /// As [`Site::of`].
    pub fn of_changed(
        before: Option<&Arc<Self>>,
        job: &Job,
    ) -> Result<Option<Arc<Self>>, ShapeFault> {
        match before {
            Some(site) => site.changed(job),
            None => Self::new(job, None),
        }
    }

    /// The site of a changed job, which names the same scan if any: this one, where the change is
    /// none to it.
    ///
    /// # Errors
    /// As [`Site::of`].
    pub fn changed(self: &Arc<Self>, job: &Job) -> Result<Option<Arc<Self>>, ShapeFault> {
        let is_same = job.space.as_ref() == Some(&self.space) && Growth::of(job) == self.growth;
        match is_same {
            true => Ok(Some(Arc::clone(self))),
            false => Self::new(job, self.scan.clone()),
        }
    }

    fn new(job: &Job, scan: Option<Arc<Scanned>>) -> Result<Option<Arc<Self>>, ShapeFault> {
        let Some(space) = &job.space else {
            return Ok(None);
        };
        Ok(Some(Arc::new(Self {
            room: Room::new(space, scan.as_deref())?,
            space: space.clone(),
            growth: Growth::of(job),
            scan,
            bodies: OnceLock::new(),
        })))
    }

    /// The bodies that fit, searched for when first asked; what there is so far, once nobody waits
    /// for them any more.
    pub fn bodies(&self, progress: &dyn Progress) -> Arc<Looked> {
        if let Some(known) = self.bodies.get() {
            return Arc::clone(known);
        }
        let found = Arc::new(candidates(&self.space, &self.room, &self.growth, progress));
        if progress.is_cancelled() {
            return found;
        }
        Arc::clone(self.bodies.get_or_init(|| found))
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;
    use crate::progress::Unwatched;

    const JOB: &str = "[job]\nlengths = \"mm\"\n[space]\nbox = [800, 500, 400]\nclearance = 10\n[liquid]\nkind = \"water\"\n";

    fn job(from: &str, to: &str) -> Job {
        Job::parse(&JOB.replace(from, to)).unwrap()
    }

    #[test]
    fn an_edit_beside_the_space_searches_for_nothing_again() {
        let site = Site::of(&job("", "").into()).unwrap().unwrap();
        let bodies = site.bodies(&Unwatched);
        let input = Input::on(job("\"water\"", "\"milk\""), Some(Arc::clone(&site)));
        let later = Site::of(&input).unwrap().unwrap();
        assert!(Arc::ptr_eq(&site, &later));
        assert!(Arc::ptr_eq(&bodies, &later.bodies(&Unwatched)));
    }

    #[test]
    fn an_edit_of_the_space_or_of_what_grows_in_it_makes_another() {
        let site = Site::of(&job("", "").into()).unwrap().unwrap();
        for (from, to) in [
            ("clearance = 10", "clearance = 20"),
            ("[800, 500, 400]", "[800, 500, 300]"),
            ("\"water\"", "\"water\"\nwarmest = \"40 degC\""),
        ] {
            let changed = job(from, to);
            let later = site.changed(&changed).unwrap().unwrap();
            assert!(!Arc::ptr_eq(&site, &later), "{to}");
            assert_eq!(*later, *Site::of(&changed.into()).unwrap().unwrap());
        }
    }
}
