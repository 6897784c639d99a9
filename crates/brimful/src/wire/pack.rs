//! The pack's own list of its files, by which a later run knows that the folder is a pack.

use crate::named_bytes::NamedBytes;
use schemars::JsonSchema;
use serde::Serialize;
use std::path::Path;

/// The file of a pack that holds the whole document; a folder with it is an earlier pack.
pub(crate) const PACK_FILE: &str = "build-pack.json";

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

/// The names of the files that an earlier pack says it has; none where there is no such pack.
pub(crate) fn files_of_pack(list: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(list).unwrap_or_default();
    let document: serde_json::Value = serde_json::from_str(&text).unwrap_or_default();
    let names = document["pack"]["files"].as_array().into_iter().flatten();
    names
        .filter_map(|name| name.as_str().map(str::to_owned))
        .collect()
}
