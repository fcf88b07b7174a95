//! What the tongue jack lifts.

use crate::fit::model::axle_shift;
use crate::mechanics::road::balance;
use crate::quantity::{Length, Weight};
use crate::rig::Setup;

/// What the jack lifts; without its station, the tongue weight, which is a lower bound.
pub(in crate::fit) fn jack_load(setup: &Setup, tongue: Weight) -> Weight {
    let stations: Option<Vec<Length>> = setup.trailer.axles.iter().map(|axle| axle.station).collect();
    let load = || {
        let stations = stations?;
        let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
        balance::jack_load(tongue, mean, setup.trailer.jack.station?)
    };
    load().unwrap_or(tongue)
}
