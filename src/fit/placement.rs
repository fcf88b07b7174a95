//! Where the boat sits on the trailer: the only way from a boat point to a frame point.

use super::known::{Known, Missing, both, gathered, known, need};
use crate::mechanics::{Body, FramePoint};
use crate::quantity::{Length, Quantity, STANDARD_GRAVITY, Weight};
use crate::rig::inputs::{
    BOAT_BOW_EYE_STATION, BOAT_CG_HEIGHT, BOAT_TANKS_CAPACITY, BOAT_TANKS_FILL, BOAT_TANKS_FLUID,
    BOAT_TANKS_HEIGHT, BOAT_TANKS_STATION, BOAT_WEIGHTS_HEIGHT, BOAT_WEIGHTS_STATION, BOAT_WEIGHTS_WEIGHT,
    TRAILER_BOW_STOP, TRAILER_KEEL_HEIGHT, TRAILER_LEVEL_BALL_HEIGHT,
};
use crate::rig::{Case, Key, Part, Setup, density};

/// A point of the boat.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct BoatPoint {
    /// Forward of the transom along the keel line.
    pub station: Length,
    /// Above the keel line.
    pub height: Length,
    /// To starboard of the centreline.
    pub side: Length,
}

/// Whether heights are asked for: with the frame level no load depends on one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Heights {
    /// They are.
    Asked,
    /// They are taken as zero.
    Ignored,
}

impl Heights {
    /// This height, where heights are asked for.
    pub(super) fn of(self, height: Known<Length>) -> Known<Length> {
        match self {
            Self::Asked => height,
            Self::Ignored => Ok(Length::default()),
        }
    }
}

/// What is done to every item of the boat: its weight is multiplied, its place moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Scaled {
    /// What each weight is multiplied by.
    pub factor: Known<f64>,
    /// How far aft each item is moved.
    pub aft: Known<Length>,
}

impl Scaled {
    /// They stay as they are listed.
    pub fn as_listed() -> Self {
        Self { factor: Ok(1.0), aft: Ok(Length::default()) }
    }
}

/// Where the boat's transom and keel line lie in the trailer frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placement {
    transom: Length,
    keel: Length,
}

impl Placement {
    /// The placement that a setup states, its shift included.
    ///
    /// # Errors
    /// The keys that are missing.
    pub fn of(setup: &Setup) -> Known<Self> {
        Self::with(setup, Heights::Asked)
    }

    fn with(setup: &Setup, heights: Heights) -> Known<Self> {
        let (transom, keel) = both(transom_station(setup), heights.of(keel(setup)))?;
        Ok(Self { transom, keel })
    }

    /// A boat point in the trailer frame.
    pub fn frame(&self, point: BoatPoint) -> FramePoint {
        // x = bow stop + bow eye − station, z = keel height + height − level ball height
        FramePoint { x: self.transom - point.station, z: self.keel + point.height, y: point.side }
    }
}

/// The transom behind the ball, the boat's shift included.
pub fn transom_station(setup: &Setup) -> Known<Length> {
    Ok(transom(setup)? + setup.shift.boat.unwrap_or_default())
}

/// The bow stop behind the ball, the boat's shift included; negative where it would stand ahead of the ball.
pub(super) fn stop_station(setup: &Setup) -> Known<Length> {
    both(transom_station(setup), need(setup, BOAT_BOW_EYE_STATION)).map(|(transom, eye)| transom - eye)
}

/// Less than this ahead of the ball is rounding, in metres.
const AT_BALL: f64 = 1e-6;

/// How far behind the ball the bow stop stands as proposed, where that is known: boat and ball come no nearer to each other than
/// this, as ahead of the ball there is no trailer to bolt a winch's post to.
pub fn behind_ball(setup: &Setup) -> Option<Length> {
    stop_station(setup).ok()
}

/// How far the bow stop stands ahead of the ball, where it does.
pub fn ahead_of_ball(setup: &Setup) -> Option<Length> {
    behind_ball(setup).filter(|stop| stop.si() < -AT_BALL).map(|stop| -stop)
}

fn transom(setup: &Setup) -> Known<Length> {
    if let Some(transom) = setup.transom() {
        return Ok(transom);
    }
    // Neither the transom nor both ends of the other way to it are there.
    let bow_stop = need(setup, TRAILER_BOW_STOP);
    let bow_eye = need(setup, BOAT_BOW_EYE_STATION);
    both(bow_stop, bow_eye).map(|(bow_stop, bow_eye)| bow_stop + bow_eye)
}

