//! The text of a job, and the etag that tells one text from another.

use sha2::{Digest, Sha256};

/// The text of a job, with its etag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Text {
    pub(crate) text: String,
    pub(crate) etag: String,
}

impl Text {
    pub(crate) fn new(text: String) -> Self {
        let sum = Sha256::digest(text.as_bytes());
        let etag = sum[..12].iter().map(|byte| format!("{byte:02x}")).collect();
        Self { text, etag }
    }
}
