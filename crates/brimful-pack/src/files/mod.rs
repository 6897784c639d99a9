//! What other programs read: drawings at full size, the model, the lists.

mod deck;
mod drawing;
mod lists;
mod model;

pub use deck::deck;
pub use drawing::{panel_drawings, sheet_drawings};
pub use lists::lists;
pub use model::{glb, step};

use crate::PackFile;
use crate::error::PackError;
use brimful_formats::error::FormatError;

/// A file, or the fault of its writer with the file's name.
fn file(name: String, bytes: Result<Vec<u8>, FormatError>) -> Result<PackFile, PackError> {
    match bytes {
        Ok(bytes) => Ok(PackFile { name, bytes }),
        Err(fault) => Err(PackError::File { name, fault }),
    }
}

/// A name that every disk takes: small letters, digits and `-`.
fn plain(name: &str) -> String {
    let mut plain = String::new();
    for c in name.chars() {
        if c.is_ascii_alphanumeric() {
            plain.push(c.to_ascii_lowercase());
        } else if !plain.ends_with('-') {
            plain.push('-');
        }
    }
    plain.trim_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_fit_every_disk() {
        assert_eq!(plain("Left 2 / \"Süd\"..."), "left-2-s-d");
    }
}
