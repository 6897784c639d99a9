//! What the whole-tank check computed: every load case with its figures and how far they may still be
//! off.

use super::displacement::Displacement;
use super::figures::Figures;
use super::mesh_growth::MeshGrowth;
use super::part::Part;
use super::support::BearerId;
use super::wetting::CaseLimits;
use crate::load::{LoadCase, LoadKind, STANDARD_GRAVITY};
use brimful_geom::vector::Point3;
use brimful_mech::shell::model::{Load, Shell};
use brimful_panels::case::CaseId;
use brimful_panels::finding::kind::StrengthKind;
use brimful_panels::finding::{Finding, Grade, Kind};
use brimful_panels::panel::Panel;
use brimful_panels::table::factor::is_short;
use brimful_panels::table::friction::{FrictionEnd, friction};
use brimful_units::{Force, Length, Mass};

/// How much finer each mesh is than the one before.
pub(super) const FINER: f64 = 1.5;
/// The error of a governing figure at which the verdict stands: 3 % by the design of the check.
pub(super) const ERROR: f64 = 0.03;
/// What figures of the last mesh may be off by whatever is stated: 7.3 % at most of the greatest uses of 60 random tanks
/// under four loads each, where 3 % or less was stated (docs/soak.md).
pub const MESH_ERROR: f64 = 0.08;
/// The lowest and highest order at which figures are taken to converge: stresses at notches with the
/// first, displacements and smooth stresses with the second, as the published cases show.
const ORDERS: [f64; 2] = [1.0, 2.0];

/// How far a use on the first mesh alone may be over what the finest gives, as a share of that: 0.8 at most on the
/// examples (a baffle at eight times its limit), 0.5 where it is near its limit.
const ONE_MESH_ERROR: f64 = 1.0;

/// What the whole-tank check computed, and what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Whole {
    /// Every load case, on the finest mesh it was run on.
    pub cases: Vec<CaseRun>,
    /// Triangles and unknowns of the meshes, coarse to fine.
    pub meshes: Vec<MeshSize>,
    /// What carries the tank.
    pub supports: Vec<BearerId>,
    /// The finest mesh, for pictures.
    pub picture: Option<Picture>,
    /// How it stands under each load, in the order of `cases`.
    pub displacements: Vec<Displacement>,
    /// Load cases that no answer was found for, or none that could be looked for.
    pub unanswered: usize,
    /// What it says.
    pub findings: Vec<Finding>,
}

impl Whole {
    /// The worst of all load cases; none where there is none.
    pub fn score(&self) -> Option<Score> {
        let worst = |of: fn(&Figures) -> f64| {
            let all = self.cases.iter().map(|run| of(&run.figures));
            all.reduce(f64::max)
        };
        Some(Score {
            panel: worst(Figures::worst_panel)?,
            seam: worst(Figures::worst_seam)?,
            bulge: Length::from_m(worst(Figures::worst_bulge)?),
            buckles: self.cases.iter().any(|run| run.buckles.is_some()),
        })
    }

    /// Whether every load is borne, alone and all together, by more than meshes and limits may be off by.
    pub fn holds(&self) -> bool {
        let is_against = |it: &Finding| match it.grade {
            Grade::Stop => true,
            Grade::Mend => matches!(
                it.kind,
                Kind::Strength(
                    StrengthKind::AtLimit { .. }
                        | StrengthKind::RootAtLimit { .. }
                        | StrengthKind::AddUp { .. }
                )
            ),
            Grade::Note => false,
        };
        let borne = !self.findings.iter().any(is_against);
        self.unanswered == 0 && !self.cases.is_empty() && borne
    }

    /// The run of a load case.
    pub fn case(&self, id: CaseId) -> Option<&CaseRun> {
        self.cases.iter().find(|run| run.case.id == id)
    }

    /// What the use of a panel in a run may be at most, by the error of the meshes.
    pub fn panel_at_most(&self, run: &CaseRun, panel: usize) -> f64 {
        self.at_most(run, Part::Panel(panel))
    }

    /// What that of a seam may be.
    pub fn seam_at_most(&self, run: &CaseRun, seam: usize) -> f64 {
        self.at_most(run, Part::Seam(seam))
    }

