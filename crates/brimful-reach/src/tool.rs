//! A tool as capsules: what lies along its axis, along the seam and along what is fed in.

/// A capsule on a line: the ends of its middle line along it, and its radius.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Where it begins, m from the place of work.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
    /// Its radius, m.
    pub radius: f64,
}

/// A tool that is held in one hand and drawn along a line.
#[derive(Clone, Debug, PartialEq)]
pub struct Tool {
    /// Along its axis, from the place of work back past the hand; the hand itself is the arm's.
    pub shaft: Vec<Part>,
    /// Along the line, ahead of the place of work. What the line itself runs along is not in its way.
    pub foot: Vec<Part>,
    /// How high over the line the middle of the foot is, m.
    pub foot_height: f64,
    /// What is fed in, square to the line or leaning from it, with the hand that feeds it.
    pub feed: Vec<Part>,
    /// How far what is fed in may lean from square, either way along the line, rad.
    pub feed_lean: f64,
    /// From the place of work to the middle of the hand, m.
    pub grip: f64,
    /// The angles between axis and line that are tried, rad: a quarter turn is square to it, less leans back from the
    /// travel.
    pub leans: Vec<f64>,
    /// The angles about the line, from the middle between what meets there, that are tried, rad.
    pub tilts: Vec<f64>,
}
