//! The list of files by which a later run knows that a folder is a pack.

use std::path::Path;

/// The file of a pack that holds the whole document; a folder with it is an earlier pack.
pub(crate) const PACK_FILE: &str = "build-pack.json";

/// The names of the files that an earlier pack says it has; none where there is no such pack.
pub(crate) fn files_of_pack(list: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(list).unwrap_or_default();
    let document: serde_json::Value = serde_json::from_str(&text).unwrap_or_default();
    let names = document["pack"]["files"].as_array().into_iter().flatten();
    names
        .filter_map(|name| name.as_str().map(str::to_owned))
        .collect()
}
