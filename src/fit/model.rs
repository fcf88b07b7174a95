//! A rig made ready for the mechanics: its springs as measured, its bodies as proposed.

use super::bodies::{
    itemised, level_ball_height, listed, scales_boat, scales_boat_weight, station_by_tongue, trailer_body,
    trailer_body_at,
};
use super::known::{Known, both, each, gathered};
use super::placement::{self, BoatPoint, Heights, Placement, Scaled};
use super::scaled::{Scaling, scaled, scaling};
use super::wheels::{axles, equalizer_travel, sharing, stations};
use crate::mechanics::road::balance;
use crate::mechanics::{Body, Undercarriage, Unsettled};
use crate::quantity::{Length, Quantity, Weight};
use crate::rig::{Case, LevelMeasured, Rig, Setup};
use std::borrow::Cow;

// Every valid rig's axles fit the mechanics' lists.
const _: () = assert!(crate::rig::MAX_AXLES <= crate::mechanics::MAX_AXLES);

/// A case in which the trailer does not rest on its wheels.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("in the case \"{case}\", {why}")]
pub struct Unfit {
    /// The case's name.
    pub case: String,
    /// What happens.
    pub why: Unsettled,
}

/// A rig made ready for the mechanics: the springs as measured, the bodies as proposed.
#[derive(Debug)]
pub struct Model<'a> {
    rig: &'a Rig,
    measured: Cow<'a, AsMeasured>,
    undercarriage: Known<Result<Undercarriage, Unsettled>>,
    /// The same with the rear axle lifted.
    lifted: Known<Result<Undercarriage, Unsettled>>,
    trailer: Known<Body>,
}

/// What follows from a rig as it was measured, whatever is proposed: its springs, and a boat known from scales.
#[derive(Debug, Clone)]
pub struct AsMeasured {
    undercarriage: Known<Result<Undercarriage, Unsettled>>,
    /// The boat known from scales, where it stood then, without its tanks.
    scales_boat: Option<Known<Body>>,
    /// What brings the items to the scales.
    scaled: Scaled,
    trailer: TongueWeighed,
}

/// The trailer's own centre of gravity, where its tongue was weighed.
#[derive(Debug, Clone)]
struct TongueWeighed {
    weight: Option<Weight>,
    tongue: Option<Weight>,
    station: Known<Length>,
}

impl AsMeasured {
    /// What a rig says of its measured state.
    pub fn of(rig: &Rig) -> Self {
        let measured = &rig.measured();
        let scaled = scaled(measured);
        let scales_boat = measured.known_from_scales().then(|| scales_boat(measured, &scaled));
        let level_body = level_body(measured, scales_boat.as_ref(), &scaled);
        let wheels = both(both(axles(measured), equalizer_travel(measured)), level_ball_height(measured));
        let undercarriage = both(wheels, level_body).map(|(((axles, travel), height), body)| {
            Undercarriage::level_under(body, &axles, travel, height)
        });
        let trailer = TongueWeighed {
            weight: measured.trailer_weight(),
            tongue: measured.trailer.tongue_weight,
            station: station_by_tongue(measured, measured),
        };
        Self { undercarriage, scales_boat, scaled, trailer }
    }
}

impl<'a> Model<'a> {
    /// Prepares a rig.
    pub fn new(rig: &'a Rig) -> Self {
        Self::on(rig, Cow::Owned(AsMeasured::of(rig)))
    }

    /// Prepares one of many rigs that were all measured alike.
    pub fn proposing(rig: &'a Rig, measured: &'a AsMeasured) -> Self {
        Self::on(rig, Cow::Borrowed(measured))
    }

    fn on(rig: &'a Rig, measured: Cow<'a, AsMeasured>) -> Self {
        let moved = axle_shift(rig.proposed());
        let known = measured.undercarriage.as_ref().map_err(Clone::clone);
        let undercarriage =
            known.map(|wheels| wheels.as_ref().map(|wheels| wheels.moved_aft(moved)).map_err(|why| *why));
        let without_rear = |wheels: &Undercarriage| wheels.without_rear_axle();
        let known = undercarriage.as_ref().map_err(Clone::clone);
        let lifted = known.map(|wheels| wheels.as_ref().map(without_rear).map_err(|why| *why));
        let trailer = shifted_trailer(rig, &measured.trailer);
        Self { rig, measured, undercarriage, lifted, trailer }
    }

