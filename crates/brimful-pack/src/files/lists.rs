//! The lists for a spreadsheet. Each names its unit in the head of the column; numbers are not
//! rounded to the tape.

use crate::error::PackError;
use crate::file::{PackFile, file};
use crate::words::Words;
use brimful_formats::csv::{CsvCell, CsvColumn, CsvStyle, CsvTable, DecimalMark, Separator};
use brimful_nest::Reference;
use brimful_tank::plan::Plan;
use brimful_text::{Text, say};
use brimful_units::{Angle, Length, Pressure, Temperature, UnitSystem, Volume};

const STYLE: CsvStyle = CsvStyle {
    separator: Separator::Comma,
    decimal_mark: DecimalMark::Point,
};

/// Panels, cuts, seams, welds, strength, gauge and findings.
pub fn lists(plan: &Plan, words: &Words<'_>) -> Result<Vec<PackFile>, PackError> {
    let lists = [
        ("panels.csv", panels(plan, words)),
        ("cuts.csv", cuts(plan, words)),
        ("seams.csv", seams(plan, words)),
        ("welds.csv", welds(plan, words)),
        ("strength.csv", strength(plan, words)),
        ("gauge.csv", gauge(plan, words)),
        ("findings.csv", findings(plan, words)),
    ];
    lists
        .into_iter()
        .map(|(name, table)| file(name.into(), table.to_bytes(STYLE)))
        .collect()
}

/// A cell of words: only what has gone through a language gets into one.
fn text(text: Text) -> CsvCell {
    CsvCell::Text(text.into())
}

fn count(number: usize) -> CsvCell {
    CsvCell::Number {
        value: number as f64,
        decimals: 0,
    }
}

/// Heads of columns, whose names are templates, and numbers in the job's units, to a hundredth of a
/// millimetre or a ten-thousandth of an inch.
struct Units<'a>(&'a Words<'a>);

impl Units<'_> {
    fn plain(&self, name: &'static str) -> CsvColumn {
        CsvColumn {
            name: self.0.data(name).into(),
            unit: None,
        }
    }
    fn lengths(&self, name: &'static str) -> CsvColumn {
        self.column(name, "mm", "in")
    }
    fn volumes(&self, name: &'static str) -> CsvColumn {
        self.column(name, "L", "US gal")
    }
    fn column(&self, name: &'static str, metric: &str, inch: &str) -> CsvColumn {
        let unit = match self.0.system {
            UnitSystem::Metric => metric,
            UnitSystem::Inch => inch,
        };
        CsvColumn {
            unit: Some(unit.into()),
            ..self.plain(name)
        }
    }
    fn length(&self, metres: f64) -> CsvCell {
        let length = Length::from_m(metres);
        match self.0.system {
            UnitSystem::Metric => number(length.mm(), 2),
            UnitSystem::Inch => number(length.inches(), 4),
        }
    }
    fn pressure(&self, pressure: Pressure) -> CsvCell {
        match self.0.system {
            UnitSystem::Metric => number(pressure.kpa(), 3),
            UnitSystem::Inch => number(pressure.psi(), 3),
        }
    }
    fn stress(&self, stress: Pressure, decimals: usize) -> CsvCell {
        match self.0.system {
            UnitSystem::Metric => number(stress.mpa(), decimals),
            UnitSystem::Inch => number(stress.psi(), 1),
        }
    }
    fn temperature(&self, temperature: Temperature) -> CsvCell {
        match self.0.system {
            UnitSystem::Metric => number(temperature.degc(), 1),
            UnitSystem::Inch => number(temperature.degf(), 1),
        }
    }
    fn volume(&self, volume: Volume) -> CsvCell {
        match self.0.system {
            UnitSystem::Metric => number(volume.litres(), 3),
            UnitSystem::Inch => number(volume.us_gal(), 3),
        }
    }
}

fn number(value: f64, decimals: usize) -> CsvCell {
    CsvCell::Number { value, decimals }
}

