//! Fit: demand against limit, verdicts and cures.
//!
//! [`assess`] computes every load and evaluates every check; [`examine`] adds cures for what fails and cautions.
//!
//! ```
//! use bunkline::{Rig, fit};
//!
//! let rig = Rig::parse(&std::fs::read_to_string("demo-data/fishing-skiff.toml")?)?;
//! let assessment = fit::assess(&rig)?;
//! assert_eq!(assessment.verdict, fit::RigVerdict::Pass);
//! let axle = assessment.check("axle-1").expect("the skiff's trailer has an axle");
//! assert_eq!(axle.verdict, fit::Verdict::Pass);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod asked;
mod assess;
mod bodies;
mod brakes;
mod bunks;
mod caution;
mod chain;
mod check;
mod comparison;
mod cure;
mod drawing;
mod facts;
mod frame;
mod glance;
mod hitch;
mod known;
mod launch;
mod level;
mod misread;
mod model;
mod placement;
mod ramp;
mod reason;
mod recalled;
mod registry;
mod road;
mod scaled;
mod scope;
mod shared;
mod slip;
mod sway;
mod tie_downs;
mod tow;
mod usual;
mod verdict;
mod wheels;
mod winch;

pub use asked::{Asked, Moved, Severity};
pub use assess::{
    Assessment, Deciding, Doubt, Range, Row, Uneven, assess_off_ramps, governing_crossing, ramp_rows,
};
pub use brakes::{BrakeLoads, Descending, Heat, STOP, Stop, Stroke};
pub use bunks::{
    Allowable, At, BesideFender, BowBunkFit, BowBunksBear, Bunk, BunkFit, BunkLoads, CrossmemberFit,
    CutSheet, Decides, GuideFit, Hole, HullPressure, Landing, Lowest, Stern, Timber, WantedEnds,
    beside_fender, board, board_size, bow_bunks, contact, crossmember_rating, crossmember_station, cut_sheet,
    deadrise, ends, gear_clearance, guides, half_spacings, idle, keel_clearance, landings, lowest, outward,
    packing, road_factor, standoff, steepest, straight_run, supports, timber, wanted_ends,
};
pub use caution::Caution;
pub use chain::Link;
pub use check::{
    Amount, Basis, Bound, Certainty, Check, Core, Judge, Limits, Measure, Of, Past, Remedy, Rows, Subject,
    ToldBy,
};
pub use comparison::{Bounds, Comparison, Fold, Inside, Limit, Side, Standing, Worst};
pub use cure::{Cure, Room};
pub use drawing::{Dimension, Drawing, Figure, Mark, Point, Role, Shape, View};
pub use facts::{Crossed, Facts, Needs};
pub use frame::{FrameLoads, RailLoads, RailsInStop, TongueLoads};
pub use glance::{Group, NeverLoaded};
pub use known::{Known, Missing};
pub use launch::{Closes, Event, Home, HullBy, Launch, LaunchLoads, NoLaunch, Pose, Sinks, Spot, Waterline};
pub use level::OffLevel;
pub use misread::{assess, is_contradicted};
pub use model::{AsMeasured, Model, Unfit};
pub use placement::{BoatPoint, Placement, ahead_of_ball, behind_ball};
pub use ramp::{AxlePeaks, Friction, Moment, Peak, Peaks, RampLoads, ramp_points, waters_edge};
pub use reason::{Figures, Reason, Source, lowered};
pub use recalled::Recalled;
pub use registry::{checks, find, titled, unknown_patterns};
pub use road::{Carried, CaseLoads, OnTires, PASSENGER_DIVISOR};
pub(crate) use road::{tire_allowed, tire_rating};
pub use scaled::Scaling;
pub use scope::Scope;
pub use slip::{Slip, gvwr_over_parts, gvwr_under_boat};
pub use sway::Swaying;
pub use tie_downs::{Against, TieDownLoads, TiedDown};
pub use usual::Usually;
pub use verdict::{Outcome, RigVerdict, Verdict, rig_verdict};
pub use winch::{AtPlace, Running, WinchLoads, shortest_strap};

use crate::rig::Rig;

/// A rig's assessment with what follows from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Findings {
    /// Loads, rows and verdict.
    pub assessment: Assessment,
    /// For each row that is outside its limits, by its place: what would cure it.
    pub cures: Vec<(usize, Vec<Cure>)>,
    /// What a reader must know.
    pub cautions: Vec<Caution>,
    /// What is done to every item of the boat so that the rig gives back its scale figures, where the policy trusts them.
    pub scaled: Option<Scaling>,
    /// How the bunks fit, where the file describes any.
    pub bunks: Option<BunkFit>,
    /// What ties the boat down, and what it must hold in each case, where the file describes any.
    pub tie_downs: Option<(TiedDown, Vec<TieDownLoads>)>,
}

impl Findings {
    /// An assessment alone, for a reader who asks for nothing else.
    pub fn brief(assessment: Assessment) -> Self {
        let (cures, cautions) = (Vec::new(), Vec::new());
        Self { assessment, cures, cautions, scaled: None, bunks: None, tie_downs: None }
    }
}

/// Assesses a rig and looks for what would cure it.
///
/// # Errors
/// [`Unfit`] when the trailer does not rest on its wheels.
pub fn examine(rig: &Rig) -> Result<Findings, Unfit> {
    examine_for(rig, None)
}

/// The same with cures for the rows of one subject alone, for a report of it; none is every one.
///
/// # Errors
/// As [`examine`].
pub fn examine_for(rig: &Rig, subject: Option<Subject>) -> Result<Findings, Unfit> {
    let assessment = assess(rig)?;
    let model = Model::new(rig);
    let cures = cure::cures(rig, &assessment, |row| row.is_of(subject));
    let cautions = caution::cautions(rig, &model, &assessment);
    let bunks = bunks::bunk_fit(rig.proposed(), &assessment);
    let tie_downs = tie_downs::tied_down(rig.proposed(), &assessment.cases);
    Ok(Findings { assessment, cures, cautions, scaled: model.scaling(), bunks, tie_downs })
}
