//! What the weld of a seam offers against what the shell puts on it.
//!
//! A seam welded from both sides carries like a strip as deep as its throats together, at most as
//! the thinner sheet. One welded from a single side carries like a strip as deep as its throat,
//! off the middle of the sheet by what the throat lacks, and what bends its root open it does not
//! carry at all: a root is a notch (M. Gehde, *Extrusionsschweissen von Polypropylen*: notches rule
//! the long-time strength of such welds, abstract seen).

use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;
use brimful_panels::weld::{SeamWeld, WeldSide};

/// A single-sided seam bent open by less than this share of what its tension does is not bent:
/// rounding and the sag of the sheet's own weight.
const NO_BENDING: f64 = 0.02;

/// The welded section of a seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Depth that carries, m.
    pub depth: f64,
    /// The only side it is welded from; none where it is welded from both.
    pub only: Option<WeldSide>,
    /// How far the welded depth lies off the middle of the thinner sheet, m.
    pub off: f64,
}

/// What a seam passes on, per metre: tension square to it, shear along it and across the sheet (N/m),
/// bending (N m/m), positive where it stretches the outside (of an inner panel either) face.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Passed {
    /// Square to the seam in the sheet, pulling positive.
    pub tension: f64,
    /// Along the seam.
    pub along: f64,
    /// Across the sheet.
    pub across: f64,
    /// Bending.
    pub moment: f64,
}

impl Section {
    /// The section of a seam; `None` where nothing is welded.
    pub fn of(number: usize, seam: &Seam, panels: &[Panel], welds: &[SeamWeld]) -> Option<Self> {
        let thinner = seam
            .panels
            .iter()
            .filter_map(|&panel| panels.get(panel))
            .map(|panel| panel.thickness.m())
            .fold(f64::INFINITY, f64::min);
        let own = || welds.iter().filter(move |weld| weld.seam == number);
        let throat: f64 = own().map(|weld| weld.throat.m()).sum();
        let depth = throat.min(thinner);
        if !(depth > 0.0 && depth.is_finite()) {
            return None;
        }
        // Two runs of a seam lie on its two sides, whatever side of the tank they are laid from: both
        // fillets of a baffle's foot from inside, of a rib's from outside.
        let mut sides = own().map(|weld| weld.side);
        let only = match (sides.next(), sides.next()) {
            (Some(side), None) => Some(side),
            _ => None,
        };
        let off = if only.is_some() {
            (thinner - depth) / 2.0
        } else {
            0.0
        };
        Some(Self { depth, only, off })
    }

    /// The stress that `passed` puts on it, Pa: tension and bending with shear by the von Mises rule.
    /// Infinite where the root of a single-sided seam is bent open.
    pub fn stress(&self, passed: &Passed) -> f64 {
        let by_tension = passed.tension / self.depth;
        let opens = match self.only {
            None => false,
            Some(WeldSide::Outside) => passed.moment < 0.0,
            Some(WeldSide::Inside) => passed.moment > 0.0,
        };
        let by_bending = 6.0 * passed.moment / self.depth.powi(2);
        if opens && by_bending.abs() > NO_BENDING * by_tension.abs() {
            return f64::INFINITY;
        }
        let moment = passed.moment.abs() + passed.tension.abs() * self.off;
        let normal = by_tension.abs() + 6.0 * moment / self.depth.powi(2);
        let shear = passed.along.hypot(passed.across) / self.depth;
        (normal.powi(2) + 3.0 * shear.powi(2)).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A strip in tension and bending: N / t + 6 M / t^2, strength of materials.
    #[test]
    fn a_double_sided_seam_is_a_strip() {
        let section = Section {
            depth: 0.008,
            only: None,
            off: 0.0,
        };
        let passed = Passed {
            tension: 1000.0,
            moment: -10.0,
            ..Passed::default()
        };
        let by_hand = 1000.0 / 0.008 + 6.0 * 10.0 / 0.008_f64.powi(2);
        assert!((section.stress(&passed) / by_hand - 1.0).abs() < 1e-12);
    }

    #[test]
    fn an_open_root_carries_nothing() {
        let section = Section {
            depth: 0.0056,
            only: Some(WeldSide::Outside),
            off: 0.0012,
        };
        let bent = |moment| {
            section.stress(&Passed {
                tension: 1000.0,
                moment,
                ..Passed::default()
            })
        };
        assert!(bent(-10.0).is_infinite());
        assert!(bent(10.0).is_finite() && bent(10.0) > bent(0.0));
        assert!(bent(0.0) > 1000.0 / 0.0056);
    }
}
