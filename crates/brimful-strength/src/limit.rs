//! Stiffness and allowable stress for a load case, every factor with its source.
//!
//! Allowable stress = strength x weld factor x repeat factor / (A1 x A2 x safety factor), the form of
//! DVS 2205-1 (from memory), strength and weld factor at the time for which the load acts over the whole
//! service; under a load that creeps not more than the design strain allows either, at the modulus of
//! the time for which it acts at once.

use crate::load::{LoadCase, LoadKind};
use crate::root::falling_root;
use brimful_job::{Job, Liquid, Process};
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Quantity, Subject};
use brimful_panels::table::creep_rupture::StrengthCurve;
use brimful_panels::table::factor::{LoadClass, WeldFactor, medium_factor, safety_factor};
use brimful_panels::table::material::{Duration, Material};
use brimful_panels::table::repeat::{RepeatLine, Repeated, repeat_factor};
use brimful_panels::table::{Cited, Flag, NotCovered, Source, Sourced, SourcedValue};
use brimful_units::{Density, Pressure, Time};

/// What a span may take under one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Limits {
    /// The apparent modulus.
    pub modulus: Pressure,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Allowable stress in the sheet.
    pub sheet: Pressure,
    /// Allowable stress at a weld.
    pub weld: Pressure,
    /// How far the allowable stress in the sheet may be off, as a share of it.
    pub sheet_width: f64,
    /// How far that at a weld may be off.
    pub weld_width: f64,
    /// Allowable stress in the sheet by time.
    pub sheet_life: Life,
    /// Allowable stress at a weld by time.
    pub weld_life: Life,
    /// What a weld by hot gas bears of what one of the shop's own process does: under this load, and whatever the time at
    /// the least.
    pub hot_gas: [f64; 2],
    /// Density of the sheet.
    pub sheet_density: Density,
    /// How much the sheet has grown since it was welded, as a share of its length.
    pub growth: f64,
    /// Where all of it comes from.
    pub sources: Vec<Source>,
}

/// Allowable stress by the time for which it acts all together.
#[derive(Clone, Debug, PartialEq)]
pub struct Life {
    strength: StrengthCurve,
    /// Of a weld; none of the sheet.
    weld: Option<WeldFactor>,
    /// Of a load that comes again and again; none of what lasts.
    repeats: Option<Repeats>,
    /// All reductions and the safety factor.
    reduction: f64,
}

/// A load that comes again and again.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Repeats {
    line: RepeatLine,
    /// How long it acts each time.
    each: Time,
}

impl Life {
    /// What may act for `time`, or so often that it comes to that time.
    pub fn allowed(&self, time: Time) -> Pressure {
        let weld = self.weld.as_ref().map_or(1.0, |weld| weld.at(time));
        let repeats = self
            .repeats
            .map_or(1.0, |it| it.line.factor(time / it.each));
        self.strength.at(time) * weld * repeats * (1.0 / self.reduction)
    }

    /// For how long a stress may act; one that comes again and again, as often as it may come by the time that each
    /// takes. The lines go on past the longest service that they are known for: no job may ask for that, and a sum
    /// of shares in which what is small took as much as what is just borne would stop sound tanks.
    pub fn of(&self, stress: Pressure) -> Time {
        if stress <= self.allowed(LONGEST) {
            return LONGEST;
        }
        // Allowed stress never rises with time, and runs nearly straight over their logarithms.
        let over = |time: f64| (self.allowed(Time::from_s(time.exp())).pa() / stress.pa()).ln();
        let [shortest, longest] = [SHORTEST, LONGEST].map(|time| time.s().ln());
        match over(shortest) < 0.0 {
            true => SHORTEST,
            false => Time::from_s(falling_root(shortest, longest, over).exp()),
        }
    }
}

/// No load is taken as shorter: what is over the strength of a moment has no life at all.
const SHORTEST: Time = Time::from_s(1e-3);
/// What lasts longer takes nothing.
const LONGEST: Time = Time::from_years(1e9);

/// The strictest of some limits of one load case, which differ by the liquid alone; of those that are alike
/// the one that is known least well.
pub fn strictest<'a>(limits: impl Iterator<Item = &'a Limits>) -> Option<&'a Limits> {
    limits.min_by(|a, b| {
        let by_reduction = b.sheet_life.reduction.total_cmp(&a.sheet_life.reduction);
        by_reduction.then(b.sheet_width.total_cmp(&a.sheet_width))
    })
}

