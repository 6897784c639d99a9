//! Numbers over the degrees of freedom of an element.

/// One value for each degree of freedom of the element: by corners, three displacements and three rotations.
pub(crate) type Column = [f64; 18];

/// A square matrix over the element's degrees of freedom.
pub(crate) type Square = [[f64; 18]; 18];

/// Which of the eighteen degrees of freedom stretch the element: u, v and drilling of each corner.
pub(super) const STRETCHING: [usize; 9] = [0, 1, 5, 6, 7, 11, 12, 13, 17];

/// Which bend it: w and the rotations about x and y of each corner.
pub(super) const BENDING: [usize; 9] = [2, 3, 4, 8, 9, 10, 14, 15, 16];