fn panels(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let row = |panel: &brimful_panels::panel::Panel| {
        let size = |plate: &brimful_geom::plate::Plate| {
            let (low, high) = plate.bounds();
            [units.length(high.x - low.x), units.length(high.y - low.y)]
        };
        let [cut_length, cut_width] = size(&panel.cut);
        let [length, width] = size(&panel.finished);
        let edges: Vec<Text> = panel
            .cut
            .loops
            .iter()
            .flatten()
            .map(|side| {
                let mark = side
                    .mark
                    .and_then(|mark| plan.seams.get(mark))
                    .map_or_else(|| say!(words, "free"), |seam| words.symbol(&seam.mark));
                let cut = words.edge_cut(Angle::from_rad(side.bevel(panel.cut.thickness)));
                say!(words, "{mark} {cut}", mark = mark, cut = cut)
            })
            .collect();
        vec![
            text(words.symbol(&panel.mark)),
            text(words.panel(&panel.name)),
            text(words.role(panel.role)),
            text(words.given(&plan.job.stock.material)),
            units.length(panel.thickness.m()),
            cut_length,
            cut_width,
            length,
            width,
            count(panel.cut.cutouts.len()),
            count(panel.reliefs.len()),
            text(Text::join(edges, "; ")),
        ]
    };
    CsvTable {
        columns: vec![
            units.plain("panel"),
            units.plain("name"),
            units.plain("role"),
            units.plain("material"),
            units.lengths("thickness"),
            units.lengths("cut length"),
            units.lengths("cut width"),
            units.lengths("finished length"),
            units.lengths("finished width"),
            units.plain("holes"),
            units.plain("stop holes"),
            units.plain("edges"),
        ],
        rows: plan.panels.iter().map(row).collect(),
    }
}

fn cuts(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let mut rows = Vec::new();
    let mut sheet = 0;
    for group in &plan.cut.groups {
        for layout in &group.plan.layouts {
            sheet += 1;
            for (piece, cut) in layout.cuts() {
                rows.push(vec![
                    count(sheet),
                    units.length(group.thickness.m()),
                    count(cut.number),
                    units.length(piece.length),
                    units.length(piece.width),
                    text(words.blade_runs(cut.runs)),
                    text(match cut.reference {
                        Reference::Near => say!(words, "near"),
                        Reference::Far => say!(words, "far"),
                    }),
                    units.length(cut.fence),
                    text(match cut.kept.fate {
                        brimful_nest::Fate::Part { id, .. } => plan
                            .panels
                            .get(id)
                            .map_or_else(Text::default, |panel| words.symbol(&panel.mark)),
                        _ => Text::default(),
                    }),
                ]);
            }
        }
    }
    CsvTable {
        columns: vec![
            units.plain("sheet"),
            units.lengths("thickness"),
            units.plain("cut"),
            units.lengths("piece length"),
            units.lengths("piece width"),
            units.plain("blade runs"),
            units.plain("fence edge"),
            units.lengths("fence"),
            units.plain("gives panel"),
        ],
        rows,
    }
}

fn seams(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let mark = |number: usize| {
        plan.panels
            .get(number)
            .map_or_else(Text::default, |panel| words.symbol(&panel.mark))
    };
    let row = |seam: &brimful_panels::seam::Seam| {
        vec![
            text(words.symbol(&seam.mark)),
            text(mark(seam.panels[0])),
            text(mark(seam.panels[1])),
            text(words.joint_of(seam, &plan.panels)),
            units.length(seam.length().m()),
            number(seam.angle.deg(), 2),
            units.length(seam.gap.m()),
        ]
    };
    CsvTable {
        columns: vec![
            units.plain("seam"),
            units.plain("panel"),
            units.plain("other panel"),
            units.plain("joint"),
            units.lengths("length"),
            units.column("angle", "deg", "deg"),
            units.lengths("gap"),
        ],
        rows: plan.seams.iter().map(row).collect(),
    }
}

