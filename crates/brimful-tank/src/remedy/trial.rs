//! A changed job laid out and run, and what the change adds.

use super::effort::Effort;
use crate::cut::cut;
use crate::hours::{Made, hours};
use crate::mass::mass;
use brimful_geom::vector::Point3;
use brimful_job::{Capacity, Job};
use brimful_panels::body::{Body, body};
use brimful_panels::capacity::rated_surface;
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::{Adds, NoScore};
use brimful_panels::liquid::compartments;
use brimful_panels::panel::Panel;
use brimful_panels::panels::{NotLaidOut, panels};
use brimful_panels::progress::Progress;
use brimful_panels::shape::WholeFault;
use brimful_panels::site::Site;
use brimful_panels::table::material::Material;
use brimful_panels::weld::corner::{Restart, corners, mark_short_runs};
use brimful_panels::weld::fixture::hold::fixtures;
use brimful_panels::weld::order::Step;
use brimful_panels::weld::work::draft;
use brimful_panels::weld::{out_of_reach, welds};
use brimful_strength::whole::{Score, Tank, Whole, trial, whole};
use brimful_units::{Density, Time, Volume};
use std::sync::{Arc, OnceLock};

/// Why a changed job has no score.
#[derive(Clone, Debug, PartialEq)]
pub enum NoTrial {
    /// It cannot be laid out.
    NotLaidOut(NotLaidOut),
    /// It cannot be run.
    NoScore(NoScore),
}

impl From<NotLaidOut> for NoTrial {
    fn from(why: NotLaidOut) -> Self {
        Self::NotLaidOut(why)
    }
}

/// A job laid out as far as strength and cost need it.
pub struct Trial {
    /// Outside and cavity.
    pub body: Body,
    /// All panels.
    pub panels: Vec<Panel>,
    seams: Vec<brimful_panels::seam::Seam>,
    compartments: Vec<brimful_panels::liquid::Compartment>,
    welds: brimful_panels::weld::Welds,
    /// In the order of a draft.
    steps: Vec<Step>,
    job: Job,
    /// Where it goes; none where the job gives no space.
    pub site: Option<Arc<Site>>,
    /// As [`Trial::work`] has worked out.
    work: OnceLock<Time>,
}

impl Trial {
    /// Of a job on the site of the one that it was changed from.
    pub fn of(job: &Job, site: Option<&Arc<Site>>) -> Result<Self, NotLaidOut> {
        let site = Site::of_changed(site, job).map_err(|fault| vec![fault])?;
        let (body, _) = body(job, site.as_deref())?;
        let room = site.as_ref().map(|site| &site.room);
        let (laid_out, found) = panels(job, &body, room)?;
        NotLaidOut::stopped(&found)?;
        let compartments = compartments(job, &body, &laid_out.panels, &laid_out.seams)
            .map_err(|fault| NotLaidOut::of_whole(WholeFault::NotDivided(fault)))?;
        let mut welds = welds(job, &laid_out.panels, &laid_out.seams);
        let (panels, seams) = (&laid_out.panels, &laid_out.seams);
        let steps = draft(job, panels, seams, &welds.welds).steps;
        let restart = Restart::of(job);
        let corners = corners(panels, seams, &welds.welds, &steps, &restart);
        mark_short_runs(job, &mut welds.welds, &corners, seams, &restart);
        Ok(Self {
            steps,
            body,
            panels: laid_out.panels,
            seams: laid_out.seams,
            compartments,
            welds,
            job: job.clone(),
            site,
            work: OnceLock::new(),
        })
    }

    /// The panels that a seam joins.
    pub fn panels_of(&self, mark: &str) -> Option<[&Panel; 2]> {
        let seam = self.seams.iter().find(|seam| seam.mark == mark)?;
        Some(seam.panels.map(|number| &self.panels[number]))
    }

    /// Places on the insides of the lid's seams that no arm gets to through a hatch.
    pub fn out_of_reach(&self) -> Vec<Point3> {
        out_of_reach(&self.job, &self.panels, &self.seams)
    }

    pub fn score(&self, cases: &[CaseId], progress: &dyn Progress) -> Result<Score, NoScore> {
        trial(&self.tank(progress), &self.welds.welds, cases)
    }

    /// The whole-tank check with all its meshes.
    pub fn whole(&self, progress: &dyn Progress) -> Whole {
        whole(&self.tank(progress), &self.welds.welds)
    }

