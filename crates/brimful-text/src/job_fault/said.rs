//! What a fault of a job file is told in.

use crate::text::Text;

/// What is wrong, and what to do.
pub(super) type Said = (Text, Text);
