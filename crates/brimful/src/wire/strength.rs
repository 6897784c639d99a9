//! The strength checks as JSON.

use super::mark;
use super::point::point;
use crate::words;
use brimful_panels::table::Source;
use brimful_strength::load::heaviest;
use brimful_strength::quick;
use brimful_strength::whole::{BearerId, CaseRun};
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words};
use schemars::JsonSchema;
use serde::Serialize;

/// What the strength checks computed; what they say is among the findings.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Strength {
    /// The quick check: every span under every load case.
    spans: Vec<Span>,
    /// What the quick check takes for granted.
    assumptions: Vec<String>,
    /// The whole-tank check; null for a draft.
    whole: Option<Whole>,
    /// Where every number comes from, each once; spans and load cases name theirs by number from 0.
    sources: Vec<String>,
}

/// The whole tank as one shell.
#[derive(Debug, Serialize, JsonSchema)]
struct Whole {
    load_cases: Vec<Case>,
    /// The meshes, coarse to fine.
    meshes: Vec<MeshSize>,
    /// What the check takes for granted.
    assumptions: Vec<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct MeshSize {
    triangles: usize,
    unknowns: usize,
}

/// One load case.
#[derive(Debug, Serialize, JsonSchema)]
struct Case {
    /// Its id, the same in every language and for every unit.
    id: String,
    /// What it is called.
    name: String,
    duration_s: f64,
    temperature_k: f64,
    /// What pulls on liquid and sheet, gravity included.
    pull_m_s2: [f64; 3],
    /// Pressure inside beyond that of the liquid.
    overpressure_pa: f64,
    /// The apparent modulus.
    modulus_pa: f64,
    poisson: f64,
    /// Of the sheet and of a weld, with the liquid in the tank that weakens them most.
    allowable_sheet_pa: f64,
    allowable_weld_pa: f64,
    panels: Vec<PanelFigure>,
    seams: Vec<SeamFigure>,
    /// What the supports lift, all together, in newtons.
    borne_n: f64,
    /// What presses on each support.
    supports: Vec<Reaction>,
    /// How far the tank as a whole leans over.
    tilt_rad: f64,
    /// Number of the mesh it was last run on, from 0.
    mesh: usize,
    /// Estimated relative error of the greatest bulge, panel use and seam use; null where the case
    /// governs nothing and was run on one mesh.
    bulge_error: Option<f64>,
    panel_error: Option<f64>,
    seam_error: Option<f64>,
    newton_iterations: usize,
    load_steps: usize,
    sources: Vec<usize>,
}

#[derive(Debug, Serialize, JsonSchema)]
struct Reaction {
    /// Which rail, strap or foot, by its place; `floor` or `bed`; a chock by its panel.
    support: String,
    /// What presses on it, in newtons; of a strap its tension; of a chock none.
    presses_n: f64,
    /// What it holds sideways, along x, y and z, in newtons.
    sideways_n: [f64; 3],
}

#[derive(Debug, Serialize, JsonSchema)]
struct PanelFigure {
    /// Mark of the panel.
    panel: String,
    outward_m: f64,
    inward_m: f64,
    bulge_at_m: [f64; 3],
    stress_pa: f64,
    stress_at_m: [f64; 3],
    /// With the worst of the liquids that wet it.
    allowable_pa: f64,
    /// Stress over allowable.
    utilisation: f64,
    /// What that may be by the error of the meshes.
    utilisation_at_most: f64,
}

/// What a seam passes on at its worst place, per metre.
#[derive(Debug, Serialize, JsonSchema)]
struct SeamFigure {
    /// Mark of the seam.
    seam: String,
    at_m: [f64; 3],
    pull_n_m: f64,
    shear_along_n_m: f64,
    shear_across_n_m: f64,
    /// Newton metres per metre; positive where it stretches the outside face.
    bending_n: f64,
    /// That of a root which is pulled open counts twice.
    stress_pa: f64,
    /// Whether it is that of the root of a seam welded from one side.
    at_root: bool,
    /// With the worst of the liquids that wet it.
    allowable_pa: f64,
    utilisation: f64,
    /// What that may be by the error of the meshes.
    utilisation_at_most: f64,
}

/// One span of a panel under one load case.
#[derive(Debug, Serialize, JsonSchema)]
struct Span {
    /// Mark of the panel.
    panel: String,
    span: String,
    /// What the load case is called.
    load_case: String,
    /// Its id.
    load_case_id: String,
    width_m: f64,
    height_m: f64,
    pressure_low_pa: f64,
    pressure_high_pa: f64,
    duration_s: f64,
    temperature_k: f64,
    /// The apparent modulus.
    modulus_pa: f64,
    /// With hinged edges.
    deflection_m: f64,
    deflection_clamped_m: f64,
    /// Where it is nearest to its limit: `sheet` or `weld`.
    governs: &'static str,
    stress_pa: f64,
    allowable_pa: f64,
    /// Stress over allowable.
    utilisation: f64,
    /// Whether plate theory covers it.
    covered: bool,
    sources: Vec<usize>,
}

pub(super) fn strength(plan: &Plan, words: &Words<'_>) -> Strength {
    let mut sources = Sources::new(words);
    let rows = plan.quick.rows.iter();
    Strength {
        spans: rows.map(|it| span(plan, it, words, &mut sources)).collect(),
        assumptions: texts(words.quick_assumptions()),
        whole: plan
            .whole
            .as_ref()
            .map(|it| whole(plan, it, words, &mut sources)),
        sources: sources.texts,
    }
}

fn texts(texts: Vec<Text>) -> Vec<String> {
    texts.into_iter().map(String::from).collect()
}

/// Every source once, in the order in which they come up.
struct Sources<'a> {
    words: &'a Words<'a>,
    texts: Vec<String>,
}

