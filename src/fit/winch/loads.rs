//! What the winch must pull on each ramp in each case, and what that does to strap, post, hand and battery.

use crate::fit::bunks::steepest;
use crate::fit::known::{Known, both, known, need};
use crate::fit::ramp::grade_at_water;
use crate::fit::road::CaseLoads;
use crate::mechanics::winch::{Drum, Handle, Motor, Running, leads, post_moment, pull_needed, wedged};
use crate::mechanics::{FramePoint, Line};
use crate::quantity::{Angle, Length, Moment, Quantity, Share, Slope, Weight};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_BOW_EYE_HEIGHT, BOAT_BOW_EYE_STATION, BOAT_LENGTH, TRAILER_BOW_STOP, TRAILER_BUNKS_FRICTION,
    TRAILER_KEEL_HEIGHT, TRAILER_TRANSOM, TRAILER_WINCH_AFLOAT, TRAILER_WINCH_CORE, TRAILER_WINCH_EFFICIENCY,
    TRAILER_WINCH_FLANGE, TRAILER_WINCH_GEAR, TRAILER_WINCH_HANDLE, TRAILER_WINCH_HEIGHT,
    TRAILER_WINCH_NO_LOAD_CURRENT, TRAILER_WINCH_NO_LOAD_SPEED, TRAILER_WINCH_POST_HEIGHT,
    TRAILER_WINCH_POST_STATION, TRAILER_WINCH_RATED_CURRENT, TRAILER_WINCH_RATED_SPEED, TRAILER_WINCH_RATING,
    TRAILER_WINCH_STATION, TRAILER_WINCH_STRAP_LENGTH, TRAILER_WINCH_STRAP_THICKNESS,
};
use std::f64::consts::PI;

/// The winch at one place of the boat.
#[derive(Debug, Clone, PartialEq)]
pub struct AtPlace {
    /// The pull needed, or `None` where no pull moves the boat.
    pub needed: Known<Option<Weight>>,
    /// The pull that breaks a boat loose which stands on its bunks.
    pub breaks_loose: Known<Option<Weight>>,
    /// What the winch pulls on the layer that is wound there.
    pub pull: Known<Weight>,
}

impl AtPlace {
    fn new(needed: Known<Option<Weight>>, pull: Known<Weight>) -> Self {
        let breaks_loose = needed.clone().map(|needed| needed.map(|needed| needed * BREAKS_LOOSE));
        Self { needed, breaks_loose, pull }
    }

    /// The pull that the winch is good for there: 1.3 times as much, to break the boat loose, is what it pulls.
    ///
    /// # Errors
    /// The keys without which its pull is not known.
    pub fn good_for(&self) -> Known<Weight> {
        self.pull.clone().map(|pull| pull / BREAKS_LOOSE)
    }
}

/// A boat that stands on its bunks takes so many times the pull that keeps it moving. Common practice, no source.
pub(super) const BREAKS_LOOSE: f64 = 1.3;

/// The winch on one ramp in one case.
#[derive(Debug, Clone, PartialEq)]
pub struct WinchLoads {
    /// The ramp; none where the file describes none.
    pub ramp: Option<usize>,
    /// The case, counted among those asked for.
    pub case: usize,
    /// The slope of the bunks: the ramp's grade at the water.
    pub slope: Known<Slope>,
    /// The weight that does not float.
    pub dragged: Known<Weight>,
    /// From the eye at the stop to the drum: the line's angle above the bunks, and its length.
    pub line: Known<(Angle, Length)>,
    /// With the eye at the stop.
    pub home: AtPlace,
    /// With all of the strap paid out, along the bunks.
    pub far_out: AtPlace,
    /// What the line lifts the bow with at the stop.
    pub lift: Known<Option<Weight>>,
    /// The moment at the foot of the post, the eye at the stop.
    pub post: Known<Option<Moment>>,
    /// Diameter of the drum with all of the strap on it.
    pub diameter: Known<Length>,
    /// The longest strap with which the winch still draws the eye home; `None` where none does.
    pub longest: Known<Option<Length>>,
    /// The longest strap that the drum holds within its flange.
    pub fits: Known<Length>,
    /// The greatest force at the handle.
    pub hand: Known<Option<Weight>>,
    /// How the motor runs, the eye nearly home; `None` where it stalls.
    pub motor: Known<Option<Running>>,
}

