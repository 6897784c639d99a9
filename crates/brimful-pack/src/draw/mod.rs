//! Drawings: flat ink on a canvas in millimetres of paper, as SVG.
//!
//! Plain SI numbers inside: metres of tank, millimetres of paper.

pub mod angle_block;
pub mod answer;
pub mod canvas;
pub mod corner;
mod dimension;
pub mod groove;
pub mod judged;
pub mod panel;
pub mod picture;
mod projection;
pub mod pull_strip;
pub mod room;
mod scale;
pub mod sheet;
pub mod stick;
mod weld_symbol;
