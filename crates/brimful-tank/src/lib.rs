//! The trade's entry: from a job to a finished plan, and what fits a space. Pure: no files, network,
//! clock or printing.
//!
//! Data flows one way, a module a stage; each may use only those above it, and the crates of the
//! stages before, `brimful_panels` and `brimful_strength`:
//! [`room`], [`mass`], [`cut`], [`leak_test`], [`waits`], [`hours`], [`practice`], [`slosh`], [`remedy`], [`plan`], [`offer`], [`fit`].

pub mod cut;
pub mod fit;
pub mod hours;
pub mod leak_test;
pub mod mass;
pub mod offer;
pub mod plan;
pub mod practice;
pub mod remedy;
pub mod room;
pub mod slosh;
pub mod waits;
