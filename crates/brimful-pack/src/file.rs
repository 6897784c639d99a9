//! A file of the pack.

use crate::error::PackError;
use brimful_formats::error::FormatError;

/// One file of the pack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PackFile {
    /// Its name in the pack's directory, with `/` between directory and file.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// A file, or the fault of its writer with the file's name.
pub fn file(name: String, bytes: Result<Vec<u8>, FormatError>) -> Result<PackFile, PackError> {
    match bytes {
        Ok(bytes) => Ok(PackFile { name, bytes }),
        Err(fault) => Err(PackError::File { name, fault }),
    }
}
