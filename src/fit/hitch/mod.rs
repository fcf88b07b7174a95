//! What couples the trailer, from coupler to receiver, and the jack.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
