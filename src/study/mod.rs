//! Studies: many runs of the same rig, to find a limit.

pub mod head;
pub mod interval;
pub mod place;
