//! What measuring a space shows of itself: rack, twist and misfits, graded against what a tape
//! shows.

use super::tolerance::{NO_VOLUME, TAPE};
use crate::finding::kind::SpaceKind;
use crate::finding::{Finding, Grade, Part, Quantity, Subject};
use brimful_job::Twisted;
use brimful_units::{Length, Volume};

/// Six measures of one floor that miss each other by more than this hold a mistake, metres: three
/// readings of a tape and what the ends give way (common practice).
const MISFIT: f64 = 5e-3;

/// A finding about the space.
pub(super) fn of_space(grade: Grade, kind: SpaceKind) -> Finding {
    Finding::of(grade, Subject::Part(Part::Space), kind)
}

/// With a length against its limit, metres.
fn against(finding: Finding, metres: f64, limit: f64) -> Finding {
    finding.figures(
        Quantity::Length(Length::from_m(metres)),
        Quantity::Length(Length::from_m(limit)),
    )
}

/// The floor is out of square: how far its far corners stand off along x, metres.
pub(super) fn racked(rear: f64, front: f64) -> Finding {
    let kind = SpaceKind::Racked {
        rear: Length::from_m(rear),
        front: Length::from_m(front),
    };
    let most = rear.abs().max(front.abs());
    against(of_space(Grade::Note, kind), most, TAPE)
}

/// The second diagonal, as measured and as the other measures make it, metres.
pub(super) fn second_diagonal(measured: f64, computed: f64) -> Finding {
    let by = (measured - computed).abs();
    let misfit = by > MISFIT;
    let grade = if misfit { Grade::Mend } else { Grade::Note };
    let kind = SpaceKind::SecondDiagonal {
        measured: Length::from_m(measured),
        computed: Length::from_m(computed),
        misfit,
    };
    against(of_space(grade, kind), by, MISFIT)
}

/// The volumes under a twisted top, m3: as ruled, under one flat, and under two triangles.
pub(super) struct UnderTop {
    pub(super) ruled: f64,
    pub(super) flat: f64,
    pub(super) folded: f64,
}

/// The top of a taped room is twisted by so many metres.
pub(super) fn twisted_top(faced: Twisted, by: f64, under: &UnderTop) -> Finding {
    let kept = match faced {
        Twisted::Flat => under.flat,
        Twisted::TwoTriangles => under.folded,
    };
    let kind = SpaceKind::TwistedTop {
        faced,
        by: Length::from_m(by),
        lost: volume(under.ruled - kept),
        between: volume(under.folded - under.flat),
    };
    against(of_space(Grade::Note, kind), by, TAPE)
}

/// The tops of the corners lie in no one plane; so many metres of height are lost.
pub(super) fn uneven_top(by: f64) -> Finding {
    let kind = SpaceKind::UnevenTop {
        by: Length::from_m(by),
    };
    against(of_space(Grade::Note, kind), by, TAPE)
}

/// Sides between two stations whose four corners lie in no one plane; metres and cubic metres.
pub(super) struct TwistedSides {
    /// Where the stations stand.
    pub(super) x: [f64; 2],
    /// Number of each such side, from 0, and how far its fourth corner is off.
    pub(super) off: Vec<(usize, f64)>,
    /// What two triangles a side lose of the ruled space.
    pub(super) lost: f64,
    /// How the job wants them faced.
    pub(super) wanted: Twisted,
    /// Whether one flat a side was found.
    pub(super) flat: bool,
}

impl TwistedSides {
    pub(super) fn finding(&self) -> Finding {
        let sides = self.off.iter();
        let kind = SpaceKind::TwistedSides {
            x: self.x.map(Length::from_m),
            sides: sides
                .map(|(side, off)| (side + 1, Length::from_m(*off)))
                .collect(),
            lost: volume(self.lost),
            wanted: self.wanted,
            flat: self.flat,
        };
        let most = self.off.iter().map(|(_, off)| *off).fold(0.0, f64::max);
        against(of_space(Grade::Note, kind), most, TAPE)
    }
}

/// A volume that is not below zero but for rounding.
fn volume(cubic: f64) -> Volume {
    Volume::from_m3(cubic.max(NO_VOLUME))
}
