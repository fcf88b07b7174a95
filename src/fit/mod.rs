//! Fit: demand against limit, verdicts and cures.
//!
//! [`assess`] computes every load and makes every check; [`examine`] adds what would cure what fails
//! and what a reader must know.

mod assess;
mod bunk_fit;
mod bunks;
mod caution;
mod check;
mod cure;
mod cut_sheet;
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
pub use bunk_fit::{BunkFit, CrossmemberFit};
pub use bunks::{
    Allowable, At, BesideFender, Bunk, BunkLoads, Decides, HullPressure, Landing, Lowest, Stern, Timber,
    beside_fender, board, crossmember_rating, crossmember_station, deadrise, ends, gear_clearance,
    half_spacings, keel_clearance, landings, lowest, road_factor, steepest, straight_run, supports, timber,
};
pub use caution::Caution;
pub use check::{
    Amount, Basis, Bounds, Certainty, Check, Counts, Judge, Measure, Of, Remedy, Row, Rows, Topic, Verdict,
};
pub use cure::{Cure, Room};
pub use cut_sheet::{
    BowBunkFit, CutSheet, GuideFit, Hole, WantedEnds, bow_bunks, cut_sheet, guides, idle, outward, packing,
    wanted_ends,
};
pub use gap::{About, Gap, Limit, Side, ramps_count};
pub use known::{Known, Missing};
pub use loads::{AsMeasured, Carried, CaseLoads, Model, Trial, Unfit};
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
    /// How the bunks fit, where the file describes any.
    pub bunks: Option<BunkFit>,
}

/// Assesses a rig and looks for what would cure it.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels.
pub fn examine(rig: &Rig) -> Result<Findings, Unfit> {
    let assessment = assess(rig)?;
    let model = Model::new(rig);
    let cures = cure::cures(&model, &rig.proposed, &assessment);
    let cautions = caution::cautions(rig, &model, &assessment);
    let bunks = bunk_fit::bunk_fit(&rig.proposed, &assessment);
    Ok(Findings { assessment, cures, cautions, bunks })
}