/// The keel line above the frame line.
fn keel(setup: &Setup) -> Known<Length> {
    let keel = need(setup, TRAILER_KEEL_HEIGHT);
    let level = need(setup, TRAILER_LEVEL_BALL_HEIGHT);
    both(keel, level).map(|(keel, level)| keel - level)
}

/// Weight of what one tank holds in a case.
pub fn tank_weight(setup: &Setup, case: &Case, tank: usize) -> Known<Weight> {
    let stated = &setup.boat.tanks[tank];
    let density = stated.density.or_else(|| stated.fluid.map(|fluid| density(fluid).0));
    let density = known(density, BOAT_TANKS_FLUID.of(tank));
    let capacity = known(stated.capacity, BOAT_TANKS_CAPACITY.of(tank));
    let fill = case.fill.get(tank).copied().flatten().or(stated.fill);
    let fill = known(fill, BOAT_TANKS_FILL.of(tank));
    let ((density, capacity), fill) = both(both(density, capacity), fill)?;
    // capacity × fill × density
    Ok(Weight::from_si(capacity.si() * fill.si() * density.si() * STANDARD_GRAVITY))
}

/// Weight of what all tanks aboard hold in a case.
pub fn tanks_weight(setup: &Setup, case: &Case) -> Known<Weight> {
    let aboard = (0..setup.boat.tanks.len()).filter(|i| case.carries(Part::Tank(*i)));
    gathered(aboard.map(|i| tank_weight(setup, case, i)), |weights| weights.sum())
}

/// One tank's contents in the trailer frame.
pub fn tank_body(setup: &Setup, case: &Case, tank: usize, heights: Heights) -> Known<Body> {
    let stated = &setup.boat.tanks[tank];
    let station = known(stated.station, BOAT_TANKS_STATION.of(tank));
    let height = heights.of(known(stated.height, BOAT_TANKS_HEIGHT.of(tank)));
    let place = both(both(station, height), Placement::with(setup, heights));
    let (weight, ((station, height), placement)) = both(tank_weight(setup, case, tank), place)?;
    let side = stated.side.unwrap_or_default();
    Ok(Body { weight, at: placement.frame(BoatPoint { station, height, side }) })
}

/// One item in the trailer frame.
pub fn item_body(setup: &Setup, item: usize, heights: Heights, scaled: &Scaled) -> Known<Body> {
    let stated = &setup.boat.weights[item];
    let station = known(stated.station, BOAT_WEIGHTS_STATION.of(item));
    let height = heights.of(known(stated.height, BOAT_WEIGHTS_HEIGHT.of(item)));
    let place = both(both(station, height), Placement::with(setup, heights));
    let body = both(both(item_weight(setup, item, scaled), scaled.aft.clone()), place);
    let ((weight, aft), ((station, height), placement)) = body?;
    let (station, side) = (station - aft, stated.side.unwrap_or_default());
    Ok(Body { weight, at: placement.frame(BoatPoint { station, height, side }) })
}

/// Weight of one item.
pub fn item_weight(setup: &Setup, item: usize, scaled: &Scaled) -> Known<Weight> {
    let listed = known(setup.boat.weights[item].weight, BOAT_WEIGHTS_WEIGHT.of(item));
    both(listed, scaled.factor.clone()).map(|(listed, factor)| listed * factor)
}

/// Everything listed aboard in a case, one after the other.
pub fn aboard<'a, T>(
    setup: &'a Setup,
    case: &'a Case,
    item: impl Fn(usize) -> Known<T> + 'a,
    tank: impl Fn(usize) -> Known<T> + 'a,
) -> impl Iterator<Item = Known<T>> + 'a {
    let items = (0..setup.boat.weights.len()).filter(|i| case.carries(Part::Weight(*i))).map(item);
    let tanks = (0..setup.boat.tanks.len()).filter(|i| case.carries(Part::Tank(*i))).map(tank);
    items.chain(tanks)
}

/// Where the keel of a boat known from scales lies: its body's height follows from its own key.
pub fn scales_body_height(setup: &Setup) -> Known<Length> {
    both(keel(setup), need(setup, BOAT_CG_HEIGHT)).map(|(keel, height)| keel + height)
}

/// How far the proposed boat sits aft of the measured one; by the shift alone where neither states a transom.
pub fn moved_aft(measured: &Setup, proposed: &Setup) -> Length {
    let shift = proposed.shift.boat.unwrap_or_default();
    match (measured.transom(), proposed.transom()) {
        (Some(from), Some(to)) => to - from + shift,
        _ => shift,
    }
}

/// What is missing when the boat is not described at all.
pub fn no_boat() -> Missing {
    Missing::key(no_boat_key())
}

/// The key that would begin to describe it.
pub fn no_boat_key() -> Key {
    BOAT_WEIGHTS_WEIGHT.of(0)
}
