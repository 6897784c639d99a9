//! `pack`: what was written, and whether the tank may be built from it.

use super::check::title;
use super::findings;
use super::layout::{Table, heading};
use crate::folder::NamedBytes;
use brimful_tank::plan::Plan;

/// The files of the pack.
pub(crate) fn pack(plan: &Plan, folder: &str, files: &[NamedBytes]) -> String {
    let mut text = title(plan);
    text.push_str(&heading(&format!("Build pack in {folder}")));
    let mut table = Table::new(&["file", ">bytes"]);
    for file in files {
        table.row([file.name.clone(), file.bytes.len().to_string()]);
    }
    text.push_str(&table.text());
    text.push_str(&findings::stops(plan));
    text.push_str(&findings::verdict(plan));
    text
}
