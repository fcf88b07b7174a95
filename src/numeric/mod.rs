//! Searches along one variable, for any part of the crate: where a function is zero, and where it is greatest.

pub mod peak;
pub mod root;
