//! The examples as jobs, faults and their places, and texts that mean harm.

mod reference;

use super::*;
use brimful_units::{Density, InchFraction, Length, Mass, Temperature, UnitSystem, Volume};
use proptest::prelude::*;

const EXAMPLES: [(&str, &str); 7] = [
    ("starter", include_str!("../data/starter.job.toml")),
    (
        "bench-box",
        include_str!("../../../../examples/bench-box.job.toml"),
    ),
    (
        "l-shape",
        include_str!("../../../../examples/l-shape.job.toml"),
    ),
    (
        "sloping-floor",
        include_str!("../../../../examples/sloping-floor.job.toml"),
    ),
    (
        "two-compartment",
        include_str!("../../../../examples/two-compartment.job.toml"),
    ),
    (
        "camper-bench",
        include_str!("../../../../examples/camper-bench.job.toml"),
    ),
    (
        "frame-rail-sprayer",
        include_str!("../../../../examples/frame-rail-sprayer.job.toml"),
    ),
];

const SMALLEST: &str = "[space]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n[liquid]\nkind = \"water\"\n";

fn example(name: &str) -> Job {
    let found = EXAMPLES.iter().find(|(example, _)| *example == name);
    parsed(found.expect("an example of that name").1)
}

fn parsed(text: &str) -> Job {
    Job::parse(text).unwrap_or_else(|faults| panic!("{}", listed(&faults)))
}

fn faults_of(text: &str) -> Vec<JobFault> {
    Job::parse(text).err().unwrap_or_default()
}

fn listed(faults: &[JobFault]) -> String {
    let line = |fault: &JobFault| format!("{}: {}: {:?}", fault.line, fault.path, fault.kind);
    let lines: Vec<String> = faults.iter().map(line).collect();
    lines.join("\n")
}

#[test]
fn every_example_is_a_job() {
    for (name, text) in EXAMPLES {
        let faults = faults_of(text);
        assert!(faults.is_empty(), "{name}:\n{}", listed(&faults));
    }
}

#[test]
fn the_starter_is_the_first_example() {
    assert_eq!(starter(), EXAMPLES[0].1);
}

#[test]
fn millimetres_are_read_as_written() {
    let job = parsed(include_str!("../../../../tests/jobs/camper-bench.job.toml"));
    let mm = |sizes: [f64; 3]| sizes.map(Length::from_mm);
    let space = job.space.expect("a space");
    let Measured::Views(ShapeSpec::Box { size, place }) = space.measured else {
        panic!("the space is a box")
    };
    assert_eq!(size, mm([980.0, 430.0, 410.0]));
    assert_eq!((place.line, place.column), (14, 7));
    assert_eq!(space.obstacles.len(), 2);
    let ObstacleShape::Box { from, to } = space.obstacles[1].shape else {
        panic!("the trunking is a box")
    };
    assert_eq!(
        (from, to),
        (mm([0.0, 390.0, 0.0]), mm([980.0, 430.0, 60.0]))
    );
    let body = job.body.expect("a body");
    assert_eq!(body.at, mm([8.0, 8.0, 0.0]));
    assert_eq!(
        job.liquid.wanted,
        Some(Wanted {
            volume: Volume::from_litres(100.0),
            of: Capacity::Usable
        })
    );
    assert_eq!(
        job.vehicle.and_then(|vehicle| vehicle.payload),
        Some(Mass::from_kg(150.0))
    );
    let events: Vec<&str> = job.events.iter().map(|event| event.name.as_str()).collect();
    assert_eq!(events, ["braking", "reversing", "bend", "bump"]);
    assert!(Event::usual().map(|it| it.name.as_str()).eq(events));
}

#[test]
fn inches_are_read_as_written() {
    let job = example("frame-rail-sprayer");
    assert_eq!(job.about.units, UnitSystem::Inch);
    assert_eq!(job.about.fraction, InchFraction::Sixteenth);
    assert_eq!(job.liquid.density, Density::from_lb_us_gal(11.06));
    assert_eq!(job.liquid.coldest, Temperature::from_degf(20.0));
    assert_eq!(job.stock.sheets[0].size[0], Length::from_feet(8.0));
    assert_eq!(job.stock.rods[0].diameter, Length::from_mm(4.0));
    assert_eq!(job.shop.kerf, Length::from_inches(3.0 / 32.0));
    assert_eq!(job.shop.gap, Length::from_mm(2.0), "the extruder's own gap");
    let BodyShape::Given(ShapeSpec::Outlines { front, length, .. }) =
        job.body.expect("a body").shape
    else {
        panic!("the body is outlined")
    };
    assert_eq!(front.expect("a front view").points.len(), 8);
    assert_eq!(length, Some(Length::from_inches(47.5)));
    assert!(
        job.defaults
            .iter()
            .all(|default| default.key != "shop.kerf")
    );
}

