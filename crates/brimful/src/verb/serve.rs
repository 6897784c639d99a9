//! `brimful serve`: the page, on the loopback address.

use crate::fault::Failure;
use crate::outcome::Outcome;
use crate::serve::{self, Options};
use std::path::Path;

/// Serves until it is asked to end.
pub(crate) fn serve(folder: &Path, options: &Options) -> Result<Outcome, Failure> {
    serve::serve(folder, options)?;
    Ok(Outcome::Clear)
}
