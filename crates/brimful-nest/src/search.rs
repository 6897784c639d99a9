//! Beam search over unfinished plans.
//!
//! One [`Step`] puts one part into the corner of the piece in hand. Of its leftovers the one
//! nearest the part is taken in hand first; a piece in which no part fits any more is left over.
//! When no piece is in hand a new sheet is begun. All unfinished plans of one step have equally
//! many parts placed; the best by their guide go on: sheet used up so far, at its price, over
//! the worth of the parts placed.

use std::rc::Rc;

use crate::bound::Bound;
use crate::layout::Runs;
use crate::order::{Nano, Problem};
use crate::step::{Area, Step};

/// The best plan found.
pub(crate) struct Outcome {
    pub steps: Vec<Step>,
    pub cost: f64,
    pub sheets: usize,
    pub nodes: usize,
}

/// Beam widths, each four times the work of the one before; the last ones are reached only
/// with more effort than usual.
const WIDTHS: [usize; 8] = [1, 4, 16, 64, 256, 1024, 4096, 16384];

/// Passes up to this width run even when the bound is reached at once, for a better offcut.
const SETTLING_WIDTH: usize = 16;

/// Powers of its area that make the worth of a part. One is plain use of area; above one, large
/// parts are placed early. No single power is best for all orders.
const POWERS: [f64; 3] = [1.1, 1.25, 1.5];

/// Up to this many parts, strips wide enough for a row of two are tried also. They open every
/// layout, but with more parts the same effort is better spent on a wider beam.
const FEW_PARTS: usize = 20;

/// The least price of a square metre of sheet against the dearest in hand. Above zero, so that
/// waste counts on a free offcut also.
const LEAST_RATE: f64 = 0.05;

pub(crate) fn search(problem: &Problem, bound: &Bound) -> Outcome {
    let mut best: Option<Finished> = None;
    let mut nodes = 0;
    'passes: for width in WIDTHS {
        for (power, rows) in manners(problem) {
            for allowed in sheet_choices(problem) {
                let limit = if best.is_some() {
                    problem.effort
                } else {
                    usize::MAX
                };
                let mut pass = Pass::new(problem, width, power, rows, &allowed, limit);
                pass.nodes = nodes;
                let finished = pass.run();
                nodes = pass.nodes;
                best = better(best, finished);
                if nodes >= problem.effort {
                    break 'passes;
                }
            }
        }
        let proven = best.as_ref().is_some_and(|b| b.reaches(bound));
        if proven && width >= SETTLING_WIDTH {
            break;
        }
    }
    let best = best.unwrap_or_default();
    Outcome {
        steps: best.steps,
        cost: best.cost,
        sheets: best.sheets,
        nodes,
    }
}

/// The powers, each without rows of two parts and, where there are few parts, also with them.
fn manners(problem: &Problem) -> Vec<(f64, bool)> {
    let parts: usize = problem.kinds.iter().map(|kind| kind.members.len()).sum();
    let with_rows: &[bool] = if parts <= FEW_PARTS {
        &[false, true]
    } else {
        &[false]
    };
    with_rows
        .iter()
        .flat_map(|&rows| POWERS.map(|power| (power, rows)))
        .collect()
}

/// All sheets together, then each size alone: a mixture is not always the cheapest.
fn sheet_choices(problem: &Problem) -> Vec<Vec<bool>> {
    let sizes = problem.blanks.len();
    let mut choices = vec![vec![true; sizes]];
    if sizes > 1 {
        choices.extend((0..sizes).map(|only| (0..sizes).map(|at| at == only).collect()));
    }
    choices
}

/// A plan that no step can carry on.
#[derive(Default)]
struct Finished {
    steps: Vec<Step>,
    left_area: f64,
    cost: f64,
    sheets: usize,
    largest_offcut: f64,
}