/// The limits for a load case on what a liquid wets.
///
/// # Errors
/// The table that does not reach so far.
pub fn limits(job: &Job, case: &LoadCase, liquid: &Liquid) -> Result<Limits, NotCovered> {
    let material = Material::of(&job.stock.material)?;
    let mut sources = case.sources.clone();
    let duration = match case.creeps() {
        true => Duration::Long,
        false => Duration::Short,
    };
    let modulus = match duration {
        Duration::Short => material.short_modulus(case.temperature)?,
        Duration::Long => material.creep_modulus(case.duration, case.temperature)?,
    };
    // What is strained by warmth is stressed as much as it is stiff; a load is borne by stiff and soft alike.
    let of_modulus = match case.id.kind.is_warmth() {
        true => modulus.width_of_all(),
        false => 0.0,
    };
    let modulus = keep(&mut sources, modulus);
    let curve = material.strength_curve(case.temperature)?;
    let strength = curve.sourced(case.total)?;
    let of_strength = strength.width();
    keep(&mut sources, strength);
    let poisson = keep(&mut sources, material.poisson(duration)?);
    let weld_factor = WeldFactor::of(material, job.shop.process)?;
    let by_hot_gas = WeldFactor::of(material, Process::HotGas)?;
    let hot_gas = [
        by_hot_gas.at(case.total) / weld_factor.at(case.total),
        by_hot_gas.least_of(&weld_factor),
    ];
    let weld = weld_factor.sourced(case.total);
    let of_weld = weld.width();
    keep(&mut sources, weld);
    let (reduction, of_medium) = reduction(job, case, liquid, material, &mut sources)?;
    let mut width_of_repeats = |of| {
        let found = case.times.map(|times| repeat_factor(material, of, times));
        // Too seldom to tell, it is no part of the limit.
        let found = found.filter(|it| it.value < 1.0);
        let width = found.as_ref().map_or(0.0, Sourced::width);
        sources.extend(found.into_iter().flat_map(|it| it.sources));
        width
    };
    let of_sheet_repeats = width_of_repeats(Repeated::Sheet);
    let of_weld_repeats = width_of_repeats(Repeated::Weld);
    let repeats = |of| {
        case.times.map(|_| Repeats {
            line: RepeatLine::of(material, of),
            each: case.duration,
        })
    };
    let sheet_life = Life {
        strength: curve.clone(),
        weld: None,
        repeats: repeats(Repeated::Sheet),
        reduction,
    };
    let weld_life = Life {
        strength: curve,
        weld: Some(weld_factor),
        repeats: repeats(Repeated::Weld),
        reduction,
    };
    // Errors that do not know of one another add up as lengths at right angles.
    let of_any = of_strength.hypot(of_medium).hypot(of_modulus);
    let of_sheet = of_any.hypot(of_sheet_repeats);
    let of_weld = of_any.hypot(of_weld).hypot(of_weld_repeats);
    let (by_strain, of_strain) = match duration {
        Duration::Short => (Pressure::from_pa(f64::INFINITY), 0.0),
        Duration::Long => {
            let strain = material.design_strain()?;
            let width = strain.width();
            (modulus * keep(&mut sources, strain), width)
        }
    };
    let least = |by_strength: Pressure, width| match by_strength <= by_strain {
        true => (by_strength, width),
        false => (by_strain, of_strain),
    };
    let (sheet, sheet_width) = least(sheet_life.allowed(case.total), of_sheet);
    let (weld, weld_width) = least(weld_life.allowed(case.total), of_weld);
    let sheet_density = keep(&mut sources, material.density()?);
    let growth = if case.id.kind.is_warmth() {
        let [_, greatest] = keep(&mut sources, material.expansion()?);
        greatest * case.warming
    } else {
        0.0
    };
    Ok(Limits {
        growth,
        modulus,
        poisson,
        sheet,
        weld,
        sheet_width,
        weld_width,
        sheet_life,
        weld_life,
        hot_gas,
        sheet_density,
        sources,
    })
}

