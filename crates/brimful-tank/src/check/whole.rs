//! The whole-tank check: every panel in one thin shell that is welded along its seams.
//!
//! `middle` lays flats in the middle of the sheets, `model` meshes them and says what
//! presses on them, `support` what carries them, `lid` where
//! somebody may stand, `stage` finds the equilibrium of the load cases on one mesh, `run` goes from
//! mesh to mesh until the figures stand, `moved` is kept for pictures, `figures` reads off what each panel and seam gets, `weld` what a seam can take, `verdict` holds one
//! against the other.

mod figures;
mod filled;
mod lid;
mod middle;
mod model;
mod moved;
mod run;
mod stage;
mod support;
mod verdict;
mod weld;

pub use crate::finding::kind::NoScore;
pub use figures::{Figures, PanelFigure, SeamFigure};
pub use lid::SPOT_WIDTH;
pub use model::Tank;
pub use moved::{Mesh, Moved};
pub use run::{CaseRun, MeshSize, OnSupport, Picture, Score, Whole, trial, whole};
pub use support::{BED_GIVES, BED_PRESSURE, BearerId};
pub use weld::Passed;
