//! Stability with a factor: whether a tank buckles under less than [`STABILITY`] times a load.
//!
//! First by the linear theory, at the price of one factorization: how many buckling factors lie below that
//! (`mech::shell::modes`). Where one does the load is really raised so far, by the nonlinear path, since a
//! thin sheet that has left its plane may carry on; what is not stable there, or has no answer, buckles. A strip
//! with free edges, a stay, a rib or a baffle between two walls, does not carry on: for it the linear factor
//! counts, and that stays about one however far it has already bent out.

use brimful_mech::shell::model::{Load, Shell};
use brimful_mech::shell::modes::{self, Mode, buckling_factors_below};
use brimful_mech::shell::nonlinear::{Prior, Steps, solve_near};
use brimful_mech::shell::{Fault, State, System, Workspace};

/// How many times a load must be borne without buckling: 2, as in the rules for plastic tanks (DVS 2205-2
/// and EN 1778, from memory).
pub const STABILITY: f64 = 2.0;

/// A factor of the first mesh, six elements across, may be too large by this share: 1.6 % at eight at most
/// (docs/verification.md, buckling of rectangles), falling with the second order.
const COARSE: f64 = 0.03;

/// Where no factor lies below this one no finer mesh is asked again: far more than two meshes differ by.
const CLEAR: f64 = 1.25 * STABILITY;

/// Modes that are looked for one of a strip among.
const MODES: usize = 8;

/// How the load is raised: whether it is borne at all asks for less than its figures do.
const RAISED: Steps = Steps {
    first: 1.0,
    least: 1.0 / 8.0,
    iterations: 12,
    tolerance: 1e-4,
};

/// A load that buckles a tank, or cannot be shown not to, at less than [`STABILITY`] times its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buckling {
    /// The lowest buckling factor of the linear theory.
    pub factor: f64,
    /// Node that moves most.
    pub node: usize,
}

/// What is known of the stability under a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stability {
    /// It buckles.
    Buckles(Buckling),
    /// It does not.
    Stable,
    /// It does not, by so much that a finer mesh can say nothing else.
    Clear,
}

/// Looks for buckling under a load that came to rest at `state`; `on_strip` says of each node whether it is one
/// of a strip with free edges.
///
/// # Errors
/// The engine's, for a state of another shell, or where a factor below [`STABILITY`] is not found.
pub fn stability(
    shell: &Shell,
    load: &Load,
    system: &System,
    workspace: &mut Workspace,
    prior: Option<&Prior<'_>>,
    state: &State,
    on_strip: &[bool],
) -> Result<Stability, Fault> {
    let asked = STABILITY * (1.0 + COARSE);
    let mut below = |factor: f64| {
        match buckling_factors_below(factor, shell, system, workspace, load, state) {
            // A pivot of zero is a factor that is just that.
            Err(Fault::Mechanism { .. }) => Ok(1),
            other => other,
        }
    };
    if below(CLEAR)? == 0 {
        return Ok(Stability::Clear);
    }
    let below = below(asked)?;
    if below == 0 {
        return Ok(Stability::Stable);
    }
    let mut modes = |count| modes::buckling(shell, system, workspace, load, state, count);
    let lowest = match modes(below.min(MODES)) {
        Err(Fault::ModesNotConverged { .. }) => modes(1)?,
        found => found?,
    };
    let named = |mode: &Mode| Buckling {
        factor: mode.value,
        node: most_moved(mode),
    };
    let mut modes = lowest.iter().map(named);
    if let Some(strip) = modes.find(|mode| on_strip[mode.node] && mode.factor < asked) {
        return Ok(Stability::Buckles(strip));
    }
    // Behind so many others one of a strip may be hidden.
    if below > lowest.len() && on_strip.contains(&true) {
        return Ok(by(lowest.first().map(named)));
    }
    let raised = times(load, STABILITY);
    let is_borne = solve_near(shell, system, workspace, &raised, prior, state, &RAISED).is_ok();
    Ok(by(lowest.first().map(named).filter(|_| !is_borne)))
}

fn by(lowest: Option<Buckling>) -> Stability {
    lowest.map_or(Stability::Stable, Stability::Buckles)
}

fn most_moved(mode: &Mode) -> usize {
    let moves = |[x, y, z, ..]: &[f64; 6]| x.hypot(*y).hypot(*z);
    let nodes = mode.shape.iter().enumerate();
    let most = nodes.max_by(|(_, a), (_, b)| moves(a).total_cmp(&moves(b)));
    most.map_or(0, |(node, _)| node)
}

/// A load so many times over.
fn times(load: &Load, factor: f64) -> Load {
    let mut load = load.clone();
    let pressures = load.pressures.iter_mut().flatten();
    pressures.for_each(|pressure| *pressure *= factor);
    load.body_acceleration = load.body_acceleration * factor;
    let forces = load.forces.iter_mut().flat_map(|(_, force)| force);
    forces.for_each(|force| *force *= factor);
    for strain in &mut load.initial_strains {
        let parts = strain.stretch.iter_mut().chain(&mut strain.curvature);
        parts.for_each(|part| *part *= factor);
    }
    load
}
