//! The verbs, a file each: from the call's arguments to the answer.

pub(crate) mod check;
pub(crate) mod cut;
pub(crate) mod explain;
pub(crate) mod fit;
pub(crate) mod gauge;
pub(crate) mod new;
#[cfg(feature = "papers")]
pub(crate) mod pack;
#[cfg(feature = "serve")]
pub(crate) mod serve;
pub(crate) mod slosh;
pub(crate) mod take;
pub(crate) mod weld;