/// The winch on every ramp in every case; where no ramp is described, in every case on an unknown one.
pub(in crate::fit) fn loads(setup: &Setup, cases: &[CaseLoads]) -> Vec<WinchLoads> {
    let ramps: Vec<Option<usize>> = match setup.ramps.len() {
        0 => vec![None],
        count => (0..count).map(Some).collect(),
    };
    let each = |ramp| cases.iter().enumerate().map(move |(case, loads)| on_ramp(setup, ramp, case, loads));
    ramps.into_iter().flat_map(each).collect()
}

fn on_ramp(setup: &Setup, ramp: Option<usize>, case: usize, loads: &CaseLoads) -> WinchLoads {
    let slope = grade_at_water(setup, ramp);
    let afloat = need(setup, TRAILER_WINCH_AFLOAT);
    let dragged =
        both(loads.boat.clone(), afloat).map(|(boat, afloat)| boat * (Share::from_si(1.0) - afloat));
    let line = line(setup);
    let needed = |angle: Known<Angle>| {
        let drags = both(both(dragged.clone(), slope.clone()), both(friction(setup), angle));
        drags.map(|((weight, slope), (friction, angle))| pull_needed(weight, slope, friction, angle))
    };
    let home = needed(line.clone().map(|(angle, _)| angle));
    let far_out = needed(Ok(Angle::default()));
    let at_home = both(home.clone(), line.clone());
    let drum = drum(setup);
    let rating = need(setup, TRAILER_WINCH_RATING);
    let longest = both(both(drum.clone(), rating.clone()), at_home.clone());
    WinchLoads {
        ramp,
        case,
        slope: slope.clone(),
        dragged: dragged.clone(),
        lift: at_home.clone().map(|(pull, (angle, _))| Some(pull? * angle.si().sin())),
        post: both(at_home.clone(), both(post_height(setup), post_offset(setup)))
            .map(|((pull, (angle, _)), (above, aft))| Some(post_moment(pull?, angle, above, aft))),
        diameter: diameter(setup),
        longest: longest
            .map(|((drum, rating), (pull, (_, reach)))| Some(drum.longest(rating, pull?)? + reach)),
        fits: both(drum, need(setup, TRAILER_WINCH_FLANGE)).map(|(drum, flange)| drum.within(flange)),
        hand: hand(setup, &home, &far_out),
        motor: motor(setup, &home),
        line,
        home: AtPlace::new(home, pull_home(setup)),
        far_out: AtPlace::new(far_out, rating),
    }
}

/// Friction, with what the wedge of the vee makes of it.
fn friction(setup: &Setup) -> Known<Share> {
    both(need(setup, TRAILER_BUNKS_FRICTION), steepest(setup))
        .map(|(friction, deadrise)| wedged(friction, deadrise))
}

fn drum(setup: &Setup) -> Known<Drum> {
    both(need(setup, TRAILER_WINCH_CORE), need(setup, TRAILER_WINCH_STRAP_THICKNESS))
        .map(|(core, thickness)| Drum { core, thickness })
}

/// Diameter of the drum with all of the strap on it.
pub(super) fn diameter(setup: &Setup) -> Known<Length> {
    both(drum(setup), need(setup, TRAILER_WINCH_STRAP_LENGTH)).map(|(drum, length)| drum.diameter(length))
}

/// From the bow eye at the stop to the drum: its angle above the bunks, and its length. What moves the boat moves the
/// winch's post with it.
pub(in crate::fit) fn line(setup: &Setup) -> Known<(Angle, Length)> {
    let heights = both(need(setup, TRAILER_KEEL_HEIGHT), need(setup, BOAT_BOW_EYE_HEIGHT));
    let eye = both(eye_at_stop(setup), heights.map(|(keel, eye)| keel + eye));
    let drum = both(need(setup, TRAILER_WINCH_STATION), need(setup, TRAILER_WINCH_HEIGHT));
    let (eye, drum) = both(eye, drum)?;
    let [eye, drum] = [eye, drum].map(|(x, z)| FramePoint { x, z, ..FramePoint::default() });
    let line = Line::between(eye, drum);
    Ok((line.angle_forward(), line.length()))
}

/// Where the bow eye comes home, behind the ball.
fn eye_at_stop(setup: &Setup) -> Known<Length> {
    if let Some(eye) = setup.eye_at_stop() {
        return Ok(eye);
    }
    match need(setup, TRAILER_TRANSOM) {
        Ok(transom) => need(setup, BOAT_BOW_EYE_STATION).map(|eye| transom - eye),
        Err(_) => need(setup, TRAILER_BOW_STOP),
    }
}

