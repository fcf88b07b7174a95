//! Reports: findings in words and numbers. Nothing here computes a load.

pub mod bunks;
mod chart;
pub mod csv;
pub mod explain;
pub mod json;
pub mod place;
pub mod ramp;
pub mod sweep;
pub mod text;
mod uncertainty;
mod words;

use crate::fit::Findings;
use crate::quantity::show::{UnitSystem, plain};
use crate::rig::Rig;
use crate::study::uncertainty::Uncertainty;

/// What a report is made from.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The rig file's path, as the reader named it.
    pub path: &'a str,
    /// The rig.
    pub rig: &'a Rig,
    /// What was found.
    pub findings: &'a Findings,
    /// What its stated bounds do to the checks, where it has any and they were looked at.
    pub uncertainty: Option<&'a Uncertainty>,
    /// The units to speak in.
    pub units: UnitSystem,
}

impl Subject<'_> {
    /// What the rig is called, as it may be printed: its title, else its file.
    pub fn name(&self) -> String {
        plain(self.rig.proposed.title.as_deref().unwrap_or(self.path)).into_owned()
    }
}