impl Finished {
    fn reaches(&self, bound: &Bound) -> bool {
        self.left_area == 0.0 && self.cost <= bound.cost && self.sheets <= bound.sheets
    }
    fn rank(&self) -> [f64; 4] {
        [
            self.left_area,
            self.cost,
            self.sheets as f64,
            -self.largest_offcut,
        ]
    }
}

fn better(a: Option<Finished>, b: Option<Finished>) -> Option<Finished> {
    match (a, b) {
        (Some(a), Some(b)) => Some(if b.rank() < a.rank() { b } else { a }),
        (a, b) => a.or(b),
    }
}

/// The steps taken so far, newest first, shared between plans with a common beginning.
struct Trail {
    step: Step,
    before: Option<Rc<Trail>>,
}

/// An unfinished plan.
#[derive(Clone)]
struct State {
    trail: Option<Rc<Trail>>,
    /// Parts not yet placed, by kind.
    left: Vec<usize>,
    left_area: f64,
    /// Pieces still to be filled, the one in hand last.
    open: Vec<Area>,
    /// Sheets begun, by size.
    begun: Vec<usize>,
    /// Price of a square metre of the sheet in hand.
    rate: f64,
    /// Area used up (parts and leftovers), weighted by price.
    spent: f64,
    /// Sum of the placed parts' areas to the power of the pass.
    value: f64,
    largest_offcut: f64,
    /// Equal for plans that placed the same parts on the same choice of sheets.
    mark: u64,
}

/// A way to carry a plan on, weighed but not yet built.
struct Candidate {
    parent: usize,
    step: Step,
    rate: f64,
    guide: f64,
    mark: u64,
}

struct Pass<'a> {
    problem: &'a Problem<'a>,
    width: usize,
    values: Vec<f64>,
    rows: bool,
    allowed: &'a [bool],
    limit: usize,
    nodes: usize,
}

impl<'a> Pass<'a> {
    fn new(
        problem: &'a Problem,
        width: usize,
        power: f64,
        rows: bool,
        allowed: &'a [bool],
        limit: usize,
    ) -> Self {
        let largest = problem
            .kinds
            .iter()
            .map(|kind| kind.area())
            .fold(0.0, f64::max);
        let values = problem
            .kinds
            .iter()
            .map(|kind| (kind.area() / largest).powf(power))
            .collect();
        Self {
            problem,
            width,
            values,
            rows,
            allowed,
            limit,
            nodes: 0,
        }
    }

    /// The best plan of this pass; `None` when the effort ran out before any was finished.
    fn run(&mut self) -> Option<Finished> {
        let mut best = None;
        let mut beam = vec![self.start()];
        while !beam.is_empty() {
            let mut candidates = Vec::new();
            for (parent, state) in beam.iter().enumerate() {
                let before = candidates.len();
                self.carry_on(parent, state, &mut candidates);
                self.nodes += candidates.len() - before;
                if candidates.len() == before {
                    best = better(best, Some(self.finish(state)));
                }
            }
            if self.nodes >= self.limit {
                return best;
            }
            beam = self
                .select(candidates)
                .iter()
                .map(|chosen| self.apply(&beam[chosen.parent], chosen))
                .collect();
        }
        best
    }

    fn start(&self) -> State {
        let left: Vec<usize> = self
            .problem
            .kinds
            .iter()
            .map(|kind| kind.members.len())
            .collect();
        let left_area = self
            .problem
            .kinds
            .iter()
            .map(|kind| kind.area() * kind.members.len() as f64)
            .sum();
        State {
            trail: None,
            left,
            left_area,
            open: Vec::new(),
            begun: vec![0; self.problem.blanks.len()],
            rate: 0.0,
            spent: 0.0,
            value: 0.0,
            largest_offcut: 0.0,
            mark: 0,
        }
    }

