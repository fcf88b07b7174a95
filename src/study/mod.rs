//! Studies: many runs of the same rig, to find a limit or how sure a verdict is.

pub mod head;
pub mod interval;
pub mod place;
pub mod samples;
pub mod uncertainty;
