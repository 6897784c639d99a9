//! From the steps of the search to layouts with numbered cuts.

use crate::bound::Bound;
use crate::layout::{Cut, Fate, Layout, Piece, Rect, Reference, Runs};
use crate::order::{Nano, Problem, to_metres, to_nano};
use crate::plan::{LeftOut, Plan, Verdict, Why};
use crate::search::Outcome;
use crate::step::{Area, Step};

pub(crate) fn plan(problem: &Problem, bound: Bound, outcome: Outcome) -> Plan {
    let mut supply = Supply::new(problem);
    let mut layouts = Vec::new();
    let mut steps = outcome.steps.as_slice();
    while let Some(at) = steps.first().and_then(|step| step.begins) {
        let later = steps[1..].iter().position(|step| step.begins.is_some());
        let (mine, others) = steps.split_at(later.map_or(steps.len(), |found| found + 1));
        layouts.push(layout(problem, at, mine, &mut supply));
        steps = others;
    }
    let short = supply.left();
    let left_out = problem
        .too_large
        .iter()
        .map(|&position| (position, Why::FitsNoSheet))
        .chain(
            problem
                .not_freed
                .iter()
                .map(|&position| (position, Why::NoCutFreesIt)),
        )
        .chain(short.iter().map(|&position| (position, Why::StockUsedUp)))
        .map(|(position, why)| LeftOut {
            part: problem.parts[position].id,
            why,
        })
        .collect();
    let verdict = if !short.is_empty() {
        Verdict::StockShort {
            proven: bound.cost.is_infinite(),
        }
    } else if outcome.cost <= bound.cost && outcome.sheets <= bound.sheets {
        Verdict::ProvenBest
    } else {
        Verdict::Gap {
            sheets: outcome.sheets.saturating_sub(bound.sheets),
            cost: (outcome.cost - bound.cost).max(0.0),
        }
    };
    Plan {
        layouts,
        left_out,
        bound,
        cost: outcome.cost,
        verdict,
        nodes: outcome.nodes,
    }
}

/// Hands out the parts of each size in the order given.
struct Supply<'a> {
    problem: &'a Problem<'a>,
    used: Vec<usize>,
}

impl<'a> Supply<'a> {
    fn new(problem: &'a Problem) -> Self {
        Self {
            problem,
            used: vec![0; problem.kinds.len()],
        }
    }
    fn take(&mut self, kind: usize) -> usize {
        self.used[kind] += 1;
        self.problem.kinds[kind].members[self.used[kind] - 1]
    }
    fn left(&self) -> Vec<usize> {
        let kinds = self.problem.kinds.iter().zip(&self.used);
        kinds
            .flat_map(|(kind, &used)| kind.members[used..].iter().copied())
            .collect()
    }
}

fn layout<'a>(problem: &'a Problem, at: usize, steps: &[Step], supply: &mut Supply<'a>) -> Layout {
    let sheet = &problem.sheets[at];
    let mut sawyer = Sawyer {
        problem,
        steps,
        supply,
        cuts: 0,
    };
    let whole = Area {
        x: 0,
        y: 0,
        length: to_nano(sheet.length),
        width: to_nano(sheet.width),
    };
    Layout {
        sheet: sheet.id,
        root: sawyer.trim(whole, &EDGES),
    }
}

/// The order in which edges are trimmed: blade direction, and the edge that goes to the fence
/// (the other one is trimmed).
const EDGES: [(Runs, Reference); 4] = [
    (Runs::AlongLength, Reference::Far),
    (Runs::AlongLength, Reference::Near),
    (Runs::AlongWidth, Reference::Far),
    (Runs::AlongWidth, Reference::Near),
];

struct Sawyer<'a, 'b> {
    problem: &'a Problem<'a>,
    /// Steps on this sheet not yet carried out.
    steps: &'b [Step],
    supply: &'b mut Supply<'a>,
    cuts: usize,
}

impl Sawyer<'_, '_> {
    /// Trims the edges still to be trimmed, then fills what is left.
    fn trim(&mut self, area: Area, edges: &[(Runs, Reference)]) -> Piece {
        let trim = self.problem.trim;
        let (Some(&(runs, reference)), true) = (edges.first(), trim > 0) else {
            return self.fill(Area {
                length: area.length + self.problem.kerf,
                width: area.width + self.problem.kerf,
                ..area
            });
        };
        self.cuts += 1;
        let number = self.cuts;
        let (kept, strip) = split(area, runs, reference, trim, self.problem.kerf);
        let rest = strip.map(|strip| Piece {
            rect: rect(strip),
            fate: Fate::Trimming,
        });
        let fence = to_metres(across(&kept, runs));
        let kept = self.trim(kept, &edges[1..]);
        Piece {
            rect: rect(area),
            fate: Fate::Cut(Box::new(Cut {
                number,
                runs,
                reference,
                fence,
                kept,
                rest,
            })),
        }
    }

