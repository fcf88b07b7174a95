//! The tow vehicle, coupled.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
pub(super) use loads::{combination, tow_vehicle};
