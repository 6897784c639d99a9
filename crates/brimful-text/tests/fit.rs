//! What fits a space, and how it gets in, in words.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use brimful_geom::offset::OffsetFault;
use brimful_job::{Axis, Job};
use brimful_panels::candidate::GivenUp;
use brimful_panels::finding::kind::{FitKind, NotOffered, RemedyKind, RoomKind, WayInKind};
use brimful_panels::finding::{Finding, Grade, Kind, Part, Subject};
use brimful_panels::name::{CandidateName, CandidateShape, Letter, View};
use brimful_panels::progress::Step;
use brimful_panels::way_in::{
    EntrySummary, FittingsOnWay, NoWay, NoWayWhole, PieceFittings, PieceNeed, PiecesSummary,
};
use brimful_tank::offer::{GainChange, LeftOut, Trade};
use brimful_tank::remedy::{AutoResult, Variant, What};
use brimful_text::{Language, UnitSystem, Words, change_entry};
use brimful_units::{Length, Volume};

fn job() -> Job {
    Job::parse("[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n").unwrap()
}

fn mm(length: f64) -> Length {
    Length::from_mm(length)
}

fn found(kind: impl Into<Kind>) -> Finding {
    Finding::of(Grade::Stop, Subject::Part(Part::Fit), kind)
}

fn c_from_the_front() -> CandidateName {
    CandidateName {
        space_piece: Some(2),
        number: 3,
        ..CandidateName::of(CandidateShape::Letter(Letter::C, View::Front))
    }
}

/// What is said in English is the key, so that what is read can be typed.
#[test]
fn a_candidate_is_called_by_its_key() {
    let job = job();
    let words = Words::new(&job, Language::English);
    let in_pieces = CandidateName {
        in_pieces: true,
        ..CandidateName::of(CandidateShape::EveryFacet)
    };
    let shapes = [
        (CandidateShape::EveryFacet, "every facet"),
        (CandidateShape::PlainBox, "plain box"),
        (CandidateShape::TurnedBox, "turned box"),
        (CandidateShape::Letter(Letter::T, View::Above), "T"),
        (
            CandidateShape::Letter(Letter::L, View::Side),
            "L from the side",
        ),
        (CandidateShape::Wedge, "wedge"),
        (CandidateShape::LeaningBox, "leaning box"),
        (CandidateShape::Convex(7), "convex, 7 faces"),
        (CandidateShape::Faces(9), "9 faces"),
    ];
    let shapes = shapes.map(|(shape, key)| (CandidateName::of(shape), key));
    let more = [
        (c_from_the_front(), "C from the front in piece 2 3"),
        (in_pieces, "every facet, in pieces"),
    ];
    for (name, key) in shapes.into_iter().chain(more) {
        assert_eq!(name.to_string(), key);
        assert_eq!(words.candidate(&name).as_str(), key);
    }
}

#[test]
fn a_trade_is_said_from_either_side() {
    let job = job();
    let words = Words::new(&job, Language::English);
    let mut trade = Trade {
        other: CandidateName::of(CandidateShape::EveryFacet),
        rated: Volume::from_litres(12.0),
        panels: 2,
        seams: Some(Length::from_m(1.5)),
    };
    let [gives_up, gains] = [words.gives_up(Some(&trade)), words.next_gains(&trade)];
    assert_eq!(
        gives_up.as_str(),
        "12 L against `every facet`, for 2 panels fewer and 1.5 m of seam less"
    );
    assert_eq!(
        gains.as_str(),
        "`every facet` gains 12 L for 2 panels more and 1.5 m of seam more"
    );
    (trade.panels, trade.seams) = (0, None);
    let gains = words.next_gains(&trade);
    assert!(gains.as_str().ends_with("for the same panels and seams"));
    assert_eq!(words.gives_up(None).as_str(), "nothing: it holds most");
}

