//! The tanks, by their mid-surfaces, and what is read off them.

/// Weight of a cubic metre of water, N: 1000 kg/m3 at 9.81 m/s2.
pub const WEIGHT: f64 = 9810.0;

/// An upright prism full of water to its upper edge.
pub struct Tank {
    pub name: &'static str,
    /// Corners of the plan, counter-clockwise from above, m. The first side runs along x.
    pub plan: Vec<[f64; 2]>,
    pub height: f64,
    /// With a floor the lower edges of the walls lie on lines that hold them up; without one the
    /// lower edges are clamped.
    pub floor: bool,
    pub lid: bool,
    /// Full-height partitions, by the ends of each in plan; wet on both sides.
    pub baffles: Vec<[[f64; 2]; 2]>,
    /// Sides of the plan where the tank goes on: no wall, and a plane of symmetry.
    pub cut_sides: Vec<usize>,
    pub thickness: f64,
    pub poisson: f64,
    /// Young's moduli for small and for large displacements, Pa.
    pub moduli: [f64; 2],
    pub deflections: Vec<Deflection>,
    pub moments: Vec<Moment>,
}

impl Tank {
    /// Young's modulus for the kind of solve.
    pub fn modulus(&self, large: bool) -> f64 {
        self.moduli[usize::from(large)]
    }
}

/// A displacement to be read.
pub struct Deflection {
    pub name: &'static str,
    pub place: [f64; 3],
    pub direction: [f64; 3],
}

/// A bending moment per metre to be read, positive where it stretches the dry face.
pub struct Moment {
    pub name: &'static str,
    /// `wall-N` by the side of the plan, `floor`, `lid` or `baffle-N`.
    pub flat: &'static str,
    /// On a line where the flat ends or meets another.
    pub place: [f64; 3],
    /// From the place into the flat, square to the line, unit.
    pub across: [f64; 3],
}

/// All tanks.
///
/// Sheet 3 mm thick with the bending stiffness of the 15 mm, 200 MPa sheet of the semi-analytic
/// values: these are for folds that do not stretch, which a thin sheet comes near.
pub fn tanks() -> Vec<Tank> {
    vec![
        trough(),
        four_walls(),
        open_tank(),
        baffle_box(),
        angle_tank(),
    ]
}

const LEFT: [f64; 3] = [-1.0, 0.0, 0.0];
const RIGHT: [f64; 3] = [1.0, 0.0, 0.0];
const FRONT: [f64; 3] = [0.0, -1.0, 0.0];
const BACK: [f64; 3] = [0.0, 1.0, 0.0];
const UP: [f64; 3] = [0.0, 0.0, 1.0];
const DOWN: [f64; 3] = [0.0, 0.0, -1.0];

fn deflection(name: &'static str, place: [f64; 3], direction: [f64; 3]) -> Deflection {
    Deflection {
        name,
        place,
        direction,
    }
}

fn moment(name: &'static str, flat: &'static str, place: [f64; 3], across: [f64; 3]) -> Moment {
    Moment {
        name,
        flat,
        place,
        across,
    }
}

fn rectangle(length: f64, width: f64) -> Vec<[f64; 2]> {
    vec![[0.0, 0.0], [length, 0.0], [length, width], [0.0, width]]
}

/// A slice of a long trough, both walls, floor between lines of support.
fn trough() -> Tank {
    Tank {
        name: "trough",
        plan: rectangle(0.2, 0.6),
        height: 0.6,
        floor: true,
        lid: false,
        baffles: vec![],
        cut_sides: vec![1, 3],
        thickness: 0.003,
        poisson: 0.45,
        moduli: [2.5e10, 1.25e11],
        deflections: vec![
            deflection("wall top", [0.1, 0.0, 0.6], FRONT),
            deflection("floor middle", [0.1, 0.3, 0.0], DOWN),
        ],
        moments: vec![moment("wall at corner", "wall-0", [0.1, 0.0, 0.0], UP)],
    }
}