    pub(super) fn measured(&self) -> &'a Setup {
        self.rig.measured()
    }

    pub(super) fn proposed(&self) -> &'a Setup {
        self.rig.proposed()
    }

    pub(super) fn scaled(&self) -> &Scaled {
        &self.measured.scaled
    }

    /// The factor and the distance that bring the items to the scales, where the policy trusts these.
    pub fn scaling(&self) -> Option<Scaling> {
        scaling(self.measured(), &self.measured.scaled)
    }

    /// The wheels as proposed.
    pub(super) fn undercarriage(&self) -> &Known<Result<Undercarriage, Unsettled>> {
        &self.undercarriage
    }

    /// The same with the rear axle lifted.
    pub(super) fn without_rear_axle(&self) -> &Known<Result<Undercarriage, Unsettled>> {
        &self.lifted
    }

    /// The trailer alone, as proposed.
    pub(super) fn trailer(&self) -> &Known<Body> {
        &self.trailer
    }

    /// The boat and all aboard in a case as one body.
    pub(super) fn boat(&self, case: usize) -> Known<Body> {
        self.boat_body(&self.rig.proposed().cases[case])
    }

    /// Everything listed aboard in a case, each a body of its own; what scales alone know is one body.
    pub(super) fn parts(&self, case: usize) -> Known<Vec<Body>> {
        let case = &self.rig.proposed().cases[case];
        match &self.measured.scales_boat {
            Some(_) => Ok(vec![self.boat_body(case)?]),
            None => each(listed(self.rig.proposed(), case, Heights::Asked, &self.measured.scaled)),
        }
    }

    /// Boat and trailer in a case as one body.
    pub(super) fn body(&self, case: &Case) -> Known<Body> {
        let boat = self.boat_body(case);
        both(self.trailer.clone(), boat).map(|(trailer, boat)| balance::together([trailer, boat]))
    }

    /// Weight of the boat and all that is aboard in a case.
    ///
    /// # Errors
    /// The keys that are missing.
    pub fn boat_weight(&self, case: &Case) -> Known<Weight> {
        let setup = &self.rig.proposed();
        let listed = placement::aboard(
            setup,
            case,
            |i| placement::item_weight(setup, i, &self.measured.scaled),
            |i| placement::tank_weight(setup, case, i),
        );
        let listed: Known<Weight> = gathered(listed, |weights| weights.sum());
        let aboard = match &self.measured.scales_boat {
            Some(_) => {
                both(scales_boat_weight(self.rig.measured()), listed).map(|(body, tanks)| body + tanks)
            }
            None if setup.boat.weights.is_empty() => Err(placement::no_boat()),
            None => listed,
        };
        aboard.map(|weight| weight - ashore(setup))
    }

    /// The boat and all that is aboard in a case, as one body in the trailer frame.
    fn boat_body(&self, case: &Case) -> Known<Body> {
        let (measured, proposed) = (&self.rig.measured(), &self.rig.proposed());
        let aboard = match &self.measured.scales_boat {
            Some(body) => both(
                body.clone(),
                each::<_, Vec<Body>>(listed(proposed, case, Heights::Asked, &self.measured.scaled)),
            )
            .map(|(mut body, mut tanks)| {
                body.at.x += placement::moved_aft(measured, proposed);
                body.at.z += raised(measured, proposed);
                body.at.y = proposed.boat.cg_side.unwrap_or_default();
                tanks.push(body);
                balance::together(tanks)
            }),
            None if proposed.boat.weights.is_empty() => Err(placement::no_boat()),
            None => gathered(listed(proposed, case, Heights::Asked, &self.measured.scaled), |bodies| {
                balance::together(bodies)
            }),
        };
        aboard.map(|body| Body { weight: body.weight - ashore(proposed), ..body })
    }
}

/// What is left out of the boat in every case, at its centre of gravity.
fn ashore(setup: &Setup) -> Weight {
    setup.shift.ashore.unwrap_or_default()
}