    fn tank<'a>(&'a self, progress: &'a dyn Progress) -> Tank<'a> {
        Tank {
            job: &self.job,
            body: &self.body,
            panels: &self.panels,
            seams: &self.seams,
            compartments: &self.compartments,
            progress,
        }
    }

    /// Sheet in the tank, m2 by m, so m3.
    fn sheet(&self) -> f64 {
        let plates = self.panels.iter();
        plates
            .map(|panel| panel.finished.solid_with_cutouts().moments().volume)
            .sum()
    }

    /// What it holds below its air space, overflows left out: a change may do without them.
    pub fn rated(&self) -> Volume {
        let rooms = self.compartments.iter().filter(|room| room.holds_liquid());
        let volume = rooms.map(|room| {
            let surface = rated_surface(&self.job, &[], &self.compartments, room);
            Volume::from_m3(room.below(&surface).volume)
        });
        volume.sum()
    }

    fn brims(&self) -> Vec<Volume> {
        let rooms = self.compartments.iter().filter(|room| room.holds_liquid());
        let brims = rooms.map(|room| Volume::from_m3(room.whole().volume));
        brims.collect()
    }

    fn brim(&self) -> Volume {
        self.brims().into_iter().sum()
    }

    /// Working time; none of it where its sheets cannot be laid out.
    fn work(&self) -> Time {
        let worked_out = || {
            let (cut, _) = cut(&self.job, &self.panels).ok()?;
            let rod = self.welds.rod_mass_by_seam(self.seams.len());
            let density = self.density();
            let (panels, seams) = (&self.panels, &self.seams);
            let weighs = mass(&self.job, panels, seams, &rod, density, &self.compartments);
            let welds = &self.welds.welds;
            let fixtures = fixtures(panels, seams, welds, &self.steps, None);
            let hours = hours(&Made {
                job: &self.job,
                panels,
                seams,
                welds,
                steps: &self.steps,
                fixtures: &fixtures,
                heat: None,
                cut: &cut,
                empty: weighs.empty(),
                rooms: &self.brims(),
            });
            Some(hours.work())
        };
        *self.work.get_or_init(|| worked_out().unwrap_or(Time::ZERO))
    }

    fn density(&self) -> Density {
        Material::of(&self.job.stock.material)
            .and_then(Material::density)
            .map_or(Density::ZERO, |density| density.value)
    }

    /// Whether it holds what is wanted, as far as that can be said without its outlets: no more is
    /// usable than lies below the air space.
    pub fn holds_wanted(&self) -> bool {
        self.job.liquid.wanted.is_none_or(|wanted| {
            let most = match wanted.of {
                Capacity::Brim => self.brim(),
                Capacity::Rated | Capacity::Usable => self.rated(),
            };
            most >= wanted.volume
        })
    }

    /// Whether the stock has a sheet of every thickness that it is made of.
    pub fn has_its_sheets(&self) -> bool {
        let stock = &self.job.stock.sheets;
        let has = |panel: &Panel| stock.iter().any(|sheet| sheet.thickness == panel.thickness);
        self.panels.iter().all(has)
    }

    fn effort(&self) -> Effort {
        Effort::of(&self.welds.rods, self.work())
    }

    /// What it adds to the tank that it was changed from, both in the order of a draft.
    pub fn adds_to(&self, now: &Self) -> Adds {
        self.adds_with(now, [now.effort(), self.effort()])
    }

    /// What it adds to the tank that it was changed from, where the two take so much to make.
    pub fn adds_with(&self, now: &Self, [before, after]: [Effort; 2]) -> Adds {
        let then = self;
        let sheet = then.sheet() - now.sheet();
        let hours = after.work - before.work;
        let quote = &then.job.quote;
        let thickness = then.panels.first().map_or(1.0, |panel| panel.thickness.m());
        let money = match (quote.sheet, quote.rod, quote.hour) {
            (Some(by_area), Some(by_mass), Some(by_hour)) => Some(
                by_area * sheet / thickness
                    + by_mass * (after.rod_mass - before.rod_mass).kg()
                    + by_hour * hours.hours(),
            ),
            _ => None,
        };
        Adds {
            sheet: then.density() * Volume::from_m3(sheet),
            rod: after.rod - before.rod,
            hours,
            rated: then.rated() - now.rated(),
            money,
        }
    }
}
