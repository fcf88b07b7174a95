//! Fit: demand against limit, verdicts and cures.
//!
//! [`assess`] computes every load and makes every check; [`examine`] adds what would cure what fails
//! and what a reader must know.

mod assess;
mod bunks;
mod caution;
mod check;
mod cure;
mod gap;
mod known;
mod loads;
mod needs;
mod placement;
mod plan;
mod ramp;
mod registry;

pub use assess::{
    Assessment, Loads, RigVerdict, Standing, assess, governing_crossing, most_used, ramp_rows, subjects,
};
pub use bunks::{
    Allowable, At, BesideFender, BowBunkFit, Bunk, BunkLoads, CutSheet, Decides, GuideFit, Hole,
    HullPressure, Landing, Lowest, Stern, Timber, WantedEnds, beside_fender, board, bow_bunks, contact,
    crossmember_rating, crossmember_station, cut_sheet, deadrise, ends, gear_clearance, guides,
    half_spacings, idle, keel_clearance, landings, lowest, outward, packing, road_factor, standoff, steepest,
    straight_run, supports, timber, wanted_ends,
};
pub use caution::Caution;
pub use check::{
    Amount, Basis, Bounds, Certainty, Check, Counts, Judge, Measure, Of, Remedy, Row, Rows, Topic, Verdict,
};
pub use cure::{Cure, Room};
pub use gap::{About, Gap, Limit, Side, ramps_count};
pub use known::{Known, Missing};
pub use loads::{AsMeasured, Carried, CaseLoads, Model, Unfit};
pub use needs::{Needs, Worked};
pub use placement::{BoatPoint, Placement};
pub use plan::{Made, Outlook, Plan, Planned};
pub use ramp::{AxlePeaks, Friction, Moment, Peak, Peaks, RampLoads, STEP, low_points, waters_edge};
pub use registry::{CHECKS, PASSENGER_DIVISOR, find};

use crate::rig::Rig;

/// A rig's assessment with what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings {
    /// Loads, checks, verdict.
    pub assessment: Assessment,
    /// For each row that is outside its limits, by its place: what would cure it.
    pub cures: Vec<(usize, Vec<Cure>)>,
    /// What a reader must know.
    pub cautions: Vec<Caution>,
}

/// Assesses a rig and looks for what would cure it.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels.
pub fn examine(rig: &Rig) -> Result<Findings, Unfit> {
    let assessment = assess(rig)?;
    let model = Model::new(rig);
    let cures = cure::cures(rig, &assessment);
    let cautions = caution::cautions(rig, &model, &assessment);
    Ok(Findings { assessment, cures, cautions })
}
