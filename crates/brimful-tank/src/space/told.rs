//! What measuring a space showed: rack, twist, misfits and holes. Kept as figures, and said in the
//! units of whoever reads it; lengths that a tape shows are said in mm as well.

use super::NO_VOLUME;
use super::stations::TAPE;
use crate::finding::{Finding, Grade, Quantity};
use brimful_job::{About, Twisted};
use brimful_units::{Length, LengthStyle, UnitSystem, Volume, show};

/// Six measures of one floor that miss each other by more than this hold a mistake, metres: three
/// readings of a tape and what the ends give way (common practice).
const MISFIT: f64 = 5e-3;

/// What was found; metres and cubic metres.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Told {
    /// Something without a figure in its sentence.
    Plain(Finding),
    /// The floor is out of square: how far its far corners stand off along x.
    Racked { rear: f64, front: f64 },
    /// The second diagonal, as measured and as the other measures make it.
    SecondDiagonal { measured: f64, computed: f64 },
    /// The top of a taped room is twisted: by how much, and the volume under it as ruled, under one
    /// flat, and under two triangles.
    TwistedTop {
        faced: Twisted,
        by: f64,
        ruled: f64,
        flat: f64,
        folded: f64,
    },
    /// The tops of the corners lie in no one plane.
    UnevenTop { by: f64 },
    /// Sides between two stations are twisted.
    TwistedSides(TwistedSides),
}

/// Sides between two stations whose four corners lie in no one plane.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TwistedSides {
    /// Where the stations stand.
    pub(super) x: [f64; 2],
    /// Number of each such side, from 0, and how far its fourth corner is off.
    pub(super) off: Vec<(usize, f64)>,
    /// What two triangles a side lose of the ruled space.
    pub(super) lost: f64,
    /// How the job wants them faced.
    pub(super) wanted: Twisted,
    /// Whether one flat a side could be found.
    pub(super) faced: bool,
}

impl Told {
    /// As a finding.
    pub(super) fn finding(&self, about: &About) -> Finding {
        match self {
            Self::Plain(finding) => finding.clone(),
            Self::Racked { rear, front } => racked(about, *rear, *front),
            Self::SecondDiagonal { measured, computed } => {
                second_diagonal(about, *measured, *computed)
            }
            Self::TwistedTop {
                faced,
                by,
                ruled,
                flat,
                folded,
            } => twisted_top(about, *faced, *by, [*ruled, *flat, *folded]),
            Self::UnevenTop { by } => uneven_top(about, *by),
            Self::TwistedSides(sides) => sides.finding(about),
        }
    }
}

/// A length that a tape shows: in mm, and in inches where those are read.
fn taped(about: &About, metres: f64) -> String {
    let length = Length::from_m(metres);
    let millimetres = show::length(length, LengthStyle::Millimetre);
    match about.units {
        UnitSystem::Metric => millimetres,
        UnitSystem::Inch => format!("{millimetres} ({})", Quantity::Length(length).text(about)),
    }
}

/// The same in whole millimetres, as a tape is read.
fn whole(about: &About, metres: f64) -> String {
    taped(about, (metres * 1e3).round() / 1e3)
}

fn signed(metres: f64, text: &str) -> String {
    let sign = if metres > 0.0 { "+" } else { "" };
    format!("{sign}{text}")
}

fn volume(about: &About, cubic: f64) -> String {
    Quantity::Volume(Volume::from_m3(cubic.max(NO_VOLUME))).text(about)
}

/// A figure against what a tape shows.
fn against(finding: Finding, metres: f64, limit: f64) -> Finding {
    finding.figures(
        Quantity::Length(Length::from_m(metres)),
        Quantity::Length(Length::from_m(limit)),
    )
}

fn racked(about: &About, rear: f64, front: f64) -> Finding {
    let says = format!(
        "The floor is racked: its far corners stand {} (rear) and {} (front) along x off square. The racked floor is what is kept to.",
        signed(rear, &whole(about, rear)),
        signed(front, &whole(about, front))
    );
    let finding = Finding::new(Grade::Note, "space", says)
        .source("sides and diagonal as measured")
        .cure("A body with square corners loses that; among what fits a racked one is offered beside it.");
    against(finding, rear.abs().max(front.abs()), TAPE)
}

