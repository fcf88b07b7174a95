//! The tow vehicle alone, and tow vehicle and trailer together.

use crate::fit::known::{Known, both, need};
use crate::fit::model::axle_shift;
use crate::fit::wheels::stations;
use crate::mechanics::tow::{Bars, TowVehicle, coupled};
use crate::quantity::{Length, Weight};
use crate::rig::inputs::{
    HITCH_WEIGHT_DISTRIBUTION_RESTORED, TOW_BALL_OVERHANG, TOW_FRONT_AXLE_LOAD, TOW_REAR_AXLE_LOAD,
    TOW_WHEELBASE,
};
use crate::rig::{Setup, WeightDistribution};

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

/// What bars that distribute weight do under a tongue weight; none without them.
pub(in crate::fit) fn bars(setup: &Setup, tongue: Known<Weight>) -> Known<Option<Bars>> {
    let stated = setup.hitch.weight_distribution;
    if stated == WeightDistribution::default() {
        return Ok(None);
    }
    let stations = stations(setup)?;
    let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
    if let Some(moment) = stated.moment {
        return Ok(Some(Bars::of_moment(moment, mean)));
    }
    let restored = need(setup, HITCH_WEIGHT_DISTRIBUTION_RESTORED);
    let ((restored, tongue), overhang) = both(both(restored, tongue), need(setup, TOW_BALL_OVERHANG))?;
    Ok(Some(Bars::restoring(restored, tongue, overhang, mean)))
}

/// Load that a case puts on one axle of the tow vehicle, coupled: it needs no more than the axle's own load alone, the tongue
/// weight and the ball's lever.
pub(super) fn on_axle(
    setup: &Setup,
    tongue: Known<Weight>,
    bars: Known<Option<Bars>>,
    axle: TowAxle,
) -> Known<Weight> {
    let alone = if axle == TowAxle::Front { TOW_FRONT_AXLE_LOAD } else { TOW_REAR_AXLE_LOAD };
    let lengths = both(need(setup, TOW_BALL_OVERHANG), need(setup, TOW_WHEELBASE));
    let loads = both(both(need(setup, alone), tongue), bars);
    let (((alone, tongue), bars), (overhang, wheelbase)) = both(loads, lengths)?;
    let tow = TowVehicle { front: alone, rear: alone, wheelbase, overhang };
    let coupled = coupled(tow, tongue, bars);
    Ok(if axle == TowAxle::Front { coupled.front } else { coupled.rear })
}

/// One of the tow vehicle's axles.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TowAxle {
    Front,
    Rear,
}