/// A1 x A2 x safety factor, and how far it may be off by what the liquid does.
fn reduction(
    job: &Job,
    case: &LoadCase,
    liquid: &Liquid,
    material: Material,
    sources: &mut Vec<Source>,
) -> Result<(f64, f64), NotCovered> {
    let toughness = keep(sources, material.toughness_factor(case.temperature)?);
    // The leak test is done with plain water.
    let (medium, width) = match case.id.kind {
        LoadKind::Test => (1.0, 0.0),
        _ => {
            let found = medium_factor(material, liquid)?;
            let width = if found.value > 1.0 {
                found.width()
            } else {
                0.0
            };
            (keep(sources, found), width)
        }
    };
    let safety = match job.checks.safety_factor {
        Some(factor) => {
            sources.push(Source {
                value: SourcedValue::SafetyFactor(factor),
                flag: Flag::Given,
                cited: Cited::Job,
            });
            factor
        }
        None => keep(sources, safety_factor(LoadClass::ChangingOrHarmful)?),
    };
    Ok((toughness * medium * safety, width))
}

/// A factor of a liquid that nobody has published; what is said of it is about `subject`.
pub fn medium_finding(job: &Job, liquid: &Liquid, subject: Subject) -> Option<Finding> {
    let material = Material::of(&job.stock.material).ok()?;
    let medium = medium_factor(material, liquid).ok()?;
    let unsure = medium
        .sources
        .iter()
        .find(|source| source.flag == Flag::CommonPractice)?;
    Some(
        Finding::of(
            Grade::Mend,
            subject,
            StrengthKind::MediumFactorUnsure {
                of: unsure.value.clone(),
            },
        )
        .figures(Quantity::Ratio(medium.value), Quantity::Ratio(1.0))
        .table(unsure.clone()),
    )
}

