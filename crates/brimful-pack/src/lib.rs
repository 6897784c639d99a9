//! The build pack: a finished plan as named bytes.
//!
//! [`pack`] turns a [`Plan`] into the pages for the bench and the files for the machine shop. It
//! asks the plan for every figure and works none out; all it adds is where ink goes. It touches
//! no disk, and the same plan gives the same bytes.
//!
//! `draw` makes drawings, `pages` puts them and the figures on paper, `files` writes what other
//! programs read.

mod draw;
mod error;
mod file;
mod files;
mod pages;
mod paper;
mod words;

pub use error::PackError;
pub use file::PackFile;
pub use paper::Paper;

use brimful_tank::fit::Fit;
use brimful_tank::plan::Plan;
use brimful_text::Language;
use words::Words;

/// The whole pack: the pages, a drawing file a panel and a sheet, the model in two forms, the
/// lists, and the strength check as a finite-element deck. `fit` is what fits the space of the job, if
/// that has one. All words are in `language`.
///
/// # Errors
/// [`PackError`] naming the file that cannot be made.
pub fn pack(
    plan: &Plan,
    fit: Option<&Fit>,
    paper: Paper,
    language: Language,
) -> Result<Vec<PackFile>, PackError> {
    let words = &Words::of(plan, language);
    let mut files = vec![PackFile {
        name: "build-pack.pdf".into(),
        bytes: pages::pdf(plan, fit, paper, words)?,
    }];
    files.extend(files::panel_drawings(plan, words)?);
    files.extend(files::sheet_drawings(plan, words)?);
    files.push(files::step(plan, words)?);
    files.push(files::glb(plan, words)?);
    files.extend(files::lists(plan, words)?);
    files.extend(files::deck(plan, words)?);
    Ok(files)
}