    fn at_most(&self, run: &CaseRun, part: Part) -> f64 {
        let error = run.error(|figures| part.used(figures));
        let times = match error.is_finite() {
            true => 1.0 + error,
            false => growth_of(&self.cases).at_most(part),
        };
        part.used(&run.figures) * times
    }

    /// What each support takes.
    pub fn on_supports(&self) -> impl Iterator<Item = OnSupport> {
        let supports = self.supports.iter().enumerate();
        supports.filter_map(|(number, support)| {
            let presses = |run: &CaseRun| run.figures.reactions[number].push;
            let sideways = |run: &CaseRun| run.figures.reactions[number].sideways.length();
            let most = |of: &dyn Fn(&CaseRun) -> f64| {
                let by = |a: &&CaseRun, b: &&CaseRun| of(a).total_cmp(&of(b));
                self.cases.iter().max_by(by)
            };
            let is_rest = |run: &&CaseRun| run.case.id.kind == LoadKind::Rest;
            let rest = self.cases.iter().find(is_rest)?;
            let (pressed, pushed) = (most(&presses)?, most(&sideways)?);
            let pressing = Pressing {
                at_rest: weighing(presses(rest)),
                most: weighing(presses(pressed)),
                load: pressed.case.id,
            };
            Some(OnSupport {
                support: *support,
                pressing: (!matches!(support, BearerId::Chock(_))).then_some(pressing),
                sideways: Force::from_n(sideways(pushed)),
                friction: slides(support).then(|| {
                    let most = friction(FrictionEnd::Least).value * presses(pushed).max(0.0);
                    Force::from_n(most.min(sideways(pushed)))
                }),
                sideways_load: pushed.case.id,
            })
        })
    }
}

impl OnSupport {
    /// What is left of it for something else to hold; none where friction does, but for rounding, or has no part in
    /// it.
    pub fn not_held(&self) -> Option<Force> {
        /// Of all of it. Where chocks take the rest a thousandth of the springs is left on the supports, which adds up
        /// to two hundredths.
        const ROUNDING: f64 = 0.02;
        let left = self.sideways - self.friction?;
        (left > self.sideways * ROUNDING).then_some(left)
    }
}

/// Whether friction holds a tank on it: a strap swings with it, and a chock stands in its way.
fn slides(support: &BearerId) -> bool {
    !matches!(support, BearerId::Strap(_) | BearerId::Chock(_))
}

/// What one support takes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnSupport {
    /// Which.
    pub support: BearerId,
    /// What presses on it; nothing on a chock.
    pub pressing: Option<Pressing>,
    /// The most that it is taken to hold sideways under any load.
    pub sideways: Force,
    /// What friction holds of that by what presses on it then; nothing of a strap or a chock.
    pub friction: Option<Force>,
    /// Under which.
    pub sideways_load: CaseId,
}

/// What presses on a support, as the mass that would at rest; of a strap its tension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pressing {
    /// Under the brim-full tank at rest.
    pub at_rest: Mass,
    /// The most under any load.
    pub most: Mass,
    /// Under which.
    pub load: CaseId,
}

/// How large a mesh is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MeshSize {
    /// Triangles.
    pub triangles: usize,
    /// Unknowns.
    pub unknowns: usize,
}

/// One load case.
#[derive(Clone, Debug, PartialEq)]
pub struct CaseRun {
    /// The load case.
    pub case: LoadCase,
    /// What it may take.
    pub limits: CaseLimits,
    /// What panels and seams get, on the finest mesh it was run on.
    pub figures: Figures,
    /// The same on the coarser meshes it was run on before, coarse to fine.
    pub earlier: Vec<Figures>,
    /// Where it buckles under less than [`super::STABILITY`] times the load, by the finest mesh.
    pub buckles: Option<Buckles>,
    /// Load steps and iterations.
    pub steps: usize,
    /// Newton iterations, all together.
    pub iterations: usize,
    /// Force left over, as a share of the forces at work.
    pub residual: f64,
    /// Number of the mesh, counted from the coarsest.
    pub mesh: usize,
}

/// Where a tank buckles under too little more than a load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Buckles {
    /// How many times the load it buckles at.
    pub factor: f64,
    /// Number of the panel that moves most when it goes.
    pub panel: usize,
    /// Where.
    pub at: Point3,
}

