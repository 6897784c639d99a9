//! Structure of decks; `tests/outside/check_deck.py` has a solver read them.

use super::*;

/// A square plate of two triangles with one corner on a spring and one over a contact.
fn deck() -> Deck {
    Deck {
        title: vec!["a square".into()],
        nodes: vec![
            [0.0, 0.0, 0.0],
            [1.0, 0.0, 0.0],
            [1.0, 1.0, 0.0],
            [0.0, 1.0, 0.0],
        ],
        shells: vec![DeckShell {
            name: "wall 1".into(),
            triangles: vec![[0, 1, 2], [0, 2, 3]],
            pressures: vec![0.0, 250.0],
            thickness: 0.01,
            modulus: 1e9,
            poisson: 0.4,
            density: 950.0,
            growth: 0.0,
        }],
        constraints: vec![(0, 1, 0.0), (0, 2, 0.0), (1, 2, 0.0), (1, 3, 0.002)],
        springs: vec![DeckSpring {
            node: 2,
            direction: [0.0, 0.0, 1.0],
            stiffness: 1e4,
        }],
        contacts: vec![DeckContact {
            node: 3,
            push: [0.0, 0.0, 1.0],
            gap: 0.001,
            stiffness: 1e6,
        }],
        forces: vec![(2, 3, -10.0)],
        body_acceleration: [0.0, 0.0, -9.81],
        large: true,
    }
}

/// Data lines of the first keyword that begins so.
fn data<'a>(text: &'a str, keyword: &str) -> Vec<&'a str> {
    let lines = text.lines().skip_while(|l| !l.starts_with(keyword)).skip(1);
    lines.take_while(|l| !l.starts_with('*')).collect()
}

#[test]
fn a_side_has_one_middle() {
    let text = write(&deck()).unwrap();
    assert_eq!(data(&text, "*NODE, NSET=ALL").len(), 4 + 5);
    assert_eq!(
        data(&text, "*ELEMENT, TYPE=S6, ELSET=WALL-1"),
        ["1, 1, 2, 3, 5, 6, 7", "2, 1, 3, 4, 7, 8, 9"]
    );
}

#[test]
fn loads_and_supports_are_where_they_belong() {
    let text = write(&deck()).unwrap();
    let loads = data(&text, "*DLOAD");
    assert!(loads[0].starts_with("2, P, 2.5"), "{loads:?}");
    assert!(loads[1].starts_with("WALL-1, GRAV, 9.81"), "{loads:?}");
    // The middle between two constraints is held. Fixed ends count on after the nodes and the middles; the step holds what is not zero.
    assert_eq!(
        data(&text, "*BOUNDARY"),
        [
            "1, 1, 1", "1, 2, 2", "2, 2, 2", "5, 2, 2", "10, 1, 3", "11, 1, 3"
        ]
    );
    let step = &text[text.find("*STEP").unwrap()..];
    assert!(data(step, "*BOUNDARY")[0].starts_with("2, 3, 3, 2.0"));
    assert!(step.starts_with("*STEP, NLGEOM"));
    assert_eq!(data(&text, "*ELEMENT, TYPE=GAPUNI"), ["4, 11, 4"]);
}

/// One degree more, with the growth as the coefficient of expansion.
#[test]
fn growth_is_a_change_of_one_degree() {
    let mut deck = deck();
    assert!(!write(&deck).unwrap().contains("TEMPERATURE"));
    deck.shells[0].growth = 0.002;
    let text = write(&deck).unwrap();
    assert!(data(&text, "*EXPANSION")[0].starts_with("2.0"));
    assert_eq!(
        data(&text, "*INITIAL CONDITIONS, TYPE=TEMPERATURE"),
        ["ALL, 0."]
    );
    let (_, step) = text.split_once("*STEP").unwrap();
    assert_eq!(data(step, "*TEMPERATURE"), ["ALL, 1."]);
    deck.shells[0].growth = f64::NAN;
    assert!(matches!(write(&deck), Err(FormatError::Number { .. })));
}

#[test]
fn what_cannot_be_read_is_refused() {
    let spoil = |change: fn(&mut Deck)| {
        let mut deck = deck();
        change(&mut deck);
        write(&deck).unwrap_err()
    };
    let number = |e| matches!(e, FormatError::Number { .. });
    let reference = |e| matches!(e, FormatError::BadReference { .. });
    assert!(number(spoil(|d| d.nodes[0][2] = f64::NAN)));
    assert!(number(spoil(|d| d.shells[0].modulus = f64::INFINITY)));
    assert!(reference(spoil(|d| d.constraints[0].1 = 7)));
    assert!(reference(spoil(|d| d.springs[0].node = 4)));
    assert!(reference(spoil(|d| d.shells[0].triangles[0][0] = 9)));
    assert!(reference(spoil(|d| d.shells[0].pressures.truncate(1))));
    assert!(reference(spoil(|d| d.shells.push(d.shells[0].clone()))));
}
