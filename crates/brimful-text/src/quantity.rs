//! Quantities in the units and the precision that a person uses for them.

use crate::{Text, UnitSystem, Words};
use brimful_geom::vector::Point3;
use brimful_tank::finding::Quantity;
use brimful_units::show::{self, LengthStyle, decimal};
use brimful_units::{
    Acceleration, Angle, Area, Density, Force, Length, Mass, Pressure, Speed, Temperature, Time,
    Volume,
};

impl Words<'_> {
    /// Any quantity with its unit.
    pub fn quantity(&self, quantity: Quantity) -> Text {
        match quantity {
            Quantity::Length(length) => self.length(length),
            Quantity::Thickness(length) => self.thickness(length),
            Quantity::Area(area) => self.area(area),
            Quantity::Volume(volume) => self.volume(volume),
            Quantity::Mass(mass) => self.mass(mass),
            Quantity::Pressure(pressure) => self.pressure(pressure),
            Quantity::Stress(stress) => self.stress(stress),
            Quantity::Force(force) => self.force(force),
            Quantity::Temperature(temperature) => self.temperature(temperature),
            Quantity::Speed(speed) => self.speed(speed),
            Quantity::Angle(angle) => self.angle(angle),
            Quantity::Ratio(ratio) => self.ratio(ratio),
            Quantity::Count(count) => Text::from(count),
        }
    }

    /// A length as a tape shows it.
    pub fn length(&self, length: Length) -> Text {
        let style = LengthStyle::of(self.system, self.fraction());
        Text::verbatim(show::length(length, style))
    }

    /// The thickness of sheet, or another length too small for a tape's fractions.
    pub fn thickness(&self, length: Length) -> Text {
        Text::verbatim(show::small_length(length, self.system))
    }

    /// A length of rod, or along seams: metres or feet.
    pub fn long_length(&self, length: Length) -> Text {
        Text::verbatim(show::long_length(length, self.system))
    }

    /// A list of lengths.
    pub fn lengths(&self, lengths: &[Length]) -> Text {
        Text::join(lengths.iter().map(|length| self.length(*length)), ", ")
    }

    /// Sizes with one unit: `700 x 400 mm`; inches keep the unit of each.
    pub fn sizes<const N: usize>(&self, sizes: [Length; N]) -> Text {
        let texts = sizes.map(|size| String::from(self.length(size)));
        Text::verbatim(match self.system {
            UnitSystem::Metric => {
                let numbers = texts.map(|text| text.trim_end_matches(" mm").to_owned());
                format!("{} mm", numbers.join(" x "))
            }
            UnitSystem::Inch => texts.join(" x "),
        })
    }

    /// A place in the axes of the tank: `x 10 mm, y 20 mm, z 30 mm`.
    pub fn place(&self, place: Point3) -> Text {
        let [x, y, z] = place.to_array().map(|v| self.length(Length::from_m(v)));
        Text::verbatim(format!("x {x}, y {y}, z {z}"))
    }

    /// An area.
    pub fn area(&self, area: Area) -> Text {
        Text::verbatim(show::area(area, self.system))
    }

    /// A volume.
    pub fn volume(&self, volume: Volume) -> Text {
        Text::verbatim(show::volume(volume, self.system))
    }

    /// A mass.
    pub fn mass(&self, mass: Mass) -> Text {
        Text::verbatim(show::mass(mass, self.system))
    }

    /// A density.
    pub fn density(&self, density: Density) -> Text {
        Text::verbatim(show::density(density, self.system))
    }

    /// The pressure of a liquid or a gas.
    pub fn pressure(&self, pressure: Pressure) -> Text {
        Text::verbatim(show::pressure(pressure, self.system))
    }

    /// A stress or a modulus.
    pub fn stress(&self, stress: Pressure) -> Text {
        Text::verbatim(show::stress(stress, self.system))
    }

    /// A force.
    pub fn force(&self, force: Force) -> Text {
        Text::verbatim(show::force(force, self.system))
    }

    /// A temperature.
    pub fn temperature(&self, temperature: Temperature) -> Text {
        Text::verbatim(show::temperature(temperature, self.system))
    }

    /// By how much a temperature changes, kelvin.
    pub fn warming(&self, kelvin: f64) -> Text {
        Text::verbatim(show::warming(kelvin, self.system))
    }

    /// A welding speed.
    pub fn speed(&self, speed: Speed) -> Text {
        Text::verbatim(show::speed(speed, self.system))
    }

    /// An angle.
    pub fn angle(&self, angle: Angle) -> Text {
        Text::verbatim(show::angle(angle))
    }

    /// A span of time.
    pub fn time(&self, time: Time) -> Text {
        self.data(&show::time(time))
    }

    /// An acceleration in units of standard gravity.
    pub fn acceleration(&self, acceleration: Acceleration) -> Text {
        Text::verbatim(format!("{} g", decimal(acceleration.g(), 2)))
    }

    /// A plain ratio.
    pub fn ratio(&self, ratio: f64) -> Text {
        Text::verbatim(decimal(ratio, 2))
    }

    /// A share in per cent.
    pub fn percent(&self, share: f64) -> Text {
        Text::verbatim(format!("{} %", decimal(100.0 * share, 0)))
    }

    /// A plain number to so many decimals.
    pub fn number(&self, number: f64, decimals: usize) -> Text {
        Text::verbatim(decimal(number, decimals))
    }
}

impl Words<'_> {
    /// A figure and its limit, in one unit, told apart where they differ.
    pub(crate) fn against(&self, figure: Quantity, limit: Quantity) -> [Text; 2] {
        [figure, limit].map(|quantity| self.quantity(quantity))
    }
}
