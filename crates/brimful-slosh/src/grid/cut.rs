//! What walls leave open of cells and faces, by exact clipping.
//!
//! Every face of the solid is cut along the grid's planes into fragments, each in one cell. Seen along an axis, a fragment
//! ends the solid (or begins it, where its normal points back): the solid is the sum of the prisms from the
//! fragments down the axis, each with the sign of its normal. So the open part of a face is the sum of the signed
//! areas of the fragments beyond it, and the liquid of a cell follows from the first moments: no section is ever
//! put together, and nothing is asked of the shape but that it is closed.

use super::index::{face, faces, size};
use super::part::{Patch, WallPiece};
use brimful_geom::solid::Solid;
use brimful_geom::vector::{Point3, Vec3};

/// What the walls leave open.
pub(super) struct Parts {
    pub volumes: Vec<f64>,
    pub sections: [Vec<Patch>; 3],
    pub walls: Vec<WallPiece>,
}

/// A polygon of which no side runs across a plane of the grid once it is cut.
type Polygon = Vec<[f64; 3]>;

/// A corner nearer to a plane of the grid than this share of the grid's extent is put on it: above what rounding
/// sets apart, and a hundred-thousandth of a millimetre in 10 m.
const ON_LINE: f64 = 1e-9;
/// A face or a cell open by less than this share is closed, and by all but this is open: what rounding leaves over.
const ROUNDING: f64 = 1e-9;

/// Cuts the walls along the grid.
pub(super) fn cut(solid: &Solid, lines: &[Vec<f64>; 3]) -> Parts {
    let mut sums = Sums::new(lines);
    for (number, wall) in solid.faces.iter().enumerate() {
        for ring in &wall.loops {
            let corners = ring.iter().map(|&it| on_lines(solid.vertices[it], lines));
            let normal = wall.plane.normal.to_array();
            for (cell, fragment) in fragments(corners.collect(), normal, lines) {
                sums.add(number, cell, &fragment);
            }
        }
    }
    sums.finished()
}

/// A corner, put onto the planes that it is on but for rounding.
fn on_lines(corner: Point3, lines: &[Vec<f64>; 3]) -> [f64; 3] {
    let mut place = corner.to_vec().to_array();
    for (value, lines) in place.iter_mut().zip(lines) {
        let near = ON_LINE * (lines[lines.len() - 1] - lines[0]);
        let next = lines.partition_point(|&line| line < *value - near);
        if let Some(&line) = lines.get(next)
            && (line - *value).abs() <= near
        {
            *value = line;
        }
    }
    place
}

/// A polygon cut into its parts by cell; what is beyond the last plane of an axis has the number after the last cell.
fn fragments(
    polygon: Polygon,
    normal: [f64; 3],
    lines: &[Vec<f64>; 3],
) -> Vec<([usize; 3], Polygon)> {
    let mut parts = vec![([0; 3], polygon)];
    for axis in 0..3 {
        parts = parts
            .into_iter()
            .flat_map(|(cell, part)| {
                slabs(part, axis, normal[axis], &lines[axis])
                    .into_iter()
                    .map(move |(slab, part)| {
                        let mut cell = cell;
                        cell[axis] = slab;
                        (cell, part)
                    })
            })
            .collect();
    }
    parts
}

/// The parts of a polygon between the planes of one axis. One that lies in a plane belongs to the side its
/// liquid is on, so that the face of the grid it lies on is closed.
pub(super) fn slabs(
    mut rest: Polygon,
    axis: usize,
    normal: f64,
    lines: &[f64],
) -> Vec<(usize, Polygon)> {
    let mut parts = Vec::new();
    let (low, high) = range(&rest, axis);
    if low == high && lines.contains(&low) {
        let line = lines.partition_point(|&line| line < low);
        return match (normal > 0.0, line) {
            (true, 0) => parts,
            (true, line) => vec![(line - 1, rest)],
            (false, line) => vec![(line, rest)],
        };
    }
    let first = lines.partition_point(|&line| line <= low);
    for (number, &line) in lines.iter().enumerate().skip(first) {
        if line >= high {
            break;
        }
        let (below, above) = split(&rest, axis, line);
        if number > 0 {
            parts.push((number - 1, below));
        }
        rest = above;
    }
    let last = lines.partition_point(|&line| line < high);
    if last > 0 {
        parts.push((last - 1, rest));
    }
    parts
}

fn range(polygon: &Polygon, axis: usize) -> (f64, f64) {
    let values = polygon.iter().map(|corner| corner[axis]);
    values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
        (low.min(it), high.max(it))
    })
}

/// The parts of a polygon below and above a plane; where it is not convex, they have sides in the plane that run back and
/// forth, which enclose nothing.
fn split(polygon: &Polygon, axis: usize, at: f64) -> (Polygon, Polygon) {
    let (mut below, mut above) = (Vec::new(), Vec::new());
    for (number, &corner) in polygon.iter().enumerate() {
        let next = polygon[(number + 1) % polygon.len()];
        if corner[axis] <= at {
            below.push(corner);
        }
        if corner[axis] >= at {
            above.push(corner);
        }
        if (corner[axis] - at) * (next[axis] - at) < 0.0 {
            let share = (at - corner[axis]) / (next[axis] - corner[axis]);
            let mut crossing = [0, 1, 2].map(|it| corner[it] + share * (next[it] - corner[it]));
            crossing[axis] = at;
            below.push(crossing);
            above.push(crossing);
        }
    }
    (below, above)
}

