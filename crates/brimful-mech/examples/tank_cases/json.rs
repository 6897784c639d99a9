//! Results as JSON.

use crate::tanks::Tank;

/// An object of members that are JSON already.
pub fn object(members: &[(&str, String)]) -> String {
    let members: Vec<String> = members
        .iter()
        .map(|(key, value)| format!("\"{key}\": {value}"))
        .collect();
    format!("{{{}}}", members.join(", "))
}

/// A number with all its digits.
pub fn number(value: f64) -> String {
    format!("{value:e}")
}

/// A list of numbers.
pub fn numbers(values: impl IntoIterator<Item = f64>) -> String {
    list(values.into_iter().map(number))
}

/// Lists of pairs of numbers.
pub fn curves(curves: &[Vec<[f64; 2]>]) -> String {
    list(
        curves
            .iter()
            .map(|curve| list(curve.iter().map(|pair| numbers(*pair)))),
    )
}

fn list(values: impl IntoIterator<Item = String>) -> String {
    format!("[{}]", values.into_iter().collect::<Vec<_>>().join(", "))
}

/// A tank, with the modulus that goes with the kind of solve.
pub fn tank(tank: &Tank, large: bool) -> String {
    let seams = tank.moments.iter().map(|m| {
        object(&[
            ("name", format!("\"{}\"", m.name)),
            ("flat", format!("\"{}\"", m.flat)),
            ("place", numbers(m.place)),
            ("across", numbers(m.across)),
        ])
    });
    let places = tank.deflections.iter().map(|d| {
        object(&[
            ("name", format!("\"{}\"", d.name)),
            ("place", numbers(d.place)),
            ("direction", numbers(d.direction)),
        ])
    });
    object(&[
        ("name", format!("\"{}\"", tank.name)),
        ("plan", list(tank.plan.iter().map(|p| numbers(*p)))),
        ("height", number(tank.height)),
        ("floor", tank.floor.to_string()),
        ("lid", tank.lid.to_string()),
        (
            "baffles",
            list(tank.baffles.iter().map(|b| list(b.map(numbers)))),
        ),
        ("thickness", number(tank.thickness)),
        ("modulus", number(tank.modulus(large))),
        ("poisson", number(tank.poisson)),
        ("deflections", list(places)),
        ("moments", list(seams)),
    ])
}
