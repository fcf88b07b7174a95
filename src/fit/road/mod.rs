//! The trailer on the level road.

mod checks;
mod loads;
mod weighed;

pub(super) use checks::CHECKS;
pub(super) use loads::ball_on_level;
pub use loads::{Carried, CaseLoads};
