//! The trailer on the level road.

mod checks;

pub(super) use checks::CHECKS;
