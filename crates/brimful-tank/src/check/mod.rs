//! Checks of the finished tank: will it hold?
