//! A wall between two faces, as a row of equal cells.

use super::material::Material;

/// Steps are this share of the longest stable one.
const OF_STABLE: f64 = 0.8;

/// What is at a face of a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Face {
    /// Nothing that takes or gives heat; or a plane of symmetry.
    Insulated,
    /// A gas or liquid.
    Film {
        /// Of the gas.
        temperature: f64,
        /// Film coefficient, W/(m2 K).
        coefficient: f64,
    },
    /// A body that holds it at this temperature.
    Held(f64),
}

/// What a wall gives off at its sides as well, being no more than a plate between them (a fin).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sides {
    /// Of the gas beside it.
    pub temperature: f64,
    /// What a volume gives off, W/(m3 K): of a plate under a film on both sides `2 h / s`.
    pub per_volume: f64,
}

/// The heat in a wall.
#[derive(Clone, Debug)]
pub struct Wall {
    material: Material,
    sides: Option<Sides>,
    /// Width of a cell, m.
    width: f64,
    /// Heat in each cell, J/m3, as [`Material::enthalpy`] counts it.
    cells: Vec<f64>,
}

impl Wall {
    /// A wall of some thickness, m, in so many cells; `temperature` by the distance from its first face, m.
    pub fn new(
        material: Material,
        thickness: f64,
        cells: usize,
        temperature: impl Fn(f64) -> f64,
    ) -> Self {
        let width = thickness / cells as f64;
        let middle = |number: usize| (number as f64 + 0.5) * width;
        let enthalpy = |number| material.enthalpy(temperature(middle(number)));
        Self {
            material,
            sides: None,
            width,
            cells: (0..cells).map(enthalpy).collect(),
        }
    }

    /// The same wall, which gives off heat at its sides too.
    pub fn between(self, sides: Sides) -> Self {
        Self {
            sides: Some(sides),
            ..self
        }
    }

    /// Lets so many seconds pass with these faces.
    pub fn advance(&mut self, faces: [Face; 2], seconds: f64) {
        let steps = (seconds / self.longest_step()).ceil().max(1.0);
        let step = seconds / steps;
        let mut flows = vec![0.0; self.cells.len() + 1];
        for _ in 0..steps as usize {
            self.flows(faces, &mut flows);
            for (cell, flow) in self.cells.iter_mut().zip(flows.windows(2)) {
                let off = self.sides.map_or(0.0, |sides| {
                    sides.per_volume * (self.material.temperature(*cell) - sides.temperature)
                });
                *cell += step * ((flow[0] - flow[1]) / self.width - off);
            }
        }
    }

    /// The temperatures in the middle of the cells.
    pub fn temperatures(&self) -> Vec<f64> {
        let cells = self.cells.iter();
        cells.map(|&it| self.material.temperature(it)).collect()
    }

    /// The temperature at the first face with this before it.
    pub fn surface(&self, face: Face) -> f64 {
        let first = self.cells[0];
        let own = self.material.temperature(first);
        match face {
            Face::Insulated => own,
            Face::Held(temperature) => temperature,
            Face::Film { .. } => own + self.through_face(face, first) / self.to_the_face(first),
        }
    }

    /// How thick a layer has melted, m, counted from the first face: part-molten cells by their share.
    pub fn melted(&self) -> f64 {
        let cells = self.cells.iter();
        let shares = cells.map(|&it| self.material.melted(it));
        shares.take_while(|share| *share > 0.0).sum::<f64>() * self.width
    }

    /// Heat in the wall, J/m2, from that at the beginning of melting.
    pub fn heat(&self) -> f64 {
        self.cells.iter().sum::<f64>() * self.width
    }

    /// What flows towards the second face through the first, between the cells, and through the second, W/m2.
    fn flows(&self, faces: [Face; 2], flows: &mut [f64]) {
        let count = self.cells.len();
        flows[0] = self.through_face(faces[0], self.cells[0]);
        flows[count] = -self.through_face(faces[1], self.cells[count - 1]);
        for (flow, pair) in flows[1..count].iter_mut().zip(self.cells.windows(2)) {
            let [a, b] = [pair[0], pair[1]];
            // Two half cells in series: the harmonic mean keeps the flow right across a front.
            let (from, to) = (self.material.conductivity(a), self.material.conductivity(b));
            let conductance = 2.0 * from * to / ((from + to) * self.width);
            *flow = conductance * (self.material.temperature(a) - self.material.temperature(b));
        }
    }

    /// What flows in through a face to the cell at it, W/m2.
    fn through_face(&self, face: Face, cell: f64) -> f64 {
        let inner = self.to_the_face(cell);
        let own = self.material.temperature(cell);
        match face {
            Face::Insulated => 0.0,
            Face::Held(temperature) => inner * (temperature - own),
            Face::Film {
                temperature,
                coefficient,
            } => coefficient * inner / (coefficient + inner) * (temperature - own),
        }
    }

    /// Conductance from the middle of a cell to its face, W/(m2 K).
    fn to_the_face(&self, cell: f64) -> f64 {
        2.0 * self.material.conductivity(cell) / self.width
    }

    /// A step is stable while no cell gives away more than it has (von Neumann): beside a face only half a cell lies
    /// between, and twice as much flows.
    fn longest_step(&self) -> f64 {
        let to_neighbours = 3.0 * self.material.diffusivity() / (self.width * self.width);
        let capacity = self.material.density
            * f64::min(
                self.material.solid.heat_capacity,
                self.material.melt.heat_capacity,
            );
        let at_sides = self.sides.map_or(0.0, |sides| sides.per_volume / capacity);
        OF_STABLE / (to_neighbours + at_sides)
    }
}
