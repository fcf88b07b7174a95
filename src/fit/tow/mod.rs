//! The tow vehicle, coupled.

mod checks;

pub(super) use checks::CHECKS;
