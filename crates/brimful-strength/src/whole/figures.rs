//! What one load case does to every panel and seam, as values.

use super::reaction::Reaction;
use super::weld::Passed;
use brimful_geom::vector::Point3;
use brimful_mech::shell::model::Resultants;

/// The figures of one load case.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// One a panel.
    pub panels: Vec<PanelFigure>,
    /// One a seam that passes something on.
    pub seams: Vec<SeamFigure>,
    /// Push of the support, all together, N.
    pub borne: f64,
    /// What each of the supports puts on the tank, in the order of [`super::Whole::supports`].
    pub reactions: Vec<Reaction>,
    /// How far the tank as a whole leans over from how it stood, radians.
    pub tilt: f64,
}

impl Figures {
    /// The furthest that any panel moves square to itself, m.
    pub fn worst_bulge(&self) -> f64 {
        let moves = self
            .panels
            .iter()
            .map(|panel| panel.outward.max(-panel.inward));
        moves.fold(0.0, f64::max)
    }

    /// The worse of two loads of one kind, panel by panel and seam by seam: somebody in one place or another.
    #[must_use]
    pub fn or_worse(mut self, other: Self) -> Self {
        for (own, other) in self.panels.iter_mut().zip(other.panels) {
            own.take_worse(other);
        }
        for own in &mut self.seams {
            if let Some(other) = other.seams.iter().find(|it| it.seam == own.seam) {
                *own = own.or_worse(other);
            }
        }
        for (own, other) in self.reactions.iter_mut().zip(other.reactions) {
            if other.push > own.push {
                *own = other;
            }
        }
        self.borne = self.borne.max(other.borne);
        self.tilt = self.tilt.max(other.tilt);
        self
    }

    /// The greatest use of any panel.
    pub fn worst_panel(&self) -> f64 {
        self.panels
            .iter()
            .map(|panel| panel.utilisation)
            .fold(0.0, f64::max)
    }

    /// The greatest use of any seam.
    pub fn worst_seam(&self) -> f64 {
        self.seams
            .iter()
            .map(|seam| seam.utilisation)
            .fold(0.0, f64::max)
    }
}

/// What a case does to a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelFigure {
    /// Furthest outward, less what the sheet has grown by warmth, m.
    pub outward: f64,
    /// Furthest inward, m.
    pub inward: f64,
    /// Where it moves most.
    pub bulge_at: Point3,
    /// Greatest stress, a thickness away from notches, Pa.
    pub stress: f64,
    /// Stress over allowed.
    pub utilisation: f64,
    /// Where.
    pub stress_at: Point3,
}

impl PanelFigure {
    fn take_worse(&mut self, other: Self) {
        let moves = |figure: &Self| figure.outward.max(-figure.inward);
        if moves(&other) > moves(self) {
            self.bulge_at = other.bulge_at;
        }
        self.outward = self.outward.max(other.outward);
        self.inward = self.inward.min(other.inward);
        if is_worse(other.utilisation, self.utilisation) {
            self.stress = other.stress;
            self.utilisation = other.utilisation;
            self.stress_at = other.stress_at;
        }
    }
}

/// What a case does to a seam, at its worst place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamFigure {
    /// The seam.
    pub seam: usize,
    /// What it passes on there.
    pub passed: Passed,
    /// Stress in the weld, Pa; that of a root pulled open counts twice.
    pub stress: f64,
    /// Whether it is that of a root.
    pub at_root: bool,
    /// Stress over allowed.
    pub utilisation: f64,
    /// The greatest use of any place of it, if a root that is pulled open takes nothing off.
    pub in_full: f64,
    /// The greatest use of any place of it as it counts against a life: of a weld by hot gas where the shop has an extruder by what it
    /// bears of that in the long run.
    pub in_the_long_run: f64,
    /// Where.
    pub at: Point3,
}

impl SeamFigure {
    /// The worse of two places of a seam, or of two loads on it; what counts in full is not hidden by a root elsewhere.
    #[must_use]
    pub fn or_worse(&self, other: &Self) -> Self {
        let worse = match is_worse(other.utilisation, self.utilisation) {
            true => other,
            false => self,
        };
        let greater = |one: f64, other: f64| match is_worse(other, one) {
            true => other,
            false => one,
        };
        Self {
            in_full: greater(self.in_full, other.in_full),
            in_the_long_run: greater(self.in_the_long_run, other.in_the_long_run),
            ..*worse
        }
    }
}

/// Whether a figure is worse than the one so far: what is no number is worse than any, and stays.
pub fn is_worse(one: f64, so_far: f64) -> bool {
    one > so_far || (one.is_nan() && !so_far.is_nan())
}

/// The greater of principal and von Mises stress at the worse face of a sheet, Pa: pipe strengths
/// are measured in one direction, and opposite signs are worse than either.
pub fn face_stress(resultants: &Resultants, thickness: f64) -> f64 {
    let at = |side: f64| {
        let stress = |k: usize| {
            resultants.force[k] / thickness + side * 6.0 * resultants.moment[k] / thickness.powi(2)
        };
        let (x, y, xy) = (stress(0), stress(1), stress(2));
        let (mean, radius) = ((x + y) / 2.0, ((x - y) / 2.0).hypot(xy));
        let mises = (x * x - x * y + y * y + 3.0 * xy * xy).sqrt();
        mises.max(mean.abs() + radius)
    };
    at(1.0).max(at(-1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_the_worst_and_stays() {
        let worst = |row: [f64; 3]| {
            row.into_iter()
                .fold(0.0, |worst, one| match is_worse(one, worst) {
                    true => one,
                    false => worst,
                })
        };
        assert!(worst([1.0, f64::NAN, 2.0]).is_nan());
        assert_eq!(worst([1.0, 3.0, 2.0]), 3.0);
    }

    /// A place with a root at 1.8, 0.9 in full, and one without at 1.4.
    #[test]
    fn a_root_hides_no_worse_place_of_its_seam() {
        let place = |utilisation: f64, in_full: f64| SeamFigure {
            seam: 0,
            passed: Passed::default(),
            stress: 0.0,
            at_root: in_full < utilisation,
            in_the_long_run: utilisation,
            utilisation,
            in_full,
            at: Point3::ORIGIN,
        };
        let (root, face) = (place(1.8, 0.9), place(1.4, 1.4));
        for both in [root.or_worse(&face), face.or_worse(&root)] {
            assert!(both.at_root);
            assert_eq!((both.utilisation, both.in_full), (1.8, 1.4));
        }
        assert!(root.or_worse(&place(f64::NAN, f64::NAN)).in_full.is_nan());
        // A short run of hot gas beside an extruded one that is used a little more now.
        let hot_gas = SeamFigure {
            in_the_long_run: 0.94 * 1.5,
            ..place(0.94, 0.94)
        };
        let both = place(0.95, 0.95).or_worse(&hot_gas);
        assert_eq!((both.utilisation, both.in_the_long_run), (0.95, 0.94 * 1.5));
    }

    /// Pure shear s: von Mises is sqrt(3) s, over the principal s (strength of materials).
    #[test]
    fn the_worse_of_two_rules_counts() {
        let shear = Resultants {
            force: [0.0, 0.0, 10.0],
            moment: [0.0; 3],
        };
        assert!((face_stress(&shear, 0.01) - 3.0_f64.sqrt() * 1000.0).abs() < 1e-9);
        let bent = Resultants {
            force: [10.0, 10.0, 0.0],
            moment: [1e-2, 1e-2, 0.0],
        };
        assert!((face_stress(&bent, 0.01) - 1600.0).abs() < 1e-9);
    }
}
