//! For any part of the crate: searches along one variable, where a function is zero and where it is greatest; and the normal
//! distribution.

pub mod normal;
pub mod peak;
pub mod root;
