//! Shells as a keyword deck for general finite-element programs: the open format of CalculiX
//! (G. Dhondt, *CalculiX CrunchiX user's manual*, chapter "Input deck format"), which its
//! solver `ccx` reads. Plain SI numbers.
//!
//! Triangles are written as S6: a node is put in the middle of every side and shared by the
//! triangles that meet there, since S3 is far too stiff in bending. What `ccx` makes of it: each
//! shell becomes a layer of solid, and nodes where shells meet at an angle, or whose turns are
//! held, become rigid: the sheet cannot thin there. Results are therefore too stiff to the first order
//! in the size of elements, and the more so the greater Poisson's ratio is: a clamped square of 16
//! elements a side by 3.7 % at 0.3 and by 11 % at 0.45 (`tests/outside/check_deck.py`). The head of
//! the file says so. With engineering constants whose thickness ratios are zero, in an orientation a
//! flat, the same mesh is right; other programs have shells that need none of this, so the deck names
//! the sheet as it is.
//!
//! Springs are SPRINGA elements to a far fixed node; a support that only pushes is a GAPUNI
//! element to a fixed node at the same place. `ccx` leaves gaps open in a step with small
//! displacements (seen with version 2.20), so a deck with contacts always asks for large ones.

use crate::error::{FormatError, LARGEST};
use std::collections::BTreeMap;
use std::fmt::Write;

/// A model with one load.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Deck {
    /// What it is, for the head of the file; one line each.
    pub title: Vec<String>,
    /// Places of the nodes, m.
    pub nodes: Vec<[f64; 3]>,
    /// The sheets.
    pub shells: Vec<DeckShell>,
    /// Degrees of freedom held at a value: node, number from 1 to 6 (rotations from 4), m or rad. Where both ends
    /// of a side are held its middle is held too, at their mean.
    pub constraints: Vec<(usize, u8, f64)>,
    /// Elastic supports.
    pub springs: Vec<DeckSpring>,
    /// Supports that only push.
    pub contacts: Vec<DeckContact>,
    /// Forces and moments on nodes: node, degree of freedom from 1 to 6, N or N m.
    pub forces: Vec<(usize, u8, f64)>,
    /// Body acceleration, m/s2: its force on a mass is the mass times it.
    pub body_acceleration: [f64; 3],
    /// Whether displacements are taken as large; with contacts they always are.
    pub large: bool,
}

/// One sheet: triangles of one thickness and material.
#[derive(Clone, Debug, PartialEq)]
pub struct DeckShell {
    /// Name of its set, from which letters, digits and hyphens are kept.
    pub name: String,
    /// Corners of its triangles, as indices of nodes.
    pub triangles: Vec<[usize; 3]>,
    /// Pressure on each triangle, Pa, positive along the normal that its corners go round
    /// counter-clockwise. Empty for none.
    pub pressures: Vec<f64>,
    /// Thickness, m.
    pub thickness: f64,
    /// Young's modulus, Pa.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
    /// Density, kg/m3.
    pub density: f64,
    /// Strain that it would take every way if nothing hindered it: warmth.
    pub growth: f64,
}

/// An elastic support.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DeckSpring {
    /// The node it constraints.
    pub node: usize,
    /// Direction of its force, unit.
    pub direction: [f64; 3],
    /// Force per displacement, N/m.
    pub stiffness: f64,
}

/// A support that only pushes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DeckContact {
    /// The node it pushes.
    pub node: usize,
    /// Direction of the push, unit.
    pub push: [f64; 3],
    /// How far the node moves before it is touched, m.
    pub gap: f64,
    /// Force per depth pressed in, N/m.
    pub stiffness: f64,
}

/// The deck as text. Nodes of the result keep the order of `deck.nodes`, counted from 1; the
/// middles of sides and the fixed ends of springs come after them.
///
/// # Errors
/// [`FormatError::Number`] for a number that is not finite or too large;
/// [`FormatError::BadReference`] for a node that is not there, a degree of freedom beyond 1 to 6, names of
/// sheets that come out the same, or pressures that are not one a triangle.
pub fn write(deck: &Deck) -> Result<String, FormatError> {
    let names = check(deck)?;
    let mut out = String::new();
    for line in &deck.title {
        push(
            &mut out,
            format_args!("** {}", line.replace(['\n', '\r'], " ")),
        );
    }
    push(
        &mut out,
        format_args!("** Metres, newtons, pascals, kilograms, seconds."),
    );
    for line in TOO_STIFF {
        push(&mut out, format_args!("** {line}"));
    }
    let middles = Middles::of(deck);
    let fixed = deck.nodes.len() + middles.places.len();
    write_nodes(&mut out, deck, &middles);
    write_shells(&mut out, deck, &names, &middles);
    let constraints = middles.held(deck);
    write_supports(&mut out, deck, &constraints, fixed);
    write_step(&mut out, deck, &constraints, &names);
    Ok(out)
}

