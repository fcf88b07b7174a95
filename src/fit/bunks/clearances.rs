//! What the hull clears: crossmembers, fenders and the ground.

use super::hull::{deadrise, safe_keel, straight_run};
use super::layout::{crossmember_station, frame_shift, half_spacings};
use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::fit::placement::transom_station;
use crate::mechanics::bunks::{Beside, Fender, Gap, gap};
use crate::quantity::{Length, Quantity};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_BEAM, BOAT_HULL_CHINE_HALF_BREADTH, BOAT_HULL_CHINE_HEIGHT, BOAT_LOW_POINTS_HEIGHT,
    BOAT_LOW_POINTS_STATION, TRAILER_CROSSMEMBERS_CENTRE, TRAILER_CROSSMEMBERS_TOP, TRAILER_FENDERS_AFT_END,
    TRAILER_FENDERS_FORWARD_END, TRAILER_FENDERS_HALF_BREADTH, TRAILER_FENDERS_HEIGHT,
};

/// The clearances of the hull beside a fender.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideFender {
    /// The boat on its bunks, on the centreline.
    pub at_rest: Length,
    /// While it is loaded, with the play and trim that the policy states.
    pub loading: Option<Length>,
}

impl BesideFender {
    /// The lesser of both.
    pub fn least(self) -> Length {
        self.loading.map_or(self.at_rest, |loading| loading.min(self.at_rest))
    }
}

/// Whether the boat passes over a crossmember on its way onto the trailer; taken as so where that is unknown.
///
/// It passes over every one aft of where its bow comes to lie, those aft of its transom too. The foremost place counts
/// in which the file lets it lie, wherever it is proposed: moving it takes no clearance away.
pub(in crate::fit) fn is_passed_over(setup: &Setup, member: usize) -> bool {
    let passed = || {
        let length = setup.boat.length.or(setup.boat.bow_eye.station)?;
        let places = [setup.shift.boat, setup.travel.boat.map(|reach| reach.from)];
        let foremost = places.into_iter().flatten().fold(Length::default(), Length::min);
        let bow = setup.transom()? + foremost - length;
        let measured = setup.trailer.crossmembers[member].station?;
        Some(measured.max(measured + frame_shift(setup)) >= bow)
    };
    passed().unwrap_or(true)
}

/// The keel above a crossmember's middle.
///
/// # Errors
/// The keys that are missing.
pub fn keel_clearance(setup: &Setup, member: usize) -> Known<Length> {
    let keel = safe_keel(setup);
    let centre = setup.trailer.crossmembers[member].centre;
    let centre = known(centre, TRAILER_CROSSMEMBERS_CENTRE.of(member));
    both(keel, centre).map(|(keel, centre)| keel - centre)
}

/// The least clearance of one of the boat's low points above every crossmember that it passes on its way aft, and
/// above level ground.
///
/// A crossmember is taken straight from its middle to where the bunk's bracket stands.
///
/// # Errors
/// The keys that are missing.
pub fn gear_clearance(setup: &Setup, point: usize) -> Known<Length> {
    let Some(gear) = setup.boat.low_points.get(point) else {
        return Err(Missing::key(BOAT_LOW_POINTS_HEIGHT.of(point)));
    };
    let station = known(gear.station, BOAT_LOW_POINTS_STATION.of(point));
    let height = known(gear.height, BOAT_LOW_POINTS_HEIGHT.of(point));
    let keel = safe_keel(setup);
    let side = gear.side.unwrap_or_default();
    let ((station, height), (keel, transom)) =
        both(both(station, height), both(keel, transom_station(setup)))?;
    let x = transom - station;
    let bottom = keel + height;
    let passed = (0..setup.trailer.crossmembers.len()).map(|member| {
        if crossmember_station(setup, member)? < x {
            return Ok(None);
        }
        crossmember_height(setup, member, side).map(|top| Some(bottom - top))
    });
    let clearances: Vec<Option<Length>> = each(passed)?;
    Ok(clearances.into_iter().flatten().fold(bottom, Length::min))
}

