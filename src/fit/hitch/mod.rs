//! What couples the trailer, from coupler to receiver, and the jack.

mod checks;

pub(super) use checks::CHECKS;