    /// Every step that can follow.
    fn carry_on(&self, parent: usize, state: &State, candidates: &mut Vec<Candidate>) {
        if let Some(&piece) = state.open.last() {
            self.fill(parent, state, piece, None, state.rate, candidates);
            return;
        }
        for (at, blank) in self.problem.blanks.iter().enumerate() {
            if self.allowed[at] && state.begun[at] < blank.count {
                let piece = Area {
                    x: 0,
                    y: 0,
                    length: blank.length,
                    width: blank.width,
                };
                self.fill(
                    parent,
                    state,
                    piece,
                    Some(at),
                    self.rate(at, state.left_area),
                    candidates,
                );
            }
        }
    }

    /// What a square metre of this sheet costs if it holds as much as it can of what is left,
    /// against the dearest sheet.
    fn rate(&self, at: usize, left_area: f64) -> f64 {
        let blanks = &self.problem.blanks;
        let dearest = blanks
            .iter()
            .map(|blank| blank.cost / blank.area())
            .fold(0.0, f64::max);
        if dearest == 0.0 {
            return 1.0;
        }
        (blanks[at].cost / blanks[at].area().min(left_area) / dearest).max(LEAST_RATE)
    }

    fn fill(
        &self,
        parent: usize,
        state: &State,
        piece: Area,
        begins: Option<usize>,
        rate: f64,
        candidates: &mut Vec<Candidate>,
    ) {
        for (kind, size) in self.problem.kinds.iter().enumerate() {
            if state.left[kind] == 0 {
                continue;
            }
            for (length, width) in size.poses() {
                if length > piece.length || width > piece.width {
                    continue;
                }
                // Where one size is the piece's own, only one cut is needed either way.
                let one_cut = length == piece.length || width == piece.width;
                let firsts = [Runs::AlongWidth, Runs::AlongLength];
                for &first in &firsts[usize::from(one_cut)..] {
                    for strip in self.strips(state, kind, piece, (length, width), first) {
                        if self.problem.can_saw(
                            (piece.length, piece.width),
                            (length, width),
                            first,
                            strip,
                        ) {
                            let step = Step {
                                begins,
                                piece,
                                kind,
                                length,
                                width,
                                first,
                                strip,
                            };
                            candidates.push(self.weigh(parent, state, step, rate));
                        }
                    }
                }
            }
        }
    }

    /// How wide the first strip may be: the part's own size, and that with a second part beside
    /// it, nearly as deep as the first, where a third one could lie across both.
    fn strips(
        &self,
        state: &State,
        kind: usize,
        piece: Area,
        part: (Nano, Nano),
        first: Runs,
    ) -> Vec<Nano> {
        let turn = |(length, width)| match first {
            Runs::AlongWidth => (length, width),
            Runs::AlongLength => (width, length),
        };
        let (along, deep) = turn(part);
        let (whole_along, whole_deep) = turn((piece.length, piece.width));
        let mut strips = vec![along];
        if !self.rows || deep == whole_deep {
            return strips;
        }
        for (other, size) in self.problem.kinds.iter().enumerate() {
            if state.left[other] <= usize::from(other == kind) {
                continue;
            }
            for (beside, depth) in size.poses().map(turn) {
                let fits = along + beside <= whole_along && depth <= deep;
                let fills = depth * ROW_SHARE.1 >= deep * ROW_SHARE.0;
                if fits && fills && !strips.contains(&(along + beside)) {
                    strips.push(along + beside);
                }
            }
        }
        strips
    }

    fn weigh(&self, parent: usize, state: &State, step: Step, rate: f64) -> Candidate {
        let part = step.length as f64 * step.width as f64;
        let waste: f64 = step
            .leftovers()
            .iter()
            .filter(|area| !self.any_fits(&state.left, Some(step.kind), area))
            .map(Area::size)
            .sum();
        let spent = state.spent + rate * (part + waste);
        let value = state.value + self.values[step.kind];
        let mut mark = state.mark.wrapping_add(scatter(step.kind as u64));
        if let Some(at) = step.begins {
            mark = mark.wrapping_add(scatter(!(at as u64)));
        }
        Candidate {
            parent,
            step,
            rate,
            guide: spent / value,
            mark,
        }
    }

