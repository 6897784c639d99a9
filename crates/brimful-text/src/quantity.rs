//! Quantities in the units and the precision that a person uses for them.

use crate::text::Text;
use crate::words::Words;
use brimful_geom::vector::Point3;
use brimful_panels::finding::Quantity;
use brimful_units::UnitSystem;
use brimful_units::show::{self, LengthStyle, decimal};
use brimful_units::{
    Acceleration, Angle, Area, Density, FlowRate, Force, Length, Mass, MassRate, Pressure, Speed,
    Temperature, Time, Volume,
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

    /// How much mass a machine gives in a time.
    pub fn mass_rate(&self, rate: MassRate) -> Text {
        Text::verbatim(show::mass_rate(rate, self.system))
    }

    /// How much liquid runs in a time.
    pub fn flow_rate(&self, rate: FlowRate) -> Text {
        Text::verbatim(show::flow_rate(rate, self.system))
    }

    /// An angle.
    pub fn angle(&self, angle: Angle) -> Text {
        Text::verbatim(show::angle(angle))
    }

    /// A span of time.
    pub fn time(&self, time: Time) -> Text {
        self.data(&show::time(time))
    }

    /// Working time, in hours however long.
    pub fn working_time(&self, work: Time) -> Text {
        self.data(&show::working_time(work))
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
    /// A figure and its limit, in one unit, with as many digits as tell them apart: where a tape or
    /// three figures show both alike, one of them would seem to be at the other.
    pub(crate) fn against(&self, figure: Quantity, limit: Quantity) -> [Text; 2] {
        /// More digits than these are noise.
        const MOST: i32 = 7;
        let plain = [figure, limit].map(|quantity| self.quantity(quantity));
        let unit = |text: &Text| {
            text.as_str()
                .rsplit_once(' ')
                .map(|(_, unit)| unit.to_owned())
        };
        let zero = |quantity: Quantity| quantity.value() == 0.0;
        let one_unit = unit(&plain[0]) == unit(&plain[1]) || zero(figure) || zero(limit);
        if figure == limit || (plain[0] != plain[1] && one_unit) {
            return plain;
        }
        let [figure, limit] = [figure, limit].map(|quantity| self.in_unit(quantity));
        let ((a, unit), (b, _)) = (figure, limit);
        let text = |number: f64, digits: i32| {
            let number = show::figures(number, digits, 0..=MOST);
            Text::verbatim(format!("{number} {unit}").trim_end())
        };
        (3..=MOST)
            .map(|digits| [text(a, digits), text(b, digits)])
            .find(|[a, b]| a != b)
            .unwrap_or(plain)
    }

    /// A quantity as a number in the unit that a figure and its limit have in common.
    fn in_unit(&self, quantity: Quantity) -> (f64, &'static str) {
        let pick = |metric: (f64, &'static str), inch: (f64, &'static str)| match self.system {
            UnitSystem::Metric => metric,
            UnitSystem::Inch => inch,
        };
        match quantity {
            Quantity::Length(it) | Quantity::Thickness(it) => {
                pick((it.mm(), "mm"), (it.inches(), "in"))
            }
            Quantity::Area(it) => pick((it.m2(), "m2"), (it.ft2(), "sq ft")),
            Quantity::Volume(it) => pick((it.litres(), "L"), (it.us_gal(), "US gal")),
            Quantity::Mass(it) => pick((it.kg(), "kg"), (it.lb(), "lb")),
            Quantity::Pressure(it) => pick((it.kpa(), "kPa"), (it.psi(), "psi")),
            Quantity::Stress(it) => pick((it.mpa(), "MPa"), (it.psi(), "psi")),
            Quantity::Force(it) => pick((it.n(), "N"), (it.lbf(), "lbf")),
            Quantity::Temperature(it) => pick((it.degc(), "degC"), (it.degf(), "degF")),
            Quantity::Speed(it) => pick((it.mm_min(), "mm/min"), (it.in_min(), "in/min")),
            Quantity::Angle(it) => (it.deg(), "deg"),
            Quantity::Ratio(ratio) => (ratio, ""),
            Quantity::Count(count) => (count as f64, ""),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Language;
    use brimful_job::Job;

    fn both(system: UnitSystem, figure: Quantity, limit: Quantity) -> [String; 2] {
        let job =
            Job::parse("[liquid]\nkind = \"water\"\n[body]\nbox = [\"1 m\", \"1 m\", \"1 m\"]\n");
        let job = job.expect("a job");
        let words = Words::new(&job, Language::English).in_units(system);
        words.against(figure, limit).map(String::from)
    }

    #[test]
    fn what_differs_is_shown_to_differ() {
        let litres = |v| Quantity::Volume(Volume::from_litres(v));
        let metric = |a, b| both(UnitSystem::Metric, a, b);
        assert_eq!(metric(litres(65.004), litres(65.0)), ["65.004 L", "65 L"]);
        assert_eq!(metric(litres(65.2), litres(65.0)), ["65.2 L", "65 L"]);
        let ratio = Quantity::Ratio;
        assert_eq!(metric(ratio(0.8996), ratio(0.9)), ["0.8996", "0.9"]);
        let mm = |v| Quantity::Length(Length::from_mm(v));
        let [figure, limit] = both(UnitSystem::Inch, mm(450.0), mm(450.2));
        assert!(
            figure != limit && limit.ends_with(" in"),
            "{figure} {limit}"
        );
    }

    #[test]
    fn a_figure_and_its_limit_have_one_unit() {
        let kpa = |v| Quantity::Stress(Pressure::from_kpa(v));
        let both = both(UnitSystem::Metric, kpa(82.0), kpa(2005.87));
        assert_eq!(both, ["0.082 MPa", "2.01 MPa"]);
    }
}
