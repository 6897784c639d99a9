//! One load step: Newton's method with a line search.

use super::Steps;
use super::motion::Motion;
use super::path::{Acting, Balance, Path, Tangent, Touching};
use crate::shell::element::Column;
use crate::shell::factor::Workspace;
use crate::shell::fault::Fault;
use crate::shell::model::Shell;
use crate::shell::small::length;
use crate::shell::system::{NONE, System};

/// Work left along the way, as a share of that at its start, with which a line search is content.
const CONTENT: f64 = 0.5;
/// Trials of a line search; each costs a tenth of a factorization or less.
const TRIALS: usize = 8;
/// Iterations of a step that are searched along. A plate that stiffens is brought near its answer by
/// the first; a strip that turns far only creeps when every stretch on its way is avoided.
const SEARCHED: usize = 1;
/// Iterations after which a step that leaves more over than the whole load is lost: those that
/// converge late are below a tenth by then.
const LOST: usize = 9;
/// Force left over, as a share of the forces at work, under which the tangent stands for that of the
/// end, in its pivots too: stability is told to a hundredth of the load, closer than the mesh tells
/// it. Corrections by its factor cost a third of an iteration each. Along a motion whose stiffness
/// changes its sign on what is left of the way they grow, and do not settle.
const NEAR: f64 = 1e-2;
/// Corrections by one factor that leave more than this share of what was left are too slow.
const SLOW: f64 = 0.1;
/// What has moved this many times as far as the shell is large does not come back; a strip that
/// rolls up may overshoot by its own length.
const FLOWN: f64 = 2.0;
/// Rounding of a displacement by the time it is a strain.
const ROUNDING: f64 = 8.0 * f64::EPSILON;
/// Part of the holds' change by which their effect on the unknowns is measured.
const NUDGE: f64 = 1e-5;

/// What came of a step.
pub(crate) enum Outcome {
    Stable { iterations: usize, end: Box<End> },
    Failed(Fault),
}

/// Where a step came to rest.
pub(crate) struct End {
    pub motion: Motion,
    pub balance: Balance,
    /// Force left over as a share of the forces at work.
    pub residual: f64,
}

/// What all steps have in common.
pub(crate) struct Search<'a> {
    pub shell: &'a Shell,
    pub system: &'a System,
    pub path: &'a Path,
    pub steps: &'a Steps,
    pub work: &'a mut Workspace,
}

