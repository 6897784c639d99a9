//! What is no difference in a measured space.

/// A volume below this is rounding, not plastic: a cube of a tenth of a millimetre.
pub const NO_VOLUME: f64 = 1e-12;

/// A tape is read to a millimetre; a side twisted by less is flat, metres.
pub(super) const TAPE: f64 = 1e-3;

/// Rounding of a corner on a plane, metres.
pub(super) const ROUNDING: f64 = 1e-9;
