//! A change that was tried, and what came of it.

use super::change::Change;
use super::trial::NoTrial;
use brimful_panels::finding::Finding;
use brimful_panels::finding::kind::Adds;
use brimful_strength::whole::Score;

/// A change that was tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What is changed.
    pub change: Change,
    /// What it comes to: under all loads where it went through all checks, else under those that governed.
    pub score: Result<Score, NoTrial>,
    /// Whether it went through all checks. What holds and did not has others before it that cost less.
    pub checked: bool,
    /// Whether the tank bears every load with it, as far as it was tried.
    pub holds: bool,
    /// What it adds.
    pub adds: Option<Adds>,
    /// What stops the build with it that does not without it: of each cause the worst.
    pub breaks: Vec<Finding>,
    /// How many causes stop the build with it.
    pub stops: usize,
    /// The share that it takes off what the tank holds below its air space.
    pub loses: f64,
}

impl Remedy {
    /// Whether it is shown to make the tank hold.
    pub fn is_shown(&self) -> bool {
        self.checked && self.holds
    }

    /// Whether it is, and breaks nothing else.
    pub fn cures(&self) -> bool {
        self.is_shown() && self.breaks.is_empty()
    }

    /// Whether it takes so much off what the tank holds that any other cure is better.
    pub fn loses_much(&self) -> bool {
        /// A tenth: a judgement, common practice.
        const MUCH: f64 = 0.1;
        self.loses > MUCH
    }
}
