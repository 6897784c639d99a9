//! Whether a tank that is laid out holds: [`load`] the load cases of a job, [`limit`] what sheet and weld
//! may take under each, [`quick`] panel by panel with published plate coefficients, [`whole`] the tank
//! as one shell.

pub mod limit;
pub mod load;
pub mod quick;
mod root;
pub mod whole;
