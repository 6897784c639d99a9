//! The trade: from a job to a finished plan. Pure: no files, network, clock or printing.
//!
//! Data flows one way, a module a stage; each may use only those above it:
//! [`name`], [`case`], [`table`], [`finding`], [`progress`], [`growth`], [`shape`], [`panel`], [`fitting`], [`seam`], [`space`], [`way_in`],
//! [`candidate`], [`site`], [`body`], [`panels`], [`liquid`], [`port`], [`capacity`], [`gauge`], [`weld`],
//! [`check`], [`room`], [`mass`], [`cut`], [`practice`], [`remedy`], [`plan`], [`offer`], [`fit`].

pub mod body;
pub mod candidate;
pub mod capacity;
pub mod case;
pub mod check;
pub mod cut;
pub mod finding;
pub mod fit;
pub mod fitting;
pub mod gauge;
pub mod growth;
pub mod liquid;
pub mod mass;
pub mod name;
pub mod offer;
pub mod panel;
pub mod panels;
pub mod plan;
pub mod port;
pub mod practice;
pub mod progress;
pub mod remedy;
pub mod room;
pub mod seam;
pub mod shape;
pub mod site;
pub mod space;
pub mod table;
pub mod way_in;
pub mod weld;
