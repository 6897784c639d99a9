//! The whole-tank check: every panel in one thin shell that is welded along its seams.
//!
//! `midsurface` lays flats in the middle of the sheets, `model` meshes them and says what presses on
//! them, `filled` which rooms are full, `support` what carries them, `chock` what they slide against and
//! `holding` whether that and friction hold them, `loaded` puts a load case together of those, `reaction` reads
//! what each support takes; `lid` where somebody may stand, `fitting` what hangs on an opening;
//! `discretization` finds the equilibrium of the load cases on one mesh, `reader` reads off it what each panel
//! and seam gets (`seam_side`, `notch`, as `figures`) and `tilt` how far the whole leans, `stability` whether it buckles
//! under a little more, `run` goes from mesh to mesh until the figures stand, by what finer meshes add to a
//! `part` (`mesh_growth`). `weld` says what a seam can take, `cover` what the cover of a hatch can, `damage`
//! what all loads take together, `wetting` which liquids weaken which part, `verdict` holds one against the
//! other, `result` is what comes of it, `displacement` the picture. `pull` is apart: what
//! welds draw the panels out of flat while they cool.

mod chock;
mod cover;
mod damage;
mod discretization;
mod displacement;
mod figures;
mod filled;
mod fitting;
mod holding;
mod lid;
mod loaded;
mod mesh_growth;
mod midsurface;
mod model;
mod notch;
mod part;
mod place;
mod pull;
mod reaction;
mod reader;
mod result;
mod run;
mod sample_point;
mod seam_side;
mod stability;
mod support;
mod tank;
mod tilt;
mod verdict;
mod weld;
mod wetting;

pub use brimful_panels::finding::kind::NoScore;
pub use displacement::{Displacement, Mesh};
pub use figures::{Figures, PanelFigure, SeamFigure};
pub use holding::Holding;
pub use lid::SPOT_WIDTH;
pub use pull::{Bow, Greatest, Lean, LeanAt, Misfit, Pull, Sprung, Way, pull};
pub use reaction::Reaction;
pub use result::{
    Buckles, CaseRun, MESH_ERROR, MeshSize, OnSupport, Picture, Pressing, Score, Whole,
};
pub use run::{on_mesh, trial, whole};
pub use stability::STABILITY;
pub use support::{BED_GIVES, BED_PRESSURE, BearerId};
pub use tank::Tank;
pub use weld::Passed;
pub use wetting::CaseLimits;
