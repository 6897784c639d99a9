//! Figures as the job's reader wants them, and the trade's words for what the plan holds.

use brimful_job::{About, Duty};
use brimful_tank::finding::{Grade, Quantity};
use brimful_tank::panel::Role;
use brimful_tank::plan::Plan;
use brimful_tank::seam::Joint;
use brimful_units::show::{self, decimal};
use brimful_units::{Angle, InchFraction, Length, LengthStyle, Mass, UnitSystem, Volume};

/// Writes figures in the job's units.
#[derive(Clone, Copy)]
pub struct Words<'a> {
    /// Findings and names in words.
    pub text: brimful_text::Words<'a>,
    about: &'a About,
}

impl<'a> Words<'a> {
    /// The words of a job.
    pub fn of(plan: &'a Plan) -> Self {
        let text = brimful_text::Words::new(&plan.job, brimful_text::Language::English);
        Self {
            text: text.with_panels(&plan.panels),
            about: &plan.job.about,
        }
    }
    /// Any quantity with its unit.
    pub fn quantity(&self, quantity: Quantity) -> String {
        self.text.quantity(quantity).into()
    }
    /// A length with its unit.
    pub fn length(&self, length: Length) -> String {
        self.quantity(Quantity::Length(length))
    }
    /// The thickness of sheet, with its unit.
    pub fn thickness(&self, thickness: Length) -> String {
        self.quantity(Quantity::Thickness(thickness))
    }
    /// A length in metres as a figure without its unit, for drawings and tables that name the
    /// unit once.
    pub fn bare(&self, metres: f64) -> String {
        let text = self.length(Length::from_m(metres));
        match text.strip_suffix(self.length_unit()) {
            Some(figure) => figure.trim_end().to_owned(),
            None => text,
        }
    }
    /// `mm` or `in`.
    pub fn length_unit(&self) -> &'static str {
        match self.about.units {
            UnitSystem::Metric => "mm",
            UnitSystem::Inch => "in",
        }
    }
    /// A length too small for the tape's fractions (blade, gap, rod), with its unit: in inch
    /// jobs the millimetres stand behind it.
    pub fn fine(&self, length: Length) -> String {
        match self.about.units {
            UnitSystem::Metric => self.length(length),
            UnitSystem::Inch => {
                let style = LengthStyle::Inch {
                    fraction: InchFraction::ThirtySecond,
                };
                format!(
                    "{} ({} mm)",
                    show::length(length, style),
                    decimal(length.mm(), 1)
                )
            }
        }
    }
    /// A length along seams: metres or feet.
    pub fn run(&self, length: Length) -> String {
        show::long_length(length, self.about.units)
    }
    /// Two lengths with one unit: `700 x 400 mm`.
    pub fn size(&self, lengths: &[Length]) -> String {
        let figures: Vec<String> = lengths.iter().map(|length| self.bare(length.m())).collect();
        format!("{} {}", figures.join(" x "), self.length_unit())
    }
    /// A volume with its unit.
    pub fn volume(&self, volume: Volume) -> String {
        self.quantity(Quantity::Volume(volume))
    }
    /// A mass with its unit.
    pub fn mass(&self, mass: Mass) -> String {
        self.quantity(Quantity::Mass(mass))
    }
    /// An angle in degrees.
    pub fn angle(&self, radians: f64) -> String {
        self.quantity(Quantity::Angle(Angle::from_rad(radians)))
    }
    /// Whether lengths are printed in inches.
    pub fn inches(&self) -> bool {
        self.about.units == UnitSystem::Inch
    }
    /// How lengths on paper are rounded, as a sentence.
    pub fn rounding(&self) -> String {
        match self.about.units {
            UnitSystem::Metric => {
                "Lengths are in millimetres, rounded to 0.1 mm in print only; the drawing files hold them unrounded.".into()
            }
            UnitSystem::Inch => format!(
                "Lengths are in inches, rounded to the nearest 1/{} in in print only; the drawing files hold them unrounded.",
                self.about.fraction.parts()
            ),
        }
    }
}

/// Stop, mend, note.
pub fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Stop => "STOP",
        Grade::Mend => "Mend",
        Grade::Note => "Note",
    }
}

/// What a panel is.
pub fn role(role: Role) -> &'static str {
    match role {
        Role::Floor => "floor",
        Role::Lid => "lid",
        Role::Wall => "wall",
        Role::Baffle => "baffle",
        Role::Divider => "divider",
        Role::Stay => "stay",
        Role::Rib => "rib",
    }
}

/// How two panels meet. `marks` are the marks of the panels by their numbers.
pub fn joint(joint: Joint, mark: impl Fn(usize) -> String) -> String {
    match joint {
        Joint::OpenCorner => "open corner".into(),
        Joint::ThroughAndButt { through } => {
            format!("through and butt ({} through)", mark(through))
        }
        Joint::Mitred => "mitred corner".into(),
        Joint::Tee => "tee".into(),
        Joint::SlotThrough => "slot-through".into(),
        Joint::Butt => "butt".into(),
    }
}

/// What the tank does.
pub fn duty(duty: Duty) -> &'static str {
    match duty {
        Duty::Standing => "standing",
        Duty::Road => "road",
        Duty::Afloat => "afloat",
    }
}

/// An edge's tilt from square in words.
pub fn edge_cut(words: &Words<'_>, bevel: f64) -> String {
    /// A twentieth of a degree is less than a saw's tilt can be set to.
    const SQUARE: f64 = 9e-4;
    if bevel.abs() < SQUARE {
        "square".into()
    } else if bevel > 0.0 {
        format!("{} off square, outside face longer", words.angle(bevel))
    } else {
        format!("{} off square, inside face longer", words.angle(-bevel))
    }
}
