//! How many cases a law is tried on, and random spaces: a box, perhaps with a wall that leans in, less up to
//! three obstacles at its sides.
#![allow(dead_code, reason = "each user takes its share")]
#![allow(clippy::unwrap_used, reason = "a test may panic")]

pub mod whole_tank;

use brimful_job::{Job, Space};
use fastrand::Rng;
use std::fmt::Write;

/// A space in whole millimetres, so that its mirror image is exact.
#[derive(Clone, Debug)]
pub struct RandomSpace {
    pub size: [i64; 3],
    pub clearance: i64,
    /// How far the wall where y is greatest leans in at the top.
    pub lean: i64,
    /// Lower and upper corners.
    pub obstacles: Vec<[[i64; 3]; 2]>,
}

impl RandomSpace {
    pub fn new(rng: &mut Rng) -> Self {
        let mut between = |low: i64, high: i64| rng.i64(low..=high);
        let size = [between(500, 1500), between(400, 800), between(300, 600)];
        let lean = (between(0, 2) == 0) as i64 * between(10, 120);
        let clearance = between(2, 15);
        // Three make hundreds of bodies, so they are the rarest.
        let count = [0, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 3][between(0, 11) as usize];
        let obstacles = (0..count)
            .map(|_| {
                let (mut low, mut high) = ([0; 3], [0; 3]);
                for i in 0..3 {
                    low[i] = between(0, size[i] - 20);
                    high[i] = (low[i] + between(10, 4 * size[i] / 10)).min(size[i]);
                }
                // From a side inward, so that what is left rarely falls apart.
                let side = between(0, 2) as usize;
                if between(0, 1) == 0 {
                    low[side] = 0;
                    high[side] = between(10, 3 * size[side] / 10);
                } else {
                    low[side] = size[side] - between(10, 3 * size[side] / 10);
                    high[side] = size[side];
                }
                [low, high]
            })
            .collect();
        Self {
            size,
            clearance,
            lean,
            obstacles,
        }
    }

    /// The image in the plane midway along y.
    pub fn mirrored(&self) -> Self {
        let wide = self.size[1];
        let turn = |[low, high]: [[i64; 3]; 2]| {
            let ([a, b, c], [d, e, f]) = (low, high);
            [[a, wide - e, c], [d, wide - b, f]]
        };
        Self {
            obstacles: self.obstacles.iter().copied().map(turn).collect(),
            ..self.clone()
        }
    }

    /// A job; the wall that leans is where y is greatest, or least in a mirror image.
    pub fn job(&self, leans: &str) -> Job {
        let [long, wide, high] = self.size;
        let mut text = format!(
            "[job]\nlengths = \"mm\"\n[liquid]\nkind = \"water\"\n[[stock.sheet]]\nsize = [3000, 1500]\nthickness = 8\n\
             [space]\nbox = [{long}, {wide}, {high}]\nclearance = {}\n",
            self.clearance
        );
        if self.lean > 0 {
            writeln!(
                text,
                "[[space.wall]]\nname = \"{leans}\"\nlean = {}\nat = {high}",
                self.lean
            )
            .unwrap();
        }
        for (number, [low, high]) in self.obstacles.iter().enumerate() {
            writeln!(
                text,
                "[[space.obstacle]]\nname = \"{number}\"\nfrom = {low:?}\nto = {high:?}"
            )
            .unwrap();
        }
        Job::parse(&text).unwrap_or_else(|faults| panic!("{faults:?}\n{text}"))
    }

    pub fn space(&self, leans: &str) -> Space {
        self.job(leans).space.unwrap()
    }
}

/// So many cases, times what `make soak` asks for.
pub fn soaked(cases: usize) -> usize {
    let times = std::env::var("BRIMFUL_SOAK").ok();
    cases * times.and_then(|times| times.parse().ok()).unwrap_or(1)
}

/// A whole number from `low` to `high`.
pub fn between(rng: &mut Rng, low: i64, high: i64) -> i64 {
    rng.i64(low..=high)
}