impl CaseRun {
    /// Estimated relative error of the greatest bulge.
    pub fn bulge_error(&self) -> f64 {
        self.error(Figures::worst_bulge)
    }

    /// Estimated relative error of the greatest use of any panel.
    pub fn panel_error(&self) -> f64 {
        self.error(Figures::worst_panel)
    }

    /// Estimated relative error of the greatest use of any seam.
    pub fn seam_error(&self) -> f64 {
        self.error(Figures::worst_seam)
    }

    /// Estimated relative error of a figure, from two or three meshes (L. F. Richardson 1911,
    /// extrapolation; from memory); infinite where there was only one.
    pub(super) fn error(&self, of: impl Fn(&Figures) -> f64) -> f64 {
        let row: Vec<f64> = self.earlier.iter().chain([&self.figures]).map(of).collect();
        richardson_error(&row)
    }

    /// How many times what it was found to be the use of a part may be; see [`Narrow`].
    pub(super) fn doubt(&self, part: Part, growth: &MeshGrowth) -> f64 {
        match self.error(|figures| part.used(figures)) {
            error if error.is_infinite() => growth.at_most(part),
            error if error <= ERROR => 1.0,
            error => 1.0 + error,
        }
    }

    /// What the use of a part is at least, whatever finer meshes may take off.
    fn at_least(&self, part: Part) -> f64 {
        let error = match self.error(|figures| part.used(figures)) {
            error if error <= ERROR => 0.0,
            error => error.min(ONE_MESH_ERROR),
        };
        part.used(&self.figures) / (1.0 + error)
    }

    /// How far the limit of a part may be off, as a share of it.
    pub(super) fn width(&self, part: Part) -> f64 {
        match part {
            Part::Panel(number) => self.limits.of_panel(number).sheet_width,
            Part::Seam(number) => self.limits.of_seam(number).weld_width,
        }
    }

    /// How far below its limit a part is no pass: what limit or mesh may be off by, whichever is more. What was run on one mesh alone
    /// is no nearer than what finer ones may add ([`MeshGrowth`]).
    pub(super) fn margin(&self, part: Part) -> f64 {
        let error = self.error(|figures| part.used(figures));
        let of_mesh = match error.is_finite() {
            // So much below it the limit is reached with the error on top.
            true => 1.0 - 1.0 / (1.0 + error),
            false => 0.0,
        };
        self.width(part).max(of_mesh).max(MESH_ERROR)
    }

    /// What of the use of a part is sure to count: less than all of it where a root is pulled open for seconds. That notches
    /// rule how long a weld lasts has been measured (M. Gehde, as at [`super::weld`]); what such a root takes off has not, so
    /// that it may be nothing.
    pub(super) fn sure(&self, part: Part) -> f64 {
        let Part::Seam(number) = part else { return 1.0 };
        let mut seams = self.figures.seams.iter();
        let figure = seams.find(|seam| seam.seam == number && seam.at_root);
        match figure.filter(|_| is_short(self.case.total)) {
            Some(figure) => figure.in_full / figure.utilisation,
            None => 1.0,
        }
    }

    /// The greatest use of a part that is not over its limit for sure.
    fn limit(&self, part: Part) -> f64 {
        (1.0 + self.width(part)) / self.sure(part)
    }

    /// Whether a part is over its limit whatever finer meshes may take off.
    pub(super) fn is_over_without_doubt(&self, part: Part) -> bool {
        self.at_least(part) > self.limit(part)
    }

    /// All parts of which the meshes do not tell whether they are over their limits.
    pub(super) fn undecided(&self, growth: &MeshGrowth) -> impl Iterator<Item = Narrow> {
        Part::all(&self.figures)
            .map(|part| {
                let used = part.used(&self.figures);
                Narrow {
                    part,
                    used,
                    at_most: used * self.doubt(part, growth),
                    limit: self.limit(part),
                }
            })
            .filter(|it| {
                // What may reach its limit, as it stands, is no pass; how far that is known is for the verdict.
                let passes_below = self.sure(it.part).recip();
                it.at_most > passes_below && !self.is_over_without_doubt(it.part)
            })
    }

    /// Of the panels and seams that are not over their limits, as far as those are known, but by less
    /// than the mesh is sure of, the one that may ask for most.
    pub(super) fn unsure(&self, growth: &MeshGrowth) -> Option<Narrow> {
        let narrow = self.narrow(growth);
        narrow.max_by(|a, b| a.at_most.total_cmp(&b.at_most))
    }

