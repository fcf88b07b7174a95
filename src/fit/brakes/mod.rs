//! The brakes: whether there are any.

mod checks;

pub(super) use checks::CHECKS;