    /// Whether any part left fits `area`; `taken` is a kind of which one is no longer left.
    fn any_fits(&self, left: &[usize], taken: Option<usize>, area: &Area) -> bool {
        if area.length <= 0 || area.width <= 0 {
            return false;
        }
        self.problem.kinds.iter().enumerate().any(|(kind, size)| {
            left[kind] > usize::from(taken == Some(kind)) && size.fits(area.length, area.width)
        })
    }

    /// The best candidates, without those that placed the same parts with the same waste.
    fn select(&self, mut candidates: Vec<Candidate>) -> Vec<Candidate> {
        let order =
            |a: &Candidate, b: &Candidate| a.guide.total_cmp(&b.guide).then(a.mark.cmp(&b.mark));
        // Twins leave places empty in a beam cut off early, so more than its width is sorted.
        let kept = self.width.saturating_mul(SPARE).min(candidates.len());
        if kept < candidates.len() {
            candidates.select_nth_unstable_by(kept, order);
            candidates.truncate(kept);
        }
        candidates.sort_by(|a, b| order(a, b).then(a.parent.cmp(&b.parent)));
        candidates.dedup_by(|a, b| a.mark == b.mark && a.guide == b.guide);
        candidates.truncate(self.width);
        candidates
    }

    fn apply(&self, state: &State, chosen: &Candidate) -> State {
        let step = chosen.step;
        let mut next = state.clone();
        next.trail = Some(Rc::new(Trail {
            step,
            before: state.trail.clone(),
        }));
        next.mark = chosen.mark;
        next.rate = chosen.rate;
        next.left[step.kind] -= 1;
        let part = self.problem.kinds[step.kind].area();
        next.left_area -= part;
        next.spent += chosen.rate * part;
        next.value += self.values[step.kind];
        match step.begins {
            Some(at) => next.begun[at] += 1,
            None => drop(next.open.pop()),
        }
        // All leftovers of this step are looked at, as weighed; of the older pieces only the
        // one in hand. The leftover nearest the part is taken in hand first.
        for area in step.leftovers().into_iter().rev() {
            if self.any_fits(&next.left, None, &area) {
                next.open.push(area);
            } else {
                self.leave(&mut next, area);
            }
        }
        while let Some(area) = next
            .open
            .pop_if(|area| !self.any_fits(&next.left, None, area))
        {
            self.leave(&mut next, area);
        }
        next
    }

    /// A piece becomes an offcut.
    fn leave(&self, state: &mut State, area: Area) {
        state.spent += state.rate * area.size();
        let real = |size: Nano| (size - self.problem.kerf).max(0) as f64;
        state.largest_offcut = state
            .largest_offcut
            .max(real(area.length) * real(area.width));
    }

    fn finish(&self, state: &State) -> Finished {
        let mut steps = Vec::new();
        let mut trail = state.trail.as_deref();
        while let Some(Trail { step, before }) = trail {
            steps.push(*step);
            trail = before.as_deref();
        }
        steps.reverse();
        let blanks = &self.problem.blanks;
        let kinds = &self.problem.kinds;
        Finished {
            steps,
            left_area: kinds
                .iter()
                .zip(&state.left)
                .map(|(kind, &left)| kind.area() * left as f64)
                .sum(),
            cost: blanks
                .iter()
                .zip(&state.begun)
                .map(|(blank, &begun)| blank.cost * begun as f64)
                .sum(),
            sheets: state.begun.iter().sum(),
            largest_offcut: state.largest_offcut,
        }
    }
}

/// A second part in a row must be at least this share as deep as the first; a shallower one
/// leaves more waste above itself than the row saves.
const ROW_SHARE: (Nano, Nano) = (3, 4);

/// How many candidates are sorted for each place in the beam.
const SPARE: usize = 4;

/// Spreads small numbers over 64 bits (the finaliser of splitmix64, S. Vigna, public domain),
/// so that sums of them tell multisets apart.
fn scatter(number: u64) -> u64 {
    let mut z = number.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}
