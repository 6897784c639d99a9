//! The trade: from a job to a finished plan. Pure: no files, network, clock or printing.

pub mod job;