#[test]
fn the_smallest_job_lists_every_default_once() {
    let job = parsed(SMALLEST);
    let keys: Vec<&str> = job.defaults.iter().map(|used| used.key.as_str()).collect();
    for key in [
        "job.duty",
        "space.clearance",
        "liquid.density",
        "stock.sheet",
        "shop.kerf",
        "event",
    ] {
        assert_eq!(keys.iter().filter(|used| **used == key).count(), 1, "{key}");
    }
    let value = |key: &str| {
        let used = job.defaults.iter().find(|used| used.key == key);
        used.map(|used| used.value.clone())
    };
    let length = |mm: f64| DefaultValue::Length(Length::from_mm(mm));
    assert_eq!(value("shop.kerf"), Some(length(3.2)));
    assert_eq!(
        value("trim.heel"),
        Some(DefaultValue::Word("level".to_owned()))
    );
    assert_eq!(value("shop.hands"), Some(DefaultValue::Number(2.0)));
    let density = DefaultValue::Density(Density::from_kg_m3(1000.0));
    assert_eq!(value("liquid.density"), Some(density));
    assert!(job.body.is_none() && job.vehicle.is_none());
    assert_eq!(job.stock.sheets[0].place, Place::default());
    assert_eq!(job.trim.heel, AngleRange::LEVEL);
}

/// Every default has to be readable, also those of choices that few jobs make.
#[test]
fn the_defaults_of_every_choice_are_read() {
    for shop in [
        "cutting = \"router\"",
        "process = \"extrusion\"",
        "nozzle = \"round\"",
        "extruder = \"small\"",
        "extruder = \"large\"",
    ] {
        parsed(&format!("{SMALLEST}[shop]\n{shop}\n[vehicle]\n"));
    }
    let body = "[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n";
    parsed(&format!(
        "{SMALLEST}{body}[[inner]]\nkind = \"baffle\"\nat = \"auto\"\n"
    ));
}

#[test]
fn a_standing_tank_meets_no_events() {
    assert!(example("l-shape").events.is_empty());
}

fn kinds_of(text: &str) -> Vec<(usize, FaultKind)> {
    let faults = faults_of(text).into_iter();
    faults.map(|fault| (fault.line, fault.kind)).collect()
}

#[test]
fn lengths_without_a_unit_are_one_fault() {
    let text = "[job]\nname = \"a\"\n[body]\nbox = [1, 2, \"3 m\"]\nthickness = 8\n[liquid]\nkind = \"water\"\n";
    assert_eq!(kinds_of(text), [(4, FaultKind::BareLength { more: 2 })]);
    let named = text.replace("name = \"a\"", "lengths = \"mn\"");
    let faults = kinds_of(&named);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(matches!(faults[0].1, FaultKind::UnknownWord { .. }));
}

#[test]
fn a_misspelt_key_is_not_missing_too() {
    let rest = "[liquid]\nkind = \"water\"\n";
    let misspelt =
        format!("[bodyy]\nbox = 3\n{rest}[[rib]]\nheights = [\"1 m\"]\ndepht = \"6 mm\"\n");
    let faults = faults_of(&misspelt);
    let nearest: Vec<Option<&str>> = faults.iter().map(|it| it.nearest.as_deref()).collect();
    assert_eq!(
        nearest,
        [Some("body"), Some("depth")],
        "{}",
        listed(&faults)
    );
    let missing = format!("{SMALLEST}[[rib]]\nheights = [\"1 m\"]\n");
    assert!(matches!(
        kinds_of(&missing)[..],
        [(_, FaultKind::Missing(Missing::Key { key: "depth", .. }))]
    ));
}

#[test]
fn a_list_of_the_wrong_length_says_what_it_takes() {
    let faults = faults_of(&format!(
        "{SMALLEST}[body]\nplan = [[\"0 mm\", \"0 mm\"], [\"1 m\"]]\nheight = \"1 m\"\n"
    ));
    let count = FaultKind::WrongCount {
        found: 2,
        least: 3,
        most: 1000,
        items: Items::Points,
    };
    assert_eq!(faults.len(), 1, "{}", listed(&faults));
    assert_eq!((&faults[0].kind, faults[0].key()), (&count, "plan"));
    assert!(
        faults[0]
            .example
            .is_some_and(|it| it.starts_with("plan = "))
    );
}

