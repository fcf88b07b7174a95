//! The hull's bottom over the bunks: where it can bear, its deadrise, its keel, and the lines that edges land on.

use super::layout::{ends, half_spacings};
use crate::fit::known::{Known, Missing, both, each, known, need};
use crate::fit::placement::transom_station;
use crate::mechanics::bunks::Stretch;
use crate::quantity::{Angle, Length, Quantity};
use crate::rig::Setup;
use crate::rig::inputs::{
    BOAT_HULL_DEADRISE, BOAT_HULL_DEADRISE_DEADRISE, BOAT_HULL_DEADRISE_STATION, BOAT_HULL_STRAIGHT_RUN,
    BOAT_HULL_STRAKES_HALF_BREADTH, TRAILER_KEEL_HEIGHT,
};

/// A keel this much off what the bunks give contradicts them: half an inch, in metres. Common practice, no source.
pub(in crate::fit) const KEEL_OFF: f64 = 0.0127;

/// The deadrise that the bunks are cut to: the least along the contact.
///
/// # Errors
/// The keys that are missing; no key where the boat does not lie on its bunks and its deadrise is a list.
pub fn deadrise(setup: &Setup) -> Known<Angle> {
    deadrises(setup).map(|[least, _]| least)
}

/// The deadrise that presses sideways: the greatest along the contact.
///
/// # Errors
/// As [`deadrise`].
pub fn steepest(setup: &Setup) -> Known<Angle> {
    deadrises(setup).map(|[_, greatest]| greatest)
}

fn deadrises(setup: &Setup) -> Known<[Angle; 2]> {
    if let Some(range) = setup.deadrises_on_bunks() {
        return Ok(range);
    }
    if setup.boat.hull.deadrise_at.is_empty() {
        return Err(Missing::key(BOAT_HULL_DEADRISE.key()));
    }
    contact(setup)?;
    let listed = setup.boat.hull.deadrise_at.iter().enumerate().map(|(i, at)| {
        let station = known(at.station, BOAT_HULL_DEADRISE_STATION.of(i));
        both(station, known(at.deadrise, BOAT_HULL_DEADRISE_DEADRISE.of(i)))
    });
    each::<_, Vec<_>>(listed)?;
    // Bottom and bunks do not touch.
    Err(Missing::default())
}

/// How far the bunk that stands farther out stays off the bottom at a station behind the ball: y (tan β − tan β_least),
/// nothing where the bottom does not twist. None off the contact.
///
/// # Errors
/// The keys that are missing.
pub fn standoff(setup: &Setup, station: Length) -> Known<Option<Length>> {
    let (touching, [port, starboard]) = both(contact(setup), half_spacings(setup))?;
    if !touching.is_some_and(|contact| contact.contains(station)) {
        return Ok(None);
    }
    let least = deadrise(setup)?;
    let here = setup.boat.hull.deadrise(transom_station(setup)? - station).unwrap_or(least);
    // No less than nothing: at an end of the contact the two are rounded apart.
    let rise = (here.si().tan() - least.si().tan()).max(0.0);
    Ok(Some(port.max(starboard) * rise))
}

/// The part of the bottom that bunks can bear on, behind the ball.
///
/// # Errors
/// The keys that are missing.
pub fn straight_run(setup: &Setup) -> Known<Stretch> {
    let end = need(setup, BOAT_HULL_STRAIGHT_RUN);
    let (transom, end) = both(transom_station(setup), end)?;
    Ok(Stretch { forward: transom - end, aft: transom - support_from(setup) })
}

/// How far aft the bottom can bear, behind the ball.
pub(super) fn aft_limit(setup: &Setup) -> Known<Length> {
    Ok(transom_station(setup)? - support_from(setup))
}

pub(in crate::fit) fn support_from(setup: &Setup) -> Length {
    setup.boat.hull.support_from.unwrap_or_default()
}

/// Where bottom and bunks touch, behind the ball, or `None` where they do not.
///
/// # Errors
/// The keys that are missing.
pub fn contact(setup: &Setup) -> Known<Option<Stretch>> {
    both(straight_run(setup), ends(setup)).map(|(run, ends)| run.overlap(ends))
}

/// The keel above level ground, for clearances: as the file states it, or what its bunks give where that is lower by
/// more than a tape's error.
///
/// # Errors
/// The keys that are missing.
pub fn safe_keel(setup: &Setup) -> Known<Length> {
    let stated = need(setup, TRAILER_KEEL_HEIGHT)?;
    let by_bunks = setup.keel_on_bunks().filter(|by_bunks| (stated - *by_bunks).si() > KEEL_OFF);
    Ok(by_bunks.unwrap_or(stated))
}

/// The bunks' outer upper edge at which the keel comes to a height, at their present spacing.
pub(super) fn top_for(setup: &Setup, keel: Length) -> Known<Length> {
    let ([port, starboard], deadrise) = both(half_spacings(setup), deadrise(setup))?;
    Ok(keel + (port + starboard) / 2.0 * deadrise.si().tan())
}

/// The line along the hull that a bunk's outer edge lies nearest to.
#[derive(Debug, Clone, PartialEq)]
pub struct Landing {
    /// The strake's name; none is the chine.
    pub strake: Option<String>,
    /// How far outside the line the edge lies; negative inside.
    pub miss: Length,
}

/// The lines that the port and the starboard bunk's outer edges land on, the nearest each.
///
/// # Errors
/// The keys that are missing.
pub fn landings(setup: &Setup) -> Known<[Landing; 2]> {
    let hull = &setup.boat.hull;
    let strakes = hull.strakes.iter().filter_map(|strake| Some((strake.name.clone(), strake.half_breadth?)));
    let chine = hull.chine.half_breadth.map(|half_breadth| (None, half_breadth));
    let lines: Vec<(Option<String>, Length)> = strakes.chain(chine).collect();
    let spacings = half_spacings(setup);
    if lines.is_empty() {
        let missing = Missing::key(BOAT_HULL_STRAKES_HALF_BREADTH.of(0));
        return Err(spacings.map_or_else(|lacking| lacking.and(missing.clone()), |_| missing.clone()));
    }
    Ok(spacings?.map(|edge| {
        let misses = lines.iter().map(|(name, line)| (name, edge - *line));
        let nearest = misses.min_by(|(_, a), (_, b)| a.abs().si().total_cmp(&b.abs().si()));
        let (strake, miss) = nearest.map_or((None, Length::default()), |(name, miss)| (name.clone(), miss));
        Landing { strake, miss }
    }))
}
