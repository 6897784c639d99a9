//! What a fault of a job file is said in.

use crate::text::Text;

/// What is wrong, and what to do.
pub(super) type Said = (Text, Text);
