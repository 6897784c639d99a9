//! Quantities in SI, and how the shop writes and reads them.
