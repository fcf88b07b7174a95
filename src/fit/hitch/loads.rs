//! What the tongue jack lifts.

use crate::fit::known::{Known, both};
use crate::fit::model::axle_shift;
use crate::fit::wheels::stations;
use crate::mechanics::road::balance;
use crate::quantity::{Length, Weight};
use crate::rig::Setup;

/// What the jack lifts; without its station, the tongue weight, which is a lower bound.
pub(in crate::fit) fn jack_load(setup: &Setup, tongue: Known<Weight>) -> Known<Weight> {
    let Some(jack) = setup.trailer.jack.station else { return tongue };
    let (tongue, stations) = both(tongue, stations(setup))?;
    let mean = stations.iter().copied().sum::<Length>() / stations.len() as f64 + axle_shift(setup);
    Ok(balance::jack_load(tongue, mean, jack).unwrap_or(tongue))
}
