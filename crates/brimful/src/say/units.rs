//! Quantities in the units of the job's reader.

use brimful_job::About;
use brimful_units::{Angle, Length, LengthStyle, Mass, Pressure, Time, Volume, show};

/// The units that a job is printed in.
#[derive(Clone, Copy)]
pub(super) struct Units<'a>(pub(super) &'a About);

impl Units<'_> {
    pub(super) fn length(self, length: Length) -> String {
        show::length(length, LengthStyle::of(self.0.units, self.0.fraction))
    }

    /// The thickness of sheet.
    pub(super) fn thickness(self, thickness: Length) -> String {
        show::small_length(thickness, self.0.units)
    }

    pub(super) fn metres(self, metres: f64) -> String {
        self.length(Length::from_m(metres))
    }

    /// `700 x 400 mm`; in inches each size keeps its unit.
    pub(super) fn sizes<const N: usize>(self, metres: [f64; N]) -> String {
        let texts = metres.map(|size| self.metres(size));
        match self.0.units {
            brimful_units::UnitSystem::Metric => {
                let numbers = texts.map(|text| text.trim_end_matches(" mm").to_owned());
                format!("{} mm", numbers.join(" x "))
            }
            brimful_units::UnitSystem::Inch => texts.join(" x "),
        }
    }

    pub(super) fn volume(self, volume: Volume) -> String {
        show::volume(volume, self.0.units)
    }

    pub(super) fn maybe_volume(self, volume: Option<Volume>) -> String {
        volume.map_or_else(|| "not known".to_owned(), |volume| self.volume(volume))
    }

    pub(super) fn mass(self, mass: Mass) -> String {
        show::mass(mass, self.0.units)
    }

    pub(super) fn stress(self, stress: Pressure) -> String {
        show::stress(stress, self.0.units)
    }

    pub(super) fn angle(self, angle: Angle) -> String {
        show::angle(angle)
    }

    pub(super) fn time(self, time: Time) -> String {
        show::time(time)
    }

    /// A long length, such as that of all seams: metres or feet.
    pub(super) fn run(self, length: Length) -> String {
        show::long_length(length, self.0.units)
    }
}