/// A crossmember's top above ground, so far from the centreline.
fn crossmember_height(setup: &Setup, member: usize, side: Length) -> Known<Length> {
    let stated = setup.trailer.crossmembers[member];
    let centre = known(stated.centre, TRAILER_CROSSMEMBERS_CENTRE.of(member));
    if side.si() == 0.0 {
        return centre;
    }
    let top = known(stated.top, TRAILER_CROSSMEMBERS_TOP.of(member));
    let ((centre, top), spacings) = both(both(centre, top), half_spacings(setup))?;
    let bracket = (spacings[0] + spacings[1]) / 2.0;
    let share = (side.abs() / bracket).min(1.0.into());
    Ok(centre + (top - centre) * share)
}

/// The hull beside the fenders.
///
/// # Errors
/// The keys that are missing.
pub fn beside_fender(setup: &Setup) -> Known<BesideFender> {
    let (at_rest, loading) = fender_gaps(setup)?;
    Ok(BesideFender { at_rest: at_rest.clearance(), loading: loading.map(Gap::clearance) })
}

/// The gaps beside the fenders at rest, and while loading where the policy says how the boat may lie then.
fn fender_gaps(setup: &Setup) -> Known<(Gap, Option<Gap>)> {
    let policy = &setup.policy;
    let sink = match policy.loading_trim {
        Some(trim) => fender_reach(setup).map(|reach| reach * trim.si().tan()),
        None => Ok(Length::default()),
    };
    let ((hull, fender), sink) = both(both(beside(setup), fender(setup)), sink)?;
    let at_rest = gap(hull, fender, Length::default(), Length::default());
    let stated = policy.side_play.is_some() || policy.loading_trim.is_some();
    let loading = stated.then(|| gap(hull, fender, policy.side_play.unwrap_or_default(), sink));
    Ok((at_rest, loading))
}

/// How much the hull must rise to clear the fenders, or `None` where it clears them sideways.
///
/// # Errors
/// The keys that are missing.
pub(in crate::fit) fn rise_over_fender(setup: &Setup) -> Known<Option<Length>> {
    let (at_rest, loading) = fender_gaps(setup)?;
    let wanted = setup.policy.clearance.unwrap_or_default();
    let rises = [Some(at_rest), loading].into_iter().flatten().filter_map(|gap| gap.rise_for(wanted));
    Ok(rises.reduce(Length::max))
}

fn beside(setup: &Setup) -> Known<Beside> {
    let chine = setup.boat.hull.chine;
    let keel = safe_keel(setup);
    let half_breadth = known(chine.half_breadth, BOAT_HULL_CHINE_HALF_BREADTH.key());
    let height = known(chine.height, BOAT_HULL_CHINE_HEIGHT.key());
    let ((keel, deadrise), ((chine, chine_height), beam)) =
        both(both(keel, deadrise(setup)), both(both(half_breadth, height), need(setup, BOAT_BEAM)))?;
    Ok(Beside { keel, deadrise, chine, chine_height, half_beam: beam / 2.0 })
}

fn fender(setup: &Setup) -> Known<Fender> {
    let fenders = setup.trailer.fenders;
    let half_breadth = known(fenders.half_breadth, TRAILER_FENDERS_HALF_BREADTH.key());
    let height = known(fenders.height, TRAILER_FENDERS_HEIGHT.key());
    both(half_breadth, height).map(|(half_breadth, height)| Fender { half_breadth, height })
}

/// How far from the middle of the bottom's straight run the fenders reach.
fn fender_reach(setup: &Setup) -> Known<Length> {
    let fenders = setup.trailer.fenders;
    let forward = known(fenders.forward_end, TRAILER_FENDERS_FORWARD_END.key());
    let ends = both(forward, known(fenders.aft_end, TRAILER_FENDERS_AFT_END.key()));
    let (run, (forward, aft)) = both(straight_run(setup), ends)?;
    let moved = setup.shift.axles.unwrap_or_default() + frame_shift(setup);
    let from_middle = |station: Length| (station + moved - run.middle()).abs();
    Ok(from_middle(forward).max(from_middle(aft)))
}
