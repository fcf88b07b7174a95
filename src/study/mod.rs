//! Studies: many runs of the same rig, to find a limit, how loads change, or how sure a verdict is.
//!
//! [`place`] finds where a part must sit, [`sweep`] goes through a grid of values, [`uncertainty`] works
//! the corners of the stated bounds, and [`weigh`] fits the rig to readings of scales; each has an example.

pub mod baseline;
pub mod changes;
pub mod compare;
pub mod head;
pub mod interval;
pub mod launch;
pub mod place;
pub mod plan;
pub mod ramp;
mod ranges;
pub mod rates;
pub mod samples;
pub mod spec;
pub mod sway;
pub mod sweep;
pub mod uncertainty;
pub mod uses;
pub mod weigh;

use crate::fit::Unfit;
use crate::rig::Problems;

/// Why a changed rig cannot be evaluated.
#[derive(Debug, thiserror::Error)]
pub enum NoRig {
    /// Its values break a rule of the file.
    #[error("{0}")]
    Problems(Box<Problems>),
    /// The trailer does not rest on its wheels.
    #[error(transparent)]
    Unfit(#[from] Unfit),
}

impl From<Problems> for NoRig {
    fn from(problems: Problems) -> Self {
        Self::Problems(Box::new(problems))
    }
}
