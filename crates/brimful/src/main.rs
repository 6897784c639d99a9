//! The `brimful` command.

use std::process::ExitCode;

fn main() -> ExitCode {
    brimful::run()
}