    /// All that are not over their limits as far as those are known, but by less than the mesh is sure of.
    fn narrow(&self, growth: &MeshGrowth) -> impl Iterator<Item = Narrow> {
        let undecided = self.undecided(growth);
        undecided.filter(|narrow| narrow.used <= narrow.limit && narrow.at_most > narrow.limit)
    }
}

/// What finer meshes add, by all runs on more than one.
pub(super) fn growth_of<'a>(runs: impl IntoIterator<Item = &'a CaseRun>) -> MeshGrowth {
    let both = |run: &'a CaseRun| Some((run.earlier.first()?, &run.figures));
    MeshGrowth::of(runs.into_iter().filter_map(both))
}

/// A use that may be over its limit, or not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Narrow {
    pub part: Part,
    pub used: f64,
    /// What it may be at most.
    pub at_most: f64,
    /// What it may be, limit and doubt together.
    pub limit: f64,
}

/// The last mesh with the lasting load that asks most of it, for pictures and for whoever wants to
/// compute it again. An event is none: it comes on top of what has crept.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// The case it is of.
    pub case: CaseId,
    /// The shell; its plates are the flats, outer panels first.
    pub shell: Shell,
    /// What presses on it.
    pub load: Load,
    /// Panel of each triangle.
    pub panel: Vec<usize>,
    /// Displacement of each node, m.
    pub moved: Vec<[f64; 3]>,
    /// Use of the sheet at the corners of each triangle: stress over allowed.
    pub used: Vec<[f64; 3]>,
}

/// What the worst of some load cases do to a tank, on the first mesh.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// Greatest use of a panel: stress over allowed.
    pub panel: f64,
    /// Greatest use of a seam.
    pub seam: f64,
    /// Furthest that an outer panel moves square to itself.
    pub bulge: Length,
    /// Whether anything buckles under less than [`super::STABILITY`] times a load.
    pub buckles: bool,
}

impl Score {
    pub(super) fn of(figures: &Figures, buckles: bool, panels: &[Panel]) -> Self {
        let both = figures.panels.iter().zip(panels);
        let outer = both.filter(|(_, panel)| panel.role.is_outer());
        let moves = outer.map(|(figure, _)| figure.outward.max(-figure.inward));
        Self {
            panel: figures.worst_panel(),
            seam: figures.worst_seam(),
            bulge: Length::from_m(moves.fold(0.0, f64::max)),
            buckles,
        }
    }

    /// The worst of both.
    pub(super) fn and(self, other: Self) -> Self {
        Self {
            panel: self.panel.max(other.panel),
            seam: self.seam.max(other.seam),
            bulge: self.bulge.max(other.bulge),
            buckles: self.buckles || other.buckles,
        }
    }
}

fn weighing(newtons: f64) -> Mass {
    Mass::from_kg(newtons / STANDARD_GRAVITY)
}

/// How far the last of a row of figures on finer and finer meshes may still be off, as a share of
/// it: by the order at which the row converges where three meshes tell it, else by the lowest.
fn richardson_error(row: &[f64]) -> f64 {
    let change = |i: usize| row[i] - row[i - 1];
    let n = row.len();
    if n < 2 {
        return f64::INFINITY;
    }
    if change(n - 1) == 0.0 {
        return 0.0;
    }
    let order = if n > 2 {
        let observed = (change(n - 2) / change(n - 1)).abs().ln() / FINER.ln();
        observed.clamp(ORDERS[0], ORDERS[1])
    } else {
        ORDERS[0]
    };
    (change(n - 1) / row[n - 1]).abs() / (FINER.powf(order) - 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A figure that nears 1 with the second order: `1 + h^2`.
    #[test]
    fn the_error_of_a_row_is_what_is_left() {
        let row: Vec<f64> = (0..3).map(|i| 1.0 + FINER.powi(-2 * i)).collect();
        let left = (row[2] - 1.0) / row[2];
        assert!((richardson_error(&row) - left).abs() < 1e-12);
        assert!(
            richardson_error(&row[..2]) > (row[1] - 1.0) / row[1],
            "two meshes are trusted less"
        );
        assert!(richardson_error(&row[..1]).is_infinite());
    }
}