    /// Carries out the steps in this piece, given in kerf-free form.
    fn fill(&mut self, area: Area) -> Piece {
        let trim = self.problem.trim;
        let here = |step: &&Step| step.piece.x + trim == area.x && step.piece.y + trim == area.y;
        let Some(step) = self.steps.first().filter(here).copied() else {
            return Piece {
                rect: rect(self.real(area)),
                fate: Fate::Offcut,
            };
        };
        self.steps = &self.steps[1..];
        let second = match step.first {
            Runs::AlongWidth => Runs::AlongLength,
            Runs::AlongLength => Runs::AlongWidth,
        };
        let own = |runs| match runs {
            Runs::AlongWidth => step.length,
            Runs::AlongLength => step.width,
        };
        self.saw(area, step.first, step.strip, |sawyer, strip| {
            sawyer.saw(strip, second, own(second), |sawyer, row| {
                sawyer.saw(row, step.first, own(step.first), |sawyer, part| {
                    sawyer.part(part, &step)
                })
            })
        })
    }

    /// Cuts `size` off `area` where that is larger, and goes on with what is kept, then with
    /// the rest.
    fn saw(
        &mut self,
        area: Area,
        runs: Runs,
        size: Nano,
        go_on: impl FnOnce(&mut Self, Area) -> Piece,
    ) -> Piece {
        let (kept, rest) = match runs {
            Runs::AlongWidth => (
                Area {
                    length: size,
                    ..area
                },
                Area {
                    x: area.x + size,
                    length: area.length - size,
                    ..area
                },
            ),
            Runs::AlongLength => (
                Area {
                    width: size,
                    ..area
                },
                Area {
                    y: area.y + size,
                    width: area.width - size,
                    ..area
                },
            ),
        };
        if kept == area {
            return go_on(self, area);
        }
        self.cuts += 1;
        let number = self.cuts;
        let fence = to_metres(size - self.problem.kerf);
        let kept = go_on(self, kept);
        let rest = (across(&rest, runs) > self.problem.kerf).then(|| self.fill(rest));
        let cut = Cut {
            number,
            runs,
            reference: Reference::Near,
            fence,
            kept,
            rest,
        };
        Piece {
            rect: rect(self.real(area)),
            fate: Fate::Cut(Box::new(cut)),
        }
    }

    fn part(&mut self, area: Area, step: &Step) -> Piece {
        let part = &self.problem.parts[self.supply.take(step.kind)];
        let real = self.real(area);
        let turned = real.length != to_nano(part.length);
        Piece {
            rect: rect(real),
            fate: Fate::Part {
                id: part.id,
                turned,
            },
        }
    }

    /// A kerf-free area as the material that is there.
    fn real(&self, area: Area) -> Area {
        let kerf = self.problem.kerf;
        Area {
            length: area.length - kerf,
            width: area.width - kerf,
            ..area
        }
    }
}

/// The size that the fence sets.
fn across(area: &Area, runs: Runs) -> Nano {
    match runs {
        Runs::AlongLength => area.width,
        Runs::AlongWidth => area.length,
    }
}

/// Takes `trim` off the edge away from the fence: what is kept, and the strip if the blade
/// leaves one.
fn split(
    area: Area,
    runs: Runs,
    reference: Reference,
    trim: Nano,
    kerf: Nano,
) -> (Area, Option<Area>) {
    let size = across(&area, runs);
    let kept = (size - trim).max(0);
    let strip = (size - kept - kerf).max(0);
    let (kept_from, strip_from) = match reference {
        Reference::Near => (0, size - strip),
        Reference::Far => (size - kept, 0),
    };
    let place = |from: Nano, size: Nano| match runs {
        Runs::AlongLength => Area {
            y: area.y + from,
            width: size,
            ..area
        },
        Runs::AlongWidth => Area {
            x: area.x + from,
            length: size,
            ..area
        },
    };
    (
        place(kept_from, kept),
        (strip > 0).then(|| place(strip_from, strip)),
    )
}

fn rect(area: Area) -> Rect {
    Rect {
        x: to_metres(area.x),
        y: to_metres(area.y),
        length: to_metres(area.length),
        width: to_metres(area.width),
    }
}
