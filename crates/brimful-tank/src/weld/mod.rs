//! Welds.