impl<'a> Sources<'a> {
    fn new(words: &'a Words<'a>) -> Self {
        let texts = Vec::new();
        Self { words, texts }
    }

    fn numbers<'s>(&mut self, sources: impl IntoIterator<Item = &'s Source>) -> Vec<usize> {
        let sources = sources.into_iter();
        sources.map(|source| self.number(source)).collect()
    }

    fn number(&mut self, source: &Source) -> usize {
        let text = self.words.source(source).to_string();
        let known = self.texts.iter().position(|other| *other == text);
        known.unwrap_or_else(|| {
            self.texts.push(text);
            self.texts.len() - 1
        })
    }
}

fn whole(
    plan: &Plan,
    whole: &brimful_strength::whole::Whole,
    words: &Words<'_>,
    sources: &mut Sources<'_>,
) -> Whole {
    let size = |mesh: &brimful_strength::whole::MeshSize| MeshSize {
        triangles: mesh.triangles,
        unknowns: mesh.unknowns,
    };
    Whole {
        load_cases: whole
            .cases
            .iter()
            .map(|run| case(plan, whole, run, words, sources))
            .collect(),
        meshes: whole.meshes.iter().map(size).collect(),
        assumptions: texts(words.strength_assumptions()),
    }
}

fn case(
    plan: &Plan,
    whole: &brimful_strength::whole::Whole,
    run: &CaseRun,
    words: &Words<'_>,
    sources: &mut Sources<'_>,
) -> Case {
    let known = |error: f64| error.is_finite().then_some(error);
    let panel = |(number, figure): (usize, &brimful_strength::whole::PanelFigure)| PanelFigure {
        panel: mark::panel(plan, number),
        outward_m: figure.outward,
        inward_m: figure.inward,
        bulge_at_m: point(figure.bulge_at),
        stress_pa: figure.stress,
        stress_at_m: point(figure.stress_at),
        allowable_pa: run.limits.of_panel(number).sheet.pa(),
        utilisation: figure.utilisation,
        utilisation_at_most: whole.panel_at_most(run, number),
    };
    let seam = |figure: &brimful_strength::whole::SeamFigure| SeamFigure {
        seam: plan.seams[figure.seam].mark.clone(),
        at_m: point(figure.at),
        pull_n_m: figure.passed.tension,
        shear_along_n_m: figure.passed.along,
        shear_across_n_m: figure.passed.across,
        bending_n: figure.passed.moment,
        stress_pa: figure.stress,
        at_root: figure.at_root,
        allowable_pa: run.limits.of_seam(figure.seam).weld.pa(),
        utilisation: figure.utilisation,
        utilisation_at_most: whole.seam_at_most(run, figure.seam),
    };
    let strictest = run.limits.strictest();
    Case {
        id: run.case.id.to_string(),
        name: words.case(run.case.id).into(),
        duration_s: run.case.duration.s(),
        temperature_k: run.case.temperature.kelvin(),
        pull_m_s2: run.case.body_acceleration.to_array(),
        overpressure_pa: run.case.overpressure(heaviest(&plan.job)).pa(),
        modulus_pa: strictest.modulus.pa(),
        poisson: strictest.poisson,
        allowable_sheet_pa: strictest.sheet.pa(),
        allowable_weld_pa: strictest.weld.pa(),
        panels: run.figures.panels.iter().enumerate().map(panel).collect(),
        seams: run.figures.seams.iter().map(seam).collect(),
        borne_n: run.figures.borne,
        supports: reactions(plan, run, words),
        tilt_rad: run.figures.tilt,
        mesh: run.mesh,
        bulge_error: known(run.bulge_error()),
        panel_error: known(run.panel_error()),
        seam_error: known(run.seam_error()),
        newton_iterations: run.iterations,
        load_steps: run.steps,
        sources: sources.numbers(run.limits.sources()),
    }
}

fn reactions(plan: &Plan, run: &CaseRun, words: &Words<'_>) -> Vec<Reaction> {
    let bearers = plan.whole.iter().flat_map(|whole| &whole.supports);
    let reaction = |(bearer, takes): (&BearerId, &brimful_strength::whole::Reaction)| Reaction {
        support: words.bearer(*bearer).into(),
        presses_n: takes.push,
        sideways_n: takes.sideways.to_array(),
    };
    bearers.zip(&run.figures.reactions).map(reaction).collect()
}

fn span(plan: &Plan, row: &quick::SpanCheck, words: &Words<'_>, sources: &mut Sources<'_>) -> Span {
    Span {
        panel: mark::panel(plan, row.panel),
        span: words.span(&plan.panels[row.panel].name, row.span).into(),
        load_case: words.case(row.case).into(),
        load_case_id: row.case.to_string(),
        width_m: row.width.m(),
        height_m: row.height.m(),
        pressure_low_pa: row.pressure_low.pa(),
        pressure_high_pa: row.pressure_high.pa(),
        duration_s: row.duration.s(),
        temperature_k: row.temperature.kelvin(),
        modulus_pa: row.modulus.pa(),
        deflection_m: row.deflection.m(),
        deflection_clamped_m: row.deflection_clamped.m(),
        governs: words::governs(row.governs),
        stress_pa: row.stress.pa(),
        allowable_pa: row.allowable.pa(),
        utilisation: row.utilisation,
        covered: row.covered,
        sources: sources.numbers(&row.sources),
    }
}
