//! The build pack: a finished plan as named bytes.
