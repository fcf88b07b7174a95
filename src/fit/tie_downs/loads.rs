//! What the tie-downs must hold of a boat, and what they do hold.

use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::fit::placement::transom_station;
use crate::fit::road::CaseLoads;
use crate::mechanics::FramePoint;
use crate::mechanics::tie_downs::{AFT, FORWARD, Lashing, PORT, STARBOARD, hold, hold_down, lead};
use crate::quantity::{Quantity, Weight, unit};
use crate::rig::inputs::{
    BOAT_LENGTH, TRAILER_KEEL_HEIGHT, TRAILER_TIE_DOWNS_BOAT_HEIGHT, TRAILER_TIE_DOWNS_BOAT_SIDE,
    TRAILER_TIE_DOWNS_BOAT_STATION, TRAILER_TIE_DOWNS_BREAKING, TRAILER_TIE_DOWNS_TRAILER_HEIGHT,
    TRAILER_TIE_DOWNS_TRAILER_SIDE, TRAILER_TIE_DOWNS_TRAILER_STATION, TRAILER_TIE_DOWNS_WORKING,
};
use crate::rig::{Setup, TieDown};

/// A motion of the boat on its trailer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Against {
    /// Forward, as in a stop.
    Forward,
    /// Aft.
    Rearward,
    /// To either side.
    Side,
}

/// What tie-downs may carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Strength {
    /// Day by day.
    Working,
    /// Before they break.
    Breaking,
}

impl Against {
    /// The acceleration that must be held, in g, within working limits and before anything breaks.
    ///
    /// Source: 49 CFR 393.102(a), read in the source.
    pub(super) fn demand(self, strength: Strength) -> f64 {
        match (self, strength) {
            (Self::Forward, Strength::Working) => 0.435,
            (Self::Forward, Strength::Breaking) => 0.8,
            (Self::Rearward, _) | (Self::Side, Strength::Breaking) => 0.5,
            (Self::Side, Strength::Working) => 0.25,
        }
    }
}

/// The share of its weight that holds the boat down. Source: 49 CFR 393.102(b), read in the source.
pub(super) const DOWN: f64 = 0.2;
/// The share of its weight that the working limits together come to. Source: 49 CFR 393.106(d), quoted.
pub(super) const TOGETHER: f64 = 0.5;
/// Friction that is shown, and counted nowhere. Common practice, no source.
const FRICTION: f64 = 0.3;
/// One tie-down for so much length of the boat, in metres: 10 ft. Source: 49 CFR 393.110, quoted.
const LENGTH_EACH: f64 = 120.0 * unit::INCH;

/// What the tie-downs hold together, whatever the boat weighs.
#[derive(Debug, Clone, PartialEq)]
pub struct TiedDown {
    /// Against forward motion, motion aft, and to either side, within working limits.
    pub working: [Known<Weight>; 3],
    /// The same before anything breaks.
    pub breaking: [Known<Weight>; 3],
    /// Downward, within working limits.
    pub down: Known<Weight>,
    /// All working limits: half of each from trailer to boat, the whole of one over the boat.
    pub together: Known<Weight>,
    /// How many there are.
    pub count: f64,
    /// How many the boat's length asks for.
    pub needed: Known<f64>,
}

/// What must be held of the boat in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct TieDownLoads {
    /// Forward, aft, and to a side, within working limits.
    pub working: Known<[Weight; 3]>,
    /// The same before anything breaks.
    pub breaking: Known<[Weight; 3]>,
    /// Downward.
    pub down: Known<Weight>,
    /// All working limits together.
    pub together: Known<Weight>,
    /// What friction would hold in any direction along the bunks; counted nowhere.
    pub friction: Known<Weight>,
}

const EVERY_WAY: [Against; 3] = [Against::Forward, Against::Rearward, Against::Side];

/// What the tie-downs hold, and what they must in each case; `None` where the file describes none.
pub fn tied_down(setup: &Setup, cases: &[CaseLoads]) -> Option<(TiedDown, Vec<TieDownLoads>)> {
    if setup.trailer.tie_downs.is_empty() {
        return None;
    }
    let held = |strength| EVERY_WAY.map(|way| holds(setup, way, strength));
    let tied = TiedDown {
        working: held(Strength::Working),
        breaking: held(Strength::Breaking),
        down: holds_down(setup),
        together: together(setup),
        count: count(setup),
        needed: number_needed(setup),
    };
    let must = |case: &CaseLoads| {
        let boat = || case.boat.clone();
        let all = |strength| boat().map(|boat| EVERY_WAY.map(|way| boat * way.demand(strength)));
        TieDownLoads {
            working: all(Strength::Working),
            breaking: all(Strength::Breaking),
            down: boat().map(|boat| boat * DOWN),
            together: boat().map(|boat| boat * TOGETHER),
            friction: boat().map(|boat| boat * FRICTION),
        }
    };
    Some((tied, cases.iter().map(must).collect()))
}

