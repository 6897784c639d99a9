//! Prints the OpenAPI description of the server behind the page:
//! `cargo run --release -p brimful --example openapi > docs/schema/openapi.json`.

use std::io::Write;

fn main() -> std::io::Result<()> {
    writeln!(std::io::stdout(), "{:#}", brimful::openapi())
}
