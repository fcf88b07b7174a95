//! Reports: findings in words and numbers. Nothing here computes a load.

mod chart;
pub mod csv;
pub mod explain;
pub mod json;
pub mod ramp;
pub mod sweep;
pub mod text;
mod words;

use crate::fit::Findings;
use crate::quantity::show::UnitSystem;
use crate::rig::Rig;

/// What a report is made from.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The rig file's path, as the reader named it.
    pub path: &'a str,
    /// The rig.
    pub rig: &'a Rig,
    /// What was found.
    pub findings: &'a Findings,
    /// The units to speak in.
    pub units: UnitSystem,
}