#[test]
fn a_step_is_said_in_the_units_of_whoever_waits() {
    let job = job();
    let words = Words::new(&job, Language::English);
    let step = Step::TryingChange(What::Both(
        Box::new(What::OuterSheets(mm(12.0))),
        Box::new(What::Baffles {
            across: Axis::X,
            at: vec![mm(254.0)],
        }),
    ));
    let says = |system| String::from(words.in_units(system).progress(&step));
    assert_eq!(
        says(UnitSystem::Metric),
        "trying: Outer sheets of 12 mm. 1 baffle across x, at 254 mm."
    );
    assert!(says(UnitSystem::Inch).ends_with("1 baffle across x, at 10 in."));
    let Step::TryingChange(what) = &step else {
        unreachable!()
    };
    assert_eq!(change_entry(what), "[[inner]] kind = \"baffle\"");
}

#[test]
fn a_piece_lists_what_it_needs() {
    let job = job();
    let words = Words::new(&job, Language::English);
    let mut piece = PieceFittings {
        names: vec!["tap".to_owned()],
        lacks: vec![PieceNeed::Vent, PieceNeed::Hatch],
    };
    assert_eq!(
        words.piece_fittings(&piece).as_str(),
        "has tap and needs a vent and a way in for a hand of its own"
    );
    piece.lacks.clear();
    assert_eq!(words.piece_fittings(&piece).as_str(), "has tap");
}

#[test]
fn the_reason_that_nothing_is_offered_is_said_with_its_body() {
    let job = job();
    let words = Words::new(&job, Language::English);
    let why = NotOffered::SheetTooThick {
        thickness: mm(8.0),
        fault: OffsetFault::FaceVanishes { face: 0 },
    };
    let kind = |opening| FitKind::NothingOffered {
        opening,
        largest: Some((CandidateName::of(CandidateShape::EveryFacet), why.clone())),
    };
    let through = words.finding(&found(kind(Some([mm(300.0), mm(200.0)]))));
    assert_eq!(
        through.says.as_str(),
        "No body can be offered that passes the opening of 300 mm by 200 mm: `every facet` cannot be built: sheet of 8 mm is too thick for it (face 1 has no room for the distance)."
    );
    let free = words.finding(&found(kind(None)));
    assert!(free.says.as_str().starts_with("No body can be offered: `"));
}

/// Words of each kind that no example brings about.
#[test]
fn every_word_is_in_a_template() {
    let job = job();
    let words = Words::new(&job, Language::Pseudo);
    let name = c_from_the_front();
    let no_way = NoWay {
        why: NoWayWhole::NoAttitude { proven: false },
        nor_in_pieces: true,
    };
    let fittings = FittingsOnWay {
        on: vec!["1".to_owned()],
        after: vec!["2".to_owned()],
        unstated: vec!["3".to_owned()],
    };
    let pieces = PiecesSummary { count: 2, lost: 1 };
    let variant = Variant {
        sheet: Some(mm(6.0)),
        baffles: Some(vec![mm(300.0), mm(600.0)]),
    };
    let findings: [Kind; 5] = [
        RoomKind::FittingsUnstated(vec!["1".to_owned()]).into(),
        WayInKind::NotFound(no_way.clone()).into(),
        WayInKind::GoesIn {
            entry: EntrySummary::Pushed { moves: 2 },
            fittings: fittings.clone(),
        }
        .into(),
        RemedyKind::AutoSelected {
            tried: vec![(variant.clone(), AutoResult::Unsure)],
            taken: 0,
        }
        .into(),
        FitKind::InPieces {
            body: name.clone(),
            pieces: 2,
            unplaced: true,
        }
        .into(),
    ];
    let findings = findings.map(|kind| words.finding(&found(kind)));
    let findings = findings
        .into_iter()
        .flat_map(|it| [it.says, it.cure, it.source]);
    let values = [
        words.candidate(&name),
        words.given_up(&[GivenUp::ToPassWayIn, GivenUp::LargestBox]),
        words.left_out_body(&LeftOut::Beaten(name.clone())),
        words.gain(&GainChange::TwoTriangles),
        words.way_in(&EntrySummary::Pieces(pieces)),
        words.fittings_on_way(&fittings),
        words.progress(&Step::TryingVariant(variant)),
    ];
    for text in findings.chain(values) {
        let text = text.as_str().replace(" mm", "");
        let mut before = ' ';
        for letter in text.chars() {
            let begins = letter.is_alphabetic() && !before.is_alphabetic();
            assert!(!begins || before == '\u{b7}', "{text}");
            before = letter;
        }
    }
}
