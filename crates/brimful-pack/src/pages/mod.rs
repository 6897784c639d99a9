//! The pages of the pack, in the order in which they are used.

mod cautions;
mod cutting;
mod defaults;
mod document;
mod fits;
mod fixtures;
mod gauge;
mod leak_test;
mod overview;
mod panels;
mod record;
mod room;
mod strength;
mod summary;
mod way_in;
mod welding;
mod whole;

use crate::error::PackError;
use crate::paper::Paper;
use crate::words::Words;
use brimful_tank::fit::Fit;
use brimful_tank::plan::Plan;
use document::Document;

/// All pages as one PDF.
pub fn pdf(
    plan: &Plan,
    fit: Option<&Fit>,
    paper: Paper,
    words: &Words<'_>,
) -> Result<Vec<u8>, PackError> {
    let mut document = Document::new(paper, words);
    summary::write(&mut document, plan, words);
    fits::write(&mut document, plan, fit, words);
    way_in::write(&mut document, plan, fit, words);
    overview::write(&mut document, plan, words);
    panels::write(&mut document, plan, words);
    cutting::write(&mut document, plan, words);
    welding::write(&mut document, plan, words);
    fixtures::write(&mut document, plan, words);
    gauge::write(&mut document, plan, words);
    leak_test::write(&mut document, plan, words);
    whole::write(&mut document, plan, words);
    strength::write(&mut document, plan, words);
    room::write(&mut document, plan, words);
    cautions::write(&mut document, plan, words);
    record::write(&mut document, plan, words);
    defaults::write(&mut document, plan, words);
    Ok(document.pdf()?)
}
