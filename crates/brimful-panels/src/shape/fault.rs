//! Why a shape of the job cannot be made, as a value with its place; `brimful-text` says it.

use crate::finding::kind::SpacePiece;
use crate::name::{FaceName, HoleName, PanelName};
use crate::table::NotCovered;
use brimful_geom::boolean::BooleanFault;
use brimful_geom::offset::OffsetFault;
use brimful_geom::plate::PlateFault;
use brimful_geom::polygon::OutlineFault;
use brimful_geom::scan::ScanFault;
use brimful_geom::solid::SolidFault;
use brimful_job::{Axis, Place};
use brimful_nest::NestError;
use brimful_units::Length;

/// Why a shape cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub struct ShapeFault {
    /// What is wrong; boxed, as results carry it.
    pub kind: Box<ShapeFaultKind>,
    /// Where it is written; line 0 where it is no one place.
    pub place: Place,
}

impl ShapeFault {
    /// A fault with its place.
    pub fn new(place: &Place, kind: impl Into<ShapeFaultKind>) -> Self {
        Self {
            kind: Box::new(kind.into()),
            place: place.clone(),
        }
    }
}

/// What is wrong with a shape.
#[derive(Clone, Debug, PartialEq)]
pub enum ShapeFaultKind {
    /// A shape as it is drawn.
    Drawn(DrawnFault),
    /// The space as it is measured.
    Space(SpaceFault),
    /// The scan of the space.
    Scan {
        /// The file.
        file: String,
        /// What is wrong with it.
        why: ScanUnusable,
    },
    /// The tank's outside.
    Body(BodyFault),
    /// The panel of a face of the body cannot be cut.
    Panel {
        /// The face.
        panel: FaceName,
        /// Why.
        why: PanelFault,
    },
    /// An opening cannot be cut.
    Opening {
        /// Its name in the job.
        opening: String,
        /// Why.
        why: OpeningFault,
    },
    /// An inner panel cannot be made.
    Inner {
        /// Its name in the job.
        inner: String,
        /// Why.
        why: InnerFault,
    },
    /// A rib cannot be made.
    Rib {
        /// Which band of it.
        rib: RibBand,
        /// Why.
        why: RibFault,
    },
    /// A chock cannot stand where it is said to.
    Chock {
        /// Against which panel.
        panel: FaceName,
        /// Why.
        why: ChockFault,
    },
    /// The maker's order of work names a panel that there is not.
    OwnOrder {
        /// The name in the job.
        panel: String,
        /// The panels there are.
        panels: Vec<PanelName>,
    },
    /// A stage after the panels cannot do its work.
    Whole(WholeFault),
}

/// Why a chock cannot stand against a panel.
#[derive(Clone, Debug, PartialEq)]
pub enum ChockFault {
    /// It is no upright wall.
    NotUpright,
    /// One stands there already.
    Twice,
    /// An opening of the wall, with its flange, lies lower than the chock reaches.
    MeetsOpening {
        /// The opening.
        opening: String,
        /// How high over the wall's foot its lower edge lies.
        free: Length,
    },
    /// A band on the wall does.
    MeetsBand {
        /// The band.
        band: PanelName,
        /// How high over the wall's foot its lower face lies.
        free: Length,
    },
}

/// What is wrong with a shape as it is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawnFault {
    /// Its parts cannot be combined.
    NotCombined(BooleanFault),
    /// Nothing limits it along an axis.
    Unlimited(Axis),
    /// Its views have nothing in common.
    NothingInCommon,
    /// An outline is not simple.
    Outline(OutlineFault),
}

/// What is wrong with a space.
#[derive(Clone, Debug, PartialEq)]
pub enum SpaceFault {
    /// The job gives none, so nothing can be fitted to it.
    Missing,
    /// It is no proper solid.
    NotProper(SolidFault),
    /// Its sections close no solid.
    SectionsOpen(BooleanFault),
    /// A taped room closes no solid.
    TapedOpen(BooleanFault),
    /// The walls of a taped room lean together below its lid.
    WallsMeet,
    /// Opposite sides of the floor differ, and there is no diagonal.
    NoDiagonal,
    /// Two sides of the floor and the diagonal make no triangle.
    NoTriangle(FloorHalf),
    /// Sides and diagonal of the floor cross.
    FloorCrosses,
    /// An obstacle lies outside it.
    ObstacleOutside(String),
    /// A zone that is kept free lies outside it.
    ZoneOutside(String),
    /// No clearance can be kept round an obstacle.
    NoClearance {
        /// Its name in the job.
        obstacle: String,
        /// Why.
        fault: OffsetFault,
    },
    /// The sides of a scan are too many and too small to keep a clearance within.
    TooRough,
    /// Nothing is left once obstacles, clearance and the room above are taken off.
    NothingLeft,
    /// A body that is to take all of it would be in pieces.
    CutUp(Vec<SpacePiece>),
}

/// One of the triangles that the first diagonal makes of a floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FloorHalf {
    /// That of the right and the front side.
    RightAndFront,
    /// That of the left and the rear side.
    LeftAndRear,
}

/// Why a scan gives no space.
#[derive(Clone, Debug, PartialEq)]
pub enum ScanUnusable {
    /// It has not been read.
    NotRead,
    /// With the unit that the job gives it has a size that no space for a tank has.
    Size(Length),
    /// It encloses no solid.
    NoSolid(ScanFault),
}

