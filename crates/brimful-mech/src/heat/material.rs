//! A material that melts over a range of temperatures, by its enthalpy.

/// How a state of a material takes and passes on heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Phase {
    /// W/(m K).
    pub conductivity: f64,
    /// J/(kg K).
    pub heat_capacity: f64,
}

/// A material that melts, its density the same throughout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// kg/m3.
    pub density: f64,
    /// Below the melting range.
    pub solid: Phase,
    /// Above it.
    pub melt: Phase,
    /// Temperatures at which melting begins and ends; equal ones for a melting point.
    pub melting: [f64; 2],
    /// Heat of fusion, J/kg.
    pub latent_heat: f64,
}

impl Material {
    /// Heat in a unit of volume, J/m3, from the beginning of melting. At a melting point that is the heat of the
    /// solid.
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        let [begins, ends] = self.melting;
        let per_mass = if temperature <= begins {
            self.solid.heat_capacity * (temperature - begins)
        } else if temperature < ends {
            self.heat_of_melting() * (temperature - begins) / (ends - begins)
        } else {
            self.heat_of_melting() + self.melt.heat_capacity * (temperature - ends)
        };
        self.density * per_mass
    }

    /// The temperature at which a unit of volume holds this heat, J/m3.
    pub fn temperature(&self, enthalpy: f64) -> f64 {
        let [begins, ends] = self.melting;
        let per_mass = enthalpy / self.density;
        let melting = self.heat_of_melting();
        if per_mass <= 0.0 {
            begins + per_mass / self.solid.heat_capacity
        } else if per_mass < melting {
            begins + (ends - begins) * per_mass / melting
        } else {
            ends + (per_mass - melting) / self.melt.heat_capacity
        }
    }

    /// How much of a unit of volume that holds this heat has melted, zero to one.
    pub fn melted(&self, enthalpy: f64) -> f64 {
        let melting = self.density * self.heat_of_melting();
        if melting > 0.0 {
            (enthalpy / melting).clamp(0.0, 1.0)
        } else {
            f64::from(u8::from(enthalpy > 0.0))
        }
    }

    /// W/(m K); between the two phases by what has melted.
    pub fn conductivity(&self, enthalpy: f64) -> f64 {
        let melted = self.melted(enthalpy);
        self.solid.conductivity + melted * (self.melt.conductivity - self.solid.conductivity)
    }

    /// The greatest diffusivity of either phase, m2/s.
    pub fn diffusivity(&self) -> f64 {
        let of = |phase: &Phase| phase.conductivity / (self.density * phase.heat_capacity);
        of(&self.solid).max(of(&self.melt))
    }

    /// Heat from the beginning of melting to its end, J/kg: what melts is warmed through the range as well.
    fn heat_of_melting(&self) -> f64 {
        let [begins, ends] = self.melting;
        let warming = 0.5 * (self.solid.heat_capacity + self.melt.heat_capacity);
        self.latent_heat + warming * (ends - begins)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const POLYMER: Material = Material {
        density: 940.0,
        solid: Phase {
            conductivity: 0.4,
            heat_capacity: 2200.0,
        },
        melt: Phase {
            conductivity: 0.26,
            heat_capacity: 2500.0,
        },
        melting: [118.0, 134.0],
        latent_heat: 190e3,
    };

    #[test]
    fn temperature_and_enthalpy_are_each_others_inverse() {
        for temperature in [-20.0, 20.0, 118.0, 121.0, 133.9, 134.0, 210.0] {
            let found = POLYMER.temperature(POLYMER.enthalpy(temperature));
            // Rounding of a handful of products.
            assert!((found - temperature).abs() < 1e-9, "{found} {temperature}");
        }
    }

    #[test]
    fn what_is_half_through_its_range_has_half_melted() {
        assert_eq!(POLYMER.melted(POLYMER.enthalpy(126.0)), 0.5);
        assert_eq!(POLYMER.melted(POLYMER.enthalpy(20.0)), 0.0);
        assert_eq!(POLYMER.melted(POLYMER.enthalpy(210.0)), 1.0);
    }
}
