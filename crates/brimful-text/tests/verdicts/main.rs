//! The verdict on every example is the one that is written down.

mod page;

#[test]
fn every_verdict_is_the_one_written_down() {
    let written = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/examples.md");
    let written = std::fs::read_to_string(written).unwrap_or_default();
    let found = page::page();
    for (was, is) in written.lines().zip(found.lines()) {
        assert_eq!(
            was, is,
            "run: cargo run --release -p brimful-text --example verdicts > docs/examples.md"
        );
    }
    assert_eq!(written.lines().count(), found.lines().count());
}
