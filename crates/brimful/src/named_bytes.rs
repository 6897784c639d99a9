//! Files before they are written.

/// A file to be written: its name within the folder, with `/` between folders.
pub(crate) struct NamedBytes {
    /// Its name.
    pub(crate) name: String,
    /// What is in it.
    pub(crate) bytes: Vec<u8>,
}
