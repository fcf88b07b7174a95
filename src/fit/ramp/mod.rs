//! A rig over its ramps.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
pub use loads::{AxlePeaks, Friction, Moment, Peak, Peaks, RampLoads, ramp_points, waters_edge};
pub(super) use loads::{
    Crossing, bow_at, bow_on_level, clearance_on_level, grade_at_water, ground, hitch_spring, no_low_points,
    points_at, tow_shape,
};
