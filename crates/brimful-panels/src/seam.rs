//! Seams: the lines where two panels meet and are welded.

use brimful_geom::vector::Point3;
use brimful_units::{Angle, Length};

/// How the two panels of a seam meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// Square edges whose inner (at a re-entrant edge: outer) corners meet; the rod fills the
    /// open groove on the other side.
    OpenCorner,
    /// One panel runs through to the other's far face, the other butts against it.
    ThroughAndButt {
        /// Number of the panel that runs through.
        through: usize,
    },
    /// Both panels are bevelled to half the angle.
    Mitred,
    /// An inner panel or a rib stands on another panel, welded along its foot.
    Tee,
    /// Tongues of an inner panel pass through the other panel and are welded outside.
    SlotThrough,
    /// Two pieces of one panel in line, or two strips of a rib round a corner.
    Butt,
}

/// A line where two panels are welded.
#[derive(Clone, Debug, PartialEq)]
pub struct Seam {
    /// Its short mark: S1, S2, ...
    pub mark: String,
    /// Numbers of the two panels.
    pub panels: [usize; 2],
    /// How they meet.
    pub joint: Joint,
    /// The root line on the liquid side, end to end. For a tee the middle of the standing panel's
    /// foot; for the butt between two strips of a rib, on their lower faces.
    pub inner_line: [Point3; 2],
    /// The line on the dry side; for a tee none.
    pub outer_line: Option<[Point3; 2]>,
    /// Angle through the material between the two panels' outside faces, over 180 degrees
    /// at a re-entrant edge; for a tee the angle between panel and land on the sharper side.
    pub angle: Angle,
    /// Root gap between the two edges.
    pub gap: Length,
}

impl Seam {
    /// Length to be welded, along the inner line.
    pub fn length(&self) -> Length {
        Length::from_m(self.inner_line[0].distance(self.inner_line[1]))
    }
    /// Whether the panels stand in each other's way outside (an inside corner of the body).
    pub fn is_re_entrant(&self) -> bool {
        self.angle > Angle::from_deg(180.0)
    }
}
