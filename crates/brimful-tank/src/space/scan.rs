//! A scanned surface made into flats.

use super::measured::Shell;
use crate::job::Scan;
use crate::shape::ShapeFault;

/// The shell of a scan.
pub(super) fn shell(scan: &Scan) -> Result<Shell, ShapeFault> {
    Err(ShapeFault::new(&scan.place, "x", "y"))
}
