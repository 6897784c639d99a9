//! How cells and faces are numbered: x first, then y, then z.

/// How many cells there are along each axis.
pub(super) fn size(lines: &[Vec<f64>; 3]) -> [usize; 3] {
    [0, 1, 2].map(|axis| lines[axis].len() - 1)
}

/// The number of a face.
pub(super) fn face(mut size: [usize; 3], axis: usize, [i, j, k]: [usize; 3]) -> usize {
    size[axis] += 1;
    (k * size[1] + j) * size[0] + i
}

/// How many faces are square to an axis.
pub(super) fn faces(mut size: [usize; 3], axis: usize) -> usize {
    size[axis] += 1;
    size[0] * size[1] * size[2]
}
