//! One load step: Newton's method with a line search.

use super::motion::Motion;
use super::path::{Acting, Balance, Path, Tangent, Touching};
use super::steps::Steps;
use crate::shell::element::Column;
use crate::shell::factor::Workspace;
use crate::shell::fault::Fault;
use crate::shell::model::Shell;
use crate::shell::small::length;
use crate::shell::system::{NONE, System};
use std::ops::ControlFlow;

/// Work left along the way, as a share of that at its start, at which a line search ends.
const LINE_SEARCH_TOLERANCE: f64 = 0.5;
/// Trials of a line search; each costs a tenth of a factorization or less.
const LINE_SEARCH_TRIALS: usize = 8;
/// Iterations of a step that are searched along. A plate that stiffens is brought near its answer by
/// the first; a strip that turns far only creeps when every stretch on its way is avoided.
const LINE_SEARCHES: usize = 1;
/// Iterations after which a step that leaves more over than the whole load is lost: those that
/// converge late are below a tenth by then.
const LATE: usize = 9;
/// Residual force, as a share of the forces at work, under which the tangent stands for that of the
/// end, in its pivots too: stability is known to a hundredth of the load, closer than the mesh knows
/// it. Corrections by its factor cost a third of an iteration each. Along a motion whose stiffness
/// changes its sign on what is left of the way they grow, and do not settle.
const MODIFIED_NEWTON: f64 = 1e-2;
/// Corrections by one factor that leave more than this share of the residual before are too slow.
const SLOW_CONVERGENCE: f64 = 0.1;
/// What has moved this many times as far as the shell is large does not come back; a strip that
/// rolls up may overshoot by its own length.
const DIVERGENCE_RATIO: f64 = 2.0;
/// Rounding of a displacement by the time it is a strain.
const ROUNDING: f64 = 8.0 * f64::EPSILON;
/// Part of the constraints' change by which their effect on the unknowns is measured.
const DIFFERENCE_STEP: f64 = 1e-5;

/// What came of a step.
pub(crate) enum Outcome {
    Stable { iterations: usize, end: Box<End> },
    Failed(Fault),
}

/// Where a step came to rest.
pub(crate) struct End {
    pub motion: Motion,
    pub balance: Balance,
    /// Residual force as a share of the forces at work.
    pub residual: f64,
}

/// What all steps have in common.
pub(crate) struct Newton<'a> {
    pub shell: &'a Shell,
    pub system: &'a System,
    pub path: &'a Path,
    pub steps: &'a Steps,
    pub work: &'a mut Workspace,
}

/// Where the iterations of a step have come to.
struct Iterate {
    motion: Motion,
    /// Forces in the triangles that the next tangent is made with.
    expected: Vec<Column>,
    closed: Vec<bool>,
    /// A contact that changed from one iteration to the next.
    unsettled: Option<usize>,
    was_unstable: bool,
    /// What is said if no more comes of it.
    last: Fault,
}

impl Iterate {
    fn new(motion: Motion) -> Self {
        Self {
            motion,
            expected: Vec::new(),
            closed: Vec::new(),
            unsettled: None,
            was_unstable: false,
            last: Fault::Solver {
                what: "no step was taken".into(),
            },
        }
    }

    /// Takes over which contacts are closed; what has changed is known from the second iteration on.
    fn note_contacts(&mut self, closed: &[bool], iteration: usize) {
        if iteration > 0 && self.closed != closed {
            self.unsettled = self.closed.iter().zip(closed).position(|(a, b)| a != b);
        }
        self.closed = closed.to_vec();
    }
}

