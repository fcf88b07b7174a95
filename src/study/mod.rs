//! Studies: many runs of the same rig, to find a limit or to see how loads change.

pub mod head;
pub mod sweep;
