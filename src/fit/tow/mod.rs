//! The tow vehicle, coupled.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
pub(super) use loads::{bars, combination, tow_vehicle};