/// The area of a polygon along each axis, and the integrals of the place over it: `first[a][b]` that of the
/// coordinate `b` over the area along `a`.
pub(super) fn integrals(polygon: &Polygon) -> ([f64; 3], [[f64; 3]; 3]) {
    let (mut area, mut first) = ([0.0; 3], [[0.0; 3]; 3]);
    let Some((&apex, rest)) = polygon.split_first() else {
        return (area, first);
    };
    for pair in rest.windows(2) {
        let (u, v) = (
            [0, 1, 2].map(|it| pair[0][it] - apex[it]),
            [0, 1, 2].map(|it| pair[1][it] - apex[it]),
        );
        for a in 0..3 {
            let (b, c) = ((a + 1) % 3, (a + 2) % 3);
            let part = (u[b] * v[c] - u[c] * v[b]) / 2.0;
            area[a] += part;
            for b in 0..3 {
                first[a][b] += part * (apex[b] + pair[0][b] + pair[1][b]) / 3.0;
            }
        }
    }
    (area, first)
}

/// What the fragments add up to, before they are summed along the axes.
struct Sums<'a> {
    lines: &'a [Vec<f64>; 3],
    size: [usize; 3],
    /// The liquid between the low side of a cell and the fragments in it, along x.
    volumes: Vec<f64>,
    /// The fragments in each cell and beyond the last, at the face on the cell's low side.
    ends: [Vec<Patch>; 3],
    walls: Vec<WallPiece>,
}

impl<'a> Sums<'a> {
    fn new(lines: &'a [Vec<f64>; 3]) -> Self {
        let size = size(lines);
        Self {
            lines,
            size,
            volumes: vec![0.0; size.iter().product()],
            ends: [0, 1, 2].map(|axis| vec![Patch::default(); faces(size, axis)]),
            walls: Vec::new(),
        }
    }

    fn add(&mut self, wall: usize, cell: [usize; 3], fragment: &Polygon) {
        let (area, first) = integrals(fragment);
        let within = |axis: usize| cell[axis] < self.size[axis];
        for axis in 0..3 {
            let [b, c] = [(axis + 1) % 3, (axis + 2) % 3];
            if within(b) && within(c) {
                let end = &mut self.ends[axis][face(self.size, axis, cell)];
                end.add(area[axis], [first[axis][b], first[axis][c]]);
            }
        }
        if (0..3).all(within) {
            let number = (cell[2] * self.size[1] + cell[1]) * self.size[0] + cell[0];
            self.volumes[number] += first[0][0] - self.lines[0][cell[0]] * area[0];
            self.walls.extend(piece(number, wall, area, first));
        }
    }

    fn finished(mut self) -> Parts {
        let size = self.size;
        for axis in 0..3 {
            self.sum_down(axis);
        }
        for number in 0..self.volumes.len() {
            let place = [
                number % size[0],
                number / size[0] % size[1],
                number / size[0] / size[1],
            ];
            let widths = [0, 1, 2].map(|axis| self.width(axis, place));
            let beyond = face(size, 0, [place[0] + 1, place[1], place[2]]);
            let volume = self.volumes[number] + widths[0] * self.ends[0][beyond].area;
            self.volumes[number] = cleaned(volume, widths.iter().product());
        }
        for axis in 0..3 {
            self.clean(axis);
        }
        Parts {
            volumes: self.volumes,
            sections: self.ends,
            walls: self.walls,
        }
    }

    fn width(&self, axis: usize, place: [usize; 3]) -> f64 {
        self.lines[axis][place[axis] + 1] - self.lines[axis][place[axis]]
    }

    /// Adds to each face what ends beyond it.
    fn sum_down(&mut self, axis: usize) {
        let size = self.size;
        let [b, c] = [(axis + 1) % 3, (axis + 2) % 3];
        for at_b in 0..size[b] {
            for at_c in 0..size[c] {
                let at = |along: usize| {
                    let mut place = [0; 3];
                    (place[axis], place[b], place[c]) = (along, at_b, at_c);
                    face(size, axis, place)
                };
                for along in (0..size[axis]).rev() {
                    let beyond = self.ends[axis][at(along + 1)];
                    self.ends[axis][at(along)].add(beyond.area, beyond.first);
                }
            }
        }
    }

    /// Takes what rounding left off the sections of one axis.
    fn clean(&mut self, axis: usize) {
        let [b, c] = [(axis + 1) % 3, (axis + 2) % 3];
        let mut size = self.size;
        size[axis] += 1;
        for number in 0..self.ends[axis].len() {
            let place = [
                number % size[0],
                number / size[0] % size[1],
                number / size[0] / size[1],
            ];
            let whole = self.width(b, place) * self.width(c, place);
            let patch = &mut self.ends[axis][number];
            let area = cleaned(patch.area, whole);
            *patch = match area {
                0.0 => Patch::default(),
                area => Patch {
                    area,
                    ..patch.times(area / patch.area)
                },
            };
        }
    }
}

fn cleaned(value: f64, whole: f64) -> f64 {
    match value / whole {
        share if share < ROUNDING => 0.0,
        share if share > 1.0 - ROUNDING => whole,
        _ => value,
    }
}

/// The fragment as a piece of wall; none where it has no area.
fn piece(cell: usize, face: usize, area: [f64; 3], first: [[f64; 3]; 3]) -> Option<WallPiece> {
    // The axis it is seen best along gives its middle to most digits.
    let axis = (0..3).max_by(|&a, &b| area[a].abs().total_cmp(&area[b].abs()))?;
    let [x, y, z] = first[axis].map(|it| it / area[axis]);
    (area[axis] != 0.0).then(|| WallPiece {
        cell,
        face,
        area: Vec3::new(area[0], area[1], area[2]),
        centre: Point3::new(x, y, z),
    })
}
