//! What the weld of a seam offers against what the shell puts on it.
//!
//! A seam welded from both sides carries like a strip as deep as its throats together, at most as
//! the thinner sheet. One welded from a single side carries like a strip as deep as its throat,
//! off the middle of the sheet, so that what pulls on it bends it too; its root is a notch (M. Gehde,
//! *Extrusionsschweissen von Polypropylen*: notches rule the long-time strength of such welds, abstract
//! seen), and where it is pulled open it counts half. Tongues in slots carry by their length alone, and in
//! shear.

use super::tank::Tank;
use brimful_job::Process;
use brimful_panels::panel::Panel;
use brimful_panels::seam::{Joint, Seam};
use brimful_panels::weld::groove::GrooveKind;
use brimful_panels::weld::{SeamWeld, WeldSide};
use brimful_units::Length;
use std::f64::consts::SQRT_2;

/// What a root that is pulled open takes, as a share of what the weld does: common practice.
pub const ROOT: f64 = 0.5;

/// Where the only weld of a seam is laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OnlySide {
    /// Outside the tank.
    Outside,
    /// Inside it.
    Inside,
    /// On one face of an inner panel, whichever: its root is taken to be bent open.
    OneFace,
}

/// The welded section of a seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Depth that carries, m.
    pub depth: f64,
    /// The only side it is welded from; none where it is welded from both.
    pub only: Option<OnlySide>,
    /// How far the welded depth lies off the middle of the thinner sheet, m.
    pub off: f64,
    /// Tongues in slots: the share of the seam that they make up.
    pub tongues: Option<f64>,
    /// Whether part of it is laid by hot gas where the shop has an extruder.
    pub by_hot_gas: bool,
}

/// The welded section of a seam at every place of it.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldedSeam {
    /// All along, its gaps apart.
    pub section: Section,
    /// From where to where along the seam its inside run is left out, m.
    pub left_out: Vec<[f64; 2]>,
    /// What is welded there.
    pub without_inside: Section,
    /// From where to where short runs through corners are laid by hot gas in a shop with an extruder, m.
    pub short_runs: Vec<[f64; 2]>,
}

impl WeldedSeam {
    /// The section of a seam; `None` where nothing is welded.
    pub fn of(number: usize, seam: &Seam, tank: &Tank<'_>, welds: &[SeamWeld]) -> Option<Self> {
        let own = welds.iter().filter(|weld| weld.seam == number);
        let own: Vec<SeamWeld> = own.cloned().collect();
        let left_out = own.iter().flat_map(|weld| weld.left_out.iter());
        let left_out: Vec<[f64; 2]> = left_out.map(|stretch| stretch.map(Length::m)).collect();
        let whole = own.iter().filter(|weld| weld.left_out.is_empty());
        let whole: Vec<SeamWeld> = whole.cloned().collect();
        let short_runs = own.iter().filter(|weld| weld.process == Process::Extrusion);
        let short_runs = short_runs.filter_map(|weld| weld.short_runs.as_ref());
        let short_runs = short_runs.flat_map(|short| short.stretches.iter());
        let short_runs = short_runs.map(|stretch| stretch.map(Length::m)).collect();
        let by_hot_gas = own.iter().any(|weld| weld.process != tank.job.shop.process);
        let of = |welds: &[SeamWeld]| {
            let section = Section::of(number, seam, tank.panels, welds)?;
            Some(Section {
                by_hot_gas,
                ..section
            })
        };
        let section = of(&own)?;
        Some(Self {
            section,
            without_inside: match left_out.is_empty() {
                true => section,
                false => of(&whole)?,
            },
            left_out,
            short_runs,
        })
    }

    /// The section that counts over a stretch of the seam, m.
    pub fn over(&self, [from, to]: [f64; 2]) -> Section {
        let reaches_in = |[own_from, own_to]: &[f64; 2]| *own_from <= to && from <= *own_to;
        let section = match self.left_out.iter().any(reaches_in) {
            true => self.without_inside,
            false => self.section,
        };
        Section {
            by_hot_gas: section.by_hot_gas || self.short_runs.iter().any(reaches_in),
            ..section
        }
    }
}

