//! Checks of the tank as laid out: will it hold?
//!
//! [`load`] says what presses on it, [`limit`] what it may take. [`quick`] bends panel by panel by
//! published coefficients; [`whole`] the tank as one shell.

pub mod limit;
pub mod load;
pub mod quick;
pub mod whole;