/// What holds the boat against a motion. A bow stop with a stated rating holds it against motion forward in place of the
/// tie-downs where it is more: it is stiff, so the two do not add.
pub(super) fn holds(setup: &Setup, way: Against, strength: Strength) -> Known<Weight> {
    let lines = lines(setup, strength);
    let tied = |direction| lines.clone().map(|lines| hold(&lines, direction));
    match way {
        Against::Forward => match (tied(AFT), setup.trailer.bow_stop_rating) {
            (Ok(tied), Some(stop)) => Ok(tied.max(stop)),
            (tied, _) => tied,
        },
        Against::Rearward => tied(FORWARD),
        Against::Side => both(tied(STARBOARD), tied(PORT)).map(|(one, other)| one.min(other)),
    }
}

/// What the tie-downs pull down with.
pub(super) fn holds_down(setup: &Setup) -> Known<Weight> {
    lines(setup, Strength::Working).map(|lines| hold_down(&lines))
}

/// Half of each working limit from trailer to boat, the whole of one over the boat.
pub(super) fn together(setup: &Setup) -> Known<Weight> {
    let tie_downs = setup.trailer.tie_downs.iter().enumerate();
    let counted = tie_downs.map(|(i, one)| {
        let share = if one.over == Some(true) { 1.0 } else { 0.5 };
        working(setup, i).map(|working| working * share * number(one))
    });
    each::<_, Vec<_>>(counted).map(|counted| counted.into_iter().sum())
}

/// How many tie-downs there are.
pub(super) fn count(setup: &Setup) -> f64 {
    setup.trailer.tie_downs.iter().map(number).sum()
}

/// How many the boat's length asks for: one more where nothing with a stated rating keeps it from going forward.
pub(super) fn number_needed(setup: &Setup) -> Known<f64> {
    let blocked = setup.trailer.bow_stop_rating.is_some();
    let length = need(setup, BOAT_LENGTH)?;
    // ⌈ℓ / 10 ft⌉; a length that is a hair over by rounding is not over.
    let by_length = (length.si() / LENGTH_EACH - 1e-9).ceil();
    Ok(by_length + if blocked { 0.0 } else { 1.0 })
}

fn number(tie_down: &TieDown) -> f64 {
    f64::from(tie_down.count.unwrap_or(1))
}

fn working(setup: &Setup, i: usize) -> Known<Weight> {
    known(setup.trailer.tie_downs[i].working, TRAILER_TIE_DOWNS_WORKING.of(i))
}

/// Every line between boat and trailer.
fn lines(setup: &Setup, strength: Strength) -> Known<Vec<Lashing>> {
    let all = (0..setup.trailer.tie_downs.len()).map(|i| lines_of(setup, i, strength));
    Ok(each::<_, Vec<_>>(all)?.concat())
}

/// The lines of one entry: its own, another mirrored where it goes over the boat, and for a pair the same on the other side.
fn lines_of(setup: &Setup, i: usize, strength: Strength) -> Known<Vec<Lashing>> {
    let tie_down = &setup.trailer.tie_downs[i];
    let limit = match strength {
        Strength::Working => working(setup, i),
        Strength::Breaking => known(tie_down.breaking, TRAILER_TIE_DOWNS_BREAKING.of(i)),
    };
    let (limit, (boat, trailer)) = both(limit, both(on_boat(setup, i), on_trailer(setup, i)))?;
    // The file's rules keep its ends apart as measured; what is moved may bring them together.
    let (direction, length) = lead(boat, trailer).ok_or_else(Missing::default)?;
    let line = Lashing { direction, length, limit, stretch: tie_down.stretch() };
    let over = tie_down.over == Some(true);
    let mut lines = vec![line];
    if over {
        lines.push(line.mirrored());
    }
    if tie_down.count == Some(2) {
        lines.extend(lines.clone().iter().map(|line| line.mirrored()));
    }
    Ok(lines)
}

/// A tie-down's end on the boat: behind the ball, above ground, to starboard.
fn on_boat(setup: &Setup, i: usize) -> Known<FramePoint> {
    let end = setup.trailer.tie_downs[i].boat;
    let station = known(end.station, TRAILER_TIE_DOWNS_BOAT_STATION.of(i));
    let height = known(end.height, TRAILER_TIE_DOWNS_BOAT_HEIGHT.of(i));
    let side = known(end.side, TRAILER_TIE_DOWNS_BOAT_SIDE.of(i));
    let place = both(transom_station(setup), need(setup, TRAILER_KEEL_HEIGHT));
    let (((station, height), y), (transom, keel)) = both(both(both(station, height), side), place)?;
    Ok(FramePoint { x: transom - station, z: keel + height, y })
}

/// Its end on the trailer. The tongue drawn in brings it nearer the ball.
fn on_trailer(setup: &Setup, i: usize) -> Known<FramePoint> {
    let end = setup.trailer.tie_downs[i].trailer;
    let station = known(end.station, TRAILER_TIE_DOWNS_TRAILER_STATION.of(i));
    let height = known(end.height, TRAILER_TIE_DOWNS_TRAILER_HEIGHT.of(i));
    let side = known(end.side, TRAILER_TIE_DOWNS_TRAILER_SIDE.of(i));
    let ((station, z), y) = both(both(station, height), side)?;
    Ok(FramePoint { x: station - setup.shift.tongue.unwrap_or_default(), z, y })
}
