//! Reports: findings in words and numbers. Nothing here computes a load.
//!
//! A builder makes a [`document::Document`] from findings: [`check`], [`compare`], [`ramp`], [`bunks`], [`place`], [`plan`],
//! [`weigh`], [`explain`].
//! [`text`], [`html`] and [`markdown`] turn a document into what is read. [`json`], [`csv`] and [`sweep`] are written for programs,
//! straight from the findings; [`schema`] says what a rig file may hold.

pub mod baseline;
pub mod bunks;
pub mod changes;
mod chart;
pub mod check;
pub mod compare;
pub mod csv;
pub mod document;
pub mod explain;
#[cfg(feature = "html")]
pub mod figure;
#[cfg(feature = "html")]
pub mod html;
pub mod json;
pub mod launch;
pub mod markdown;
mod page;
pub mod place;
pub mod plan;
mod plot;
pub mod ramp;
pub mod schema;
mod sections;
pub mod spec;
mod svg;
pub mod sweep;
pub mod text;
mod uncertainty;
pub mod weigh;
mod words;

pub use page::Extent;

use crate::fit::{Findings, Reason, Unfit};
use crate::quantity::show::UnitSystem;
use crate::rig::Rig;
use crate::study::uncertainty::Uncertainty;

/// Why a rig could not be assessed, with what is hardly meant of its values, where anything is.
pub fn unfit(rig: &Rig, unfit: &Unfit) -> String {
    let setup = rig.proposed();
    let implausible = setup.implausible();
    if implausible.is_empty() {
        return unfit.to_string();
    }
    let units = setup.units.map_or(UnitSystem::Us, UnitSystem::from);
    format!("{unfit}; {}", words::reason(&Reason::Implausible(implausible), rig, units))
}

/// What a report is made from.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// The rig file's path, as the reader named it.
    pub path: &'a str,
    /// The rig.
    pub rig: &'a Rig,
    /// What was found.
    pub findings: &'a Findings,
    /// What its stated bounds do to the checks, where it has any and they were evaluated.
    pub uncertainty: Option<&'a Uncertainty>,
    /// Whether what is uncertain was left out because the reader asked for that.
    pub as_stated: bool,
    /// The units to report in.
    pub units: UnitSystem,
}

impl Subject<'_> {
    /// The rig's title, else the path of its file.
    fn name(&self) -> &str {
        self.rig.proposed().title.as_deref().unwrap_or(self.path)
    }
}
