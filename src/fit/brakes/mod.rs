//! The brakes: whether there are any, what they do in a stop and on a descent, and whether that is enough.

mod checks;
mod loads;

pub(super) use checks::CHECKS;
pub use loads::{BrakeLoads, Descending, Heat, STOP, Stop, Stroke};