/// What whoever runs the file in `ccx` has to know.
const TOO_STIFF: [&str; 3] = [
    "ccx makes solids of these shells that cannot thin where they meet or are held: as written they",
    "are too stiff, by 5 to 15 % at the Poisson's ratio of plastics. ENGINEERING CONSTANTS with the",
    "same E, nu12 and G, nu13 = nu23 = 0 and an orientation for each set cure that.",
];

/// How far away the fixed ends of springs are put, m, so that their directions turn little when
/// their nodes move.
const REACH: f64 = 1000.0;

/// The nodes in the middles of sides.
struct Middles {
    of: BTreeMap<[usize; 2], usize>,
    places: Vec<[f64; 3]>,
}

impl Middles {
    fn of(deck: &Deck) -> Self {
        let mut middles = Self {
            of: BTreeMap::new(),
            places: Vec::new(),
        };
        for [a, b, c] in deck.shells.iter().flat_map(|s| &s.triangles).copied() {
            for side in [[a, b], [b, c], [c, a]].map(ordered) {
                middles.of.entry(side).or_insert_with(|| {
                    let [from, to] = side.map(|n| deck.nodes[n]);
                    middles
                        .places
                        .push(std::array::from_fn(|k| 0.5 * (from[k] + to[k])));
                    deck.nodes.len() + middles.places.len() - 1
                });
            }
        }
        middles
    }

    /// All constraints, those of the middles after the deck's own.
    fn held(&self, deck: &Deck) -> Vec<(usize, u8, f64)> {
        let own: BTreeMap<(usize, u8), f64> =
            deck.constraints.iter().map(|h| ((h.0, h.1), h.2)).collect();
        let between = self.of.iter().flat_map(|(&[a, b], &middle)| {
            let both = (1..=6).map(move |dof| (dof, (a, dof), (b, dof)));
            let own = &own;
            both.filter_map(move |(dof, a, b)| {
                Some((middle, dof, 0.5 * (own.get(&a)? + own.get(&b)?)))
            })
        });
        deck.constraints.iter().copied().chain(between).collect()
    }
}

fn ordered([a, b]: [usize; 2]) -> [usize; 2] {
    [a.min(b), a.max(b)]
}

fn write_nodes(out: &mut String, deck: &Deck, middles: &Middles) {
    push(out, format_args!("*NODE, NSET=ALL"));
    for (index, place) in deck.nodes.iter().chain(&middles.places).enumerate() {
        push(out, format_args!("{}, {}", index + 1, three(*place)));
    }
    if !deck.springs.is_empty() || !deck.contacts.is_empty() {
        push(out, format_args!("*NODE"));
    }
    let springs = deck.springs.iter().map(|s| (s.node, s.direction, REACH));
    let supports = springs.chain(deck.contacts.iter().map(|c| (c.node, c.push, 0.0)));
    let first = deck.nodes.len() + middles.places.len();
    for (index, (node, direction, reach)) in supports.enumerate() {
        let place = std::array::from_fn(|k| deck.nodes[node][k] - reach * direction[k]);
        push(out, format_args!("{}, {}", first + index + 1, three(place)));
    }
}

fn write_shells(out: &mut String, deck: &Deck, names: &[String], middles: &Middles) {
    let mut element = 0;
    for (shell, name) in deck.shells.iter().zip(names) {
        push(out, format_args!("*ELEMENT, TYPE=S6, ELSET={name}"));
        for [a, b, c] in shell.triangles.iter().copied() {
            element += 1;
            let [ab, bc, ca] = [[a, b], [b, c], [c, a]].map(|side| middles.of[&ordered(side)] + 1);
            push(
                out,
                format_args!(
                    "{element}, {}, {}, {}, {ab}, {bc}, {ca}",
                    a + 1,
                    b + 1,
                    c + 1
                ),
            );
        }
        push(out, format_args!("*MATERIAL, NAME=M-{name}"));
        push(
            out,
            format_args!(
                "*ELASTIC\n{}, {}",
                number(shell.modulus),
                number(shell.poisson)
            ),
        );
        push(out, format_args!("*DENSITY\n{}", number(shell.density)));
        if shell.growth != 0.0 {
            push(out, format_args!("*EXPANSION\n{}", number(shell.growth)));
        }
        push(
            out,
            format_args!(
                "*SHELL SECTION, ELSET={name}, MATERIAL=M-{name}\n{}",
                number(shell.thickness)
            ),
        );
    }
}

