//! What measuring and making shapes finds, in the words and units of whoever reads it.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::vector::Point3;
use brimful_job::{Job, Place, Twisted};
use brimful_panels::finding::kind::{PanelsKind, ScanDefects, SpaceKind, SpacePiece, TankPart};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::name::{FaceName, Side};
use brimful_panels::shape::{BodyFault, RibBand, RibFault, ShapeFault, ShapeFaultKind, SpaceFault};
use brimful_text::{Language, UnitSystem, Words};
use brimful_units::{Length, Volume};

const JOB: &str = "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[body]\nbox = [800, 500, 600]\nthickness = 10\n";

fn said(kind: impl Into<Kind>, system: UnitSystem) -> String {
    let job = Job::parse(JOB).unwrap();
    let words = Words::new(&job, Language::English).in_units(system);
    let finding = Finding::of(Grade::Note, Subject::Part(Part::Space), kind);
    words.finding(&finding).says.into()
}

fn refused(kind: impl Into<ShapeFaultKind>) -> [String; 2] {
    let job = Job::parse(JOB).unwrap();
    let words = Words::new(&job, Language::English);
    let told = words.shape_fault(&ShapeFault::new(&Place::default(), kind));
    [told.says, told.remedy].map(String::from)
}

const fn mm(length: f64) -> Length {
    Length::from_mm(length)
}

#[test]
fn what_a_tape_shows_is_said_in_mm_and_in_inches_where_those_are_read() {
    let racked = || SpaceKind::Racked {
        rear: mm(60.2),
        front: mm(-60.0),
    };
    let metric = said(racked(), UnitSystem::Metric);
    assert!(
        metric.contains("stand +60 mm (rear) and -60 mm (front)"),
        "{metric}"
    );
    let inch = said(racked(), UnitSystem::Inch);
    assert!(inch.contains("+60 mm (2 3/8 in) (rear)"), "{inch}");
    let diagonal = SpaceKind::SecondDiagonal {
        measured: mm(1008.0),
        computed: mm(1000.0),
        misfit: true,
    };
    let diagonal = said(diagonal, UnitSystem::Metric);
    assert!(diagonal.ends_with("+8 mm apart."), "{diagonal}");
    let sides = SpaceKind::TwistedSides {
        x: [mm(0.0), mm(600.0)],
        sides: vec![(2, mm(37.2)), (4, mm(41.4))],
        lost: Volume::from_litres(2.0),
        wanted: Twisted::Flat,
        flat: true,
    };
    let sides = said(sides, UnitSystem::Metric);
    assert!(
        sides.contains("by 37 mm at the side from corner 2, 41 mm at the side from corner 4."),
        "{sides}"
    );
}

#[test]
fn one_and_several_are_told_apart() {
    let scan = |holes: usize| {
        let kind = SpaceKind::ScanDefects {
            file: "hole.ply".into(),
            defects: ScanDefects {
                holes,
                loose: 1,
                ..ScanDefects::default()
            },
        };
        said(kind, UnitSystem::Metric)
    };
    assert!(scan(1).starts_with("The scan has 1 hole, 1 loose piece left out."));
    assert!(scan(3).starts_with("The scan has 3 holes, 1 loose piece left out."));
    let placed = |count: usize| {
        let bay = mm(760.0);
        said(PanelsKind::PlacedByRule { count, bay }, UnitSystem::Metric)
    };
    assert!(placed(1).contains("one, half-way"), "{}", placed(1));
    assert!(placed(3).contains("3, evenly spaced"), "{}", placed(3));
}

#[test]
fn the_pieces_of_a_space_are_named_with_their_sizes() {
    let piece = |low: f64, high: f64| SpacePiece {
        volume: Volume::from_litres(117.0),
        low: Point3::new(low, 0.0, 0.0),
        high: Point3::new(high, 0.6, 0.5),
    };
    let [says, _] = refused(SpaceFault::CutUp(vec![piece(0.0, 0.39), piece(0.41, 0.8)]));
    assert_eq!(
        says,
        "The obstacles cut the space into 2 separate pieces: 117 L at x 0 mm to 390 mm, y 0 mm to 600 mm, z 0 mm to 500 mm; 117 L at x 410 mm to 800 mm, y 0 mm to 600 mm, z 0 mm to 500 mm."
    );
}

#[test]
fn how_far_a_body_reaches_out_is_said_where_it_is_known() {
    let out = |past: Option<Length>| {
        let tank = TankPart::BodyWithRibs;
        said(SpaceKind::OutOfSpace { tank, past }, UnitSystem::Metric)
    };
    let ends = "does not fit the space: part of it lies outside, or in an obstacle.";
    assert_eq!(out(None), format!("The body with its ribs {ends}"));
    assert!(out(Some(mm(5.0))).ends_with("It reaches 5 mm past a side of the space."));
}

#[test]
fn a_fault_names_what_is_at_fault_and_what_there_is() {
    let [says, remedy] = refused(BodyFault::NotOffered {
        name: "D".into(),
        offered: vec!["A".into(), "every facet".into()],
    });
    assert_eq!(says, "No body called `D` is offered for this space.");
    assert_eq!(remedy, "Offered are: `A`, `every facet`.");
    let front = FaceName {
        side: Side::Front,
        number: 2,
    };
    let band = |band: usize| RibBand {
        name: "hoop".into(),
        band: Some(band),
    };
    let [says, _] = refused(ShapeFaultKind::Rib {
        rib: band(2),
        why: RibFault::IntoRib {
            rib: band(1),
            on: front,
        },
    });
    assert_eq!(
        says,
        "The rib `hoop band 2` cannot be made: it runs into `hoop band 1` on the front 2 panel."
    );
}