#[test]
fn every_fault_points_at_what_it_is_about() {
    let text = "[space]\nbox = [\"1 m\", \"\u{fc}\", \"450 mmm\"]\n[liquid]\nkind = \"water\"\n";
    let faults = faults_of(text);
    let shown: Vec<(usize, usize, &str)> = faults
        .iter()
        .map(|fault| (fault.line, fault.column, &text[fault.span.clone()]))
        .collect();
    assert_eq!(shown, [(2, 16, "\u{fc}"), (2, 25, "mmm")]);
    assert_eq!(faults[1].nearest.as_deref(), Some("mm"));
}

#[test]
fn a_file_too_large_is_not_read() {
    let faults = faults_of(&"#".repeat(1_000_001));
    assert_eq!(faults.len(), 1);
    assert!(matches!(faults[0].kind, FaultKind::TooLarge { .. }));
}

#[test]
fn values_too_deep_are_refused() {
    for open in ["[", "{a=", "[{a="] {
        let faults = faults_of(&format!("x = {}", open.repeat(100_000)));
        assert!(!faults.is_empty());
        assert!(
            faults.iter().any(|fault| fault.kind == FaultKind::TooDeep),
            "{open}"
        );
    }
    let dotted = format!("x{} = 1", ".a".repeat(100_000));
    assert!(!faults_of(&dotted).is_empty());
}

#[test]
fn no_more_faults_are_listed_than_can_be_read() {
    let unknown: String = (0..5000)
        .map(|index| format!("key_{index} = 1\n"))
        .collect();
    let faults = faults_of(&unknown);
    assert!((100..=101).contains(&faults.len()), "{}", faults.len());
}

fn hold_together(text: &str) -> Result<(), TestCaseError> {
    if let Err(faults) = Job::parse(text) {
        prop_assert!(!faults.is_empty());
        for fault in faults {
            prop_assert!(text.get(fault.span.clone()).is_some());
            prop_assert!(fault.line >= 1 && fault.column >= 1);
        }
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC{0,200}") {
        hold_together(&text)?;
    }

    #[test]
    fn any_bytes_that_are_text_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        hold_together(&String::from_utf8_lossy(&bytes))?;
    }

    /// Examples with a piece cut out, doubled, or overwritten.
    #[test]
    fn a_spoilt_example_is_read_or_refused(
        which in 0..EXAMPLES.len(),
        from in any::<prop::sample::Index>(),
        length in 0_usize..60,
        instead in prop_oneof![
            Just(String::new()),
            "\\PC{0,6}",
            "[-0-9.,'\"\\[\\]{}=#\n ]{0,8}",
            Just("1e999".to_owned()),
            Just("nan".to_owned()),
            Just("\"gal\"".to_owned()),
        ],
    ) {
        let text = EXAMPLES[which].1;
        let start = text.floor_char_boundary(from.index(text.len()));
        let end = text.ceil_char_boundary((start + length).min(text.len()));
        hold_together(&format!("{}{instead}{}", &text[..start], &text[end..]))?;
        hold_together(&format!("{}{instead}{}", &text[..end], &text[start..]))?;
    }

    /// Every number and text of an example exchanged for another kind of value.
    #[test]
    fn a_value_of_another_kind_is_read_or_refused(
        which in 0..EXAMPLES.len(),
        line in any::<prop::sample::Index>(),
        value in prop_oneof![
            Just("-1"), Just("0"), Just("\"\""), Just("[]"), Just("{}"), Just("true"),
            Just("1979-05-27"), Just("-inf"), Just("9223372036854775807"), Just("0x7fffffffffffffff"),
            Just("\"1/0 in\""), Just("[[0, 0], [0, 0], [0, 0]]"), Just("[{ name = \"x\" }]"),
        ],
    ) {
        let text = EXAMPLES[which].1;
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let index = line.index(lines.len());
        if let Some((key, _)) = lines[index].clone().split_once('=') {
            lines[index] = format!("{key}= {value}");
        }
        hold_together(&lines.join("\n"))?;
    }
}

#[test]
fn an_order_of_work_sets_every_panel_once() {
    let ordered = |order: &str| format!("{SMALLEST}[weld]\norder = {order}\n");
    let job = parsed(&ordered("[\"floor\", \"lid\"]"));
    let order = job.own_order.expect("an order");
    let names: Vec<&str> = order.panels.iter().map(|it| it.name.as_str()).collect();
    assert_eq!(names, ["floor", "lid"]);
    assert!(parsed(SMALLEST).own_order.is_none());
    let faults = faults_of(&ordered("[\"floor\", \"lid\", \"floor\"]"));
    let name = "floor".to_owned();
    assert_eq!(faults[0].kind, FaultKind::SetTwice { name });
    assert_eq!(faults[0].path, "weld.order");
    assert!(faults_of(&ordered("[]")).len() == 1 && faults_of(&ordered("3")).len() == 1);
}