/// Springs and contacts; `fixed` is the index of the first fixed node.
fn write_supports(out: &mut String, deck: &Deck, constraints: &[(usize, u8, f64)], fixed: usize) {
    let mut element = deck.shells.iter().map(|s| s.triangles.len()).sum::<usize>();
    let mut other = fixed;
    for spring in &deck.springs {
        (element, other) = (element + 1, other + 1);
        push(
            out,
            format_args!("*ELEMENT, TYPE=SPRINGA, ELSET=SPRING-{element}"),
        );
        push(out, format_args!("{element}, {}, {other}", spring.node + 1));
        push(
            out,
            format_args!(
                "*SPRING, ELSET=SPRING-{element}\n\n{}",
                number(spring.stiffness)
            ),
        );
    }
    for contact in &deck.contacts {
        (element, other) = (element + 1, other + 1);
        push(
            out,
            format_args!("*ELEMENT, TYPE=GAPUNI, ELSET=GAP-{element}"),
        );
        push(
            out,
            format_args!("{element}, {other}, {}", contact.node + 1),
        );
        let (gap, stiffness) = (number(contact.gap), number(contact.stiffness));
        push(
            out,
            format_args!(
                "*GAP, ELSET=GAP-{element}\n{gap}, {}, , {stiffness}, {OPEN_CONTACT_FORCE}",
                three(contact.push)
            ),
        );
    }
    if other > fixed || !constraints.is_empty() {
        push(out, format_args!("*BOUNDARY"));
    }
    for (node, dof, _) in constraints.iter().filter(|h| h.2 == 0.0) {
        push(out, format_args!("{}, {dof}, {dof}", node + 1));
    }
    for node in fixed + 1..=other {
        push(out, format_args!("{node}, 1, 3"));
    }
}

/// Tensile force that an open contact bears, N: the solver wants some, so that an open contact is not
/// singular; this is far below any load of a shell that is worth solving.
const OPEN_CONTACT_FORCE: &str = "1e-6";

fn write_step(out: &mut String, deck: &Deck, constraints: &[(usize, u8, f64)], names: &[String]) {
    if grows(deck) {
        push(
            out,
            format_args!("*INITIAL CONDITIONS, TYPE=TEMPERATURE\nALL, 0."),
        );
    }
    if deck.large || !deck.contacts.is_empty() {
        if !deck.large {
            push(
                out,
                format_args!(
                    "** Supports that only push count in a step with large displacements only."
                ),
            );
        }
        push(
            out,
            format_args!("*STEP, NLGEOM, INC={MOST_INCREMENTS}\n*STATIC\n0.25, 1."),
        );
    } else {
        push(out, format_args!("*STEP\n*STATIC"));
    }
    if constraints.iter().any(|h| h.2 != 0.0) {
        push(out, format_args!("*BOUNDARY"));
    }
    for (node, dof, value) in constraints.iter().filter(|h| h.2 != 0.0) {
        push(
            out,
            format_args!("{}, {dof}, {dof}, {}", node + 1, number(*value)),
        );
    }
    if grows(deck) {
        push(out, format_args!("*TEMPERATURE\nALL, 1."));
    }
    write_loads(out, deck, names);
    // Shells as they were given, at their own nodes, not as the solids that are made of them.
    push(
        out,
        format_args!("*NODE FILE, OUTPUT=2D, FREQUENCY={MOST_INCREMENTS}\nU, RF"),
    );
    push(
        out,
        format_args!("*EL FILE, OUTPUT=2D, FREQUENCY={MOST_INCREMENTS}\nS\n*END STEP"),
    );
}

/// Whether any sheet grows: a change of one degree stands for it, with the growth as its coefficient.
fn grows(deck: &Deck) -> bool {
    deck.shells.iter().any(|shell| shell.growth != 0.0)
}

/// Load increments after which the solver gives up, and which only the last result comes before.
const MOST_INCREMENTS: usize = 1000;

fn write_loads(out: &mut String, deck: &Deck, names: &[String]) {
    let magnitude = deck
        .body_acceleration
        .iter()
        .map(|a| a * a)
        .sum::<f64>()
        .sqrt();
    let pressures = deck.shells.iter().flat_map(|s| {
        let none = s.triangles.iter().skip(s.pressures.len()).map(|_| 0.0);
        s.pressures.iter().copied().chain(none)
    });
    let pressures: Vec<(usize, f64)> = pressures.enumerate().filter(|p| p.1 != 0.0).collect();
    if magnitude > 0.0 || !pressures.is_empty() {
        push(out, format_args!("*DLOAD"));
    }
    for (index, pressure) in pressures {
        push(out, format_args!("{}, P, {}", index + 1, number(pressure)));
    }
    for name in names.iter().filter(|_| magnitude > 0.0) {
        let way = three(deck.body_acceleration.map(|a| a / magnitude));
        push(
            out,
            format_args!("{name}, GRAV, {}, {way}", number(magnitude)),
        );
    }
    if !deck.forces.is_empty() {
        push(out, format_args!("*CLOAD"));
    }
    for (node, dof, value) in &deck.forces {
        push(out, format_args!("{}, {dof}, {}", node + 1, number(*value)));
    }
}

