//! A rig's bunks: where they touch the hull, what they carry, and what clears what.

mod brackets;
mod checks;
mod clearances;
mod cut_sheet;
mod fit;
mod fittings;
mod hull;
mod layout;
mod loads;
mod lowest;
mod ratings;
mod timber;

pub(super) use checks::CHECKS;
pub use clearances::{BesideFender, beside_fender, gear_clearance, keel_clearance};
pub(super) use clearances::{is_passed_over, rise_over_fender};
pub use cut_sheet::{CutSheet, Hole, WantedEnds, cut_sheet, idle, outward, wanted_ends};
pub(in crate::fit) use fit::bunk_fit;
pub use fit::{BunkFit, CrossmemberFit};
pub use fittings::{BowBunkFit, BowBunksBear, GuideFit, bow_bunks, guides};
pub(super) use hull::KEEL_OFF;
pub use hull::{Landing, contact, deadrise, landings, standoff, steepest, straight_run};
pub use layout::{crossmember_station, ends, half_spacings, supports};
pub(super) use layout::{is_reached, longest_span, under_bow_bunks};
pub(super) use loads::DEFLECTION_SHARE;
pub use loads::{At, Bunk, BunkLoads, HullPressure, Stern, road_factor};
pub use lowest::{Decides, Lowest, lowest};
pub(super) use ratings::bracket_rating;
pub use ratings::crossmember_rating;
pub(super) use timber::is_beyond_the_tables;
pub use timber::{Allowable, Timber, board, board_size, packing, timber};
