//! The grid itself.

use super::blocked::{Blocked, blocked};
use super::cut::{self, cut};
use super::fault::GridFault;
use super::index::{face, size};
use super::lines::Lines;
use super::part::{HolePiece, Patch, PlatePiece, WallPiece};
use super::sheet::Sheet;
use crate::cavity::Cavity;

/// A grid over a cavity.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    lines: [Vec<f64>; 3],
    volumes: Vec<f64>,
    /// Between the walls, as if no plate stood there; by axis.
    sections: [Vec<Patch>; 3],
    /// What plates take of that.
    blocked: [Vec<Patch>; 3],
    walls: Vec<WallPiece>,
    plates: Vec<PlatePiece>,
    holes: Vec<HolePiece>,
}

impl Grid {
    /// A grid over the whole cavity, with cells of about `spacing`, m.
    ///
    /// # Errors
    /// [`GridFault`].
    pub fn whole(cavity: &Cavity, spacing: f64) -> Result<Self, GridFault> {
        Self::up_to(cavity, cavity.solid.bounds().1.z, spacing)
    }

    /// A grid over what lies below a still surface at the height `level`, m: its topmost faces are the surface.
    ///
    /// # Errors
    /// [`GridFault`].
    pub fn up_to(cavity: &Cavity, level: f64, spacing: f64) -> Result<Self, GridFault> {
        Self::spaced(cavity, level, [spacing; 3])
    }

    /// The same with a spacing of its own along each axis: shallow liquid needs layers more than columns.
    ///
    /// # Errors
    /// [`GridFault`].
    pub fn spaced(cavity: &Cavity, level: f64, spacing: [f64; 3]) -> Result<Self, GridFault> {
        let sheets = Sheet::all(cavity)?;
        let lines = Lines::fitted(&cavity.solid, &sheets, level, spacing)?.0;
        let cut::Parts {
            volumes,
            sections,
            walls,
        } = cut(&cavity.solid, &lines);
        let Blocked {
            blocked,
            plates,
            holes,
        } = blocked(&sheets, &lines, &sections);
        Ok(Self {
            lines,
            volumes,
            sections,
            blocked,
            walls,
            plates,
            holes,
        })
    }

    /// The coordinates of the grid's lines along each axis, rising, m.
    pub fn lines(&self) -> &[Vec<f64>; 3] {
        &self.lines
    }

    /// How many cells there are along each axis.
    pub fn size(&self) -> [usize; 3] {
        size(&self.lines)
    }

    /// The number of a cell.
    pub fn cell(&self, [i, j, k]: [usize; 3]) -> usize {
        let [nx, ny, _] = self.size();
        (k * ny + j) * nx + i
    }

    /// Where a cell of that number stands.
    pub fn place_of_cell(&self, cell: usize) -> [usize; 3] {
        let [nx, ny, _] = self.size();
        [cell % nx, cell / nx % ny, cell / nx / ny]
    }

    /// The number of the face on the low side of a cell (or beyond the last one) square to an axis.
    pub fn face(&self, axis: usize, place: [usize; 3]) -> usize {
        face(self.size(), axis, place)
    }

    /// Where a face of that number stands.
    pub fn place_of_face(&self, axis: usize, face: usize) -> [usize; 3] {
        let mut size = self.size();
        size[axis] += 1;
        [
            face % size[0],
            face / size[0] % size[1],
            face / size[0] / size[1],
        ]
    }

    /// The liquid that a cell holds when it is full, m3.
    pub fn volume(&self, cell: usize) -> f64 {
        self.volumes[cell]
    }

    /// The same as a share of the cell, from 0 to 1.
    pub fn fraction(&self, cell: usize) -> f64 {
        let place = self.place_of_cell(cell);
        let whole: f64 = (0..3).map(|axis| self.width(axis, place[axis])).product();
        self.volumes[cell] / whole
    }

    /// How much of a face is open, m2.
    pub fn aperture(&self, axis: usize, face: usize) -> f64 {
        self.sections[axis][face].area - self.blocked[axis][face].area
    }

    /// How much of a face lies between the walls, as if no plate stood on it.
    pub fn section(&self, axis: usize, face: usize) -> Patch {
        self.sections[axis][face]
    }

    /// How much of a face plates close.
    pub fn blocked(&self, axis: usize, face: usize) -> Patch {
        self.blocked[axis][face]
    }

    /// The area of a face, open or not, m2.
    pub fn face_area(&self, axis: usize, place: [usize; 3]) -> f64 {
        let [b, c] = [(axis + 1) % 3, (axis + 2) % 3];
        self.width(b, place[b]) * self.width(c, place[c])
    }

    /// The width of a cell along an axis, m.
    pub fn width(&self, axis: usize, place: usize) -> f64 {
        self.lines[axis][place + 1] - self.lines[axis][place]
    }

    /// The middle of a cell along an axis, whether liquid is there or not.
    pub fn middle(&self, axis: usize, place: usize) -> f64 {
        (self.lines[axis][place] + self.lines[axis][place + 1]) / 2.0
    }

    /// The walls, cell by cell: with the closed faces of the grid they enclose the liquid of each cell.
    pub fn walls(&self) -> &[WallPiece] {
        &self.walls
    }

    /// The plates, face by face.
    pub fn plates(&self) -> &[PlatePiece] {
        &self.plates
    }

    /// The plates' holes, face by face.
    pub fn holes(&self) -> &[HolePiece] {
        &self.holes
    }
}
