//! The trade: from a job to a finished plan. Pure: no files, network, clock or printing.
//!
//! Data flows one way, a module a stage; each may use only those above it:
//! [`job`], [`finding`], `table`, `body`, [`panel`], [`seam`], `capacity`, `gauge`, `check`,
//! `cut`, `weld`, `plan`.

pub mod finding;
pub mod job;
pub mod panel;
pub mod seam;
