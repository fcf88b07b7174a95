//! Studies: many runs of the same rig, to find a limit.

pub mod head;