/// How far aft a proposal moves the axles along the frame.
pub(super) fn axle_shift(setup: &Setup) -> Length {
    setup.shift.axles.unwrap_or_default() - setup.shift.tongue.unwrap_or_default()
}

/// The trailer alone with the proposal's shift: the tongue drawn in moves it whole, moved axles take
/// their own weight along where it is given.
fn shifted_trailer(rig: &Rig, weighed: &TongueWeighed) -> Known<Body> {
    let proposed = &rig.proposed();
    let as_weighed =
        proposed.trailer_weight() == weighed.weight && proposed.trailer.tongue_weight == weighed.tongue;
    let as_weighed = as_weighed && weighed.station.is_ok();
    let station =
        if as_weighed { weighed.station.clone() } else { station_by_tongue(proposed, rig.measured()) };
    let mut body = trailer_body_at(proposed, station, Heights::Asked)?;
    let axles_weight: Weight = proposed.trailer.axles.iter().filter_map(|axle| axle.weight).sum();
    body.at.x -= proposed.shift.tongue.unwrap_or_default();
    body.at.x += proposed.shift.axles.unwrap_or_default() * (axles_weight / body.weight);
    Ok(body)
}

/// What stood on the wheels when the frame was found level.
fn level_body(measured: &Setup, scales_boat: Option<&Known<Body>>, scaled: &Scaled) -> Known<Body> {
    if measured.trailer.level_measured == Some(LevelMeasured::Empty) {
        return trailer_body(measured, Heights::Asked);
    }
    let Some(body) = scales_boat else { return itemised(measured, Heights::Asked, scaled) };
    let tanks = each::<_, Vec<Body>>(listed(measured, &measured.cases[0], Heights::Asked, scaled));
    let boat = both(body.clone(), tanks);
    both(trailer_body(measured, Heights::Asked), boat)
        .map(|(trailer, (body, tanks))| balance::together(tanks.into_iter().chain([body, trailer])))
}

/// How far the body of a boat known from scales lies above where it was measured: with its keel, and in the boat.
fn raised(measured: &Setup, proposed: &Setup) -> Length {
    let rise = |from: Option<Length>, to: Option<Length>| Some(to? - from?);
    let keel = rise(measured.trailer.keel_height, proposed.trailer.keel_height);
    let in_boat = rise(measured.boat.cg_height, proposed.boat.cg_height);
    keel.unwrap_or_default() + in_boat.unwrap_or_default()
}

impl Model<'_> {
    /// The measured rig's gross weight and centre of gravity by its items, and by the scales, where it has both.
    pub fn itemised_and_weighed(&self) -> Option<(Body, Weight, Length)> {
        let measured = &self.rig.measured();
        if measured.boat.weights.is_empty() {
            return None;
        }
        let itemised = itemised(measured, Heights::Ignored, &Scaled::as_listed()).ok()?;
        let (gross, station) = self.weighed(Weight::default(), Weight::default())?;
        Some((itemised, gross, station))
    }

    /// The gross weight and the station of the centre of gravity by the scales, had they shown so much more.
    pub fn weighed(&self, more_gross: Weight, more_tongue: Weight) -> Option<(Weight, Length)> {
        let measured = &self.rig.measured();
        let gross = measured.measured.gross()? + more_gross;
        let tongue = measured.measured.tongue_weight? + more_tongue;
        let (stations, sharing) = both(stations(measured), sharing(measured)).ok()?;
        Some((gross, sharing.station_from_tongue_weight(gross, tongue, &stations)?))
    }

    /// Where the boat's own centre of gravity lies forward of its transom in a case, if that is known.
    pub fn boat_station(&self, case: &Case) -> Option<Length> {
        self.boat_point(case).map(|point| point.station)
    }

    /// Where the boat's own centre of gravity lies in the boat in a case, if that is known.
    pub fn boat_point(&self, case: &Case) -> Option<BoatPoint> {
        let placement = Placement::of(self.rig.proposed()).ok()?;
        let transom = placement.frame(BoatPoint {
            station: Length::from_si(0.0),
            height: Length::from_si(0.0),
            side: Length::from_si(0.0),
        });
        let at = self.boat_body(case).ok()?.at;
        Some(BoatPoint { station: transom.x - at.x, height: at.z - transom.z, side: at.y })
    }
}