fn second_diagonal(about: &About, measured: f64, computed: f64) -> Finding {
    let by = measured - computed;
    let wrong = by.abs() > MISFIT;
    let says = format!(
        "The second diagonal was measured as {}; sides and first diagonal make it {}, {} apart.",
        taped(about, measured),
        taped(about, computed),
        signed(by, &taped(about, by))
    );
    let grade = if wrong { Grade::Mend } else { Grade::Note };
    let cure = if wrong {
        "One of the six measures is wrong, or the floor is not flat: measure again."
    } else {
        ""
    };
    let finding = Finding::new(grade, "space", says)
        .source("three readings of a tape (common practice)")
        .cure(cure);
    against(finding, by.abs(), MISFIT)
}

fn twisted_top(about: &About, faced: Twisted, by: f64, [ruled, flat, folded]: [f64; 3]) -> Finding {
    let between = volume(about, folded - flat);
    let (done, kept, other, entry) = match faced {
        Twisted::Flat => (
            "one flat under all four",
            flat,
            format!("Two triangles gain {between} of space for one more panel and a seam."),
            "[space] twisted = \"two triangles\"",
        ),
        Twisted::TwoTriangles => (
            "two triangles with a seam along the lower diagonal",
            folded,
            format!("One flat saves a panel and a seam and loses {between} more."),
            "[space] twisted = \"flat\"",
        ),
    };
    let says = format!(
        "The top is twisted: its fourth corner lies {} off the plane of the other three. It is faced with {done}, which loses {} of the space.",
        whole(about, by),
        volume(about, ruled - kept)
    );
    let finding = Finding::new(Grade::Note, "space", says)
        .source("corner heights as measured; the lid taken as ruled between them")
        .cure(other)
        .entry(entry);
    against(finding, by, TAPE)
}

fn uneven_top(about: &About, by: f64) -> Finding {
    let says = format!(
        "The tops of the corners lie in no one plane: up to {} of height is lost above the flat that stays below all of them.",
        whole(about, by)
    );
    let finding = Finding::new(Grade::Note, "space", says)
        .source("corner heights as measured")
        .cure("Draw the lid by side and front outlines, or by sections, to follow it more closely.")
        .entry("[space] side, front, or [[space.station]]");
    against(finding, by, TAPE)
}

impl TwistedSides {
    fn finding(&self, about: &About) -> Finding {
        let each = self.off.iter();
        let each = each.map(|(side, off)| {
            format!(
                "{} at the side from corner {}",
                whole(about, *off),
                side + 1
            )
        });
        let lost = volume(about, self.lost);
        let done = match (self.wanted, self.faced) {
            (Twisted::Flat, true) => "Each is faced with one flat panel, which leaves all of the ruled side outside it over the tank's own height; two triangles that meet in a seam would follow it more closely.".to_owned(),
            (Twisted::Flat, false) => format!("There are more than two sections, or sections with inside corners, so each is faced with two triangles that meet along the inner diagonal, which loses {lost} of the space."),
            (Twisted::TwoTriangles, _) => format!("Each is faced with two triangles that meet along the inner diagonal, a panel and a seam more a side, which loses {lost} of the space."),
        };
        let [from, to] = self
            .x
            .map(|x| Quantity::Length(Length::from_m(x)).text(about));
        let says = format!(
            "Sides between x = {from} and x = {to} are twisted: the fourth corner lies off the plane of the other three by {}. {done} Twisting the sheet cold instead loads its welds for good, and is not covered.",
            each.collect::<Vec<_>>().join(", ")
        );
        let most = self.off.iter().map(|(_, off)| *off).fold(0.0, f64::max);
        let entry = match (self.wanted, self.faced) {
            (Twisted::Flat, true) => "[space] twisted = \"two triangles\"",
            _ => "",
        };
        let finding = Finding::new(Grade::Note, "space", says)
            .source("the sections as measured, joined by straight lines; Simpson's rule, exact for ruled sides")
            .entry(entry);
        against(finding, most, TAPE)
    }
}