/// The stress in a weld.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeldStress {
    /// That which is held against what is allowed, Pa.
    pub counted: f64,
    /// The same if a root that is pulled open takes nothing off, Pa.
    pub in_full: f64,
    /// Whether it is that of a root pulled open, which counts twice.
    pub at_root: bool,
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
            (Some(_), None) if seam.joint == Joint::Tee => Some(OnlySide::OneFace),
            (Some(WeldSide::Outside), None) => Some(OnlySide::Outside),
            (Some(WeldSide::Inside), None) => Some(OnlySide::Inside),
            _ => None,
        };
        let off = match own().next() {
            _ if only.is_none() => 0.0,
            // The middle of a fillet's throat lies beside the sheet, that of a groove in it.
            Some(weld) if weld.kind == GrooveKind::Fillet => thinner / 2.0 + depth / (2.0 * SQRT_2),
            _ => (thinner - depth) / 2.0,
        };
        let welded = own().map(|weld| weld.length.m()).fold(0.0, f64::max);
        let tongues =
            (seam.joint == Joint::SlotThrough).then(|| (welded / seam.length().m()).min(1.0));
        Some(Self {
            depth,
            only,
            off,
            tongues,
            by_hot_gas: false,
        })
    }

    /// The stress that `passed` puts on it, as it counts against the limit of the shop's own process; `hot_gas` is what a weld by
    /// hot gas bears of that.
    pub fn stress(&self, passed: &Passed, hot_gas: f64) -> WeldStress {
        let found = self.stress_alone(passed);
        let bears = if self.by_hot_gas { hot_gas } else { 1.0 };
        WeldStress {
            counted: found.counted / bears,
            in_full: found.in_full / bears,
            ..found
        }
    }

    /// Tension and bending with shear by the von Mises rule.
    fn stress_alone(&self, passed: &Passed) -> WeldStress {
        let by_tension = passed.tension / self.depth;
        let bent = |moment: f64| 6.0 * moment / self.depth.powi(2);
        let shear = passed.along.hypot(passed.across) / self.depth;
        let with_shear = |normal: f64| (normal.powi(2) + 3.0 * shear.powi(2)).sqrt();
        if let Some(share) = self.tongues {
            // What pulls a tongue shears the welds along it.
            let normal = by_tension.abs() + bent(passed.moment).abs();
            return WeldStress::without_root(with_shear(3.0_f64.sqrt() * normal) / share);
        }
        let opening = passed.tension * self.off
            + match self.only {
                None => {
                    let normal = by_tension.abs() + bent(passed.moment).abs();
                    return WeldStress::without_root(with_shear(normal));
                }
                Some(OnlySide::Outside) => -passed.moment,
                Some(OnlySide::Inside) => passed.moment,
                Some(OnlySide::OneFace) => passed.moment.abs(),
            };
        let (root, face) = (by_tension + bent(opening), by_tension - bent(opening));
        let in_full = with_shear(face).max(with_shear(root));
        let at_root = with_shear(root) / ROOT;
        match root > 0.0 && at_root > in_full {
            true => WeldStress {
                counted: at_root,
                in_full,
                at_root: true,
            },
            false => WeldStress::without_root(in_full),
        }
    }
}

