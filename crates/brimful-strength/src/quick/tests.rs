use super::*;
use brimful_panels::body::body;
use brimful_panels::case::{CaseId, Direction};
use brimful_panels::finding::kind::{Kind, QuickKind, Uncovered};
use brimful_panels::finding::{Finding, Grade, Part, Subject};
use brimful_panels::panels::panels;
use brimful_panels::table::NotCovered;
use brimful_units::{Temperature, Time};

/// A box tank, standing still, at room temperature.
fn job(size: &str, thickness: &str, rest: &str) -> Job {
    let text = format!(
        "[job]\nduty = \"standing\"\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\nwarmest = \"23 degC\"\nyears = \"1 years\"\n\
         [body]\nbox = {size}\nthickness = {thickness}\n{rest}"
    );
    Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}"))
}

fn checked(job: &Job) -> (Quick, Vec<Panel>) {
    let (body, _) = body(job, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let (laid_out, _) = panels(job, &body, None).unwrap_or_else(|faults| panic!("{faults:?}"));
    let heads = Heads::new(job.liquid.density, &body.cavity);
    (
        quick(job, &laid_out.panels, &laid_out.seams, &heads),
        laid_out.panels,
    )
}

fn rows_of<'a>(quick: &'a Quick, panels: &[Panel], name: &str) -> Vec<&'a SpanCheck> {
    quick
        .rows
        .iter()
        .filter(|row| panels[row.panel].name == *name)
        .collect()
}

/// A square wall by Timoshenko and Woinowsky-Krieger's hydrostatic square (0.00205 q a^4 / D at
/// its deepest, from memory) and the PPI creep modulus of PE3xxx after a year (38,000 psi, seen).
#[test]
fn a_square_wall_is_timoshenkos() {
    // Inside 300 x 300 x 300 with 15 mm sheet.
    let (found, panels) = checked(&job("[330, 330, 330]", "15", ""));
    let rows = rows_of(&found, &panels, "front");
    let rest = rows
        .iter()
        .find(|row| row.case == CaseId::of(LoadKind::Rest))
        .expect("a row");
    assert!((rest.width.mm() - 300.0).abs() < 1e-6 && (rest.height.mm() - 300.0).abs() < 1e-6);
    assert!(rest.pressure_low.pa().abs() < 1e-6);
    assert!((rest.pressure_high.pa() - 1000.0 * 9.80665 * 0.3).abs() < 1e-6);
    let modulus = Pressure::from_psi(38_000.0).pa();
    assert!((rest.modulus.pa() / modulus - 1.0).abs() < 1e-3);
    let stiffness = modulus * 0.015_f64.powi(3) / (12.0 * (1.0 - 0.45 * 0.45));
    let deflection = 0.00205 * 1000.0 * 9.80665 * 0.3 * 0.3_f64.powi(4) / stiffness;
    assert!(
        (rest.deflection.m() / deflection - 1.0).abs() < 0.01,
        "{} {deflection}",
        rest.deflection.m()
    );
    assert!(rest.covered && rest.utilisation < 1.0);
    assert!(rest.deflection_clamped < rest.deflection);
    assert!(!rest.sources.is_empty());
}

#[test]
fn a_small_thick_box_passes_and_a_large_thin_one_stops() {
    let (strong, _) = checked(&job("[330, 330, 330]", "15", ""));
    assert!(
        strong
            .findings
            .iter()
            .all(|finding| finding.grade != Grade::Stop),
        "{:?}",
        strong.findings
    );
    let mut cautious = job("[330, 330, 330]", "15", "");
    cautious.checks.safety_factor = Some(20.0);
    let (cautious, _) = checked(&cautious);
    let stressed = |finding: &&Finding| {
        finding.grade == Grade::Stop
            && matches!(finding.kind, Kind::Quick(QuickKind::OverLimit { .. }))
    };
    assert!(
        cautious
            .findings
            .iter()
            .find(stressed)
            .is_some_and(|finding| finding.figures.is_some())
    );
    let (weak, _) = checked(&job("[1200, 800, 800]", "6", ""));
    let mut deep = weak.findings.iter();
    let deep = deep.find(|it| matches!(it.kind, Kind::Quick(QuickKind::TooDeep { .. })));
    assert!(deep.is_some_and(|it| it.grade == Grade::Mend && it.figures.is_some()));
}

