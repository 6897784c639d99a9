//! `[[compartment]]`: rooms between dividers that hold a liquid or an amount of their own.

use super::liquid::{Liquid, Wanted, known_density, read_additives, read_kind, read_medium_factor};
use super::place::Place;
use super::reader::Section;
use super::room::read_between;
use brimful_units::Density;

/// A room with a liquid, or an amount wanted, of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct CompartmentSpec {
    /// What the shop calls it.
    pub name: Option<String>,
    /// The names of two panels that bound it, one of them a divider.
    pub between: [String; 2],
    /// What goes in it, where that is not the liquid of the job.
    pub other: Option<OtherLiquid>,
    /// What is in its liquid that may weaken the plastic, where the job says so here.
    pub additives: Option<Vec<String>>,
    /// By what its liquid weakens the sheet, as the sheet's maker says of it.
    pub medium_factor: Option<f64>,
    /// The capacity wanted of it alone.
    pub wanted: Option<Wanted>,
    /// Where it is written.
    pub place: Place,
}

/// A liquid that is not that of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct OtherLiquid {
    /// The kind as the table of liquids calls it; none: only a density was given.
    pub kind: Option<String>,
    /// Its density.
    pub density: Density,
}

impl CompartmentSpec {
    /// Reads one `[[compartment]]`.
    pub(super) fn read(section: &Section<'_>) -> Option<Self> {
        let name = section.optional("name", |field| field.text());
        let between = read_between(section);
        let other = OtherLiquid::read(section);
        let additives = section.optional("additives", read_additives);
        let medium_factor = section.optional("medium_factor", read_medium_factor);
        let wanted = section.optional("wanted", Wanted::read);
        Some(Self {
            name: name?,
            between: between?,
            other: other?,
            additives: additives?,
            medium_factor: medium_factor?,
            wanted: wanted?,
            place: section.place(),
        })
    }

    /// Its liquid, in a tank for `of_job`. What `[liquid]` says of what is in its own, and of what that does to
    /// the sheet, says nothing of another.
    #[must_use]
    pub fn liquid(&self, of_job: &Liquid) -> Liquid {
        let of_job = of_job.clone();
        let own_factor = self.other.is_some() || self.additives.is_some();
        let medium_factor = of_job.medium_factor.filter(|_| !own_factor);
        let (kind, density, additives) = match self.other.clone() {
            Some(OtherLiquid { kind, density }) => (kind, density, Vec::new()),
            None => (of_job.kind, of_job.density, of_job.additives),
        };
        Liquid {
            kind,
            density,
            additives: self.additives.clone().unwrap_or(additives),
            medium_factor: self.medium_factor.or(medium_factor),
            wanted: self.wanted,
            ..of_job
        }
    }
}

impl OtherLiquid {
    fn read(section: &Section<'_>) -> Option<Option<Self>> {
        let kind = section.optional("kind", read_kind);
        let density = section.optional("density", |field| field.quantity_above_zero());
        let (kind, density) = (kind?, density?);
        if kind.is_none() && density.is_none() {
            return Some(None);
        }
        let density = known_density(section, kind.as_deref(), density)?;
        Some(Some(Self { kind, density }))
    }
}

#[cfg(test)]
mod tests {
    use crate::{FaultKind, Job, JobFault, OutOfRange};

    const TANK: &str = "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\nadditives = [\"detergent\"]\nmedium_factor = 1.5\n[body]\nbox = [700, 400, 350]\nthickness = 10\n[[compartment]]\nbetween = [\"wall\", \"front\"]\n";

    fn read(keys: &str) -> Result<Job, Vec<JobFault>> {
        Job::parse(&format!("{TANK}{keys}"))
    }

    #[test]
    fn what_is_left_out_is_that_of_the_job() {
        let job = read("wanted = \"40 L rated\"\n").expect("a job");
        let own = job.compartments[0].liquid(&job.liquid);
        assert_eq!(own.kind, job.liquid.kind);
        assert_eq!(own.additives, job.liquid.additives);
        assert_eq!(own.medium_factor, Some(1.5));
        assert_eq!(own.wanted.map(|it| it.volume.litres().round()), Some(40.0));
        let job = read("medium_factor = 2\n").expect("a job");
        let own = job.compartments[0].liquid(&job.liquid);
        assert_eq!(own.additives, job.liquid.additives);
        assert_eq!(own.medium_factor, Some(2.0));
    }

    /// What the maker of the sheet says of one liquid says nothing of another.
    #[test]
    fn another_liquid_takes_over_no_factor() {
        for (keys, density) in [
            ("kind = \"brine 20 %\"\n", 1148.0),
            ("density = \"1200 kg/m3\"\n", 1200.0),
            ("additives = []\n", 1000.0),
        ] {
            let job = read(keys).expect("a job");
            let own = job.compartments[0].liquid(&job.liquid);
            assert_eq!(own.density.kg_m3(), density);
            assert_eq!((own.additives, own.medium_factor), (vec![], None));
            assert_eq!(own.warmest, job.liquid.warmest);
        }
    }

    #[test]
    fn what_no_liquid_can_be_is_refused_at_its_place() {
        let faults = read("density = \"0 kg/m3\"\n").expect_err("no such liquid");
        assert_eq!(
            faults[0].kind,
            FaultKind::OutOfRange(OutOfRange::NotAboveZero)
        );
        assert_eq!(faults[0].line, 12);
        assert!(read("kind = \"diesel\"\n").is_err());
        assert!(read("kinds = \"water\"\n").is_err());
    }

    #[test]
    fn two_of_one_name_are_refused() {
        let twice =
            "name = \"waste\"\n[[compartment]]\nname = \"waste\"\nbetween = [\"wall\", \"rear\"]\n";
        let faults = read(twice).expect_err("two of a name");
        assert!(matches!(faults[0].kind, FaultKind::NameTwice { .. }));
    }
}