impl WeldStress {
    fn without_root(stress: f64) -> Self {
        Self {
            counted: stress,
            in_full: stress,
            at_root: false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const STRIP: Section = Section {
        depth: 0.008,
        only: None,
        off: 0.0,
        tongues: None,
        by_hot_gas: false,
    };

    fn passed(tension: f64, moment: f64) -> Passed {
        Passed {
            tension,
            moment,
            ..Passed::default()
        }
    }

    /// A strip in tension and bending: N / t + 6 M / t^2, strength of materials.
    #[test]
    fn a_double_sided_seam_is_a_strip() {
        let by_hand = 1000.0 / 0.008 + 6.0 * 10.0 / 0.008_f64.powi(2);
        let found = STRIP.stress(&passed(1000.0, -10.0), 1.0);
        assert!((found.counted / by_hand - 1.0).abs() < 1e-12);
    }

    /// A fillet on one side of a sheet t that is free to tilt, throat t, pulled with N: `N / a + 6 N e / a^2`
    /// with e = t / 2 + a / (2 sqrt 2), strength of materials, and all of it at the root.
    #[test]
    fn a_single_sided_fillet_that_is_pulled_opens_at_its_root() {
        let fillet = Section {
            only: Some(OnlySide::Outside),
            off: 0.004 + 0.008 / (2.0 * SQRT_2),
            ..STRIP
        };
        let found = fillet.stress(&passed(1000.0, 0.0), 1.0);
        let by_hand = 1000.0 / 0.008 + 6.0 * 1000.0 * fillet.off / 0.008_f64.powi(2);
        assert!(found.at_root);
        assert!((found.counted * ROOT / by_hand - 1.0).abs() < 1e-12);
        // Held from tilting its throat is pulled evenly.
        let held = fillet.stress(&passed(1000.0, 1000.0 * fillet.off), 1.0);
        assert!((held.counted * ROOT / (1000.0 / 0.008) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_root_counts_half_where_it_is_bent_open_and_in_full_where_it_is_pressed() {
        let section = Section {
            only: Some(OnlySide::Outside),
            ..STRIP
        };
        let open = section.stress(&passed(0.0, -10.0), 1.0);
        let shut = section.stress(&passed(0.0, 10.0), 1.0);
        assert!(open.at_root && !shut.at_root);
        assert!((open.counted * ROOT / shut.counted - 1.0).abs() < 1e-12);
    }

    /// By hand: 1000 N/m in 8 mm are 0.125 MPa, 4 N m/m bend by 0.375 MPa; at the root they add to 0.5 MPa and count as 1 MPa,
    /// in full as the 0.5 MPa; where the face is worse than the root, it is what counts in full.
    #[test]
    fn a_root_that_takes_nothing_off_leaves_the_worse_of_both() {
        let section = Section {
            only: Some(OnlySide::Outside),
            ..STRIP
        };
        let open = section.stress(&passed(1000.0, -4.0), 1.0);
        assert!((open.counted - 1.0e6).abs() < 1e-3 && (open.in_full - 0.5e6).abs() < 1e-3);
        // A compressed face of 0.75 MPa beside a root of 0.45 MPa.
        let pressed = section.stress(&passed(-1200.0, -6.4), 1.0);
        assert!(pressed.at_root && (pressed.counted - 0.9e6).abs() < 1e-3);
        assert!((pressed.in_full - 0.75e6).abs() < 1e-3, "{pressed:?}");
    }

    /// Where an extruder did not get, hot gas counts with what it is of it.
    #[test]
    fn another_process_bears_less() {
        let section = Section {
            by_hot_gas: true,
            ..STRIP
        };
        let stress = |it: Section| it.stress(&passed(1000.0, 5.0), 2.0 / 3.0).counted;
        let [own, other] = [STRIP, section].map(stress);
        assert!((other / own - 1.5).abs() < 1e-12);
    }

    /// Where the inside run is left out, and within half a cell of it, the seam is welded from outside alone.
    #[test]
    fn a_run_that_is_left_out_in_part_counts_in_part() {
        let outside = Section {
            only: Some(OnlySide::Outside),
            ..STRIP
        };
        let seam = WeldedSeam {
            section: STRIP,
            left_out: vec![[0.1, 0.15]],
            without_inside: outside,
            short_runs: vec![[0.25, 0.3]],
        };
        assert_eq!(seam.over([0.0, 0.09]), STRIP);
        assert_eq!(seam.over([0.05, 0.2]), outside);
        assert_eq!(seam.over([0.14, 0.2]), outside);
        assert_eq!(seam.over([0.16, 0.24]), STRIP);
        let by_hot_gas = seam.over([0.24, 0.26]);
        assert!(by_hot_gas.by_hot_gas && by_hot_gas.only.is_none());
    }

    /// Which face of an inner panel was reached is not told to the shell.
    #[test]
    fn the_root_of_a_tee_welded_from_one_face_opens_whichever_way_it_is_bent() {
        let section = Section {
            only: Some(OnlySide::OneFace),
            ..STRIP
        };
        for moment in [-10.0, 10.0] {
            let found = section.stress(&passed(0.0, moment), 1.0);
            let by_hand = 6.0 * 10.0 / 0.008_f64.powi(2);
            assert!(found.at_root);
            assert!((found.counted * ROOT / by_hand - 1.0).abs() < 1e-12);
        }
    }

    /// Tongues that make up a third of a seam, pulled: three times the pull, as shear.
    #[test]
    fn tongues_carry_by_their_length_and_in_shear() {
        let slots = Section {
            tongues: Some(1.0 / 3.0),
            ..STRIP
        };
        let found = slots.stress(&passed(1000.0, 0.0), 1.0);
        let by_hand = 3.0 * 3.0_f64.sqrt() * 1000.0 / 0.008;
        assert!((found.counted / by_hand - 1.0).abs() < 1e-12);
    }
}