#[test]
fn a_full_baffle_halves_the_span_and_a_short_one_does_not() {
    let baffle = |gap: u32| {
        format!(
            "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 500\nair_gap = {gap}\ndrain_gap = {gap}\n"
        )
    };
    let (with, panels) = checked(&job("[1000, 400, 400]", "10", &baffle(20)));
    let left: Vec<_> = rows_of(&with, &panels, "left")
        .into_iter()
        .filter(|row| row.case == CaseId::of(LoadKind::Rest))
        .collect();
    assert_eq!(left.len(), 2);
    assert!(left.iter().all(|row| (row.width.mm() - 490.0).abs() < 1e-6));
    let (without, panels) = checked(&job("[1000, 400, 400]", "10", &baffle(60)));
    let left = rows_of(&without, &panels, "left")
        .into_iter()
        .filter(|row| row.case == CaseId::of(LoadKind::Rest))
        .count();
    assert_eq!(left, 1);
}

#[test]
fn braking_presses_on_the_front() {
    let mut job = job(
        "[1000, 400, 400]",
        "10",
        "[[event]]\nname = \"stop\"\nforward = 0.8\n",
    );
    job.liquid.density = brimful_units::Density::from_kg_m3(998.2);
    let (found, panels) = checked(&job);
    let rows = rows_of(&found, &panels, "front");
    let event = rows
        .iter()
        .find(|row| row.case == CaseId::event(0, Direction::Forward))
        .expect("a row");
    // 46 CFR 154.407 form over the inside, 980 x 380 x 380.
    let wanted = 998.2 * 9.80665 * (0.38 + 0.8 * 0.98);
    // Own weight of a sheet on edge under the forward pull.
    let own = 950.0 * 0.010 * 0.8 * 9.80665;
    assert!(
        (event.pressure_high.pa() - wanted - own).abs() < 0.01,
        "{} {}",
        event.pressure_high.pa(),
        wanted
    );
    let rest = rows
        .iter()
        .find(|row| row.case == CaseId::of(LoadKind::Rest))
        .expect("a row");
    assert!(event.modulus > rest.modulus);
}

#[test]
fn rails_split_the_floor() {
    let rails = "[support]\nkind = \"rails\"\nalong = \"y\"\nat = [25, 300, 575]\nwidth = 50\n";
    let (found, panels) = checked(&job("[600, 400, 300]", "10", rails));
    let floor: Vec<_> = rows_of(&found, &panels, "floor")
        .into_iter()
        .filter(|row| row.case == CaseId::of(LoadKind::Rest))
        .collect();
    assert_eq!(floor.len(), 2);
    assert!(
        floor
            .iter()
            .all(|row| (row.width.mm() - 225.0).abs() < 1e-6),
        "{floor:?}"
    );
    assert!(
        floor
            .iter()
            .all(|row| row.pressure_high.pa() > 1000.0 * 9.8 * 0.28)
    );
    let (carried, panels) = checked(&job("[600, 400, 300]", "10", ""));
    assert!(rows_of(&carried, &panels, "floor").is_empty());
    assert!(
        carried
            .findings
            .iter()
            .any(|finding| finding.kind == Kind::Quick(QuickKind::Carried)
                && finding.grade == Grade::Note)
    );
}

#[test]
fn what_is_not_covered_is_not_checked_yet_and_what_no_table_has_stops() {
    let says = |grade: Grade, job: &Job, is_wanted: &dyn Fn(&QuickKind) -> bool| {
        let (quick, _) = checked(job);
        let found = quick.findings.iter().filter(|it| it.grade == grade);
        let mut kinds = found.filter_map(|it| match &it.kind {
            Kind::Quick(kind) => Some(kind),
            _ => None,
        });
        kinds.any(is_wanted)
    };
    let uncovered = |wanted: Uncovered| {
        move |kind: &QuickKind| *kind == QuickKind::PanelNotCovered(wanted.clone())
    };
    let feet =
        "[support]\nkind = \"feet\"\nat = [[50, 50], [550, 50], [50, 350]]\nsize = [80, 80]\n";
    let feet = job("[600, 400, 300]", "10", feet);
    assert!(says(Grade::Mend, &feet, &uncovered(Uncovered::OnFeet)));
    let straps = "[support]\nkind = \"straps\"\nacross = \"x\"\nat = [100, 500]\nwidth = 50\n";
    let straps = job("[600, 400, 300]", "10", straps);
    assert!(says(Grade::Mend, &straps, &uncovered(Uncovered::InStraps)));
    let mut warm = job("[330, 330, 330]", "15", "");
    warm.stock.material = "PP".to_owned();
    warm.liquid.warmest = Temperature::from_degc(65.0);
    let by_temperature = |kind: &QuickKind| {
        matches!(
            kind,
            QuickKind::CaseNotCovered(NotCovered::Temperature {
                table: "modulus by temperature",
                ..
            })
        )
    };
    assert!(says(Grade::Stop, &warm, &by_temperature));
    let mut riding = job(
        "[600, 400, 300]",
        "15",
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 300\n",
    );
    riding.about.duty = brimful_job::Duty::Road;
    assert!(says(Grade::Mend, &riding, &|kind| *kind == QuickKind::Baffle));
}

