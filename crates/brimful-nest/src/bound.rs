//! What no plan can undercut: lower bounds on the number of sheets and on their cost.
//!
//! Number: each part gets a weight such that the parts on any one sheet weigh at most one; the
//! weights of all parts, added and rounded up, then bound the number of sheets. A product of a
//! dual feasible function of the length and one of the width is such a weight (S. P. Fekete and
//! J. Schepers, "New classes of fast lower bounds for bin packing problems", Mathematical
//! Programming 91 (2001): u^(k) of theorem 2 (after Lueker), U^(eps) of theorem 3, phi^(eps) of
//! theorem 4; and "A general framework for bounds for higher-dimensional orthogonal packing
//! problems", Math. Meth. Oper. Res. 60 (2004)). With the identity for both it is the area
//! bound; with U it holds the bounds L1 and L2 of S. Martello and D. Vigo, "Exact solution of
//! the two-dimensional finite bin packing problem", Management Science 44 (1998). Theorem
//! numbers from memory. A part that may turn takes the smaller weight of its ways to lie,
//! which is right for either. Sheets of several sizes are bounded by the sheet that is as long
//! as the longest and as wide as the widest.
//!
//! Cost: the cheapest choice of whole sheets, within the counts on hand, that reaches the parts'
//! area and the bound on the number.

use crate::order::{Nano, Problem};

/// What no plan can undercut.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound {
    /// Sheets by area alone.
    pub sheets_by_area: usize,
    /// Sheets by the strongest weights tried; never below the bound by area.
    pub sheets: usize,
    /// Cost of the sheets used; infinite where the sheets on hand cannot hold the parts.
    pub cost: f64,
}

/// Sums of weights are trusted to this much: a sum this little above a whole number may be
/// rounding (hundreds of terms of 1e-16 each), and is not counted as one sheet more.
const SUM_SLACK: f64 = 1e-9;

/// The most thresholds tried in each direction; with more different sizes every n-th is taken.
/// Only the strength of the bound suffers, and the work stays below about a million weights.
const MOST_THRESHOLDS: usize = 60;

/// The k of u^(k) tried. Larger ones act like the identity.
const FRACTIONS: std::ops::RangeInclusive<Nano> = 1..=5;

pub(crate) fn lower_bound(problem: &Problem) -> Bound {
    let total: f64 = problem
        .kinds
        .iter()
        .map(|kind| kind.area() * kind.members.len() as f64)
        .sum();
    let sheets_by_area = fewest_by_area(problem, total);
    let sheets = fewest_by_weight(problem).max(sheets_by_area);
    let cost = Cheapest {
        problem,
        best: f64::INFINITY,
        steps_left: CHOICES,
    }
    .find(total, sheets);
    Bound {
        sheets_by_area,
        sheets,
        cost,
    }
}

fn fewest_by_area(problem: &Problem, total: f64) -> usize {
    let mut areas: Vec<(f64, usize)> = problem
        .blanks
        .iter()
        .map(|blank| (blank.area(), blank.count))
        .collect();
    areas.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (mut left, mut sheets) = (total * (1.0 - SUM_SLACK), 0);
    for (area, count) in areas {
        let wanted = (left / area).ceil().max(0.0) as usize;
        sheets += wanted.min(count);
        left -= area * wanted.min(count) as f64;
    }
    // What the sheets on hand cannot hold would need at least one more.
    sheets + usize::from(left > 0.0)
}

fn fewest_by_weight(problem: &Problem) -> usize {
    let usable = || problem.blanks.iter().filter(|blank| blank.count > 0);
    let length = usable().map(|blank| blank.length).max().unwrap_or(0);
    let width = usable().map(|blank| blank.width).max().unwrap_or(0);
    let poses: Vec<Vec<(Nano, Nano)>> = problem
        .kinds
        .iter()
        .map(|kind| {
            kind.poses()
                .filter(|&(l, w)| l <= length && w <= width)
                .collect()
        })
        .collect();
    let along = |pick: fn(&(Nano, Nano)) -> Nano, size: Nano| -> Vec<Vec<Vec<f64>>> {
        let sizes: Vec<Nano> = poses.iter().flatten().map(pick).collect();
        let weigh = |rule: &Rule| {
            poses
                .iter()
                .map(|ways| {
                    ways.iter()
                        .map(|way| rule.weight(pick(way), size))
                        .collect()
                })
                .collect()
        };
        rules(&sizes, size).iter().map(weigh).collect()
    };
    let by_length = along(|way| way.0, length);
    let by_width = along(|way| way.1, width);
    let mut most = 0.0_f64;
    for lengths in &by_length {
        for widths in &by_width {
            let sum: f64 = problem
                .kinds
                .iter()
                .zip(lengths.iter().zip(widths))
                .map(|(kind, (l, w))| {
                    let least = l
                        .iter()
                        .zip(w)
                        .map(|(l, w)| l * w)
                        .fold(f64::INFINITY, f64::min);
                    // A kind without any way to lie on the largest sheet cannot occur: it would
                    // have been put aside as too large.
                    if least.is_finite() {
                        least * kind.members.len() as f64
                    } else {
                        0.0
                    }
                })
                .sum();
            most = most.max(sum);
        }
    }
    (most - SUM_SLACK).ceil().max(0.0) as usize
}

