//! A strip that shows by its bow how much a bead of the shop draws in.

use brimful_units::{Density, Length};

/// A strip of sheet with one bead along an edge, cold and off the bench.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PullStrip {
    /// How long it is.
    pub length: Length,
    /// How wide, in the plane it bows in.
    pub width: Length,
    /// Of the sheet.
    pub thickness: Length,
    /// Of sheet and rod.
    pub density: Density,
}

impl PullStrip {
    /// One of handy size that does not sag much when it stands on its edge.
    pub fn of(thickness: Length, density: Density) -> Self {
        Self {
            length: Length::from_mm(600.0),
            width: Length::from_mm(60.0),
            thickness,
            density,
        }
    }

    /// The inherent strain of a bead for each metre that the strip bows, times the mass of the bead, kg/m; in millimetres
    /// and grams the same. A beam whose edge draws in has the curvature `e A a / I`, and over its length bows by an
    /// eighth of that times its length squared (S. Timoshenko, *Strength of Materials*, eccentric force; from memory). The
    /// section of the bead is its mass over density and length.
    pub fn strain_for_bow_and_mass(&self) -> f64 {
        let (length, width) = (self.length.m(), self.width.m());
        let inertia = self.thickness.m() * width.powi(3) / 12.0;
        let eccentricity = width / 2.0;
        8.0 * inertia * self.density.kg_m3() / (eccentricity * length)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 60 x 6 x 600 mm with 16 mm2 along an edge bows by 4.0 mm where the bead draws in by 2 %.
    #[test]
    fn a_strip_bows_as_a_beam_does() {
        let strip = PullStrip::of(Length::from_mm(6.0), Density::from_kg_m3(950.0));
        let bead = 16e-6 * 0.6 * 950.0;
        let strain = strip.strain_for_bow_and_mass() * 4e-3 / bead;
        assert!((strain - 0.02).abs() < 1e-9, "{strain}");
    }
}