/// Four walls clamped at the base.
fn four_walls() -> Tank {
    Tank {
        name: "four-walls",
        plan: rectangle(1.0, 0.6),
        height: 0.6,
        floor: false,
        lid: false,
        baffles: vec![],
        cut_sides: vec![],
        thickness: 0.003,
        poisson: 0.45,
        moduli: [2.5e10, 1.25e11],
        deflections: vec![
            deflection("long wall top", [0.5, 0.0, 0.6], FRONT),
            deflection("short wall top", [0.0, 0.3, 0.6], LEFT),
        ],
        moments: vec![
            moment("long wall base", "wall-0", [0.5, 0.0, 0.0], UP),
            moment("short wall base", "wall-3", [0.0, 0.3, 0.0], UP),
            moment("corner, half height", "wall-0", [0.0, 0.0, 0.3], RIGHT),
        ],
    }
}

/// The same with a floor, its edge on lines of support.
fn open_tank() -> Tank {
    Tank {
        name: "open-tank",
        floor: true,
        deflections: vec![
            deflection("long wall top", [0.5, 0.0, 0.6], FRONT),
            deflection("short wall top", [0.0, 0.3, 0.6], LEFT),
            deflection("floor centre", [0.5, 0.3, 0.0], DOWN),
        ],
        ..four_walls()
    }
}

/// A closed box with a partition off the middle.
fn baffle_box() -> Tank {
    Tank {
        name: "baffle-box",
        plan: rectangle(1.2, 0.6),
        height: 0.6,
        floor: true,
        lid: true,
        baffles: vec![[[0.5, 0.0], [0.5, 0.6]]],
        cut_sides: vec![],
        thickness: 0.003,
        poisson: 0.45,
        moduli: [2.5e10, 5.0e10],
        deflections: vec![
            deflection("long wall, larger cell", [0.85, 0.0, 0.3], FRONT),
            deflection("floor, larger cell", [0.85, 0.3, 0.0], DOWN),
            deflection("end wall", [1.2, 0.3, 0.3], RIGHT),
        ],
        moments: vec![
            moment(
                "wall at baffle, larger cell",
                "wall-0",
                [0.5, 0.0, 0.3],
                RIGHT,
            ),
            moment(
                "floor at baffle, larger cell",
                "floor",
                [0.5, 0.3, 0.0],
                RIGHT,
            ),
            moment("wall at floor, larger cell", "wall-0", [0.85, 0.0, 0.0], UP),
            moment("corner, half height", "wall-0", [1.2, 0.0, 0.3], LEFT),
        ],
    }
}

/// Walls on an L, clamped at the base: one corner points inwards.
fn angle_tank() -> Tank {
    Tank {
        name: "angle-tank",
        plan: vec![
            [0.0, 0.0],
            [1.0, 0.0],
            [1.0, 0.4],
            [0.5, 0.4],
            [0.5, 0.8],
            [0.0, 0.8],
        ],
        height: 0.5,
        floor: false,
        lid: false,
        baffles: vec![],
        cut_sides: vec![],
        thickness: 0.003,
        poisson: 0.45,
        moduli: [2.5e10, 6.0e10],
        deflections: vec![
            deflection("longest wall top", [0.5, 0.0, 0.5], FRONT),
            deflection("long wall top", [0.0, 0.4, 0.5], LEFT),
            deflection("inner wall top", [0.7, 0.4, 0.5], BACK),
        ],
        moments: vec![
            moment("longest wall base", "wall-0", [0.5, 0.0, 0.0], UP),
            moment("long wall base", "wall-5", [0.0, 0.4, 0.0], UP),
            moment("corner, half height", "wall-0", [0.0, 0.0, 0.25], RIGHT),
            moment(
                "inward corner, half height",
                "wall-2",
                [0.5, 0.4, 0.25],
                RIGHT,
            ),
        ],
    }
}
