//! The winch: what it must pull on each ramp, and what pulls at its strap, its post and the bow eye.

mod checks;
mod loads;

pub use crate::mechanics::winch::Running;
pub use loads::{AtPlace, WinchLoads, shortest_strap};

pub(super) use checks::CHECKS;
pub(super) use loads::{line, loads, pull_home};