impl Search<'_> {
    /// Goes from the share `reached` of the load to `tried`.
    ///
    /// An iterate that has lost its stability makes the step fail even when it ends stable: the
    /// shell may have snapped through. Where contacts changed, that alone may have been the
    /// reason, and the end counts.
    ///
    /// # Errors
    /// A mechanism in the shell as it stands, which no smaller step would mend.
    pub fn step(&mut self, mut motion: Motion, reached: f64, tried: f64) -> Result<Outcome, Fault> {
        if let Some(column) = self.hold_response(&motion, reached, tried)? {
            motion.advance(self.system, &column, 1.0);
            self.move_holds(&mut motion, reached, tried, 1.0);
        }
        let (mut closed, mut unsettled) = (Vec::new(), None);
        let mut unstable_on_the_way = false;
        let mut expected: Vec<Column> = Vec::new();
        let mut last = Fault::Solver {
            what: "no step was taken".into(),
        };
        for iteration in 0..=self.steps.iterations {
            // What is in balance at the start tells how the shell will answer. A strain that grows
            // while nothing moves yet would press on it as it never does.
            let acting = if iteration == 0 {
                Acting::At(reached)
            } else {
                Acting::Expected(&expected)
            };
            let tangent = Some(Tangent {
                workspace: &mut *self.work,
                touching: Touching::Closed,
                acting,
            });
            let mut balance = self
                .path
                .balance(self.shell, self.system, &motion, tried, tangent);
            let (share, node, force) = self.left_over(&balance);
            let flown_apart = balance.farthest > FLOWN * self.extent();
            if !share.is_finite() || flown_apart || (iteration >= LOST && share > 1.0) {
                break;
            }
            last = Fault::NotConverged {
                reached,
                tried,
                node,
                residual: force,
            };
            if iteration > 0 && closed != balance.closed {
                unsettled = closed.iter().zip(&balance.closed).position(|(a, b)| a != b);
            }
            closed = std::mem::take(&mut balance.closed);
            let mut is_own = true;
            let negative = match self.work.factorize(self.system) {
                Ok(negative) => negative,
                Err(fault) if iteration == 0 && !self.shell.contacts.is_empty() => {
                    let tangent = Some(Tangent {
                        workspace: &mut *self.work,
                        touching: Touching::All,
                        acting,
                    });
                    balance = self
                        .path
                        .balance(self.shell, self.system, &motion, tried, tangent);
                    is_own = false;
                    self.work.factorize(self.system).map_err(|_| fault)?
                }
                Err(fault) if iteration == 0 && reached == 0.0 => return Err(fault),
                // In balance, but with nothing to keep it there.
                Err(Fault::Mechanism { node, .. }) if share <= self.steps.tolerance => {
                    last = Fault::Unstable {
                        stable: reached,
                        unstable: tried,
                        node,
                    };
                    break;
                }
                Err(_) => break,
            };
            let mut column = self.unknown(&balance.left_over);
            if self.work.solve(self.system, &mut column).is_err() {
                break;
            }
            let converged = share <= self.steps.tolerance;
            let near = iteration > 0 && share <= NEAR && negative == 0;
            if is_own
                && (converged || near)
                && let Some(end) =
                    self.settled(&motion, tried, (share, &balance), column.clone(), &closed)
            {
                // An iterate without stability may be the contacts' doing while they change.
                let jumped = unstable_on_the_way && unsettled.is_none();
                return Ok(if jumped || negative > 0 {
                    Outcome::Failed(Fault::Unstable {
                        stable: reached,
                        unstable: tried,
                        node: self.weakest_node(),
                    })
                } else {
                    Outcome::Stable {
                        iterations: iteration + 1,
                        end: Box::new(end),
                    }
                });
            }
            unstable_on_the_way |= negative > 0;
            let share = if iteration < SEARCHED {
                self.line_search(&motion, tried, &balance, &column)
            } else {
                1.0
            };
            expected = self
                .path
                .expected(self.shell, self.system, &balance, tried, &column, share);
            motion.advance(self.system, &column, share);
        }
        Ok(Outcome::Failed(match unsettled {
            Some(contact)
                if matches!(last, Fault::NotConverged { .. })
                    && self.chatters(&motion, tried, &closed) =>
            {
                Fault::Chatter { tried, contact }
            }
            _ => last,
        }))
    }

    /// The end of the way by corrections with the factor there is, the first of them `column`; none
    /// where they do not come to it or contacts change.
    fn settled(
        &mut self,
        motion: &Motion,
        tried: f64,
        (share, balance): (f64, &Balance),
        mut column: Vec<f64>,
        closed: &[bool],
    ) -> Option<End> {
        let mut end: Option<End> = None;
        loop {
            let before = end.as_ref().map_or(share, |end| end.residual);
            let mut corrected = end.as_ref().map_or(motion, |end| &end.motion).clone();
            corrected.advance(self.system, &column, 1.0);
            let balance = self
                .path
                .balance(self.shell, self.system, &corrected, tried, None);
            let (residual, ..) = self.left_over(&balance);
            if !(residual < before && balance.closed == closed) {
                break;
            }
            column = self.unknown(&balance.left_over);
            end = Some(End {
                motion: corrected,
                balance,
                residual,
            });
            if residual <= self.steps.tolerance || residual > SLOW * before {
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
        self.path
            .balance(self.shell, self.system, motion, tried, None)
            .closed
            != closed
    }

    /// How the unknowns answer to the holds' change; `None` when the holds stay.
    fn hold_response(
        &mut self,
        motion: &Motion,
        reached: f64,
        tried: f64,
    ) -> Result<Option<Vec<f64>>, Fault> {
        if self.path.holds[0] == self.path.holds[1] {
            return Ok(None);
        }
        let tangent = Some(Tangent {
            workspace: &mut *self.work,
            touching: Touching::Closed,
            acting: Acting::At(reached),
        });
        let before = self
            .path
            .balance(self.shell, self.system, motion, reached, tangent);
        self.work.factorize(self.system)?;
        let mut nudged = motion.clone();
        self.move_holds(&mut nudged, reached, tried, NUDGE);
        let after = self
            .path
            .balance(self.shell, self.system, &nudged, reached, None);
        let (before, after) = (
            self.unknown(&before.left_over),
            self.unknown(&after.left_over),
        );
        let mut column: Vec<f64> = after
            .iter()
            .zip(&before)
            .map(|(a, b)| (a - b) / NUDGE)
            .collect();
        self.work.solve(self.system, &mut column)?;
        Ok(Some(column))
    }

    fn move_holds(&self, motion: &mut Motion, reached: f64, tried: f64, share: f64) {
        let [from, to] = &self.path.holds;
        for ((hold, from), to) in self.shell.holds.iter().zip(from).zip(to) {
            let mut change = [0.0; 6];
            change[hold.freedom as usize] = (to - from) * (tried - reached) * share;
            motion.move_node(hold.node, change);
        }
    }

    /// Share of the way along `column` at which the work of what is left over is small.
    fn line_search(&self, motion: &Motion, tried: f64, start: &Balance, column: &[f64]) -> f64 {
        let work = |share: f64| {
            let mut trial = motion.clone();
            trial.advance(self.system, column, share);
            let balance = self
                .path
                .balance(self.shell, self.system, &trial, tried, None);
            self.work_of(&balance, column)
        };
        let first = self.work_of(start, column);
        let whole = work(1.0);
        if first <= 0.0 || whole.abs() <= CONTENT * first {
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
        for _ in 0..TRIALS {
            let value = work(share);
            if value.abs() <= CONTENT * first {
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
            .map(|(&(n, f), c)| balance.left_over[n as usize][f as usize] * c)
            .sum()
    }

    fn unknown(&self, forces: &[[f64; 6]]) -> Vec<f64> {
        self.system
            .owners
            .iter()
            .map(|&(n, f)| forces[n as usize][f as usize])
            .collect()
    }

    /// Force left over on the unknowns as a share of the forces at work, and the node with most.
    fn left_over(&self, balance: &Balance) -> (f64, usize, f64) {
        let size = self.typical_size();
        let square = |force: f64, freedom: usize| {
            let value = if freedom < 3 { force } else { force / size };
            value * value
        };
        let (mut left, mut at_work, mut worst) = (0.0, 0.0, (0.0, 0));
        for (node, equations) in self.system.equations.iter().enumerate() {
            let mut own = 0.0;
            for (freedom, &equation) in equations.iter().enumerate() {
                let value = square(balance.left_over[node][freedom], freedom);
                at_work += square(balance.external[node][freedom], freedom);
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

    /// Force left over by the rounding of places alone: a few units in the last digit of size and
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
