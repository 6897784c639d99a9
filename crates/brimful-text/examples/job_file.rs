//! Writes `docs/job-file.md` to standard output: the reference of the job file.
//!
//! `cargo run --release -p brimful-text --example job_file > docs/job-file.md`

#![allow(clippy::print_stdout, reason = "its output is a page")]

use brimful_text::Language;

fn main() {
    print!("{}", Language::English.reference_page());
}