/// What is wrong with a body.
#[derive(Clone, Debug, PartialEq)]
pub enum BodyFault {
    /// The job gives neither a space nor a body.
    Missing,
    /// A fitted body has no space to be fitted to.
    NothingToFitTo,
    /// No body of that name is offered for the space.
    NotOffered {
        /// The name asked for.
        name: String,
        /// The names on offer.
        offered: Vec<String>,
    },
    /// A cut takes nothing off it.
    IdleCut(String),
    /// Its cuts leave nothing of it.
    NothingLeft,
    /// It falls into so many pieces.
    InPieces(usize),
    /// Its parts cannot be told.
    NotMade(BooleanFault),
    /// A cut leaves a closed hollow inside.
    Hollow,
    /// It is no proper solid.
    NotProper(SolidFault),
    /// A face, by its number from 1, has no area.
    FaceWithoutArea(usize),
    /// Its corners and faces make no proper solid.
    FacesNotProper(SolidFault),
    /// No face of it has this name.
    UnknownFace {
        /// The name in the job.
        name: String,
        /// The faces it has.
        faces: Vec<FaceName>,
    },
    /// Two faces that a joint is chosen for have no edge in common.
    NoCommonEdge([String; 2]),
    /// Sheet leaves no room inside for a face.
    NoRoomInside {
        /// The sheet of the face.
        thickness: Length,
        /// The face.
        face: FaceName,
    },
    /// Sheets of two faces would meet inside.
    SheetsMeet {
        /// The sheet of the first face.
        thickness: Length,
        /// The faces.
        faces: [FaceName; 2],
    },
    /// The panels round a corner cannot be laid out.
    Corner {
        /// The sheet.
        thickness: Length,
        /// The number of the corner, from 1.
        corner: usize,
    },
}

/// Why the panel of a face cannot be cut.
#[derive(Clone, Debug, PartialEq)]
pub enum PanelFault {
    /// Two of its faces meet at too flat or too sharp an angle.
    Fold,
    /// The bevel at one of its edges is too flat.
    FlatBevel,
    /// It is no plate.
    Plate(PlateFault),
}

/// Why an opening cannot be cut.
#[derive(Clone, Debug, PartialEq)]
pub enum OpeningFault {
    /// There is no such panel.
    NoSuchPanel {
        /// The name in the job.
        panel: String,
        /// The panels there are.
        panels: Vec<PanelName>,
    },
    /// Its panel stands inside.
    InInnerPanel(PanelName),
    /// Its panel is a strip of a rib.
    InRib(PanelName),
    /// It does not lie inside its panel.
    OffPanel(PanelName),
    /// It lies across a seam.
    AcrossSeam {
        /// The mark of the seam.
        seam: String,
        /// The panel that stands there.
        standing: PanelName,
        /// The panel with the opening.
        on: PanelName,
    },
    /// It runs into another hole.
    IntoHole(HoleName),
}

/// Why an inner panel cannot be made.
#[derive(Clone, Debug, PartialEq)]
pub enum InnerFault {
    /// A divider has a span.
    DividerWithSpan,
    /// It cannot be cut out of the cavity.
    NotCut(BooleanFault),
    /// It stands outside the cavity.
    Outside,
    /// It stands outside the cavity, or in an outer panel.
    OutsideOrInPanel,
    /// The cavity changes shape within its thickness.
    CavityChanges,
    /// An end of a stay is free.
    FreeStay,
    /// No room is left for it between its gaps.
    NoRoom(PlateFault),
    /// Its tongues would pass a panel at a slant.
    SlantedTongues(PanelName),
    /// A hole does not lie inside it.
    HoleOutside,
}

/// A band of a rib.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RibBand {
    /// The name of the rib in the job.
    pub name: String,
    /// Its number among the bands of the rib, from 1; none where there is only one.
    pub band: Option<usize>,
}

/// Why a rib cannot be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RibFault {
    /// No upright wall reaches its height.
    NoWall,
    /// A panel named does not stand upright.
    NotUpright(FaceName),
    /// A panel named does not reach its height.
    NotReached(FaceName),
    /// It would stand across a corner or past the end of a panel.
    AcrossCorner(FaceName),
    /// Two panels fold back on each other.
    FoldsBack([FaceName; 2]),
    /// It runs into another rib on a panel.
    IntoRib {
        /// The other.
        rib: RibBand,
        /// The panel.
        on: FaceName,
    },
    /// Its end on a panel is too flat to cut.
    FlatEnd(FaceName),
    /// No room is left for its strip on a panel.
    NoRoom(FaceName),
    /// Its end would reach past a panel that it stands against.
    PastPanel(FaceName),
}

/// Why a stage after the panels cannot do its work.
#[derive(Clone, Debug, PartialEq)]
pub enum WholeFault {
    /// There are more panels than a tank is ever welded from.
    TooManyPanels {
        /// The most that are laid out.
        most: usize,
    },
    /// The cavity cannot be divided into rooms for liquid.
    NotDivided(BooleanFault),
    /// The sheet cannot be weighed.
    NotWeighed(NotCovered),
    /// The sheets cannot be laid out.
    NotLaidOut(NestError),
}

impl From<DrawnFault> for ShapeFaultKind {
    fn from(fault: DrawnFault) -> Self {
        Self::Drawn(fault)
    }
}

impl From<SpaceFault> for ShapeFaultKind {
    fn from(fault: SpaceFault) -> Self {
        Self::Space(fault)
    }
}

impl From<BodyFault> for ShapeFaultKind {
    fn from(fault: BodyFault) -> Self {
        Self::Body(fault)
    }
}

impl From<WholeFault> for ShapeFaultKind {
    fn from(fault: WholeFault) -> Self {
        Self::Whole(fault)
    }
}

/// A stage has all faults of a job, so that one fault alone is passed on by `?` too.
impl From<ShapeFault> for Vec<ShapeFault> {
    fn from(fault: ShapeFault) -> Self {
        vec![fault]
    }
}

impl From<WholeFault> for Vec<ShapeFault> {
    fn from(fault: WholeFault) -> Self {
        vec![ShapeFault::new(&Place::default(), fault)]
    }
}