/// The strap on the drum with the eye at the stop.
fn wound_home(setup: &Setup) -> Known<Length> {
    both(need(setup, TRAILER_WINCH_STRAP_LENGTH), line(setup))
        .map(|(length, (_, reach))| (length - reach).max(Length::default()))
}

/// What the winch pulls with the eye at the stop.
pub(in crate::fit) fn pull_home(setup: &Setup) -> Known<Weight> {
    both(need(setup, TRAILER_WINCH_RATING), both(drum(setup), wound_home(setup)))
        .map(|(rating, (drum, wound))| rating * drum.share(wound))
}

/// Whether the winch uses more of its pull with the eye at the stop than far out, whatever the boat weighs and the ramp.
///
/// # Errors
/// The keys without which that is not known.
pub(super) fn is_worse_home(setup: &Setup) -> Known<bool> {
    let layer = both(drum(setup), wound_home(setup)).map(|(drum, wound)| drum.share(wound));
    let leads = both(friction(setup), line(setup))
        .map(|(friction, (angle, _))| leads(friction, angle).unwrap_or(0.0));
    // Home it uses T / (share P), far out T_far / P, and T_far = T × what the line leads by.
    both(layer, leads).map(|(layer, leads)| leads * layer.si() <= 1.0)
}

/// Turns that stay on the drum however much strap is paid out. Common practice, no source.
const TURNS_LEFT: f64 = 3.0;

/// The share of the boat's length that its eye is away from home when the strap is hooked on; so far a boat afloat is led by
/// hand or engine. Common practice, no source.
const PAID_OUT: f64 = 0.5;

/// The shortest strap to put on the winch: it reaches the bow eye half a boat's length short of the stop, and leaves three
/// turns on the drum. Common practice, no source.
///
/// # Errors
/// The keys without which that is not known.
pub fn shortest_strap(setup: &Setup) -> Known<Length> {
    let ((_, home), (boat, core)) =
        both(line(setup), both(need(setup, BOAT_LENGTH), need(setup, TRAILER_WINCH_CORE)))?;
    Ok(home + boat * PAID_OUT + core * (PI * TURNS_LEFT))
}

fn post_height(setup: &Setup) -> Known<Length> {
    both(need(setup, TRAILER_WINCH_HEIGHT), need(setup, TRAILER_WINCH_POST_HEIGHT))
        .map(|(drum, foot)| drum - foot)
}

fn post_offset(setup: &Setup) -> Known<Length> {
    both(need(setup, TRAILER_WINCH_STATION), need(setup, TRAILER_WINCH_POST_STATION))
        .map(|(drum, foot)| drum - foot)
}

/// The greater force at the handle of both places.
fn hand(
    setup: &Setup,
    home: &Known<Option<Weight>>,
    far_out: &Known<Option<Weight>>,
) -> Known<Option<Weight>> {
    let gear = known(setup.trailer.winch.gear, TRAILER_WINCH_GEAR.key());
    let works = both(gear, need(setup, TRAILER_WINCH_EFFICIENCY));
    let handle = both(need(setup, TRAILER_WINCH_HANDLE), works).map(|(radius, (gear, efficiency))| Handle {
        radius,
        gear,
        efficiency,
    });
    let pulls = both(home.clone(), far_out.clone());
    let ((handle, drum), (wound, (home, far_out))) =
        both(both(handle, drum(setup)), both(wound_home(setup), pulls))?;
    let force = |pull: Option<Weight>, wound| Some(handle.force(pull?, drum.lever(wound)));
    let far_out = force(far_out, Length::default());
    Ok(force(home, wound).zip(far_out).map(|(home, far_out)| home.max(far_out)))
}

fn motor(setup: &Setup, home: &Known<Option<Weight>>) -> Known<Option<Running>> {
    let currents = both(need(setup, TRAILER_WINCH_NO_LOAD_CURRENT), need(setup, TRAILER_WINCH_RATED_CURRENT));
    let speeds = both(need(setup, TRAILER_WINCH_NO_LOAD_SPEED), need(setup, TRAILER_WINCH_RATED_SPEED));
    let motor =
        both(currents, speeds).map(|((no_load_current, rated_current), (no_load_speed, rated_speed))| {
            Motor { no_load_current, rated_current, no_load_speed, rated_speed }
        });
    let strap = both(drum(setup), need(setup, TRAILER_WINCH_STRAP_LENGTH));
    let winch = both(both(motor, need(setup, TRAILER_WINCH_RATING)), strap);
    let (((motor, rating), (drum, length)), pull) = both(winch, home.clone())?;
    Ok(pull.and_then(|pull| motor.winds(rating, drum, length, pull)))
}