/// Refuses what the solver could not read; gives the names of the sets.
fn check(deck: &Deck) -> Result<Vec<String>, FormatError> {
    let names: Vec<String> = deck.shells.iter().map(|s| set_name(&s.name)).collect();
    for (index, name) in names.iter().enumerate() {
        if name.is_empty() || names[..index].contains(name) {
            return wrong(
                &deck.shells[index].name,
                "its name is empty or another sheet has it too",
            );
        }
    }
    for shell in &deck.shells {
        let numbers = [
            shell.thickness,
            shell.modulus,
            shell.poisson,
            shell.density,
            shell.growth,
        ];
        finite(&shell.name, numbers.iter().chain(&shell.pressures))?;
        if !shell.pressures.is_empty() && shell.pressures.len() != shell.triangles.len() {
            return wrong(&shell.name, "it has not one pressure a triangle");
        }
        let mut corners = shell.triangles.iter().flatten();
        if corners.any(|n| *n >= deck.nodes.len()) {
            return wrong(&shell.name, "a triangle names a node that is not there");
        }
    }
    finite("A node", deck.nodes.iter().flatten())?;
    finite("The acceleration", &deck.body_acceleration)?;
    check_supports(deck)?;
    Ok(names)
}

/// Refuses constraints, forces, springs and contacts that the solver could not read.
fn check_supports(deck: &Deck) -> Result<(), FormatError> {
    let (springs, contacts) = (&deck.springs, &deck.contacts);
    let of_springs = springs
        .iter()
        .flat_map(|s| s.direction.iter().chain([&s.stiffness]));
    finite("A spring", of_springs)?;
    let of_contacts = contacts
        .iter()
        .flat_map(|c| c.push.iter().chain([&c.gap, &c.stiffness]));
    finite("A contact", of_contacts)?;
    let given = || deck.constraints.iter().chain(&deck.forces);
    finite("A constraint or force", given().map(|f| &f.2))?;
    let nodes = given().map(|f| f.0);
    let nodes = nodes.chain(springs.iter().map(|s| s.node));
    let mut nodes = nodes.chain(contacts.iter().map(|c| c.node));
    if nodes.any(|n| n >= deck.nodes.len()) {
        return wrong(
            "supports",
            "a constraint, force, spring or contact names a node that is not there",
        );
    }
    if given().any(|f| !(1..=6).contains(&f.1)) {
        return wrong(
            "supports",
            "a constraint or force names a degree of freedom other than 1 to 6",
        );
    }
    Ok(())
}

fn wrong<T>(solid: &str, what: &str) -> Result<T, FormatError> {
    Err(FormatError::BadReference {
        solid: solid.to_owned(),
        what: what.to_owned(),
    })
}

fn finite<'a>(place: &str, numbers: impl IntoIterator<Item = &'a f64>) -> Result<(), FormatError> {
    match numbers.into_iter().all(|n| n.abs() <= LARGEST) {
        true => Ok(()),
        false => Err(FormatError::Number {
            place: place.to_owned(),
        }),
    }
}

/// A name of a set: upper case, as the solver reads it, and no longer than it keeps apart.
fn set_name(name: &str) -> String {
    let kept = name.chars().map(|c| if c == ' ' { '-' } else { c });
    let kept = kept.filter(|c| c.is_ascii_alphanumeric() || *c == '-');
    kept.map(|c| c.to_ascii_uppercase())
        .take(LONGEST_NAME)
        .collect()
}

/// Names of sets may have 80 characters and those of materials too, with two for `M-` before.
const LONGEST_NAME: usize = 78;

/// A number that the solver reads back to ten digits or more: its fields end at 20 characters.
fn number(value: f64) -> String {
    format!("{value:.11e}")
}

fn three(values: [f64; 3]) -> String {
    values.map(number).join(", ")
}

fn push(out: &mut String, line: std::fmt::Arguments) {
    // Writing to a string cannot fail.
    let _ = out.write_fmt(line);
    out.push('\n');
}

#[cfg(test)]
mod tests;
