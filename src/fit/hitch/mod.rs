//! What couples the trailer, from coupler to receiver, and the jack.

mod checks;
mod loads;
mod plates;

pub(super) use checks::CHECKS;
pub(super) use plates::PLATE_CHECKS;