fn welds(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let row = |weld: &brimful_panels::weld::SeamWeld| {
        let rod = plan.job.stock.rods.get(weld.rod);
        let short = weld.short_runs.as_ref();
        let left_out: Length = weld.left_out.iter().map(|[from, to]| *to - *from).sum();
        vec![
            text(
                plan.seams
                    .get(weld.seam)
                    .map_or_else(Text::default, |seam| words.symbol(&seam.mark)),
            ),
            text(words.weld_side(weld.side)),
            text(words.tool(weld.tool(&plan.job.shop))),
            text(words.groove(weld.kind)),
            text(words.preparation(weld.preparation)),
            units.length(weld.length.m()),
            units.length(left_out.m()),
            units.length(short.map_or(0.0, |it| it.length().m())),
            units.length(weld.throat.m()),
            rod.map_or(CsvCell::Empty, |rod| units.length(rod.diameter.m())),
            count(weld.runs),
            units.length(weld.rod_length.m()),
        ]
    };
    CsvTable {
        columns: vec![
            units.plain("seam"),
            units.plain("from"),
            units.plain("laid with"),
            units.plain("weld"),
            units.plain("preparation"),
            units.lengths("length"),
            units.lengths("out of reach"),
            units.lengths("short runs"),
            units.lengths("throat"),
            units.lengths("rod"),
            units.plain("runs"),
            units.lengths("rod used"),
        ],
        rows: plan.welds.welds.iter().map(row).collect(),
    }
}

fn strength(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let row = |check: &brimful_strength::quick::SpanCheck| {
        vec![
            text(
                plan.panels
                    .get(check.panel)
                    .map_or_else(Text::default, |panel| words.symbol(&panel.mark)),
            ),
            text(words.span(&plan.panels[check.panel].name, check.span)),
            text(words.case(check.case)),
            units.length(check.width.m()),
            units.length(check.height.m()),
            units.pressure(check.pressure_low),
            units.pressure(check.pressure_high),
            number(check.duration.s(), 1),
            units.temperature(check.temperature),
            units.stress(check.modulus, 1),
            units.length(check.deflection.m()),
            units.length(check.deflection_clamped.m()),
            units.stress(check.stress, 3),
            units.stress(check.allowable, 3),
            number(check.utilisation, 3),
            text(words.yes_no(check.covered)),
        ]
    };
    CsvTable {
        columns: vec![
            units.plain("panel"),
            units.plain("span"),
            units.plain("load"),
            units.lengths("width"),
            units.lengths("height"),
            units.column("least pressure", "kPa", "psi"),
            units.column("greatest pressure", "kPa", "psi"),
            units.column("duration", "s", "s"),
            units.column("temperature", "degC", "degF"),
            units.column("modulus", "MPa", "psi"),
            units.lengths("bulge, edges hinged"),
            units.lengths("bulge, edges clamped"),
            units.column("stress", "MPa", "psi"),
            units.column("allowed", "MPa", "psi"),
            units.plain("stress over allowed"),
            units.plain("covered"),
        ],
        rows: plan.quick.rows.iter().map(row).collect(),
    }
}

fn gauge(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let mut rows = Vec::new();
    for gauge in &plan.gauges {
        for row in &gauge.rows {
            rows.push(vec![
                text(words.compartment(gauge.compartment)),
                text(words.dip_under(&gauge.under)),
                units.length(row.dip.m()),
                units.volume(row.volume),
            ]);
        }
    }
    CsvTable {
        columns: vec![
            units.plain("compartment"),
            units.plain("dip under"),
            units.lengths("dip"),
            units.volumes("volume"),
        ],
        rows,
    }
}

fn findings(plan: &Plan, words: &Words<'_>) -> CsvTable {
    let units = Units(words);
    let row = |finding: &brimful_panels::finding::Finding| {
        let told = words.finding(finding);
        vec![
            text(words.grade(finding.grade)),
            text(told.about),
            text(told.says),
            text(told.figure.unwrap_or_default()),
            text(told.limit.unwrap_or_default()),
            text(told.source),
            text(told.cure),
        ]
    };
    CsvTable {
        columns: [
            "grade", "about", "says", "figure", "limit", "source", "cure",
        ]
        .map(|name| units.plain(name))
        .to_vec(),
        rows: plan.findings.iter().map(row).collect(),
    }
}