#[test]
fn detergent_lowers_what_is_allowed() {
    let plain = job("[330, 330, 330]", "15", "");
    let mut soapy = plain.clone();
    soapy.liquid.additives = vec!["detergent".to_owned()];
    let (plain, soapy) = (checked(&plain).0, checked(&soapy).0);
    for (a, b) in plain.rows.iter().zip(&soapy.rows) {
        let same = a.case == CaseId::of(LoadKind::Test);
        assert!(if same {
            b.utilisation == a.utilisation
        } else {
            b.utilisation > a.utilisation
        });
    }
    assert!(
        soapy
            .findings
            .iter()
            .any(|finding| finding.subject == Subject::Part(Part::Liquid)
                && finding.grade == Grade::Mend)
    );
}

#[test]
fn the_bulge_asked_for_is_held_to() {
    let mut job = job("[330, 330, 330]", "15", "");
    job.checks.bulge = Some(Length::from_mm(0.1));
    let (found, _) = checked(&job);
    assert!(
        found
            .findings
            .iter()
            .any(|finding| finding.grade == Grade::Stop
                && matches!(finding.kind, Kind::Quick(QuickKind::Bulge { .. })))
    );
}

#[test]
fn a_divider_takes_one_side_full() {
    let divider = "[[inner]]\nkind = \"divider\"\nacross = \"x\"\nat = 300\n";
    let (found, panels) = checked(&job("[600, 330, 330]", "15", divider));
    let rows: Vec<_> = found
        .rows
        .iter()
        .filter(|row| panels[row.panel].role == brimful_panels::panel::Role::Divider)
        .collect();
    assert!(!rows.is_empty());
    let rest = rows
        .iter()
        .find(|row| row.case == CaseId::of(LoadKind::Rest))
        .expect("a row");
    assert!(
        (rest.pressure_high.pa() - 1000.0 * 9.80665 * 0.3).abs() < 15.0,
        "{}",
        rest.pressure_high.pa()
    );
}

/// The bench box of the scenarios, 964 x 374 x 350 outside in 8 mm: its long side bulges 5 mm
/// clamped and 24 mm hinged, 4 and 14 mm with one baffle in the middle (computed for the
/// reference by plate finite elements; its modulus is not stated there, 200 MPa with a Poisson's
/// ratio of 0.4 fits all four).
#[test]
fn the_bench_box_bulges_as_computed_elsewhere() {
    let bulges = |inner: &str| {
        let mut job = job("[964, 374, 350]", "8", inner);
        job.liquid.years = Time::from_years(50.0);
        let (found, panels) = checked(&job);
        let row = rows_of(&found, &panels, "left")[0].clone();
        assert!(!row.covered);
        let to_200_mpa = row.modulus.mpa() / 200.0 * (1.0 - 0.4 * 0.4) / (1.0 - 0.45 * 0.45);
        [row.deflection_clamped, row.deflection].map(|deflection| deflection.mm() * to_200_mpa)
    };
    let near = |found: [f64; 2], wanted: [f64; 2]| {
        for (found, wanted) in found.into_iter().zip(wanted) {
            assert!(
                (found - wanted).abs() < 0.75,
                "found {found}, wanted {wanted}"
            );
        }
    };
    near(bulges(""), [5.0, 24.0]);
    let baffle =
        "[[inner]]\nkind = \"baffle\"\nacross = \"x\"\nat = 482\nair_gap = 20\ndrain_gap = 20\n";
    near(bulges(baffle), [4.0, 14.0]);
}
