//! The `brimful` command.
fn main() {}
