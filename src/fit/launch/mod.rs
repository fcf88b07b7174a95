//! Launching on each ramp in each case, and coming home.

mod checks;
mod home;
mod hull;
mod loads;
mod slipway;

pub use crate::mechanics::launch::floating::Sinks;
pub use crate::mechanics::launch::hull::Waterline;
pub use home::{Closes, Home};
pub use hull::HullBy;
pub use loads::{Launch, LaunchLoads};
pub use slipway::{Event, NoLaunch, Pose, Spot};

pub(super) use checks::CHECKS;
pub(super) use slipway::Slipway;