fn keep<T>(sources: &mut Vec<Source>, found: Sourced<T>) -> T {
    sources.extend(found.sources);
    found.value
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::load::cases;

    const JOB: &str = "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\nwarmest = \"20 degC\"\nyears = \"10 years\"\n[body]\nbox = [500, 500, 500]\nthickness = 8\n";

    fn of(kind: LoadKind) -> (LoadCase, Limits) {
        let job = Job::parse(JOB).expect("a job");
        let case = cases(&job).into_iter().find(|case| case.id.kind == kind);
        let case = case.expect("a case");
        let limits = limits(&job, &case, &job.liquid).expect("in the tables");
        (case, limits)
    }

    /// By hand, PE 80 at 20 degC over 10 years: 8.36 MPa, a hot-gas weld 0.4 of it, safety 2.
    #[test]
    fn a_lasting_weld_by_hand() {
        let (case, limits) = of(LoadKind::Rest);
        let found = limits.weld_life.allowed(case.total).mpa();
        assert!((found - 8.36 * 0.4 / 2.0).abs() < 0.005, "{found}");
    }

    /// By hand: at once hot gas bears as much as an extruder, over ten years 0.4 of 0.6.
    #[test]
    fn hot_gas_in_a_shop_with_an_extruder() {
        let job = JOB.replace("[body]", "[shop]\nprocess = \"extrusion\"\n[body]");
        let job = Job::parse(&job).expect("a job");
        let case = cases(&job)
            .into_iter()
            .find(|it| it.id.kind == LoadKind::Rest);
        let limits = limits(&job, &case.expect("a case"), &job.liquid).expect("in the tables");
        for share in limits.hot_gas {
            assert!((share - 2.0 / 3.0).abs() < 1e-9);
        }
        let (_, own) = of(LoadKind::Rest);
        assert_eq!(own.hot_gas, [1.0, 1.0]);
    }

    /// A load of a day is as strong as its hour and its week have it between them, and a filling that
    /// lasts hours in all is borne better than one that lasts years.
    #[test]
    fn short_loads_are_borne_better() {
        let (rest, lasting) = of(LoadKind::Rest);
        let (filling, short) = of(LoadKind::Filling);
        assert!(filling.total < rest.total);
        assert!(short.weld > 1.3 * lasting.weld);
    }

    /// By hand, PVC-U at 20 degC over 10 years: 26.66 MPa on its line, over A1 of 1.8 and safety 2 are 7.41 MPa,
    /// of which a hot-gas weld has 0.4, 2.96 MPa. Its modulus is 1610 MPa then, and the sheet is held to a
    /// strain of 0.4 % of it, 6.44 MPa.
    #[test]
    fn pvc_by_hand() {
        let stock = "[stock]\nmaterial = \"PVC-U\"\n[body]";
        let job = Job::parse(&JOB.replace("[body]", stock)).expect("a job");
        let case = cases(&job).into_iter().next().expect("rest");
        let limits = limits(&job, &case, &job.liquid).expect("in the tables");
        let near = |found: Pressure, mpa: f64| {
            assert!((found.mpa() / mpa - 1.0).abs() < 2e-3, "{found:?} {mpa}")
        };
        near(limits.modulus, 1610.0);
        near(limits.sheet_life.allowed(case.total), 7.41);
        near(limits.sheet, 6.44);
        near(limits.weld, 2.96);
    }

    /// By hand, PE at 0 degF: 2.18 times the modulus over 2000 h, 44 000 psi after 1000 h and 38 000 after
    /// 8766 h on a straight log-log line; its strength is that of 20 degC over A1, 1.2 at 14 degF and 1.4 at
    /// -40, and the limit is as wide as the line (5 %), the row of the modulus and that of its factor (5 % each).
    #[test]
    fn the_cold_is_met_by_cold_sheet() {
        let cold = JOB.replace("[body]", "coldest = \"0 degF\"\n[body]");
        let job = Job::parse(&cold).expect("a job");
        let mut all = cases(&job).into_iter();
        let case = all.find(|case| case.id.kind == LoadKind::Coldest);
        let limits = limits(&job, &case.expect("a case"), &job.liquid).expect("in the tables");
        let share = 2.0_f64.ln() / 8.766_f64.ln();
        let wanted = 2.18 * 44_000.0 * (38.0_f64 / 44.0).powf(share);
        let found = limits.modulus.psi();
        assert!((found / wanted - 1.0).abs() < 1e-6, "{found} {wanted}");
        let (_, warm) = of(LoadKind::Rest);
        let of_a_year = |limits: &Limits| limits.sheet_life.allowed(Time::from_years(1.0)).pa();
        let toughness = 1.2 + 0.2 * 14.0 / 54.0;
        let ratio = of_a_year(&warm) / of_a_year(&limits);
        assert!((ratio / toughness - 1.0).abs() < 1e-9, "{ratio}");
        let width = 0.05_f64.hypot(0.05).hypot(0.05);
        assert!(
            (limits.sheet_width - width).abs() < 1e-9,
            "{}",
            limits.sheet_width
        );
    }

    #[test]
    fn a_life_is_the_time_that_its_stress_may_act() {
        let (_, limits) = of(LoadKind::Rest);
        for hours in [0.1, 1.0, 30.0, 5000.0] {
            let time = Time::from_hours(hours);
            for life in [&limits.sheet_life, &limits.weld_life] {
                let found = life.of(life.allowed(time));
                assert!((found / time - 1.0).abs() < 1e-6, "{} h", found.hours());
            }
        }
        let small = limits.sheet_life.of(Pressure::from_mpa(0.1));
        assert!(small > Time::from_years(1e6), "what is small takes nothing");
    }

    /// By hand, PE 80 at 20 degC, 20000 times a day: far past their onset repeats take the ninth root of how often,
    /// and creep the 37.58th of the time they come to, so that a tenth less stress may come
    /// `0.9^(-1 / (1 / 9 + 1 / 37.5758))` = 2.149 times as often.
    #[test]
    fn a_repeated_load_may_come_so_often() {
        let event = "[[event]]\nname = \"track\"\ndown = 1.0\nper_day = 20000\n";
        let job = Job::parse(&format!("{JOB}{event}")).expect("a job");
        let mut all = cases(&job).into_iter();
        let case = all.find(|case| case.id.kind == LoadKind::Event);
        let case = case.expect("a case");
        let limits = limits(&job, &case, &job.liquid).expect("in the tables");
        let life = &limits.sheet_life;
        let found = life.of(limits.sheet * 0.9) / case.total;
        assert!((found - 2.149).abs() < 2e-3, "{found}");
        assert!((life.of(limits.sheet) / case.total - 1.0).abs() < 1e-6);
    }
}
