//! Studies: many runs of the same rig, to find a limit, how loads change, or how sure a verdict is.

pub mod head;
pub mod interval;
pub mod place;
pub mod rates;
pub mod samples;
pub mod sweep;
pub mod uncertainty;
