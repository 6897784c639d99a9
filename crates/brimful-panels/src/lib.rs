//! From a job to a tank that is laid out: space, body, panels and seams, the rooms for liquid with what
//! they hold, and what is laid into every seam. Pure: no files, network, clock or printing.
//!
//! Data flows one way, a module a stage; each may use only those above it:
//! [`name`], [`case`], [`table`], [`finding`], [`progress`], [`growth`], [`shape`], [`panel`],
//! [`fitting`], [`seam`], [`space`], [`way_in`], [`candidate`], [`site`], [`body`], [`panels`],
//! [`liquid`], [`port`], [`capacity`], [`gauge`], [`weld`].

pub mod body;
pub mod candidate;
pub mod capacity;
pub mod case;
pub mod finding;
pub mod fitting;
pub mod gauge;
pub mod growth;
pub mod liquid;
pub mod name;
pub mod panel;
pub mod panels;
pub mod port;
pub mod progress;
pub mod seam;
pub mod shape;
pub mod site;
pub mod space;
pub mod table;
pub mod way_in;
pub mod weld;
