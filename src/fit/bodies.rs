//! The bodies that a rig is made of, as its file lists them or scales show them.

use super::known::{Known, both, each, gathered, known, need};
use super::placement::{self, Heights, Scaled};
use super::wheels::{sharing, stations};
use crate::mechanics::road::balance;
use crate::mechanics::{Body, FramePoint};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::inputs::{
    MEASURED_GROSS_TRAILER_WEIGHT, MEASURED_TONGUE_WEIGHT, TRAILER_CG_HEIGHT, TRAILER_GVWR,
    TRAILER_LEVEL_BALL_HEIGHT, TRAILER_TONGUE_WEIGHT, TRAILER_WEIGHT,
};
use crate::rig::{Case, Setup};

/// Everything listed aboard in a case, in the trailer frame.
pub fn listed<'a>(
    setup: &'a Setup,
    case: &'a Case,
    heights: Heights,
    scaled: &'a Scaled,
) -> impl Iterator<Item = Known<Body>> + 'a {
    placement::aboard(
        setup,
        case,
        move |i| placement::item_body(setup, i, heights, scaled),
        move |i| placement::tank_body(setup, case, i, heights),
    )
}

/// The ball height at which the frame sits level.
pub fn level_ball_height(setup: &Setup) -> Known<Length> {
    need(setup, TRAILER_LEVEL_BALL_HEIGHT)
}

/// The trailer's own weight. A file that gives its capacity may not give its weight too: it lacks the GVWR.
pub fn trailer_weight(setup: &Setup) -> Known<Weight> {
    let lacking = if setup.trailer.capacity.is_some() { TRAILER_GVWR } else { TRAILER_WEIGHT };
    known(setup.trailer_weight(), lacking.key())
}

/// The trailer alone as it was measured.
pub fn trailer_body(measured: &Setup, heights: Heights) -> Known<Body> {
    trailer_body_at(measured, station_by_tongue(measured, measured), heights)
}

/// The trailer alone with its centre of gravity where its setup states it, else at this station.
pub fn trailer_body_at(setup: &Setup, by_tongue: Known<Length>, heights: Heights) -> Known<Body> {
    let trailer = &setup.trailer;
    let station = trailer.cg.map_or(by_tongue, Ok);
    let height = both(known(trailer.cg_height, TRAILER_CG_HEIGHT.key()), level_ball_height(setup));
    let height = heights.of(height.map(|(above_ground, level)| above_ground - level));
    let (weight, (x, z)) = both(trailer_weight(setup), both(station, height))?;
    Ok(Body { weight, at: FramePoint { x, z, y: Length::from_si(0.0) } })
}

/// Where the trailer's own centre of gravity lies by its tongue weight, the axles where `measured` has them.
pub fn station_by_tongue(setup: &Setup, measured: &Setup) -> Known<Length> {
    let tongue = need(setup, TRAILER_TONGUE_WEIGHT)?;
    let wheels = both(stations(measured), sharing(measured));
    let ((stations, sharing), weight) = both(wheels, trailer_weight(setup))?;
    let station = sharing.station_from_tongue_weight(weight, tongue, &stations);
    known(station, TRAILER_TONGUE_WEIGHT.key())
}

/// Trailer and boat in the measured first case, by the boat's items.
pub fn itemised(measured: &Setup, heights: Heights, scaled: &Scaled) -> Known<Body> {
    let boat = if measured.boat.weights.is_empty() {
        Err(placement::no_boat())
    } else {
        gathered(listed(measured, &measured.cases[0], heights, scaled), |bodies| balance::together(bodies))
    };
    both(trailer_body(measured, heights), boat).map(|(trailer, boat)| balance::together([trailer, boat]))
}

/// Boat and trailer as scales have them.
pub fn weighed(measured: &Setup) -> Known<Weight> {
    let scales = &measured.measured;
    let lacking =
        if scales.axles.is_empty() { MEASURED_GROSS_TRAILER_WEIGHT } else { MEASURED_TONGUE_WEIGHT };
    known(scales.gross(), lacking.key())
}

/// Weight of a boat known from scales, without its tanks.
pub fn scales_boat_weight(measured: &Setup) -> Known<Weight> {
    let gross = weighed(measured);
    let trailer = trailer_weight(measured);
    let tanks = placement::tanks_weight(measured, &measured.cases[0]);
    let ((gross, trailer), tanks) = both(both(gross, trailer), tanks)?;
    Ok(gross - trailer - tanks)
}

/// A boat known from scales as one body in the trailer frame, without its tanks.
///
/// What scales say of the whole rig gives its centre of gravity; trailer and tanks are taken out of it.
pub fn scales_boat(measured: &Setup, scaled: &Scaled) -> Known<Body> {
    let scales = both(weighed(measured), need(measured, MEASURED_TONGUE_WEIGHT));
    let wheels = both(stations(measured), sharing(measured));
    let tanks = each::<_, Vec<Body>>(listed(measured, &measured.cases[0], Heights::Asked, scaled));
    let parts = both(trailer_body(measured, Heights::Asked), tanks);
    let height = placement::scales_body_height(measured);
    let (((gross, tongue), (stations, sharing)), ((trailer, tanks), height)) =
        both(both(scales, wheels), both(parts, height))?;
    let station = sharing.station_from_tongue_weight(gross, tongue, &stations);
    let x = known(station, MEASURED_TONGUE_WEIGHT.key())?;
    let whole = Body { weight: gross, at: FramePoint { x, ..FramePoint::default() } };
    let others = balance::together(tanks.into_iter().chain([trailer]));
    let rest = known(balance::remainder(whole, others), MEASURED_GROSS_TRAILER_WEIGHT.key())?;
    // Scales show neither height nor side.
    let y = measured.boat.cg_side.unwrap_or_default();
    Ok(Body { weight: rest.weight, at: FramePoint { x: rest.at.x, z: height, y } })
}
