//! The trailer on the level road.

mod checks;
mod loads;
mod roll;
pub(super) mod size;
mod tire_checks;
mod tires;
mod weighed;

pub(super) use checks::CHECKS;
pub(super) use loads::ball_on_level;
pub use loads::{Carried, CaseLoads};
pub(super) use roll::CHECKS as ROLL_CHECKS;
pub(super) use tire_checks::CHECKS as TIRE_CHECKS;
pub use tires::{OnTires, PASSENGER_DIVISOR};
pub(crate) use tires::{tire_allowed, tire_rating};
pub(super) use tires::{tire_carries, tire_divisor};
