//! The pack as JSON: the list of its files.

use crate::named_bytes::NamedBytes;
use crate::pack_list::PACK_FILE;
use schemars::JsonSchema;
use serde::Serialize;

/// The pack that was written.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Pack {
    /// The folder, as it was given; null in the pack itself, which may be moved.
    pub(super) folder: Option<String>,
    /// The names of all its files.
    files: Vec<String>,
}

impl Pack {
    pub(super) fn new(files: &[&NamedBytes]) -> Self {
        let mut names: Vec<String> = files.iter().map(|file| file.name.clone()).collect();
        names.push(PACK_FILE.to_owned());
        names.sort();
        Self {
            folder: None,
            files: names,
        }
    }
}