impl Newton<'_> {
    /// Goes from the share `reached` of the load to `tried`.
    ///
    /// An iterate that has lost its stability makes the step fail even when it ends stable: the
    /// shell may have snapped through. Where contacts changed, that alone may have been the
    /// reason, and the end counts.
    ///
    /// # Errors
    /// A mechanism in the shell as it stands, which no smaller step would mend.
    pub fn step(&mut self, mut motion: Motion, reached: f64, tried: f64) -> Result<Outcome, Fault> {
        if let Some(column) = self.constraint_response(&motion, reached, tried)? {
            motion.advance(self.system, &column, 1.0);
            self.move_constraints(&mut motion, reached, tried, 1.0);
        }
        let mut iterate = Iterate::new(motion);
        for iteration in 0..=self.steps.iterations {
            match self.improve(&mut iterate, iteration, reached, tried)? {
                ControlFlow::Continue(()) => {}
                ControlFlow::Break(Some(outcome)) => return Ok(outcome),
                ControlFlow::Break(None) => break,
            }
        }
        let fault = match (iterate.unsettled, iterate.last) {
            (Some(contact), Fault::NotConverged { .. })
                if self.chatters(&iterate.motion, tried, &iterate.closed) =>
            {
                Fault::Chatter { tried, contact }
            }
            (_, last) => last,
        };
        Ok(Outcome::Failed(fault))
    }

    /// One iteration. Breaks with what came of the step, or with nothing where it leads nowhere.
    fn improve(
        &mut self,
        iterate: &mut Iterate,
        iteration: usize,
        reached: f64,
        tried: f64,
    ) -> Result<ControlFlow<Option<Outcome>>, Fault> {
        // What is in balance at the start tells how the shell will answer. A strain that grows
        // while nothing moves yet would press on it as it never does.
        let acting = if iteration == 0 {
            Acting::At(reached)
        } else {
            Acting::Expected(&iterate.expected)
        };
        let balance = self.tangent(&iterate.motion, tried, Touching::Closed, acting);
        let (share, node, force) = self.residual(&balance);
        let diverged = balance.farthest > DIVERGENCE_RATIO * self.extent();
        if !share.is_finite() || diverged || (iteration >= LATE && share > 1.0) {
            return Ok(ControlFlow::Break(None));
        }
        iterate.last = Fault::NotConverged {
            reached,
            tried,
            node,
            residual: force,
        };
        iterate.note_contacts(&balance.closed, iteration);
        let Some((balance, negative, is_own)) =
            self.factorize(iterate, balance, (share, iteration), reached, tried)?
        else {
            return Ok(ControlFlow::Break(None));
        };
        let mut column = self.unknown(&balance.residual);
        if self.work.solve(self.system, &mut column).is_err() {
            return Ok(ControlFlow::Break(None));
        }
        let converged = share <= self.steps.tolerance;
        let near = iteration > 0 && share <= MODIFIED_NEWTON && negative == 0;
        if is_own
            && (converged || near)
            && let Some(end) = self.settled(iterate, tried, (share, &balance), column.clone())
        {
            // An iterate without stability may be the contacts' doing while they change.
            let jumped = iterate.was_unstable && iterate.unsettled.is_none();
            return Ok(ControlFlow::Break(Some(if jumped || negative > 0 {
                Outcome::Failed(self.unstable(reached, tried))
            } else {
                Outcome::Stable {
                    iterations: iteration + 1,
                    end: Box::new(end),
                }
            })));
        }
        iterate.was_unstable |= negative > 0;
        self.advance(iterate, iteration, tried, &balance, &column);
        Ok(ControlFlow::Continue(()))
    }

    /// Goes along `column`, as far as a line search says in the first iterations.
    fn advance(
        &self,
        iterate: &mut Iterate,
        iteration: usize,
        tried: f64,
        balance: &Balance,
        column: &[f64],
    ) {
        let share = if iteration < LINE_SEARCHES {
            self.line_search(&iterate.motion, tried, balance, column)
        } else {
            1.0
        };
        iterate.expected =
            self.path
                .expected(self.shell, self.system, balance, tried, column, share);
        iterate.motion.advance(self.system, column, share);
    }

    /// What is said of a step that ends without stability.
    fn unstable(&mut self, reached: f64, tried: f64) -> Fault {
        Fault::Unstable {
            stable: reached,
            unstable: tried,
            node: self.weakest_node(),
        }
    }

    /// Factors the tangent of `balance`; at the start, where that is singular, one with all contacts
    /// closed. Returns the balance it belongs to, its negative pivots and whether it is the first;
    /// none where there is no factor.
    fn factorize(
        &mut self,
        iterate: &mut Iterate,
        balance: Balance,
        (share, iteration): (f64, usize),
        reached: f64,
        tried: f64,
    ) -> Result<Option<(Balance, usize, bool)>, Fault> {
        match self.work.factorize(self.system) {
            Ok(negative) => Ok(Some((balance, negative, true))),
            Err(fault) if iteration == 0 && !self.shell.contacts.is_empty() => {
                let balance =
                    self.tangent(&iterate.motion, tried, Touching::All, Acting::At(reached));
                let negative = self.work.factorize(self.system).map_err(|_| fault)?;
                Ok(Some((balance, negative, false)))
            }
            Err(fault) if iteration == 0 && reached == 0.0 => Err(fault),
            // In balance, but with nothing to keep it there.
            Err(Fault::Mechanism { node, .. }) if share <= self.steps.tolerance => {
                iterate.last = Fault::Unstable {
                    stable: reached,
                    unstable: tried,
                    node,
                };
                Ok(None)
            }
            Err(_) => Ok(None),
        }
    }

    /// The balance of forces at a share of the way, with its tangent in the workspace.
    fn tangent(&mut self, motion: &Motion, at: f64, touching: Touching, acting: Acting) -> Balance {
        let tangent = Some(Tangent {
            workspace: &mut *self.work,
            touching,
            acting,
        });
        self.path
            .balance(self.shell, self.system, motion, at, tangent)
    }

    /// As [`Self::tangent`], without the tangent.
    fn balance(&self, motion: &Motion, at: f64) -> Balance {
        self.path.balance(self.shell, self.system, motion, at, None)
    }

    /// The end of the way by corrections with the factor there is, the first of them `column`; none
    /// where they do not come to it or contacts change.
    fn settled(
        &mut self,
        iterate: &Iterate,
        tried: f64,
        (share, balance): (f64, &Balance),
        mut column: Vec<f64>,
    ) -> Option<End> {
        let motion = &iterate.motion;
        let mut end: Option<End> = None;
        loop {
            let before = end.as_ref().map_or(share, |end| end.residual);
            let mut corrected = end.as_ref().map_or(motion, |end| &end.motion).clone();
            corrected.advance(self.system, &column, 1.0);
            let balance = self.balance(&corrected, tried);
            let (residual, ..) = self.residual(&balance);
            if !(residual < before && balance.closed == iterate.closed) {
                break;
            }
            column = self.unknown(&balance.residual);
            end = Some(End {
                motion: corrected,
                balance,
                residual,
            });
            if residual <= self.steps.tolerance || residual > SLOW_CONVERGENCE * before {
                break;
            }
            self.work.solve(self.system, &mut column).ok()?;
        }
        let end = end.unwrap_or_else(|| End {
            motion: motion.clone(),
            balance: balance.clone(),
            residual: share,
        });
        (end.residual <= self.steps.tolerance).then_some(end)
    }

    /// The node that moves most in the lowest mode, by inverse iteration from a fixed start.
    fn weakest_node(&mut self) -> usize {
        let mut column: Vec<f64> = (0..self.system.unknowns())
            .map(|i| ((i % 7) as f64 - 3.0) + 0.5)
            .collect();
        for _ in 0..4 {
            if self.work.solve(self.system, &mut column).is_err() {
                break;
            }
            let size = column.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
            column.iter_mut().for_each(|v| *v /= size);
        }
        let shifts = column
            .iter()
            .zip(&self.system.owners)
            .filter(|(_, (_, f))| *f < 3);
        shifts
            .fold((0.0, 0), |best, (v, (node, _))| {
                if v.abs() > best.0 {
                    (v.abs(), *node as usize)
                } else {
                    best
                }
            })
            .1
    }

    /// Whether the contacts still change.
    fn chatters(&self, motion: &Motion, tried: f64, closed: &[bool]) -> bool {
        self.balance(motion, tried).closed != closed
    }

    /// How the unknowns answer to the constraints' change; `None` when they stay.
    fn constraint_response(
        &mut self,
        motion: &Motion,
        reached: f64,
        tried: f64,
    ) -> Result<Option<Vec<f64>>, Fault> {
        if self.path.constraints[0] == self.path.constraints[1] {
            return Ok(None);
        }
        let before = self.tangent(motion, reached, Touching::Closed, Acting::At(reached));
        self.work.factorize(self.system)?;
        let mut nudged = motion.clone();
        self.move_constraints(&mut nudged, reached, tried, DIFFERENCE_STEP);
        let after = self.balance(&nudged, reached);
        let (before, after) = (
            self.unknown(&before.residual),
            self.unknown(&after.residual),
        );
        let mut column: Vec<f64> = after
            .iter()
            .zip(&before)
            .map(|(a, b)| (a - b) / DIFFERENCE_STEP)
            .collect();
        self.work.solve(self.system, &mut column)?;
        Ok(Some(column))
    }

    fn move_constraints(&self, motion: &mut Motion, reached: f64, tried: f64, share: f64) {
        let [from, to] = &self.path.constraints;
        for ((constraint, from), to) in self.shell.constraints.iter().zip(from).zip(to) {
            let mut change = [0.0; 6];
            change[constraint.dof as usize] = (to - from) * (tried - reached) * share;
            motion.move_node(constraint.node, change);
        }
    }

    /// Share of the way along `column` at which the work of the residual is small.
    fn line_search(&self, motion: &Motion, tried: f64, start: &Balance, column: &[f64]) -> f64 {
        let work = |share: f64| {
            let mut trial = motion.clone();
            trial.advance(self.system, column, share);
            let balance = self.balance(&trial, tried);
            self.work_of(&balance, column)
        };
        let first = self.work_of(start, column);
        let whole = work(1.0);
        if first <= 0.0 || whole.abs() <= LINE_SEARCH_TOLERANCE * first {
            return 1.0;
        }
        if whole > 0.0 {
            return 1.0;
        }
        let (mut low, mut high) = ((0.0, first), (1.0, whole));
        // A plate stiffens with the cube of its deflection: the first guess.
        let mut share = if whole.is_finite() {
            (first / -whole).cbrt().min(0.9)
        } else {
            0.1
        };
        for _ in 0..LINE_SEARCH_TRIALS {
            let value = work(share);
            if value.abs() <= LINE_SEARCH_TOLERANCE * first {
                break;
            }
            // Halving the standing end keeps the secant from creeping (Illinois).
            if value > 0.0 {
                low = (share, value);
                high.1 *= 0.5;
            } else {
                high = (share, value);
                low.1 *= 0.5;
            }
            share = if high.1.is_finite() {
                low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1)
            } else {
                0.5 * (low.0 + high.0)
            };
        }
        share
    }

    fn work_of(&self, balance: &Balance, column: &[f64]) -> f64 {
        let owners = self.system.owners.iter().zip(column);
        owners
            .map(|(&(n, f), c)| balance.residual[n as usize][f as usize] * c)
            .sum()
    }

    fn unknown(&self, forces: &[[f64; 6]]) -> Vec<f64> {
        self.system
            .owners
            .iter()
            .map(|&(n, f)| forces[n as usize][f as usize])
            .collect()
    }

    /// Residual force on the unknowns as a share of the forces at work, and the node with most.
    fn residual(&self, balance: &Balance) -> (f64, usize, f64) {
        let size = self.typical_size();
        let square = |force: f64, dof: usize| {
            let value = if dof < 3 { force } else { force / size };
            value * value
        };
        let (mut left, mut at_work, mut worst) = (0.0, 0.0, (0.0, 0));
        for (node, equations) in self.system.equations.iter().enumerate() {
            let mut own = 0.0;
            for (dof, &equation) in equations.iter().enumerate() {
                let value = square(balance.residual[node][dof], dof);
                at_work += square(balance.external[node][dof], dof);
                if equation == NONE {
                    at_work += value
                } else {
                    own += value
                }
            }
            left += own;
            if own > worst.0 {
                worst = (own, node);
            }
        }
        // What rounding of the places leaves over cannot be brought lower.
        let least = self.rounding(balance) / self.steps.tolerance;
        let share = if left == 0.0 {
            0.0
        } else {
            (left / at_work.max(least * least)).sqrt()
        };
        (share, worst.1, worst.0.sqrt())
    }

    /// Residual force by the rounding of places alone: a few units in the last digit of size and
    /// displacement of each triangle, times its stiffness against stretch.
    fn rounding(&self, balance: &Balance) -> f64 {
        let triangles = self.shell.triangles.iter().zip(&self.system.planes);
        let sum: f64 = triangles
            .map(|(t, plane)| {
                let plate = &self.shell.plates[t.plate];
                let size = plane.flat.area.sqrt() + balance.farthest;
                let force = ROUNDING * plate.modulus * plate.thickness * size;
                force * force
            })
            .sum();
        sum.sqrt()
    }

    /// How large the shell is, m.
    fn extent(&self) -> f64 {
        let span = |axis: usize| {
            let along = self.shell.nodes.iter().map(|node| node.to_array()[axis]);
            let (low, high) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
                (low.min(at), high.max(at))
            });
            high - low
        };
        length([span(0), span(1), span(2)])
    }

    /// Size of a triangle, m: what moments are divided by to be compared with forces.
    fn typical_size(&self) -> f64 {
        let area: f64 = self.system.planes.iter().map(|p| p.flat.area).sum();
        let count = self.system.planes.len().max(1) as f64;
        if area > 0.0 {
            (2.0 * area / count).sqrt()
        } else {
            1.0
        }
    }
}
