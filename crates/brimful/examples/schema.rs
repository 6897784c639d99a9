//! Prints the JSON Schema of the command's answers:
//! `cargo run --release -p brimful --example schema > docs/schema/brimful.schema.json`.

use std::io::Write;

fn main() -> std::io::Result<()> {
    writeln!(std::io::stdout(), "{:#}", brimful::wire::schema())
}
