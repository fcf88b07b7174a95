//! Whether a change makes a rig steadier: old and new with the same unknowns, at every end of what nobody knows of tires and
//! inertia. No verdict, no damping and no critical speed comes of it: those ends lie too far apart.

use crate::fit::{Swaying, assess_off_ramps};
use crate::mechanics::sway::damping;
use crate::numeric::root::edge;
use crate::quantity::{Quantity, Speed};
use crate::rig::{Rig, Setup, Tow};

/// What a change does to sway.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// A swing dies away sooner, whatever nobody knows.
    Steadier,
    /// It dies away later.
    LessSteady,
    /// What nobody knows decides which of both.
    CannotTell,
    /// None that matters.
    NoDifference,
    /// A swing dies away soon before and after.
    WellDamped,
}

/// How a rig sways beside how it did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sway {
    /// What the change does.
    pub change: Change,
    /// The speed at which both are compared: the trip's, or 60 mph.
    pub speed: Speed,
    /// The speed at which it is then as steady as it was at that one; only where it is steadier or less steady, and `None`
    /// where that is not found between half and twice the speed.
    pub as_steady_at: Option<Speed>,
}

/// The speed taken where the file states none: 60 mph.
const USUAL_SPEED: f64 = 60.0 * 0.447_04;
/// A swing that dies away with this share of critical damping is none to think of.
const WELL_DAMPED: f64 = 0.25;
/// Shares that differ by less are the same sign, and the same.
const SAME_SIGN: f64 = 0.001;
const SAME: f64 = 0.005;
/// A speed is found to this, in metres a second.
const NEAR: f64 = 0.01;
/// How far from the trip's speed an equally steady one is looked for.
const SPEEDS: [f64; 2] = [0.5, 2.0];

/// What becomes of sway from one setting of a rig to another; `None` where they are not one rig (another tow vehicle, other
/// tires or springs, another trailer), or the file says too little.
pub fn sway(old: &Rig, new: &Rig) -> Option<Sway> {
    if !is_one_rig(old.proposed(), new.proposed()) {
        return None;
    }
    let speed = old.proposed().trip.speed.unwrap_or(Speed::from_si(USUAL_SPEED));
    let (old, new) = (swaying(old)?, swaying(new)?);
    let shares: Vec<[f64; 2]> = (0..Swaying::CORNERS)
        .map(|corner| [share(&old, corner, speed), share(&new, corner, speed)])
        .collect();
    let softest = (0..shares.len()).min_by(|one, other| shares[*one][0].total_cmp(&shares[*other][0]))?;
    let change = judged(&shares);
    let moves = matches!(change, Change::Steadier | Change::LessSteady);
    let as_steady_at = moves.then(|| as_steady_at(&new, softest, shares[softest], speed)).flatten();
    Some(Sway { change, speed, as_steady_at })
}

/// Whether two rigs are settings of one: the same tow vehicle, its ball's overhang aside, and trailer, tires and springs.
fn is_one_rig(old: &Setup, new: &Setup) -> bool {
    let tow = |setup: &Setup| Tow { ball_overhang: None, ..setup.tow.clone() };
    let tires = |setup: &Setup| setup.trailer.axles.iter().map(|axle| axle.tires.clone()).collect::<Vec<_>>();
    tow(old) == tow(new)
        && tires(old) == tires(new)
        && old.trailer.suspension == new.trailer.suspension
        && old.trailer.length == new.trailer.length
        && old.boat.length == new.boat.length
        && old.trailer_weight() == new.trailer_weight()
}

fn swaying(rig: &Rig) -> Option<Swaying> {
    let found = assess_off_ramps(rig).ok()?;
    Swaying::of(rig, found.cases.first()?).ok()
}

/// The share of critical damping with which a swing dies away.
fn share(swaying: &Swaying, corner: usize, speed: Speed) -> f64 {
    let (towing, towed) = swaying.at(corner);
    // Where nothing swings all dies away at once.
    damping(&towing, &towed, speed).unwrap_or(1.0)
}

/// What old and new shares, corner by corner, come to.
fn judged(shares: &[[f64; 2]]) -> Change {
    let swings = shares.iter().filter(|[old, new]| *old < WELL_DAMPED || *new < WELL_DAMPED);
    let gains: Vec<f64> = swings.map(|[old, new]| new - old).collect();
    match () {
        () if gains.is_empty() => Change::WellDamped,
        () if gains.iter().all(|gain| gain.abs() <= SAME) => Change::NoDifference,
        () if gains.iter().all(|gain| *gain >= -SAME_SIGN) => Change::Steadier,
        () if gains.iter().all(|gain| *gain <= SAME_SIGN) => Change::LessSteady,
        () => Change::CannotTell,
    }
}

/// The speed at which the new rig's swing dies away as the old one's does at the trip's, at one corner.
fn as_steady_at(new: &Swaying, corner: usize, [old, now]: [f64; 2], speed: Speed) -> Option<Speed> {
    let gain = |u: f64| share(new, corner, Speed::from_si(u)) - old;
    let here = (speed.si(), now - old);
    let [slow, fast] = SPEEDS.map(|times| (speed.si() * times, gain(speed.si() * times)));
    let found = match (here.1 >= 0.0, slow.1 >= 0.0, fast.1 >= 0.0) {
        (true, _, false) => edge(here, fast, NEAR, gain),
        (false, true, _) => edge(slow, here, NEAR, gain),
        _ => return None,
    };
    Some(Speed::from_si(found))
}

#[cfg(test)]
mod tests {
    use super::{Change, judged};

    #[test]
    fn a_change_is_judged_by_the_corners_at_which_it_swings() {
        for (shares, change) in [
            (&[[0.10, 0.15], [0.20, 0.26], [0.50, 0.40]][..], Change::Steadier),
            (&[[0.10, 0.0995], [0.20, 0.26]], Change::Steadier),
            (&[[0.10, 0.05], [0.30, 0.20]], Change::LessSteady),
            (&[[0.10, 0.05], [0.20, 0.26]], Change::CannotTell),
            (&[[0.10, 0.104], [0.20, 0.196]], Change::NoDifference),
            (&[[0.26, 0.40], [0.50, 0.30]], Change::WellDamped),
        ] {
            assert_eq!(judged(shares), change, "{shares:?}");
        }
    }
}
