//! A state on a coarser mesh as the first guess on a finer one (nested iteration: W. Hackbusch,
//! *Multi-Grid Methods and Applications* (1985), ch. 5, from memory).
//!
//! Square to a plate the coarse state is read as the cubic that has its corners' places and slopes
//! (Bazeley, Cheung, Irons, Zienkiewicz 1965, from memory): read as flat triangles it would bend
//! the finer ones at every coarse side.

use crate::shell::model::Shell;
use crate::shell::small::{Row, add, cross, dot, row, scale, sub};
use crate::shell::state::State;

/// The displacements and rotations of `state` on `coarse`, read at the nodes of `fine`, whose plates
/// are the same with the same numbers.
///
/// None where a node of the finer mesh has no triangle of the same plate near it.
pub fn carried_over(coarse: &Shell, state: &State, fine: &Shell) -> Option<State> {
    let finders: Vec<Finder> = (0..coarse.plates.len())
        .map(|plate| Finder::new(coarse, plate))
        .collect();
    let mut plate_of = vec![None; fine.nodes.len()];
    for triangle in &fine.triangles {
        for node in triangle.nodes {
            plate_of[node].get_or_insert(triangle.plate);
        }
    }
    let read = |(node, plate): (usize, &Option<usize>)| {
        let place = fine.nodes[node].to_array();
        let triangle = finders.get((*plate)?)?.nearest(place)?;
        Some(triangle.read(place, state))
    };
    let displacements: Option<Vec<[f64; 6]>> = plate_of.iter().enumerate().map(read).collect();
    Some(State {
        displacements: displacements?,
        ..State::default()
    })
}

/// A triangle of the coarse mesh: its nodes, corners, normal and the gradients of its corners'
/// shares.
struct Piece {
    nodes: [usize; 3],
    corners: [Row; 3],
    normal: Row,
    gradients: [Row; 3],
}

impl Piece {
    fn new(shell: &Shell, number: usize) -> Self {
        let nodes = shell.triangles[number].nodes;
        let corners = nodes.map(|node| shell.nodes[node].to_array());
        let twice_area = cross(sub(corners[1], corners[0]), sub(corners[2], corners[0]));
        let squared = dot(twice_area, twice_area);
        let normal = scale(twice_area, 1.0 / squared.sqrt());
        let gradients = std::array::from_fn(|i| {
            let opposite = sub(corners[(i + 2) % 3], corners[(i + 1) % 3]);
            scale(cross(twice_area, opposite), 1.0 / squared)
        });
        Self {
            nodes,
            corners,
            normal,
            gradients,
        }
    }

    /// The shares of the corners at a place in the plane; all within zero and one inside.
    fn shares(&self, place: Row) -> Row {
        std::array::from_fn(|i| {
            let from = self.corners[(i + 1) % 3];
            dot(self.gradients[i], sub(place, from))
        })
    }

    /// How far a place is outside, as a share of the triangle; zero inside.
    fn outside(&self, place: Row) -> f64 {
        self.shares(place)
            .iter()
            .fold(0.0, |most, s| f64::max(most, -s))
    }

    fn read(&self, place: Row, state: &State) -> [f64; 6] {
        let shares = self.shares(place);
        let (mut shift, mut spin) = ([0.0; 3], 0.0);
        let (mut height, mut slope) = (0.0, [0.0; 3]);
        for i in 0..3 {
            let d = &state.displacements[self.nodes[i]];
            let (own_shift, turn) = ([d[0], d[1], d[2]], [d[3], d[4], d[5]]);
            let own_height = dot(own_shift, self.normal);
            let in_plane = sub(own_shift, scale(self.normal, own_height));
            shift = add(shift, scale(in_plane, shares[i]));
            spin += shares[i] * dot(turn, self.normal);
            let rise = cross(self.normal, turn);
            let [j, k] = [(i + 1) % 3, (i + 2) % 3];
            let towards = |other: usize| dot(rise, sub(self.corners[other], self.corners[i]));
            for (value, by) in [
                (own_height, by_height(shares, i)),
                (towards(j), by_slope(shares, i, j)),
                (towards(k), by_slope(shares, i, k)),
            ] {
                height += value * by.value;
                for m in 0..3 {
                    slope = add(slope, scale(self.gradients[m], value * by.rates[m]));
                }
            }
        }
        let shift = add(shift, scale(self.normal, height));
        // A rotation t lifts the plane by `normal x t`; the other way round it is `slope x normal`.
        let turn = add(cross(slope, self.normal), scale(self.normal, spin));
        [shift[0], shift[1], shift[2], turn[0], turn[1], turn[2]]
    }
}

/// A function of the three shares with its rates.
struct Shape {
    value: f64,
    rates: Row,
}

/// The cubic that is one at a corner, level there, and zero with its slopes at the others.
fn by_height(shares: Row, i: usize) -> Shape {
    let [j, k] = [(i + 1) % 3, (i + 2) % 3];
    let (a, b, c) = (shares[i], shares[j], shares[k]);
    let mut rates = [0.0; 3];
    rates[i] = 1.0 + 2.0 * a * (b + c) - b * b - c * c;
    rates[j] = a * a - 2.0 * a * b;
    rates[k] = a * a - 2.0 * a * c;
    Shape {
        value: a + a * a * (b + c) - a * (b * b + c * c),
        rates,
    }
}

/// The cubic that rises from corner `i` towards `j` with slope one and is zero at all corners.
fn by_slope(shares: Row, i: usize, j: usize) -> Shape {
    let k = 3 - i - j;
    let (a, b, c) = (shares[i], shares[j], shares[k]);
    let mut rates = [0.0; 3];
    rates[i] = 2.0 * a * b + 0.5 * b * c;
    rates[j] = a * a + 0.5 * a * c;
    rates[k] = 0.5 * a * b;
    Shape {
        value: a * a * b + 0.5 * a * b * c,
        rates,
    }
}

