//! `pack`: what was written, and whether the tank may be built from it.

use super::findings;
use super::layout::{Table, heading};
use super::title::title;
use crate::named_bytes::NamedBytes;
use brimful_tank::plan::Plan;
use brimful_text::{Text, Words, say};

/// The files of the pack.
pub(crate) fn pack(plan: &Plan, words: &Words<'_>, folder: &str, files: &[NamedBytes]) -> String {
    let mut text = title(plan, words);
    let folder = words.given(folder);
    text.push_str(&heading(&say!(
        words,
        "Build pack in {folder}",
        folder = folder
    )));
    let mut table = Table::new(words, &["file", ">bytes"]);
    for file in files {
        table.row([words.given(&file.name), Text::from(file.bytes.len())]);
    }
    text.push_str(&table.text());
    text.push_str(&findings::stops(plan, words));
    text.push_str(&findings::verdict(plan, words));
    text
}
