//! Findings of a stage: the whole-tank strength check.

use crate::case::CaseId;
use crate::name::PanelName;
use crate::table::{NotCovered, SourcedValue};
use brimful_geom::boolean::BooleanFault;
use brimful_geom::mesh::MeshFault;
use brimful_geom::offset::OffsetFault;
use brimful_geom::vector::Point3;
use brimful_mech::shell;
use brimful_units::{Force, Pressure};
use schemars::JsonSchema;
use serde::Serialize;

/// The whole-tank strength check.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "kind", content = "data", rename_all = "snake_case")]
pub enum StrengthKind {
    /// No table covers a load case.
    CaseNotCovered(NotCovered),
    /// The tank is no shell that can be computed.
    NoModel(NoModel),
    /// A load case has no equilibrium.
    NoAnswer {
        /// Under which load.
        case: CaseId,
        /// What the solver met.
        fault: shell::Fault,
        /// Where, in the axes of the tank; none where it is no one place.
        #[serde(rename = "near_m")]
        near: Option<Point3>,
    },
    /// The stress in a sheet is over what is allowed.
    SheetOverLimit {
        /// Under which load.
        case: CaseId,
        /// Where it is greatest.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// A panel bulges more than the job allows.
    Bulge {
        /// Under which load.
        case: CaseId,
        /// Where it is greatest.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// A panel buckles at less than the stability factor times a load: the figure is how many times.
    Buckles {
        /// Under which load.
        case: CaseId,
        /// Where it moves most when it goes.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// A seam is on no line of the mesh.
    SeamNotMeshed,
    /// The root of a seam welded from one side is pulled open by more than it takes.
    RootOpens {
        /// Under which load.
        case: CaseId,
        /// Where most.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// The same under a load of seconds, with no more than it takes if its root counts in full.
    RootAtLimit {
        /// Under which load.
        case: CaseId,
        /// Where most.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// The stress in a weld is over what is allowed.
    WeldOverLimit {
        /// Under which load.
        case: CaseId,
        /// Where it is greatest.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// The stress is as near to what is allowed as that is known.
    AtLimit {
        /// Of a weld; of the sheet else.
        weld: bool,
        /// How far the limit or the stress may be off, whichever is more, as a share of it.
        width: f64,
        /// Under which load.
        case: CaseId,
        /// Where it is greatest.
        #[serde(rename = "at_m")]
        at: Point3,
    },
    /// Loads that each are borne add up to more than a panel or seam lasts.
    AddUp {
        /// The share of its life that each takes, most first.
        shares: Vec<(CaseId, f64)>,
    },
    /// It may be over its limit by the estimated error of the mesh.
    WithinMeshError {
        /// Under which load.
        case: CaseId,
    },
    /// The tank tips over or leaves its support.
    Tips {
        /// Under which load.
        case: CaseId,
    },
    /// Neither friction nor a chock keeps the tank from sliding: the figures are what pushes it that way and
    /// what holds it.
    Slides {
        /// Under which load most is to be held.
        case: CaseId,
        /// Which way it would slide.
        toward: Toward,
        /// What is to be held.
        #[serde(rename = "force_n")]
        force: Force,
        /// Friction over the push on the supports; none of straps, which swing with the tank.
        friction: Option<f64>,
    },
    /// A load lifts the tank off its supports.
    Lifts {
        /// Under which load most.
        case: CaseId,
        /// What is to be held down.
        #[serde(rename = "force_n")]
        force: Force,
    },
    /// Nothing is said of the cover of a hatch.
    CoverNotChecked {
        /// Under which load most presses on it.
        case: CaseId,
        /// How much.
        #[serde(rename = "pressure_pa")]
        pressure: Pressure,
        /// All of it together.
        #[serde(rename = "force_n")]
        force: Force,
    },
    /// The stress in a cover of sheet is over what is allowed.
    CoverOverLimit {
        /// Under which load.
        case: CaseId,
    },
    /// A baffle of a moving tank whose job names no event.
    BaffleWithoutEvent,
    /// A rib or stay is too narrow for its thickness to be a thin plate.
    NarrowStrip,
    /// Somebody may stand on the lid, and no panel lies like one.
    NoLid,
    /// Nothing of the full tank bears on its support.
    NotBorne,
    /// What is in the liquid weakens the sheet by a factor that nobody has published.
    MediumFactorUnsure {
        /// The factor.
        of: SourcedValue,
    },
    /// What the check takes for granted.
    Assumptions,
}

/// A level way along an axis of the tank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Toward {
    /// Along x.
    Front,
    /// Against x.
    Rear,
    /// Along y.
    Left,
    /// Against y.
    Right,
}

/// Why a tank is no shell that can be computed.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NoModel {
    /// The body cannot be moved in by half its sheets.
    Body(OffsetFault),
    /// An inner panel cannot be cut off at the middle of the walls.
    InnerPanel {
        /// Which.
        panel: PanelName,
        /// Why; none where it does not reach into the cavity.
        fault: Option<BooleanFault>,
    },
    /// Its flats cannot be meshed.
    Mesh(MeshFault),
    /// Its shell cannot be solved.
    Shell(shell::Fault),
    /// Nothing of it rests on the support of the job.
    NotCarried,
}

/// Why a tank has no score.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NoScore {
    /// No table covers a load case.
    CaseNotCovered(CaseId, NotCovered),
    /// It is no shell that can be computed.
    NoModel(NoModel),
    /// A load case has no equilibrium.
    NoAnswer(CaseId, shell::Fault),
    /// A load case that governs is not there any more.
    CaseGone,
    /// An event comes on top of rest, which is not covered.
    EventWithoutRest,
}
