//! How easily potential flow passes from cell to cell: flux over difference of potential, m.
//!
//! Away from plates that is the open area over the distance of the middles. At the edge of a plate, where speed grows
//! without bound, that is wrong by an amount that falls with the first power of the spacing alone, always too low.
//! There the conductance is set to what is right for the flow about the edge itself (`rim`): its exact flux through the
//! open part of the face over its difference between the two middles. Faces within 1.6 spacings of an edge get
//! this (`fitted`), which makes the scheme of second order again. Holes smaller than a few cells come out by the
//! same rule, since the flow through a round hole in a thin wall is known as well.
//!
//! The rule is ours; what it gives is held against published modes (`verify/slosh`).

mod fitted;
mod quadrature;
mod rim;

pub(crate) use fitted::conductances;
