//! The tow vehicle alone, and tow vehicle and trailer together.

use crate::fit::known::{Known, both, need};
use crate::mechanics::tow::TowVehicle;
use crate::quantity::Weight;
use crate::rig::Setup;
use crate::rig::inputs::{TOW_BALL_OVERHANG, TOW_FRONT_AXLE_LOAD, TOW_REAR_AXLE_LOAD, TOW_WHEELBASE};

/// The tow vehicle alone, loaded for the trip.
pub(in crate::fit) fn tow_vehicle(setup: &Setup) -> Known<TowVehicle> {
    let loads = both(need(setup, TOW_FRONT_AXLE_LOAD), need(setup, TOW_REAR_AXLE_LOAD));
    let lengths = both(need(setup, TOW_WHEELBASE), need(setup, TOW_BALL_OVERHANG));
    let ((front, rear), (wheelbase, overhang)) = both(loads, lengths)?;
    Ok(TowVehicle { front, rear, wheelbase, overhang })
}

/// Tow vehicle and trailer together.
pub(in crate::fit) fn combination(setup: &Setup, gross: Known<Weight>) -> Known<Weight> {
    let solo = both(need(setup, TOW_FRONT_AXLE_LOAD), need(setup, TOW_REAR_AXLE_LOAD));
    both(solo, gross).map(|((front, rear), gross)| front + rear + gross)
}
