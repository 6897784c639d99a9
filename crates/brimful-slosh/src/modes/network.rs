//! The liquid as a network: cells and surface faces joined by conductances.

use super::fault::ModesFault;
use crate::cavity::Cavity;
use crate::conductance::conductances;
use crate::grid::Grid;

/// A piece of the still surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SurfaceCell {
    /// Where its column stands along x and y.
    pub column: [usize; 2],
    /// The middle of the column, m.
    pub middle: [f64; 2],
    /// How much of it is surface, m2.
    pub area: f64,
}

/// Two unknowns that liquid passes between.
pub(super) struct Link {
    /// The lower and the higher one along the axis.
    pub ends: [usize; 2],
    /// Along which axis.
    pub axis: usize,
    /// Flux over difference of potential, m.
    pub conductance: f64,
    /// How far apart the ends are, m.
    pub length: f64,
    /// The middle of what is open between them.
    pub place: [f64; 3],
}

/// The liquid that is joined to a surface. Cells come first among the unknowns, then the surface faces.
pub(super) struct Network {
    /// How many unknowns are cells.
    pub cells: usize,
    /// Where each unknown is.
    pub places: Vec<[f64; 3]>,
    pub links: Vec<Link>,
    pub surface: Vec<SurfaceCell>,
    /// Which body of liquid each unknown belongs to: within one it is joined below the surface.
    pub body: Vec<usize>,
    pub bodies: usize,
    /// The liquid, m3.
    pub volume: f64,
    /// The height of its middle, m.
    pub height: f64,
    /// What no surface is joined to, m3.
    pub shut_in: f64,
}

impl Network {
    /// The liquid below a level.
    pub fn below(cavity: &Cavity, level: f64, spacing: [f64; 3]) -> Result<Self, ModesFault> {
        let grid = Grid::spaced(cavity, level, spacing)?;
        let conductances = conductances(cavity, &grid)?;
        let joined = Joined::of(&grid, &conductances);
        if joined.bodies == 0 {
            return Err(ModesFault::NoSurface);
        }
        Ok(joined.network(&grid, &conductances))
    }
}

/// Which body a cell belongs to, by cell; none where it is joined to no surface.
struct Joined {
    body: Vec<Option<usize>>,
    bodies: usize,
}

impl Joined {
    /// Follows the liquid down from the surface.
    fn of(grid: &Grid, conductances: &[Vec<f64>; 3]) -> Self {
        let [nx, ny, nz] = grid.size();
        let mut joined = Self {
            body: vec![None; nx * ny * nz],
            bodies: 0,
        };
        for j in 0..ny {
            for i in 0..nx {
                let top = grid.cell([i, j, nz - 1]);
                let is_open = conductances[2][grid.face(2, [i, j, nz])] > 0.0;
                if is_open && joined.body[top].is_none() {
                    joined.follow(top, grid, conductances);
                    joined.bodies += 1;
                }
            }
        }
        joined
    }

    fn follow(&mut self, first: usize, grid: &Grid, conductances: &[Vec<f64>; 3]) {
        let body = Some(self.bodies);
        let mut stack = vec![first];
        self.body[first] = body;
        while let Some(cell) = stack.pop() {
            let place = grid.place_of_cell(cell);
            for axis in 0..3 {
                for (side, conductance) in conductances_beside(grid, conductances, axis, place) {
                    let next = grid.cell(side);
                    if conductance > 0.0 && self.body[next].is_none() {
                        self.body[next] = body;
                        stack.push(next);
                    }
                }
            }
        }
    }

    fn network(&self, grid: &Grid, conductances: &[Vec<f64>; 3]) -> Network {
        let [nx, ny, nz] = grid.size();
        let mut network = Network {
            cells: 0,
            places: Vec::new(),
            links: Vec::new(),
            surface: Vec::new(),
            body: Vec::new(),
            bodies: self.bodies,
            volume: 0.0,
            height: 0.0,
            shut_in: 0.0,
        };
        let mut unknown = vec![None; self.body.len()];
        for (cell, body) in self.body.iter().enumerate() {
            let Some(body) = *body else {
                network.shut_in += grid.volume(cell);
                continue;
            };
            network.body.push(body);
            let place = grid.place_of_cell(cell);
            unknown[cell] = Some(network.places.len());
            network
                .places
                .push([0, 1, 2].map(|axis| grid.middle(axis, place[axis])));
            network.volume += grid.volume(cell);
            network.height += grid.volume(cell) * grid.middle(2, place[2]);
        }
        network.height /= network.volume;
        network.cells = network.places.len();
        for (cell, &end) in unknown.iter().enumerate() {
            let place = grid.place_of_cell(cell);
            let Some(end) = end else { continue };
            for axis in (0..3).filter(|&axis| place[axis] > 0) {
                let mut before = place;
                before[axis] -= 1;
                let face = grid.face(axis, place);
                if let (Some(start), true) =
                    (unknown[grid.cell(before)], conductances[axis][face] > 0.0)
                {
                    network.join([start, end], axis, conductances[axis][face], grid, face);
                }
            }
        }
        for j in 0..ny {
            for i in 0..nx {
                let top = grid.cell([i, j, nz - 1]);
                let face = grid.face(2, [i, j, nz]);
                if let (Some(below), Some(body), true) =
                    (unknown[top], self.body[top], conductances[2][face] > 0.0)
                {
                    let [x, y, _] = network.places[below];
                    network.places.push([x, y, grid.lines()[2][nz]]);
                    network.body.push(body);
                    network.surface.push(SurfaceCell {
                        column: [i, j],
                        middle: [x, y],
                        area: grid.aperture(2, face),
                    });
                    let on_surface = network.places.len() - 1;
                    network.join([below, on_surface], 2, conductances[2][face], grid, face);
                }
            }
        }
        network
    }
}

/// The cells beside a cell along an axis, and the conductances to them.
fn conductances_beside<'a>(
    grid: &'a Grid,
    conductances: &'a [Vec<f64>; 3],
    axis: usize,
    place: [usize; 3],
) -> impl Iterator<Item = ([usize; 3], f64)> {
    let mut before = place;
    before[axis] = before[axis].wrapping_sub(1);
    let mut after = place;
    after[axis] += 1;
    let low = (place[axis] > 0).then(|| (before, conductances[axis][grid.face(axis, place)]));
    let high = (after[axis] < grid.size()[axis])
        .then(|| (after, conductances[axis][grid.face(axis, after)]));
    low.into_iter().chain(high)
}

impl Network {
    fn join(&mut self, ends: [usize; 2], axis: usize, conductance: f64, grid: &Grid, face: usize) {
        let [from, to] = ends.map(|it| self.places[it]);
        let mut place = from;
        place[axis] = grid.lines()[axis][grid.place_of_face(axis, face)[axis]];
        let (section, blocked) = (grid.section(axis, face), grid.blocked(axis, face));
        let open = section.area - blocked.area;
        for (number, first) in section.first.iter().enumerate() {
            place[(axis + 1 + number) % 3] = (first - blocked.first[number]) / open;
        }
        self.links.push(Link {
            ends,
            axis,
            conductance,
            length: to[axis] - from[axis],
            place,
        });
    }

    /// `K` times a potential.
    pub fn outflow(&self, potential: &[f64]) -> Vec<f64> {
        let mut outflow = vec![0.0; potential.len()];
        for link in &self.links {
            let [a, b] = link.ends;
            let flux = link.conductance * (potential[a] - potential[b]);
            outflow[a] += flux;
            outflow[b] -= flux;
        }
        outflow
    }
}
