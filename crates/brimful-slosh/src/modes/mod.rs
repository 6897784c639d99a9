//! Small waves: the natural modes of a liquid with a free surface in a cavity at rest.
//!
//! Potential flow. On a [`Grid`](crate::grid::Grid) whose top is the still surface the potential `phi` has a value in the middle of each cell and on each
//! open surface face; `K phi = lambda M phi` with the conductances in `K` and the surface areas in `M`, and
//! `omega^2 = g lambda` (`network`, `spectrum`). The modes with the lowest `lambda` come from a block of Krylov vectors of
//! `M^1/2 (K + s M)^-1 M^1/2`; the constants, one for each body of liquid that is joined below its surface, are known and kept out.
//!
//! What a mode moves (`moved`) is that of a mass on a spring: H. N. Abramson (ed.), *The Dynamic Behavior of Liquids in
//! Moving Containers*, NASA SP-106 (1966), chapter 6 (from memory). Along a level direction x, for a density of one,
//! `m_n = lambda_n X_n^2 / N_n`, with `X_n` the integral of `x phi` and `N_n` that of `phi^2` over the surface. Its height is that of the
//! moment of the mode's pressure on walls, floor and plates over its force, less `1 / lambda_n` for the weight that moves with it.
//! What is left over moves as if frozen: its mass and height are those of the liquid while the surface has no time to move, `phi = 0` on it.
//! Both add up exactly: the masses to that of the liquid, and their first moments of height to its own.
//!
//! Figures are of second order in the spacing; [`estimated`] gives them with an error from two grids.
//!
//! Left out: waves that are not small, viscosity and what edges and openings take of the motion, the air, the give of the walls.

mod estimate;
mod fault;
mod krylov;
mod moved;
mod network;
mod spectrum;

pub use estimate::{Estimated, estimated, sweep};
pub use fault::ModesFault;
pub use moved::{Moved, Rigid};
pub use network::SurfaceCell;
pub use spectrum::{Mode, Modes, modes};