/// Finds the triangle of a plate that a place is in, by a grid of cells over the plate.
struct Finder {
    pieces: Vec<Piece>,
    axes: [Row; 2],
    low: [f64; 2],
    /// Size of a cell, m.
    cell: f64,
    columns: usize,
    /// Numbers of the pieces that reach into each cell.
    cells: Vec<Vec<u32>>,
}

impl Finder {
    fn new(shell: &Shell, plate: usize) -> Self {
        let pieces: Vec<Piece> = (0..shell.triangles.len())
            .filter(|&number| shell.triangles[number].plate == plate)
            .map(|number| Piece::new(shell, number))
            .collect();
        let first = row(shell.plates[plate].axis);
        let second = pieces
            .first()
            .map_or([0.0; 3], |piece| cross(piece.normal, first));
        let mut finder = Self {
            axes: [first, second],
            low: [f64::INFINITY; 2],
            cell: 1.0,
            columns: 1,
            cells: Vec::new(),
            pieces,
        };
        finder.fill();
        finder
    }

    /// As many cells as there are pieces, or nearly.
    fn fill(&mut self) {
        let mut high = [f64::NEG_INFINITY; 2];
        for piece in &self.pieces {
            for corner in piece.corners {
                for (axis, place) in self.flat(corner).into_iter().enumerate() {
                    self.low[axis] = self.low[axis].min(place);
                    high[axis] = high[axis].max(place);
                }
            }
        }
        let sizes = [high[0] - self.low[0], high[1] - self.low[1]];
        self.cell = (sizes[0] * sizes[1] / self.pieces.len().max(1) as f64).sqrt();
        if !(self.cell > 0.0 && self.cell.is_finite()) {
            return;
        }
        self.columns = self.index(sizes[0]) + 1;
        self.cells = vec![Vec::new(); self.columns * (self.index(sizes[1]) + 1)];
        for number in 0..self.pieces.len() {
            let places = self.pieces[number].corners.map(|corner| self.flat(corner));
            let span = |axis: usize| {
                let own = places.map(|place| self.index(place[axis] - self.low[axis]));
                (
                    own[0].min(own[1]).min(own[2]),
                    own[0].max(own[1]).max(own[2]),
                )
            };
            let ((x0, x1), (y0, y1)) = (span(0), span(1));
            for y in y0..=y1 {
                for x in x0..=x1 {
                    self.cells[y * self.columns + x].push(number as u32);
                }
            }
        }
    }

    fn flat(&self, place: Row) -> [f64; 2] {
        self.axes.map(|axis| dot(axis, place))
    }

    fn index(&self, way: f64) -> usize {
        (way / self.cell).max(0.0) as usize
    }

    /// The piece that a place is in or nearest to; the nodes of two meshes of one outline may lie
    /// a rounding apart.
    fn nearest(&self, place: Row) -> Option<&Piece> {
        let flat = self.flat(place);
        let rows = self.cells.len() / self.columns;
        let column = self.index(flat[0] - self.low[0]).min(self.columns - 1);
        let line = self.index(flat[1] - self.low[1]).min(rows.checked_sub(1)?);
        let cell = &self.cells[line * self.columns + column];
        let pieces = cell.iter().map(|&number| &self.pieces[number as usize]);
        pieces.min_by(|a, b| a.outside(place).total_cmp(&b.outside(place)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shell::model::{Plate, Triangle};
    use brimful_geom::vector::{Point3, Vec3};

    fn patch(n: usize) -> Shell {
        let axis = Vec3::X;
        let mut shell = Shell {
            plates: vec![Plate {
                thickness: 0.01,
                modulus: 1e9,
                poisson: 0.4,
                density: 0.0,
                expansion: 0.0,
                twist: 1.0,
                axis,
            }],
            ..Shell::default()
        };
        let at = |i: usize, j: usize| j * (n + 1) + i;
        for j in 0..=n {
            for i in 0..=n {
                let [x, y] = [i, j].map(|k| k as f64 / n as f64);
                shell.nodes.push(Point3::new(x, 0.8 * y, 0.3));
            }
        }
        for j in 0..n {
            for i in 0..n {
                for nodes in [
                    [at(i, j), at(i + 1, j), at(i + 1, j + 1)],
                    [at(i, j), at(i + 1, j + 1), at(i, j + 1)],
                ] {
                    shell.triangles.push(Triangle { nodes, plate: 0 });
                }
            }
        }
        shell
    }

    /// A sheet bent to `w = x^2 - 3 x y + y^2`, stretched and spun: all of it lies in what is read.
    #[test]
    fn an_even_bend_is_read_exactly() {
        let field = |p: Point3| {
            let (x, y) = (p.x, p.y);
            [
                1e-3 * x,
                2e-3 * y,
                1e-2 * (x * x - 3.0 * x * y + y * y),
                1e-2 * (-3.0 * x + 2.0 * y),
                -1e-2 * (2.0 * x - 3.0 * y),
                5e-3,
            ]
        };
        let (coarse, fine) = (patch(3), patch(7));
        let state = State {
            displacements: coarse.nodes.iter().map(|&p| field(p)).collect(),
            ..State::default()
        };
        let read = carried_over(&coarse, &state, &fine).expect("same plates");
        for (node, found) in read.displacements.iter().enumerate() {
            let wanted = field(fine.nodes[node]);
            for k in 0..6 {
                // Rounding of a handful of products.
                assert!((found[k] - wanted[k]).abs() < 1e-14, "{found:?} {wanted:?}");
            }
        }
    }
}
