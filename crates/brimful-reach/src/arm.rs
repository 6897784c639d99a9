//! An arm and the body it belongs to, as a chain of capsules.

/// The arm of somebody who holds a tool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arm {
    /// Radius of the hand about the grip, m.
    pub hand: f64,
    /// From the middle of the grip to the elbow, m.
    pub forearm: f64,
    /// Its radius, m.
    pub forearm_radius: f64,
    /// From elbow to shoulder, m.
    pub upper_arm: f64,
    /// Its radius, m.
    pub upper_arm_radius: f64,
    /// The most between the tool's axis and the forearm, rad.
    pub wrist: f64,
    /// The most that the elbow is bent, straight being nothing, rad.
    pub elbow: f64,
    /// Radius of head and shoulders where they follow the arm in, m.
    pub body_radius: f64,
    /// How far somebody leans in from the hips, m.
    pub lean_in: f64,
    /// From the place of work to where the arm comes out, the most, m.
    pub reach: f64,
}
