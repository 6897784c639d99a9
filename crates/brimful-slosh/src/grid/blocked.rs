//! What plates close of the faces they lie on.

use super::cut::{integrals, slabs};
use super::index::{face, faces, size};
use super::part::{HolePiece, Patch, PlatePiece};
use super::sheet::Sheet;
use brimful_geom::polygon::Outline;
use brimful_geom::vector::Point3;

/// What all plates close.
pub(super) struct Blocked {
    pub blocked: [Vec<Patch>; 3],
    pub plates: Vec<PlatePiece>,
    pub holes: Vec<HolePiece>,
}

/// What of a face a plate leaves open that is not more than this share is closed: a plate's outline meets a wall to
/// what both are rounded by, and a slot of this size (20 nanometres in a face of 20 mm) passes nothing.
const TIGHT: f64 = 1e-6;

/// Lays the plates onto the faces of the grid.
pub(super) fn blocked(
    sheets: &[Sheet],
    lines: &[Vec<f64>; 3],
    sections: &[Vec<Patch>; 3],
) -> Blocked {
    let size = size(lines);
    let mut all = Blocked {
        blocked: [0, 1, 2].map(|axis| vec![Patch::default(); faces(size, axis)]),
        plates: Vec::new(),
        holes: Vec::new(),
    };
    for (plate, sheet) in sheets.iter().enumerate() {
        let Some(line) = line_of(sheet, &lines[sheet.axis]) else {
            continue;
        };
        all.lay(plate, sheet, line, lines, &sections[sheet.axis]);
    }
    all
}

/// The line the sheet lies on; none where it is outside of the grid or on its bound.
fn line_of(sheet: &Sheet, lines: &[f64]) -> Option<usize> {
    let inner = 1..lines.len() - 1;
    let near = inner.min_by(|&a, &b| {
        let off = |it: usize| (lines[it] - sheet.at).abs();
        off(a).total_cmp(&off(b))
    })?;
    let widest = (lines[near + 1] - lines[near]).max(lines[near] - lines[near - 1]);
    // The lines were laid through all sheets within the bounds; two that are nearly one share theirs.
    ((lines[near] - sheet.at).abs() < TIGHT * 10.0 * widest).then_some(near)
}

impl Blocked {
    fn lay(
        &mut self,
        plate: usize,
        sheet: &Sheet,
        line: usize,
        lines: &[Vec<f64>; 3],
        sections: &[Patch],
    ) {
        let axis = sheet.axis;
        let number_of = |[b, c]: [usize; 2]| {
            let mut place = [line; 3];
            (place[(axis + 1) % 3], place[(axis + 2) % 3]) = (b, c);
            face(size(lines), axis, place)
        };
        let mut closed = std::collections::BTreeMap::<usize, Patch>::new();
        for (at, patch) in on_faces(&sheet.outline, sheet, lines) {
            let sum = closed.entry(number_of(at)).or_default();
            sum.add(patch.area, patch.first);
        }
        for (hole, it) in sheet.holes.iter().enumerate() {
            for (at, patch) in on_faces(&it.outline(), sheet, lines) {
                let face = number_of(at);
                let taken = patch.times(-1.0);
                closed.entry(face).or_default().add(taken.area, taken.first);
                self.holes.push(HolePiece {
                    plate,
                    hole,
                    axis,
                    face,
                    area: patch.area,
                });
            }
        }
        for (face, patch) in closed {
            self.close(plate, sheet, face, patch, sections[face]);
        }
    }

    /// Closes what a plate takes of a face, where there is something left to close.
    fn close(&mut self, plate: usize, sheet: &Sheet, face: usize, patch: Patch, section: Patch) {
        let taken = &mut self.blocked[sheet.axis][face];
        let open = section.area - taken.area;
        let left = open - patch.area;
        let closes = if left < TIGHT * section.area {
            let mut rest = section;
            rest.add(-taken.area, taken.first.map(|it| -it));
            rest
        } else {
            patch
        };
        if closes.area <= TIGHT * section.area {
            return;
        }
        taken.add(closes.area, closes.first);
        if left < TIGHT * section.area {
            // To the last bit, so that what is open is zero.
            taken.area = section.area;
        }
        let mut centre = [sheet.at; 3];
        centre[(sheet.axis + 1) % 3] = closes.first[0] / closes.area;
        centre[(sheet.axis + 2) % 3] = closes.first[1] / closes.area;
        self.plates.push(PlatePiece {
            plate,
            axis: sheet.axis,
            face,
            area: closes.area,
            centre: Point3::new(centre[0], centre[1], centre[2]),
        });
    }
}

/// The parts of an outline on the faces of the sheet's plane, by their places along its two axes.
fn on_faces(outline: &Outline, sheet: &Sheet, lines: &[Vec<f64>; 3]) -> Vec<([usize; 2], Patch)> {
    let [b, c] = [(sheet.axis + 1) % 3, (sheet.axis + 2) % 3];
    let corners = outline
        .0
        .iter()
        .map(|&corner| sheet.place(corner).to_vec().to_array());
    let mut parts = Vec::new();
    for (at_b, part) in slabs(corners.collect(), b, 1.0, &lines[b]) {
        for (at_c, part) in slabs(part, c, 1.0, &lines[c]) {
            if at_b + 1 < lines[b].len() && at_c + 1 < lines[c].len() {
                let (area, first) = integrals(&part);
                let first = [first[sheet.axis][b], first[sheet.axis][c]];
                let area = area[sheet.axis];
                parts.push(([at_b, at_c], Patch { area, first }));
            }
        }
    }
    parts
}
