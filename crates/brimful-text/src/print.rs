//! Figures as they are printed in tables and on drawings, where the unit is named once.

use crate::text::Text;
use crate::words::Words;
use brimful_geom::vector::Vec3;
use brimful_units::UnitSystem;
use brimful_units::show::{self, LengthStyle, decimal};
use brimful_units::{Force, InchFraction, Length, Volume};

/// Metres of a foot.
const FOOT: f64 = 0.3048;
/// Metres of an inch.
const INCH: f64 = 0.0254;

impl Words<'_> {
    /// An id, a mark or a unit: in no language.
    pub fn symbol(&self, symbol: &str) -> Text {
        Text::verbatim(symbol)
    }

    /// The unit of lengths on drawings.
    pub fn length_unit(&self) -> Text {
        self.symbol(self.by_system("mm", "in"))
    }

    /// A length in metres as a figure without its unit.
    pub fn bare(&self, metres: f64) -> Text {
        let text = String::from(self.length(Length::from_m(metres)));
        let figure = text.strip_suffix(self.by_system("mm", "in"));
        Text::verbatim(figure.map_or(text.as_str(), str::trim_end))
    }

    /// Lengths in metres as sizes without their unit: `700 x 400`.
    pub fn bare_size<const N: usize>(&self, metres: [f64; N]) -> Text {
        Text::join(metres.map(|size| self.bare(size)), " x ")
    }

    /// Sizes with one unit, in inches too: `20 x 10 in`.
    pub fn size<const N: usize>(&self, lengths: [Length; N]) -> Text {
        let figures = self.bare_size(lengths.map(|length| length.m()));
        Text::join([figures, self.length_unit()], " ")
    }

    /// A length too small for the fractions of a tape (blade, gap, rod): in inches the millimetres stand
    /// behind it.
    pub fn fine(&self, length: Length) -> Text {
        self.fine_with(length, " ")
    }

    /// The same for a narrow column: the millimetres stand below.
    pub fn fine_in_two_lines(&self, length: Length) -> Text {
        self.fine_with(length, "\n")
    }

    fn fine_with(&self, length: Length, between: &str) -> Text {
        match self.system {
            UnitSystem::Metric => self.length(length),
            UnitSystem::Inch => {
                let fraction = InchFraction::ThirtySecond;
                let inches = show::length(length, LengthStyle::Inch { fraction });
                Text::verbatim(format!("{inches}{between}({} mm)", decimal(length.mm(), 1)))
            }
        }
    }

    /// A volume to a millionth of its unit, for a proof.
    pub fn exact_volume(&self, volume: Volume) -> Text {
        match self.system {
            UnitSystem::Metric => exact(volume.litres(), "L"),
            UnitSystem::Inch => exact(volume.us_gal(), "US gal"),
        }
    }

    /// A length to a millionth of its unit, for a proof.
    pub fn exact_length(&self, length: Length) -> Text {
        match self.system {
            UnitSystem::Metric => exact(length.mm(), "mm"),
            UnitSystem::Inch => exact(length.inches(), "in"),
        }
    }

    /// The unit of a force spread along a seam.
    pub fn line_force_unit(&self) -> Text {
        self.symbol(self.by_system("kN/m", "lbf/in"))
    }

    /// A force spread along a seam, newtons a metre, as a figure.
    pub fn line_force(&self, newtons_per_metre: f64) -> Text {
        match self.system {
            UnitSystem::Metric => self.number(newtons_per_metre / 1000.0, 2),
            UnitSystem::Inch => self.number(Force::from_n(newtons_per_metre * INCH).lbf(), 2),
        }
    }

    /// The unit of a bending moment spread along a seam.
    pub fn line_moment_unit(&self) -> Text {
        self.symbol(self.by_system("N m/m", "lbf in/in"))
    }

    /// A bending moment spread along a seam, newton metres a metre, as a figure.
    pub fn line_moment(&self, newtons: f64) -> Text {
        match self.system {
            UnitSystem::Metric => self.number(newtons, 1),
            UnitSystem::Inch => self.number(Force::from_n(newtons).lbf(), 2),
        }
    }

    /// The unit of [`Self::pull`].
    pub fn pull_unit(&self) -> Text {
        self.symbol(self.by_system("m/s2", "ft/s2"))
    }

    /// An acceleration by its components, m/s2, as figures.
    pub fn pull(&self, pull: Vec3) -> Text {
        let unit = match self.system {
            UnitSystem::Metric => 1.0,
            UnitSystem::Inch => FOOT,
        };
        Text::join(pull.to_array().map(|a| self.number(a / unit, 2)), ", ")
    }

    /// To which part of an inch lengths are rounded, where they are in inches.
    pub fn fraction_note(&self) -> Option<Text> {
        (self.system == UnitSystem::Inch).then(|| {
            say!(
                self,
                "Lengths are rounded to the nearest {fraction} in.",
                fraction = self.smallest_fraction()
            )
        })
    }

    fn smallest_fraction(&self) -> Text {
        Text::verbatim(format!("1/{}", self.fraction().parts()))
    }

    /// How lengths on paper are rounded.
    pub fn rounding(&self) -> Text {
        match self.system {
            UnitSystem::Metric => say!(
                self,
                "Lengths are in millimetres, rounded to 0.1 mm in print only; the drawing files hold them unrounded."
            ),
            UnitSystem::Inch => say!(
                self,
                "Lengths are in inches, rounded to the nearest {fraction} in print only; the drawing files hold them unrounded.",
                fraction = self.smallest_fraction()
            ),
        }
    }

    fn by_system<'t>(&self, metric: &'t str, inch: &'t str) -> &'t str {
        match self.system {
            UnitSystem::Metric => metric,
            UnitSystem::Inch => inch,
        }
    }
}

/// Six decimals; what rounds to zero has no sign.
fn exact(number: f64, unit: &str) -> Text {
    let rounded = (number * 1e6).round() / 1e6 + 0.0;
    Text::verbatim(format!("{rounded:.6} {unit}"))
}
