//! What modes move along level directions, and what moves as if frozen.

use super::krylov::dot;
use super::network::Network;

/// What a mode moves along a direction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// Its share of the liquid's mass.
    pub share: f64,
    /// The height at which the mass on its spring pushes, m; none where it moves next to nothing.
    pub height: Option<f64>,
}

/// What moves with the cavity as if frozen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rigid {
    /// Its share of the liquid's mass.
    pub share: f64,
    /// Its height, m.
    pub height: f64,
}

/// Shares below this have no height: both moment and force are what rounding leaves of sums that cancel.
const NEXT_TO_NOTHING: f64 = 1e-8;

/// What a mode moves along x and along y.
pub(super) fn moved(network: &Network, potential: &[f64], eigenvalue: f64) -> [Moved; 2] {
    let on_surface = &potential[network.cells..];
    let norm: f64 = network
        .surface
        .iter()
        .zip(on_surface)
        .map(|(piece, phi)| piece.area * phi * phi)
        .sum();
    [0, 1].map(|axis| {
        let lean: f64 = network
            .surface
            .iter()
            .zip(on_surface)
            .map(|(piece, phi)| piece.area * piece.middle[axis] * phi)
            .sum();
        let share = eigenvalue * lean * lean / norm / network.volume;
        let push = Push::of(network, potential, axis);
        Moved {
            share,
            height: (share > NEXT_TO_NOTHING).then(|| push.moment / push.force - 1.0 / eigenvalue),
        }
    })
}

/// Force along a direction, and its moment about the level axis square to it through the origin, of a potential's pressure on all
/// that the liquid touches but its surface.
struct Push {
    force: f64,
    moment: f64,
}

impl Push {
    /// By the divergence of `phi (z, 0, -x)`: over the walls as over all the liquid less the surface.
    fn of(network: &Network, potential: &[f64], axis: usize) -> Self {
        let mut push = Self {
            force: 0.0,
            moment: 0.0,
        };
        for link in &network.links {
            let [a, b] = link.ends;
            let grown = link.conductance * link.length * (potential[b] - potential[a]);
            if link.axis == axis {
                push.force += grown;
                push.moment += grown * link.place[2];
            } else if link.axis == 2 {
                push.moment -= grown * link.place[axis];
            }
        }
        for (piece, phi) in network.surface.iter().zip(&potential[network.cells..]) {
            push.moment += piece.area * piece.middle[axis] * phi;
        }
        push
    }
}

/// What moves as if frozen along x and along y: what all modes together leave over.
///
/// All modes together are the potential that is `x` on the surface (from its middle in each body of liquid) and follows from it below: its
/// force is the sum of their masses, and its moment that of their first moments of height and of the surface's second moment.
pub(super) fn rigid(network: &Network) -> [Rigid; 2] {
    [0, 1].map(|axis| {
        let middles = middles(network, axis);
        let straight: Vec<f64> = network.places.iter().map(|place| place[axis]).collect();
        let rest = still_on_surface(network, &network.outflow(&straight));
        let mut potential: Vec<f64> = straight.iter().zip(&rest).map(|(x, it)| x - it).collect();
        let mut second = 0.0;
        for (number, piece) in network.surface.iter().enumerate() {
            let from_middle = piece.middle[axis] - middles[network.body[network.cells + number]];
            second += piece.area * from_middle * from_middle;
        }
        for (unknown, value) in potential.iter_mut().enumerate() {
            *value -= middles[network.body[unknown]];
        }
        let push = Push::of(network, &potential, axis);
        let volume = network.volume - push.force;
        Rigid {
            share: volume / network.volume,
            height: (network.volume * network.height - (push.moment - second)) / volume,
        }
    })
}

/// The middle of the surface of each body of liquid.
fn middles(network: &Network, axis: usize) -> Vec<f64> {
    let mut sums = vec![(0.0, 0.0); network.bodies];
    for (piece, &body) in network.surface.iter().zip(&network.body[network.cells..]) {
        sums[body].0 += piece.area * piece.middle[axis];
        sums[body].1 += piece.area;
    }
    sums.into_iter().map(|(first, area)| first / area).collect()
}

/// Residual, as a share of what drives it, at which the iteration stops: the mass is then right to its square.
const STILL: f64 = 1e-8;

/// `K phi = driven` in all cells with `phi = 0` on the surface, by conjugate gradients scaled by the diagonal.
fn still_on_surface(network: &Network, driven: &[f64]) -> Vec<f64> {
    let cells = network.cells;
    let mut diagonal = vec![0.0; network.places.len()];
    for link in &network.links {
        link.ends
            .iter()
            .for_each(|&end| diagonal[end] += link.conductance);
    }
    let mut potential = vec![0.0; network.places.len()];
    let mut residual = driven.to_vec();
    residual[cells..].fill(0.0);
    let scaled = |residual: &[f64]| -> Vec<f64> {
        residual.iter().zip(&diagonal).map(|(r, d)| r / d).collect()
    };
    let mut way = scaled(&residual);
    let mut size = dot(&residual, &way);
    let enough = size * STILL * STILL;
    // In exact arithmetic as many steps as unknowns end it.
    for _ in 0..cells {
        if size <= enough {
            break;
        }
        let mut image = network.outflow(&way);
        image[cells..].fill(0.0);
        let step = size / dot(&way, &image);
        for unknown in 0..cells {
            potential[unknown] += step * way[unknown];
            residual[unknown] -= step * image[unknown];
        }
        let next = scaled(&residual);
        let grown = dot(&residual, &next);
        for unknown in 0..cells {
            way[unknown] = next[unknown] + grown / size * way[unknown];
        }
        size = grown;
    }
    potential
}
