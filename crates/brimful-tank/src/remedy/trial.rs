//! A changed job laid out and run, and what the change adds.

use crate::body::{Body, body};
use crate::capacity::rated_surface;
use crate::case::CaseId;
use crate::check::whole::{Score, Tank, Whole, trial, whole};
use crate::finding::Grade;
use crate::liquid::compartments;
use crate::panel::Panel;
use crate::panels::panels;
use crate::table::material::Material;
use crate::watch::Watch;
use crate::weld::hours::total;
use crate::weld::welds;
use brimful_job::{About, Job};
use brimful_units::{Length, Mass, Time, Volume, show};

/// What a change adds to the tank and to the work; less than nought where it saves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adds {
    /// Weight of sheet.
    pub sheet: Mass,
    /// Length of rod, m of rod as laid.
    pub rod: Length,
    /// Work without sawing.
    pub hours: Time,
    /// What it holds below its air space.
    pub rated: Volume,
    /// In the currency of the quote, where the job gives prices.
    pub money: Option<f64>,
}

/// A change of what it holds below this is rounding of a thicker sheet or another baffle.
const WORTH_SAYING: Volume = Volume::from_litres(0.5);

/// A job laid out as far as strength and cost need it.
pub struct Trial {
    /// Outside and cavity.
    pub body: Body,
    /// All panels.
    pub panels: Vec<Panel>,
    seams: Vec<crate::seam::Seam>,
    compartments: Vec<crate::liquid::Compartment>,
    welds: crate::weld::Welds,
    job: Job,
}

impl Trial {
    pub fn of(job: &Job) -> Result<Self, String> {
        let first = |faults: Vec<crate::shape::ShapeFault>| {
            faults
                .first()
                .map_or("it cannot be laid out".to_owned(), |fault| {
                    format!("{:?}", fault.kind)
                })
        };
        let (body, _) = body(job).map_err(first)?;
        let (laid_out, found) = panels(job, &body).map_err(first)?;
        if let Some(stop) = found.iter().find(|finding| finding.grade == Grade::Stop) {
            return Err(stop.says());
        }
        let compartments = compartments(&body, &laid_out.panels, &laid_out.seams)
            .map_err(|fault| fault.to_string())?;
        let welds = welds(job, &laid_out.panels, &laid_out.seams);
        Ok(Self {
            body,
            panels: laid_out.panels,
            seams: laid_out.seams,
            compartments,
            welds,
            job: job.clone(),
        })
    }

    pub fn score(&self, cases: &[CaseId], watch: &dyn Watch) -> Result<Score, String> {
        trial(&self.tank(watch), &self.welds.welds, cases).map_err(|why| format!("{why:?}"))
    }

    /// What its job says of itself.
    pub fn about(&self) -> &About {
        &self.job.about
    }

    /// The whole-tank check with all its meshes.
    pub fn whole(&self, watch: &dyn Watch) -> Whole {
        whole(&self.tank(watch), &self.welds.welds)
    }

    fn tank<'a>(&'a self, watch: &'a dyn Watch) -> Tank<'a> {
        Tank {
            job: &self.job,
            body: &self.body,
            panels: &self.panels,
            seams: &self.seams,
            compartments: &self.compartments,
            watch,
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
    fn rated(&self) -> Volume {
        let rooms = self.compartments.iter();
        let volume = rooms.map(|room| {
            let surface = rated_surface(&self.job, &[], &self.compartments, room);
            Volume::from_m3(room.below(&surface).volume)
        });
        volume.sum()
    }

    fn rod(&self) -> (Length, Mass) {
        let rods = self.welds.rods.iter();
        rods.fold((Length::ZERO, Mass::ZERO), |(length, mass), rod| {
            (length + rod.length, mass + rod.mass)
        })
    }
}

impl Adds {
    pub(super) fn between(now: &Trial, then: &Trial) -> Self {
        let density = Material::of(&then.job.stock.material)
            .and_then(Material::density)
            .map_or(0.0, |density| density.value.kg_m3());
        let sheet = then.sheet() - now.sheet();
        let ((rod, rod_mass), (rod_now, rod_mass_now)) = (then.rod(), now.rod());
        let hours = total(&then.welds.hours) - total(&now.welds.hours);
        let quote = &then.job.quote;
        let thickness = then.panels.first().map_or(1.0, |panel| panel.thickness.m());
        let money = match (quote.sheet, quote.rod, quote.hour) {
            (Some(by_area), Some(by_mass), Some(by_hour)) => Some(
                by_area * sheet / thickness
                    + by_mass * (rod_mass - rod_mass_now).kg()
                    + by_hour * hours.hours(),
            ),
            _ => None,
        };
        Self {
            sheet: Mass::from_kg(density * sheet),
            rod: rod - rod_now,
            hours,
            rated: then.rated() - now.rated(),
            money,
        }
    }

    /// For ranking: money, or where the job gives no prices kilograms and hours, an hour for two
    /// kilograms of sheet (a judgement, common practice).
    pub(super) fn weight(&self) -> f64 {
        self.money
            .unwrap_or(self.sheet.kg() + 2.0 * self.hours.hours())
    }

    pub(super) fn text(&self, job: &Job) -> String {
        let signed = |text: String, negative: bool| {
            if negative {
                format!("saves {text}")
            } else {
                format!("adds {text}")
            }
        };
        let mass = signed(
            show::mass(Mass::from_kg(self.sheet.kg().abs()), job.about.units),
            self.sheet < Mass::ZERO,
        );
        let money = match (&job.quote.currency, self.money) {
            (Some(currency), Some(money)) => format!(", {} {currency}", show::decimal(money, 2)),
            _ => String::new(),
        };
        let less = match self.rated < -WORTH_SAYING {
            true => format!(
                ", holds {} less",
                show::volume(-self.rated, job.about.units)
            ),
            false => String::new(),
        };
        format!(
            "{mass} of sheet, {} of rod, {} h{money}{less}",
            show::long_length(self.rod, job.about.units),
            show::decimal(self.hours.hours(), 1)
        )
    }
}