/// A dual feasible function.
enum Rule {
    Identity,
    /// u^(k)
    Fraction(Nano),
    /// U^(eps), the threshold as a size.
    Large(Nano),
    /// phi^(eps), the threshold as a size.
    Step(Nano),
}

fn rules(sizes: &[Nano], whole: Nano) -> Vec<Rule> {
    let mut thresholds: Vec<Nano> = sizes
        .iter()
        .flat_map(|&size| [size, whole - size])
        .filter(|&t| t > 0 && 2 * t <= whole)
        .collect();
    thresholds.sort_unstable();
    thresholds.dedup();
    let stride = thresholds.len().div_ceil(MOST_THRESHOLDS).max(1);
    let thresholds = || thresholds.iter().copied().step_by(stride);
    std::iter::once(Rule::Identity)
        .chain(FRACTIONS.map(Rule::Fraction))
        .chain(thresholds().map(Rule::Large))
        .chain(thresholds().map(Rule::Step))
        .collect()
}

impl Rule {
    /// The weight of `size` on a sheet of size `whole`; both exact, so every case distinction is.
    fn weight(&self, size: Nano, whole: Nano) -> f64 {
        let share = size as f64 / whole as f64;
        match *self {
            Self::Identity => share,
            Self::Fraction(k) if (size * (k + 1)) % whole == 0 => share,
            Self::Fraction(k) => (size * (k + 1) / whole) as f64 / k as f64,
            Self::Large(least) if size > whole - least => 1.0,
            Self::Large(least) if size < least => 0.0,
            Self::Large(_) => share,
            Self::Step(least) if size < least => 0.0,
            Self::Step(least) if 2 * size <= whole => 1.0 / (whole / least) as f64,
            Self::Step(least) => 1.0 - ((whole - size) / least) as f64 / (whole / least) as f64,
        }
    }
}

/// How many partial choices of sheets are weighed; beyond it the bound by continuous shares
/// stands in for the rest, which is lower and still true.
const CHOICES: usize = 20_000;

/// The cheapest choice of whole sheets, by depth first over the sizes.
struct Cheapest<'a> {
    problem: &'a Problem<'a>,
    best: f64,
    steps_left: usize,
}

impl Cheapest<'_> {
    fn find(mut self, area: f64, sheets: usize) -> f64 {
        let mut order: Vec<usize> = (0..self.problem.blanks.len()).collect();
        let price = |&at: &usize| self.problem.blanks[at].cost / self.problem.blanks[at].area();
        order.sort_by(|a, b| price(a).total_cmp(&price(b)));
        self.choose(&order, area * (1.0 - SUM_SLACK), sheets, 0.0);
        self.best
    }

    /// `order` holds the sizes still open, cheapest a square metre first.
    fn choose(&mut self, order: &[usize], area: f64, sheets: usize, spent: f64) {
        let blanks = &self.problem.blanks;
        if area <= 0.0 && sheets == 0 {
            self.best = self.best.min(spent);
            return;
        }
        let floor = spent
            + self
                .continuous(order, area)
                .max(self.by_number(order, sheets));
        if floor >= self.best {
            return;
        }
        let Some((&first, rest)) = order.split_first() else {
            return;
        };
        if self.steps_left == 0 {
            self.best = floor;
            return;
        }
        self.steps_left -= 1;
        let enough = ((area / blanks[first].area()).ceil().max(0.0) as usize).max(sheets);
        for taken in (0..=enough.min(blanks[first].count)).rev() {
            let left = area - blanks[first].area() * taken as f64;
            self.choose(
                rest,
                left,
                sheets.saturating_sub(taken),
                spent + blanks[first].cost * taken as f64,
            );
        }
    }

    /// Cost of reaching `area` if sheets could be bought by the square metre.
    fn continuous(&self, order: &[usize], mut area: f64) -> f64 {
        let mut cost = 0.0;
        for blank in order.iter().map(|&at| &self.problem.blanks[at]) {
            let share = (area / blank.area()).clamp(0.0, blank.count as f64);
            cost += share * blank.cost;
            area -= share * blank.area();
        }
        // A relative slack against rounding of the shares.
        if area
            > f64::EPSILON
                * 1e3
                * self
                    .problem
                    .blanks
                    .iter()
                    .map(|blank| blank.area())
                    .fold(0.0, f64::max)
        {
            f64::INFINITY
        } else {
            cost * (1.0 - SUM_SLACK)
        }
    }

    /// Cost of the cheapest `sheets` sheets.
    fn by_number(&self, order: &[usize], mut sheets: usize) -> f64 {
        let mut by_cost: Vec<usize> = order.to_vec();
        by_cost.sort_by(|&a, &b| {
            self.problem.blanks[a]
                .cost
                .total_cmp(&self.problem.blanks[b].cost)
        });
        let mut cost = 0.0;
        for blank in by_cost.iter().map(|&at| &self.problem.blanks[at]) {
            let taken = sheets.min(blank.count);
            cost += taken as f64 * blank.cost;
            sheets -= taken;
        }
        if sheets > 0 { f64::INFINITY } else { cost }
    }
}
