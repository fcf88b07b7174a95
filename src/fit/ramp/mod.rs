//! A rig over its ramps.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
pub use loads::{AxlePeaks, Friction, Moment, Peak, Peaks, RampLoads, low_points, waters_edge};
