//! Repo chores.
fn main() {}
