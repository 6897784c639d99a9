//! The commented job that a new file begins with.

/// The text of a starter job: a small plain box that can be built as it stands.
#[must_use]
pub fn starter() -> &'static str {
    include_str!("data/starter.job.toml")
}
